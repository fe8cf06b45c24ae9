import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, after, start, frozen } from "./load.mjs";

const at = (x, y) => ({ at: [x, y], reach: 0 });
const hover = (x, y) => ({ type: "hover", ...at(x, y) });
const tap = (x, y, hit = { kind: "empty" }) => ({ type: "tap", hit, ...at(x, y) });
const grab = (x, y, hit = { kind: "empty" }) => ({ type: "grab", hit, ...at(x, y) });
const drop = { type: "drop" };
const BAND = { areas: [[[0, 2250], [3600, 2400]]] };
const drawn = () => start("zones", BAND);

test("an area is dragged: one commit at its end, undone and done again", () => {
  const begun = after(start("zones"), grab(0, 2250), hover(1000, 2400));
  assert.equal(begun.commits, 0);
  const state = after(begun, hover(3600, 2400), drop);
  assert.deepEqual(state.answer, BAND);
  assert.equal(state.commits, 1);
  const back = after(state, { type: "undo" });
  assert.deepEqual(back.answer, { areas: [] });
  assert.equal(back.said.text, "Undone. No area is drawn yet.");
  assert.deepEqual(after(back, { type: "redo" }).answer, BAND);
});

test("two clicks come to the same as a drag, whichever corner is first", () => {
  assert.deepEqual(after(start("zones"), tap(3600, 2250), hover(0, 2400), drop).answer, BAND);
  assert.deepEqual(after(start("zones"), { type: "put", at: [0, 2400] }, { type: "put", at: [3600, 2250], reach: 0 }).answer, BAND);
});

test("the table comes to the same as drawing", () => {
  assert.deepEqual(after(start("zones"), { type: "setBox", id: null, box: [0, 2250, 3600, 2400] }).answer, BAND);
  assert.deepEqual(after(start("zones"), { type: "setBox", id: null, box: [3600, 2400, 0, 2250] }).answer, BAND);
});

test("an area without width is not placed, and nothing is lost", () => {
  const state = after(start("zones"), tap(500, 500), hover(500, 900), drop);
  assert.ok(state.held);
  assert.match(state.said.text, /^An area needs some width and some height/);
  assert.deepEqual(after(state, { type: "cancel" }).answer, { areas: [] });
  const typed = after(drawn(), { type: "setBox", id: 0, box: [5, 5, 5, 90] });
  assert.deepEqual(typed.answer, BAND);
});

test("corners snap to the edges of what is on the wall, and say so", () => {
  const state = after(start("zones"), { type: "hover", at: [1280, 497], reach: 12 });
  assert.deepEqual(state.target.at, [1276, 493]);
  assert.match(pad.TOOLS.zones.words.readout(state), /at the edge of S1$/);
});

test("a chosen area is moved whole, stays on the wall, and its corners and sides are moved alone", () => {
  const box = start("zones", { areas: [[[100, 100], [300, 500]]] });
  const whole = after(box, { type: "pick", id: 0, at: [200, 200] }, hover(260, 250), drop);
  assert.deepEqual(whole.answer.areas, [[[160, 150], [360, 550]]]);
  assert.deepEqual(after(box, { type: "pick", id: 0, at: [200, 200] }, hover(-900, 9000), drop).answer.areas, [[[0, 2000], [200, 2400]]]);
  const corner = after(box, grab(300, 500, { kind: "point", id: 0, part: { x: 1, y: 1 } }), hover(50, 600), drop);
  assert.deepEqual(corner.answer.areas, [[[50, 100], [100, 600]]]);
  const side = after(box, grab(300, 300, { kind: "point", id: 0, part: { x: 1, y: null } }), hover(700, 900), drop);
  assert.deepEqual(side.answer.areas, [[[100, 100], [700, 500]]]);
});

test("a click in Adjust chooses an area, a second one picks it up, a third puts it down", () => {
  const hit = { kind: "point", id: 0 };
  const chosen = after(drawn(), { type: "mode", mode: "adjust" }, tap(500, 2300, hit));
  assert.deepEqual([chosen.selected, chosen.held], [0, null]);
  const state = after(chosen, tap(500, 2300, hit), hover(500, 1300), drop);
  assert.deepEqual(state.answer.areas, [[[0, 1250], [3600, 1400]]]);
});

test("what lies under the mouse: nothing while one draws; in Adjust handles first, then the smallest area", () => {
  const two = start("zones", { areas: [[[0, 0], [3600, 2400]], [[100, 100], [300, 500]]] });
  const reach = { point: 40, leg: 20 };
  assert.deepEqual(pad.TOOLS.zones.hit(two, [200, 200], reach), { kind: "empty" });
  const adjust = after(two, { type: "mode", mode: "adjust" });
  assert.deepEqual(pad.TOOLS.zones.hit(adjust, [200, 250], reach), { kind: "point", id: 1 });
  assert.deepEqual(pad.TOOLS.zones.hit({ ...adjust, selected: 1 }, [290, 490], reach).part, { x: 1, y: 1 });
  assert.deepEqual(pad.TOOLS.zones.hit({ ...adjust, selected: 1 }, [310, 300], reach).part, { x: 1, y: null });
});

test("keys alone: an area is drawn, its corner moved, and taken away", () => {
  const up = { type: "nudge", by: [0, 50] };
  const right = { type: "nudge", by: [50, 0] };
  const state = after({ ...start("zones"), cursor: [100, 100] }, { type: "enter" }, { type: "act" }, right, right, up, { type: "act" });
  assert.deepEqual(state.answer.areas, [[[100, 100], [200, 150]]]);
  const wide = after(state, { type: "corner" }, { type: "corner" }, right, { type: "act" });
  assert.deepEqual(wide.answer.areas, [[[100, 100], [250, 150]]]);
  assert.deepEqual(after(wide, { type: "remove" }).answer.areas, []);
});

test("in Adjust Enter picks up the area that Page Down chose", () => {
  const state = after(drawn(), { type: "mode", mode: "adjust" }, { type: "step", by: 1 }, { type: "act" }, { type: "nudge", by: [0, -50] }, { type: "act" });
  assert.deepEqual(state.answer.areas, [[[0, 2200], [3600, 2350]]]);
  assert.equal(after(drawn(), { type: "mode", mode: "adjust" }, { type: "act" }).said.text, "Choose one with Page Up or Page Down, then press Enter.");
});

test("under a slope a shape is drawn corner by corner and closed at the first", () => {
  const corners = [[0, 1000], [3000, 2400], [3000, 2600]];
  const begun = after(start("slope"), { type: "mode", mode: "shape" }, tap(...corners[0]), hover(...corners[1]), drop, hover(...corners[2]), drop);
  assert.equal(begun.commits, 0);
  const closed = after(begun, hover(...corners[0]), drop);
  assert.deepEqual(closed.answer.areas, [corners]);
  assert.equal(closed.commits, 1);
  assert.deepEqual(after(begun, { type: "close" }).answer.areas, [corners]);
  assert.match(after(begun, { type: "remove" }, { type: "close" }).said.text, /three corners/);
});

test("on the rear face typed edges count from the corner one sees on the left", () => {
  const state = after(start("behind"), { type: "setBox", id: null, box: [100, 0, 250, 2400] });
  assert.deepEqual(state.answer.areas, [[[3350, 0], [3500, 2400]]]);
  assert.match(state.said.text, /100 to 250 from the left corner, 0 to 2,400 above the floor/);
});

test("rubbish in an answer is left out, boxes are set upright, and there are at most 60", () => {
  const { areas } = start("zones", { areas: [[[5, 5]], "x", [[9, 9], [1, 1]], [[0, 0], [1, null]]] }).answer;
  assert.deepEqual(areas, [[[1, 1], [9, 9]]]);
  const full = start("zones", { areas: Array.from({ length: 99 }, () => [[0, 0], [9, 9]]) });
  assert.equal(full.answer.areas.length, 60);
  assert.match(after(full, tap(5, 5)).said.text, /at most 60/);
});

test("the answer in words", () => {
  assert.equal(pad.TOOLS.zones.words.describe(drawn().task, BAND, "front"), "1 area is drawn. Area a: 0 to 3,600 from the left corner, 2,250 to 2,400 above the floor.");
});

test("no action changes anything in place", () => {
  const actions = [
    grab(10, 10), hover(300, 300), drop, tap(5, 5), { type: "cancel" }, { type: "corner" }, { type: "act" }, { type: "select", id: 0 }, { type: "pick", id: 0 }, hover(9, 9), drop,
    { type: "setBox", id: 0, box: [1, 2, 3, 4] }, { type: "seek" }, { type: "step", by: 1 }, { type: "undo" }, { type: "redo" }, { type: "mode", mode: "shape" }, tap(1, 1), hover(50, 50), drop,
    hover(90, 5), drop, { type: "close" }, { type: "remove" }, { type: "clear" }, { type: "load", answer: BAND }, { type: "zoom", factor: 2 }, { type: "unheard of" },
  ];
  let state = frozen(drawn());
  for (const action of actions) state = frozen(pad.reduce(state, frozen(action)));
  assert.deepEqual(state.answer, BAND);
});
