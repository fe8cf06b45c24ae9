/** Everything the route tool draws over the picture. `scale` is mm per CSS pixel; `marked` holds the answer that was checked. */
function drawRoute(state, scale, marked = state) {
  const pen = { ...penOf(state, scale), marked: penOf(marked, scale).marked };
  return [...guides(pen), ...legs(pen), ...stretches(pen), ...ghost(pen), ...handles(pen), ...cross(pen)];
}

function legs({ state, at }) {
  const { points, protection, via } = state.answer;
  return points.slice(1).flatMap((p, i) => {
    if (inVoid(state.answer, i)) return voidLeg(pathOf(voidLine(state.task, points[i], p, via[i]).map(at)));
    const d = seenPath(state.task, points[i], p, at);
    const covered = protection[i] && protection[i] !== "none";
    const styles = covered ? ["zl-cover-edge", "zl-cover", "zl-leg"] : ["zl-casing", "zl-leg"];
    return styles.map((style) => svg("path", { d, class: style }));
  });
}

const seenPath = (task, a, b, at) => seenPieces(task, a, b).map((piece) => pathOf(piece.map(at))).join("");
const voidLeg = (d) => ["zl-casing", "zl-void"].map((style) => svg("path", { d, class: style }));

function ghost({ state, scale, at }) {
  if (!state.target || state.held || state.mode !== "draw") return [];
  const [x, y] = at(state.target.at);
  const last = state.answer.points.at(-1);
  const band = last ? [svg("path", { d: seenPath(state.task, last, state.target.at, at), class: "zl-band" })] : [];
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
