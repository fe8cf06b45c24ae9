/**
 * The panel under the pad: hints, what a check found, and what there is to say about saving.
 *
 * One plain module without imports, talking to its host only through the model interface.
 * Reads `view` (see zonelib/sheet/panel.py) and sets `focus`.
 */

function h(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (value !== null && value !== false) node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...children.filter((c) => c !== null && c !== undefined));
  return node;
}

const items = (lines, style) => h("ul", { class: style }, ...lines.map((line) => h("li", {}, line)));
const notes = (view) => (view.notes ?? []).map((line) => h("p", { class: "zl-note" }, line));
const fold = (words, ...children) => h("details", {}, h("summary", {}, words), ...children);

function hints(view) {
  if (!view.hints?.length) return null;
  const steps = view.hints.map((words) => h("li", {}, words));
  return h("section", { "aria-label": "Hints", class: "zl-hints" }, h("h4", {}, "Hints"), h("ol", {}, ...steps));
}

/** A message whose stretch the pad shows can be chosen; the others are plain text. */
function message(one, model) {
  const light = () => { model.set("focus", one.n); model.save_changes(); };
  const number = one.n ? h("span", { class: "zl-disc" }, String(one.n)) : null;
  const words = h("span", {}, h("b", {}, `${one.title}. `), one.text);
  if (!one.place) return h("li", {}, h("div", { class: "zl-said" }, number, words));
  return h("li", {}, h("button", { type: "button", class: "zl-said", "data-n": one.n, onclick: light, onfocus: light }, number, words));
}

function messages(view, model) {
  if (!view.messages?.length) return [];
  const first = view.messages.filter((m) => !m.folded).map((m) => message(m, model));
  const rest = view.messages.filter((m) => m.folded).map((m) => message(m, model));
  const more = rest.length ? fold(`${rest.length} more to change`, h("ul", { class: "zl-list" }, ...rest)) : null;
  return [h("h4", {}, "What to change"), h("ul", { class: "zl-list" }, ...first), more];
}

/** The picture is drawn by our own pen, which escapes every word in it. */
function picture(view) {
  if (!view.pictures?.length) return null;
  const frames = view.pictures.map((svg) => {
    const frame = h("div", { class: "zl-marked" });
    frame.innerHTML = svg;
    return frame;
  });
  return fold("The drawing, marked", ...frames);
}

function safety(view) {
  const [edition, aid, lay, ...drill] = view.safety ?? [];
  if (!edition) return null;
  return h("div", { class: "zl-safe" }, h("p", {}, `${edition} `, h("b", {}, aid), ` ${lay}`), fold("Before you drill into a real wall", items(drill)));
}

function checked(view, model) {
  if (!view.score) return [];
  const head = h("p", { class: view.passed ? "zl-score zl-all" : "zl-score" }, h("b", {}, view.score), h("span", {}, view.attempt ?? ""));
  const met = view.met?.length ? [h("h4", {}, view.headline), items(view.met, "zl-metlist")] : [h("p", {}, view.headline)];
  return [head, ...met, ...messages(view, model), picture(view)];
}

function mark(el, model) {
  const focus = model.get("focus");
  el.querySelectorAll("button[data-n]").forEach((b) => b.setAttribute("aria-pressed", String(Number(b.dataset.n) === focus)));
}

function fill(el, model) {
  const view = model.get("view") ?? {};
  el.classList.toggle("zl-stale", Boolean(view.stale));
  const stale = view.stale ? h("p", { class: "zl-note" }, view.stale) : null;
  const found = h("section", { "aria-label": "Result of the check", class: "zl-found" }, ...checked(view, model));
  const intro = view.score || !view.intro ? null : h("p", { class: "zl-intro" }, view.intro);
  el.replaceChildren(...[...notes(view), intro, hints(view), stale, view.score ? found : null, safety(view)].filter((n) => n !== null));
  mark(el, model);
}

/** What is read out when the panel changes: the newest line, not the whole of it. */
const spoken = (view) => view.said ?? "";

const QUIET = "data-lm-suppress-shortcuts";

/** The host's own keys are silent on the pad, but Ctrl and S must save the notebook from there too. */
function letSaveThrough(event) {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "s") return;
  const sheet = event.target.closest?.(`[${QUIET}]`)?.closest(".zl-sheet");
  if (!sheet) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  const { key, code, keyCode, ctrlKey, metaKey, shiftKey, altKey } = event;
  sheet.dispatchEvent(new KeyboardEvent("keydown", { key, code, keyCode, ctrlKey, metaKey, shiftKey, altKey, bubbles: true, cancelable: true }));
}

function render({ model, el }) {
  const body = h("div", { class: "zl-panel", [QUIET]: "true" });
  const voice = h("div", { role: "status", class: "zl-panel-voice" });
  el.replaceChildren(body, voice);
  const show = () => { fill(body, model); voice.textContent = spoken(model.get("view") ?? {}); };
  const light = () => mark(body, model);
  fill(body, model);
  model.on("change:view", show);
  model.on("change:focus", light);
  window.addEventListener("keydown", letSaveThrough, true);
  return () => { window.removeEventListener("keydown", letSaveThrough, true); model.off("change:view", show); model.off("change:focus", light); };
}

export default { render };
