/**
 * The clock of a quiz, on the server's pages and in a notebook: it follows what server or kernel last said was left,
 * and never this device's date. One plain module without imports; as a widget it reads `pulse` and sets `ended`.
 */

/** Seconds as a clock: 1:05:09 or 5:09. */
export function asClock(seconds) {
  const whole = Math.max(0, Math.ceil(seconds));
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  const two = (n) => String(n).padStart(2, "0");
  return hours ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}

/** Seconds in words: "5 minutes", "40 seconds". */
export function inWords(seconds) {
  const many = (n, word) => `${n} ${word}${n === 1 ? "" : "s"}`;
  if (seconds < 90) return many(Math.max(0, Math.round(seconds)), "second");
  return seconds < 5400 ? many(Math.round(seconds / 60), "minute") : `${many(Math.floor(seconds / 3600), "hour")} ${many(Math.round((seconds % 3600) / 60), "minute")}`;
}

const TOLD = [600, 300, 60];

/** Counts down from what the server last said was left; `onEnd` is called once when nothing is. */
export function makeClock(el, { say, onEnd }) {
  let left = null, since = 0, standing = false, ended = false, told = Infinity;
  const now = () => (left === null ? null : standing ? left : left - (performance.now() - since) / 1000);
  const draw = () => {
    const rest = now();
    el.hidden = rest === null;
    if (rest === null) return;
    el.textContent = standing ? `Paused at ${asClock(rest)}` : `${asClock(rest)} left`;
    el.classList.toggle("late", rest < 60);
    const mark = TOLD.find((t) => rest <= t && told > t && rest > t - 5);
    if (mark && !standing) { told = mark; say(`${inWords(rest)} left.`); }
    if (rest <= 0 && !standing && !ended) { ended = true; onEnd(); }
  };
  const timer = setInterval(draw, 250);
  return {
    follow(pulse) {
      const before = now();
      left = pulse.started && !pulse.handed_in && pulse.state === "open" ? pulse.left : null;
      since = performance.now();
      standing = pulse.paused;
      if (left > 0) ended = false;
      if (before !== null && left !== null && left > before + 30) { told = Infinity; say(`You have more time: ${inWords(left)} left.`); }
      draw();
    },
    left: now,
    stop: () => clearInterval(timer),
  };
}

/** The widget: the same clock in a notebook. */
function render({ model, el }) {
  const face = document.createElement("p");
  const voice = document.createElement("div");
  face.className = "zl-clock";
  voice.className = "zl-clock-voice";
  voice.setAttribute("role", "status");
  el.replaceChildren(face, voice);
  const end = () => { model.set("ended", model.get("ended") + 1); model.save_changes(); };
  const clock = makeClock(face, { say: (words) => { voice.textContent = words; }, onEnd: end });
  const follow = () => { const pulse = model.get("pulse"); if (pulse?.state) clock.follow(pulse); };
  model.on("change:pulse", follow);
  follow();
  return () => { model.off("change:pulse", follow); clock.stop(); };
}

export default { render };
