import assert from "node:assert/strict";
import { test } from "node:test";
import { pad, after, frozen } from "./load.mjs";

const OPTIONS = ["F3", "F1", "F2"].map((id) => ({ id, words: `${id}: somewhere` }));
const several = { kind: "choose", title: "Which screws?", pick: "several", options: OPTIONS };
const start = (answer = {}, task = several) => frozen(pad.initialState(task, answer));
const tick = (id, on = true) => ({ type: "tick", id, on });

test("ticks are kept in the order of the choices, each once, and each is one commit", () => {
  const state = after(start(), tick("F2"), tick("F3"), tick("F2"));
  assert.deepEqual(state.answer, { chosen: ["F3", "F2"] });
  assert.equal(state.commits, 2);
  assert.equal(state.said.text, "F3 ticked. 2 are ticked.");
});

test("a tick is taken away, undone and done again", () => {
  const state = after(start({ chosen: ["F1", "F2"] }), tick("F1", false));
  assert.deepEqual(state.answer.chosen, ["F2"]);
  const back = after(state, { type: "undo" });
  assert.deepEqual(back.answer.chosen, ["F1", "F2"]);
  assert.equal(back.said.text, "Undone. 2 are ticked.");
  assert.deepEqual(after(back, { type: "redo" }).answer.chosen, ["F2"]);
});

test("where one is to be chosen, the last tick takes the place of the one before", () => {
  const state = after(start({}, { ...several, pick: "one" }), tick("F1"), tick("F2"));
  assert.deepEqual(state.answer.chosen, ["F2"]);
});

test("strange answers are made into ones that can be shown", () => {
  for (const raw of [null, {}, { chosen: 3 }, { chosen: "F1" }, { chosen: [["F1"], "gold"] }]) assert.deepEqual(start(raw).answer, { chosen: [] });
  assert.deepEqual(start({ chosen: ["F1", "F1", "F3"] }).answer, { chosen: ["F3", "F1"] });
});

test("the choices are read aloud with their ticks", () => {
  const words = pad.TOOLS.choose.words.describe(several, { chosen: ["F1"] });
  assert.equal(words, "The choices: Not ticked: F3: somewhere. Ticked: F1: somewhere. Not ticked: F2: somewhere.");
});
