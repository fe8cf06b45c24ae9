/** The invigilator's page: sign in, choose a sitting, watch it, act on it. */

import { announce, button, h, show } from "./dom.js";
import { askFor } from "./acting.js";
import { logList, seatTable, summary } from "./seats.js";
import { Sieve } from "./sifting.js";
import { Refused, ask, useToken } from "./talk.js";

const EVERY = 2000;
const page = { sitting: location.hash.slice(1), timer: 0, asks: 0 };

function banner(words) {
  const el = document.getElementById("banner");
  if (el.textContent !== words) el.textContent = words;
  el.hidden = !words;
}

function signIn(words = "") {
  clearTimeout(page.timer);
  const key = h("input", { id: "key", type: "text", autocomplete: "off", spellcheck: "false", "aria-describedby": "key-hint trouble", "aria-invalid": words ? "true" : null });
  const send = async (event) => {
    event.preventDefault();
    try {
      await ask("POST", "/api/desk/sign-in", { key: key.value });
      await open();
    } catch (error) { signIn(error.message); }
  };
  const trouble = h("p", { id: "trouble", class: "trouble", role: "alert", hidden: !words }, words);
  const form = h("form", { class: "card", onsubmit: send }, h("label", { for: "key" }, "Invigilator's key"),
    h("p", { id: "key-hint", class: "hint" }, "It was printed where the server was started."), key, trouble, h("button", { type: "submit", class: "button main" }, "Sign in"));
  document.getElementById("main").className = "narrow";
  show(h("h1", {}, "Invigilator: sign in"), form);
  key.focus();
}

async function open() {
  const found = await ask("GET", "/api/desk");
  useToken(found.token);
  document.getElementById("main").className = "";
  if (found.sittings.some((one) => one.id === page.sitting)) return watch(page.sitting);
  return choose(found.sittings);
}

function choose(sittings) {
  clearTimeout(page.timer);
  location.hash = page.sitting = "";
  const listed = sittings.map((one) => h("li", {}, button(`${one.title}`, () => watch(one.id)), ` ${one.mode}, ${one.released_at ? "released" : one.state}`));
  show(h("h1", {}, "Sittings"), listed.length ? h("ul", { class: "sittings" }, ...listed) : h("p", {}, "There is none yet. Make one with: zonelib quiz new"));
}

function watch(id) {
  location.hash = page.sitting = id;
  const parts = { head: h("div"), asks: h("div"), seats: h("div"), log: h("div") };
  page.sieve = new Sieve(() => draw(page.told));
  page.parts = parts;
  show(h("h1", { id: "sitting" }, id), parts.head, parts.asks, page.sieve.bar, parts.seats, h("h2", {}, "Log"), parts.log, h("p", { class: "row" }, button("All sittings", open_)));
  return follow();
}

const open_ = () => { page.sitting = ""; open().catch(failed); };

async function follow() {
  clearTimeout(page.timer);
  const id = page.sitting;
  try {
    const told = await ask("GET", `/api/desk/${id}`);
    if (page.sitting !== id) return;
    banner("");
    draw(page.told = told);
  } catch (error) { failed(error); }
  if (page.sitting === id) page.timer = setTimeout(follow, EVERY);
}

function failed(error) {
  if (error instanceof Refused && error.status === 401) return signIn();
  return banner(error instanceof Refused ? error.message : "The server cannot be reached. Candidates keep their answers. This page tries again by itself.");
}

/** Where the focus is, by what it does, so that redrawing does not take it away. */
const focusKey = () => document.activeElement?.dataset?.key ?? "";

function draw(told) {
  document.getElementById("now").textContent = `Server's time ${new Date(told.now * 1000).toLocaleTimeString("en-GB")}`;
  document.getElementById("sitting").textContent = told.title;
  document.title = `${told.title}: invigilator`;
  const key = focusKey();
  const act = (name, seat, more) => askFor(name, { sitting: told, seat, more, done: follow, failed });
  page.parts.head.replaceChildren(...summary(told, act));
  page.parts.asks.replaceChildren(...asking(told, act));
  page.parts.seats.replaceChildren(seatTable(told, page.sieve.sifted(told.seats), act));
  page.parts.log.replaceChildren(logList(told.events));
  if (key) document.querySelector(`[data-key="${CSS.escape(key)}"]`)?.focus({ preventScroll: true });
}

function asking(told, act) {
  const waiting = told.seats.filter((one) => one.asks);
  if (waiting.length > page.asks) announce(`${waiting.length} devices ask for a seat.`);
  page.asks = waiting.length;
  const boxes = waiting.map((one) => h("div", { class: "asks" }, h("p", {}, `Another device asks for the seat of ${one.candidate}. Look who sits there.`),
    h("p", { class: "row" }, button("Move the seat there", () => act("move", one), { "data-key": `move ${one.id}`, class: "button main" }), button("Refuse", () => act("refuse", one), { "data-key": `refuse ${one.id}` }))));
  const away = told.state === "open" ? told.away.filter((one) => told.now - one.at < 3600) : [];
  const gaps = away.map((one) => h("div", { class: "asks" }, h("p", {}, `No server was running for ${Math.round(one.seconds)} seconds, until ${new Date(one.at * 1000).toLocaleTimeString("en-GB")}. Candidates could go on drawing; nothing was lost.`),
    h("p", { class: "row" }, button("Give that time back to all", () => act("add", null, { minutes: Math.max(one.seconds / 60, 0.1).toFixed(1) }), { "data-key": `away ${one.at}` }))));
  return [...boxes, ...gaps];
}

window.addEventListener("hashchange", () => { if (location.hash.slice(1) !== page.sitting && location.hash) watch(location.hash.slice(1)); });
open().catch(failed);
