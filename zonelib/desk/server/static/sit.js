/** A candidate's page: from the start of the clock to the receipt. */

import { inWords, makeClock } from "./clock.js";
import { announce, atTime, button, h, show } from "./dom.js";
import { Keeper } from "./keeping.js";
import { drawQuestions, stateOf } from "./list.js";
import { closePad, fetchAll, freeze, openQuestion, padTells } from "./question.js";
import { showResults } from "./results.js";
import { Offline, Refused, ask, useToken } from "./talk.js";
import { openTryout } from "./tryout.js";

const PULSE = 5000;
const byId = (id) => document.getElementById(id);
const page = { sitting: null, pulse: null, keeper: null, at: null, view: "", clock: null };

// --- what is shown -------------------------------------------------------------------------

function banner(words) {
  const el = byId("banner");
  if (el.textContent !== words) el.textContent = words;
  el.hidden = !words;
}

function lines() {
  const { keeper, offline, gone } = page;
  if (gone) return banner(gone);
  if (page.pulse?.paused && page.pulse.started) return banner("The clock is paused. Your answers are kept. Wait for the invigilator.");
  if (!offline) return banner("");
  const kept = keeper?.pending ? `Answers that wait on this device: ${keeper.pending}. They will be sent by themselves.` : "All your answers are saved.";
  banner(`The server cannot be reached. Go on working. ${kept}`);
}

const mayHandIn = () => page.sitting.mode !== "practice";

function nav() {
  const el = byId("questions");
  const may = page.sitting.pulse.started && !["before", "done", "results"].includes(page.view);
  el.hidden = !may;
  if (may) drawQuestions(el, page.sitting.questions, { at: page.at, view: page.view, go: goTo, check: mayHandIn() ? showCheck : null });
}

const go = (view) => { page.view = view; if (view !== "question") closePad(); };

function showBefore() {
  const { sitting, pulse } = page;
  go("before");
  nav();
  const open = pulse.state === "open";
  const time = sitting.seconds ? h("p", {}, `Your time: ${inWords(sitting.seconds)}. It starts when you press Start. The server's clock counts.`) : h("p", {}, "There is no time limit.");
  const start = button("Start", begin, { class: "button main", disabled: !open });
  const wait = open ? null : h("p", { role: "status" }, pulse.state === "closed" ? "This has been closed." : "The invigilator has not opened this yet. The button works once it is open.");
  show(
    h("h1", {}, sitting.title),
    h("div", { class: "card" },
      h("p", {}, `${sitting.questions.length} questions, in any order. Every change is saved by itself.`), time, wait,
      h("p", { class: "row" }, start, button("Try the drawing pad first", () => { go("try"); openTryout(showBefore); }))),
  );
}

async function begin() {
  await attempt(async () => {
    const found = await ask("POST", "/api/start", {});
    await refresh();
    take(found.pulse, { quiet: true });
    goTo(page.sitting.questions[0].exercise);
  });
}

async function goTo(exercise) {
  go("question");
  page.at = exercise;
  nav();
  const index = page.sitting.questions.findIndex((one) => one.exercise === exercise);
  try {
    await openQuestion(page, index, { goTo, showCheck: mayHandIn() ? showCheck : null, flag, changed: nav });
  } catch (error) {
    if (!(error instanceof Offline)) return attempt(() => { throw error; });
    closePad();
    page.offline = true;
    show(h("h1", {}, `Question ${index + 1}`), h("p", {}, "This question was not opened before, and the server cannot be reached. Go on with another one."));
    return lines();
  }
  fetchAll(page.sitting.questions.map((one) => one.exercise));
  document.title = `Question ${index + 1}: ${page.sitting.title}`;
  settle();
}

async function flag(one) {
  one.flagged = !one.flagged;
  nav();
  await attempt(() => ask("POST", `/api/flag/${one.exercise}`, { flagged: one.flagged }));
}

function showCheck() {
  go("check");
  nav();
  const listed = page.sitting.questions.map((one, at) => h("li", {},
    h("b", {}, `Question ${at + 1}: `), `${one.title}. `, `${stateOf(one)}. `,
    button(`Go to question ${at + 1}`, () => goTo(one.exercise), { class: "link" })));
  const open = page.sitting.questions.filter((one) => !one.answered).length;
  const told = open ? `${open} of ${listed.length} questions have no answer yet.` : "Every question has an answer.";
  const rest = page.sitting.seconds ? " Your time ends then." : "";
  show(
    h("h1", {}, "Check and hand in"), h("p", {}, told), h("ol", { class: "checklist" }, ...listed),
    h("div", { class: "card" }, h("p", {}, `After handing in you cannot change your answers.${rest}`),
      h("p", { class: "row" }, button("Hand in now", handIn, { class: "button main" }), button("Go on working", () => goTo(page.at ?? page.sitting.questions[0].exercise)))),
  );
}

async function handIn() {
  await attempt(async () => {
    banner("Sending your answers…");
    if (!(await page.keeper.settled(8000))) { page.offline = true; lines(); return; }
    const found = await ask("POST", "/api/hand-in", {});
    take(found.pulse, { quiet: true });
    showDone();
  });
}

async function endOfTime() {
  freeze("Your time is over. What was saved counts.");
  announce("Your time is over.");
  await page.keeper.settled(4500);
  await attempt(async () => {
    const found = await ask("POST", "/api/hand-in", { ended: true });
    take(found.pulse, { quiet: true });
    showDone();
  });
}

function showDone() {
  const { pulse, sitting } = page;
  go("done");
  nav();
  const why = pulse.handed_in ? "You have handed in." : "Your time is over. What was saved counts.";
  const receipt = pulse.receipt ? [h("p", {}, "Receipt for what is stored. Write it down:"), h("p", { class: "receipt" }, pulse.receipt)] : [];
  const left = page.keeper.pending ? h("p", { class: "trouble" }, `Changes that reached the server too late: ${page.keeper.pending}. They are still on this device. Tell the invigilator.`) : null;
  const results = pulse.released ? button("See your results", results_, { class: "button main" }) : h("p", {}, "Results are shown here once they are released.");
  show(h("h1", {}, sitting.title), h("div", { class: "card" }, h("p", {}, why), ...receipt, left, results), button("Sign out on this device", leave));
}

async function results_() {
  await attempt(async () => { go("results"); nav(); await showResults(showDone); });
}

async function leave() {
  await attempt(async () => { await ask("POST", "/api/leave", {}); location.assign("/"); });
}

// --- following the server ------------------------------------------------------------------

function take(pulse, { quiet = false } = {}) {
  const before = page.pulse;
  page.pulse = page.sitting.pulse = pulse;
  page.clock.follow(pulse);
  page.offline = page.offline && page.keeper.pending > 0;
  lines();
  if (quiet || !before) return;
  if (before.state !== pulse.state || before.started !== pulse.started || before.released !== pulse.released || before.handed_in !== pulse.handed_in) arrive();
  else if (before.may_answer !== pulse.may_answer) settle();
  if (pulse.may_answer && page.keeper.held) page.keeper.hurry();
  if (pulse.may_answer && page.view === "done") goTo(page.sitting.questions[0].exercise);
}

/** Fits the open question to what may be done now. */
function settle() {
  const { pulse } = page;
  if (page.view !== "question") return;
  if (pulse.may_answer) freeze("");
  else if (pulse.paused) freeze("The clock is paused.");
  else freeze("Answers are not taken now. What was saved counts.");
}

/** Shows what fits the state of the seat. */
function arrive() {
  const { pulse } = page;
  if (!pulse.started) return showBefore();
  if (pulse.handed_in || pulse.over || pulse.state === "closed") return showDone();
  if (page.view === "question") return settle();
  return goTo(page.at ?? (page.sitting.questions.find((one) => !one.answered) ?? page.sitting.questions[0]).exercise);
}

async function beat() {
  try {
    const found = await ask("POST", "/api/pulse", { at: page.view === "question" ? page.at : null });
    if (page.offline && !page.keeper.pending) page.offline = false;
    if (page.keeper.pending && !page.keeper.held) page.keeper.hurry();
    if (found.pulse.started && !page.pulse.started) await refresh();
    take(found.pulse);
  } catch (error) {
    if (error instanceof Refused && error.status < 500) gone(error);
    else { page.offline = true; lines(); }
  }
}

async function refresh() {
  const sitting = await ask("GET", "/api/sitting");
  useToken(sitting.token);
  page.sitting = sitting;
  page.pulse ??= sitting.pulse;
  byId("title").textContent = sitting.title;
  byId("who").textContent = sitting.candidate ? `Candidate ${sitting.candidate}` : "";
}

function gone(error) {
  page.gone = error.message;
  freeze(error.message);
  lines();
  show(h("h1", {}, "Not signed in here"), h("p", {}, error.message), h("p", {}, h("a", { href: "/" }, "Sign in")));
  clearInterval(page.timer);
}

/** Runs what talks to the server; trouble is told, never lost. */
async function attempt(act) {
  try {
    await act();
  } catch (error) {
    if (!(error instanceof Refused) && !(error instanceof Offline)) throw error;
    if (error instanceof Refused && error.status === 401) return gone(error);
    if (error instanceof Refused) return banner(error.message);
    page.offline = true;
    return lines();
  }
}

function saved(exercise, found) {
  const one = page.sitting.questions.find((q) => q.exercise === exercise);
  if (one) Object.assign(one, { revision: found.revision, saved_at: found.saved_at });
  page.offline = false;
  lines();
  padTells(exercise, { saved: `Saved ${atTime(found.saved_at)}`, problem: "" });
  if (page.view === "check") showCheck();
}

function newer(exercise, error) {
  padTells(exercise, { answer: error.data.answer, problem: error.message, saved: `Saved ${atTime(error.data.saved_at)}` });
}

async function waitForMove(error) {
  show(h("h1", {}, "Wait for the invigilator"), h("p", { role: "status" }, error.message), h("p", {}, h("a", { href: "/" }, "Use another code")));
  for (;;) {
    await new Promise((done) => setTimeout(done, 2000));
    try {
      await ask("GET", "/api/sitting");
      return location.reload();
    } catch (again) {
      if (again instanceof Refused && again.entry !== "waiting") return gone(again);
    }
  }
}

async function open() {
  try {
    await refresh();
  } catch (error) {
    if (error.entry === "waiting") return waitForMove(error);
    if (error instanceof Refused) return gone(error);
    show(h("h1", {}, "The server cannot be reached"), h("p", {}, "Your saved answers are kept. This page tries again by itself."));
    return setTimeout(open, 3000);
  }
  page.keeper = new Keeper(page.sitting.seat, {
    onSaved: saved, onNewer: newer, onGone: gone,
    onOffline: (is) => { page.offline = is; lines(); },
    onTrouble: (exercise, error) => padTells(exercise, { problem: error.message }),
  });
  page.clock = makeClock(byId("clock"), { say: announce, onEnd: endOfTime });
  take(page.sitting.pulse, { quiet: true });
  arrive();
  page.keeper.hurry();
  page.timer = setInterval(beat, PULSE);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) beat(); });
  window.addEventListener("online", beat);
}

open();
