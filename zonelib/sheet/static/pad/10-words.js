const HISTORY = 200;
const NEAR = 0.01;
const ZOOM_STEP = 1.5;
const MOST_ZOOM = 12;

/** Name of a point: a, b, … z, a2, b2, … Numbers are kept for the messages. */
export function letter(index) {
  const turn = Math.floor(index / 26);
  return String.fromCharCode(97 + (index % 26)) + (turn ? String(turn + 1) : "");
}

/** A length in mm with a comma at the thousands. */
export function mm(value) {
  return String(Math.round(value * 10) / 10).replace(/\B(?=(\d{3})+(?!\d))/g, ",");
}

const count = (n, word) => `${n === 0 ? "no" : n} ${word}${n === 1 ? "" : "s"}`;
const same = (a, b) => Math.abs(a - b) < NEAR;
const samePlace = (a, b) => same(a[0], b[0]) && same(a[1], b[1]);
const clamp = (v, low, high) => Math.min(Math.max(v, low), high);
const isNumber = (v) => typeof v === "number" && Number.isFinite(v);
const isPlace = (p) => Array.isArray(p) && p.length === 2 && p.every(isNumber);
const isOpen = (task, part) => (task.open ?? []).includes(part);
