/** Lines a point can snap to: centre lines of accessories, and the other points next to it. */
export function snapLines(task, points, beside) {
  const centres = (task.accessories ?? []).flatMap((a) => linesThrough([a.x, a.y], a.id, `on the centre line of ${a.id}`));
  const others = beside.filter((i) => points[i]).flatMap((i) => linesThrough(points[i], letter(i), `in line with ${letter(i)}`));
  return [...centres, ...others];
}

function linesThrough([x, y], source, words) {
  return [{ axis: "x", value: x, source, words }, { axis: "y", value: y, source, words }];
}

/** One coordinate snapped to the nearest line within reach, else to the grid. */
export function snapAxis(axis, value, lines, { reach, step }) {
  const near = lines.filter((l) => l.axis === axis && Math.abs(l.value - value) <= reach + NEAR);
  const line = near.sort((a, b) => Math.abs(a.value - value) - Math.abs(b.value - value))[0] ?? null;
  return { value: line ? line.value : Math.round(value / step) * step, line };
}
