/** A pad to try: the same one, on a wall that does not count. Nothing of it is sent or kept. */

import { button, h, show } from "./dom.js";
import { Model } from "./model.js";
import pad from "./pad.js";
import { ask } from "./talk.js";

export async function openTryout(back) {
  const { task } = await ask("GET", "/api/try-out");
  const model = new Model({ task, answer: {}, result: null, focus: 0, problem: "" });
  const el = h("div", { class: "pad-place" });
  const close = pad.render({ model, el });
  const done = () => { close(); back(); };
  show(h("h1", {}, "Try the pad"), h("p", {}, "This does not count, and nothing of it is kept. Draw a cable from S1 to L1."), el,
    h("p", { class: "row" }, button("Done trying", done, { class: "button main" })));
}
