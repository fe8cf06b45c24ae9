const pathOf = (points) => points.map((p, i) => `${i ? "L" : "M"}${p[0]} ${p[1]}`).join("");

/** What drawing needs: the state, mm per CSS pixel, wall place to picture place, and whether the result still holds. */
function penOf(state, scale) {
  const at = (p) => toPicture(state.task, state.face, p);
  return { state, scale, at, marked: state.result !== null && state.answer === state.resultFor };
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

/** `off` is how far from a place its number stands (CSS pixels). */
function stretches(pen, off = [20, -24]) {
  if (!pen.marked) return [];
  const ours = pen.state.result.stretches.filter((s) => s.face === pen.state.face);
  const taken = [];
  return ours.flatMap((s) => stretch(s, { ...pen, taken }, off));
}

/** What a check found, along a line, over areas or at a place, with its number on it. */
function stretch(s, pen, off) {
  const lit = pen.state.focus === s.n ? " zl-lit" : "";
  if (s.rings) return [...foundAreas(s, pen, lit), ...disc(s, s.at ?? middleOf(s.rings[0]), pen)];
  if (s.points?.length > 1) return [...foundLine(s, pen, lit), ...lineNumber(s, pen, off)];
  return s.at ? beside(s, pen, off) : [];
}

const SHORT = 44;
const RING = 9;
const APART = 25;

/** A place for a number to the right of those that are there already. */
function freeOf({ scale, taken }, to) {
  const near = taken.some((other) => distance(other, to) < APART * scale);
  if (near) return freeOf({ scale, taken }, [to[0] + APART * scale, to[1]]);
  taken.push(to);
  return to;
}

/** A number stands on its line, or beside one that it would hide. */
function lineNumber(s, pen, off) {
  if (s.at) return disc(s, s.at, pen);
  const [a, b] = [s.points[0], s.points.at(-1)];
  const short = s.points.length === 2 && distance(a, b) / pen.scale < SHORT;
  return short ? beside({ ...s, at: middle(s.points) }, pen, off).slice(1) : disc(s, middle(s.points), pen);
}

/** A number beside a place, with a line to it, so that the place itself is seen. */
function beside(s, pen, off) {
  const [x, y] = pen.at(s.at);
  const to = freeOf(pen, [x + off[0] * pen.scale, y + off[1] * pen.scale]);
  const d = pathOf([between([x, y], to, (RING * pen.scale) / distance([x, y], to)), to]);
  const ring = svg("circle", { cx: x, cy: y, r: RING * pen.scale, class: "zl-found zl-place" });
  return [ring, svg("path", { d, class: "zl-stretch-gap" }), svg("path", { d, class: "zl-leader" }), ...disc(s, to, pen, true)];
}

function foundLine(s, { at }, lit) {
  const d = pathOf(s.points.map(at));
  return [svg("path", { d, class: "zl-stretch-gap" }), svg("path", { d, class: `zl-stretch${lit}` })];
}

function foundAreas(s, { at }, lit) {
  const d = s.rings.map((ring) => `${pathOf(ring.map(at))}Z`).join("");
  return [svg("path", { d, class: "zl-stretch-gap" }), svg("path", { d, "fill-rule": "evenodd", class: `zl-found zl-${s.style ?? "found"}${lit}` })];
}

/** The number of a message, and a word with it where the tool gives one. */
function disc(s, where, { state, scale, at }, drawn = false) {
  const lit = state.focus === s.n ? " zl-lit" : "";
  const [x, y] = drawn ? where : at(where);
  const round = svg("circle", { cx: x, cy: y, r: (lit ? 14 : 11) * scale, class: `zl-disc${lit}` });
  const number = svg("text", { x, y: y + 4.6 * scale, "font-size": 13 * scale, "text-anchor": "middle", class: "zl-disc-word" }, String(s.n));
  return [round, number];
}

const middleOf = (ring) => [0, 1].map((axis) => (Math.min(...ring.map((p) => p[axis])) + Math.max(...ring.map((p) => p[axis]))) / 2);

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
