/** One question: its words, the notebooks' pad, and the buttons round it. */

import { announce, atTime, button, h, show, trusted } from "./dom.js";
import { Model } from "./model.js";
import pad from "./pad.js";
import panel from "./panel.js";
import { Offline, ask } from "./talk.js";

let open = null;

export function closePad() {
  open?.close();
  open = null;
}

/** Tells the open pad something, if it is this question's. */
export function padTells(exercise, changes) {
  if (open?.exercise === exercise) open.model.host(changes);
}

/** Keeps the pad from being worked, for the reason given; "" lets it be worked again. */
export function freeze(words) {
  if (!open) return;
  open.el.inert = Boolean(words);
  open.el.classList.toggle("frozen", Boolean(words));
  open.note.textContent = words;
  open.note.hidden = !words;
}

function nothing(answer) {
  const empty = (value) => value === null || value === "" || (Array.isArray(value) ? value.length === 0 : typeof value === "object" && Object.values(value).every(empty));
  return empty(answer ?? {});
}

function checkPart(page, one, model) {
  if (page.sitting.mode !== "practice") return [];
  const shown = new Model({ view: {}, focus: 0 }, (changes) => { if ("focus" in changes) model.host({ focus: changes.focus }); });
  model.on("change:focus", () => { if (shown.get("focus") !== model.get("focus")) shown.host({ focus: model.get("focus") }); });
  const el = h("div", { class: "panel-place" });
  const check = async () => {
    await page.keeper.settled(5000);
    try {
      const found = await ask("POST", `/api/check/${one.exercise}`, {});
      model.host({ result: found.result });
      shown.host({ view: found.view });
    } catch (error) {
      shown.host({ view: { notes: [error.message], said: error.message } });
    }
  };
  panel.render({ model: shown, el });
  return [h("p", { class: "row" }, button("Check", check, { class: "button main" })), el];
}

/** Questions as they were last seen, so that one can go from one to the next without a network. */
const seen = new Map();

async function fetched(exercise) {
  try {
    const found = await ask("GET", `/api/question/${exercise}`);
    seen.set(exercise, found);
    return found;
  } catch (error) {
    if (error instanceof Offline && seen.has(exercise)) return seen.get(exercise);
    throw error;
  }
}

/** Fetches what was not seen yet, one after the other. */
export async function fetchAll(exercises) {
  for (const exercise of exercises) {
    if (!seen.has(exercise)) await fetched(exercise).catch(() => {});
  }
}

export async function openQuestion(page, index, { goTo, showCheck, flag, changed }) {
  const one = page.sitting.questions[index];
  const found = await fetched(one.exercise);
  if (page.at !== one.exercise || page.view !== "question") return;
  closePad();
  const { keeper, sitting } = page;
  const answer = keeper.meet(one.exercise, found.revision, found.answer);
  const saved = found.saved_at ? `Saved ${atTime(found.saved_at)}` : "";
  const state = { task: found.task, answer, result: null, focus: 0, saved, problem: "" };
  const model = new Model(state, (changes) => {
    if (!("answer" in changes)) return;
    const before = one.answered;
    one.answered = !nothing(changes.answer);
    if (before !== one.answered) changed();
    Object.assign(found, { answer: changes.answer });
    model.host({ result: null, saved: "" });
    keeper.change(one.exercise, changes.answer);
  });
  const el = h("div", { class: "pad-place" });
  const note = h("p", { class: "frozen-note", role: "status", hidden: true });
  const close = pad.render({ model, el });
  open = { exercise: one.exercise, model, el, note, close };
  const flagged = button(one.flagged ? "Remove the flag" : "Flag to come back", () => { flag(one); mark(); }, { "aria-pressed": String(one.flagged) });
  const mark = () => { flagged.textContent = one.flagged ? "Remove the flag" : "Flag to come back"; flagged.setAttribute("aria-pressed", String(one.flagged)); };
  const last = index === sitting.questions.length - 1;
  const steps = h("p", { class: "row steps" },
    index ? button("Previous question", () => goTo(sitting.questions[index - 1].exercise)) : null,
    last ? showCheck && button("Check and hand in", showCheck, { class: "button main" }) : button("Next question", () => goTo(sitting.questions[index + 1].exercise), { class: "button main" }),
    flagged);
  const [edition, aid, ...rest] = found.safety;
  document.getElementById("safety").replaceChildren(h("p", {}, `${edition} `, h("b", {}, aid), ` ${rest[0] ?? ""}`),
    h("details", {}, h("summary", {}, "Before you drill into a real wall"), h("ul", {}, ...rest.slice(1).map((line) => h("li", {}, line)))));
  const points = `${found.points} mark${found.points === 1 ? "" : "s"}`;
  show(h("h1", {}, `Question ${index + 1} of ${sitting.questions.length}: ${found.title}`), h("p", { class: "quiet" }, points),
    trusted(found.question, { class: "question" }), note, el, ...checkPart(page, one, model), steps);
  announce(`Question ${index + 1}, ${points}.`);
}
