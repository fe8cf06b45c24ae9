/** The zones tool: areas drawn on a face, as boxes, or under a slope as shapes with any corners. */
TOOLS.zones = (() => {
  const MOST = 60;
  const MOST_CORNERS = 40;
  const LEAST = 1;
  const CORNERS = [{ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 1, y: 1 }, { x: 0, y: 1 }];
  const SIDES = [{ x: null, y: 0 }, { x: 1, y: null }, { x: null, y: 1 }, { x: 0, y: null }];

  const isBox = (ring) => ring.length === 2;
  const tidy = (ring) => {
    if (!isBox(ring)) return ring.map((p) => [...p]);
    const { x0, y0, x1, y1 } = edges(ring);
    return [[x0, y0], [x1, y1]];
  };
  const bounds = (ring) => ({
    x0: Math.min(...ring.map((p) => p[0])), y0: Math.min(...ring.map((p) => p[1])), x1: Math.max(...ring.map((p) => p[0])), y1: Math.max(...ring.map((p) => p[1])),
  });
  const corners = (ring) => {
    const { x0, y0, x1, y1 } = bounds(ring);
    return isBox(ring) ? [[x0, y0], [x1, y0], [x1, y1], [x0, y1]] : ring;
  };

  /** A box may come as two corners; rings that are none are left out. */
  function clean(task, raw) {
    const areas = (Array.isArray(raw?.areas) ? raw.areas : []).filter((ring) => Array.isArray(ring) && ring.length > 1 && ring.every(isPlace));
    return { areas: areas.slice(0, MOST).map(tidy) };
  }

  const slopes = (task) => task.wall.top.some((p) => !same(p[1], task.wall.top[0][1]));
  const name = (state, id) => `Area ${letter(id)}`;

  /** Where an area is, as one sees it on this face. */
  function where(state, id) {
    const { x0, y0, x1, y1 } = bounds(state.answer.areas[id]);
    const [left, right] = [seenX(state, x0), seenX(state, x1)].sort((a, b) => a - b);
    const shape = isBox(state.answer.areas[id]) ? "" : `, a shape with ${count(state.answer.areas[id].length, "corner")}`;
    return `${mm(left)} to ${mm(right)} from the left corner, ${mm(y0)} to ${mm(y1)} above the floor${shape}`;
  }

  const sizeWords = (state, id) => {
    const { x0, y0, x1, y1 } = bounds(state.answer.areas[id]);
    return `${mm(x1 - x0)} wide, ${mm(y1 - y0)} high`;
  };

  /** The place of a part of an area: a corner, the middle of a side, or its lower left corner. */
  function anchor(state, id, part) {
    const { x0, y0, x1, y1 } = bounds(state.answer.areas[id]);
    if (part === "whole") return [x0, y0];
    return [part.x === null ? (x0 + x1) / 2 : [x0, x1][part.x], part.y === null ? (y0 + y1) / 2 : [y0, y1][part.y]];
  }

  function resized(ring, part, at) {
    const { x0, y0, x1, y1 } = bounds(ring);
    const xs = part.x === null ? [x0, x1] : [[x0, x1][1 - part.x], at[0]];
    const ys = part.y === null ? [y0, y1] : [[y0, y1][1 - part.y], at[1]];
    return tidy([[xs[0], ys[0]], [xs[1], ys[1]]]);
  }

  /** What is drawn new runs from where it was begun; a shape in hand has its next corner at the cursor. */
  function carried(state, held, at) {
    const { areas } = held.before;
    if (held.shape) return { areas: [...areas, tidy([...held.shape, at])] };
    if (held.fresh) return { areas: [...areas, tidy([held.from, at])] };
    if (held.part !== "whole") return { areas: areas.with(held.id, resized(areas[held.id], held.part, at)) };
    const shift = minus(at, anchor({ answer: held.before }, held.id, "whole"));
    return { areas: areas.with(held.id, areas[held.id].map((p) => plus(p, shift))) };
  }

  /** A whole area stays on the wall. */
  function kept(task, at, held) {
    if (!held || held.part !== "whole") return onWall(task, at);
    const { x0, y0, x1, y1 } = bounds(held.before.areas[held.id]);
    return [clamp(at[0], 0, Math.max(task.wall.length - (x1 - x0), 0)), clamp(at[1], 0, Math.max(tallest(task.wall) - (y1 - y0), 0))];
  }

  function lines({ task, answer, held }) {
    const { length } = task.wall;
    const rim = [["x", 0], ["x", length], ["y", 0], ["y", tallest(task.wall)]].map(([axis, value]) => ({ axis, value, words: "at the edge of the wall" }));
    const own = (held ? held.before : answer).areas.filter(isBox).flatMap((ring, i) => {
      const { x0, y0, x1, y1 } = bounds(ring);
      return i === held?.id ? [] : [["x", x0], ["x", x1], ["y", y0], ["y", y1]].map(([axis, value]) => ({ axis, value, words: `at the edge of area ${letter(i)}` }));
    });
    return [...rim, ...edgeLines(task), ...own];
  }

  function put(state, at) {
    const id = state.answer.areas.length;
    if (state.mode === "adjust") return say({ ...state, selected: null }, "There is no area here. Choose Box to draw one.");
    if (id >= MOST) return say(state, `There can be at most ${MOST} areas.`);
    const shape = state.mode === "shape" ? { shape: [at] } : {};
    const more = { now: at, fresh: true, from: at, grip: [0, 0], ...shape };
    const held = { ...H.hold(state, id, { x: 1, y: 1 }, at, more), answer: carried(state, { ...more, before: state.answer }, at) };
    return say(held, shape.shape ? `Corner 1: ${placeWords(state, at)}. Go to the next corner.` : `First corner: ${placeWords(state, at)}. Go to the opposite corner.`);
  }

  const flat = (ring) => { const { x0, y0, x1, y1 } = bounds(ring); return x1 - x0 < LEAST || y1 - y0 < LEAST; };

  const T = {
    ids: (state) => state.answer.areas.map((_, i) => i),
    name, where, anchor, carried, kept, lines, put,
    middle: (state, id) => middleOf(corners(state.answer.areas[id])),
    nextGrip: () => [0, 0],
    without: (state, id) => ({ areas: state.answer.areas.toSpliced(id, 1) }),
    unfit: (state) => (flat(state.answer.areas[state.held.id]) ? "An area needs some width and some height. Go to the opposite corner." : ""),
  };
  const { A, H } = thingActions(T);

  /** A shape in hand gets a corner; at its first corner again, it is closed. */
  function addCorner(state) {
    const { shape, now, id } = state.held;
    if (samePlace(now, shape.at(-1))) return say(state, "This corner is there already. Move further first.");
    if (shape.length > 2 && state.closes) return close(state);
    if (shape.length >= MOST_CORNERS) return say(state, `A shape can have at most ${MOST_CORNERS} corners. Close it.`);
    const held = { ...state.held, shape: [...shape, now] };
    return say({ ...state, held, answer: carried(state, held, now) }, `Corner ${shape.length + 1}: ${placeWords(state, now)}.${shape.length > 1 ? ` Go back to corner 1 to close ${name(state, id).toLowerCase()}.` : ""}`);
  }

  function close(state) {
    const { shape, before, id } = state.held ?? {};
    if (!shape) return say(state, "There is no shape to close.");
    if (shape.length < 3) return say(state, "A shape needs three corners or more.");
    const answer = { areas: [...before.areas, shape] };
    return { ...commit(state, answer, `Area ${letter(id)} placed: ${where({ ...state, answer }, id)}.`), selected: id, target: null };
  }

  /** The shape is closed by its first corner, within a finger's reach. */
  const nearFirst = (state, reach) => Boolean(state.held?.shape?.length > 2 && distance(state.held.now, state.held.shape[0]) <= Math.max(reach ?? 0, NEAR));

  function nextCorner(state) {
    const id = state.held && !state.held.fresh ? state.held.id : H.chosen(state);
    if (id === null || state.held?.fresh || !isBox(state.answer.areas[id])) return say(state, "Choose a box with Page Up or Page Down first.");
    const here = CORNERS.findIndex((c) => state.held?.part !== "whole" && c.x === state.held?.part.x && c.y === state.held?.part.y);
    const part = CORNERS[(here + 1) % CORNERS.length];
    const at = anchor(state, id, part);
    const before = state.held ? state.held.before : state.answer;
    if (state.held && state.answer !== before) return nextCorner(A.drop(state));
    return say({ ...H.hold({ ...state, answer: before }, id, part, at), keys: true }, `Corner of ${name(state, id).toLowerCase()} picked up: ${placeWords(state, at)}.`);
  }

  const actions = {
    ...A,
    hover(state, action) {
      const next = A.hover(state, action);
      return { ...next, closes: nearFirst(next, action.reach) };
    },
    tap(state, { hit, at, reach, fine, again }) {
      if (hit.kind === "empty") return A.put(state, { at, reach, fine });
      if (hit.part) return A.pick(state, { id: hit.id, part: hit.part, at });
      return hit.id === state.selected && !again ? A.pick(state, { id: hit.id, at }) : A.select(state, { id: hit.id });
    },
    grab(state, { hit, at, reach, fine }) {
      if (hit.kind === "empty") return state.mode === "adjust" ? state : A.put(state, { at, reach, fine });
      return A.pick(state, { id: hit.id, part: hit.part ?? "whole", at });
    },
    drop: (state) => (state.held?.shape ? addCorner({ ...state, closes: state.closes || nearFirst(state, 0) }) : A.drop(state)),
    act: (state) => (state.held?.shape ? actions.drop(state) : A.act(state)),
    close,
    corner: nextCorner,
    remove(state, action) {
      if (!state.held?.shape || action.id !== undefined) return A.remove(state, action);
      const shape = state.held.shape.slice(0, -1);
      if (!shape.length) return A.cancel(state);
      const held = { ...state.held, shape };
      return say({ ...state, held, answer: carried(state, held, held.now) }, `Corner ${shape.length + 1} taken back.`);
    },
    /** The cursor goes from edge to edge of the accessories. */
    seek(state) {
      const spots = (state.task.accessories ?? []).flatMap((a) => [[a, "lower left", -1, -1], [a, "upper right", 1, 1]]);
      if (!spots.length) return say(state, "There are no accessories on this wall.");
      const next = ((state.sought ?? -1) + 1) % spots.length;
      const [a, side, sx, sy] = spots[next];
      const mirrored = state.face === "rear" ? -1 : 1;
      const aimed = H.aim({ ...state, keys: true, sought: next }, [a.x + (sx * mirrored * a.width) / 2, a.y + (sy * a.height) / 2], { exact: true });
      const view = reveal(aimed.base, aimed.view, toPicture(aimed.task, aimed.face, aimed.cursor));
      return say({ ...aimed, view }, `${a.id}, ${side} corner: ${placeWords(state, aimed.cursor)}`);
    },
    /** Typed edges: left, lower, right, upper, all as seen on this face. */
    setBox(state, { id, box }) {
      const from = H.calm(state);
      if (!box.every(isNumber)) return say(from, "An area needs four numbers, in mm.");
      const ring = tidy([[seenX(from, box[0]), box[1]], [seenX(from, box[2]), box[3]]].map((p) => onWall(from.task, p)));
      if (flat(ring)) return say(from, "An area needs some width and some height. It was left as it was.");
      const fresh = id === null;
      if (fresh && from.answer.areas.length >= MOST) return say(from, `There can be at most ${MOST} areas.`);
      const which = fresh ? from.answer.areas.length : id;
      const answer = { areas: fresh ? [...from.answer.areas, ring] : from.answer.areas.with(which, ring) };
      return { ...commit(from, answer, `${name(from, which)} ${fresh ? "placed" : "changed"}: ${where({ ...from, answer }, which)}.`), selected: which };
    },
  };

  function handles({ answer, selected }) {
    const ring = answer.areas[selected];
    return ring && isBox(ring) ? [...CORNERS, ...SIDES].map((part) => ({ part, at: anchor({ answer }, selected, part) })) : [];
  }

  /** In Adjust: handles of the chosen area first, then the smallest area under the place. */
  function hit(state, at, { point }) {
    if (state.mode !== "adjust") return { kind: "empty" };
    const near = handles(state).map((one) => ({ ...one, far: distance(one.at, at) })).filter((one) => one.far <= point).sort((a, b) => a.far - b.far)[0];
    if (near) return { kind: "point", id: state.selected, part: near.part };
    const size = (id) => { const b = bounds(state.answer.areas[id]); return (b.x1 - b.x0) * (b.y1 - b.y0); };
    const under = T.ids(state).filter((id) => within(bounds(state.answer.areas[id]), at, point / 2));
    const chosen = under.includes(state.selected) ? state.selected : under.sort((a, b) => size(a) - size(b))[0];
    return chosen === undefined ? { kind: "empty" } : { kind: "point", id: chosen };
  }

  /** Where a letter stands: not in the middle, where a long strip meets the others; in a shape, within it. */
  function wordPlace(ring) {
    const { x0, y0, x1, y1 } = bounds(ring);
    const share = y1 - y0 > x1 - x0 ? [0.5, 0.82] : [0.3, 0.5];
    const at = [x0 + (x1 - x0) * share[0], y0 + (y1 - y0) * share[1]];
    const crossed = isBox(ring) ? [] : crossings(ring, at[0]);
    return crossed.length > 1 ? [at[0], (crossed[0] + crossed[1]) / 2] : at;
  }

  /** Heights at which an upright line meets the rim of a shape, from the top. */
  function crossings(ring, x) {
    const sides = ring.map((p, i) => [p, ring[(i + 1) % ring.length]]).filter(([a, b]) => (a[0] < x) !== (b[0] < x));
    return sides.map(([a, b]) => a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0])).sort((a, b) => b - a);
  }

  function area(ring, id, { state, at }) {
    const style = `zl-area${id === state.selected ? " zl-selected" : ""}${state.held?.id === id ? " zl-held" : ""}`;
    const open = state.held?.id === id && state.held.shape;
    const d = pathOf(corners(ring).map(at)) + (open && ring.length < 3 ? "" : "Z");
    return svg("path", { d, class: style });
  }

  function areaWord(ring, id, { scale, at }) {
    const [x, y] = at(wordPlace(ring));
    return label(letter(id), x, y + 5 * scale, 15, scale, "zl-letter", "middle");
  }

  function draw(state, scale) {
    const pen = penOf(state, scale);
    const shown = state.mode === "adjust" || state.held ? handles(state) : [];
    const dots = shown.map((one) => { const [x, y] = pen.at(one.at); return svg("circle", { cx: x, cy: y, r: 6 * scale, class: "zl-handle" }); });
    const first = state.held?.shape ? [state.held.shape[0]].map((p) => { const [x, y] = pen.at(p); return svg("circle", { cx: x, cy: y, r: 8 * scale, class: "zl-ring" }); }) : [];
    const spot = state.target && !state.held && state.mode !== "adjust" ? [state.target.at].map((p) => { const [x, y] = pen.at(p); return svg("circle", { cx: x, cy: y, r: 6 * scale, class: "zl-ghost" }); }) : [];
    return [...state.answer.areas.map((ring, id) => area(ring, id, pen)), ...stretches(pen), ...state.answer.areas.map((ring, id) => areaWord(ring, id, pen)), ...dots, ...first, ...spot, ...cross(pen)];
  }

  const HEADS = ["left edge (mm)", "lower edge (mm)", "right edge (mm)", "upper edge (mm)"];

  function boxFields(title, store, onvalue) {
    const { wall } = store.state.task;
    const high = [wall.length, tallest(wall), wall.length, tallest(wall)];
    return HEADS.map((words, i) => thingField(title, words, store, { low: 0, high: high[i], onvalue: (v) => onvalue(i, v) }));
  }

  /** The edges of an area as the fields have them. */
  function edgesSeen(state, ring) {
    const { x0, y0, x1, y1 } = bounds(ring);
    const [left, right] = [seenX(state, x0), seenX(state, x1)].sort((a, b) => a - b);
    return [left, y0, right, y1].map(tenth);
  }

  function row(id, store) {
    const title = () => `Area ${letter(id)}`;
    const send = (i, v) => store.dispatch({ type: "setBox", id, box: edgesSeen(store.state, store.state.answer.areas[id]).with(i, v) });
    const made = thingRow(title, boxFields(title, store, send), { words: "Delete", action: () => store.dispatch({ type: "remove", id }) });
    const update = (state) => {
      const ring = state.answer.areas[id];
      made.fields.forEach((f) => { f.field.readOnly = !isBox(ring); });
      made.update({ label: title(), note: isBox(ring) ? sizeWords(state, id) : `a shape with ${count(ring.length, "corner")}`, values: edgesSeen(state, ring), chosen: id === state.selected });
    };
    return { el: made.el, update };
  }

  /** @returns {Part} all areas by their edges, and a row that adds one */
  function tablePart(store) {
    const fields = boxFields(() => "New area", store, (i, v) => settle(fields[i].field, v));
    const add = () => {
      const box = fields.map((f) => numberIn(f.field));
      if (!box.every(isNumber)) return trouble(fields[0].field, "A new area needs four numbers, in mm.", store.complain);
      store.dispatch({ type: "setBox", id: null, box });
      return fields.forEach((f) => settle(f.field, ""));
    };
    const button = h("button", { type: "button", class: "zl-button", onclick: add }, icon("plus"), h("span", {}, "Add area"));
    const adder = h("div", { class: "zl-thing-fields zl-adder", role: "group", "aria-label": "New area" }, ...fields.map((f) => f.el), button);
    const rows = (state, list, kept) => keepRows(list, kept, state.answer.areas.length, (i) => row(i, store), (one) => one.update(state));
    return thingsPart({ title: "Areas by their edges, from the left corner and above the floor", empty: "No area is drawn yet.", folded: "Areas as a table" }, rows, [adder]);
  }

  function hint(state) {
    if (state.held?.shape) return "Click or tap the next corner. Click the first corner again to close the shape.";
    if (state.held?.fresh) return "Click or tap the opposite corner.";
    if (state.mode === "adjust") return "Click an area to choose it. Drag it, or one of its handles. Or click to pick up, click to put down.";
    return state.mode === "shape" ? "Click or tap each corner of the shape." : "Drag over an area. Or click one corner, then the opposite one.";
  }

  const countWords = (task, answer) => (answer.areas.length ? `${count(answer.areas.length, "area")} ${answer.areas.length === 1 ? "is" : "are"} drawn.` : "No area is drawn yet.");
  const some = (state) => state.answer.areas.length > 0;
  const shapeMode = { words: "Shape", icon: "slant", show: (s) => slopes(s.task), pressed: (s) => s.mode === "shape", action: () => ({ type: "mode", mode: "shape" }) };
  const bar = thingBar("area", { draw: "Box", any: some, more: [shapeMode] });
  bar.changes.unshift({ words: "Close shape", icon: "plus", show: (s) => Boolean(s.held?.shape), action: () => ({ type: "close" }) });

  return {
    clean, actions, hit, draw, bar,
    lookedAt: H.lookedAt,
    parts: () => [tablePart],
    keys: { a: { type: "seek" }, c: { type: "corner" } },
    keyHelp: [
      ["Enter or Space", "begin an area, end it; in Adjust pick up and put down"], ["Page Up, Page Down", "previous or next area"],
      ["C", "pick up the next corner of the chosen area"], ["A", "go to a corner of the next accessory"], ["Backspace", "delete the chosen area, or the last"],
    ],
    words: {
      help: "Arrow keys move the cross. Enter begins an area, and Enter ends it at the opposite corner. Page Up and Page Down choose an area, C picks up its corners. Tab leaves the drawing.",
      describe: (task, answer, face) => [countWords(task, answer), ...answer.areas.map((_, id) => `Area ${letter(id)}: ${where({ task, answer, face }, id)}.`)].join(" "),
      count: countWords,
      readout: (state) => (state.held && !state.held.shape ? `${T.name(state, state.held.id)}: ${[where(state, state.held.id), ...lineWords(state).slice(0, 1)].join(", ")} (${sizeWords(state, state.held.id)})` : H.readout(state)),
      hint,
      modes: { draw: "Box: drag, or click two opposite corners.", shape: "Shape: click each corner, then the first one again.", adjust: "Adjust: choose an area, then move it or its edges." },
    },
  };
})();
