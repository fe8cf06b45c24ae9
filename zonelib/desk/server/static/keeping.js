/**
 * Keeping answers: each change is stored on this device first, then sent until the server has it.
 *
 * A change is stored under the seat and the question, with a revision one higher than any known. Only the newest
 * of a question is sent, one at a time. What the server refuses for good is told and stays on the device.
 */

import { Offline, Refused, ask } from "./talk.js";

const WAITS = [1000, 2000, 4000, 8000, 10000];
const LATER = new Set(["ended", "closed", "handed-in", "paused", "not-open", "not-started"]);

export class Keeper {
  /** @param {string} seat @param {{onSaved, onOffline, onTrouble, onNewer, onGone}} tells */
  constructor(seat, tells) {
    Object.assign(this, { seat, tells, known: new Map(), kept: new Map(), busy: new Set(), fails: 0, timer: 0, held: false });
    this.durable = true;
    this.load();
    window.addEventListener("online", () => this.hurry());
  }

  key(exercise) { return `zonelib:${this.seat}:${exercise}`; }

  /** Takes back what an earlier page of this seat had not sent. */
  load() {
    const start = this.key("");
    try {
      for (const key of Object.keys(localStorage).filter((k) => k.startsWith(start))) {
        const change = JSON.parse(localStorage.getItem(key));
        if (Number.isInteger(change?.revision) && typeof change.answer === "object" && !change.taken) this.kept.set(key.slice(start.length), change);
      }
    } catch { this.durable = false; }
  }

  store(exercise, change) {
    this.kept.set(exercise, change);
    try { localStorage.setItem(this.key(exercise), JSON.stringify(change)); } catch { this.durable = false; }
  }

  /** Nothing waits to be sent any more. What the server took stays on this device, in case its machine loses power. */
  forget(exercise, taken = null) {
    this.kept.delete(exercise);
    try {
      if (taken) localStorage.setItem(this.key(exercise), JSON.stringify({ ...taken, taken: true }));
      else localStorage.removeItem(this.key(exercise));
    } catch { this.durable = false; }
  }

  /** What the server took before and has no longer, or null. */
  lost(exercise, revision) {
    try {
      const change = JSON.parse(localStorage.getItem(this.key(exercise)));
      return change?.taken && change.revision > revision ? { revision: change.revision, base: change.base, answer: change.answer } : null;
    } catch { return null; }
  }

  /** What the server has of a question; returns the answer to show: a newer one of this device, if any. */
  meet(exercise, revision, answer) {
    this.known.set(exercise, Math.max(revision, this.known.get(exercise) ?? 0));
    const back = this.kept.has(exercise) ? null : this.lost(exercise, revision);
    if (back) this.store(exercise, back);
    const own = this.kept.get(exercise);
    if (own && own.revision <= revision && JSON.stringify(own.answer) !== JSON.stringify(answer) && own.base < revision) this.forget(exercise);
    const kept = this.kept.get(exercise);
    if (!kept) return answer;
    this.hurry();
    return kept.answer;
  }

  change(exercise, answer) {
    const base = this.known.get(exercise) ?? 0;
    const revision = Math.max(base, this.kept.get(exercise)?.revision ?? 0) + 1;
    this.store(exercise, { revision, base, answer });
    this.send(exercise);
  }

  get pending() { return this.kept.size; }

  /** Tries again now, such as after the network is back or the time was extended. */
  hurry() {
    clearTimeout(this.timer);
    this.held = false;
    for (const exercise of this.kept.keys()) this.send(exercise);
  }

  async send(exercise) {
    const change = this.kept.get(exercise);
    if (!change || this.busy.has(exercise) || this.held) return;
    this.busy.add(exercise);
    try {
      const saved = await ask("PUT", `/api/answer/${exercise}`, { revision: change.revision, answer: change.answer });
      this.arrived(exercise, change, saved);
    } catch (error) {
      this.failed(exercise, change, error);
    } finally {
      this.busy.delete(exercise);
    }
    if (this.kept.has(exercise) && this.kept.get(exercise) !== change && !this.fails) this.send(exercise);
  }

  arrived(exercise, change, saved) {
    this.known.set(exercise, Math.max(saved.revision, this.known.get(exercise) ?? 0));
    if (this.fails) this.tells.onOffline(false);
    this.fails = 0;
    if (this.kept.get(exercise) === change) this.forget(exercise, change);
    this.tells.onSaved(exercise, saved);
  }

  failed(exercise, change, error) {
    if (error instanceof Offline || error.status >= 500) return this.again();
    if (!(error instanceof Refused)) throw error;
    if (error.entry === "older") {
      this.known.set(exercise, error.data.revision);
      this.forget(exercise);
      return this.tells.onNewer(exercise, error);
    }
    if (LATER.has(error.entry)) { this.held = true; return this.tells.onTrouble(exercise, error); }
    if (error.status === 400 || error.status === 413 || error.status === 404) {
      if (this.kept.get(exercise) === change) this.forget(exercise);
      return this.tells.onTrouble(exercise, error);
    }
    this.held = true;
    return this.tells.onGone(error);
  }

  again() {
    this.fails += 1;
    this.tells.onOffline(true);
    clearTimeout(this.timer);
    const wait = WAITS[Math.min(this.fails - 1, WAITS.length - 1)];
    this.timer = setTimeout(() => this.hurry(), wait * (0.75 + Math.random() / 2));
  }

  /** Waits until all is sent, or the patience is over; returns whether all is. */
  async settled(patience) {
    const until = performance.now() + patience;
    this.hurry();
    while (this.kept.size && performance.now() < until && !this.held) await new Promise((done) => setTimeout(done, 100));
    return this.kept.size === 0;
  }
}
