import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, TASKS, after, start, frozen, DROP } from "./load.mjs";

const place = (x, y) => ({ type: "place", at: [x, y], reach: 0 });
const drawn = () => start("corner", DROP);

test("points are placed one by one; each is one commit and can be undone", () => {
  const state = after(start(), place(1200, 450), place(1210, 2330), place(300, 2300));
  assert.deepEqual(state.answer.points, DROP.points);
  assert.equal(state.commits, 3);
  assert.deepEqual(after(state, { type: "undo" }).answer.points, DROP.points.slice(0, 2));
  assert.deepEqual(after(state, { type: "undo" }, { type: "undo" }, { type: "redo" }).answer.points, DROP.points.slice(0, 2));
});

test("a new leg takes the given depth and covering, a later one those of the leg before", () => {
  const one = after(start(), place(1200, 450), place(1200, 2330));
  assert.deepEqual([one.answer.depth, one.answer.protection], [[20], ["none"]]);
  const changed = after(one, { type: "setLeg", leg: 0, part: "depth", value: 55 }, { type: "setLeg", leg: 0, part: "protection", value: "steel-plate" });
  const two = after(changed, place(300, 2330));
  assert.deepEqual([two.answer.depth, two.answer.protection], [[55, 55], ["steel-plate", "steel-plate"]]);
});

test("no action changes anything in place", () => {
  const actions = [
    place(300, 900), { type: "hover", at: [5, 5], reach: 9 }, { type: "pick", index: 1 }, { type: "hover", at: [900, 900], reach: 9 }, { type: "drop" },
    { type: "insert", leg: 0 }, { type: "remove", index: 1 }, { type: "setPoint", index: 0, at: [9, 9] }, { type: "setLeg", leg: 0, part: "depth", value: 3 },
    { type: "setRcd", rcd: { ma: 30, at: "origin", delayed: false } }, { type: "undo" }, { type: "redo" }, { type: "zoom", factor: 2 }, { type: "face", face: "rear" },
    { type: "nudge", by: [5, 0] }, { type: "seek" }, { type: "step", by: 1 }, { type: "clear" }, { type: "load", answer: DROP }, { type: "unheard of" },
  ];
  let state = frozen(drawn());
  for (const action of actions) state = frozen(pad.reduce(state, frozen(action)));
  assert.deepEqual(state.answer, DROP);
});

test("moving while a point is held commits nothing until it is put down", () => {
  const held = after(drawn(), { type: "pick", index: 2 }, { type: "hover", at: [500, 2330], reach: 0 });
  assert.equal(held.commits, 0);
  assert.deepEqual(held.answer.points[2], [500, 2330]);
  const down = after(held, { type: "hover", at: [600, 2330], reach: 0 }, { type: "drop" });
  assert.equal(down.commits, 1);
  assert.deepEqual(after(down, { type: "undo" }).answer, DROP);
});

test("Escape puts a held point back, and a point put down where it was is no change", () => {
  const state = drawn();
  const back = after(state, { type: "pick", index: 2 }, { type: "hover", at: [500, 900], reach: 0 }, { type: "cancel" });
  assert.equal(back.answer, state.answer);
  const same = after(state, { type: "pick", index: 2 }, { type: "drop" });
  assert.deepEqual([same.commits, same.past.length], [0, 0]);
});

test("under the lock straight neighbours go along, so legs stay level and upright", () => {
  assert.deepEqual(pad.moved(DROP.points, 1, [1250, 2300]), [[1250, 450], [1250, 2300], [300, 2300]]);
  assert.deepEqual(pad.moved(DROP.points, 2, [350, 2300]), [[1200, 450], [1200, 2300], [350, 2300]]);
});

test("without the lock one point moves alone", () => {
  assert.deepEqual(pad.moved(DROP.points, 1, [1250, 2300], { lock: false }), [[1200, 450], [1250, 2300], [300, 2330]]);
});

test("a move that would shift the fixed first point keeps to the other direction", () => {
  assert.deepEqual(pad.moved(DROP.points, 1, [1250, 2300], { fixed: 0 }), [[1200, 450], [1200, 2300], [300, 2300]]);
});

test("a slanting leg carries nobody along", () => {
  assert.deepEqual(pad.moved([[0, 0], [100, 100], [100, 300]], 1, [150, 120]), [[0, 0], [150, 120], [150, 300]]);
});

test("a whole leg is moved sideways only", () => {
  const state = after(drawn(), { type: "pick", index: 1, axis: "y" }, { type: "hover", at: [700, 2200], reach: 0 }, { type: "drop" });
  assert.deepEqual(state.answer.points, [[1200, 450], [1200, 2200], [300, 2200]]);
});

test("a point put into a leg halves it; both halves keep depth and covering", () => {
  const { answer, selected } = after(drawn(), { type: "insert", leg: 1, at: [760, 2400] });
  assert.deepEqual(answer.points, [[1200, 450], [1200, 2330], [760, 2330], [300, 2330]]);
  assert.deepEqual([answer.depth, answer.protection], [[20, 30, 30], ["none", "steel-plate", "steel-plate"]]);
  assert.equal(selected, 2);
});

test("removing a point: ends lose their leg, in the middle the earlier leg's values stay", () => {
  const at = (index) => after(drawn(), { type: "remove", index }).answer;
  assert.deepEqual([at(0).points, at(0).depth], [DROP.points.slice(1), [30]]);
  assert.deepEqual([at(1).points, at(1).depth, at(1).protection], [[[1200, 450], [300, 2330]], [20], ["none"]]);
  assert.deepEqual([at(2).points, at(2).depth], [DROP.points.slice(0, 2), [20]]);
});

test("removing a corner says that the new leg slants", () => {
  assert.match(after(drawn(), { type: "remove", index: 1 }).said.text, /The leg from a to b slants\.$/);
});

test("Backspace again and again takes points from the end", () => {
  const none = after(drawn(), ...Array(4).fill({ type: "remove" }));
  assert.deepEqual([none.answer.points, none.answer.depth], [[], []]);
  assert.equal(none.said.text, "There are no points to remove.");
  assert.equal(none.commits, 3);
});

test("the fixed first point is there from the start and can be neither moved nor deleted", () => {
  const state = start("rooted");
  assert.deepEqual(state.answer.points, [[2200, 1200]]);
  for (const action of [{ type: "pick", index: 0 }, { type: "remove", index: 0 }, { type: "setPoint", index: 0, at: [0, 0] }]) {
    const next = after(state, action);
    assert.equal(next.said.text, "Point a is fixed by this exercise.");
    assert.equal(next.answer, state.answer);
  }
  assert.deepEqual(after(state, place(2200, 2000), { type: "clear" }).answer.points, [[2200, 1200]]);
});

test("what the exercise does not open cannot be changed by any action", () => {
  const state = start("covered");
  assert.deepEqual(state.answer.points, TASKS.covered.given.points);
  const actions = [place(5, 5), { type: "remove", index: 0 }, { type: "insert", leg: 0 }, { type: "clear" }, { type: "pick", index: 1 },
    { type: "setPoint", index: 1, at: [1, 1] }, { type: "setLeg", leg: 0, part: "depth", value: 60 }, { type: "setRcd", rcd: { ma: 30, at: "origin", delayed: false } }];
  for (const action of actions) assert.equal(after(state, action).answer, state.answer, action.type);
  assert.deepEqual(after(state, { type: "setLeg", leg: 1, part: "protection", value: "steel-plate" }).answer.protection, ["none", "steel-plate"]);
});

test("a route has at most 60 points, and no point twice in one place", () => {
  const many = start("corner", { points: Array.from({ length: 70 }, (_, i) => [i * 10, 100]) });
  assert.equal(many.answer.points.length, 60);
  assert.match(after(many, place(3000, 100)).said.text, /at most 60 points/);
  assert.match(after(drawn(), place(300, 2330)).said.text, /there already/);
});

test("a typed place is exact; off the wall it is brought back and that is said", () => {
  const state = after({ ...drawn(), lock: false }, { type: "setPoint", index: 2, at: [301.5, 9999] });
  assert.deepEqual(state.answer.points[2], [301.5, 2400]);
  assert.match(state.said.text, /brought back onto the wall/);
  assert.equal(after(drawn(), { type: "setPoint", index: 2, at: [NaN, 3] }).commits, 0);
});

test("the table, the keys and the pointer come to the same answer", () => {
  const byPointer = after(start(), place(1200, 450), place(1200, 2330), place(300, 2330));
  const byTable = after(start(), ...DROP.points.map((at) => ({ type: "place", at, exact: true })));
  const ways = (n, by) => Array.from({ length: n }, () => ({ type: "nudge", by }));
  const byKeys = after({ ...start(), cursor: [1200, 450] }, { type: "act" }, ...ways(37, [0, 50]), ...ways(6, [0, 5]), { type: "act" }, ...ways(18, [-50, 0]), { type: "act" });
  assert.deepEqual(byTable.answer, byPointer.answer);
  assert.deepEqual(byKeys.answer, byPointer.answer);
});

test("arrow steps land on the grid, single millimetres do not", () => {
  const state = { ...start(), cursor: [1203, 1203] };
  assert.deepEqual(after(state, { type: "nudge", by: [5, -5] }).cursor, [1205, 1200]);
  assert.deepEqual(after(state, { type: "nudge", by: [1, 0] }).cursor, [1204, 1203]);
});

test("on the rear face the arrow keys go the way one sees", () => {
  const state = after({ ...start(), cursor: [1200, 1200] }, { type: "face", face: "rear" }, { type: "nudge", by: [5, 0] });
  assert.deepEqual(state.cursor, [1195, 1200]);
});

test("Enter picks up the point under the cross and puts it down", () => {
  const state = after(drawn(), { type: "step", by: -1 }, { type: "act" }, { type: "nudge", by: [-50, 0] }, { type: "act" });
  assert.deepEqual(state.answer.points[2], [250, 2330]);
  assert.equal(state.commits, 1);
});

test("the accessory key walks through the accessories", () => {
  const state = after(start(), { type: "seek" }, { type: "seek" });
  assert.deepEqual(state.cursor, [2200, 1200]);
  assert.match(state.said.text, /^L1, switch: /);
});

test("a result holds for the answer it was given for, and no other", () => {
  const state = after(drawn(), { type: "result", result: { stretches: [{ n: 1, face: "rear", points: [], text: "t" }], passed: false, summary: "s" } });
  assert.equal(state.resultFor, state.answer);
  assert.notEqual(after(state, place(300, 900)).answer, state.resultFor);
  assert.equal(after(state, { type: "pick", index: 2 }, { type: "hover", at: [9, 9] }, { type: "cancel" }).answer, state.resultFor);
  const lit = after(state, { type: "focus", n: 1 });
  assert.deepEqual([lit.focus, lit.face], [1, "rear"]);
  assert.equal(after(state, { type: "result", result: null }).result, null);
});

test("an answer from the host replaces ours without being sent back; the same one changes nothing", () => {
  const state = drawn();
  assert.equal(after(state, { type: "load", answer: structuredClone(DROP) }), state);
  const other = after(state, { type: "load", answer: { ...DROP, points: DROP.points.slice(0, 2) } });
  assert.deepEqual([other.answer.depth, other.commits], [[20], 0]);
  assert.deepEqual(after(other, { type: "undo" }).answer, DROP);
});

test("an answer with rubbish in it is drawn as far as it can be", () => {
  const raw = { points: [[1, 2], "x", [NaN, 1], [3, null], [3, 4]], depth: ["deep"], protection: [], rcd: { ma: 100 } };
  assert.deepEqual(pad.cleanAnswer(TASKS.corner, raw), { points: [[1, 2], [3, 4]], depth: [20], protection: ["none"], rcd: { ma: 100, at: "origin", delayed: false } });
  for (const odd of [null, undefined, {}, { points: null }]) assert.deepEqual(pad.cleanAnswer(TASKS.corner, odd).points, []);
});

test("the RCD is set and taken away", () => {
  const rcd = { ma: 100, at: "outlet", delayed: true };
  const state = after(drawn(), { type: "setRcd", rcd });
  assert.deepEqual(state.answer.rcd, rcd);
  assert.equal(state.said.text, "RCD: 100 mA, at the outlet end, time-delayed.");
  assert.equal(after(state, { type: "setRcd", rcd: null }).answer.rcd, null);
});

test("turning the wall mirrors the part on show", () => {
  const near = after(start(), { type: "zoom", factor: 4, at: [0, 0] });
  const rear = after(near, { type: "face", face: "rear" });
  assert.equal(rear.view.x, 3600 - near.view.x - near.view.w);
  assert.deepEqual(after(rear, { type: "fit" }).view, rear.base);
});

test("keys: every key on the drawing has its action, others are left to the page", () => {
  const state = drawn();
  const key = (name, more = {}) => pad.keyAction({ key: name, ...more }, state);
  assert.deepEqual(key("ArrowLeft"), { type: "nudge", by: [-5, 0] });
  assert.deepEqual(key("ArrowUp", { shiftKey: true }), { type: "nudge", by: [0, 50] });
  assert.deepEqual(key("ArrowDown", { altKey: true }), { type: "nudge", by: [0, -1] });
  assert.deepEqual(["Enter", " ", "Backspace", "PageUp", "PageDown", "+", "-", "0", "A"].map((k) => key(k).type), ["act", "act", "remove", "step", "step", "zoom", "zoom", "fit", "seek"]);
  assert.deepEqual([key("z", { ctrlKey: true }), key("y", { ctrlKey: true }), key("Z", { ctrlKey: true, shiftKey: true })].map((a) => a.type), ["undo", "redo", "redo"]);
  assert.deepEqual(["Tab", "Escape", "x", "d", "1", "F5"].map((k) => key(k)), Array(6).fill(null));
  assert.equal(key("s", { ctrlKey: true }), null);
  assert.equal(pad.keyAction({ key: "Escape" }, after(state, { type: "pick", index: 1 })).type, "cancel");
});

test("every sentence the pad says has at most 25 words", () => {
  const states = [start(), drawn(), start("rooted"), start("covered"), after(drawn(), { type: "pick", index: 1 })];
  const types = ["undo", "redo", "act", "remove", "insert", "clear", "drop", "cancel", "seek", "fit", "zoom"];
  const more = [{ type: "mode", mode: "adjust" }, { type: "mode", mode: "view" }, { type: "face", face: "rear" }, { type: "lock", on: false }, { type: "step", by: -1 }];
  const said = states.flatMap((s) => [...types.map((type) => ({ type, factor: 2 })), ...more].map((a) => after(s, a).said.text)).filter(Boolean);
  assert.ok(said.length > 40);
  for (const text of said) for (const sentence of text.split(/[.!?]\s+/)) assert.ok(sentence.split(/\s+/).length <= 25, sentence);
});
