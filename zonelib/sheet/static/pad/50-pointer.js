const REACH = { mouse: { point: 13, leg: 7, drag: 4 }, pen: { point: 14, leg: 9, drag: 5 }, touch: { point: 22, leg: 12, drag: 9 } };
const SNAP_PIXELS = 10;
const MOST_SNAP = 60;
const DOUBLE_CLICK = 400;

/** Pointer input on the drawing: draw, pick up, drag, pinch and pan; everything takes effect on release. */
class Pointer {
  constructor(surface, overlay, store) {
    Object.assign(this, { surface, overlay, store, press: null, touches: new Map(), lastPlaced: -Infinity });
    for (const name of ["pointerdown", "pointermove", "pointerup", "pointercancel", "pointerleave"]) surface.addEventListener(name, (e) => this[name](e));
    surface.addEventListener("wheel", (e) => this.wheel(e), { passive: false });
    surface.addEventListener("contextmenu", (e) => { if (e.pointerType === "touch") e.preventDefault(); });
  }

  /** mm per CSS pixel */
  get scale() { return 1 / (this.overlay.getScreenCTM()?.a || 1); }

  picture(event) {
    const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.overlay.getScreenCTM().inverse());
    return [p.x, p.y];
  }

  wall(event) { return fromPicture(this.store.state.task, this.store.state.face, this.picture(event)); }

  hit(event) {
    const { state } = this.store;
    const reach = REACH[event.pointerType] ?? REACH.mouse;
    return toolOf(state.task).hit(state, this.wall(event), { point: reach.point * this.scale, leg: reach.leg * this.scale });
  }

  where(event) { return { at: this.wall(event), reach: Math.min(SNAP_PIXELS * this.scale, MOST_SNAP), fine: event.altKey }; }

  pointerdown(event) {
    if (event.pointerType === "touch") this.touches.set(event.pointerId, event);
    if (this.touches.size > 1) return this.startPinch();
    if (event.button !== 0 && event.button !== 1) return;
    this.surface.setPointerCapture(event.pointerId);
    const pan = event.button === 1 || this.store.state.mode === "view";
    this.press = { id: event.pointerId, start: event, last: event, dragging: false, pan, hit: this.hit(event), carrying: this.store.state.held !== null };
  }

  pointermove(event) {
    if (this.touches.has(event.pointerId)) this.touches.set(event.pointerId, event);
    if (this.pinch) return this.movePinch();
    if (this.press?.pan) return this.movePan(event);
    if (this.press && !this.press.dragging && this.travelled(event)) this.startDrag();
    const { held, mode } = this.store.state;
    if (held || (mode !== "view" && mode !== "adjust")) this.store.dispatch({ type: "hover", ...this.where(event) });
    if (!this.press) this.surface.dataset.over = mode === "view" ? "view" : held ? "held" : this.hit(event).kind;
  }

  travelled(event) {
    const { start } = this.press;
    return Math.hypot(event.clientX - start.clientX, event.clientY - start.clientY) > (REACH[event.pointerType] ?? REACH.mouse).drag;
  }

  startDrag() {
    const { hit, carrying } = this.press;
    this.press.dragging = true;
    if (!carrying) this.store.dispatch({ type: "grab", hit, ...this.where(this.press.start) });
  }

  pointerup(event) {
    this.touches.delete(event.pointerId);
    if (this.pinch) return this.endPinch();
    const { press } = this;
    this.press = null;
    if (!press || press.id !== event.pointerId || press.pan) return;
    if (press.dragging || press.carrying) this.release(event, press);
    else this.tap(event, press.hit);
  }

  release(event, press) {
    if (this.store.state.held) {
      this.store.dispatch({ type: "hover", ...this.where(event) });
      this.store.dispatch({ type: "drop" });
    } else if (press.hit.kind === "empty") this.tap(event, press.hit);
  }

  /** A click or tap; `again` is the second half of a double one, so that nobody picks up what they have just placed. */
  tap(event, hit) {
    const again = event.timeStamp - this.lastPlaced <= DOUBLE_CLICK;
    this.store.dispatch({ type: "tap", hit, again, ...this.where(event) });
    if (hit.kind === "empty") this.lastPlaced = event.timeStamp;
  }

  pointercancel(event) {
    this.touches.delete(event.pointerId);
    this.pinch = this.touches.size > 1 ? this.pinch : null;
    this.press = null;
    this.store.dispatch({ type: "cancel" });
    this.store.dispatch({ type: "leave" });
  }

  pointerleave() { if (!this.press) this.store.dispatch({ type: "leave" }); }

  startPinch() {
    this.press = null;
    this.store.dispatch({ type: "cancel" });
    this.store.dispatch({ type: "leave" });
    this.pinch = this.span();
  }

  span() {
    const [a, b] = [...this.touches.values()];
    const mid = { clientX: (a.clientX + b.clientX) / 2, clientY: (a.clientY + b.clientY) / 2 };
    return { mid, wide: Math.max(Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY), 1) };
  }

  movePinch() {
    if (this.touches.size < 2) return;
    const now = this.span();
    this.store.dispatch({ type: "zoom", factor: now.wide / this.pinch.wide, at: this.picture(this.pinch.mid) });
    this.shift(this.pinch.mid, now.mid);
    this.pinch = now;
  }

  endPinch() { if (!this.touches.size) this.pinch = null; }

  movePan(event) {
    this.shift(this.press.last, event);
    this.press.last = event;
  }

  shift(from, to) {
    this.store.dispatch({ type: "pan", by: [(from.clientX - to.clientX) * this.scale, (from.clientY - to.clientY) * this.scale] });
  }

  wheel(event) {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    this.store.dispatch({ type: "zoom", factor: Math.exp(-event.deltaY * 0.002), at: this.picture(event) });
  }

  stop() {
    this.press = null;
    this.touches.clear();
  }
}
