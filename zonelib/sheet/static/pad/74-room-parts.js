/** @returns {Part} the points of a route round a room as a table: each on its wall, measured from that wall's left corner */
function roomPointsPart(store) {
  const body = h("tbody");
  const rows = [];
  const table = h("table", { class: "zl-table" }, h("caption", {}, "Points of the route, wall by wall"), headRow("Point", "Wall", "From its left corner (mm)", "Above the floor (mm)", "Delete"), body);
  const adder = roomAdder(store);
  const box = h("div", { id: freshId("points"), hidden: true }, h("div", { class: "zl-scroll", tabindex: "0", role: "group", "aria-label": "Table of points" }, table), troubleLine(), adder.el);
  const toggle = h("button", { type: "button", class: "zl-button", "aria-expanded": "false", "aria-controls": box.id, onclick: () => openBox(toggle, box) }, icon("table"), h("span", {}, "Points as a table"));
  const el = h("section", { class: "zl-part", hidden: !drawable(store.state) }, toggle, box);
  const update = (state) => {
    box.querySelector(".zl-trouble").hidden = true;
    table.hidden = !state.answer.points.length;
    keepRows(body, rows, state.answer.points.length, (i) => roomRow(i, store), (row) => row.update(state));
    adder.update(state);
  };
  return { el, update };
}

/** A wall to choose, and two numbers on it; `read` gives the place in the row, or null. */
function roomFields(name, store, onvalue) {
  const { walls, wall } = store.state.task;
  const longest = Math.max(...walls.map((w) => w.length));
  const select = h("select", { class: "zl-select", "aria-label": `${name}, wall`, onchange: () => onvalue() }, ...walls.map((w) => h("option", { value: w.id }, w.id)));
  const limits = [[`${name}, from the left corner of its wall in mm`, longest], [`${name}, above the floor in mm`, tallest(wall)]];
  const numbers = limits.map(([words, high], i) => numberField(words, { low: 0, high, onvalue: (v) => { settle(numbers[i], v); onvalue(); }, complain: store.complain }));
  const read = () => {
    const at = [walls.find((w) => w.id === select.value).start + numberIn(numbers[0]), numberIn(numbers[1])];
    return isPlace(at) ? at : null;
  };
  const show = (at) => {
    const { wall: on, along } = wallAt(store.state.task, at[0]);
    select.value = on.id;
    [along, at[1]].forEach((v, i) => settle(numbers[i], Math.round(v * 10) / 10));
  };
  return { all: [select, ...numbers], numbers, select, read, show };
}

function roomRow(index, store) {
  const send = () => { const at = fields.read(); if (at) store.dispatch({ type: "setPoint", index, at }); };
  const fields = roomFields(`Point ${letter(index)}`, store, send);
  const drop = () => store.dispatch({ type: "remove", index });
  const button = h("button", { type: "button", class: "zl-button", "aria-label": `Delete point ${letter(index)}`, onclick: drop }, icon("bin"));
  const el = h("tr", {}, h("th", { scope: "row" }, letter(index)), ...fields.all.map((f) => h("td", {}, f)), h("td", {}, button));
  const update = (state) => {
    const fixed = index === fixedIndex(state.task);
    fields.show(state.answer.points[index]);
    fields.numbers.forEach((f) => { f.readOnly = fixed; });
    fields.select.disabled = button.hidden = fixed;
  };
  return { el, update };
}

/** Fields for the next point; they start from the last one. */
function roomAdder(store) {
  const fields = roomFields("New point", store, () => {});
  const add = () => {
    const at = fields.read();
    if (at) store.dispatch({ type: "place", at, exact: true });
    else trouble(fields.numbers[0], "A new point needs two numbers, in mm.", store.complain);
  };
  const button = h("button", { type: "button", class: "zl-button", onclick: add }, icon("plus"), h("span", {}, "Add point"));
  const words = ["Wall", "From its left corner", "Above the floor"].map((w, i) => h("label", { class: "zl-field" }, h("span", { "aria-hidden": "true" }, w), fields.all[i]));
  const el = h("div", { class: "zl-row zl-adder", role: "group", "aria-label": "Next point" }, ...words, button);
  let seen = null;
  const update = ({ answer }) => {
    if (answer.points.at(-1) === seen) return;
    seen = answer.points.at(-1);
    if (seen) fields.show(seen);
  };
  return { el, update };
}
