/** Asks why before anything is done: every act stands in the log with its reason. */

import { announce, button, h } from "./dom.js";
import { ask } from "./talk.js";

const ACTS = {
  open: { head: "Open", why: ["Everyone is ready"] },
  close: { head: "Close for everyone", why: ["Time is over", "Everyone has finished"] },
  release: { head: "Release results", why: ["Marking is finished"] },
  add: { head: "Add time", minutes: 5, why: ["Technical trouble", "Agreed extra time", "Interruption in the room"] },
  pause: { head: "Pause the clock", why: ["Interruption in the room", "Technical trouble", "Rest break agreed"] },
  resume: { head: "Let the clock go on", why: ["The interruption is over"] },
  reopen: { head: "Let go on", minutes: 5, why: ["Handed in too early", "Technical trouble"] },
  end: { head: "Hand in for this candidate", why: ["The candidate has left"] },
  move: { head: "Move the seat to the other device", why: ["The candidate changed device; I have looked"] },
  refuse: { head: "Refuse the other device", why: ["It is not the candidate"] },
};
const SENT_AS = { end: "close" };

/** Opens the dialog; `done` is called once the server has done it. */
export function askFor(name, { sitting, seat, more = {}, done, failed }) {
  const about = ACTS[name];
  const whom = seat ? `: ${seat.candidate}` : ": all candidates";
  const timed = about.minutes && !(name === "reopen" && !seat);
  const minutes = timed ? h("input", { id: "minutes", type: "number", min: "0.1", max: "240", step: "0.1", value: String(more.minutes ?? about.minutes), inputmode: "decimal" }) : null;
  const list = h("datalist", { id: "reasons" }, ...about.why.map((words) => h("option", { value: words })));
  const reason = h("input", { id: "reason", type: "text", maxlength: "200", list: "reasons", value: about.why[0], autocomplete: "off" });
  const trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  const box = h("dialog", { "aria-labelledby": "act-head" });
  const close = () => { box.close(); box.remove(); };
  const send = async (event) => {
    event.preventDefault();
    const body = { act: SENT_AS[name] ?? name, seat: seat?.id ?? null, reason: reason.value, minutes: minutes ? Number(minutes.value) : 0 };
    try {
      await ask("POST", `/api/desk/${sitting.id}`, body);
      close();
      announce(`${about.head}${whom}: done.`);
      done();
    } catch (error) {
      trouble.textContent = error.message;
      trouble.hidden = false;
      if (error.status === 401) { close(); failed(error); }
    }
  };
  const fields = [minutes ? [h("label", { for: "minutes" }, "Minutes"), minutes] : [], h("label", { for: "reason" }, "Reason, for the log"), reason, list];
  box.append(h("form", { onsubmit: send }, h("h2", { id: "act-head" }, `${about.head}${whom}`), ...fields.flat(),
    trouble, h("p", { class: "row" }, h("button", { type: "submit", class: "button main" }, about.head), button("Leave it", close))));
  box.addEventListener("close", () => box.remove());
  document.body.append(box);
  box.showModal();
  (minutes ?? reason).focus();
}
