/** Someone's installation: stretches of its cables are marked as failing, from one place along them to another. */
TOOLS.inspect = (() => {
  const MOST_MARKS = 60;
  const SHORTEST = 5;
  const SAME_PLACE = 40;
  const PARTS = { clause: "clauses", remedy: "remedies", why: "whys" };

  const cableOf = (task, id) => task.cables.find((c) => c.id === id);
  const tenth = (v) => Math.round(v * 10) / 10;
  const listed = (n) => `${n ? n : "No"} ${n === 1 ? "stretch is" : "stretches are"} marked.`;

  // --- the answer --------------------------------------------------------------------------

  /** A mark that lies on its cable, from its lower end; both ends are null for the whole cable. */
  function cleanMark(task, raw) {
    const long = tenth(lengthOf(cableOf(task, raw.route).points));
    const ends = [raw.from, raw.to].some(isNumber) ? [isNumber(raw.from) ? raw.from : 0, isNumber(raw.to) ? raw.to : long] : [null, null];
    const [from, to] = ends[0] === null ? ends : ends.map((v) => clamp(tenth(v), 0, long)).sort((a, b) => a - b);
    const said = Object.entries(PARTS).map(([part, among]) => [part, task[among].some((o) => o.id === raw[part]) ? raw[part] : null]);
    return { route: raw.route, from, to, ...Object.fromEntries(said) };
  }

  function clean(task, raw) {
    const marks = Array.isArray(raw?.stretches) ? raw.stretches.filter((one) => cableOf(task, one?.route)) : [];
    const passes = Object.entries(raw?.passes ?? {}).filter(([id, v]) => cableOf(task, id) && typeof v === "boolean");
    return { stretches: marks.slice(0, MOST_MARKS).map((one) => cleanMark(task, one)), passes: Object.fromEntries(passes) };
  }

  const withMark = (answer, index, mark) => ({ ...answer, stretches: answer.stretches.with(index, mark) });
  const fresh = (route, from, to) => ({ route, from, to, clause: null, remedy: null, why: null });

  // --- along the cables --------------------------------------------------------------------

  /** Cables that a place lies nearest to, the nearest first. */
  const nearby = (task, place, cables = task.cables) => cables
    .map(({ id, points }) => ({ id, points, ...nearestMark(points, place) })).sort((a, b) => a.far - b.far);

  /** A mark snapped to a corner within reach, else to the grid. */
  function snapped(task, { points, along }, { reach = 0, fine = false }) {
    const corner = fine ? undefined : marksOf(points).find((mark) => Math.abs(mark - along) <= reach + NEAR);
    const step = fine ? 1 : task.snap || 5;
    return corner ?? clamp(Math.round(along / step) * step, 0, lengthOf(points));
  }

  const targetOn = (cable, along) => ({ at: placeAt(cable.points, along), lines: [], cable: cable.id, along: tenth(along) });

  /** While a stretch grows, its cable may still change where it began on two at once. */
  function rivals({ task, held, answer }) {
    const one = answer.stretches[held.index];
    const start = placeAt(cableOf(task, one.route).points, held.anchor);
    const near = nearby(task, start).filter((c) => c.id === one.route || (held.fresh && c.far <= SAME_PLACE));
    return { start, cables: near.map((c) => cableOf(task, c.id)) };
  }

  /** The end in hand brought to a place. */
  function carried(state, place, how) {
    const { start, cables } = rivals(state);
    const cable = nearby(state.task, place, cables)[0];
    return carriedTo(state, cable, snapped(state.task, cable, how), nearestMark(cable.points, start).along);
  }

  function carriedTo(state, cable, along, anchor) {
    const { held, answer } = state;
    const one = { ...answer.stretches[held.index], route: cable.id, from: tenth(anchor), to: tenth(along) };
    const target = targetOn(cable, along);
    return { ...state, answer: withMark(answer, held.index, one), held: { ...held, anchor }, target, cursor: target.at };
  }

  function begin(state, cable, along) {
    if (state.answer.stretches.length >= MOST_MARKS) return say(state, `At most ${MOST_MARKS} stretches can be marked.`);
    const index = state.answer.stretches.length;
    const answer = { ...state.answer, stretches: [...state.answer.stretches, fresh(cable.id, tenth(along), tenth(along))] };
    const target = targetOn(cable, along);
    const held = { index, anchor: along, fresh: true, before: state.answer };
    return say({ ...state, answer, held, selected: index, target, cursor: target.at }, `A stretch of ${cable.id} begins ${mm(along)} along. Now its end.`);
  }

  function finished(state) {
    const { held, answer, task } = state;
    const one = cleanMark(task, answer.stretches[held.index]);
    if (one.to - one.from < SHORTEST) return say(cancelled(state), "Too short to mark. Begin again, and end farther along the cable.");
    return marked(state, withMark(answer, held.index, one), held.index, one);
  }

  function marked(state, answer, index, one) {
    const words = `M${index + 1}: ${markWords(one)} marked. Say below what is to be said of it.`;
    return { ...commit(state, answer, words), selected: index, target: state.keys ? state.target : null };
  }

  function added(state, one) {
    if (state.answer.stretches.length >= MOST_MARKS) return say(state, `At most ${MOST_MARKS} stretches can be marked.`);
    const calm = cancelled(state);
    const mark = cleanMark(calm.task, one);
    if (mark.from !== null && mark.to - mark.from < SHORTEST) return say(calm, "Too short to mark. Give an end farther along the cable.");
    return marked(calm, { ...calm.answer, stretches: [...calm.answer.stretches, mark] }, calm.answer.stretches.length, mark);
  }

  function markLeg(state, cable, leg) {
    const marks = marksOf(cable.points);
    return added(state, fresh(cable.id, marks[leg], marks[leg + 1]));
  }

  // --- keys --------------------------------------------------------------------------------

  /** Where the keys stand: on a cable, so and so far along. */
  function stand(state) {
    if (state.target?.cable) return { ...state, keys: true };
    const near = state.cursor ? nearby(state.task, state.cursor)[0] : { id: state.task.cables[0].id, along: 0 };
    const target = targetOn(cableOf(state.task, near.id), near.along);
    return { ...state, keys: true, target, cursor: target.at };
  }

  function movedTo(state, along) {
    const cable = cableOf(state.task, state.target.cable);
    const next = state.held ? carriedTo(state, cable, along, state.held.anchor) : { ...state, target: targetOn(cable, along) };
    const cursor = next.target.at;
    const view = reveal(next.base, next.view, toPicture(next.task, next.face, cursor));
    return say({ ...next, cursor, view }, readoutOf(next), true);
  }

  /** Which way along the cable an arrow points: 1, -1, or 0 where the cable does not run that way. */
  function wayOf({ points }, along, by) {
    const marks = marksOf(points);
    const ahead = marks.findIndex((mark) => mark > along + NEAR);
    const behind = marks.findLastIndex((mark) => mark < along - NEAR);
    const here = placeAt(points, along);
    const pull = (to) => (to < 0 ? 0 : ((points[to][0] - here[0]) * by[0] + (points[to][1] - here[1]) * by[1]) / (distance(points[to], here) || 1));
    const [on, back] = [pull(ahead), pull(behind)];
    if (Math.max(on, back) <= NEAR) return { way: 0, limit: along };
    return on >= back ? { way: 1, limit: marks[ahead] } : { way: -1, limit: marks[behind] };
  }

  const actions = {
    hover(state, { at, reach, fine }) {
      const calm = { ...state, keys: false };
      if (calm.held) return carried(calm, at, { reach, fine });
      const [near] = nearby(calm.task, at);
      const on = near.far <= Math.max(4 * (reach ?? 0), SAME_PLACE);
      return { ...calm, cursor: at, target: on ? targetOn(near, snapped(calm.task, near, { reach, fine })) : null };
    },
    leave: (state) => (state.keys || state.held ? state : { ...state, target: null }),
    tap(state, { hit, reach, fine }) {
      if (hit.kind === "point") return actions.pick(state, hit);
      if (hit.kind !== "leg") return say(state, "Click on a cable: first where the stretch begins, then where it ends.");
      const cable = cableOf(state.task, hit.cable);
      if (state.mode === "leg") return markLeg(state, cable, hit.leg);
      return begin(state, cable, snapped(state.task, { ...cable, along: hit.along }, { reach, fine }));
    },
    grab: (state, action) => (state.mode === "leg" || action.hit.kind === "empty" ? state : actions.tap(state, action)),
    /** An end of a mark is picked up; the other stays. */
    pick(state, { index, end }) {
      const one = state.answer.stretches[index];
      const cable = cableOf(state.task, one.route);
      const held = { index, anchor: end === "from" ? one.to : one.from, fresh: false, before: state.answer };
      const next = carriedTo({ ...state, held, selected: index }, cable, one[end], held.anchor);
      return say(next, `End of M${index + 1} picked up, ${mm(one[end])} along ${one.route}.`);
    },
    drop: (state) => (state.held ? finished(state) : state),
    cancel: (state) => (state.held ? say({ ...cancelled(state), target: state.keys ? state.target : null, selected: null }, "Put back as it was.") : state),
    enter(state) {
      const next = stand(state);
      return say(next, readoutOf(next), true);
    },
    nudge(state, { by }) {
      const from = stand(state);
      const cable = cableOf(from.task, from.target.cable);
      const seen = from.face === "rear" ? [-by[0], by[1]] : by;
      const { way, limit } = wayOf(cable, from.target.along, seen);
      if (!way) return say(from, `${cable.id} does not run that way here.`, true);
      const step = Math.max(...by.map(Math.abs));
      const along = stepped(from.target.along, way * step, step === 1 ? 1 : from.task.snap || 5);
      return movedTo(from, way > 0 ? Math.min(along, limit) : Math.max(along, limit));
    },
    act(state) {
      if (state.held) return finished(state);
      const from = stand(state);
      const cable = cableOf(from.task, from.target.cable);
      return from.mode === "leg" ? markLeg(from, cable, legAt(cable.points, from.target.along)) : begin(from, cable, from.target.along);
    },
    step(state, { by }) {
      if (state.held) return say(state, PUT_DOWN_FIRST);
      const { cables } = state.task;
      const here = cables.findIndex((c) => c.id === state.target?.cable);
      const next = cables[here < 0 ? 0 : clamp(here + by, 0, cables.length - 1)];
      const target = targetOn(next, 0);
      const view = reveal(state.base, state.view, toPicture(state.task, state.face, target.at));
      return say({ ...state, keys: true, target, cursor: target.at, view }, `${next.id}, ${mm(lengthOf(next.points))} long. ${readoutOf({ ...state, target, held: null })}`);
    },
    /** To the next corner or end of the cable, and from its end back to its beginning. */
    corner(state) {
      const from = stand(state);
      const marks = marksOf(cableOf(from.task, from.target.cable).points);
      return movedTo(from, marks.find((mark) => mark > from.target.along + 0.1) ?? 0);
    },
    leg(state) {
      const from = stand(state);
      const cable = cableOf(from.task, from.target.cable);
      return markLeg(from, cable, legAt(cable.points, from.target.along));
    },
    whole(state) {
      const from = stand(state);
      return added(from, fresh(from.target.cable, null, null));
    },
    mark: (state, { route, from, to }) => (cableOf(state.task, route) ? added(state, fresh(route, from, to)) : state),
    /** Something typed or chosen in a card; `whole` turns a stretch into the cable as a whole, and back. */
    change(state, { index, change: { whole, ...parts } }) {
      const calm = cancelled(state);
      const before = calm.answer.stretches[index];
      if (!before) return calm;
      const long = lengthOf(cableOf(calm.task, before.route).points);
      const ends = whole === undefined ? {} : whole ? { from: null, to: null } : { from: 0, to: long };
      const one = cleanMark(calm.task, { ...before, ...ends, ...parts });
      if (one.from !== null && one.to - one.from < SHORTEST) return say({ ...calm }, "Too short to mark. It was left as it was.");
      if (JSON.stringify(one) === JSON.stringify(before)) return calm;
      return { ...commit(calm, withMark(calm.answer, index, one), markSaid(calm.task, one, index)), selected: index };
    },
    remove(state, { index }) {
      const calm = cancelled(state);
      const which = index ?? calm.selected ?? calm.answer.stretches.length - 1;
      if (!calm.answer.stretches[which]) return say(calm, "There is no mark to delete.");
      const answer = { ...calm.answer, stretches: calm.answer.stretches.toSpliced(which, 1) };
      return { ...commit(calm, answer, `M${which + 1} deleted. ${listed(answer.stretches.length)}`), selected: null };
    },
    newWork(state, { route, value }) {
      const calm = cancelled(state);
      const { [route]: _, ...others } = calm.answer.passes;
      const passes = value === null ? others : { ...calm.answer.passes, [route]: value };
      return commit(calm, { ...calm.answer, passes }, newWorkWords(route, value));
    },
  };

  // --- words -------------------------------------------------------------------------------

  const newWorkWords = (route, value) => `${route}: ${value === null ? "nothing said of it as new work" : value ? "it would pass as new work" : "it would not pass as new work"}.`;
  const chosenWords = (task, part, id) => task[PARTS[part]].find((o) => o.id === id)?.words.replace(/\.$/, "");

  function markSaid(task, one, index) {
    const said = Object.keys(PARTS).filter((part) => one[part]).map((part) => `${part === "why" ? "why it matters" : part}: ${chosenWords(task, part, one[part])}`);
    return `${[`M${index + 1}: ${markWords(one)}`, ...said].join("; ")}.`;
  }

  function describe(task, answer) {
    const marks = answer.stretches.map((one, i) => markSaid(task, one, i));
    return [listed(marks.length), ...marks, ...Object.entries(answer.passes).map(([id, v]) => newWorkWords(id, v))].join(" ");
  }

  function readoutOf({ task, face, target, held, answer }) {
    if (!target?.cable) return "";
    const where = `${mm(target.along)} along ${target.cable}: ${describePlace(task, face, target.at)}`;
    const one = held && answer.stretches[held.index];
    return one ? `M${held.index + 1}, ${markWords(cleanMark(task, one))}. ${where}` : where;
  }

  // --- drawing -----------------------------------------------------------------------------

  function drawMark(one, i, pen) {
    const { state, scale, at } = pen;
    const { points } = cableOf(state.task, one.route);
    const [from, to] = [one.from ?? 0, one.to ?? lengthOf(points)];
    const d = pathOf(pieceOf(points, from, to).map(at));
    const entire = one.from === null ? " zl-entire" : "";
    const lit = i === state.selected ? " zl-lit" : "";
    const band = [`zl-mark-edge${entire}${lit}`, "zl-mark", "zl-leg"].map((style) => svg("path", { d, class: style }));
    const ends = one.from === null ? [] : [from, to].map((along) => handleAt(at(placeAt(points, along)), scale));
    const [x, y] = at(placeAt(points, from + (to - from) * (entire ? 0.35 : 0.6)));
    const far = x > state.view.x + 0.75 * state.view.w;
    const words = label(`M${i + 1}${entire ? ", whole" : ""}`, x + (far ? -12 : 12) * scale, y - 12 * scale, 14, scale, "zl-letter", far ? "end" : "start");
    return [...band, ...ends, words];
  }

  const handleAt = ([x, y], scale) => svg("circle", { cx: x, cy: y, r: 6.5 * scale, class: "zl-handle" });

  function dot({ state, scale, at }) {
    if (!state.target?.cable) return [];
    const [x, y] = at(state.target.at);
    return [svg("circle", { cx: x, cy: y, r: 6 * scale, class: "zl-ghost" })];
  }

  function draw(state, scale) {
    const pen = penOf(state, scale);
    return [...state.answer.stretches.flatMap((one, i) => drawMark(one, i, pen)), ...stretches(pen), ...dot(pen), ...cross(pen)];
  }

  /** An end of a mark, a cable, or nothing. */
  function hit(state, at, { point }) {
    const ends = state.answer.stretches.flatMap((one, index) => (one.from === null ? [] : ["from", "to"].map((end) => ({ kind: "point", index, end, far: distance(at, placeAt(cableOf(state.task, one.route).points, one[end])) }))));
    const end = ends.filter((e) => e.far <= point).sort((a, b) => a.far - b.far)[0];
    if (end && state.mode === "draw") return end;
    const [cable] = nearby(state.task, at);
    return cable.far <= point ? { kind: "leg", cable: cable.id, along: cable.along, leg: cable.leg } : { kind: "empty" };
  }

  const mode = (words, name, iconName) => ({ words, icon: iconName, show: drawable, pressed: (s) => s.mode === name, action: () => ({ type: "mode", mode: name }) });

  return {
    clean, actions, hit, draw,
    parts: () => [marksPart, newWorkPart],
    bar: {
      modes: [mode("From and to", "draw", "draw"), mode("Whole leg", "leg", "slant")],
      changes: [{ words: "Delete mark", short: "Delete", icon: "bin", show: drawable, enabled: (s) => s.answer.stretches.length > 0, action: () => ({ type: "remove" }) }],
    },
    keys: { e: { type: "corner" }, l: { type: "leg" }, w: { type: "whole" } },
    keyHelp: [
      ["Enter or Space", "begin a stretch, end it"], ["Page Up, Page Down", "previous or next cable"], ["E", "go to the next corner or end"],
      ["L", "mark the whole leg"], ["W", "mark the whole cable"], ["Backspace", "delete the chosen mark, or the last"],
    ],
    words: {
      describe, count: (task, answer) => listed(answer.stretches.length), readout: readoutOf,
      help: "Page Up and Page Down go from cable to cable. Arrow keys move along a cable, E goes to its next corner. Enter begins a stretch and ends it. Tab leaves the drawing.",
      hint: (state) => (state.mode === "leg" ? "Click a leg of a cable to mark all of it." : "Click on a cable where your mark begins, then where it ends."),
      modes: { draw: "From and to: click where a stretch begins, then where it ends.", leg: "Whole leg: each click marks the leg under it." },
    },
  };
})();
