/** Share of its natural width below which a drawing is not made smaller, but scrolled: its words must stay readable. */
const LEAST_SHARE = 0.8;

/** @returns {Part} the question's drawings, to look at; a drawing wider than the page scrolls in its own frame */
function figuresPart(store) {
  const { figures = [], about = "" } = store.state.task;
  const el = h("section", { class: "zl-part", "aria-label": "Drawings", hidden: !figures.length }, ...figures.map(figure), h("p", { hidden: !about }, about));
  return { el, update() {} };
}

/** The drawing is ours and trusted; for those who hear it, its words stand for it. */
function figure({ svg: text, words }) {
  const picture = h("div", { role: "img", "aria-label": words });
  picture.innerHTML = text;
  const drawing = picture.querySelector("svg");
  const wide = Number(drawing.getAttribute("width")) || 600;
  for (const name of ["width", "height"]) drawing.removeAttribute(name);
  drawing.setAttribute("aria-hidden", "true");
  picture.style.maxWidth = `${wide}px`;
  picture.style.minWidth = `${Math.round(wide * LEAST_SHARE)}px`;
  const frame = h("div", { class: "zl-figure", tabindex: "0", role: "group", "aria-label": "Drawing. Arrow keys scroll it where it is wider than the page." }, picture);
  const more = h("p", { class: "zl-quiet zl-wider", hidden: true }, "There is more of the drawing to the right. Swipe or scroll it sideways.");
  new ResizeObserver(() => { more.hidden = frame.scrollWidth <= frame.clientWidth; }).observe(frame);
  return h("div", {}, frame, more);
}
