/** The list of questions, each with how far it is. */

import { button, h } from "./dom.js";

export const stateOf = (one) => [one.answered ? "Answered" : "Not answered", ...(one.flagged ? ["flagged"] : [])].join(", ");

export function drawQuestions(el, questions, { at, view, go, check }) {
  const items = questions.map((one, index) => {
    const here = view === "question" && one.exercise === at;
    const words = [h("span", { class: "n" }, String(index + 1)), h("span", { class: "state" }, one.answered ? "answered" : "open"), one.flagged ? h("span", { class: "flag" }, "flag") : null];
    const label = `Question ${index + 1}: ${stateOf(one)}`;
    const dress = { class: `tab${one.answered ? " answered" : ""}`, "aria-label": label, "aria-current": here ? "step" : null };
    return h("li", {}, button(words.filter(Boolean), () => go(one.exercise), dress));
  });
  const last = h("li", { class: "last" }, button("Check and hand in", check, { class: "tab wide", "aria-current": view === "check" ? "step" : null }));
  el.replaceChildren(h("ol", {}, ...items, last));
}
