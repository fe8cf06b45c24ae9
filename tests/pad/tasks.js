// Exercises of the test page, with a picture as plain as can be in the coordinates the pen uses.

const SAND = "#f5ead6";
const INK = "#22303c";

const text = (x, y, words, more = "") => `<text x="${x}" y="${y}" font-size="52" font-family="sans-serif" fill="${INK}" ${more}>${words}</text>`;
const rect = (x, y, w, h, more) => `<rect x="${x}" y="${y}" width="${w}" height="${h}" ${more}/>`;

/** A wall in SVG: user unit mm, y downwards from its highest point, the rear mirrored, margins for dimensions. */
export function picture(task, face) {
  const { length, top } = task.wall;
  const high = Math.max(...top.map((p) => p[1]));
  const flip = (x, width = 0) => (face === "rear" ? length - x - width : x);
  const rim = [[0, 0], ...top, [length, 0]].map(([x, y]) => `${flip(x)},${high - y}`).join(" ");
  const boxes = task.openings.map((o) => rect(flip(o.x, o.width), high - o.y - o.height, o.width, o.height, `fill="#fff" stroke="${INK}" stroke-width="8"`)
    + text(flip(o.x, o.width) + o.width / 2, high - o.y - o.height / 2, `${o.id} ${o.kind}`, 'text-anchor="middle"'));
  const items = task.accessories.filter((a) => a.face === face).map((a) => rect(flip(a.x - a.width / 2, a.width), high - a.y - a.height / 2, a.width, a.height, `fill="#fff" stroke="${INK}" stroke-width="8"`)
    + text(flip(a.x), high - a.y + a.height / 2 + 66, `${a.id} ${a.kind}`, 'text-anchor="middle"'));
  const name = text(0, -70, `Wall ${task.wall.id}, ${face} face`, 'font-weight="bold"');
  const size = text(length / 2, high + 150, `${length} mm`, 'text-anchor="middle"');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-200 -200 ${length + 400} ${high + 420}" width="800" data-length="${length}" data-height="${high}">`
    + `<polygon points="${rim}" fill="#fff" stroke="${INK}" stroke-width="14"/>${rect(7, 7, length - 14, 143, `fill="${SAND}"`)}${boxes.join("")}${items.join("")}${name}${size}</svg>`;
}

const PROTECTIONS = [
  { id: "none", words: "None" }, { id: "plastic-conduit", words: "Plastic conduit" }, { id: "steel-capping", words: "Steel capping" },
  { id: "earthed-steel-conduit", words: "Earthed steel conduit" }, { id: "steel-plate", words: "Steel plate, 3 mm or more" },
];

const corner = {
  kind: "route", exercise: "corner", title: "Number 4, front bedroom: feed socket S1 from the corner",
  wall: { id: "W1", length: 3600, top: [[0, 2400], [3600, 2400]], thickness: 140 },
  openings: [{ id: "D1", kind: "door", x: 2600, y: 0, width: 826, height: 2040 }],
  accessories: [
    { id: "S1", kind: "socket", face: "front", x: 1203, y: 450, width: 146, height: 86 },
    { id: "L1", kind: "switch", face: "front", x: 2200, y: 1200, width: 86, height: 86 },
    { id: "S2", kind: "socket", face: "rear", x: 800, y: 450, width: 146, height: 86 },
  ],
  alt: {
    front: "A wall 3,600 long and 2,400 high. Socket S1, switch L1 and door D1 are on the front.",
    rear: "The rear of the wall. Socket S2 is 2,800 from the left corner as seen from this side.",
  },
  open: ["points", "depth", "protection", "rcd"], start: null,
  given: { depth: 20, protection: "none", rcd: null }, protections: PROTECTIONS, snap: 5,
};

const rooted = { ...corner, exercise: "rooted", title: "Number 4, landing: from the switch to the corner", start: [2200, 1200], open: ["points"] };
const covered = {
  ...corner, exercise: "covered", title: "Number 6, kitchen: choose a covering for each leg", open: ["protection"],
  given: { points: [[300, 2330], [1203, 2330], [1203, 450]], depth: [20, 20], protection: ["none", "none"], rcd: null },
};
const loft = {
  ...corner, exercise: "loft", title: "Number 5, loft room: under a sloping ceiling", wall: { id: "W3", length: 8000, top: [[0, 1200], [3000, 2600], [8000, 2600]], thickness: 100 },
  openings: [],
};

const bare = { wall: corner.wall, openings: corner.openings, accessories: corner.accessories, alt: corner.alt, snap: 5 };
const zones = { ...bare, kind: "zones", exercise: "zones", title: "Number 4, front bedroom: draw the zones" };
const slope = { ...zones, exercise: "slope", title: "Number 5, loft room: the zones under a slope", wall: loft.wall, openings: [] };
const fixings = {
  ...bare, kind: "fixings", exercise: "fixings", title: "Number 1, hall: hang two pictures",
  items: [
    { id: "P1", words: "picture", width: 500, height: 400, fixings: [[250, 360]], between: [1300, 1600] },
    { id: "C1", words: "cupboard", width: 600, height: 700, fixings: [[60, 650], [540, 650]], between: null },
  ],
};
const joist = {
  kind: "joist", exercise: "joist", title: "Number 2, over the hall: cut a joist", snap: 5, wall: { id: "J1", length: 3000, top: [[0, 200], [3000, 200]], thickness: 47 },
  accessories: [], openings: [], alt: { front: "Joist J1, 200 deep, over a span of 3,000. Hole H1 is there." }, there: [{ id: "H1", x: 800 }],
  asked: { holes: 2, notches: 1 }, protections: [{ id: "none", words: "no covering" }, { id: "steel-plate", words: "a steel plate" }],
};

const face = (task, name) => ({ ...task, pictures: { [name]: picture(task, name) } });
const hung = (task) => ({ ...task, pictures: { front: picture(task, "front"), rear: picture(task, "rear") } });

export const TASKS = {
  corner: hung(corner), rooted: hung(rooted), covered: hung(covered), loft: hung(loft), bare: { ...corner, pictures: {} },
  zones: face(zones, "front"), behind: face({ ...zones, exercise: "behind" }, "rear"), slope: face(slope, "front"), fixings: face(fixings, "front"), joist: face(joist, "front"),
};
