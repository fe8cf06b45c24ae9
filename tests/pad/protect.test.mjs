import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, TASKS, after, frozen } from "./load.mjs";

const POINTS = [[1000, 2400], [1000, 450], [2400, 450]];
const task = {
  ...TASKS.corner, kind: "protect", open: ["depth", "protection", "rcd"], depths: [0, 70],
  given: { points: POINTS, depth: 15, protection: "none", rcd: null },
};
const start = (answer = {}, more = {}) => frozen(pad.initialState({ ...task, ...more }, answer));
const OUTLET = { ma: 30, at: "outlet", delayed: true };

test("what is not chosen yet is as given, and the points are no part of the answer", () => {
  assert.deepEqual(start().answer, { depth: [15, 15], protection: ["none", "none"], rcd: null });
  assert.equal(start().mode, "view");
});

test("depth, covering and RCD are chosen one by one, undone and done again", () => {
  const state = after(start(), { type: "setLeg", leg: 0, part: "depth", value: 50 }, { type: "setLeg", leg: 1, part: "protection", value: "steel-plate" }, { type: "setRcd", rcd: OUTLET });
  assert.deepEqual(state.answer, { depth: [50, 15], protection: ["none", "steel-plate"], rcd: OUTLET });
  assert.equal(state.commits, 3);
  assert.equal(state.said.text, "RCD: 30 mA, at the outlet end, time-delayed.");
  assert.deepEqual(after(state, { type: "undo" }, { type: "undo" }).answer.protection, ["none", "none"]);
  assert.deepEqual(after(state, { type: "undo" }, { type: "redo" }).answer, state.answer);
});

test("what the exercise does not open stays as it is", () => {
  const state = after(start({}, { open: ["depth"] }), { type: "setRcd", rcd: OUTLET }, { type: "setLeg", leg: 0, part: "protection", value: "steel-plate" });
  assert.equal(state.commits, 0);
});

test("nothing that one does on the drawing changes the answer", () => {
  const actions = [
    { type: "tap", hit: { kind: "view" }, at: [1000, 450] }, { type: "grab", hit: { kind: "view" }, at: [1000, 450] }, { type: "hover", at: [9, 9], reach: 9 }, { type: "drop" },
    { type: "enter" }, { type: "nudge", by: [5, 0] }, { type: "step", by: 1 }, { type: "seek" }, { type: "act" }, { type: "remove" }, { type: "leave" }, { type: "cancel" }, { type: "unheard of" },
  ];
  const state = start();
  let now = state;
  for (const action of actions) now = frozen(pad.reduce(now, frozen(action)));
  assert.equal(now.answer, state.answer);
  assert.equal(now.commits, 0);
});

test("Page Down tells where each point of the given route lies", () => {
  assert.equal(after(start(), { type: "step", by: 1 }).said.text, "Point a: 1,000 from the left corner, 0 below the ceiling");
});

test("the answer is told in words, leg by leg", () => {
  const words = pad.TOOLS.protect.words.describe(task, after(start(), { type: "setRcd", rcd: OUTLET }).answer, "front");
  assert.match(words, /Point b: 1,000 from the left corner, 450 above the floor\./);
  assert.match(words, /Leg 2: 15 deep, None\. RCD: 30 mA/);
});
