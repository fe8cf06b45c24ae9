/**
 * A part of the page. One that `follows` is brought up to date while the cursor moves, the others on real changes only.
 * @typedef {{el: HTMLElement, update: (state: State, before: State|null) => void, follows?: boolean, stop?: () => void}} Part
 */

const isZoomed = (state) => state.view.w < state.base.w - NEAR;
const bothFaces = (state) => Boolean(state.task.pictures?.front && state.task.pictures?.rear);
const panBy = (x, y) => (state) => ({ type: "pan", by: [(x * state.view.w) / 3, (y * state.view.h) / 3] });
const toolbarGroup = (words, items) => ({ words, items });

/** A tool's own buttons; some hang on the exercise. */
function barOf(task) {
  const { bar = {} } = toolOf(task);
  return typeof bar === "function" ? bar(task) : bar;
}

/** The tool's modes, the faces, and what every pad can undo. */
const drawBar = ({ modes = [], changes = [] }) => [
  toolbarGroup("What a click does", modes),
  toolbarGroup("Face", [
    { words: "Front", show: bothFaces, pressed: (s) => s.face === "front", action: () => ({ type: "face", face: "front" }) },
    { words: "Rear", show: bothFaces, pressed: (s) => s.face === "rear", action: () => ({ type: "face", face: "rear" }) },
  ]),
  toolbarGroup("Changes", [
    { words: "Undo", icon: "undo", enabled: (s) => s.past.length > 0, action: () => ({ type: "undo" }) },
    { words: "Redo", icon: "redo", enabled: (s) => s.future.length > 0, action: () => ({ type: "redo" }) },
    ...changes,
  ]),
];

/** Below the picture, so that buttons that come and go with the zoom never move it. */
const viewBar = (whole) => [
  toolbarGroup("View", [
    { words: "Zoom out", icon: "minus", bare: true, enabled: isZoomed, action: () => ({ type: "zoom", factor: 1 / ZOOM_STEP }) },
    { words: `Show the whole ${whole}`, icon: "fit", bare: true, enabled: isZoomed, action: () => ({ type: "fit" }) },
    { words: "Zoom in", icon: "plus", bare: true, action: () => ({ type: "zoom", factor: ZOOM_STEP }) },
    { words: "Move the view", icon: "view", bare: true, show: isZoomed, pressed: (s) => s.mode === "view", action: (s) => ({ type: "mode", mode: s.mode === "view" && drawable(s) ? firstMode(s.task) : "view" }) },
    { words: "View left", icon: "left", bare: true, show: isZoomed, action: panBy(-1, 0) },
    { words: "View right", icon: "right", bare: true, show: isZoomed, action: panBy(1, 0) },
    { words: "View up", icon: "up", bare: true, show: isZoomed, action: panBy(0, -1) },
    { words: "View down", icon: "down", bare: true, show: isZoomed, action: panBy(0, 1) },
  ]),
];

const drawBarPart = (store) => barPart(store, drawBar(barOf(store.state.task)), "Drawing tools");
const viewBarPart = (store) => barPart(store, viewBar(thing(store.state)), "Zoom and view");

/** @returns {Part} a row of buttons; arrow keys move along it */
function barPart(store, bar, name) {
  const entries = bar.map((group) => ({ group, buttons: group.items.map((item) => toolButton(item, store)) }));
  const groups = entries.map(({ group, buttons }) => h("div", { role: "group", "aria-label": group.words, class: "zl-group" }, ...buttons));
  const el = h("div", { role: "toolbar", "aria-label": name, class: "zl-bar", onkeydown: roam }, ...groups);
  const update = (state) => {
    entries.forEach(({ group, buttons }, g) => {
      buttons.forEach((b, i) => dressButton(b, group.items[i], state));
      groups[g].hidden = buttons.every((b) => b.hidden);
    });
    keepOneTabStop(el);
  };
  return { el, update };
}

function toolButton(item, store) {
  const press = () => { if (!item.enabled || item.enabled(store.state)) store.dispatch(item.action(store.state)); };
  const drawing = item.icon ? icon(item.icon) : null;
  const words = item.bare ? null : h("span", {}, item.short ?? item.words);
  return h("button", { type: "button", class: item.bare ? "zl-button" : "zl-button zl-worded", "aria-label": item.words, title: item.bare || item.short ? item.words : null, onclick: press }, drawing, words);
}

function dressButton(button, item, state) {
  button.hidden = item.show ? !item.show(state) : false;
  if (item.pressed) button.setAttribute("aria-pressed", String(item.pressed(state)));
  if (item.enabled) button.setAttribute("aria-disabled", String(!item.enabled(state)));
}

const shown = (bar) => [...bar.querySelectorAll("button")].filter((b) => !b.hidden && !b.parentElement.hidden);

/** One Tab stop for the whole bar: the button in focus, or the first. */
function keepOneTabStop(bar, chosen = null) {
  const buttons = shown(bar);
  const stop = chosen ?? buttons.find((b) => b === document.activeElement) ?? buttons.find((b) => b.tabIndex === 0) ?? buttons[0];
  buttons.forEach((b) => { b.tabIndex = b === stop ? 0 : -1; });
}

function roam(event) {
  const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
  const buttons = shown(event.currentTarget);
  const here = buttons.indexOf(event.target);
  if (!step || here < 0) return;
  event.preventDefault();
  const next = buttons[(here + step + buttons.length) % buttons.length];
  keepOneTabStop(event.currentTarget, next);
  next.focus();
}
