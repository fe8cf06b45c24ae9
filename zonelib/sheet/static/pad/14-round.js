/** A room's walls lie in a row that goes round: an x past its end begins anew, and one place has many. */

/** An x of a room's row brought into one turn; on a single wall it stays. */
function onceRound(task, x) {
  if (!task.walls || (x >= 0 && x <= task.wall.length)) return x;
  return x - Math.floor(x / task.wall.length) * task.wall.length;
}

const seenAt = (task, [x, y]) => [onceRound(task, x), y];
const sameSpot = (task, a, b) => samePlace(seenAt(task, a), seenAt(task, b));

/** Of all places that are one place of the row, the nearest to an x: a leg goes the shorter way round. */
function nearestTurn(task, [x, y], to) {
  if (!task.walls || !isNumber(to)) return [x, y];
  return [x + Math.round((to - x) / task.wall.length) * task.wall.length, y];
}

/** Which wall of a room an x lies on, and how far along it. A corner belongs to the wall right of it. */
export function wallAt(task, x) {
  const once = onceRound(task, x);
  const wall = task.walls.findLast((w) => w.start <= once + NEAR) ?? task.walls[0];
  return { wall, along: once - wall.start };
}

/** A leg as it is seen: where it goes past the end of the row, it comes in two pieces. */
export function seenPieces(task, a, b) {
  if (!task.walls) return [[a, b]];
  const long = task.wall.length;
  const [low, high] = [Math.min(a[0], b[0]), Math.max(a[0], b[0])];
  const seams = Array.from({ length: 5 }, (_, i) => (i - 1) * long).filter((x) => x > low + NEAR && x < high - NEAR);
  const shares = [0, ...seams.map((x) => (x - a[0]) / (b[0] - a[0])).sort((s, t) => s - t), 1];
  return shares.slice(1).map((end, i) => {
    const ends = [between(a, b, shares[i]), between(a, b, end)];
    const turn = Math.floor((ends[0][0] + ends[1][0]) / 2 / long) * long;
    return ends.map(([x, y]) => [x - (high - low < NEAR ? x - onceRound(task, x) : turn), y]);
  });
}

const VIAS = { wall: "in the wall", "ceiling-void": "ceiling void", "floor-void": "floor void" };
const VOID_RISE = 0.05;
const inVoid = (answer, leg) => (answer.via?.[leg] ?? "wall") !== "wall";

/** The way through a void as it is drawn: a little above the ceiling, or below the floor. */
function voidLine(task, a, b, via) {
  const rise = VOID_RISE * tallest(task.wall);
  const y = via === "ceiling-void" ? tallest(task.wall) + rise : -rise;
  const [from, to] = [seenAt(task, a), seenAt(task, b)];
  return [from, [from[0], y], [to[0], y], to];
}
