// The pad and the test page's tasks as modules, whatever a Node version makes of a bare `.js` file.
import { readFileSync, readdirSync } from "node:fs";

const PARTS = new URL("../../zonelib/sheet/static/pad/", import.meta.url);
const read = (name, folder = import.meta.url) => readFileSync(new URL(name, folder), "utf8");
const load = (text) => import(`data:text/javascript;base64,${Buffer.from(text).toString("base64")}`);
const joined = readdirSync(PARTS).filter((name) => name.endsWith(".js")).sort().map((name) => read(name, PARTS)).join("\n");

export const pad = await load(joined);
export const { TASKS } = await load(read("./tasks.js"));

/** The state after some actions. */
export const after = (state, ...actions) => actions.reduce(pad.reduce, state);
export const start = (task = "corner", answer = {}) => pad.initialState(TASKS[task], answer);

/** A frozen copy, all the way down: a reducer that changes anything in place throws. */
export function frozen(value) {
  if (value && typeof value === "object") Object.values(value).forEach(frozen);
  return Object.freeze(value);
}

export const DROP = { points: [[1200, 450], [1200, 2330], [300, 2330]], depth: [20, 30], protection: ["none", "steel-plate"], rcd: null };
