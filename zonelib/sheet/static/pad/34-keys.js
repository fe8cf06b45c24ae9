const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const PLAIN_KEYS = {
  Enter: { type: "act" }, " ": { type: "act" }, Backspace: { type: "remove" }, Delete: { type: "remove" },
  PageUp: { type: "step", by: -1 }, PageDown: { type: "step", by: 1 },
  "+": { type: "zoom", factor: ZOOM_STEP }, "=": { type: "zoom", factor: ZOOM_STEP }, "-": { type: "zoom", factor: 1 / ZOOM_STEP }, 0: { type: "fit" },
};
const ROOM_KEYS = { n: { type: "wall", by: 1 }, p: { type: "wall", by: -1 } };
const COMMAND_KEYS = { z: { type: "undo" }, y: { type: "redo" } };

/** The action of a key press on the drawing, or null where the key is not ours. */
export function keyAction(event, state) {
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  if (event.ctrlKey || event.metaKey) return (key === "z" && event.shiftKey ? COMMAND_KEYS.y : COMMAND_KEYS[key]) ?? null;
  if (key === "Escape") return state.held ? { type: "cancel" } : null;
  if (ARROWS[key]) return { type: "nudge", by: ARROWS[key].map((v) => v * keyStep(event, state.task.snap || 5) || 0) };
  return event.altKey ? null : PLAIN_KEYS[key] ?? (state.task.walls ? ROOM_KEYS[key] : null) ?? toolOf(state.task).keys?.[key] ?? null;
}

const keyStep = (event, grid) => (event.altKey ? 1 : event.shiftKey ? grid * 10 : grid);
