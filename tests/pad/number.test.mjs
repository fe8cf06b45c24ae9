import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, after, frozen } from "./load.mjs";

const task = { kind: "number", title: "How deep?", unit: "mm", allowed: [1, 102] };
const start = (answer = {}, more = {}) => frozen(pad.initialState({ ...task, ...more }, answer));
const write = (text) => ({ type: "write", text });
const said = (text, more = {}) => after(start({}, more), write(text)).said.text;

test("a number is kept as it was written, with point or comma, and the unit may stand behind it", () => {
  for (const text of ["12.5", "12,5", " 12,5 ", "12,5 mm", "\u22122,5"]) assert.equal(after(start(), write(text)).answer.value, text.trim());
  assert.equal(said("12,5"), "Your number: 12,5 mm.");
  assert.equal(said("12,5 mm"), "Your number: 12,5 mm.");
});

test("what is no number is kept, and it is told what to write", () => {
  for (const text of ["deep", "1.2.3", "12..5", "12,", "-"]) {
    const state = after(start(), write(text));
    assert.equal(state.answer.value, text);
    assert.equal(state.said.text, "This is not a number yet. Write a number such as 12.5 or 12,5.");
  }
});

test("a number that cannot be, and one that reads in two ways, are told of at once", () => {
  assert.equal(said("103"), "This is not possible here. Write a number from 1 to 102.");
  assert.equal(said("102"), "Your number: 102 mm.");
  assert.equal(said("1,250", { allowed: [0, 5000] }), "This can be read as 1.25 or as 1250. Write one of the two.");
  assert.equal(said("1,250", { allowed: [100, 5000] }), "Your number: 1,250 mm.");
});

test("writing the same again is no change; emptying it is one, and can be undone", () => {
  const state = after(start({ value: 34 }), write("34"));
  assert.equal(state.commits, 0);
  const empty = after(state, write("  "));
  assert.deepEqual([empty.answer.value, empty.commits], [null, 1]);
  assert.equal(after(empty, { type: "undo" }).answer.value, 34);
});

test("strange answers are made into an empty field", () => {
  for (const raw of [null, {}, { value: [] }, { value: "" }, { value: NaN }]) assert.equal(start(raw).answer.value, null);
});
