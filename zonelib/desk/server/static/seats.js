/** What the invigilator sees of a sitting: sums, a row for each seat, the log. */

import { asClock, inWords } from "./clock.js";
import { button, h } from "./dom.js";

const WORDS = {
  away: "not in yet", in: "signed in, not started", working: "working", "handed-in": "handed in", ended: "time over",
  closed: "closed", paused: "paused", "not-open": "signed in", "not-started": "signed in, not started",
};
const HEADS = ["Candidate", "State", "Question", "Answered", "Time left", "Last saved", "Silent for", "Do"];
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
  const count = (what) => told.seats.filter(what).length;
  const sums = [
    told.paused ? "The clock is paused" : `The sitting is ${told.released_at ? "released" : told.state === "made" ? "not open yet" : told.state}`,
    `${told.seats.length} seats`, `${count((one) => one.in)} signed in`, `${count((one) => one.is === "working")} working`,
    `${count((one) => one.is === "handed-in")} handed in`, `${count((one) => one.in && one.gone && one.is === "working")} silent`,
  ];
  const key = (name) => ({ "data-key": `all ${name}` });
  const acts = [
    told.state !== "open" && !told.released_at ? button(told.state === "made" ? "Open" : "Open again", () => act("open", null), { ...key("open"), class: "button main" }) : null,
    told.state === "open" && told.seconds ? button("Add time for all", () => act("add", null), key("add")) : null,
    told.state === "open" && told.seconds && !told.paused ? button("Pause all", () => act("pause", null), key("pause")) : null,
    told.paused ? button("Go on, all", () => act("resume", null), { ...key("resume"), class: "button main" }) : null,
    told.state === "open" ? button("Close", () => act("close", null), key("close")) : null,
    !told.released_at && (told.state === "closed" || told.mode === "homework") ? button("Release results", () => act("release", null), key("release")) : null,
  ];
  return [h("p", { class: "sum" }, ...sums.map((words) => h("span", {}, words))), h("div", { class: "acts" }, ...acts)];
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
  const silent = one.gone && one.in && !["handed-in", "ended", "closed"].includes(one.is);
  const cells = [
    h("span", { class: `mark ${one.is}` }, WORDS[one.is] ?? one.is),
    one.question ? `${one.question} of ${told.questions}` : "–",
    `${one.answered} of ${told.questions}`,
    one.left === null ? "no limit" : `${asClock(one.left)}${one.extra ? ` (+${asClock(one.extra)})` : ""}`,
    one.saved_at ? clock(one.saved_at) : "–",
    silent ? h("span", { class: "mark gone" }, inWords(one.gone)) : "–",
    h("span", {}, ...acts(told, one, act)),
  ];
  return h("tr", {}, h("th", { scope: "row" }, one.candidate), ...cells.map((cell, at) => h("td", { "data-head": HEADS[at + 1] }, cell)));
}

export function seatTable(told, act) {
  const heads = HEADS.map((word) => h("th", { scope: "col" }, word));
  return h("table", { class: "seats" }, h("caption", { class: "unseen" }, "Seats"), h("thead", {}, h("tr", {}, ...heads)), h("tbody", {}, ...told.seats.map((one) => row(told, one, act))));
}

const detail = (one) => Object.entries(DETAILS).map(([name, words]) => (one.detail[name] ? words(one.detail[name], one.kind) : "")).filter(Boolean).join(", ");

export function logList(events) {
  const by = (one) => (one.actor === one.candidate ? "" : `, by the ${one.actor}`);
  const more = (one) => (detail(one) ? ` (${detail(one)})` : "");
  const line = (one) => `${clock(one.at)}  ${one.candidate || "All"}: ${KINDS[one.kind] ?? one.kind}${by(one)}${more(one)}`;
  return h("ul", { class: "log" }, ...events.map((one) => h("li", {}, line(one))));
}
