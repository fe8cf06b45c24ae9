/** The six-method model that the pad and the panel talk to, as a notebook would give it. */
export class Model {
  constructor(state, onSend = () => {}) { Object.assign(this, { state, waiting: {}, handlers: {}, onSend }); }
  get(name) { return this.state[name]; }
  set(name, value) { this.waiting[name] = value; }
  on(name, handler) { (this.handlers[name] ??= new Set()).add(handler); }
  off(name, handler) { this.handlers[name]?.delete(handler); }
  send() {}
  save_changes() {
    const changes = this.waiting;
    this.waiting = {};
    this.host(changes);
    this.onSend(changes);
  }
  /** A change from the host: set, then told to whoever listens. */
  host(changes) {
    Object.assign(this.state, changes);
    for (const name of Object.keys(changes)) for (const handler of [...(this.handlers[`change:${name}`] ?? [])]) handler();
  }
}
