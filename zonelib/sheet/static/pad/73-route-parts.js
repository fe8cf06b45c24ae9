const LEG_HEADS = { depth: "Depth (mm)", protection: "Covering", via: "Way" };

/** @returns {Part} depth and protection of each leg, where the exercise opens them */
function legsPart(store) {
  const parts = PER_LEG.filter((p) => isOpen(store.state.task, p));
  const body = h("tbody");
  const rows = [];
  const table = h("table", { class: "zl-table zl-legs" }, h("caption", {}, "Each leg of the route"), headRow("Leg", ...parts.map((p) => LEG_HEADS[p])), body);
  const none = h("p", { class: "zl-quiet" }, "The legs are listed here once the route has two points.");
  const el = h("section", { class: "zl-part", hidden: parts.length === 0 }, table, troubleLine(), none);
  const update = (state) => {
    el.querySelector(".zl-trouble").hidden = true;
    table.hidden = !state.answer.depth.length;
    none.hidden = !table.hidden;
    keepRows(body, rows, state.answer.depth.length, (i) => legRow(i, parts, store), (row, i) => row.update(state, i));
  };
  return { el, update };
}

function legRow(leg, parts, store) {
  const name = h("th", { scope: "row" });
  const fields = parts.map((part) => ({ depth: depthField, protection: protectionField, via: viaField })[part](leg, store));
  const el = h("tr", {}, name, ...fields.map((f, i) => h("td", { "data-head": LEG_HEADS[parts[i]] }, f)));
  const update = (state) => {
    name.replaceChildren(h("b", {}, `${leg + 1}`), ` ${describeLeg(state.answer, leg)}`);
    fields.forEach((f, i) => settle(f, state.answer[parts[i]][leg]));
  };
  return { el, update };
}

function depthField(leg, store) {
  const send = (value) => store.dispatch({ type: "setLeg", leg, part: "depth", value });
  const [low, high] = store.state.task.depths ?? [0, store.state.task.wall.thickness];
  return numberField(`Depth of leg ${leg + 1} in mm`, { low, high, onvalue: send, complain: store.complain });
}

function protectionField(leg, store) {
  const options = store.state.task.protections ?? [];
  const all = options.some((p) => p.id === "none") ? options : [{ id: "none", words: "None" }, ...options];
  const onchange = (event) => store.dispatch({ type: "setLeg", leg, part: "protection", value: event.target.value });
  return h("select", { class: "zl-select", "aria-label": `Covering of leg ${leg + 1}`, onchange }, ...all.map((p) => h("option", { value: p.id }, p.words)));
}

function viaField(leg, store) {
  const onchange = (event) => store.dispatch({ type: "setLeg", leg, part: "via", value: event.target.value });
  return h("select", { class: "zl-select", "aria-label": `Way of leg ${leg + 1}`, onchange }, ...Object.entries(VIAS).map(([value, words]) => h("option", { value }, words)));
}

/** @returns {Part} the RCD, where the exercise opens it */
function rcdPart(store) {
  const read = () => (rating.value === "none" ? null : { ma: Number(rating.value), at: place.value, delayed: delayed.checked });
  const onchange = () => store.dispatch({ type: "setRcd", rcd: read() });
  const rating = h("select", { class: "zl-select", id: freshId("rcd"), onchange }, h("option", { value: "none" }, "No RCD"), ...RCD_RATINGS.map((ma) => h("option", { value: ma }, `${ma} mA`)));
  const place = h("select", { class: "zl-select", id: freshId("rcd"), onchange }, ...Object.entries(RCD_PLACES).map(([value, words]) => h("option", { value }, words)));
  const delayed = h("input", { type: "checkbox", id: freshId("rcd"), onchange });
  const more = h("div", { class: "zl-row" }, h("label", { for: place.id }, "Where it sits"), place, h("span", { class: "zl-check" }, delayed, h("label", { for: delayed.id }, "Time-delayed")));
  const line = h("div", { class: "zl-row" }, h("label", { for: rating.id }, "Rating"), rating);
  const el = h("fieldset", { class: "zl-part", hidden: !isOpen(store.state.task, "rcd") }, h("legend", {}, "RCD for this circuit"), line, more);
  const update = ({ answer: { rcd } }) => {
    showRating(rating, rcd);
    more.hidden = !rcd;
    place.value = (rcd ?? OUR_RCD).at;
    delayed.checked = (rcd ?? OUR_RCD).delayed;
  };
  return { el, update };
}

/** A rating from outside the short list is still shown as it is. */
function showRating(rating, rcd) {
  const value = rcd ? String(rcd.ma) : "none";
  if (![...rating.options].some((o) => o.value === value)) rating.append(h("option", { value }, `${value} mA`));
  rating.value = value;
}

/** @returns {Part} the points as a table: the equal way without drawing */
function pointsPart(store) {
  const body = h("tbody");
  const rows = [];
  const table = h("table", { class: "zl-table" }, h("caption", {}, "Points of the route, as seen from the front"), headRow("Point", "From the left (mm)", "Above the floor (mm)", "Delete"), body);
  const adder = pointAdder(store);
  const box = h("div", { id: freshId("points"), hidden: true }, table, troubleLine(), adder.el);
  const toggle = h("button", { type: "button", class: "zl-button", "aria-expanded": "false", "aria-controls": box.id, onclick: () => openBox(toggle, box) }, icon("table"), h("span", {}, "Points as a table"));
  const el = h("section", { class: "zl-part", hidden: !drawable(store.state) }, toggle, box);
  const update = (state) => {
    box.querySelector(".zl-trouble").hidden = true;
    table.hidden = !state.answer.points.length;
    keepRows(body, rows, state.answer.points.length, (i) => pointRow(i, store), (row) => row.update(state));
    adder.update(state);
  };
  return { el, update };
}

function placeFields(name, store, onvalue) {
  const { wall } = store.state.task;
  const limits = [[`${name}, from the left in mm`, wall.length], [`${name}, above the floor in mm`, tallest(wall)]];
  return limits.map(([words, high], axis) => numberField(words, { low: 0, high, onvalue: (v) => onvalue(axis, v), complain: store.complain }));
}

function pointRow(index, store) {
  const send = (axis, value) => store.dispatch({ type: "setPoint", index, at: store.state.answer.points[index].with(axis, value) });
  const fields = placeFields(`Point ${letter(index)}`, store, send);
  const drop = () => store.dispatch({ type: "remove", index });
  const button = h("button", { type: "button", class: "zl-button", "aria-label": `Delete point ${letter(index)}`, onclick: drop }, icon("bin"));
  const el = h("tr", {}, h("th", { scope: "row" }, letter(index)), ...fields.map((f) => h("td", {}, f)), h("td", {}, button));
  const update = (state) => {
    const fixed = index === fixedIndex(state.task);
    fields.forEach((f, axis) => { settle(f, Math.round(state.answer.points[index][axis] * 10) / 10); f.readOnly = fixed; });
    button.hidden = fixed;
  };
  return { el, update };
}

/** Fields for the next point; they start from the last one, so a straight leg needs one number. */
function pointAdder(store) {
  const fields = placeFields("New point", store, (axis, value) => settle(fields[axis], value));
  const add = () => {
    const at = fields.map(numberIn);
    if (isPlace(at)) store.dispatch({ type: "place", at, exact: true });
    else trouble(fields[0], "A new point needs two numbers, in mm.", store.complain);
  };
  const button = h("button", { type: "button", class: "zl-button", onclick: add }, icon("plus"), h("span", {}, "Add point"));
  const words = ["From the left", "Above the floor"].map((w, i) => h("label", { class: "zl-field" }, h("span", { "aria-hidden": "true" }, w), fields[i]));
  const el = h("div", { class: "zl-row zl-adder", role: "group", "aria-label": "Next point" }, ...words, button);
  let seen = null;
  const update = ({ answer }) => {
    if (answer.points.at(-1) === seen) return;
    seen = answer.points.at(-1);
    fields.forEach((f, axis) => settle(f, seen ? Math.round(seen[axis]) : ""));
  };
  return { el, update };
}
