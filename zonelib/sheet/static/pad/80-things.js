/**
 * What tools share in which things are put on the drawing and moved about: areas, cupboards, holes.
 *
 * @typedef {{x0: number, y0: number, x1: number, y1: number}} Edges  of a box on the wall (mm)
 * @typedef {{id: *, part: *, grip: Place, now: Place, before: Answer, fresh: boolean}} Hold
 *   what is in hand: `now` is where its anchor is, `grip` how far the cursor is from that; `fresh` was not there before
 * @typedef {object} Things
 * @property {(state: State) => *[]} ids  of all things that are there, in order
 * @property {(state: State, id: *) => string} name  "Area a"
 * @property {(state: State, id: *) => string} where  its place in words
 * @property {(state: State, id: *, part: *) => Place} anchor  of a thing, or of a part of it that is moved
 * @property {(state: State, id: *) => Place} middle
 * @property {(state: State, hold: Hold, at: Place) => Answer} carried  the answer with the anchor brought there
 * @property {(state: State) => {axis: string, value: number, words: string}[]} lines  what an anchor snaps to
 * @property {(state: State, at: Place) => State} put  a tap or Enter on an empty place
 * @property {(state: State) => Place} nextGrip  how far the cursor is from the anchor of what would be put next
 * @property {(state: State, id: *) => Answer} without
 * @property {(state: State) => string} [unfit]  why what is in hand cannot be put down like this, or ""
 * @property {(task: Task, at: Place, hold: Hold|null) => Place} [kept]  an anchor brought to where it may be
 */

const edges = ([[xa, ya], [xb, yb]]) => ({ x0: Math.min(xa, xb), y0: Math.min(ya, yb), x1: Math.max(xa, xb), y1: Math.max(ya, yb) });
const within = (box, [x, y], air = 0) => x >= box.x0 - air && x <= box.x1 + air && y >= box.y0 - air && y <= box.y1 + air;
const minus = (a, b) => [a[0] - b[0], a[1] - b[1]];
const plus = (a, b) => [a[0] + b[0], a[1] + b[1]];

/** The way across as seen on this face: the rear is mirrored. */
const seenX = ({ task, face }, x) => (face === "rear" ? task.wall.length - x : x);
const tenth = (v) => Math.round(v * 10) / 10;

/** Edges of accessories and openings, to snap to. */
function edgeLines(task) {
  const boxes = [
    ...(task.accessories ?? []).map((a) => [a.id, a.x - a.width / 2, a.y - a.height / 2, a.width, a.height]),
    ...(task.openings ?? []).map((o) => [o.id, o.x, o.y, o.width, o.height]),
  ];
  return boxes.flatMap(([id, x, y, w, high]) => [["x", x], ["x", x + w], ["y", y], ["y", y + high]].map(([axis, value]) => ({ axis, value, source: id, words: `at the edge of ${id}` })));
}

/** What every tool with things does in the same way: its actions A, and helpers H. @param {Things} T */
function thingActions(T) {
  const kept = (state, at) => (T.kept ? T.kept(state.task, at, state.held) : onWall(state.task, at));

  /** The anchor brought near the cursor, snapped. */
  function aim(state, cursor, { reach = 0, fine = false, exact = false } = {}) {
    const grip = state.held ? state.held.grip : T.nextGrip(state);
    const raw = minus(cursor, grip);
    const lines = T.lines(state);
    const how = { reach: fine ? 0 : reach, step: fine ? 1 : state.task.snap || 5 };
    const [x, y] = exact ? raw.map((value) => ({ value, line: null })) : ["x", "y"].map((axis, i) => snapAxis(axis, raw[i], lines, how));
    const at = kept(state, [x.value, y.value]);
    const found = [x.line, y.line].filter((l) => l && same(l.value, at[l.axis === "x" ? 0 : 1]));
    const next = { ...state, cursor: onWall(state.task, cursor), target: { at, lines: found } };
    return next.held ? carry(next, at) : next;
  }

  function carry(state, at) {
    const held = { ...state.held, now: at };
    return { ...state, held, answer: T.carried(state, held, at) };
  }

  function hold(state, id, part, cursor, more = {}) {
    const now = more.now ?? T.anchor(state, id, part);
    const held = { id, part, grip: minus(cursor, now), now, before: state.answer, fresh: false, ...more };
    return { ...state, held, selected: id, cursor, target: null };
  }

  const calm = (state) => (state.held ? { ...state, answer: state.held.before, held: null, target: null } : state);
  const told = (state, id) => `${T.name(state, id)}: ${T.where(state, id)}`;
  const chosen = (state) => (T.ids(state).includes(state.selected) ? state.selected : null);

  const A = {
    hover: (state, { at, reach, fine }) => ({ ...aim(state, at, { reach, fine }), keys: false }),
    leave: (state) => (state.keys || state.held ? state : { ...state, target: null }),
    enter(state) {
      const start = state.cursor ?? (chosen(state) === null ? [state.task.wall.length / 2, tallest(state.task.wall) / 2] : T.middle(state, state.selected));
      return { ...state, keys: true, cursor: start.map(Math.round) };
    },
    nudge(state, { by }) {
      const from = A.enter(state);
      const grip = from.held ? from.held.grip : T.nextGrip(from);
      const anchor = from.held ? from.held.now : minus(from.cursor, grip);
      const flip = from.face === "rear" ? -1 : 1;
      const grid = from.task.snap || 5;
      const to = [stepped(anchor[0], by[0] * flip, grid), stepped(anchor[1], by[1], grid)].map((v, i) => (by[i] ? v : anchor[i]));
      const next = aim(from, plus(to, grip), { exact: true });
      const cursor = plus(next.target.at, grip);
      const view = reveal(next.base, next.view, toPicture(next.task, next.face, onWall(next.task, cursor)));
      return say({ ...next, cursor: onWall(next.task, cursor), view }, readout(next), true);
    },
    /** Enter or Space: put down, or pick up in Adjust, or put something new. */
    act(state) {
      if (state.held) return A.drop(state);
      if (state.mode === "adjust") return chosen(state) === null ? say(state, "Choose one with Page Up or Page Down, then press Enter.") : A.pick(state, { id: state.selected });
      const from = A.enter(state);
      return A.put(from, { at: from.cursor, exact: true });
    },
    put(state, { at, reach, fine, exact }) {
      if (state.held) return A.drop(at ? aim(state, at, { reach, fine }) : state);
      const next = aim(state, at, { reach, fine, exact });
      return T.put(next, next.target.at);
    },
    pick(state, { id, part = "whole", at }) {
      const from = calm(state);
      if (!T.ids(from).includes(id)) return from;
      return say(hold(from, id, part, at ?? T.anchor(from, id, part)), `${T.name(from, id)} picked up: ${T.where(from, id)}.`);
    },
    drop(state) {
      if (!state.held) return state;
      const { id, before, fresh } = state.held;
      const why = T.unfit?.(state) ?? "";
      if (why) return say(state, why);
      if (JSON.stringify(before) === JSON.stringify(state.answer)) return say({ ...calm(state), selected: id }, `${T.name(state, id)} put down where it was.`);
      const next = commit(state, state.answer, `${T.name(state, id)} ${fresh ? "placed" : "moved"}: ${T.where(state, id)}.`);
      return { ...next, selected: id, target: null };
    },
    cancel(state) {
      if (!state.held) return state;
      return say({ ...calm(state), selected: state.held.fresh ? null : state.held.id }, state.held.fresh ? "Not drawn." : "Put back where it was.");
    },
    step(state, { by }) {
      const all = T.ids(state);
      if (state.held) return say(state, PUT_DOWN_FIRST);
      if (!all.length) return say(state, "There is nothing to choose yet.");
      const here = all.indexOf(state.selected);
      const id = all[here < 0 ? (by > 0 ? 0 : all.length - 1) : clamp(here + by, 0, all.length - 1)];
      const at = T.middle(state, id);
      const view = reveal(state.base, state.view, toPicture(state.task, state.face, at));
      return say({ ...state, selected: id, cursor: at, target: null, keys: true, view }, told(state, id));
    },
    remove(state, { id }) {
      const from = calm(state);
      const which = id ?? chosen(from) ?? T.ids(from).at(-1) ?? null;
      if (which === null || !T.ids(from).includes(which)) return say(from, "There is nothing to remove.");
      return { ...commit(from, T.without(from, which), `${T.name(from, which)} removed. Undo brings it back.`), selected: null, target: null };
    },
    clear(state) {
      const from = calm(state);
      if (!T.ids(from).length) return say(from, "There is nothing to remove.");
      const answer = [...T.ids(from)].reverse().reduce((left, id) => T.without({ ...from, answer: left }, id), from.answer);
      return { ...commit(from, answer, "All removed. Undo brings it back."), selected: null, target: null };
    },
    select: (state, { id }) => say({ ...calm(state), selected: id }, T.ids(state).includes(id) ? told(state, id) : T.name(state, id)),
  };
  /** What is said while one moves. */
  function readout(state) {
    if (state.held) return [told(state, state.held.id), ...lineWords(state)].join(", ");
    const at = state.target?.at ?? (state.keys ? state.cursor : null);
    return at ? [T.spot ? T.spot(state, at) : placeWords(state, at), ...lineWords(state)].join(", ") : "";
  }

  const lookedAt = (state) => (chosen(state) === null ? null : T.middle(state, state.selected));
  return { A, H: { aim, hold, calm, chosen, readout, lookedAt } };
}

const lineWords = (state) => [...new Set((state.target?.lines ?? []).map((l) => l.words))];

/** Buttons that every tool with things has. */
const thingBar = (noun, words) => ({
  modes: [
    { words: words.draw, icon: "draw", show: drawable, pressed: (s) => s.mode === "draw", action: () => ({ type: "mode", mode: "draw" }) },
    ...(words.more ?? []),
    { words: "Adjust", icon: "adjust", show: drawable, pressed: (s) => s.mode === "adjust", action: () => ({ type: "mode", mode: "adjust" }) },
  ],
  changes: [
    { words: words.remove ?? `Delete ${noun}`, short: "Delete", icon: "bin", enabled: words.any, action: () => ({ type: "remove" }) },
    { words: "Clear", icon: "clear", enabled: words.any, action: () => ({ type: "clear" }) },
  ],
});

/** A labelled number field for a thing; what one sees is part of what it is called. */
function thingField(name, words, store, { low, high, onvalue }) {
  const field = numberField(`${name()}, ${words}`, { low, high, onvalue, complain: store.complain });
  return { field, el: h("label", { class: "zl-thing-field" }, h("span", {}, words), field) };
}

/** @returns {HTMLElement} a labelled choice of a thing */
function thingSelect(name, words, options, onvalue) {
  const field = h("select", { class: "zl-select", "aria-label": `${name}, ${words}`, onchange: (e) => onvalue(e.target.value) }, ...options.map(([value, text]) => h("option", { value }, text)));
  return { field, el: h("label", { class: "zl-thing-field" }, h("span", {}, words), field) };
}

/** One thing as a row: its name, its fields, and what removes it. */
function thingRow(title, fields, remove) {
  const name = h("b", { class: "zl-thing-name" });
  const words = h("span", { class: "zl-quiet" });
  const button = h("button", { type: "button", class: "zl-button", onclick: remove.action }, icon("bin"));
  const el = h("div", { class: "zl-thing", role: "group" }, h("p", { class: "zl-thing-head" }, name, words, button), h("div", { class: "zl-thing-fields" }, ...fields.map((f) => f.el)));
  const update = ({ label, note = "", values, chosen, gone = false }) => {
    name.textContent = label;
    words.textContent = note;
    el.setAttribute("aria-label", label);
    button.setAttribute("aria-label", `${remove.words} ${label}`);
    button.hidden = gone;
    el.classList.toggle("zl-chosen", chosen);
    fields.forEach((f, i) => settle(f.field, values[i]));
  };
  return { el, update, fields, title };
}

/** A part of the page with a heading, rows, and what stands below them; folded where it is only another way in. */
function thingsPart({ title, empty, folded = "" }, rowsOf, below = []) {
  const list = h("div", { class: "zl-things" });
  const none = h("p", { class: "zl-quiet" }, empty);
  const box = h("div", { id: freshId("things"), hidden: Boolean(folded) }, h("p", { class: "zl-part-title" }, title), list, none, troubleLine(), ...below);
  const toggle = folded ? h("button", { type: "button", class: "zl-button", "aria-expanded": "false", "aria-controls": box.id, onclick: () => openBox(toggle, box) }, icon("table"), h("span", {}, folded)) : null;
  const el = h("section", { class: "zl-part" }, toggle, box);
  const rows = [];
  const update = (state) => {
    box.querySelector(".zl-trouble").hidden = true;
    rowsOf(state, list, rows);
    none.hidden = rows.length > 0 || !empty;
    list.hidden = rows.length === 0;
  };
  return { el, update };
}

/** The thing's box drawn: outline, and its name where there is room. */
function boxDrawn(box, at, style) {
  const [[xa, ya], [xb, yb]] = [at([box.x0, box.y0]), at([box.x1, box.y1])];
  return svg("rect", { x: Math.min(xa, xb), y: Math.min(ya, yb), width: Math.abs(xb - xa), height: Math.abs(yb - ya), class: style });
}
