/** @returns {Part} what the last check found; focusing a message lights its stretch */
function resultPart(store) {
  const el = h("section", { class: "zl-part zl-result", "aria-label": "Result of the check" });
  const update = (state, before) => {
    const current = state.result && state.answer === state.resultFor;
    el.hidden = !current || !hasWords(state.result);
    if (current && el.dataset.of !== resultKey(state)) fillResult(el, state, store);
    el.querySelectorAll("button").forEach((b) => b.setAttribute("aria-pressed", String(Number(b.dataset.n) === state.focus)));
  };
  return { el, update };
}

/** A host with a panel of its own sends stretches without words: then they are drawn, and told there. */
const hasWords = (result) => Boolean(result.summary || result.stretches.some((s) => s.text));

const resultKey = (state) => JSON.stringify(state.result);

function fillResult(el, state, store) {
  el.dataset.of = resultKey(state);
  const words = state.result.summary ?? "";
  const summary = h("p", { class: state.result.passed ? "zl-met" : "zl-unmet", hidden: !words }, words);
  const messages = state.result.stretches.filter((s) => s.text).map((s) => messageButton(s, store));
  el.replaceChildren(summary, h("ol", { class: "zl-messages", role: "list", hidden: !messages.length }, ...messages.map((m) => h("li", {}, m))));
}

function messageButton(s, store) {
  const light = () => { if (store.state.focus !== s.n) store.dispatch({ type: "focus", n: s.n }); };
  const words = [h("span", { class: "zl-number-disc" }, String(s.n)), h("span", {}, s.text)];
  return h("button", { type: "button", class: "zl-message", "data-n": s.n, onclick: light, onfocus: light }, ...words);
}

/** @returns {Part} live messages: at once for a change, with a pause for moving */
function voicePart() {
  const el = h("div", { role: "status", class: "zl-unseen" });
  let timer = 0;
  const speak = (text) => { el.textContent = el.textContent === text ? `${text}\u00a0` : text; };
  const update = (state, before) => {
    if (!before || state.said === before.said) return;
    clearTimeout(timer);
    timer = setTimeout(() => speak(state.said.text), state.said.lazy ? 350 : 0);
  };
  return { el, update, follows: true, stop: () => clearTimeout(timer) };
}

/** @returns {Part} the last thing said, for those who see: it stands where nothing else says it */
function noticePart() {
  const el = h("p", { class: "zl-notice", "aria-hidden": "true" });
  return { el, follows: true, update: (state) => { el.textContent = state.said.lazy ? "" : state.said.text; } };
}

const keyHelp = (state) => [
  ["Arrow keys", "move by one step; with Shift ten steps; with Alt 1 mm"], ...(toolOf(state.task).keyHelp ?? []), ["Escape", "put back what is in hand"],
  ...(state.task.walls ? [["N, P", "next wall, previous wall"]] : []), ["Ctrl Z, Ctrl Y", "undo, redo"], ["+ and −, 0", `zoom in and out, whole ${thing(state)}`],
];

/** @returns {Part} the picture in words and the keys, both folded */
function foldsPart(store) {
  const words = h("p");
  const wall = h("details", {}, h("summary", {}, "The drawing in words"), words);
  const list = h("dl", { class: "zl-keys" }, ...keyHelp(store.state).map(([k, w]) => h("div", {}, h("dt", {}, k), h("dd", {}, w))));
  const el = h("div", { class: "zl-folds" }, wall, h("details", { hidden: !store.state.task.wall }, h("summary", {}, "Keys"), list));
  return { el, update: (state) => { words.textContent = inWords(state); } };
}

function spokenWords(state) {
  const { task, face, answer, result, resultFor } = state;
  const checked = result && answer === resultFor ? [result.summary, ...result.stretches.map((s) => `${s.n}. ${s.text}`)] : [];
  return [`${task.title}.`, task.alt?.[face] ?? "", toolOf(task).words.describe(task, answer, face), ...checked].join(" ");
}

/** @returns {Part} reads the exercise, the drawing and the messages aloud; hidden where the browser cannot */
function speechPart(store) {
  const speech = globalThis.speechSynthesis;
  const words = h("span", {}, "Read aloud");
  const mark = (on) => { words.textContent = on ? "Stop reading" : "Read aloud"; };
  const toggle = () => (words.textContent === "Read aloud" ? readAloud(speech, spokenWords(store.state), mark) : speech.cancel() ?? mark(false));
  const el = h("button", { type: "button", class: "zl-button", hidden: !speech, onclick: toggle }, icon("speak"), words);
  return { el, update() {}, stop: () => speech?.cancel() };
}

function readAloud(speech, text, mark) {
  const utterance = new SpeechSynthesisUtterance(text);
  utterance.lang = "en-GB";
  utterance.onend = () => mark(false);
  utterance.onerror = () => mark(false);
  mark(true);
  speech.cancel();
  speech.speak(utterance);
}
