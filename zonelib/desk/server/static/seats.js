/** What the invigilator sees of a sitting: sums, a row for each seat, the log. */

import { asClock, inWords } from "./clock.js";
import { button, h } from "./dom.js";
import { isSilent } from "./sifting.js";

const WORDS = {
  away: "not in yet", in: "signed in, not started", working: "working", "handed-in": "handed in", ended: "time over",
  closed: "closed", paused: "paused", "not-open": "signed in", "not-started": "signed in, not started",
};
const HEADS = ["Candidate", "State", "Question", "Answered", "Time left", "Last saved", "Silent for", "Do"];
const NONE = "–";
const clock = (seconds) => new Date(seconds * 1000).toLocaleTimeString("en-GB");
const KINDS = {
  "made": "made", "opened": "opened", "closed": "closed", "sealed": "log sealed", "released": "results released",
  "time-added": "time added", "paused": "clock paused", "resumed": "clock goes on", "reopened": "may go on", "ended": "handed in by the invigilator",
  "signed-in": "signed in", "signed-out": "signed out", "started": "started", "back": "is back", "handed-in": "handed in",
  "new-code": "new code given", "refused": "answer refused", "move-asked": "another device asks for the seat", "moved": "seat moved", "move-refused": "other device refused", "server-away": "no server was running",
};
const DETAILS = {
  reason: (v) => v, seconds: (v, kind) => (v ? `${{ "server-away": "for ", made: "" }[kind] ?? "+ "}${inWords(v)}` : ""), away: (v) => `away for ${inWords(v)}`,
  receipt: (v) => `receipt ${v}`, exercise: (v) => v, why: (v) => v.replaceAll("-", " "), address: (v) => `from ${v}`,
};

export function summary(told, act) {
  const open = told.paused ? "The clock is paused" : `The sitting is ${told.released_at ? "released" : told.state === "made" ? "not open yet" : told.state}`;
  const sum = `${open}. ${told.seats.filter((one) => one.in).length} of ${told.seats.length} candidates are signed in.`;
  const key = (name) => ({ "data-key": `all ${name}` });
  const acts = [
    told.state !== "open" && !told.released_at ? button(told.state === "made" ? "Open" : "Open again", () => act("open", null), { ...key("open"), class: "button main" }) : null,
    told.state === "open" && told.seconds ? button("Add time for all", () => act("add", null), key("add")) : null,
    told.state === "open" && told.seconds && !told.paused ? button("Pause all", () => act("pause", null), key("pause")) : null,
    told.paused ? button("Go on, all", () => act("resume", null), { ...key("resume"), class: "button main" }) : null,
    told.state === "open" ? button("Close", () => act("close", null), key("close")) : null,
    !told.released_at && (told.state === "closed" || told.mode === "homework") ? button("Release results", () => act("release", null), key("release")) : null,
  ];
  return [h("p", {}, sum), h("div", { class: "acts" }, ...acts)];
}

function acts(told, one, act) {
  const key = (name) => ({ "data-key": `${one.id} ${name}` });
  const link = (words, name) => button(words, () => act(name, one), { ...key(name), class: "link", "aria-label": `${words}: ${one.candidate}` });
  if (told.state !== "open") return [];
  const over = one.is === "ended" || one.is === "handed-in";
  return [
    told.seconds && !over ? link("Add time", "add") : null,
    told.seconds && one.is === "working" ? link("Pause", "pause") : null,
    one.paused && !told.paused ? link("Go on", "resume") : null,
    over ? link("Let go on", "reopen") : null,
    one.is === "working" ? link("Hand in", "end") : null,
  ];
}

function row(told, one, act) {
  const cells = [
    h("span", { class: `mark ${one.is}` }, WORDS[one.is] ?? one.is),
    one.question ? `${one.question} of ${told.questions}` : NONE,
    `${one.answered} of ${told.questions}`,
    one.left === null ? "no limit" : `${asClock(one.left)}${one.extra ? ` (+${asClock(one.extra)})` : ""}`,
    one.saved_at ? clock(one.saved_at) : NONE,
    isSilent(one) ? h("span", { class: "mark gone" }, inWords(one.gone)) : NONE,
    h("span", {}, ...acts(told, one, act)),
  ];
  const cell = (what, at) => h("td", { role: "cell", "data-head": HEADS[at + 1], class: what === NONE ? "none" : null }, what);
  return h("tr", { role: "row" }, h("th", { scope: "row", role: "rowheader" }, one.candidate), ...cells.map(cell));
}

/** The roles are said, since a narrow page lays the table out as cards. */
export function seatTable(told, seats, act) {
  if (!seats.length) return h("p", { class: "card" }, "No candidate is shown. Choose All, or look for another number.");
  const heads = HEADS.map((word) => h("th", { scope: "col", role: "columnheader" }, word));
  const group = (tag, ...rows) => h(tag, { role: "rowgroup" }, ...rows);
  return h("table", { class: "seats", role: "table" }, h("caption", { class: "unseen" }, "Seats"),
    group("thead", h("tr", { role: "row" }, ...heads)), group("tbody", ...seats.map((one) => row(told, one, act))));
}

const detail = (one) => Object.entries(DETAILS).map(([name, words]) => (one.detail[name] ? words(one.detail[name], one.kind) : "")).filter(Boolean).join(", ");

export function logList(events) {
  const by = (one) => (one.actor === one.candidate ? "" : `, by the ${one.actor}`);
  const more = (one) => (detail(one) ? ` (${detail(one)})` : "");
  const line = (one) => `${clock(one.at)}  ${one.candidate || "All"}: ${KINDS[one.kind] ?? one.kind}${by(one)}${more(one)}`;
  return h("ul", { class: "log" }, ...events.map((one) => h("li", {}, line(one))));
}
