/** Tools by kind of exercise; each puts itself here. @type {Object<string, Tool>} */
export const TOOLS = {};

const toolOf = (task) => TOOLS[task.kind] ?? TOOLS.route;
const drawable = ({ task }) => Boolean(task.wall) && (toolOf(task).drawable?.(task) ?? true);
const firstMode = (task) => toolOf(task).firstMode?.(task) ?? "draw";
const lastOf = (state, answer) => toolOf(state.task).last?.(answer) ?? null;

/** What is drawn on, in a word. */
const thing = ({ task }) => (task.walls ? "room" : toolOf(task).words.thing ?? "wall");

/** The state a pad starts with. */
export function initialState(task, answer = null) {
  const face = task.pictures?.rear && !task.pictures.front ? "rear" : "front";
  const base = frame(task, face);
  return {
    task, answer: toolOf(task).clean(task, answer), past: [], future: [], commits: 0,
    mode: drawable({ task }) ? firstMode(task) : "view", lock: true, face, cursor: null, target: null, keys: false,
    selected: null, held: null, result: null, resultFor: null, focus: 0, base, view: base, stood: null, shape: 1, said: { text: "", lazy: false },
  };
}

const say = (state, text, lazy = false) => ({ ...state, said: { text, lazy } });

/** A confirmed change: it can be undone and is sent once. */
function commit(state, answer, text) {
  const past = [...state.past, state.held ? state.held.before : state.answer].slice(-HISTORY);
  return say({ ...state, answer, past, future: [], held: null, commits: state.commits + 1 }, text);
}

const placeWords = (state, at) => describePlace(state.task, state.face, at);

/** Next value on the grid in a direction, or exactly `by` further for a single millimetre. */
function stepped(value, by, grid) {
  if (Math.abs(by) <= 1) return value + by;
  const origin = by > 0 ? Math.floor(value / grid + NEAR) : Math.ceil(value / grid - NEAR);
  return origin * grid + by;
}

const PUT_DOWN_FIRST = "Put it down first, or press Escape.";

const travel = (state, from, to) => {
  if (state.held) return say(state, PUT_DOWN_FIRST);
  if (!from.length) return say(state, "There is nothing more to bring back.");
  const answer = from.at(-1);
  const stacks = to === "future"
    ? { past: from.slice(0, -1), future: [...state.future, state.answer] }
    : { future: from.slice(0, -1), past: [...state.past, state.answer] };
  const selected = lastOf(state, answer);
  const word = to === "future" ? "Undone." : "Done again.";
  return say({ ...state, ...stacks, answer, selected, commits: state.commits + 1 }, `${word} ${toolOf(state.task).words.count(state.task, answer)}`);
};

/** What a check found is brought into view: of a room the wall it lies on. */
function lookingAt(state, { at, points, rings }) {
  const { task, face, base, view } = state;
  const place = at ?? (points?.length ? middle(points) : rings && middleOf(rings[0]));
  const next = place ? reveal(base, view, toPicture(task, face, place)) : view;
  if (sameBox(next, view)) return state;
  return { ...state, ...(task.walls ? atWall(state, wallIndex(task, place[0])) : { view: next }) };
}

/** Actions every kind of exercise has. */
const COMMON = {
  load(state, { answer }) {
    const next = toolOf(state.task).clean(state.task, answer);
    if (JSON.stringify(next) === JSON.stringify(state.answer)) return state;
    return { ...state, answer: next, past: [...state.past, state.answer], future: [], held: null, selected: lastOf(state, next) };
  },
  result: (state, { result }) => ({ ...state, result: result?.stretches ? result : null, resultFor: state.answer, focus: 0 }),
  focus(state, { n }) {
    const stretch = state.result?.stretches?.find((s) => s.n === n);
    const next = stretch && stretch.face !== state.face ? COMMON.face(state, { face: stretch.face }) : state;
    return { ...(stretch ? lookingAt(next, stretch) : next), focus: n };
  },
  zoom(state, { factor, at }) {
    const { view } = state;
    const looked = toolOf(state.task).lookedAt?.(state) ?? (state.keys ? state.cursor : null);
    const about = at ?? (looked ? toPicture(state.task, state.face, looked) : [view.x + view.w / 2, view.y + view.h / 2]);
    const next = { ...state, view: zoomed(state.base, view, factor, about) };
    return say(next, `Zoom ${Math.round((next.base.w / next.view.w) * 100)} per cent.`, true);
  },
  fit: (state) => say({ ...state, view: state.base, mode: state.mode === "view" && drawable(state) ? firstMode(state.task) : state.mode }, `The whole ${thing(state)} is shown.`),
  wall: (state, { by }) => toWall(state, by),
  pan: (state, { by }) => ({ ...state, view: inside(state.base, { ...state.view, x: state.view.x + by[0], y: state.view.y + by[1] }) }),
  face(state, { face }) {
    if (face === state.face || !state.task.pictures?.[face]) return state;
    const base = frame(state.task, face);
    const mirrored = { ...state.view, x: state.task.wall.length - state.view.x - state.view.w };
    const view = sameBox(state.view, state.base) ? base : inside(base, mirrored);
    return say({ ...state, face, base, view }, `The ${face} face is shown.${face === "rear" ? " Left and right are swapped." : ""}`);
  },
  mode: (state, { mode }) => say({ ...cancelled(state), mode, target: null }, modeWords(state, mode)),
  undo: (state) => travel(state, state.past, "future"),
  redo: (state) => travel(state, state.future, "past"),
};

const VIEW_WORDS = "Move the view: drag the picture, or use the arrow buttons.";
const modeWords = ({ task }, mode) => (mode === "view" ? VIEW_WORDS : toolOf(task).words.modes?.[mode] ?? "");

const cancelled = (state) => (state.held ? { ...state, answer: state.held.before, held: null, target: null } : state);

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
