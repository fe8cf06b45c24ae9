import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, TASKS, start, DROP } from "./load.mjs";

const { corner, loft, bare } = TASKS;

test("points are lettered past z", () => {
  assert.deepEqual([0, 25, 26, 52].map(pad.letter), ["a", "z", "a2", "a3"]);
});

test("lengths have a comma at the thousands and at most one decimal", () => {
  assert.deepEqual([140, 1250, 12345.67, 0.04, 999.95].map(pad.mm), ["140", "1,250", "12,345.7", "0", "1,000"]);
});

test("a place is told from the nearer corner and from floor or ceiling, whichever is nearer", () => {
  assert.equal(pad.describePlace(corner, "front", [1250, 2260]), "1,250 from the left corner, 140 below the ceiling");
  assert.equal(pad.describePlace(corner, "front", [3500, 450]), "100 from the right corner, 450 above the floor");
});

test("on the rear face left is the other end", () => {
  assert.equal(pad.describePlace(corner, "rear", [3500, 450]), "100 from the left corner, 450 above the floor");
});

test("under a slope the ceiling is measured where the place is", () => {
  assert.equal(pad.ceilingAt(loft.wall, 0), 1200);
  assert.equal(pad.ceilingAt(loft.wall, 1500), 1900);
  assert.equal(pad.ceilingAt(loft.wall, 8000), 2600);
  assert.equal(pad.describePlace(loft, "front", [1500, 1800]), "1,500 from the left corner, 100 below the ceiling");
});

test("picture places go there and back, the rear mirrored", () => {
  assert.deepEqual(pad.toPicture(corner, "front", [100, 300]), [100, 2100]);
  assert.deepEqual(pad.toPicture(corner, "rear", [100, 300]), [3500, 2100]);
  for (const face of ["front", "rear"]) assert.deepEqual(pad.fromPicture(corner, face, pad.toPicture(corner, face, [123, 456])), [123, 456]);
});

test("the frame is the picture's view box, or the wall with air where there is no picture", () => {
  assert.deepEqual(pad.frame(corner, "front"), { x: -200, y: -200, w: 4000, h: 2820 });
  assert.deepEqual(pad.frame(bare, "front"), { x: -150, y: -150, w: 3900, h: 2700 });
  assert.deepEqual(pad.frame({ ...corner, pictures: { front: "<svg viewBox='x'>" } }, "front"), pad.frame(bare, "front"));
});

test("the middle of a line is measured along it", () => {
  assert.deepEqual(pad.middle([[0, 0], [0, 100], [300, 100]]), [100, 100]);
  assert.deepEqual(pad.middle([[5, 5], [5, 5]]), [5, 5]);
});

test("zoom keeps the place under the finger where it is and stops at the whole picture", () => {
  const base = { x: 0, y: 0, w: 1000, h: 500 };
  assert.deepEqual(pad.zoomed(base, base, 2, [250, 100]), { x: 125, y: 50, w: 500, h: 250 });
  assert.deepEqual(pad.zoomed(base, { x: 125, y: 50, w: 500, h: 250 }, 0.1, [0, 0]), base);
  assert.equal(pad.zoomed(base, base, 1000, [0, 0]).w, 1000 / 12);
});

test("the view never leaves the picture, and follows what must be seen", () => {
  const base = { x: 0, y: 0, w: 1000, h: 500 };
  assert.deepEqual(pad.inside(base, { x: 900, y: -10, w: 200, h: 100 }), { x: 800, y: 0, w: 200, h: 100 });
  assert.deepEqual(pad.reveal(base, { x: 0, y: 0, w: 200, h: 100 }, [500, 50]), { x: 325, y: 0, w: 200, h: 100 });
  assert.deepEqual(pad.reveal(base, { x: 0, y: 0, w: 200, h: 100 }, [100, 50]), { x: 0, y: 0, w: 200, h: 100 });
});

test("the answer and its legs are told in words", () => {
  assert.equal(pad.describeLeg(DROP, 0), "a to b, 1,880 upright");
  assert.equal(pad.describeLeg({ points: [[0, 0], [300, 400]] }, 0), "a to b, 500 slanting");
  assert.match(pad.describeAnswer(corner, DROP, "front"), /3 points.*Point c: 300 from the left corner, 70 below the ceiling\.$/);
  assert.equal(pad.describeAnswer(corner, { points: [] }, "front"), "The route has no points yet.");
});

test("near an accessory's centre line a place snaps to it, elsewhere to the grid", () => {
  const state = start();
  const { at, lines } = pad.landing(state, [1218, 1002], { reach: 20 });
  assert.deepEqual(at, [1203, 1000]);
  assert.deepEqual(lines.map((l) => l.words), ["on the centre line of S1"]);
  assert.deepEqual(pad.landing(state, [1238, 1002], { reach: 20 }).at, [1240, 1000]);
});

test("of two lines the nearer wins, and exactly at reach still snaps", () => {
  const lines = [{ axis: "x", value: 100 }, { axis: "x", value: 130 }, { axis: "y", value: 118 }];
  assert.equal(pad.snapAxis("x", 118, lines, { reach: 20, step: 5 }).value, 130);
  assert.equal(pad.snapAxis("x", 80, lines, { reach: 20, step: 5 }).value, 100);
  assert.equal(pad.snapAxis("x", 79, lines, { reach: 20, step: 5 }).value, 80);
});

test("with Alt nothing snaps but to 1 mm", () => {
  assert.deepEqual(pad.landing(start(), [1218.4, 1002.6], { reach: 20, fine: true }).at, [1218, 1003]);
});

test("under the lock the next leg runs level or upright, whichever is longer", () => {
  const state = start("corner", { ...DROP, points: [[1200, 450]] });
  assert.deepEqual(pad.landing(state, [1290, 2000], {}).at, [1200, 2000]);
  assert.deepEqual(pad.landing(state, [2900, 600], {}).at, [2900, 450]);
  assert.deepEqual(pad.landing({ ...state, lock: false }, [2900, 600], {}).at, [2900, 600]);
});

test("no place lies off the wall's box", () => {
  assert.deepEqual(pad.landing(start(), [-90, 9999], {}).at, [0, 2400]);
});
