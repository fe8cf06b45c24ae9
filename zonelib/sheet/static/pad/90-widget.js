const PATIENCE = 8000;

/** A store: one state, one reducer, some listeners. */
export function createStore(state) {
  const listeners = new Set();
  const store = {
    state,
    listen: (f) => listeners.add(f),
    complain: (text) => store.put(say({ ...store.state }, text)),
    dispatch: (action) => store.put(reduce(store.state, action)),
    put(next) {
      const before = store.state;
      store.state = next;
      if (next !== before) listeners.forEach((f) => f(next, before));
    },
  };
  return store;
}

/** The line that says whether the work is saved, and the alert for trouble. */
function savingLine(model) {
  const saved = h("p", { class: "zl-saved" });
  const problem = h("p", { class: "zl-problem", role: "alert", hidden: true });
  let timer = 0;
  const show = (text, late = false) => { saved.textContent = text; saved.classList.toggle("zl-late", late); };
  const settle = () => { if (model.get("saved")) { clearTimeout(timer); show(model.get("saved")); } };
  const trouble = () => { problem.textContent = model.get("problem") ?? ""; problem.hidden = !problem.textContent; };
  const wait = () => {
    if (model.get("saved") === undefined) return;
    clearTimeout(timer);
    show("Saving…");
    timer = setTimeout(() => show("Not saved yet. Your answer is still here.", true), PATIENCE);
  };
  return { saved, problem, settle, trouble, wait, stop: () => clearTimeout(timer) };
}

/** Sends each confirmed change once, and never what came from the model. */
function sendChanges(model, saving) {
  return (state, before) => {
    if (state.commits !== before.commits) {
      saving.wait();
      model.set("answer", structuredClone(state.answer));
    }
    if (state.focus !== before.focus && state.focus !== model.get("focus")) model.set("focus", state.focus);
    if (state.commits !== before.commits || state.focus !== before.focus) model.save_changes();
  };
}

/** Listens to the model; returns what undoes it. */
function followModel(model, handlers) {
  const pairs = Object.entries(handlers).map(([name, handler]) => [`change:${name}`, handler]);
  pairs.forEach(([name, handler]) => model.on(name, handler));
  return () => pairs.forEach(([name, handler]) => model.off(name, handler));
}

/** A long press is for the field under it: the host's own menu would take the focus away. */
const keepMenu = (event) => event.stopPropagation();

function assemble(store, saving, parts) {
  const { task } = store.state;
  const [voice, speech, bar, notice, result, folds, ...more] = parts;
  const [stage, views, ...own] = task.wall ? more : [null, null, ...more];
  const title = h("p", { class: "zl-title", id: freshId("title") }, task.title ?? "");
  const head = h("div", { class: "zl-head" }, title, saving.saved, speech.el);
  const below = h("div", { class: "zl-below" }, notice.el, views?.el ?? null);
  const rest = [result, ...own, folds, voice].map((p) => p.el);
  const keep = (event) => { if (event.key !== "Tab" && event.key !== "Escape") event.stopPropagation(); };
  const dress = { class: "zl-pad", role: "group", "aria-labelledby": title.id, "data-lm-suppress-shortcuts": "true", onkeydown: keep, oncontextmenu: keepMenu };
  return h("div", dress, head, saving.problem, bar.el, stage?.el ?? null, below, ...rest);
}

/** One view of one task: builds the page, follows the model until stopped. */
function openView(model, el) {
  const task = model.get("task");
  const store = createStore(initialState(task, model.get("answer")));
  const drawn = task.wall ? [stagePart, viewBarPart] : [];
  const saving = savingLine(model);
  const makers = [voicePart, speechPart, drawBarPart, noticePart, resultPart, foldsPart, ...drawn, ...toolOf(task).parts(store)];
  const parts = makers.map((make) => make(store));
  el.replaceChildren(assemble(store, saving, parts));
  parts.forEach((p) => p.update(store.state, null));
  store.listen((state, before) => {
    const due = onlyMoved(state, before) ? parts.filter((p) => p.follows) : parts;
    due.forEach((p) => p.update(state, before));
  });
  store.listen(sendChanges(model, saving));
  const unfollow = followModel(model, {
    answer: () => store.dispatch({ type: "load", answer: model.get("answer") }),
    result: () => store.dispatch({ type: "result", result: model.get("result") }),
    focus: () => { if (model.get("focus") !== store.state.focus) store.dispatch({ type: "focus", n: model.get("focus") ?? 0 }); },
    saved: saving.settle,
    problem: saving.trouble,
  });
  store.dispatch({ type: "result", result: model.get("result") });
  saving.settle();
  saving.trouble();
  return () => { unfollow(); saving.stop(); parts.forEach((p) => p.stop?.()); };
}

const MOVING = new Set(["cursor", "target", "said", "keys"]);
const onlyMoved = (state, before) => Object.keys(state).every((key) => MOVING.has(key) || state[key] === before[key]);

const ready = (task) => Boolean(task?.kind);

/** Shows the pad in `el`; a new task starts it afresh. Returns what takes it down. */
function render({ model, el }) {
  let close = () => {};
  const open = () => {
    close();
    close = () => {};
    if (ready(model.get("task"))) close = openView(model, el);
    else el.replaceChildren(h("p", { class: "zl-pad zl-quiet" }, "The exercise is not here yet. Run its cell again."));
  };
  const unfollow = followModel(model, { task: open });
  open();
  return () => { unfollow(); close(); el.replaceChildren(); };
}

export default { initialize() {}, render };
