/** The list of questions, each with how far it is. */

import { button, h } from "./dom.js";

export const stateOf = (one) => [one.answered ? "Answered" : "Not answered", ...(one.flagged ? ["flagged"] : [])].join(", ");

export function drawQuestions(el, questions, { at, view, go, check }) {
  const items = questions.map((one, index) => {
    const here = view === "question" && one.exercise === at;
    const unseen = (words) => h("span", { class: "unseen" }, words);
    const words = [unseen("Question "), h("span", { class: "n" }, String(index + 1)), unseen(": "), h("span", { class: "state" }, one.answered ? "answered" : "open"),
      one.flagged ? [unseen(", "), h("span", { class: "flag" }, "flag")] : []].flat();
    const dress = { class: `tab${one.answered ? " answered" : ""}`, "aria-current": here ? "step" : null };
    return h("li", {}, button(words, () => go(one.exercise), dress));
  });
  const last = h("li", { class: "last" }, button("Check and hand in", check, { class: "tab wide", "aria-current": view === "check" ? "step" : null }));
  el.replaceChildren(h("ol", {}, ...items, check ? last : null));
}
