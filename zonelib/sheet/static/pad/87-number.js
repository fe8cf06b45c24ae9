/** One number with its unit, written with a decimal point or comma. It is kept as it was written. */
TOOLS.number = (() => {
  const LONGEST = 40;
  const FORM = "Write a number such as 12.5 or 12,5.";
  const WRITTEN = /^[+-]?\d{1,9}(?:[.,]\d{1,9})?$/;
  const TWO_WAYS = /^[+-]?[1-9]\d{0,2},\d{3}$/;

  const isWritten = (value) => (typeof value === "string" && value.trim() !== "") || isNumber(value);
  const clean = (task, raw) => ({ value: isWritten(raw?.value) ? raw.value : null });
  const shown = ({ value }) => (value === null ? "" : String(value));

  /** What keeps a text from being taken as a number, or "". The marking reads it the same way. */
  function flaw({ unit, allowed: [low, high] }, { value }) {
    if (value === null) return "";
    const text = String(value).replace(/\s/g, "").replace("\u2212", "-").replace(new RegExp(`${unit}$`), "");
    if (!WRITTEN.test(text)) return `This is not a number yet. ${FORM}`;
    const readings = TWO_WAYS.test(text) ? [text.replace(",", "."), text.replace(",", "")] : [text.replace(",", ".")];
    const within = readings.map(Number).filter((n) => n >= low && n <= high);
    if (within.length > 1) return `This can be read as ${within[0]} or as ${within[1]}. Write one of the two.`;
    return within.length ? "" : `This is not possible here. Write a number from ${low} to ${high}.`;
  }

  const words = (task, answer) => (answer.value === null ? "No number is written yet." : `Your number: ${shown(answer)} ${task.unit}.`.replace(`${task.unit} ${task.unit}`, task.unit));

  const actions = {
    write(state, { text }) {
      const value = text.trim().slice(0, LONGEST) || null;
      if (value === state.answer.value || (value !== null && value === shown(state.answer))) return state;
      const answer = { value };
      return commit(state, answer, flaw(state.task, answer) || words(state.task, answer));
    },
  };

  /** @returns {Part} the field; what is amiss is told below it, and what was written stays */
  function fieldPart(store) {
    const { unit, allowed } = store.state.task;
    const help = h("p", { class: "zl-quiet", id: freshId("help") }, `From ${allowed[0]} to ${allowed[1]} ${unit}. ${FORM}`);
    const amiss = h("p", { class: "zl-trouble", id: freshId("amiss"), hidden: true });
    const onchange = () => { delete field.dataset.typing; store.dispatch({ type: "write", text: field.value }); };
    const oninput = () => { field.dataset.typing = "yes"; };
    const dress = { type: "text", class: "zl-number zl-written", id: freshId("number"), inputmode: "decimal", autocomplete: "off", maxlength: LONGEST, onchange, oninput };
    const field = h("input", dress);
    const row = h("div", { class: "zl-row" }, h("label", { for: field.id }, `Your number in ${unit}`), field, h("span", { "aria-hidden": "true" }, unit));
    const el = h("div", { class: "zl-part", role: "group", "aria-label": "Your answer" }, row, help, amiss);
    const update = (state) => {
      const trouble = flaw(state.task, state.answer);
      settle(field, shown(state.answer));
      amiss.textContent = trouble;
      amiss.hidden = !trouble;
      field.setAttribute("aria-invalid", String(Boolean(trouble)));
      field.setAttribute("aria-describedby", trouble ? `${amiss.id} ${help.id}` : help.id);
    };
    return { el, update };
  }

  return {
    clean, actions, drawable: () => false, parts: () => [figuresPart, fieldPart],
    words: { describe: words, count: words, thing: "drawing" },
  };
})();
