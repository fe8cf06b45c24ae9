const NEW_WORK = { "": "Not said yet", yes: "It would pass", no: "It would not pass" };
const SAID_OF = { clause: ["Clause", "clauses"], remedy: ["Remedy", "remedies"], why: ["Why it matters", "whys"] };

const chooser = (label, options, onchange) => {
  const select = h("select", { class: "zl-select", id: freshId("chooser"), onchange: (event) => onchange(event.target.value) }, ...options.map(([value, words]) => h("option", { value }, words)));
  return { select, el: h("div", { class: "zl-field zl-wide" }, h("label", { for: select.id }, label), select) };
};

/** @returns {Part} every marked stretch as a card: where it lies, and what is to be said of it */
function marksPart(store) {
  const rows = [];
  const list = h("div", { class: "zl-cards" });
  const none = h("p", { class: "zl-quiet" }, "Nothing is marked yet. Mark on the drawing, or by numbers below.");
  const adder = markAdder(store);
  const el = h("section", { class: "zl-part", "aria-label": "Marked stretches" }, none, list, troubleLine(), adder.el);
  const update = (state) => {
    el.querySelector(".zl-trouble").hidden = true;
    none.hidden = state.answer.stretches.length > 0;
    keepRows(list, rows, state.answer.stretches.length, (i) => markCard(i, store), (row, i) => row.update(state, i));
  };
  return { el, update };
}

/** Two numbers on a cable: where a stretch begins and ends. */
function markFields(name, store, onvalue) {
  const high = Math.ceil(Math.max(...store.state.task.cables.map((c) => lengthOf(c.points))));
  return ["from", "to"].map((part) => numberField(`${name}, ${part}, in mm along its cable`, { low: 0, high, onvalue: (v) => onvalue(part, v), complain: store.complain }));
}

function markCard(index, store) {
  const { task } = store.state;
  const name = `M${index + 1}`;
  const set = (change) => store.dispatch({ type: "change", index, change });
  const title = h("legend", {});
  const fields = markFields(name, store, (part, value) => set({ [part]: value }));
  const whole = h("input", { type: "checkbox", id: freshId("whole"), onchange: () => set({ whole: whole.checked }) });
  const ends = ["From (mm)", "To (mm)"].map((words, i) => h("label", { class: "zl-field" }, h("span", { "aria-hidden": "true" }, words), fields[i]));
  const said = Object.entries(SAID_OF).filter(([part]) => task.asks.includes(part)).map(([part, [label, among]]) => {
    const options = [["", "Not chosen yet"], ...task[among].map((o) => [o.id, o.words])];
    return { part, ...chooser(label, options, (value) => set({ [part]: value || null })) };
  });
  const drop = h("button", { type: "button", class: "zl-button", "aria-label": `Delete mark ${name}`, onclick: () => store.dispatch({ type: "remove", index }) }, icon("bin"));
  const where = h("div", { class: "zl-row" }, ...ends, h("span", { class: "zl-check" }, whole, h("label", { for: whole.id }, "The whole cable")), drop);
  const el = h("fieldset", { class: "zl-card" }, title, where, ...said.map((s) => s.el));
  const update = (state) => {
    const one = state.answer.stretches[index];
    const entire = one.from === null;
    title.textContent = `${name}: ${markWords(one)}`;
    whole.checked = entire;
    ends.forEach((e) => { e.hidden = entire; });
    [one.from, one.to].forEach((v, i) => settle(fields[i], v === null ? "" : Math.round(v * 10) / 10));
    said.forEach(({ part, select }) => { select.value = one[part] ?? ""; });
    el.classList.toggle("zl-chosen", index === state.selected);
  };
  return { el, update };
}

const markWords = ({ route, from, to }) => (from === null ? `${route} as a whole` : `${route} from ${mm(from)} to ${mm(to)}`);

/** Where along a cable its points lie, for those who do not measure on the drawing. */
const cornerWords = ({ id, points }) => `${id}: ${marksOf(points).map((mark, i) => `${letter(i)} at ${mm(mark)}`).join(", ")}.`;

/** Marks a stretch by numbers alone: the equal way without drawing. */
function markAdder(store) {
  const { cables } = store.state.task;
  const corners = h("p", { class: "zl-quiet", id: freshId("corners") }, cornerWords(cables[0]));
  const cable = chooser("Cable", cables.map((c) => [c.id, `${c.id}, ${mm(lengthOf(c.points))} long`]), (id) => { corners.textContent = cornerWords(cables.find((c) => c.id === id)); });
  const fields = markFields("New mark", store, (part, value) => settle(fields[part === "from" ? 0 : 1], value));
  fields.forEach((field) => field.setAttribute("aria-describedby", corners.id));
  const add = (whole) => {
    const [from, to] = fields.map(numberIn);
    if (whole) store.dispatch({ type: "mark", route: cable.select.value, from: null, to: null });
    else if (Number.isFinite(from) && Number.isFinite(to)) store.dispatch({ type: "mark", route: cable.select.value, from, to });
    else trouble(fields[0], "A mark needs two numbers, in mm: where it begins and where it ends.", store.complain);
  };
  const buttons = [["Mark this stretch", false], ["Mark the whole cable", true]].map(([words, whole]) => h("button", { type: "button", class: "zl-button", onclick: () => add(whole) }, icon("plus"), h("span", {}, words)));
  const ends = ["From (mm)", "To (mm)"].map((words, i) => h("label", { class: "zl-field" }, h("span", { "aria-hidden": "true" }, words), fields[i]));
  const el = h("fieldset", { class: "zl-card zl-adder" }, h("legend", {}, "Mark by numbers, from the first point of the cable"), h("div", { class: "zl-row" }, cable.el, ...ends), corners, h("div", { class: "zl-row" }, ...buttons));
  return { el };
}

/** @returns {Part} of each cable, whether it would pass as new work */
function newWorkPart(store) {
  const { cables, asks } = store.state.task;
  const rows = cables.map(({ id }) => ({ id, ...chooser(`Cable ${id}`, Object.entries(NEW_WORK), (value) => store.dispatch({ type: "newWork", route: id, value: { yes: true, no: false }[value] ?? null })) }));
  const el = h("fieldset", { class: "zl-part", hidden: !asks.includes("new-work") }, h("legend", {}, "Would it pass as new work?"), h("div", { class: "zl-cards" }, ...rows.map((r) => r.el)));
  const update = ({ answer }) => rows.forEach(({ id, select }) => { select.value = id in answer.passes ? (answer.passes[id] ? "yes" : "no") : ""; });
  return { el, update };
}
