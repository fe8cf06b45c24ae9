/** The joist tool: holes and notches cut in a joist, seen from its side. A hole is named A1, A2, …, a notch B1, B2, … */
TOOLS.joist = (() => {
  const MOST = 40;
  const FIRST_HOLE = { diameter: 20 };
  const FIRST_NOTCH = { length: 40, depth: 15 };
  const SMALLEST = 0.1;
  const [LOW, CLEAR] = [24, 44]; // height of a joist that is too low to work on, and of one that is not (CSS pixels)

  const isHole = (id) => String(id).startsWith("A");
  const partOf = (id) => (isHole(id) ? "holes" : "notches");
  const indexOf = (id) => Number(String(id).slice(1)) - 1;
  const cutOf = (answer, id) => answer[partOf(id)][indexOf(id)];
  const high = (task) => tallest(task.wall);
  const noun = (id) => (isHole(id) ? "Hole" : "Notch");

  const positive = (v, fallback) => (isNumber(v) && v > 0 ? v : fallback);
  const covering = (task, name) => (typeof name === "string" ? name : "none");

  function clean(task, raw) {
    const of = (list) => (Array.isArray(list) ? list : []).filter((one) => one && isNumber(one.x)).slice(0, MOST);
    const holes = of(raw?.holes).map((one) => ({ x: one.x, y: isNumber(one.y) ? one.y : high(task) / 2, diameter: positive(one.diameter, FIRST_HOLE.diameter), protection: covering(task, one.protection) }));
    const notches = of(raw?.notches).map((one) => ({
      x: one.x, length: positive(one.length, FIRST_NOTCH.length), depth: positive(one.depth, FIRST_NOTCH.depth),
      edge: one.edge === "bottom" ? "bottom" : "top", protection: covering(task, one.protection),
    }));
    return { holes, notches };
  }

  const ids = (state) => [...state.answer.holes.map((_, i) => `A${i + 1}`), ...state.answer.notches.map((_, i) => `B${i + 1}`)];
  const name = (state, id) => `${noun(id)} ${id}`;
  const spotWords = (state, [x, y]) => `${mm(x)} from the left support, ${mm(y)} above the bottom`;

  function where(state, id) {
    const cut = cutOf(state.answer, id);
    const cover = cut.protection === "none" ? "" : `, ${coverWords(state.task, cut.protection)}`;
    if (isHole(id)) return `${spotWords(state, [cut.x, cut.y])}, ${mm(cut.diameter)} across${cover}`;
    return `${mm(cut.x)} from the left support, in the ${cut.edge} edge, ${mm(cut.length)} long, ${mm(cut.depth)} deep${cover}`;
  }

  const coverWords = (task, id) => task.protections?.find((p) => p.id === id)?.words ?? id;

  function anchor(state, id) {
    const cut = cutOf(state.answer, id);
    return isHole(id) ? [cut.x, cut.y] : [cut.x, cut.edge === "top" ? high(state.task) : 0];
  }

  const changedCut = (answer, id, more) => ({ ...answer, [partOf(id)]: answer[partOf(id)].with(indexOf(id), { ...cutOf(answer, id), ...more }) });
  const edgeAt = (task, y) => (y >= high(task) / 2 ? "top" : "bottom");

  function carried({ task }, held, at) {
    return changedCut(held.before, held.id, isHole(held.id) ? { x: at[0], y: at[1] } : { x: at[0], edge: edgeAt(task, at[1]) });
  }

  const lines = ({ task }) => [
    { axis: "y", value: high(task) / 2, words: "on the centre line" },
    ...(task.there ?? []).map((one) => ({ axis: "x", value: one.x, words: `in line with ${one.id}` })),
  ];

  function added(state, part, cut) {
    if (state.answer[part].length >= MOST) return say(state, `There can be at most ${MOST} of them.`);
    const answer = { ...state.answer, [part]: [...state.answer[part], cut] };
    const id = `${part === "holes" ? "A" : "B"}${answer[part].length}`;
    return { ...commit(state, answer, `${name(state, id)} placed: ${where({ ...state, answer }, id)}.`), selected: id, target: null };
  }

  function put(state, at) {
    if (state.mode === "adjust") return say({ ...state, selected: null }, "There is no cut here. Choose Hole or Notch to make one.");
    if (state.mode === "notch") {
      const { length, depth } = state.answer.notches.at(-1) ?? FIRST_NOTCH;
      return added(state, "notches", { x: at[0], length, depth, edge: edgeAt(state.task, at[1]), protection: "none" });
    }
    const { diameter } = state.answer.holes.at(-1) ?? FIRST_HOLE;
    return added(state, "holes", { x: at[0], y: at[1], diameter, protection: "none" });
  }

  const T = {
    ids, name, where, anchor, carried, lines, put,
    middle: anchor,
    nextGrip: () => [0, 0],
    without: (state, id) => ({ ...state.answer, [partOf(id)]: state.answer[partOf(id)].toSpliced(indexOf(id), 1) }),
    spot: (state, at) => (state.mode === "notch" ? `${mm(at[0])} from the left support, in the ${edgeAt(state.task, at[1])} edge` : spotWords(state, at)),
  };
  const { A, H } = thingActions(T);

  const actions = {
    ...A,
    tap(state, { hit, at, reach, fine, again }) {
      if (hit.kind === "empty") return A.put(state, { at, reach, fine });
      return again ? state : A.pick(state, { id: hit.id, at });
    },
    grab: (state, { hit, at }) => (hit.kind === "empty" ? state : A.pick(state, { id: hit.id, at })),
    /** A number, edge or covering of one cut. */
    setCut(state, { id, more }) {
      const from = H.calm(state);
      if (!ids(from).includes(id)) return from;
      const answer = changedCut(from.answer, id, more);
      if (JSON.stringify(answer) === JSON.stringify(from.answer)) return from;
      return { ...commit(from, answer, `${name(from, id)}: ${where({ ...from, answer }, id)}.`), selected: id };
    },
    addCut: (state, { part, cut }) => added(H.calm(state), part, cut),
  };

  function boxOf(task, notch) {
    const low = notch.edge === "top" ? high(task) - notch.depth : 0;
    return { x0: notch.x - notch.length / 2, x1: notch.x + notch.length / 2, y0: low, y1: low + notch.depth };
  }

  function hit(state, at, { point }) {
    const far = (id) => {
      const cut = cutOf(state.answer, id);
      if (isHole(id)) return Math.max(distance([cut.x, cut.y], at) - cut.diameter / 2, 0);
      return within(boxOf(state.task, cut), at) ? 0 : distance([clamp(at[0], boxOf(state.task, cut).x0, boxOf(state.task, cut).x1), anchor(state, id)[1]], at);
    };
    const near = ids(state).map((id) => ({ kind: "point", id, far: far(id) })).filter((one) => one.far <= point);
    return near.sort((a, b) => a.far - b.far)[0] ?? { kind: "empty" };
  }

  const styleOf = (state, id) => `zl-cut${id === state.selected ? " zl-selected" : ""}${state.held?.id === id ? " zl-held" : ""}`;

  /** A plate is a bar on the edge it guards; a covered hole has one on both. */
  function plate(task, id, cut, { scale, at }) {
    if (cut.protection === "none") return [];
    const half = (isHole(id) ? cut.diameter : cut.length) / 2 + 6 * scale;
    const tops = isHole(id) || cut.edge === "top" ? [high(task)] : [];
    const bottoms = isHole(id) || cut.edge === "bottom" ? [0] : [];
    return [...tops, ...bottoms].map((y) => {
      const [x, py] = at([cut.x, y]);
      const line = py + (y ? -3 : 3) * scale;
      return svg("path", { d: pathOf([[x - half, line], [x + half, line]]), class: "zl-plate" });
    });
  }

  /** Names stand below the joist, in rows, so that near ones do not meet. */
  function nameOf(state, id, row, pen) {
    const [x] = pen.at(anchor(state, id));
    const [, bottom] = pen.at([0, 0]);
    const y = bottom + (17 + 17 * row) * pen.scale;
    return [svg("path", { d: pathOf([[x, y - 12 * pen.scale], pen.at(anchor(state, id))]), class: "zl-guide" }), label(id, x, y, 15, pen.scale, "zl-letter", "middle")];
  }

  function cutDrawn(state, id, pen) {
    const cut = cutOf(state.answer, id);
    if (!isHole(id)) return [boxDrawn(boxOf(state.task, cut), pen.at, styleOf(state, id)), ...plate(state.task, id, cut, pen)];
    const [x, y] = pen.at([cut.x, cut.y]);
    return [svg("circle", { cx: x, cy: y, r: Math.max(cut.diameter / 2, 2.5 * pen.scale), class: styleOf(state, id) }), ...plate(state.task, id, cut, pen)];
  }

  /** Rows of names: by place from the left, the next row where the last name is too near. */
  function rowsOfNames(state, scale) {
    const ends = [];
    const byPlace = [...ids(state)].sort((a, b) => cutOf(state.answer, a).x - cutOf(state.answer, b).x);
    return new Map(byPlace.map((id) => {
      const { x } = cutOf(state.answer, id);
      const free = ends.findIndex((end) => x - end > 30 * scale);
      const row = free < 0 ? ends.length : free;
      ends[row] = x;
      return [id, row % 3];
    }));
  }

  function chosenRing(state, { scale, at }) {
    const id = H.chosen(state);
    if (id === null) return [];
    const [x, y] = at(anchor(state, id));
    return [svg("circle", { cx: x, cy: y, r: 12 * scale, class: "zl-ring" })];
  }

  function draw(state, scale) {
    const pen = penOf(state, scale);
    const rows = rowsOfNames(state, scale);
    const spot = state.target && !state.held ? [state.mode === "notch" ? [state.target.at[0], edgeAt(state.task, state.target.at[1]) === "top" ? high(state.task) : 0] : state.target.at] : [];
    const ghost = spot.map(pen.at).map(([x, y]) => svg("circle", { cx: x, cy: y, r: 6 * scale, class: "zl-ghost" }));
    const names = ids(state).flatMap((id) => nameOf(state, id, rows.get(id), pen));
    return [...names, ...ids(state).flatMap((id) => cutDrawn(state, id, pen)), ...chosenRing(state, pen), ...stretches(pen, [0, -44]), ...ghost, ...cross(pen)];
  }

  const options = (task) => (task.protections ?? []).map((p) => [p.id, p.words]);

  const HOLE_FIELDS = [["x", "from the left support (mm)"], ["y", "above the bottom (mm)"], ["diameter", "diameter (mm)"]];
  const NOTCH_FIELDS = [["x", "middle, from the left support (mm)"], ["length", "length (mm)"], ["depth", "depth (mm)"]];
  const fieldsOf = (part) => (part === "holes" ? HOLE_FIELDS : NOTCH_FIELDS);
  const limitsOf = (task, key) => ({ x: [0, task.wall.length], y: [0, high(task)] }[key] ?? [SMALLEST, key === "length" ? task.wall.length : high(task)]);

  function numbers(part, title, store, onvalue) {
    return fieldsOf(part).map(([key, words], i) => {
      const [low, most] = limitsOf(store.state.task, key);
      return thingField(title, words, store, { low, high: most, onvalue: (v) => onvalue(key, v, i) });
    });
  }

  function row(id, store) {
    const title = () => `${noun(id)} ${id}`;
    const send = (key, value) => store.dispatch({ type: "setCut", id, more: { [key]: value } });
    const edge = isHole(id) ? [] : [["edge", thingSelect(title(), "edge", [["top", "Top"], ["bottom", "Bottom"]], (v) => send("edge", v))]];
    const cover = options(store.state.task).length > 1 ? [["protection", thingSelect(title(), "covering", options(store.state.task), (v) => send("protection", v))]] : [];
    const keyed = [...fieldsOf(partOf(id)).map(([key]) => key).map((key, i) => [key, i]), ...edge, ...cover];
    const plain = numbers(partOf(id), title, store, send);
    const fields = [...plain, ...[...edge, ...cover].map(([, field]) => field)];
    const made = thingRow(title, fields, { words: "Delete", action: () => store.dispatch({ type: "remove", id }) });
    const update = (state) => {
      const cut = cutOf(state.answer, id);
      const values = keyed.map(([key]) => (isNumber(cut[key]) ? tenth(cut[key]) : cut[key]));
      made.update({ label: title(), values, chosen: id === state.selected });
    };
    return { el: made.el, update };
  }

  function adder(part, store) {
    const [word, first] = part === "holes" ? ["hole", FIRST_HOLE] : ["notch", FIRST_NOTCH];
    const fields = numbers(part, () => `New ${word}`, store, (_, v, i) => settle(fields[i].field, v));
    const add = () => {
      const cut = Object.fromEntries(fieldsOf(part).map(([key], i) => [key, numberIn(fields[i].field)]));
      if (!Object.values(cut).every(isNumber)) return trouble(fields[0].field, `A new ${word} needs three numbers, in mm.`, store.complain);
      return store.dispatch({ type: "addCut", part, cut: { ...first, ...cut, ...(part === "notches" ? { edge: "top" } : {}), protection: "none" } });
    };
    const button = h("button", { type: "button", class: "zl-button", onclick: add }, icon("plus"), h("span", {}, `Add ${word}`));
    return h("div", { class: "zl-thing-fields zl-adder", role: "group", "aria-label": `New ${word}` }, ...fields.map((f) => f.el), button);
  }

  const asks = (task, part) => (task.asked?.[part] ?? 0) > 0;

  /** @returns {Part} all holes, or all notches, by their numbers */
  const partFor = (part, letterOf) => (store) => {
    const word = part === "holes" ? "Holes" : "Notches";
    const rows = (state, list, kept) => keepRows(list, kept, state.answer[part].length, (i) => row(`${letterOf}${i + 1}`, store), (one) => one.update(state));
    return thingsPart({ title: word, empty: `No ${part === "holes" ? "hole" : "notch"} is cut yet.` }, rows, [adder(part, store)]);
  };

  const countWords = (task, { holes, notches }) => {
    const words = [...(asks(task, "holes") || holes.length ? [count(holes.length, "hole")] : []), ...(asks(task, "notches") || notches.length ? [notches.length === 1 ? "1 notch" : `${notches.length || "no"} notches`] : [])];
    const text = words.join(" and ");
    return `${text.charAt(0).toUpperCase()}${text.slice(1)} ${holes.length + notches.length === 1 && words.length === 1 ? "is" : "are"} cut.`;
  };
  const some = (state) => ids(state).length > 0;

  const bar = (task) => ({
    modes: [
      { words: "Hole", icon: "draw", show: () => asks(task, "holes"), pressed: (s) => s.mode === "draw", action: () => ({ type: "mode", mode: "draw" }) },
      { words: "Notch", icon: "down", show: () => asks(task, "notches"), pressed: (s) => s.mode === "notch", action: () => ({ type: "mode", mode: "notch" }) },
      { words: "Adjust", icon: "adjust", pressed: (s) => s.mode === "adjust", action: () => ({ type: "mode", mode: "adjust" }) },
    ],
    changes: [
      { words: "Delete cut", short: "Delete", icon: "bin", enabled: some, action: () => ({ type: "remove" }) },
      { words: "Clear", icon: "clear", enabled: some, action: () => ({ type: "clear" }) },
    ],
  });

  function hint(state) {
    if (state.held) return "Click or tap where it is to go.";
    if (state.mode === "adjust") return "Click a cut to pick it up, click again to put it down. Or drag it.";
    return state.mode === "notch" ? "Click or tap the edge where a notch is to be. Set its size below." : "Click or tap where a hole is to be. Set its size below.";
  }

  return {
    clean, actions, hit, draw, bar,
    lookedAt: H.lookedAt,
    closeUp: (task) => ({ small: high(task) / LOW, legible: high(task) / CLEAR }),
    firstMode: (task) => (asks(task, "holes") ? "draw" : "notch"),
    parts: ({ state: { task, answer } }) => [
      ...(asks(task, "holes") || answer.holes.length ? [partFor("holes", "A")] : []),
      ...(asks(task, "notches") || answer.notches.length ? [partFor("notches", "B")] : []),
    ],
    keyHelp: [["Enter or Space", "make a cut; in Adjust pick up and put down"], ["Page Up, Page Down", "previous or next cut"], ["Backspace", "delete the chosen cut, or the last"]],
    words: {
      thing: "joist",
      help: "Arrow keys move the cross. Enter makes a hole or a notch there. In Adjust, Page Up and Page Down choose one, Enter picks it up. Tab leaves the drawing.",
      describe: (task, answer) => [countWords(task, answer), ...ids({ answer }).map((id) => `${noun(id)} ${id}: ${where({ task, answer }, id)}.`)].join(" "),
      count: countWords,
      readout: H.readout,
      hint,
      modes: { draw: "Hole: each click or Enter makes a hole.", notch: "Notch: each click or Enter makes a notch.", adjust: "Adjust: pick up a cut and put it down again." },
    },
  };
})();
