/** The fixings tool: things are hung, each with all its screws at once. */
TOOLS.fixings = (() => {
  const itemOf = (task, id) => task.items.find((one) => one.id === id);
  const boxOf = (task, id, [x, y]) => ({ x0: x, y0: y, x1: x + itemOf(task, id).width, y1: y + itemOf(task, id).height });

  function clean(task, raw) {
    const places = raw?.places ?? {};
    return { places: Object.fromEntries(task.items.filter((one) => isPlace(places[one.id])).map((one) => [one.id, [...places[one.id]]])) };
  }

  const ids = (state) => state.task.items.map((one) => one.id).filter((id) => state.answer.places[id]);
  /** What a click hangs: the chosen thing, or the first that does not hang yet. */
  const nextItem = (state) => [state.selected, ...state.task.items.map((one) => one.id)].find((id) => itemOf(state.task, id) && !state.answer.places[id]) ?? null;

  /** The left edge as one sees it on this face. */
  const leftSeen = (state, id, x) => (state.face === "rear" ? state.task.wall.length - x - itemOf(state.task, id).width : x);
  const placeOf = (state, id, at) => `left edge ${mm(leftSeen(state, id, at[0]))} from the left corner, lower edge ${mm(at[1])} above the floor`;
  const where = (state, id) => (state.answer.places[id] ? placeOf(state, id, state.answer.places[id]) : "not hung yet");

  const MOST_TOLD = 4;
  const listed = (words) => (words.length > 1 ? `${words.slice(0, -1).join(", ")} and ${words.at(-1)}` : words[0]);

  /** Where the fixings of a thing are, as one sees it: "fixings 460 and 940 from the left, 2,100 high". */
  function fixingWords(state, id, place) {
    const spots = itemOf(state.task, id).fixings.map((off) => plus(place, off)).map(([x, y]) => [seenX(state, x), y]).sort((a, b) => a[0] - b[0]);
    if (spots.length > MOST_TOLD) return count(spots.length, "fixing");
    const noun = spots.length > 1 ? "fixings" : "fixing";
    if (spots.every((spot) => same(spot[1], spots[0][1]))) return `${noun} ${listed(spots.map((spot) => mm(spot[0])))} from the left, ${mm(spots[0][1])} high`;
    return `${noun} ${listed(spots.map(([x, y]) => `${mm(x)} from the left and ${mm(y)} high`))}`;
  }

  /** What is said while one moves: the edges, the fixings, and what it is beside. */
  function readout(state) {
    const id = state.held?.id ?? (state.target || state.keys ? nextItem(state) : null);
    if (id === null) return H.readout(state);
    const place = state.held ? state.held.now : kept(state.task, state.target?.at ?? minus(state.cursor, middleOfItem(state.task, id)), { id });
    const words = `${id}: left edge ${mm(leftSeen(state, id, place[0]))}, lower edge ${mm(place[1])}; ${fixingWords(state, id, place)}`;
    return [words, ...lineWords(state)].join(", ");
  }

  const middleOfItem = (task, id) => [itemOf(task, id).width / 2, itemOf(task, id).height / 2];

  function kept(task, at, held) {
    const id = held?.id ?? null;
    const { width, height } = id ? itemOf(task, id) : { width: 0, height: 0 };
    return [clamp(at[0], 0, Math.max(task.wall.length - width, 0)), clamp(at[1], 0, Math.max(tallest(task.wall) - height, 0))];
  }

  /** Both edges of what is moved snap: beside openings and other things, level with other things, at the ends of the wall. */
  function lines(state) {
    const { task } = state;
    const id = state.held?.id ?? nextItem(state);
    if (id === null) return [];
    const { width, height } = itemOf(task, id);
    const boxes = [
      ...(task.openings ?? []).map((o) => [o.id, o.x, o.y, o.x + o.width, o.y + o.height]),
      ...ids(state).filter((other) => other !== id).map((other) => { const b = boxOf(task, other, state.answer.places[other]); return [other, b.x0, b.y0, b.x1, b.y1]; }),
    ];
    const ends = [["x", 0], ["x", task.wall.length - width]].map(([axis, value]) => ({ axis, value, words: "at the end of the wall" }));
    return [...ends, ...boxes.flatMap(([name, x0, y0, x1, y1]) => [
      { axis: "x", value: x0 - width, words: `beside ${name}` }, { axis: "x", value: x1, words: `beside ${name}` },
      { axis: "y", value: y0, words: `level with ${name}` }, { axis: "y", value: y1 - height, words: `level with ${name}` },
    ])];
  }

  function put(state, at) {
    const id = nextItem(state);
    if (id === null) return say(state, "All of them hang. Click one to pick it up.");
    const answer = { places: { ...state.answer.places, [id]: kept(state.task, at, { id }) } };
    return { ...commit(state, answer, `${id} hung: ${where({ ...state, answer }, id)}.`), selected: id, target: null };
  }

  const T = {
    ids, where, kept, lines, put,
    name: (state, id) => id,
    anchor: (state, id) => state.answer.places[id],
    middle: (state, id) => plus(state.answer.places[id], middleOfItem(state.task, id)),
    carried: (state, held, at) => ({ places: { ...held.before.places, [held.id]: at } }),
    nextGrip: (state) => (nextItem(state) === null ? [0, 0] : middleOfItem(state.task, nextItem(state))),
    without: (state, id) => ({ places: Object.fromEntries(Object.entries(state.answer.places).filter(([name]) => name !== id)) }),
    spot: (state, at) => (nextItem(state) === null ? placeWords(state, at) : `${nextItem(state)}: ${placeOf(state, nextItem(state), at)}`),
  };
  const { A, H } = thingActions(T);

  const actions = {
    ...A,
    tap(state, { hit, at, reach, fine, again }) {
      if (hit.kind === "empty") return A.put(state, { at, reach, fine });
      return again ? state : A.pick(state, { id: hit.id, at });
    },
    grab: (state, { hit, at }) => (hit.kind === "empty" ? state : A.pick(state, { id: hit.id, at })),
    /** Enter: put down; pick up the chosen thing; hang it where the cross is. */
    act(state) {
      if (state.held || !state.answer.places[state.selected]) return A.act({ ...state, mode: "draw" });
      return A.pick(A.enter(state), { id: state.selected, at: T.middle(state, state.selected) });
    },
    /** Page Up and Page Down go through all things, hung or not. */
    step(state, { by }) {
      if (state.held) return say(state, PUT_DOWN_FIRST);
      const all = state.task.items.map((one) => one.id);
      const here = all.indexOf(state.selected);
      const id = all[here < 0 ? (by > 0 ? 0 : all.length - 1) : clamp(here + by, 0, all.length - 1)];
      const cursor = state.answer.places[id] ? T.middle(state, id) : state.cursor;
      return say({ ...state, selected: id, cursor, target: null, keys: true }, `${id}, ${itemOf(state.task, id).words}: ${where(state, id)}`);
    },
    /** Typed places, as seen on this face. */
    setPlace(state, { id, at }) {
      const from = H.calm(state);
      if (!isPlace(at)) return say(from, "A place needs two numbers, in mm.");
      const fitted = kept(from.task, [leftSeen(from, id, at[0]), at[1]], { id });
      const answer = { places: { ...from.answer.places, [id]: fitted } };
      const note = same(leftSeen(from, id, fitted[0]), at[0]) && same(fitted[1], at[1]) ? "" : " It was brought back onto the wall.";
      return { ...commit(from, answer, `${id} hung: ${where({ ...from, answer }, id)}.${note}`), selected: id };
    },
  };

  function hit(state, at, { point }) {
    const near = (id) => within(boxOf(state.task, id, state.answer.places[id]), at, point / 2);
    const found = [...ids(state)].reverse().find(near);
    return found === undefined ? { kind: "empty" } : { kind: "point", id: found };
  }

  function screws(task, id, place, { scale, at }) {
    return itemOf(task, id).fixings.flatMap((off) => {
      const [x, y] = at(plus(place, off));
      const r = 5 * scale;
      const d = `M${x - r} ${y}H${x + r}M${x} ${y - r}V${y + r}`;
      return [svg("circle", { cx: x, cy: y, r: 7 * scale, class: "zl-screw" }), svg("path", { d, class: "zl-screw-cross" })];
    });
  }

  function hung(state, id, place, pen, style) {
    const box = boxOf(state.task, id, place);
    const [x, y] = pen.at([(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2]);
    const words = label(id, x, y + 6 * pen.scale, 16, pen.scale, "zl-letter", "middle");
    return [boxDrawn(box, pen.at, "zl-item-gap"), boxDrawn(box, pen.at, style), ...screws(state.task, id, place, pen), words];
  }

  function draw(state, scale) {
    const pen = penOf(state, scale);
    const style = (id) => `zl-item${id === state.selected ? " zl-selected" : ""}${state.held?.id === id ? " zl-held" : ""}`;
    const there = ids(state).flatMap((id) => hung(state, id, state.answer.places[id], pen, style(id)));
    const next = nextItem(state);
    const spot = state.target && !state.held && next !== null ? hung(state, next, kept(state.task, state.target.at, { id: next }), pen, "zl-item zl-next") : [];
    return [...there, ...spot, ...stretches(pen), ...cross(pen)];
  }

  const asked = ({ between }) => (between ? `, lower edge to be ${mm(between[0])} to ${mm(between[1])} high` : "");

  function row(item, store) {
    const { wall } = store.state.task;
    const title = () => item.id;
    const send = () => {
      const at = fields.map((f) => numberIn(f.field));
      if (at.every(isNumber)) store.dispatch({ type: "setPlace", id: item.id, at });
    };
    const typed = (i) => (v) => { settle(fields[i].field, v); send(); };
    const fields = [
      thingField(title, "left edge (mm)", store, { low: 0, high: wall.length, onvalue: typed(0) }),
      thingField(title, "lower edge (mm)", store, { low: 0, high: tallest(wall), onvalue: typed(1) }),
    ];
    const made = thingRow(title, fields, { words: "Take down", action: () => store.dispatch({ type: "remove", id: item.id }) });
    let seen;
    const update = (state) => {
      const place = state.answer.places[item.id];
      const key = JSON.stringify([place, state.face]);
      const values = place ? [leftSeen(state, item.id, place[0]), place[1]].map(tenth) : key === seen ? fields.map((f) => f.field.value) : ["", ""];
      seen = key;
      made.update({ label: item.id, note: `${item.words}, ${mm(item.width)} by ${mm(item.height)}${asked(item)}${place ? `; ${fixingWords(state, item.id, place)}` : ""}`, values, chosen: item.id === state.selected, gone: !place });
    };
    return { el: made.el, update };
  }

  /** @returns {Part} each thing with its place in numbers */
  function tablePart(store) {
    const { items } = store.state.task;
    const rows = (state, list, kept_) => keepRows(list, kept_, items.length, (i) => row(items[i], store), (one) => one.update(state));
    return thingsPart({ title: "Where each hangs, from the left corner and above the floor", empty: "" }, rows);
  }

  const left = (task, answer) => task.items.filter((one) => !answer.places[one.id]).length;
  const countWords = (task, answer) => `${task.items.length - left(task, answer)} of ${count(task.items.length, "thing")} ${task.items.length === 1 ? "hangs" : "hang"}.`;
  const some = (state) => ids(state).length > 0;

  const bar = (task) => ({
    modes: task.items.map(({ id, words }) => ({
      words: `${id} ${words}`, pressed: (s) => (s.selected ?? nextItem(s)) === id, action: () => ({ type: "select", id }),
    })),
    changes: [
      { words: "Take down", icon: "bin", enabled: some, action: () => ({ type: "remove" }) },
      { words: "Clear", icon: "clear", enabled: some, action: () => ({ type: "clear" }) },
    ],
  });

  function hint(state) {
    if (state.held) return "Click or tap where it is to hang.";
    const next = nextItem(state);
    return next === null ? "Click a thing to pick it up, click again to hang it. Or drag it." : `Click or tap where ${next} is to hang.`;
  }

  return {
    clean, actions, hit, draw, bar,
    lookedAt: H.lookedAt,
    parts: () => [tablePart],
    keyHelp: [["Enter or Space", "hang the chosen thing at the cross; pick it up, put it down"], ["Page Up, Page Down", "previous or next thing"], ["Backspace", "take down the chosen thing"]],
    words: {
      help: "Page Up and Page Down choose a thing. Arrow keys move the cross, or the thing in hand. Enter hangs it, picks it up, and puts it down. Tab leaves the drawing.",
      describe: (task, answer, face) => [countWords(task, answer), ...task.items.map((one) => `${one.id}: ${where({ task, answer, face }, one.id)}${answer.places[one.id] ? `; ${fixingWords({ task, face }, one.id, answer.places[one.id])}` : ""}.`)].join(" "),
      count: countWords,
      readout,
      hint,
    },
  };
})();
