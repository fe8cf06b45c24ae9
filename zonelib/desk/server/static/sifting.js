/** Which seats of a long list are shown: by how they stand, and by the candidate's number. */

import { announce, button, h } from "./dom.js";

const NOT_STARTED = new Set(["away", "in", "not-open", "not-started"]);
const DONE = new Set(["handed-in", "ended", "closed"]);

/** A page that ought to be there and has not been heard of for a while. */
export const isSilent = (one) => Boolean(one.gone && one.in && !DONE.has(one.is));

const GROUPS = {
  all: { words: "All", has: () => true },
  working: { words: "Working", has: (one) => one.is === "working" || one.is === "paused" },
  silent: { words: "Silent", has: isSilent },
  waiting: { words: "Not started", has: (one) => NOT_STARTED.has(one.is) },
  done: { words: "Handed in or over", has: (one) => DONE.has(one.is) },
};

export class Sieve {
  /** @param {() => void} redraw shows the list anew */
  constructor(redraw) {
    this.group = "all";
    this.redraw = redraw;
    this.field = h("input", { id: "find", type: "search", autocomplete: "off", spellcheck: "false", oninput: redraw });
    this.groups = h("div", { role: "group", "aria-label": "Show candidates", class: "groups" });
    this.bar = h("div", { class: "sieve" }, this.groups, h("p", { class: "find" }, h("label", { for: "find" }, "Find candidate"), this.field));
  }

  choose(name) {
    this.group = name;
    this.redraw();
    announce(`${this.count} candidates shown.`);
  }

  /** Shows how many are in each group, and returns those to list. */
  sifted(seats) {
    const buttons = Object.entries(GROUPS).map(([name, { words, has }]) => {
      const many = seats.filter(has).length;
      return button(`${words}: ${many}`, () => this.choose(name), { class: `group${name === "silent" && many ? " wanted" : ""}`, "aria-pressed": String(name === this.group), "data-key": `group ${name}` });
    });
    this.groups.replaceChildren(...buttons);
    const sought = this.field.value.trim().toUpperCase();
    const found = seats.filter((one) => GROUPS[this.group].has(one) && one.candidate.toUpperCase().includes(sought));
    this.count = found.length;
    return found;
  }
}
