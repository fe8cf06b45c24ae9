import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, after, start, frozen } from "./load.mjs";

const hover = (x, y) => ({ type: "hover", at: [x, y], reach: 0 });
const tap = (x, y, hit = { kind: "empty" }) => ({ type: "tap", hit, at: [x, y], reach: 0 });
const drop = { type: "drop" };
const right = { type: "nudge", by: [50, 0] };
const up = { type: "nudge", by: [0, 50] };
const PLACES = { places: { P1: [300, 1500], C1: [1500, 1400] } };
const CUTS = {
  holes: [{ x: 1000, y: 100, diameter: 20, protection: "none" }], notches: [{ x: 400, length: 40, depth: 15, edge: "top", protection: "steel-plate" }],
};

test("a click hangs the first thing that does not hang yet, its middle at the click; the next click the next", () => {
  const state = after(start("fixings"), tap(550, 1700), tap(1800, 1750));
  assert.deepEqual(state.answer, PLACES);
  assert.equal(state.commits, 2);
  assert.match(after(state, tap(99, 99)).said.text, /^All of them hang/);
});

test("a chosen thing is hung first", () => {
  const state = after(start("fixings"), { type: "select", id: "C1" }, tap(1800, 1750));
  assert.deepEqual(state.answer.places, { C1: [1500, 1400] });
  assert.equal(after(start("fixings"), { type: "select", id: "C1" }).said.text, "C1");
});

test("a thing is moved whole by where it was taken, stays on the wall, and goes back with Escape", () => {
  const held = after(start("fixings", PLACES), { type: "grab", hit: { kind: "point", id: "P1" }, at: [310, 1510] }, hover(410, 1560));
  assert.deepEqual(held.answer.places.P1, [400, 1550]);
  assert.equal(held.commits, 0);
  assert.equal(after(held, drop).commits, 1);
  assert.deepEqual(after(held, { type: "cancel" }).answer, PLACES);
  assert.deepEqual(after(held, hover(9999, -50), drop).answer.places.P1, [3100, 0]);
});

test("the table, the keys and the pointer hang a thing in the same place", () => {
  const typed = after(start("fixings"), { type: "setPlace", id: "P1", at: [300, 1500] });
  const keyed = after({ ...start("fixings"), cursor: [500, 1650] }, { type: "enter" }, right, up, { type: "act" });
  const clicked = after(start("fixings"), tap(550, 1700));
  assert.deepEqual(typed.answer, { places: { P1: [300, 1500] } });
  assert.deepEqual(keyed.answer, typed.answer);
  assert.deepEqual(clicked.answer, typed.answer);
});

test("keys: Page Down chooses a thing, Enter picks it up and puts it down, Backspace takes it down", () => {
  const state = after(start("fixings", PLACES), { type: "step", by: 1 }, { type: "act" }, right, up, { type: "act" });
  assert.deepEqual(state.answer.places, { P1: [350, 1550], C1: [1500, 1400] });
  assert.deepEqual(after(state, { type: "remove" }).answer.places, { C1: [1500, 1400] });
  assert.deepEqual(after(state, { type: "clear" }, { type: "undo" }).answer, state.answer);
});

test("a typed place off the wall is brought back, and that is said", () => {
  const state = after(start("fixings"), { type: "setPlace", id: "P1", at: [9000, 1500] });
  assert.deepEqual(state.answer.places.P1, [3100, 1500]);
  assert.match(state.said.text, /brought back onto the wall/);
});

test("things snap beside openings and other things", () => {
  const state = after(start("fixings", { places: { C1: [1500, 1400] } }), { type: "hover", at: [1252, 1650], reach: 12 });
  assert.deepEqual(state.target.at, [1000, 1450]);
  assert.equal(pad.TOOLS.fixings.words.readout(state), "P1: left edge 1,000, lower edge 1,450; fixing 1,250 from the left, 1,810 high, beside C1");
});

test("what is hung is told in words; a stranger in an answer is left out", () => {
  const state = start("fixings", { places: { P1: [300, 1500], X: [1, 1], C1: "no" } });
  assert.deepEqual(state.answer, { places: { P1: [300, 1500] } });
  assert.match(pad.TOOLS.fixings.words.describe(state.task, state.answer, "front"), /^1 of 2 things hang\. P1: left edge 300 .*; fixing 550 from the left, 1,860 high\. C1: not hung yet\.$/);
});

test("a hole is made at a click and takes the size of the one before; a notch goes to the nearer edge", () => {
  const state = after(start("joist"), tap(1000, 101), { type: "setCut", id: "A1", more: { diameter: 16 } }, tap(1200, 60), { type: "mode", mode: "notch" }, tap(400, 20));
  assert.deepEqual(state.answer.holes.map((one) => [one.x, one.y, one.diameter]), [[1000, 100, 16], [1200, 60, 16]]);
  assert.deepEqual(state.answer.notches.map((one) => [one.x, one.edge]), [[400, "bottom"]]);
  assert.equal(state.selected, "B1");
});

test("holes snap to the centre line and in line with what is there", () => {
  const state = after(start("joist"), { type: "hover", at: [808, 94], reach: 12 });
  assert.deepEqual(state.target.at, [800, 100]);
  assert.match(pad.TOOLS.joist.words.readout(state), /on the centre line/);
});

test("cuts are moved, sized, covered and taken away, one commit each", () => {
  const moved = after(start("joist", CUTS), { type: "grab", hit: { kind: "point", id: "A1" }, at: [1002, 98] }, hover(1102, 98), drop);
  assert.deepEqual([moved.answer.holes[0].x, moved.answer.holes[0].y, moved.commits], [1100, 100, 1]);
  const turned = after(moved, { type: "pick", id: "B1" }, hover(500, 10), drop);
  assert.deepEqual([turned.answer.notches[0].x, turned.answer.notches[0].edge], [500, "bottom"]);
  const covered = after(turned, { type: "setCut", id: "A1", more: { protection: "steel-plate" } });
  assert.match(covered.said.text, /a steel plate\.$/);
  assert.equal(covered.commits, 3);
  assert.equal(after(covered, { type: "setCut", id: "A1", more: { protection: "steel-plate" } }).commits, 3);
  assert.deepEqual(after(covered, { type: "remove", id: "A1" }).answer.holes, []);
});

test("a cut by table or keys is the same as by mouse", () => {
  const cut = { x: 1000, y: 100, diameter: 20, protection: "none" };
  const typed = after(start("joist"), { type: "addCut", part: "holes", cut });
  const keyed = after({ ...start("joist"), cursor: [950, 50] }, { type: "enter" }, right, up, { type: "act" });
  assert.deepEqual(typed.answer, after(start("joist"), tap(1000, 100)).answer);
  assert.deepEqual(keyed.answer, typed.answer);
});

test("what lies under the mouse on a joist is the nearest cut within reach", () => {
  const state = start("joist", CUTS);
  const reach = { point: 30, leg: 10 };
  assert.equal(pad.TOOLS.joist.hit(state, [1035, 100], reach).id, "A1");
  assert.equal(pad.TOOLS.joist.hit(state, [410, 195], reach).id, "B1");
  assert.equal(pad.TOOLS.joist.hit(state, [700, 100], reach).kind, "empty");
});

test("cuts are told in words", () => {
  const { task } = start("joist");
  assert.equal(
    pad.TOOLS.joist.words.describe(task, CUTS, "front"),
    "1 hole and 1 notch are cut. Hole A1: 1,000 from the left support, 100 above the bottom, 20 across. Notch B1: 400 from the left support, in the top edge, 40 long, 15 deep, a steel plate.",
  );
  assert.equal(pad.TOOLS.joist.words.count(task, { holes: [], notches: [] }), "No holes and no notches are cut.");
});

test("where only notches are asked, a click makes a notch at once", () => {
  const { task } = start("joist");
  const state = pad.initialState({ ...task, asked: { holes: 0, notches: 1 } }, {});
  assert.equal(after(state, tap(300, 190)).answer.notches[0].edge, "top");
});

test("no action changes anything in place", () => {
  const common = [hover(5, 5), tap(500, 90), { type: "act" }, right, { type: "act" }, { type: "step", by: 1 }, { type: "undo" }, { type: "redo" }, { type: "remove" }, { type: "clear" }, { type: "zoom", factor: 2 }];
  const own = { fixings: [{ type: "setPlace", id: "P1", at: [1, 1] }, { type: "select", id: "C1" }], joist: [{ type: "addCut", part: "holes", cut: CUTS.holes[0] }, { type: "setCut", id: "A1", more: { x: 5 } }] };
  for (const [kind, answer] of [["fixings", PLACES], ["joist", CUTS]]) {
    let state = frozen(start(kind, answer));
    for (const action of [...own[kind], ...common, { type: "load", answer }]) state = frozen(pad.reduce(state, frozen(action)));
    assert.deepEqual(state.answer, answer);
  }
});

test("zooming by button goes where the chosen thing is", () => {
  const state = after(start("joist", CUTS), { type: "select", id: "A1" }, { type: "zoom", factor: 4 });
  const [x] = pad.toPicture(state.task, "front", [1000, 100]);
  assert.ok(state.view.x < x && x < state.view.x + state.view.w);
  const before = (x - state.base.x) / state.base.w;
  assert.ok(Math.abs((x - state.view.x) / state.view.w - before) < 1e-9);
});

test("every sentence these tools say has at most 25 words", () => {
  const said = [];
  const listen = (state, ...actions) => actions.reduce((now, action) => { const next = pad.reduce(now, action); said.push(next.said.text); return next; }, state);
  listen(start("fixings"), tap(550, 1700), tap(1800, 1700), tap(9, 9), { type: "step", by: 1 }, { type: "act" }, right, drop, { type: "undo" }, { type: "clear" }, { type: "setPlace", id: "P1", at: [9999, 9999] });
  listen(start("joist", CUTS), tap(1100, 90), { type: "mode", mode: "adjust" }, tap(9, 9), { type: "act" }, { type: "step", by: -1 }, { type: "act" }, up, drop, { type: "remove" }, { type: "clear" }, { type: "clear" });
  listen(start("slope"), { type: "mode", mode: "shape" }, tap(9, 9), hover(800, 800), drop, hover(90, 900), drop, hover(9, 9), drop, { type: "seek" }, { type: "corner" }, tap(5, 5), { type: "setBox", id: 0, box: [0, 0, 9, 9] });
  for (const kind of ["zones", "fixings", "joist"]) {
    const { words, keyHelp } = pad.TOOLS[kind];
    said.push(words.help, ...Object.values(words.modes ?? {}), ...keyHelp.map(([, text]) => text));
    for (const mode of ["draw", "adjust", "shape", "notch"]) said.push(words.hint({ ...start(kind), mode }));
  }
  const sentences = said.flatMap((text) => text.split(/(?<=[.:])\s/));
  assert.ok(sentences.length > 60);
  assert.deepEqual(sentences.filter((one) => one.split(/\s+/).length > 25), []);
});

test("the fixings of a thing in hand are told, from the left as one sees it", () => {
  const held = after(start("fixings", PLACES), { type: "pick", id: "C1" }, hover(1550, 1450));
  assert.equal(pad.TOOLS.fixings.words.readout(held), "C1: left edge 1,550, lower edge 1,450; fixings 1,610 and 2,090 from the left, 2,100 high");
  assert.match(pad.TOOLS.fixings.words.describe(held.task, held.answer, "rear"), /fixings 1,510 and 1,990 from the left/);
});
