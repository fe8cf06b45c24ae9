/** Places along a line of points, such as a cable: how far from its first point (mm). */

/** How far along a line each of its points lies; the last is its length. */
const marksOf = (points) => points.reduce((marks, p, i) => [...marks, i ? marks[i - 1] + distance(points[i - 1], p) : 0], []);
const lengthOf = (points) => marksOf(points).at(-1);

/** Which piece of a line a mark lies on; at a corner the one behind it. */
function legAt(points, along) {
  const at = marksOf(points).findIndex((mark) => mark >= along - NEAR);
  return clamp(at - 1, 0, points.length - 2);
}

/** The place at a mark. */
function placeAt(points, along) {
  const [marks, leg] = [marksOf(points), legAt(points, along)];
  const long = marks[leg + 1] - marks[leg];
  return between(points[leg], points[leg + 1], long ? clamp((along - marks[leg]) / long, 0, 1) : 0);
}

/** The mark nearest to a place, on which leg, and how far off the place is. */
function nearestMark(points, place) {
  const marks = marksOf(points);
  const legs = points.slice(1).map((p, leg) => {
    const on = onPiece(place, points[leg], p);
    return { leg, along: marks[leg] + distance(points[leg], on), far: distance(on, place) };
  });
  return legs.sort((a, b) => a.far - b.far)[0];
}

/** The points of a line from mark to mark. */
function pieceOf(points, from, to) {
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const inner = marksOf(points).flatMap((mark, i) => (mark > low + NEAR && mark < high - NEAR ? [points[i]] : []));
  return [placeAt(points, low), ...inner, placeAt(points, high)];
}
