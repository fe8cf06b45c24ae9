const MOST_POINTS = 60;
const RCD_RATINGS = [10, 30, 100, 300];
const RCD_PLACES = { origin: "At the origin, before this cable", outlet: "At the outlet end" };
const OUR_RCD = { ma: 30, at: "origin", delayed: false };

/** Which axis the lock frees, seen from the last point: the one with the larger way. */
function lockedAxis(state, raw) {
  const anchor = state.answer.points.at(-1);
  if (!state.lock || state.held || !anchor || state.mode !== "draw") return null;
  return Math.abs(raw[0] - anchor[0]) >= Math.abs(raw[1] - anchor[1]) ? "y" : "x";
}

/** A place on the turn of the row that a point next to the last one, or the one in hand, would take. */
function turned({ task, answer, held }, at) {
  const beside = held ? held.before.points[held.index] : answer.points.at(-1);
  return nearestTurn(task, at, beside?.[0]);
}

/** Where a point would land for this cursor, and the lines it then lies on. */
export function landing(state, cursor, { reach = 0, fine = false } = {}) {
  const { task, answer, held } = state;
  const raw = turned(state, cursor);
  const beside = held ? [held.index - 1, held.index + 1] : [answer.points.length - 1];
  const near = (places) => places.map((p) => nearestTurn(task, p, raw[0]));
  const accessories = (task.accessories ?? []).map((a) => ({ ...a, x: nearestTurn(task, [a.x, a.y], raw[0])[0] }));
  const lines = snapLines({ ...task, accessories }, near(held ? held.before.points : answer.points), beside);
  const how = { reach: fine ? 0 : reach, step: fine ? 1 : task.snap || 5 };
  const free = { x: snapAxis("x", raw[0], lines, how), y: snapAxis("y", raw[1], lines, how) };
  const locked = lockedAxis(state, raw);
  if (locked) free[locked] = snapAxis(locked, answer.points.at(-1)[locked === "x" ? 0 : 1], lines, { ...how, reach: 0 });
  if (locked && !free[locked].line) free[locked].value = answer.points.at(-1)[locked === "x" ? 0 : 1];
  const found = [free.x.line, free.y.line].filter((line) => line && !(locked && line.source === letter(answer.points.length - 1)));
  return { at: onWall(task, [free.x.value, free.y.value]), lines: found };
}

const fixedIndex = (task) => (task.start ? 0 : -1);
const lastIndex = (answer) => (answer.points.length ? answer.points.length - 1 : null);

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
  const words = { depth: () => `${mm(value)} deep`, via: () => VIAS[value], protection: () => state.task.protections?.find((p) => p.id === value)?.words ?? value }[part]();
  return commit(cancelled(state), answer, `Leg ${leg + 1}, ${letter(leg)} to ${letter(leg + 1)}: ${words}.`);
}

/** A straight leg moves sideways as a whole; otherwise a new point is put in and dragged. */
function grabLeg(state, index, at) {
  const way = run(state.answer.points[index], state.answer.points[index + 1]);
  if (state.lock && way !== "slanting") return ROUTE.pick(state, { index, axis: way === "level" ? "y" : "x" });
  const next = ROUTE.insert(state, { leg: index, at });
  return next.answer === state.answer ? next : ROUTE.pick(next, { index: index + 1 });
}

/** Actions of the route tool. */
const ROUTE = {
  tap(state, { hit, at, reach, fine, again }) {
    if (hit.kind === "point") return again ? state : ROUTE.pick(state, { index: hit.index });
    if (hit.kind === "leg") return ROUTE.insert(state, { leg: hit.index, at });
    return state.mode === "draw" ? ROUTE.place(state, { at, reach, fine }) : state;
  },
  grab(state, { hit, at }) {
    if (hit.kind === "point") return ROUTE.pick(state, { index: hit.index });
    return hit.kind === "leg" ? grabLeg(state, hit.index, at) : state;
  },
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
    const here = state.answer.points.findIndex((p) => state.cursor && sameSpot(state.task, p, state.cursor));
    if (here >= 0) return ROUTE.pick(state, { index: here });
    if (state.mode === "adjust") return say(state, "Go to a point with Page Up or Page Down, then press Enter.");
    return ROUTE.place(ROUTE.enter({ ...state, mode: "draw" }), {});
  },
  place(state, { at, reach, fine, exact }) {
    if (refusal(state)) return say(state, refusal(state));
    if (state.held) return ROUTE.drop(at ? aim(state, at, { reach, fine }) : state);
    if (exact) return addPoint(state, onWall(state.task, turned(state, at)));
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
    if (state.held) return say(state, PUT_DOWN_FIRST);
    const from = state.selected === null || state.selected >= many ? (by > 0 ? -1 : many) : state.selected;
    return { ...toPoint(state, clamp(from + by, 0, many - 1)), keys: true };
  },
  /** The cursor goes to the next accessory; a held point goes along. */
  seek(state) {
    const all = state.task.accessories ?? [];
    if (!all.length) return say(state, "There are no accessories on this wall.");
    const here = all.findIndex((a) => state.cursor && sameSpot(state.task, [a.x, a.y], state.cursor));
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
    const spot = (at ? onPiece(nearLeg(state.task, at, a, b), a, b) : between(a, b, 0.5)).map(Math.round);
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
    const answer = withLegs(state.answer, points, () => []);
    return { ...commit(cancelled(state), answer, "All points removed. Undo brings them back."), selected: lastIndex(answer), target: null };
  },
  lock: (state, { on }) => say({ ...state, lock: on, target: null }, on ? "Legs run level or upright only." : "Legs may slant."),
  /** A typed place: exact, but under the lock straight neighbours go along as they do in the drawing. */
  setPoint(state, { index, at }) {
    const calm = cancelled(state);
    if (refusal(calm, index)) return say(calm, refusal(calm, index));
    if (!isPlace(at) || !calm.answer.points[index]) return say(calm, "A place needs two numbers, in mm.");
    const spot = onWall(calm.task, nearestTurn(calm.task, at, calm.answer.points[index][0]));
    const points = moved(calm.answer.points, index, spot, { lock: calm.lock, fixed: fixedIndex(calm.task) });
    const note = sameSpot(calm.task, spot, at) ? "" : " It was brought back onto the wall.";
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

/** A seen place on the turn of the row where a leg passes it. */
function nearLeg(task, at, a, b) {
  const turns = [a, b, between(a, b, 0.5)].map((p) => nearestTurn(task, at, p[0]));
  return turns.sort((p, q) => distance(p, onPiece(p, a, b)) - distance(q, onPiece(q, a, b)))[0];
}

/** What lies under a wall place: a point, a leg or nothing. Reaches in mm. */
function routeHit(state, at, { point, leg }) {
  const { points } = state.answer;
  const { task } = state;
  const near = points.map((p, index) => ({ kind: "point", index, far: distance(seenAt(task, p), at) })).filter((h) => h.far <= point);
  if (near.length) return near.sort((a, b) => a.far - b.far)[0];
  const toLeg = (index) => Math.min(...seenPieces(task, points[index], points[index + 1]).map(([a, b]) => distance(at, onPiece(at, a, b))));
  const legs = points.slice(1).map((_, index) => ({ kind: "leg", index, far: inVoid(state.answer, index) ? Infinity : toLeg(index) }));
  return legs.filter((h) => h.far <= leg).sort((a, b) => a.far - b.far)[0] ?? { kind: "empty" };
}

const hasPoints = (s) => s.answer.points.length > 0;

const ROUTE_BAR = {
  modes: [
    { words: "Draw", icon: "draw", show: drawable, pressed: (s) => s.mode === "draw", action: () => ({ type: "mode", mode: "draw" }) },
    { words: "Adjust", icon: "adjust", show: drawable, pressed: (s) => s.mode === "adjust", action: () => ({ type: "mode", mode: "adjust" }) },
    { words: "Allow slanting", short: "Slanting", icon: "slant", show: drawable, pressed: (s) => !s.lock, action: (s) => ({ type: "lock", on: !s.lock }) },
  ],
  changes: [
    { words: "Insert point", short: "Insert", icon: "insert", show: drawable, enabled: (s) => s.answer.depth.length > 0, action: () => ({ type: "insert" }) },
    { words: "Delete point", short: "Delete", icon: "bin", show: drawable, enabled: hasPoints, action: () => ({ type: "remove" }) },
    { words: "Clear", icon: "clear", show: drawable, enabled: hasPoints, action: () => ({ type: "clear" }) },
  ],
};

function routeHint(state) {
  if (state.mode === "adjust") return "Click a point to pick it up, click again to put it down. Or drag it.";
  return state.answer.points.length ? "Click or tap to add the next point." : "Click or tap where the cable starts.";
}

TOOLS.route = {
  clean: cleanAnswer,
  drawable: (task) => isOpen(task, "points"),
  last: lastIndex,
  actions: ROUTE,
  hit: routeHit,
  draw: (state, scale) => drawRoute(state, scale),
  parts: (store) => [legsPart, rcdPart, store.state.task.walls ? roomPointsPart : pointsPart],
  bar: ROUTE_BAR,
  keys: { a: { type: "seek" }, i: { type: "insert" } },
  keyHelp: [
    ["Enter or Space", "place a point, pick one up, put it down"], ["Page Up, Page Down", "previous or next point"],
    ["Backspace", "delete the chosen point, or the last"], ["A", "go to the next accessory"], ["I", "put a point into the leg"],
  ],
  words: {
    help: "Arrow keys move the cross. Enter places a point or picks one up. Page Up and Page Down go from point to point. Tab leaves the drawing.",
    describe: describeAnswer,
    count: (task, answer) => `The route has ${count(answer.points.length, "point")}.`,
    readout: (state) => readout(state),
    hint: routeHint,
    given: "This route is given. Look at it closely, then answer below.",
    modes: { draw: "Draw: each click or Enter adds a point.", adjust: "Adjust: pick up a point and put it down again." },
  },
};
