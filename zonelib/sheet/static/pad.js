/**
 * The sketch pad: draw a cable route on a picture of a wall.
 *
 * One plain module without imports. It talks to its host only through the model
 * interface (get, set, on, off, save_changes, send), so the same file serves a
 * notebook, a test page and a server's own page.
 *
 * Sections: 1 types, 2 numbers and words, 3 geometry, 4 answers, 5 snapping,
 * 6 the reducer, 7 keys, 8 elements, 9 overlay, 10 pointer, 11 parts of the
 * page, 12 speech, 13 the widget.
 */

// ---------------------------------------------------------------- 1. types

/** @typedef {[number, number]} Place  x from the left end of the front face, y above floor (mm) */
/** @typedef {{x: number, y: number, w: number, h: number}} Box  part of the picture (its own units: mm) */
/** @typedef {{ma: number, at: "origin"|"outlet", delayed: boolean}} Rcd */
/** @typedef {{points: Place[], depth: number[], protection: string[], rcd: Rcd|null}} Answer */
/** @typedef {{id: string, kind: string, face: string, x: number, y: number, width: number, height: number}} Accessory */
/** @typedef {{axis: "x"|"y", value: number, source: string, words: string}} Line  something to snap to */
/** @typedef {{n: number, face: string, points: Place[], text: string}} Stretch */
/** @typedef {{stretches: Stretch[], passed: boolean, summary: string}} Result */
/**
 * @typedef {object} Task
 * @property {string} kind  name of a tool in TOOLS
 * @property {string} title
 * @property {{id: string, length: number, top: Place[], thickness: number}} wall
 * @property {Accessory[]} accessories
 * @property {{front?: string, rear?: string}} pictures  trusted SVG text
 * @property {{front?: string, rear?: string}} alt
 * @property {string[]} open  which parts the exercise opens
 * @property {Place|null} start  fixed first point
 * @property {object} given  defaults, shaped like an answer
 * @property {{id: string, words: string}[]} protections
 * @property {number} snap  grid (mm)
 */
/**
 * @typedef {object} State
 * @property {Task} task
 * @property {Answer} answer  what is on show; equals the last commit unless a point is held
 * @property {Answer[]} past
 * @property {Answer[]} future
 * @property {number} commits  rises by one for each confirmed change
 * @property {"draw"|"adjust"|"view"} mode
 * @property {boolean} lock  level and upright legs only
 * @property {"front"|"rear"} face
 * @property {Place|null} cursor
 * @property {{at: Place, lines: Line[]}|null} target  where a point would land
 * @property {boolean} keys  the cursor was last moved by keys
 * @property {number|null} selected
 * @property {{index: number, axis: "x"|"y"|null, before: Answer}|null} held
 * @property {Result|null} result
 * @property {Answer|null} resultFor  the answer that the result speaks of
 * @property {number} focus
 * @property {Box} base  the whole picture
 * @property {Box} view  the part on show
 * @property {{text: string, lazy: boolean}} said
 */

// ---------------------------------------------------------------- 2. numbers and words

const MOST_POINTS = 60;
const HISTORY = 200;
const NEAR = 0.01;
const ZOOM_STEP = 1.5;
const MOST_ZOOM = 12;
const RCD_RATINGS = [10, 30, 100, 300];
const RCD_PLACES = { origin: "At the origin, before this cable", outlet: "At the outlet end" };
const OUR_RCD = { ma: 30, at: "origin", delayed: false };

/** Name of a point: a, b, … z, a2, b2, … Numbers are kept for the messages. */
export function letter(index) {
  const turn = Math.floor(index / 26);
  return String.fromCharCode(97 + (index % 26)) + (turn ? String(turn + 1) : "");
}

/** A length in mm with a comma at the thousands. */
export function mm(value) {
  return String(Math.round(value * 10) / 10).replace(/\B(?=(\d{3})+(?!\d))/g, ",");
}

const count = (n, word) => `${n === 0 ? "no" : n} ${word}${n === 1 ? "" : "s"}`;
const same = (a, b) => Math.abs(a - b) < NEAR;
const samePlace = (a, b) => same(a[0], b[0]) && same(a[1], b[1]);
const clamp = (v, low, high) => Math.min(Math.max(v, low), high);
const isNumber = (v) => typeof v === "number" && Number.isFinite(v);
const isPlace = (p) => Array.isArray(p) && p.length === 2 && p.every(isNumber);
const isOpen = (task, part) => (task.open ?? []).includes(part);

// ---------------------------------------------------------------- 3. geometry

/** Height of the wall's highest point (mm). */
export const tallest = (wall) => Math.max(...wall.top.map((p) => p[1]));

/** Height of the ceiling at x (mm). */
export function ceilingAt(wall, x) {
  const after = wall.top.findIndex((p) => p[0] >= x);
  if (after < 1) return wall.top[after === 0 ? 0 : wall.top.length - 1][1];
  const [a, b] = [wall.top[after - 1], wall.top[after]];
  return a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
}

/** Wall place to picture place; the rear face is mirrored. */
export function toPicture(task, face, [x, y]) {
  return [face === "rear" ? task.wall.length - x : x, tallest(task.wall) - y];
}

/** Picture place to wall place. */
export function fromPicture(task, face, [x, y]) {
  return [face === "rear" ? task.wall.length - x : x, tallest(task.wall) - y];
}

/** Nearest place on the wall's box. */
export function onWall(task, [x, y]) {
  return [clamp(x, 0, task.wall.length), clamp(y, 0, tallest(task.wall))];
}

/** How a leg runs: "level", "upright" or "slanting". */
export function run(a, b) {
  if (same(a[1], b[1])) return "level";
  return same(a[0], b[0]) ? "upright" : "slanting";
}

const distance = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Nearest place to p on the piece from a to b. */
function onPiece(p, a, b) {
  const square = distance(a, b) ** 2;
  const share = square ? ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / square : 0;
  const t = clamp(share, 0, 1);
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}

const across = (low, high) => (low <= high ? `${mm(low)} from the left corner` : `${mm(high)} from the right corner`);
const upward = (low, high) => (low < high ? `${mm(low)} above the floor` : `${mm(high)} below the ceiling`);

/** Where a place is, as one would measure it on this face: "1,250 from the left corner, 140 below the ceiling". */
export function describePlace(task, face, at) {
  const left = face === "rear" ? task.wall.length - at[0] : at[0];
  return `${across(left, task.wall.length - left)}, ${upward(at[1], ceilingAt(task.wall, at[0]) - at[1])}`;
}

/** Middle of a line of points, measured along it. */
export function middle(points) {
  const lengths = points.slice(1).map((p, i) => distance(points[i], p));
  let left = lengths.reduce((sum, v) => sum + v, 0) / 2;
  for (let i = 0; i < lengths.length; i += 1) {
    if (left <= lengths[i] && lengths[i] > 0) return between(points[i], points[i + 1], left / lengths[i]);
    left -= lengths[i];
  }
  return points[0];
}

const between = (a, b, t) => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];

/** Zoom about a picture place, never out beyond the whole picture. */
export function zoomed(base, view, factor, at) {
  const scale = clamp((base.w / view.w) * factor, 1, MOST_ZOOM);
  const [w, h] = [base.w / scale, base.h / scale];
  const x = at[0] - ((at[0] - view.x) * w) / view.w;
  const y = at[1] - ((at[1] - view.y) * h) / view.h;
  return inside(base, { x, y, w, h });
}

/** The view moved so that it stays within the whole picture. */
export function inside(base, view) {
  const x = clamp(view.x, base.x, base.x + base.w - view.w);
  const y = clamp(view.y, base.y, base.y + base.h - view.h);
  return { ...view, x, y };
}

/** The view moved just enough to show a picture place with some air around it. */
export function reveal(base, view, [px, py]) {
  const [airX, airY] = [view.w / 8, view.h / 8];
  const x = clamp(view.x, px + airX - view.w, px - airX);
  const y = clamp(view.y, py + airY - view.h, py - airY);
  return inside(base, { ...view, x, y });
}

const AIR = 150;

/** What the picture of a face shows: its view box, or the wall with some air where there is no picture. */
export function frame(task, face) {
  const found = /viewBox\s*=\s*["']([^"']+)["']/.exec(task.pictures?.[face] ?? "");
  const [x, y, w, h] = found ? found[1].trim().split(/[\s,]+/).map(Number) : [];
  if ([x, y, w, h].every(isNumber)) return { x, y, w, h };
  return { x: -AIR, y: -AIR, w: task.wall.length + 2 * AIR, h: tallest(task.wall) + 2 * AIR };
}

const sameBox = (a, b) => a.x === b.x && a.y === b.y && a.w === b.w && a.h === b.h;

// ---------------------------------------------------------------- 4. answers (replaced, never changed in place)

const first = (value, fallback) => (Array.isArray(value) ? value[0] ?? fallback : value ?? fallback);
const givenDepth = (task) => first(task.given?.depth, 20);
const givenProtection = (task) => first(task.given?.protection, "none");

/** Any value made into an answer that the pad can draw; legs without a value take the given one. */
export function cleanAnswer(task, raw) {
  const source = raw?.points?.length ? raw : task.given;
  const points = (source?.points ?? []).filter(isPlace).slice(0, MOST_POINTS).map((p) => [...p]);
  const rooted = task.start && !(points.length && samePlace(points[0], task.start)) ? [[...task.start], ...points] : points;
  const legs = Array.from({ length: Math.max(rooted.length - 1, 0) });
  const depth = legs.map((_, i) => (isNumber(source?.depth?.[i]) ? source.depth[i] : givenDepth(task)));
  const protection = legs.map((_, i) => source?.protection?.[i] ?? givenProtection(task));
  return { points: rooted, depth, protection, rcd: cleanRcd(raw?.rcd === undefined ? task.given?.rcd : raw.rcd) };
}

function cleanRcd(rcd) {
  return rcd ? { ma: rcd.ma ?? 30, at: rcd.at ?? "origin", delayed: Boolean(rcd.delayed) } : null;
}

/** A point added at the end; its leg takes depth and protection of the leg before. */
export function withPoint(task, answer, at) {
  const points = [...answer.points, at];
  if (points.length < 2) return { ...answer, points };
  const depth = [...answer.depth, answer.depth.at(-1) ?? givenDepth(task)];
  const protection = [...answer.protection, answer.protection.at(-1) ?? givenProtection(task)];
  return { ...answer, points, depth, protection };
}

/** A point put into a leg; both halves keep its depth and protection. */
export function withInsert(answer, leg, at) {
  const points = answer.points.toSpliced(leg + 1, 0, at);
  const depth = answer.depth.toSpliced(leg + 1, 0, answer.depth[leg]);
  const protection = answer.protection.toSpliced(leg + 1, 0, answer.protection[leg]);
  return { ...answer, points, depth, protection };
}

/** A point taken out; where two legs become one, it keeps the values of the earlier. */
export function withoutPoint(answer, index) {
  const leg = Math.max(Math.min(index, answer.points.length - 2), 0);
  const points = answer.points.toSpliced(index, 1);
  return { ...answer, points, depth: answer.depth.toSpliced(leg, 1), protection: answer.protection.toSpliced(leg, 1) };
}

/**
 * How far the points to one side are carried along, so that level legs stay level and upright ones upright.
 * @returns {Map<number, Place>|null} shift by index; null where a fixed point would have to move
 */
function carried(points, index, step, shift, fixed) {
  const shifts = new Map();
  let [dx, dy] = shift;
  for (let k = index + step; k >= 0 && k < points.length; k += step) {
    const leg = [points[k], points[k - step]];
    dx = same(leg[0][0], leg[1][0]) ? dx : 0;
    dy = same(leg[0][1], leg[1][1]) ? dy : 0;
    if (!dx && !dy) return shifts;
    if (k === fixed) return null;
    shifts.set(k, [dx, dy]);
  }
  return shifts;
}

/** All shifts for moving one point under the lock, or null where the fixed point forbids it. */
function shiftsFor(points, index, shift, fixed) {
  const before = carried(points, index, -1, shift, fixed);
  const after = carried(points, index, 1, shift, fixed);
  return before && after && new Map([...before, ...after, [index, shift]]);
}

/**
 * Points with one of them moved. Under the lock its neighbours go along where a straight leg needs it,
 * and a direction that would move the fixed first point is left out.
 */
export function moved(points, index, to, { lock = true, fixed = -1 } = {}) {
  const full = [to[0] - points[index][0], to[1] - points[index][1]];
  if (!lock) return points.with(index, to);
  for (const shift of [full, [full[0], 0], [0, full[1]]]) {
    const shifts = shiftsFor(points, index, shift, fixed);
    if (shifts) return points.map((p, i) => (shifts.has(i) ? [p[0] + shifts.get(i)[0], p[1] + shifts.get(i)[1]] : p));
  }
  return points;
}

/** The answer in words, for reading aloud and for the drawing's description. */
export function describeAnswer(task, answer, face) {
  if (!answer.points.length) return "The route has no points yet.";
  const places = answer.points.map((p, i) => `Point ${letter(i)}: ${describePlace(task, face, p)}.`);
  return `The route has ${count(answer.points.length, "point")}. ${places.join(" ")}`;
}

/** One leg in words: "a to b, 1,880 upright". */
export function describeLeg(answer, leg) {
  const [a, b] = [answer.points[leg], answer.points[leg + 1]];
  return `${letter(leg)} to ${letter(leg + 1)}, ${mm(Math.round(distance(a, b)))} ${run(a, b)}`;
}

// ---------------------------------------------------------------- 5. snapping (mm, never pixels)

/** Lines a point can snap to: centre lines of accessories, and the other points next to it. */
export function snapLines(task, points, beside) {
  const centres = (task.accessories ?? []).flatMap((a) => linesThrough([a.x, a.y], a.id, `on the centre line of ${a.id}`));
  const others = beside.filter((i) => points[i]).flatMap((i) => linesThrough(points[i], letter(i), `in line with ${letter(i)}`));
  return [...centres, ...others];
}

function linesThrough([x, y], source, words) {
  return [{ axis: "x", value: x, source, words }, { axis: "y", value: y, source, words }];
}

/** One coordinate snapped to the nearest line within reach, else to the grid. */
export function snapAxis(axis, value, lines, { reach, step }) {
  const near = lines.filter((l) => l.axis === axis && Math.abs(l.value - value) <= reach + NEAR);
  const line = near.sort((a, b) => Math.abs(a.value - value) - Math.abs(b.value - value))[0] ?? null;
  return { value: line ? line.value : Math.round(value / step) * step, line };
}

/** Which axis the lock frees, seen from the last point: the one with the larger way. */
function lockedAxis(state, raw) {
  const anchor = state.answer.points.at(-1);
  if (!state.lock || state.held || !anchor || state.mode !== "draw") return null;
  return Math.abs(raw[0] - anchor[0]) >= Math.abs(raw[1] - anchor[1]) ? "y" : "x";
}

/** Where a point would land for this cursor, and the lines it then lies on. */
export function landing(state, raw, { reach = 0, fine = false } = {}) {
  const { task, answer, held } = state;
  const beside = held ? [held.index - 1, held.index + 1] : [answer.points.length - 1];
  const lines = snapLines(task, held ? held.before.points : answer.points, beside);
  const how = { reach: fine ? 0 : reach, step: fine ? 1 : task.snap || 5 };
  const free = { x: snapAxis("x", raw[0], lines, how), y: snapAxis("y", raw[1], lines, how) };
  const locked = lockedAxis(state, raw);
  if (locked) free[locked] = snapAxis(locked, answer.points.at(-1)[locked === "x" ? 0 : 1], lines, { ...how, reach: 0 });
  if (locked && !free[locked].line) free[locked].value = answer.points.at(-1)[locked === "x" ? 0 : 1];
  const found = [free.x.line, free.y.line].filter((line) => line && !(locked && line.source === letter(answer.points.length - 1)));
  return { at: onWall(task, [free.x.value, free.y.value]), lines: found };
}

// ---------------------------------------------------------------- 6. the reducer

/** The state a pad starts with. */
export function initialState(task, answer = null) {
  const face = task.pictures?.rear && !task.pictures.front ? "rear" : "front";
  const base = frame(task, face);
  return {
    task, answer: cleanAnswer(task, answer), past: [], future: [], commits: 0,
    mode: isOpen(task, "points") ? "draw" : "view", lock: true, face, cursor: null, target: null, keys: false,
    selected: null, held: null, result: null, resultFor: null, focus: 0, base, view: base, said: { text: "", lazy: false },
  };
}

const say = (state, text, lazy = false) => ({ ...state, said: { text, lazy } });

/** A confirmed change: it can be undone and is sent once. */
function commit(state, answer, text) {
  const past = [...state.past, state.held ? state.held.before : state.answer].slice(-HISTORY);
  return say({ ...state, answer, past, future: [], held: null, commits: state.commits + 1 }, text);
}

const fixedIndex = (task) => (task.start ? 0 : -1);
const lastIndex = (answer) => (answer.points.length ? answer.points.length - 1 : null);
const placeWords = (state, at) => describePlace(state.task, state.face, at);

/** The held point brought to the target; the committed answer stays in `held.before`. */
function carryHeld(state) {
  const { held, target, task, lock } = state;
  const from = held.before.points[held.index];
  const to = held.axis ? from.with(held.axis === "x" ? 0 : 1, target.at[held.axis === "x" ? 0 : 1]) : target.at;
  const points = moved(held.before.points, held.index, to, { lock, fixed: fixedIndex(task) });
  return { ...state, answer: { ...held.before, points: points.map((p) => onWall(task, p)) } };
}

function aim(state, cursor, how) {
  const placed = { ...state, cursor: onWall(state.task, cursor) };
  const next = { ...placed, target: landing(placed, placed.cursor, how) };
  return next.held ? carryHeld(next) : next;
}

/** Where the point in hand, or the next one, now is. */
function aimedAt(state) {
  if (state.held) return state.answer.points[state.held.index];
  return state.target?.at ?? (state.keys ? state.cursor : null);
}

/** The words shown while one moves. */
export function readout(state) {
  const at = aimedAt(state);
  if (!at) return "";
  const held = state.held ? `Point ${letter(state.held.index)}: ` : "";
  const lines = [...new Set((state.target?.lines ?? []).map((l) => l.words))];
  return [held + placeWords(state, at), ...lines].join(", ");
}

/** Next value on the grid in a direction, or exactly `by` further for a single millimetre. */
function stepped(value, by, grid) {
  if (Math.abs(by) <= 1) return value + by;
  const origin = by > 0 ? Math.floor(value / grid + NEAR) : Math.ceil(value / grid - NEAR);
  return origin * grid + by;
}

function afterPlacing(state, text) {
  const selected = lastIndex(state.answer);
  const at = state.answer.points[selected];
  return say({ ...state, selected, cursor: at, target: null }, text);
}

function toPoint(state, index) {
  const at = state.answer.points[index];
  const view = reveal(state.base, state.view, toPicture(state.task, state.face, at));
  return say({ ...state, selected: index, cursor: at, target: null, view }, `Point ${letter(index)}: ${placeWords(state, at)}`);
}

const slantNote = (answer, leg) => {
  const slants = answer.points[leg] && answer.points[leg + 1] && run(answer.points[leg], answer.points[leg + 1]) === "slanting";
  return slants ? ` The leg from ${letter(leg)} to ${letter(leg + 1)} slants.` : "";
};

const travel = (state, from, to) => {
  if (state.held) return say(state, "Put the point down first, or press Escape.");
  if (!from.length) return say(state, "There is nothing more to bring back.");
  const answer = from.at(-1);
  const stacks = to === "future"
    ? { past: from.slice(0, -1), future: [...state.future, state.answer] }
    : { future: from.slice(0, -1), past: [...state.past, state.answer] };
  const selected = lastIndex(answer);
  const word = to === "future" ? "Undone." : "Done again.";
  return say({ ...state, ...stacks, answer, selected, commits: state.commits + 1 }, `${word} The route has ${count(answer.points.length, "point")}.`);
};

/** Actions every kind of exercise has. */
const COMMON = {
  load(state, { answer }) {
    const next = cleanAnswer(state.task, answer);
    if (JSON.stringify(next) === JSON.stringify(state.answer)) return state;
    return { ...state, answer: next, past: [...state.past, state.answer], future: [], held: null, selected: lastIndex(next) };
  },
  result: (state, { result }) => ({ ...state, result: result?.stretches ? result : null, resultFor: state.answer, focus: 0 }),
  focus(state, { n }) {
    const stretch = state.result?.stretches?.find((s) => s.n === n);
    const next = stretch && stretch.face !== state.face ? COMMON.face(state, { face: stretch.face }) : state;
    return { ...next, focus: n };
  },
  zoom(state, { factor, at }) {
    const { view } = state;
    const about = at ?? (state.keys && state.cursor ? toPicture(state.task, state.face, state.cursor) : [view.x + view.w / 2, view.y + view.h / 2]);
    const next = { ...state, view: zoomed(state.base, view, factor, about) };
    return say(next, `Zoom ${Math.round((next.base.w / next.view.w) * 100)} per cent.`, true);
  },
  fit: (state) => say({ ...state, view: state.base, mode: state.mode === "view" && isOpen(state.task, "points") ? "draw" : state.mode }, "The whole wall is shown."),
  pan: (state, { by }) => ({ ...state, view: inside(state.base, { ...state.view, x: state.view.x + by[0], y: state.view.y + by[1] }) }),
  face(state, { face }) {
    if (face === state.face || !state.task.pictures?.[face]) return state;
    const base = frame(state.task, face);
    const mirrored = { ...state.view, x: state.task.wall.length - state.view.x - state.view.w };
    const view = sameBox(state.view, state.base) ? base : inside(base, mirrored);
    return say({ ...state, face, base, view }, `The ${face} face is shown.${face === "rear" ? " Left and right are swapped." : ""}`);
  },
  mode: (state, { mode }) => say({ ...cancelled(state), mode, target: null }, MODE_WORDS[mode]),
  undo: (state) => travel(state, state.past, "future"),
  redo: (state) => travel(state, state.future, "past"),
};

const MODE_WORDS = {
  draw: "Draw: each click or Enter adds a point.",
  adjust: "Adjust: pick up a point and put it down again.",
  view: "Move the view: drag the picture, or use the arrow buttons.",
};

const cancelled = (state) => (state.held ? { ...state, answer: state.held.before, held: null, target: null } : state);

/** Why points cannot be changed now, or null. */
function refusal(state, index = null) {
  if (!isOpen(state.task, "points")) return "The route is fixed by this exercise.";
  if (index !== null && index === fixedIndex(state.task)) return `Point ${letter(index)} is fixed by this exercise.`;
  return null;
}

function addPoint(state, at) {
  const last = state.answer.points.at(-1);
  if (state.answer.points.length >= MOST_POINTS) return say(state, `A route can have at most ${MOST_POINTS} points.`);
  if (last && samePlace(last, at)) return say(state, `Point ${letter(lastIndex(state.answer))} is there already. Move further first.`);
  const answer = withPoint(state.task, state.answer, at);
  const words = `Point ${letter(answer.points.length - 1)} placed: ${placeWords(state, at)}.`;
  return afterPlacing(commit(state, answer, words), words + slantNote(answer, answer.points.length - 2));
}

/** Changes to legs and RCD are alike: one value of one place is replaced. */
function setLeg(state, { leg, part, value }) {
  if (!isOpen(state.task, part) || !(leg in state.answer[part]) || state.answer[part][leg] === value) return state;
  const answer = { ...state.answer, [part]: state.answer[part].with(leg, value) };
  const words = part === "depth" ? `${mm(value)} deep` : state.task.protections?.find((p) => p.id === value)?.words ?? value;
  return commit(cancelled(state), answer, `Leg ${leg + 1}, ${letter(leg)} to ${letter(leg + 1)}: ${words}.`);
}

/** Actions of the route tool. */
const ROUTE = {
  hover: (state, { at, reach, fine }) => ({ ...aim(state, at, { reach, fine }), keys: false }),
  leave: (state) => (state.keys || state.held ? state : { ...state, target: null }),
  enter(state) {
    const cursor = state.cursor ?? state.answer.points.at(-1) ?? [state.task.wall.length / 2, tallest(state.task.wall) / 2];
    return { ...state, keys: true, cursor: cursor.map(Math.round) };
  },
  nudge(state, { by }) {
    const from = ROUTE.enter(state);
    const start = from.held ? from.answer.points[from.held.index] : from.cursor;
    const flip = state.face === "rear" ? -1 : 1;
    const to = [stepped(start[0], by[0] * flip, state.task.snap || 5), stepped(start[1], by[1], state.task.snap || 5)];
    const next = aim(from, to, { fine: true });
    return say({ ...next, view: reveal(next.base, next.view, toPicture(next.task, next.face, next.cursor)) }, readout(next), true);
  },
  /** Enter or Space: put down, pick up, or place, whichever fits. */
  act(state) {
    if (state.held) return ROUTE.drop(state);
    const here = state.answer.points.findIndex((p) => state.cursor && samePlace(p, state.cursor));
    if (here >= 0) return ROUTE.pick(state, { index: here });
    if (state.mode === "adjust") return say(state, "Go to a point with Page Up or Page Down, then press Enter.");
    return ROUTE.place(ROUTE.enter({ ...state, mode: "draw" }), {});
  },
  place(state, { at, reach, fine, exact }) {
    if (refusal(state)) return say(state, refusal(state));
    if (state.held) return ROUTE.drop(at ? aim(state, at, { reach, fine }) : state);
    if (exact) return addPoint(state, onWall(state.task, at));
    return addPoint(state, landing(state, onWall(state.task, at ?? state.cursor), at ? { reach, fine } : { fine: true }).at);
  },
  pick(state, { index, axis = null }) {
    const at = state.answer.points[index];
    if (refusal(state, index)) return say({ ...state, selected: index, cursor: at }, refusal(state, index));
    const held = { index, axis, before: state.answer };
    return say({ ...state, held, selected: index, cursor: at, target: null }, `Point ${letter(index)} picked up: ${placeWords(state, at)}.`);
  },
  drop(state) {
    if (!state.held) return state;
    const { index, before } = state.held;
    const at = state.answer.points[index];
    if (JSON.stringify(before) === JSON.stringify(state.answer)) return say({ ...cancelled(state), cursor: at }, `Point ${letter(index)} put down where it was.`);
    return { ...commit(state, state.answer, `Point ${letter(index)} moved: ${placeWords(state, at)}.`), cursor: at, target: null };
  },
  cancel: (state) => (state.held ? say({ ...cancelled(state), cursor: state.held.before.points[state.held.index] }, "Put back where it was.") : state),
  step(state, { by }) {
    const many = state.answer.points.length;
    if (!many) return say(state, "There are no points yet.");
    if (state.held) return say(state, "Put the point down first, or press Escape.");
    const from = state.selected === null || state.selected >= many ? (by > 0 ? -1 : many) : state.selected;
    return { ...toPoint(state, clamp(from + by, 0, many - 1)), keys: true };
  },
  /** The cursor goes to the next accessory; a held point goes along. */
  seek(state) {
    const all = state.task.accessories ?? [];
    if (!all.length) return say(state, "There are no accessories on this wall.");
    const here = all.findIndex((a) => state.cursor && samePlace([a.x, a.y], state.cursor));
    const next = all[(here + 1) % all.length];
    const aimed = aim({ ...state, keys: true }, [next.x, next.y], { fine: true });
    const view = reveal(aimed.base, aimed.view, toPicture(aimed.task, aimed.face, [next.x, next.y]));
    return say({ ...aimed, view }, `${next.id}, ${next.kind}: ${placeWords(state, [next.x, next.y])}`);
  },
  insert(state, { leg, at }) {
    const where = leg ?? clamp(state.selected ?? 0, 0, state.answer.depth.length - 1);
    if (refusal(state)) return say(state, refusal(state));
    if (where < 0 || state.answer.points.length < 2) return say(state, "A point can be put in once the route has a leg.");
    if (state.answer.points.length >= MOST_POINTS) return say(state, `A route can have at most ${MOST_POINTS} points.`);
    const [a, b] = state.answer.points.slice(where, where + 2);
    const spot = (at ? onPiece(at, a, b) : between(a, b, 0.5)).map(Math.round);
    if (samePlace(spot, a) || samePlace(spot, b)) return say(state, "There is no room for another point on this leg.");
    const words = `Point ${letter(where + 1)} put in: ${placeWords(state, spot)}.`;
    return { ...commit(cancelled(state), withInsert(state.answer, where, spot), words), selected: where + 1, cursor: spot, target: null };
  },
  remove(state, { index }) {
    const calm = cancelled(state);
    const which = index ?? calm.selected ?? lastIndex(calm.answer);
    if (which === null || !calm.answer.points[which]) return say(calm, "There are no points to remove.");
    if (refusal(calm, which)) return say(calm, refusal(calm, which));
    const answer = withoutPoint(calm.answer, which);
    const selected = answer.points.length ? Math.max(which - 1, 0) : null;
    const words = `Point ${letter(which)} removed. The route has ${count(answer.points.length, "point")}.${slantNote(answer, which - 1)}`;
    return { ...commit(calm, answer, words), selected, cursor: answer.points[selected] ?? calm.cursor, target: null };
  },
  clear(state) {
    if (refusal(state)) return say(state, refusal(state));
    const points = state.task.start ? [[...state.task.start]] : [];
    if (state.answer.points.length === points.length) return say(cancelled(state), "The wall is clear already.");
    const answer = { ...state.answer, points, depth: [], protection: [] };
    return { ...commit(cancelled(state), answer, "All points removed. Undo brings them back."), selected: lastIndex(answer), target: null };
  },
  lock: (state, { on }) => say({ ...state, lock: on, target: null }, on ? "Legs run level or upright only." : "Legs may slant."),
  /** A typed place: exact, but under the lock straight neighbours go along as they do in the drawing. */
  setPoint(state, { index, at }) {
    const calm = cancelled(state);
    if (refusal(calm, index)) return say(calm, refusal(calm, index));
    if (!isPlace(at) || !calm.answer.points[index]) return say(calm, "A place needs two numbers, in mm.");
    const spot = onWall(calm.task, at);
    const points = moved(calm.answer.points, index, spot, { lock: calm.lock, fixed: fixedIndex(calm.task) });
    const note = samePlace(spot, at) ? "" : " It was brought back onto the wall.";
    const words = `Point ${letter(index)} moved: ${placeWords(calm, points[index])}.${note}`;
    return { ...commit(calm, { ...calm.answer, points: points.map((p) => onWall(calm.task, p)) }, words), selected: index };
  },
  setLeg,
  setRcd(state, { rcd }) {
    if (!isOpen(state.task, "rcd")) return state;
    const words = rcd ? `RCD: ${rcd.ma} mA, ${RCD_PLACES[rcd.at].toLowerCase()}${rcd.delayed ? ", time-delayed" : ""}.` : "No RCD.";
    return commit(cancelled(state), { ...state.answer, rcd: rcd && { ...rcd } }, words);
  },
};

/** Tools by kind of exercise. A further kind adds its own actions, drawing and parts here. */
export const TOOLS = {
  route: { actions: ROUTE, draw: (state, scale) => drawRoute(state, scale), hit: routeHit, parts: () => [legsPart, rcdPart, pointsPart] },
};

const toolOf = (task) => TOOLS[task.kind] ?? TOOLS.route;

/**
 * The one way any input changes the state.
 * @param {State} state
 * @param {{type: string}} action  unknown types leave the state as it is
 * @returns {State}
 */
export function reduce(state, action) {
  const act = COMMON[action.type] ?? toolOf(state.task).actions[action.type];
  return act ? act(state, action) : state;
}

/** What lies under a wall place: a point, a leg or nothing. Reaches in mm. */
function routeHit(state, at, { point, leg }) {
  const { points } = state.answer;
  const near = points.map((p, index) => ({ kind: "point", index, far: distance(p, at) })).filter((h) => h.far <= point);
  if (near.length) return near.sort((a, b) => a.far - b.far)[0];
  const legs = points.slice(1).map((p, index) => ({ kind: "leg", index, far: distance(at, onPiece(at, points[index], p)) }));
  return legs.filter((h) => h.far <= leg).sort((a, b) => a.far - b.far)[0] ?? { kind: "empty" };
}

// ---------------------------------------------------------------- 7. keys

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const PLAIN_KEYS = {
  Enter: { type: "act" }, " ": { type: "act" }, Backspace: { type: "remove" }, Delete: { type: "remove" },
  PageUp: { type: "step", by: -1 }, PageDown: { type: "step", by: 1 },
  "+": { type: "zoom", factor: ZOOM_STEP }, "=": { type: "zoom", factor: ZOOM_STEP }, "-": { type: "zoom", factor: 1 / ZOOM_STEP }, 0: { type: "fit" },
  a: { type: "seek" }, i: { type: "insert" },
};
const COMMAND_KEYS = { z: { type: "undo" }, y: { type: "redo" } };

/** The action of a key press on the drawing, or null where the key is not ours. */
export function keyAction(event, state) {
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  if (event.ctrlKey || event.metaKey) return (key === "z" && event.shiftKey ? COMMAND_KEYS.y : COMMAND_KEYS[key]) ?? null;
  if (key === "Escape") return state.held ? { type: "cancel" } : null;
  if (ARROWS[key]) return { type: "nudge", by: ARROWS[key].map((v) => v * keyStep(event, state.task.snap || 5) || 0) };
  return event.altKey ? null : PLAIN_KEYS[key] ?? null;
}

const keyStep = (event, grid) => (event.altKey ? 1 : event.shiftKey ? grid * 10 : grid);

// ---------------------------------------------------------------- 8. elements

const SVG = "http://www.w3.org/2000/svg";

/** An element with attributes; `on…` functions become listeners, children are nodes or plain text. */
function h(tag, attributes = {}, ...children) {
  return dressed(document.createElement(tag), attributes, children);
}

const svg = (tag, attributes = {}, ...children) => dressed(document.createElementNS(SVG, tag), attributes, children);

function dressed(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (value !== null && value !== false) node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...children.filter((c) => c !== null));
  return node;
}

let serial = 0;
const freshId = (word) => `zl-${word}-${(serial += 1)}`;

const ICONS = {
  draw: "M3 17l1-4L14 3l3 3L7 16z", adjust: "M10 2v16M2 10h16M10 2l-2 3h4zM10 18l-2-3h4zM2 10l3-2v4zM18 10l-3-2v4z",
  undo: "M7 4L3 8l4 4M3 8h9a5 5 0 0 1 0 10H8", redo: "M13 4l4 4-4 4M17 8H8a5 5 0 0 0 0 10h4",
  insert: "M2 15h5M13 15h5M10 12v6M7 15h6M10 3v5M8 6l2 2 2-2", bin: "M4 6h12M8 6V3h4v3M6 6l1 11h6l1-11", clear: "M4 4l12 12M16 4L4 16",
  slant: "M3 17L17 3", plus: "M10 4v12M4 10h12", minus: "M4 10h12", fit: "M3 7V3h4M13 3h4v4M17 13v4h-4M7 17H3v-4",
  view: "M6 10V5a1.5 1.5 0 0 1 3 0v4V3.500a1.500 1.500 0 0 1 3 0V9V5a1.500 1.500 0 0 1 3 0v7a6 6 0 0 1-11 3l-2-4a1.500 1.500 0 0 1 2-1z",
  left: "M12 4l-6 6 6 6", right: "M8 4l6 6-6 6", up: "M4 12l6-6 6 6", down: "M4 8l6 6 6-6",
  table: "M3 4h14v12H3zM3 8h14M3 12h14M9 4v12", speak: "M3 8v4h3l4 4V4L6 8zM13 7a4 4 0 0 1 0 6M15 5a7 7 0 0 1 0 10",
};

const icon = (name) => svg("svg", { viewBox: "0 0 20 20", class: "zl-icon", "aria-hidden": "true", focusable: "false" }, svg("path", { d: ICONS[name] }));

// ---------------------------------------------------------------- 9. overlay

const pathOf = (points) => points.map((p, i) => `${i ? "L" : "M"}${p[0]} ${p[1]}`).join("");

/** Everything the route tool draws over the picture. `scale` is mm per CSS pixel. */
function drawRoute(state, scale) {
  const at = (p) => toPicture(state.task, state.face, p);
  const pen = { state, scale, at, marked: state.result !== null && state.answer === state.resultFor };
  return [...guides(pen), ...legs(pen), ...stretches(pen), ...ghost(pen), ...handles(pen), ...cross(pen)];
}

function guides({ state, scale, at }) {
  const lines = (state.target?.lines ?? []).filter((l) => l.words.startsWith("on"));
  return lines.flatMap((line) => {
    const upright = line.axis === "x";
    const ends = upright ? [[line.value, 0], [line.value, tallest(state.task.wall)]] : [[0, line.value], [state.task.wall.length, line.value]];
    const [x, y] = at(upright ? ends[1] : ends[state.face === "rear" ? 1 : 0]);
    const tag = label(`centre of ${line.source}`, x + 6 * scale, y + (upright ? 15 : -6) * scale, 12, scale, "zl-guide-word");
    return [svg("path", { d: pathOf(ends.map(at)), class: "zl-guide" }), tag];
  });
}

function label(words, x, y, pixels, scale, style, anchor = "start") {
  return svg("text", { x, y, "font-size": pixels * scale, "stroke-width": 3.5 * scale, class: style, "text-anchor": anchor }, words);
}

function legs({ state, at }) {
  const { points, protection } = state.answer;
  return points.slice(1).flatMap((p, i) => {
    const d = pathOf([points[i], p].map(at));
    const covered = protection[i] && protection[i] !== "none";
    const styles = covered ? ["zl-cover-edge", "zl-cover", "zl-leg"] : ["zl-casing", "zl-leg"];
    return styles.map((style) => svg("path", { d, class: style }));
  });
}

function stretches(pen) {
  if (!pen.marked) return [];
  return pen.state.result.stretches.filter((s) => s.face === pen.state.face && s.points.length > 1).flatMap((s) => stretch(s, pen));
}

function stretch(s, { state, scale, at }) {
  const d = pathOf(s.points.map(at));
  const lit = state.focus === s.n ? " zl-lit" : "";
  const [x, y] = at(middle(s.points));
  const disc = svg("circle", { cx: x, cy: y, r: (lit ? 14 : 11) * scale, class: `zl-disc${lit}` });
  const number = svg("text", { x, y: y + 4.6 * scale, "font-size": 13 * scale, "text-anchor": "middle", class: "zl-disc-word" }, String(s.n));
  return [svg("path", { d, class: "zl-stretch-gap" }), svg("path", { d, class: `zl-stretch${lit}` }), disc, number];
}

function ghost({ state, scale, at }) {
  if (!state.target || state.held || state.mode !== "draw") return [];
  const [x, y] = at(state.target.at);
  const last = state.answer.points.at(-1);
  const band = last ? [svg("path", { d: pathOf([at(last), [x, y]]), class: "zl-band" })] : [];
  return [...band, svg("circle", { cx: x, cy: y, r: 6 * scale, class: "zl-ghost" })];
}

function handles({ state, scale, at }) {
  return state.answer.points.flatMap((p, i) => {
    const [x, y] = at(p);
    const fixed = i === fixedIndex(state.task);
    const style = `zl-handle${i === state.selected ? " zl-selected" : ""}${state.held?.index === i ? " zl-held" : ""}`;
    const r = (state.held?.index === i ? 9 : 6.5) * scale;
    const shape = fixed ? svg("rect", { x: x - r, y: y - r, width: 2 * r, height: 2 * r, class: style }) : svg("circle", { cx: x, cy: y, r, class: style });
    const ring = i === state.selected ? [svg("circle", { cx: x, cy: y, r: 12 * scale, class: "zl-ring" })] : [];
    return [...ring, shape, pointWord(i, state, scale, at)];
  });
}

const ENOUGH_ROOM = 1.2;
/** Directions for a letter, the best first: above, then beside, then below (radians, clockwise from the right). */
const LETTER_SIDES = [-0.7, -2.4, 0, Math.PI, 0.7, 2.4];

/** The point's letter, set on the first side with room enough between the legs that meet there. */
function pointWord(i, state, scale, at) {
  const { points } = state.answer;
  const [x, y] = at(points[i]);
  const legAngles = [points[i - 1], points[i + 1]].filter(Boolean).map(at).map((q) => Math.atan2(q[1] - y, q[0] - x));
  const room = (angle) => Math.min(...legAngles.map((l) => Math.abs(Math.atan2(Math.sin(angle - l), Math.cos(angle - l)))), Math.PI);
  const best = LETTER_SIDES.find((side) => room(side) >= ENOUGH_ROOM) ?? [...LETTER_SIDES].sort((a, b) => room(b) - room(a))[0];
  return label(letter(i), x + Math.cos(best) * 18 * scale, y + (Math.sin(best) * 18 + 5) * scale, 15, scale, "zl-letter", "middle");
}

function cross({ state, scale, at }) {
  if (!state.keys || !state.cursor) return [];
  const [x, y] = at(state.cursor);
  const arm = 14 * scale;
  const d = `M${x - arm} ${y}H${x + arm}M${x} ${y - arm}V${y + arm}`;
  return [svg("path", { d, class: "zl-cross-gap" }), svg("path", { d, class: "zl-cross" })];
}

/** A plain outline, drawn where a task comes without pictures. */
function outline(task, face) {
  const at = (p) => toPicture(task, face, p);
  const rim = [[0, 0], ...task.wall.top, [task.wall.length, 0]].map(at);
  const boxes = (task.accessories ?? []).filter((a) => a.face === face).map((a) => [[a.x - a.width / 2, a.y - a.height / 2], a]);
  const shapes = [...boxes, ...(task.openings ?? []).map((o) => [[o.x, o.y], o])].map(([[x, y], { width, height }]) => {
    const [[x1, y1], [x2, y2]] = [at([x, y]), at([x + width, y + height])];
    return svg("rect", { x: Math.min(x1, x2), y: Math.min(y1, y2), width, height, class: "zl-outline" });
  });
  return svg("svg", {}, svg("path", { d: `${pathOf(rim)}Z`, class: "zl-outline" }), ...shapes);
}

// ---------------------------------------------------------------- 10. pointer

const REACH = { mouse: { point: 13, leg: 7, drag: 4 }, pen: { point: 14, leg: 9, drag: 5 }, touch: { point: 22, leg: 12, drag: 9 } };
const SNAP_PIXELS = 10;
const MOST_SNAP = 60;
const DOUBLE_CLICK = 400;

/** Pointer input on the drawing: draw, pick up, drag, pinch and pan; everything takes effect on release. */
class Pointer {
  constructor(surface, overlay, store) {
    Object.assign(this, { surface, overlay, store, press: null, touches: new Map(), lastPlaced: -Infinity });
    for (const name of ["pointerdown", "pointermove", "pointerup", "pointercancel", "pointerleave"]) surface.addEventListener(name, (e) => this[name](e));
    surface.addEventListener("wheel", (e) => this.wheel(e), { passive: false });
  }

  /** mm per CSS pixel */
  get scale() { return 1 / (this.overlay.getScreenCTM()?.a || 1); }

  picture(event) {
    const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.overlay.getScreenCTM().inverse());
    return [p.x, p.y];
  }

  wall(event) { return fromPicture(this.store.state.task, this.store.state.face, this.picture(event)); }

  hit(event) {
    const { state } = this.store;
    const reach = REACH[event.pointerType] ?? REACH.mouse;
    return toolOf(state.task).hit(state, this.wall(event), { point: reach.point * this.scale, leg: reach.leg * this.scale });
  }

  where(event) { return { at: this.wall(event), reach: Math.min(SNAP_PIXELS * this.scale, MOST_SNAP), fine: event.altKey }; }

  pointerdown(event) {
    if (event.pointerType === "touch") this.touches.set(event.pointerId, event);
    if (this.touches.size > 1) return this.startPinch();
    if (event.button !== 0 && event.button !== 1) return;
    this.surface.setPointerCapture(event.pointerId);
    const pan = event.button === 1 || this.store.state.mode === "view";
    this.press = { id: event.pointerId, start: event, last: event, dragging: false, pan, hit: this.hit(event), carrying: this.store.state.held !== null };
  }

  pointermove(event) {
    if (this.touches.has(event.pointerId)) this.touches.set(event.pointerId, event);
    if (this.pinch) return this.movePinch();
    if (this.press?.pan) return this.movePan(event);
    if (this.press && !this.press.dragging && this.travelled(event)) this.startDrag();
    const { held, mode } = this.store.state;
    if (held || mode === "draw") this.store.dispatch({ type: "hover", ...this.where(event) });
    if (!this.press) this.surface.dataset.over = mode === "view" ? "view" : held ? "held" : this.hit(event).kind;
  }

  travelled(event) {
    const { start } = this.press;
    return Math.hypot(event.clientX - start.clientX, event.clientY - start.clientY) > (REACH[event.pointerType] ?? REACH.mouse).drag;
  }

  startDrag() {
    const { hit, carrying } = this.press;
    this.press.dragging = true;
    if (carrying || hit.kind === "empty") return;
    if (hit.kind === "point") this.store.dispatch({ type: "pick", index: hit.index });
    else this.dragLeg(hit.index);
  }

  /** A straight leg moves sideways as a whole; otherwise a new point is put in and dragged. */
  dragLeg(index) {
    const { lock, answer } = this.store.state;
    const way = run(answer.points[index], answer.points[index + 1]);
    if (lock && way !== "slanting") return this.store.dispatch({ type: "pick", index, axis: way === "level" ? "y" : "x" });
    this.store.dispatch({ type: "insert", leg: index, at: this.wall(this.press.start) });
    if (this.store.state.answer !== answer) this.store.dispatch({ type: "pick", index: index + 1 });
  }

  pointerup(event) {
    this.touches.delete(event.pointerId);
    if (this.pinch) return this.endPinch();
    const { press } = this;
    this.press = null;
    if (!press || press.id !== event.pointerId || press.pan) return;
    if (press.dragging || press.carrying) this.release(event, press);
    else this.click(event, press.hit);
  }

  release(event, press) {
    if (this.store.state.held) {
      this.store.dispatch({ type: "hover", ...this.where(event) });
      this.store.dispatch({ type: "drop" });
    } else if (press.hit.kind === "empty") this.put(event);
  }

  click(event, hit) {
    if (hit.kind === "point" && event.timeStamp - this.lastPlaced > DOUBLE_CLICK) this.store.dispatch({ type: "pick", index: hit.index });
    else if (hit.kind === "leg") this.store.dispatch({ type: "insert", leg: hit.index, at: this.wall(event) });
    else if (hit.kind === "empty") this.put(event);
  }

  put(event) {
    if (this.store.state.mode !== "draw") return;
    this.store.dispatch({ type: "place", ...this.where(event) });
    this.lastPlaced = event.timeStamp;
  }

  pointercancel(event) {
    this.touches.delete(event.pointerId);
    this.pinch = this.touches.size > 1 ? this.pinch : null;
    this.press = null;
    this.store.dispatch({ type: "cancel" });
    this.store.dispatch({ type: "leave" });
  }

  pointerleave() { if (!this.press) this.store.dispatch({ type: "leave" }); }

  startPinch() {
    this.press = null;
    this.store.dispatch({ type: "cancel" });
    this.store.dispatch({ type: "leave" });
    this.pinch = this.span();
  }

  span() {
    const [a, b] = [...this.touches.values()];
    const mid = { clientX: (a.clientX + b.clientX) / 2, clientY: (a.clientY + b.clientY) / 2 };
    return { mid, wide: Math.max(Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY), 1) };
  }

  movePinch() {
    if (this.touches.size < 2) return;
    const now = this.span();
    this.store.dispatch({ type: "zoom", factor: now.wide / this.pinch.wide, at: this.picture(this.pinch.mid) });
    this.shift(this.pinch.mid, now.mid);
    this.pinch = now;
  }

  endPinch() { if (!this.touches.size) this.pinch = null; }

  movePan(event) {
    this.shift(this.press.last, event);
    this.press.last = event;
  }

  shift(from, to) {
    this.store.dispatch({ type: "pan", by: [(from.clientX - to.clientX) * this.scale, (from.clientY - to.clientY) * this.scale] });
  }

  wheel(event) {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    this.store.dispatch({ type: "zoom", factor: Math.exp(-event.deltaY * 0.002), at: this.picture(event) });
  }

  stop() {
    this.press = null;
    this.touches.clear();
  }
}

// ---------------------------------------------------------------- 11. parts of the page

/**
 * A part of the page. One that `follows` is brought up to date while the cursor moves, the others on real changes only.
 * @typedef {{el: HTMLElement, update: (state: State, before: State|null) => void, follows?: boolean, stop?: () => void}} Part
 */

const isZoomed = (state) => state.view.w < state.base.w - NEAR;
const drawable = (state) => isOpen(state.task, "points");
const bothFaces = (state) => Boolean(state.task.pictures?.front && state.task.pictures?.rear);
const panBy = (x, y) => (state) => ({ type: "pan", by: [(x * state.view.w) / 3, (y * state.view.h) / 3] });
const toolbarGroup = (words, items) => ({ words, items });

const DRAW_BAR = [
  toolbarGroup("What a click does", [
    { words: "Draw", icon: "draw", show: drawable, pressed: (s) => s.mode === "draw", action: () => ({ type: "mode", mode: "draw" }) },
    { words: "Adjust", icon: "adjust", show: drawable, pressed: (s) => s.mode === "adjust", action: () => ({ type: "mode", mode: "adjust" }) },
    { words: "Allow slanting", short: "Slanting", icon: "slant", show: drawable, pressed: (s) => !s.lock, action: (s) => ({ type: "lock", on: !s.lock }) },
  ]),
  toolbarGroup("Face", [
    { words: "Front", show: bothFaces, pressed: (s) => s.face === "front", action: () => ({ type: "face", face: "front" }) },
    { words: "Rear", show: bothFaces, pressed: (s) => s.face === "rear", action: () => ({ type: "face", face: "rear" }) },
  ]),
  toolbarGroup("Changes", [
    { words: "Undo", icon: "undo", enabled: (s) => s.past.length > 0, action: () => ({ type: "undo" }) },
    { words: "Redo", icon: "redo", enabled: (s) => s.future.length > 0, action: () => ({ type: "redo" }) },
    { words: "Insert point", short: "Insert", icon: "insert", show: drawable, enabled: (s) => s.answer.depth.length > 0, action: () => ({ type: "insert" }) },
    { words: "Delete point", short: "Delete", icon: "bin", show: drawable, enabled: (s) => s.answer.points.length > 0, action: () => ({ type: "remove" }) },
    { words: "Clear", icon: "clear", show: drawable, enabled: (s) => s.answer.points.length > 0, action: () => ({ type: "clear" }) },
  ]),
];

/** Below the picture, so that buttons that come and go with the zoom never move it. */
const VIEW_BAR = [
  toolbarGroup("View", [
    { words: "Zoom out", icon: "minus", bare: true, enabled: isZoomed, action: () => ({ type: "zoom", factor: 1 / ZOOM_STEP }) },
    { words: "Show the whole wall", icon: "fit", bare: true, enabled: isZoomed, action: () => ({ type: "fit" }) },
    { words: "Zoom in", icon: "plus", bare: true, action: () => ({ type: "zoom", factor: ZOOM_STEP }) },
    { words: "Move the view", icon: "view", bare: true, show: isZoomed, pressed: (s) => s.mode === "view", action: (s) => ({ type: "mode", mode: s.mode === "view" && drawable(s) ? "draw" : "view" }) },
    { words: "View left", icon: "left", bare: true, show: isZoomed, action: panBy(-1, 0) },
    { words: "View right", icon: "right", bare: true, show: isZoomed, action: panBy(1, 0) },
    { words: "View up", icon: "up", bare: true, show: isZoomed, action: panBy(0, -1) },
    { words: "View down", icon: "down", bare: true, show: isZoomed, action: panBy(0, 1) },
  ]),
];

const drawBarPart = (store) => barPart(store, DRAW_BAR, "Drawing tools");
const viewBarPart = (store) => barPart(store, VIEW_BAR, "Zoom and view");

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

/** @returns {Part} the picture, the overlay and what is read out while one moves */
function stagePart(store) {
  const help = h("p", { id: freshId("help"), class: "zl-unseen" }, "Arrow keys move the cross. Enter places a point or picks one up. Page Up and Page Down go from point to point. Tab leaves the drawing.");
  const words = h("p", { id: freshId("words"), class: "zl-unseen" });
  const picture = h("div", { class: "zl-hung", "aria-hidden": "true" });
  const overlay = svg("svg", { class: "zl-overlay", "aria-hidden": "true", focusable: "false" });
  const surface = h("div", { class: "zl-surface", tabindex: "0", role: "application", "aria-label": "Drawing of the wall", "aria-describedby": `${help.id} ${words.id}` }, picture, overlay);
  const read = h("p", { class: "zl-readout" });
  const el = h("div", { class: "zl-stage" }, read, surface, help, words);
  const pointer = new Pointer(surface, overlay, store);
  const draw = () => overlay.replaceChildren(...toolOf(store.state.task).draw(store.state, pointer.scale));
  const size = new ResizeObserver(draw);
  size.observe(surface);
  listenForKeys(surface, store);
  const update = (state, before) => {
    if (before?.face !== state.face) hangPicture(picture, surface, state);
    if (before?.view !== state.view || before.face !== state.face) look([overlay, picture.querySelector("svg")], state.view);
    draw();
    if (before?.answer !== state.answer || before.face !== state.face) words.textContent = inWords(state);
    read.textContent = readout(state) || hint(state);
  };
  return { el, update, follows: true, stop: () => { size.disconnect(); pointer.stop(); } };
}

function look(drawings, { x, y, w, h: high }) {
  for (const drawing of drawings) drawing.setAttribute("viewBox", `${x} ${y} ${w} ${high}`);
}

const inWords = ({ task, answer, face }) => `${task.alt?.[face] ?? ""} ${describeAnswer(task, answer, face)}`;

function hint(state) {
  if (state.mode === "view") return drawable(state) ? MODE_WORDS.view : "This route is given. Look at it closely, then answer below.";
  if (state.mode === "adjust") return "Click a point to pick it up, click again to put it down. Or drag it.";
  return state.answer.points.length ? "Click or tap to add the next point." : "Click or tap where the cable starts.";
}

/** The picture from Python is ours and trusted; nothing a trainee wrote is in it. */
function hangPicture(place, surface, state) {
  const { task, face } = state;
  if (task.pictures?.[face]) place.innerHTML = task.pictures[face];
  else place.replaceChildren(outline(task, face));
  const drawing = place.querySelector("svg");
  drawing.removeAttribute("width");
  drawing.removeAttribute("height");
  drawing.setAttribute("preserveAspectRatio", "xMidYMid meet");
  surface.style.aspectRatio = `${state.base.w} / ${state.base.h}`;
}

function listenForKeys(surface, store) {
  surface.addEventListener("keydown", (event) => {
    const action = keyAction(event, store.state);
    if (!action) return;
    event.preventDefault();
    event.stopPropagation();
    store.dispatch(action);
  });
  surface.addEventListener("focus", () => { if (surface.matches(":focus-visible")) store.dispatch({ type: "enter" }); });
}

/** A number field that reports a finite number within its limits once, when it is left or confirmed. */
function numberField(name, { low, high, onvalue, complain }) {
  const field = h("input", { type: "number", class: "zl-number", "aria-label": name, min: low, max: high, step: 5, inputmode: "decimal" });
  field.addEventListener("input", () => { field.dataset.typing = "yes"; });
  field.addEventListener("change", () => {
    const value = numberIn(field);
    delete field.dataset.typing;
    if (value >= low && value <= high) onvalue(value);
    else trouble(field, `${name}: this must be a number from ${mm(low)} to ${mm(high)}. It was left as it was.`, complain);
    field.value = field.dataset.settled;
  });
  return field;
}

const numberIn = (field) => (field.value.trim() === "" ? NaN : Number(field.value));

/** Shows the value of the state, unless someone is typing another. */
function settle(field, value) {
  field.dataset.settled = value;
  if (!field.dataset.typing) field.value = value;
}

const troubleLine = () => h("p", { class: "zl-trouble", hidden: true });

/** Words about a field, said and shown in the part where it stands. */
function trouble(field, text, complain) {
  const line = field.closest(".zl-part").querySelector(".zl-trouble");
  line.textContent = text;
  line.hidden = false;
  complain(text);
}

/** The right number of rows, each made once and then kept, so that focus is never lost. */
function keepRows(body, rows, many, make, update) {
  while (rows.length > many) rows.pop().el.remove();
  while (rows.length < many) {
    rows.push(make(rows.length));
    body.append(rows.at(-1).el);
  }
  rows.forEach(update);
}

const headRow = (...words) => h("thead", {}, h("tr", {}, ...words.map((w) => h("th", { scope: "col" }, w))));

/** @returns {Part} depth and protection of each leg, where the exercise opens them */
function legsPart(store) {
  const parts = ["depth", "protection"].filter((p) => isOpen(store.state.task, p));
  const heads = { depth: "Depth (mm)", protection: "Covering" };
  const body = h("tbody");
  const rows = [];
  const table = h("table", { class: "zl-table" }, h("caption", {}, "Each leg of the route"), headRow("Leg", ...parts.map((p) => heads[p])), body);
  const none = h("p", { class: "zl-quiet" }, "The legs are listed here once the route has two points.");
  const el = h("section", { class: "zl-part", hidden: parts.length === 0 }, table, troubleLine(), none);
  const update = (state) => {
    el.querySelector(".zl-trouble").hidden = true;
    table.hidden = !state.answer.depth.length;
    none.hidden = !table.hidden;
    keepRows(body, rows, state.answer.depth.length, (i) => legRow(i, parts, store), (row, i) => row.update(state, i));
  };
  return { el, update };
}

function legRow(leg, parts, store) {
  const name = h("th", { scope: "row" });
  const fields = parts.map((part) => (part === "depth" ? depthField(leg, store) : protectionField(leg, store)));
  const el = h("tr", {}, name, ...fields.map((f) => h("td", {}, f)));
  const update = (state) => {
    name.replaceChildren(h("b", {}, `${leg + 1}`), ` ${describeLeg(state.answer, leg)}`);
    fields.forEach((f, i) => settle(f, state.answer[parts[i]][leg]));
  };
  return { el, update };
}

function depthField(leg, store) {
  const send = (value) => store.dispatch({ type: "setLeg", leg, part: "depth", value });
  return numberField(`Depth of leg ${leg + 1} in mm`, { low: 0, high: store.state.task.wall.thickness, onvalue: send, complain: store.complain });
}

function protectionField(leg, store) {
  const options = store.state.task.protections ?? [];
  const all = options.some((p) => p.id === "none") ? options : [{ id: "none", words: "None" }, ...options];
  const onchange = (event) => store.dispatch({ type: "setLeg", leg, part: "protection", value: event.target.value });
  return h("select", { class: "zl-select", "aria-label": `Covering of leg ${leg + 1}`, onchange }, ...all.map((p) => h("option", { value: p.id }, p.words)));
}

/** @returns {Part} the RCD, where the exercise opens it */
function rcdPart(store) {
  const read = () => (rating.value === "none" ? null : { ma: Number(rating.value), at: place.value, delayed: delayed.checked });
  const onchange = () => store.dispatch({ type: "setRcd", rcd: read() });
  const rating = h("select", { class: "zl-select", id: freshId("rcd"), onchange }, h("option", { value: "none" }, "No RCD"), ...RCD_RATINGS.map((ma) => h("option", { value: ma }, `${ma} mA`)));
  const place = h("select", { class: "zl-select", id: freshId("rcd"), onchange }, ...Object.entries(RCD_PLACES).map(([value, words]) => h("option", { value }, words)));
  const delayed = h("input", { type: "checkbox", id: freshId("rcd"), onchange });
  const more = h("div", { class: "zl-row" }, h("label", { for: place.id }, "Where it sits"), place, h("span", { class: "zl-check" }, delayed, h("label", { for: delayed.id }, "Time-delayed")));
  const line = h("div", { class: "zl-row" }, h("label", { for: rating.id }, "Rating"), rating);
  const el = h("fieldset", { class: "zl-part", hidden: !isOpen(store.state.task, "rcd") }, h("legend", {}, "RCD for this circuit"), line, more);
  const update = ({ answer: { rcd } }) => {
    showRating(rating, rcd);
    more.hidden = !rcd;
    place.value = (rcd ?? OUR_RCD).at;
    delayed.checked = (rcd ?? OUR_RCD).delayed;
  };
  return { el, update };
}

/** A rating from outside the short list is still shown as it is. */
function showRating(rating, rcd) {
  const value = rcd ? String(rcd.ma) : "none";
  if (![...rating.options].some((o) => o.value === value)) rating.append(h("option", { value }, `${value} mA`));
  rating.value = value;
}

/** @returns {Part} the points as a table: the equal way without drawing */
function pointsPart(store) {
  const body = h("tbody");
  const rows = [];
  const table = h("table", { class: "zl-table" }, h("caption", {}, "Points of the route, as seen from the front"), headRow("Point", "From the left (mm)", "Above the floor (mm)", "Delete"), body);
  const adder = pointAdder(store);
  const box = h("div", { id: freshId("points"), hidden: true }, table, troubleLine(), adder.el);
  const toggle = h("button", { type: "button", class: "zl-button", "aria-expanded": "false", "aria-controls": box.id, onclick: () => openBox(toggle, box) }, icon("table"), h("span", {}, "Points as a table"));
  const el = h("section", { class: "zl-part", hidden: !drawable(store.state) }, toggle, box);
  const update = (state) => {
    box.querySelector(".zl-trouble").hidden = true;
    table.hidden = !state.answer.points.length;
    keepRows(body, rows, state.answer.points.length, (i) => pointRow(i, store), (row) => row.update(state));
    adder.update(state);
  };
  return { el, update };
}

function openBox(toggle, box) {
  box.hidden = !box.hidden;
  toggle.setAttribute("aria-expanded", String(!box.hidden));
}

function placeFields(name, store, onvalue) {
  const { wall } = store.state.task;
  const limits = [[`${name}, from the left in mm`, wall.length], [`${name}, above the floor in mm`, tallest(wall)]];
  return limits.map(([words, high], axis) => numberField(words, { low: 0, high, onvalue: (v) => onvalue(axis, v), complain: store.complain }));
}

function pointRow(index, store) {
  const send = (axis, value) => store.dispatch({ type: "setPoint", index, at: store.state.answer.points[index].with(axis, value) });
  const fields = placeFields(`Point ${letter(index)}`, store, send);
  const drop = () => store.dispatch({ type: "remove", index });
  const button = h("button", { type: "button", class: "zl-button", "aria-label": `Delete point ${letter(index)}`, onclick: drop }, icon("bin"));
  const el = h("tr", {}, h("th", { scope: "row" }, letter(index)), ...fields.map((f) => h("td", {}, f)), h("td", {}, button));
  const update = (state) => {
    const fixed = index === fixedIndex(state.task);
    fields.forEach((f, axis) => { settle(f, Math.round(state.answer.points[index][axis] * 10) / 10); f.readOnly = fixed; });
    button.hidden = fixed;
  };
  return { el, update };
}

/** Fields for the next point; they start from the last one, so a straight leg needs one number. */
function pointAdder(store) {
  const fields = placeFields("New point", store, (axis, value) => settle(fields[axis], value));
  const add = () => {
    const at = fields.map(numberIn);
    if (isPlace(at)) store.dispatch({ type: "place", at, exact: true });
    else trouble(fields[0], "A new point needs two numbers, in mm.", store.complain);
  };
  const button = h("button", { type: "button", class: "zl-button", onclick: add }, icon("plus"), h("span", {}, "Add point"));
  const words = ["From the left", "Above the floor"].map((w, i) => h("label", { class: "zl-field" }, h("span", { "aria-hidden": "true" }, w), fields[i]));
  const el = h("div", { class: "zl-row zl-adder", role: "group", "aria-label": "Next point" }, ...words, button);
  let seen = null;
  const update = ({ answer }) => {
    if (answer.points.at(-1) === seen) return;
    seen = answer.points.at(-1);
    fields.forEach((f, axis) => settle(f, seen ? Math.round(seen[axis]) : ""));
  };
  return { el, update };
}

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

const KEY_HELP = [
  ["Arrow keys", "move by one step; with Shift ten steps; with Alt 1 mm"], ["Enter or Space", "place a point, pick one up, put it down"],
  ["Page Up, Page Down", "previous or next point"], ["Backspace", "delete the chosen point, or the last"], ["Escape", "put a held point back"],
  ["A", "go to the next accessory"], ["I", "put a point into the leg"], ["Ctrl Z, Ctrl Y", "undo, redo"], ["+ and −, 0", "zoom in and out, whole wall"],
];

/** @returns {Part} the picture in words and the keys, both folded */
function foldsPart() {
  const words = h("p");
  const wall = h("details", {}, h("summary", {}, "The drawing in words"), words);
  const list = h("dl", { class: "zl-keys" }, ...KEY_HELP.map(([k, w]) => h("div", {}, h("dt", {}, k), h("dd", {}, w))));
  const el = h("div", { class: "zl-folds" }, wall, h("details", {}, h("summary", {}, "Keys"), list));
  return { el, update: (state) => { words.textContent = inWords(state); } };
}

// ---------------------------------------------------------------- 12. speech

function spokenWords(state) {
  const { task, face, answer, result, resultFor } = state;
  const checked = result && answer === resultFor ? [result.summary, ...result.stretches.map((s) => `${s.n}. ${s.text}`)] : [];
  return [`${task.title}.`, task.alt?.[face] ?? "", describeAnswer(task, answer, face), ...checked].join(" ");
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

// ---------------------------------------------------------------- 13. the widget

const PATIENCE = 8000;

/** A store: one state, one reducer, some listeners. */
export function createStore(state) {
  const listeners = new Set();
  const store = {
    state,
    listen: (f) => listeners.add(f),
    complain: (text) => store.put(say({ ...store.state }, text)),
    dispatch: (action) => store.put(reduce(store.state, action)),
    put(next) {
      const before = store.state;
      store.state = next;
      if (next !== before) listeners.forEach((f) => f(next, before));
    },
  };
  return store;
}

/** The line that says whether the work is saved, and the alert for trouble. */
function savingLine(model) {
  const saved = h("p", { class: "zl-saved" });
  const problem = h("p", { class: "zl-problem", role: "alert", hidden: true });
  let timer = 0;
  const show = (text, late = false) => { saved.textContent = text; saved.classList.toggle("zl-late", late); };
  const settle = () => { if (model.get("saved")) { clearTimeout(timer); show(model.get("saved")); } };
  const trouble = () => { problem.textContent = model.get("problem") ?? ""; problem.hidden = !problem.textContent; };
  const wait = () => {
    if (model.get("saved") === undefined) return;
    clearTimeout(timer);
    show("Saving…");
    timer = setTimeout(() => show("Not saved yet. Your drawing is still here.", true), PATIENCE);
  };
  return { saved, problem, settle, trouble, wait, stop: () => clearTimeout(timer) };
}

/** Sends each confirmed change once, and never what came from the model. */
function sendChanges(model, saving) {
  return (state, before) => {
    if (state.commits !== before.commits) {
      saving.wait();
      model.set("answer", structuredClone(state.answer));
    }
    if (state.focus !== before.focus && state.focus !== model.get("focus")) model.set("focus", state.focus);
    if (state.commits !== before.commits || state.focus !== before.focus) model.save_changes();
  };
}

/** Listens to the model; returns what undoes it. */
function followModel(model, handlers) {
  const pairs = Object.entries(handlers).map(([name, handler]) => [`change:${name}`, handler]);
  pairs.forEach(([name, handler]) => model.on(name, handler));
  return () => pairs.forEach(([name, handler]) => model.off(name, handler));
}

function assemble(store, saving, parts) {
  const [voice, speech, drawBar, stage, viewBar, notice, result, folds, ...own] = parts;
  const title = h("p", { class: "zl-title", id: freshId("title") }, store.state.task.title ?? "");
  const head = h("div", { class: "zl-head" }, title, saving.saved, speech.el);
  const below = h("div", { class: "zl-below" }, notice.el, viewBar.el);
  const rest = [result, ...own, folds, voice].map((p) => p.el);
  const keep = (event) => { if (event.key !== "Tab" && event.key !== "Escape") event.stopPropagation(); };
  const dress = { class: "zl-pad", role: "group", "aria-labelledby": title.id, "data-lm-suppress-shortcuts": "true", onkeydown: keep };
  return h("div", dress, head, saving.problem, drawBar.el, stage.el, below, ...rest);
}

/** One view of one task: builds the page, follows the model until stopped. */
function openView(model, el) {
  const store = createStore(initialState(model.get("task"), model.get("answer")));
  const saving = savingLine(model);
  const makers = [voicePart, speechPart, drawBarPart, stagePart, viewBarPart, noticePart, resultPart, foldsPart, ...toolOf(store.state.task).parts()];
  const parts = makers.map((make) => make(store));
  el.replaceChildren(assemble(store, saving, parts));
  parts.forEach((p) => p.update(store.state, null));
  store.listen((state, before) => {
    const due = onlyMoved(state, before) ? parts.filter((p) => p.follows) : parts;
    due.forEach((p) => p.update(state, before));
  });
  store.listen(sendChanges(model, saving));
  const unfollow = followModel(model, {
    answer: () => store.dispatch({ type: "load", answer: model.get("answer") }),
    result: () => store.dispatch({ type: "result", result: model.get("result") }),
    focus: () => { if (model.get("focus") !== store.state.focus) store.dispatch({ type: "focus", n: model.get("focus") ?? 0 }); },
    saved: saving.settle,
    problem: saving.trouble,
  });
  store.dispatch({ type: "result", result: model.get("result") });
  saving.settle();
  saving.trouble();
  return () => { unfollow(); saving.stop(); parts.forEach((p) => p.stop?.()); };
}

const MOVING = new Set(["cursor", "target", "said", "keys"]);
const onlyMoved = (state, before) => Object.keys(state).every((key) => MOVING.has(key) || state[key] === before[key]);

const ready = (task) => Boolean(task?.wall?.top?.length);

/** Shows the pad in `el`; a new task starts it afresh. Returns what takes it down. */
function render({ model, el }) {
  let close = () => {};
  const open = () => {
    close();
    close = () => {};
    if (ready(model.get("task"))) close = openView(model, el);
    else el.replaceChildren(h("p", { class: "zl-pad zl-quiet" }, "The exercise is not here yet. Run its cell again."));
  };
  const unfollow = followModel(model, { task: open });
  open();
  return () => { unfollow(); close(); el.replaceChildren(); };
}

export default { initialize() {}, render };
