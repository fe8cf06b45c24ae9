import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, after, frozen } from "./load.mjs";

const LENGTHS = [3000, 2000, 3000, 2000];
const walls = LENGTHS.map((length, i) => ({ id: `bed.${i + 1}`, start: LENGTHS.slice(0, i).reduce((sum, v) => sum + v, 0), length }));
const task = {
  kind: "route", title: "Round the room", wall: { id: "bed", length: 10000, top: [[0, 2400], [10000, 2400]], thickness: 100 }, walls,
  accessories: [{ id: "L1", kind: "wall-light", face: "front", x: 500, y: 1700, width: 100, height: 100 }], openings: [],
  open: ["points", "via"], start: [9000, 1200], given: { depth: 15, protection: "none", rcd: null }, snap: 5,
};
const start = (answer = {}) => frozen(pad.initialState(task, answer));
const place = (x, y) => ({ type: "place", at: [x, y], reach: 0 });

test("a place is told from the corner of its wall, wherever the row begins", () => {
  assert.equal(pad.describePlace(task, "front", [4250, 2260]), "on bed.2, 750 from the right corner, 140 below the ceiling");
  assert.equal(pad.describePlace(task, "front", [3000, 100]), "on bed.2, 0 from the left corner, 100 above the floor");
  assert.equal(pad.describePlace(task, "front", [10400, 100]), "on bed.1, 400 from the left corner, 100 above the floor");
});

test("a leg goes the shorter way round, over the end of the row, and is drawn in two pieces", () => {
  const state = after(start(), place(9000, 2330), place(500, 2330), place(500, 1700));
  assert.deepEqual(state.answer.points, [[9000, 1200], [9000, 2330], [10500, 2330], [10500, 1700]]);
  assert.deepEqual(pad.seenPieces(task, ...state.answer.points.slice(1, 3)), [[[9000, 2330], [10000, 2330]], [[0, 2330], [500, 2330]]]);
  assert.deepEqual(pad.seenPieces(task, ...state.answer.points.slice(2)), [[[500, 2330], [500, 1700]]]);
});

test("the way back over the end of the row is as short", () => {
  const state = after(frozen(pad.initialState({ ...task, start: [400, 1200] }, {})), place(9600, 1200));
  assert.deepEqual(state.answer.points, [[400, 1200], [-400, 1200]]);
  assert.deepEqual(pad.seenPieces(task, ...state.answer.points), [[[400, 1200], [0, 1200]], [[10000, 1200], [9600, 1200]]]);
});

test("a new leg lies in the wall; its way is set, undone, and kept when points come and go", () => {
  const state = after(start(), place(9000, 2400), place(6000, 2400), place(6000, 1700), { type: "setLeg", leg: 1, part: "via", value: "ceiling-void" });
  assert.deepEqual(state.answer.via, ["wall", "ceiling-void", "wall"]);
  assert.equal(state.said.text, "Leg 2, b to c: ceiling void.");
  assert.deepEqual(after(state, { type: "undo" }).answer.via, ["wall", "wall", "wall"]);
  assert.deepEqual(after(state, { type: "insert", leg: 2 }).answer.via, ["wall", "ceiling-void", "wall", "wall"]);
  assert.deepEqual(after(state, { type: "remove", index: 3 }).answer.via, ["wall", "ceiling-void"]);
  assert.deepEqual(after(state, { type: "clear" }).answer.via, []);
});

test("a typed place keeps to its point's turn of the row, and snapping sees accessories on every turn", () => {
  const state = after(start(), place(9000, 2330), place(300, 2330));
  assert.deepEqual(after(state, { type: "setPoint", index: 2, at: [450, 2330] }).answer.points[2], [10450, 2330]);
  assert.deepEqual(pad.landing(state, [508, 2330], { reach: 20 }).at, [10500, 2330]);
});

test("clicking on a drawn point beyond the row's end finds it, and so does the leg before", () => {
  const state = after(start(), place(9000, 2330), place(500, 2330));
  const hit = (x, y) => pad.TOOLS.route.hit(state, [x, y], { point: 30, leg: 20 });
  assert.deepEqual([hit(505, 2330).kind, hit(505, 2330).index], ["point", 2]);
  assert.deepEqual([hit(200, 2330).kind, hit(9500, 2330).index], ["leg", 1]);
  assert.deepEqual(after(state, { type: "insert", leg: 1, at: [200, 2330] }).answer.points[2], [10200, 2330]);
});

test("a way that is not one becomes the wall, and a single wall has no ways at all", () => {
  const points = [[9000, 1200], [9000, 2400]];
  assert.deepEqual(start({ points, via: ["tunnel"] }).answer.via, ["wall"]);
  assert.equal("via" in pad.initialState({ ...task, walls: undefined, open: ["points"] }, { points }).answer, false);
});

const base = { x: -700, y: -600, w: 11400, h: 3800 };
const phone = (more = {}) => frozen({ ...start(), base, view: base, shape: 1.1, ...more });
const go = (by) => ({ type: "wall", by });

test("from the whole row one goes to the wall where one works, and from there round and round", () => {
  const first = after(phone(), go(1));
  assert.equal(pad.shownWall(phone()), -1);
  assert.deepEqual([pad.shownWall(first), first.said.text], [3, "Wall 4 of 4: bed.4."]);
  const round = after(first, go(1));
  assert.deepEqual([pad.shownWall(round), round.said.text], [0, "Wall 1 of 4: bed.1."]);
  assert.equal(pad.shownWall(after(round, go(-1))), 3);
  assert.equal(pad.shownWall(after(round, go(1), go(1), { type: "fit" })), -1);
});

test("a wall on show is whole from corner to corner and from floor to ceiling, and changes no answer", () => {
  for (let index = 0; index < walls.length; index += 1) {
    const view = pad.viewOfWall(phone(), index);
    assert.ok(view.x <= walls[index].start && view.x + view.w >= walls[index].start + walls[index].length);
    assert.ok(view.w / phone().shape >= 2400);
    assert.ok(view.w < base.w / 2);
  }
  assert.deepEqual([after(phone(), go(1), go(1)).commits, after(phone(), go(1), go(1)).answer], [0, phone().answer]);
});

test("a short wall at the end of the row is told as itself, though the view cannot centre it", () => {
  const short = [{ id: "bed.1", start: 0, length: 400 }, { id: "bed.2", start: 400, length: 9600 }];
  const state = after({ ...phone(), task: frozen({ ...task, walls: short }) }, go(1), go(1));
  assert.equal(state.said.text, "Wall 1 of 2: bed.1.");
  assert.equal(pad.shownWall(state), 0);
  assert.equal(pad.shownWall(after(state, { type: "pan", by: [3000, 0] })), 1);
});

test("with keys the cross goes along to the wall, but what is in hand stays", () => {
  const keys = after(phone({ view: { ...base, w: 3000, h: 1000 } }), { type: "enter" }, go(1));
  assert.deepEqual(keys.cursor, [4000, 1200]);
  const held = after(phone({ view: { ...base, w: 3000, h: 1000 }, answer: frozen(after(start(), place(9000, 2400)).answer) }), { type: "enter" }, { type: "pick", index: 1 }, go(1));
  assert.deepEqual([held.cursor, held.held.index], [[9000, 2400], 1]);
  assert.deepEqual(pad.keyAction({ key: "N" }, keys), go(1));
  assert.deepEqual(pad.keyAction({ key: "p" }, keys), go(-1));
});

test("on a single wall there is nowhere to go", () => {
  const state = pad.initialState({ ...task, walls: undefined, open: ["points"] }, {});
  assert.equal(after(state, go(1)), state);
  assert.equal(pad.keyAction({ key: "n" }, state), null);
});

test("a message in focus brings its stretch into view, on whatever wall it lies", () => {
  const stretch = { n: 1, face: "front", text: "In no zone.", points: [[3500, 1200], [4500, 1200]] };
  const found = { type: "result", result: { stretches: [stretch], passed: false, summary: "" } };
  const state = after(phone(), go(1), found);
  assert.equal(pad.shownWall(state), 3);
  assert.equal(pad.shownWall(after(state, { type: "focus", n: 1 })), 1);
  const there = after(state, go(-1), go(-1));
  assert.equal(after(there, { type: "focus", n: 1 }).view, there.view);
});
