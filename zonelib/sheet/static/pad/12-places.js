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
  return [face === "rear" ? task.wall.length - x : onceRound(task, x), tallest(task.wall) - y];
}

/** Picture place to wall place. */
export function fromPicture(task, face, [x, y]) {
  return [face === "rear" ? task.wall.length - x : x, tallest(task.wall) - y];
}

/** Nearest place on the wall's box. A room's row goes round, so there one may go on past its ends. */
export function onWall(task, [x, y]) {
  const [low, high] = task.walls ? [-task.wall.length, 2 * task.wall.length] : [0, task.wall.length];
  return [clamp(x, low, high), clamp(y, 0, tallest(task.wall))];
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
  if (task.walls) return describeInRoom(task, at);
  const left = face === "rear" ? task.wall.length - at[0] : at[0];
  return `${across(left, task.wall.length - left)}, ${upward(at[1], ceilingAt(task.wall, at[0]) - at[1])}`;
}

/** The same in a room: "on bed.2, 1,250 from the left corner, 140 below the ceiling". */
function describeInRoom(task, [x, y]) {
  const { wall, along } = wallAt(task, x);
  return `on ${wall.id}, ${across(along, wall.length - along)}, ${upward(y, ceilingAt(task.wall, wall.start + along) - y)}`;
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
  if (!task.wall) return { x: 0, y: 0, w: 1, h: 1 };
  return { x: -AIR, y: -AIR, w: task.wall.length + 2 * AIR, h: tallest(task.wall) + 2 * AIR };
}

const sameBox = (a, b) => a.x === b.x && a.y === b.y && a.w === b.w && a.h === b.h;
