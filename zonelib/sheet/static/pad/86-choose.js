/** Choices to tick: one, or several. */
TOOLS.choose = (() => {
  const one = (task) => task.pick === "one";
  const ticked = (n) => `${n ? n : "None"} ${n === 1 ? "is" : "are"} ticked.`;

  const clean = (task, raw) => {
    const wanted = Array.isArray(raw?.chosen) ? raw.chosen : [];
    const chosen = (task.options ?? []).map((option) => option.id).filter((id) => wanted.includes(id));
    return { chosen: one(task) ? chosen.slice(0, 1) : chosen };
  };

  const describe = (task, { chosen }) => {
    const words = task.options.map(({ id, words: text }) => `${chosen.includes(id) ? "Ticked" : "Not ticked"}: ${text}`);
    return `The choices: ${words.join(". ")}.`.replaceAll("..", ".");
  };

  const actions = {
    tick(state, { id, on }) {
      const before = state.answer.chosen;
      const wanted = on ? (one(state.task) ? [id] : [...before, id]) : before.filter((other) => other !== id);
      const answer = clean(state.task, { chosen: wanted });
      if (JSON.stringify(answer) === JSON.stringify(state.answer)) return state;
      return commit(state, answer, `${id} ${on ? "ticked" : "no longer ticked"}. ${ticked(answer.chosen.length)}`);
    },
  };

  /** @returns {Part} the choices, as one group of native boxes or buttons */
  function optionsPart(store) {
    const { task } = store.state;
    const name = freshId("choice");
    const rows = task.options.map((option) => optionRow(option, name, store));
    const legend = one(task) ? "Your choice: one of these" : "Your choice: tick every one that is right";
    const list = h("ul", { class: "zl-options", role: "list" }, ...rows.map((row) => row.el));
    const el = h("fieldset", { class: "zl-part" }, h("legend", {}, legend), list);
    return { el, update: (state) => rows.forEach((row) => row.update(state)) };
  }

  function optionRow({ id, words }, name, store) {
    const onchange = (event) => store.dispatch({ type: "tick", id, on: event.target.checked });
    const box = h("input", { type: one(store.state.task) ? "radio" : "checkbox", name, value: id, onchange });
    const found = h("span", { class: "zl-number-disc", hidden: true });
    const el = h("li", {}, h("label", { class: "zl-option" }, box, h("span", {}, words), found));
    const update = (state) => {
      box.checked = state.answer.chosen.includes(id);
      const numbers = foundOf(state, id);
      found.hidden = !numbers.length;
      found.replaceChildren(h("span", { class: "zl-unseen" }, "See message "), numbers.join(" "));
    };
    return { el, update };
  }

  /** Numbers of the messages that speak of a choice, while they hold. */
  const foundOf = ({ result, answer, resultFor }, id) => (result && answer === resultFor ? result.stretches.filter((s) => s.option === id).map((s) => s.n) : []);

  return {
    clean, actions, drawable: () => false, parts: () => [figuresPart, optionsPart],
    words: { describe, count: (task, { chosen }) => ticked(chosen.length), thing: "drawing" },
  };
})();
