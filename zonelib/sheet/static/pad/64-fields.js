/** A number field that reports a finite number within its limits once, when it is left or confirmed. */
function numberField(name, { low, high, onvalue, complain }) {
  const field = h("input", { type: "number", class: "zl-number", "aria-label": name, min: low, max: high, step: 5, inputmode: "decimal" });
  field.addEventListener("input", () => { field.dataset.typing = "yes"; });
  field.addEventListener("change", () => {
    const value = numberIn(field);
    delete field.dataset.typing;
    if (value >= low && value <= high) onvalue(value);
    else trouble(field, `${name}: this must be a number from ${mm(low)} to ${mm(high)}. It was left as it was.`, complain);
    field.value = field.dataset.settled;
  });
  return field;
}

const numberIn = (field) => (field.value.trim() === "" ? NaN : Number(field.value));

/** Shows the value of the state, unless someone is typing another. */
function settle(field, value) {
  field.dataset.settled = value;
  if (!field.dataset.typing) field.value = value;
}

const troubleLine = () => h("p", { class: "zl-trouble", hidden: true });

/** Words about a field, said and shown in the part where it stands. */
function trouble(field, text, complain) {
  const line = field.closest(".zl-part").querySelector(".zl-trouble");
  line.textContent = text;
  line.hidden = false;
  complain(text);
}

/** The right number of rows, each made once and then kept, so that focus is never lost. */
function keepRows(body, rows, many, make, update) {
  while (rows.length > many) rows.pop().el.remove();
  while (rows.length < many) {
    rows.push(make(rows.length));
    body.append(rows.at(-1).el);
  }
  rows.forEach(update);
}

const headRow = (...words) => h("thead", {}, h("tr", {}, ...words.map((w) => h("th", { scope: "col" }, w))));

function openBox(toggle, box) {
  box.hidden = !box.hidden;
  toggle.setAttribute("aria-expanded", String(!box.hidden));
}
