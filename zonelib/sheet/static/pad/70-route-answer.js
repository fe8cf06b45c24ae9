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
  const via = isOpen(task, "via") ? { via: legs.map((_, i) => (VIAS[source?.via?.[i]] ? source.via[i] : "wall")) } : {};
  return { points: rooted, depth, protection, rcd: cleanRcd(raw?.rcd === undefined ? task.given?.rcd : raw.rcd), ...via };
}

function cleanRcd(rcd) {
  return rcd ? { ma: rcd.ma ?? 30, at: rcd.at ?? "origin", delayed: Boolean(rcd.delayed) } : null;
}

const PER_LEG = ["depth", "protection", "via"];

/** An answer with other points, and what it holds of each leg changed alike. */
function withLegs(answer, points, change) {
  const held = PER_LEG.filter((part) => answer[part]).map((part) => [part, change(answer[part], part)]);
  return { ...answer, points, ...Object.fromEntries(held) };
}

/** A point added at the end; its leg takes depth and protection of the leg before, and lies in the wall. */
export function withPoint(task, answer, at) {
  const points = [...answer.points, at];
  if (points.length < 2) return { ...answer, points };
  const fresh = { depth: answer.depth.at(-1) ?? givenDepth(task), protection: answer.protection.at(-1) ?? givenProtection(task), via: "wall" };
  return withLegs(answer, points, (values, part) => [...values, fresh[part]]);
}

/** A point put into a leg; both halves keep its depth and protection. */
export function withInsert(answer, leg, at) {
  return withLegs(answer, answer.points.toSpliced(leg + 1, 0, at), (values) => values.toSpliced(leg + 1, 0, values[leg]));
}

/** A point taken out; where two legs become one, it keeps the values of the earlier. */
export function withoutPoint(answer, index) {
  const leg = Math.max(Math.min(index, answer.points.length - 2), 0);
  return withLegs(answer, answer.points.toSpliced(index, 1), (values) => values.toSpliced(leg, 1));
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
  const ways = (answer.via ?? []).flatMap((via, i) => (via === "wall" ? [] : [`Leg ${i + 1} runs through the ${VIAS[via]}.`]));
  return [`The route has ${count(answer.points.length, "point")}.`, ...places, ...ways].join(" ");
}

/** One leg in words: "a to b, 1,880 upright". */
export function describeLeg(answer, leg) {
  const [a, b] = [answer.points[leg], answer.points[leg + 1]];
  if (inVoid(answer, leg)) return `${letter(leg)} to ${letter(leg + 1)}, straight across`;
  return `${letter(leg)} to ${letter(leg + 1)}, ${mm(Math.round(distance(a, b)))} ${run(a, b)}`;
}
