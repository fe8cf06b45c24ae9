/** The row below a room's drawing that goes from wall to wall. */
function wallsRow(store) {
  const words = h("span", { class: "zl-wall-on-show" });
  const step = (name, drawing, by) =>
    h("button", { type: "button", class: "zl-button", "aria-label": name, title: name, onclick: () => store.dispatch({ type: "wall", by }) }, icon(drawing));
  const el = h("div", { role: "group", "aria-label": "Walls of the room", class: "zl-walls" }, step("Previous wall", "left", -1), words, step("Next wall", "right", 1));
  const update = (state) => {
    const told = wallWords(state.task, shownWall(state));
    if (words.textContent !== told) words.textContent = told;
  };
  return { el, update };
}
