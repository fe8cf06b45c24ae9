/** Results, once they are released: the same pictures and words as in a notebook or from the tutor. */

import { button, h, show, trusted } from "./dom.js";
import { ask } from "./talk.js";

export async function showResults(back) {
  const found = await ask("GET", "/api/results");
  const total = found.results.reduce((sum, one) => sum + one.counts, 0);
  const most = found.results.reduce((sum, one) => sum + one.points, 0);
  const round = (n) => String(Math.round(n * 100) / 100);
  const rows = found.results.map((one) => h("tr", {}, h("th", { scope: "row" }, one.title), h("td", {}, round(one.counts)), h("td", {}, round(one.points))));
  const table = h("table", { class: "marks" }, h("thead", {}, h("tr", {}, ...["Question", "Marks", "Out of"].map((word) => h("th", { scope: "col" }, word)))), h("tbody", {}, ...rows));
  show(h("h1", {}, "Results"), h("p", {}, `${round(total)} of ${round(most)} marks.`), table, found.changes && trusted(found.changes, { class: "changed" }),
    ...found.results.map(question).flat(), button("Back", back));
}

/** One question: what a tutor has changed, and what the program has found. */
const question = (one, at) => [
  h("h2", {}, `Question ${at + 1}`), one.changed && h("p", { class: "changed-note" }, one.changed), trusted(one.html, { class: "result" }),
];
