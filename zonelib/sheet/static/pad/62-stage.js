/** @returns {Part} the picture, the overlay and what is read out while one moves */
function stagePart(store) {
  const tool = toolOf(store.state.task);
  const walls = store.state.task.walls ? wallsRow(store) : null;
  const help = h("p", { id: freshId("help"), class: "zl-unseen" }, [tool.words.help ?? "", walls ? "N and P go from wall to wall." : ""].join(" "));
  const words = h("p", { id: freshId("words"), class: "zl-unseen" });
  const picture = h("div", { class: "zl-hung", "aria-hidden": "true" });
  const overlay = svg("svg", { class: "zl-overlay", "aria-hidden": "true", focusable: "false" });
  const surface = h("div", { class: "zl-surface", tabindex: "0", role: "application", "data-of": thing(store.state), "aria-label": `Drawing of the ${thing(store.state)}`, "aria-describedby": `${help.id} ${words.id}` }, picture, overlay);
  const read = h("p", { class: "zl-readout" });
  const el = h("div", { class: "zl-stage" }, read, surface, walls?.el ?? null, help, words);
  const pointer = new Pointer(surface, overlay, store);
  const draw = () => overlay.replaceChildren(...tool.draw(store.state, pointer.scale));
  const size = new ResizeObserver(() => { measure(store, surface); firstLook(store, pointer.scale, surface); draw(); });
  size.observe(surface);
  listenForKeys(surface, store);
  const update = (state, before) => {
    if (before?.face !== state.face) hangPicture(picture, surface, state);
    if (before?.view !== state.view || before.face !== state.face) look([overlay, picture.querySelector("svg")], state.view);
    draw();
    if (before?.answer !== state.answer || before.face !== state.face) words.textContent = inWords(state);
    read.textContent = tool.words.readout?.(state) || hint(state);
    walls?.update(state);
  };
  return { el, update, follows: true, stop: () => { size.disconnect(); pointer.stop(); } };
}

function measure(store, { clientWidth, clientHeight }) {
  if (clientWidth && clientHeight) store.put({ ...store.state, shape: clientWidth / clientHeight });
}

const ROOM = { small: 15 };

/** What is long is small where the page is narrow; there the pad opens on the part where one begins (mm per CSS pixel). */
function firstLook(store, scale, surface) {
  const { task, base, view } = store.state;
  const near = task.walls ? ROOM : toolOf(task).closeUp?.(task);
  if (!near || surface.dataset.looked || scale >= view.w) return;
  surface.dataset.looked = "yes";
  if (scale <= near.small) return;
  if (task.walls) store.dispatch({ type: "wall", by: 0 });
  else store.put({ ...store.state, view: closer(base, view, scale / near.legible, toPicture(task, "front", [0, tallest(task.wall) / 2])) });
}

const closer = (base, view, factor, from) => reveal(base, zoomed(base, view, factor, from), from);

function look(drawings, { x, y, w, h: high }) {
  for (const drawing of drawings) drawing.setAttribute("viewBox", `${x} ${y} ${w} ${high}`);
}

const inWords = ({ task, answer, face }) => `${task.alt?.[face] ?? ""} ${toolOf(task).words.describe(task, answer, face)}`;

function hint(state) {
  const { hint: next, given } = toolOf(state.task).words;
  if (state.mode === "view") return drawable(state) ? VIEW_WORDS : given ?? "";
  return next?.(state) ?? "";
}

/** The picture from Python is ours and trusted; nothing a trainee wrote is in it. */
function hangPicture(place, surface, state) {
  const { task, face } = state;
  if (task.pictures?.[face]) place.innerHTML = task.pictures[face];
  else place.replaceChildren(outline(task, face));
  const drawing = place.querySelector("svg");
  drawing.removeAttribute("width");
  drawing.removeAttribute("height");
  drawing.setAttribute("preserveAspectRatio", "xMidYMid meet");
  surface.style.aspectRatio = `${state.base.w} / ${state.base.h}`;
}

function listenForKeys(surface, store) {
  surface.addEventListener("keydown", (event) => {
    const action = keyAction(event, store.state);
    if (!action) return;
    event.preventDefault();
    event.stopPropagation();
    store.dispatch(action);
  });
  surface.addEventListener("focus", () => { if (surface.matches(":focus-visible")) store.dispatch({ type: "enter" }); });
}
