// The pad and the test page's tasks as modules, whatever a Node version makes of a bare `.js` file.
import { readFileSync } from "node:fs";

const load = (path) => import(`data:text/javascript;base64,${readFileSync(new URL(path, import.meta.url)).toString("base64")}`);

export const pad = await load("../../zonelib/sheet/static/pad.js");
export const { TASKS } = await load("./tasks.js");

/** The state after some actions. */
export const after = (state, ...actions) => actions.reduce(pad.reduce, state);
export const start = (task = "corner", answer = {}) => pad.initialState(TASKS[task], answer);

/** A frozen copy, all the way down: a reducer that changes anything in place throws. */
export function frozen(value) {
  if (value && typeof value === "object") Object.values(value).forEach(frozen);
  return Object.freeze(value);
}

export const DROP = { points: [[1200, 450], [1200, 2330], [300, 2330]], depth: [20, 30], protection: ["none", "steel-plate"], rcd: null };
