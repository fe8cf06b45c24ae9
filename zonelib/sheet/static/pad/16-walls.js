/** A room one wall at a time: where the page is narrow, the whole row is too small to draw on. */

const wallIndex = (task, x) => task.walls.indexOf(wallAt(task, x).wall);

/** Which wall is on show, counted from 0; -1 where it is the whole row. */
export function shownWall({ task, base, view, stood }) {
  if (view.w > base.w - NEAR) return -1;
  if (stood?.view === view) return stood.index;
  return wallIndex(task, clamp(view.x + view.w / 2, 0, task.wall.length));
}

/** So much of the next walls is seen on both sides: room for the numbers at the corners (mm). */
const BESIDE = 220;

/** The part of the picture that shows a wall from corner to corner, and from the ceiling to the numbers below the floor. */
export function viewOfWall({ task, base, shape }, index) {
  const { start, length } = task.walls[index];
  const foot = base.y + base.h;
  const w = clamp(Math.max(length + 2 * BESIDE, (foot + AIR) * shape), base.w / MOST_ZOOM, base.w);
  const h = (w * base.h) / base.w;
  return inside(base, { x: start + (length - w) / 2, y: (foot - AIR - h) / 2, w, h });
}

/** The view at a wall, and which wall that is. */
function atWall(state, index) {
  const view = viewOfWall(state, index);
  return { view, stood: { index, view } };
}

const wallWords = ({ walls }, index) => (index < 0 ? `All ${walls.length} walls` : `Wall ${index + 1} of ${walls.length}: ${walls[index].id}`);

/** The wall where one works: of the cross, or of the point drawn last. */
function workedWall({ task, cursor, answer }) {
  const at = cursor ?? answer.points?.at(-1);
  return at ? wallIndex(task, at[0]) : 0;
}

/** So many walls on, round and round; from the whole row to the wall where one works. With keys the cross goes along. */
function toWall(state, by) {
  const { walls, wall } = state.task;
  if (!walls) return state;
  const here = shownWall(state);
  const index = here < 0 ? workedWall(state) : (here + by + walls.length) % walls.length;
  const centre = [Math.round(walls[index].start + walls[index].length / 2), Math.round(tallest(wall) / 2)];
  const cross = state.keys && !state.held && here >= 0 ? { cursor: centre, target: null } : {};
  return say({ ...state, ...cross, ...atWall(state, index) }, `${wallWords(state.task, index)}.`, true);
}
