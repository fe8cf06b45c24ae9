/** The clock on the page: it follows the server's, and never this device's date. */

import { asClock, inWords } from "./dom.js";

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
  setInterval(draw, 250);
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
  };
}
