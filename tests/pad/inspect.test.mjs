import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, after, frozen } from "./load.mjs";

const R2 = [[800, 450], [1200, 450], [1200, 250], [2000, 250], [2000, 450], [2600, 450]];
const task = {
  kind: "inspect", title: "Look it over", wall: { id: "W1", length: 4000, top: [[0, 2400], [4000, 2400]], thickness: 100 }, accessories: [], openings: [], snap: 5,
  cables: [{ id: "R1", points: [[800, 2400], [800, 450]] }, { id: "R2", points: R2 }],
  clauses: [{ id: "522.6.202", words: "522.6.202: zones" }], remedies: [{ id: "level", words: "Lay R2 level" }], whys: [{ id: "nail", words: "A nail may meet it." }],
  asks: ["stretches", "clause", "remedy", "why", "new-work"],
};
const start = (answer = {}) => frozen(pad.initialState(task, answer));
const hit = (state, x, y) => pad.TOOLS.inspect.hit(state, [x, y], { point: 30, leg: 15 });
const tap = (state, x, y, reach = 0) => after(state, { type: "tap", hit: hit(state, x, y), at: [x, y], reach });
const end = (state, x, y, reach = 0) => after(state, { type: "hover", at: [x, y], reach }, { type: "drop" });
const mark = (route, from, to) => ({ route, from, to, clause: null, remedy: null, why: null });

test("a click where a stretch begins and one where it ends mark it, as one change", () => {
  const begun = tap(start(), 1200, 410);
  assert.deepEqual([begun.commits, begun.held.index], [0, 0]);
  const state = end(begun, 2000, 300);
  assert.deepEqual(state.answer.stretches, [mark("R2", 440, 1450)]);
  assert.equal(state.commits, 1);
  assert.equal(state.said.text, "M1: R2 from 440 to 1,450 marked. Say below what is to be said of it.");
  assert.deepEqual(after(state, { type: "undo" }).answer.stretches, []);
  assert.deepEqual(after(state, { type: "undo" }, { type: "redo" }).answer.stretches, state.answer.stretches);
});

test("a stretch drawn backwards is the same, and corners draw its ends to them", () => {
  assert.deepEqual(end(tap(start(), 2000, 300), 1200, 410).answer.stretches, [mark("R2", 440, 1450)]);
  assert.deepEqual(end(tap(start(), 1195, 450, 20), 2000, 260, 20).answer.stretches, [mark("R2", 400, 1400)]);
});

test("where a stretch begins on two cables at once, its end says which is meant", () => {
  assert.deepEqual(end(tap(start(), 800, 450), 1200, 445, 20).answer.stretches, [mark("R2", 0, 400)]);
  assert.deepEqual(end(tap(start(), 800, 450), 800, 1450).answer.stretches, [mark("R1", 950, 1950)]);
});

test("Escape and too short a stretch leave everything as it was", () => {
  const state = start();
  const begun = tap(state, 1200, 410);
  assert.equal(after(begun, { type: "cancel" }).answer, state.answer);
  const short = end(begun, 1200, 409);
  assert.deepEqual([short.commits, short.answer.stretches.length], [0, 0]);
  assert.match(short.said.text, /Too short to mark/);
});

test("a whole leg, and the whole cable", () => {
  const leg = tap(after(start(), { type: "mode", mode: "leg" }), 1600, 255);
  assert.deepEqual(leg.answer.stretches, [mark("R2", 600, 1400)]);
  const whole = after(leg, { type: "mark", route: "R1", from: null, to: null });
  assert.deepEqual(whole.answer.stretches[1], mark("R1", null, null));
  const ended = after(whole, { type: "change", index: 1, change: { whole: false } });
  assert.deepEqual(ended.answer.stretches[1], mark("R1", 0, 1950));
  assert.deepEqual(after(ended, { type: "change", index: 1, change: { whole: true } }).answer.stretches[1], mark("R1", null, null));
});

test("an end is picked up and put down elsewhere; the other stays", () => {
  const state = start({ stretches: [mark("R2", 440, 1450)] });
  const held = tap(state, 2000, 300);
  assert.deepEqual([held.held.fresh, held.commits], [false, 0]);
  const moved = end(held, 2000, 395);
  assert.deepEqual(moved.answer.stretches, [mark("R2", 440, 1545)]);
  assert.deepEqual(after(held, { type: "cancel" }).answer, state.answer);
});

test("keys walk along a cable, round its corners, and mark", () => {
  const at = (state) => [state.target.cable, state.target.along];
  let state = after(start(), { type: "enter" }, { type: "step", by: 1 });
  assert.deepEqual(at(state), ["R2", 0]);
  state = after(state, { type: "nudge", by: [50, 0] });
  assert.deepEqual(at(state), ["R2", 50]);
  state = after(state, { type: "corner" });
  assert.deepEqual(at(state), ["R2", 400]);
  assert.match(after(state, { type: "nudge", by: [0, 5] }).said.text, /does not run that way here/);
  state = after(state, { type: "nudge", by: [0, -5] }, { type: "act" }, { type: "corner" }, { type: "corner" }, { type: "act" });
  assert.deepEqual(state.answer.stretches, [mark("R2", 405, 1400)]);
  state = after(state, { type: "nudge", by: [-5, 0] });
  assert.deepEqual(at(state), ["R2", 1395]);
  assert.equal(state.said.text, "1,395 along R2: 1,995 from the left corner, 250 above the floor");
  assert.deepEqual(after(state, { type: "leg" }).answer.stretches[1], mark("R2", 600, 1400));
  assert.deepEqual(after(state, { type: "whole" }).answer.stretches[1], mark("R2", null, null));
  assert.deepEqual(after(state, { type: "remove" }).answer.stretches, []);
});

test("by numbers alone: kept on the cable, from the lower end, and refused where too short", () => {
  const state = after(start(), { type: "mark", route: "R1", from: 5000, to: 100 });
  assert.deepEqual(state.answer.stretches, [mark("R1", 100, 1950)]);
  assert.equal(after(state, { type: "mark", route: "R1", from: 7, to: 7 }).commits, 1);
  const short = after(state, { type: "change", index: 0, change: { to: 101 } });
  assert.deepEqual([short.commits, short.answer.stretches[0].to], [1, 1950]);
});

test("clause, remedy, reason and new work are said, told and undone", () => {
  const state = after(start({ stretches: [mark("R2", 440, 1450)] }), { type: "change", index: 0, change: { clause: "522.6.202" } }, { type: "change", index: 0, change: { why: "nail" } }, { type: "newWork", route: "R2", value: false });
  assert.deepEqual(state.answer, { stretches: [{ ...mark("R2", 440, 1450), clause: "522.6.202", why: "nail" }], passes: { R2: false } });
  const words = pad.TOOLS.inspect.words.describe(task, state.answer);
  assert.equal(words, "1 stretch is marked. M1: R2 from 440 to 1,450; clause: 522.6.202: zones; why it matters: A nail may meet it. R2: it would not pass as new work.");
  assert.deepEqual(after(state, { type: "newWork", route: "R2", value: null }).answer.passes, {});
  assert.deepEqual(after(state, { type: "undo" }).answer.passes, {});
});

test("strange answers are made into ones that can be shown, and nothing changes in place", () => {
  for (const raw of [null, { stretches: 3 }, { stretches: [null, { route: "R9" }], passes: { R1: "yes", R9: true } }]) assert.deepEqual(start(raw).answer, { stretches: [], passes: {} });
  assert.deepEqual(start({ stretches: [{ route: "R1", from: 9999, clause: "gold" }] }).answer.stretches, [mark("R1", 1950, 1950)]);
  let state = start({ stretches: [mark("R2", 440, 1450)] });
  for (const action of [{ type: "hover", at: [5, 5], reach: 3 }, { type: "act" }, { type: "nudge", by: [0, 5] }, { type: "drop" }, { type: "step", by: -1 }, { type: "leave" }, { type: "face", face: "rear" }, { type: "fit" }]) state = frozen(pad.reduce(state, frozen(action)));
  assert.deepEqual(state.answer.stretches[0], mark("R2", 440, 1450));
});
