/** Small helpers for pages without a framework. */

/** Makes an element; attributes that are null or false are left out, those that begin with "on" are listeners. */
export function h(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (value !== null && value !== undefined && value !== false) node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...children.flat(2).filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

export const button = (words, act, more = {}) => h("button", { type: "button", class: "button", onclick: act, ...more }, words);

/** HTML that our own server made and escaped. */
export function trusted(html, attributes = {}) {
  const node = h("div", attributes);
  node.innerHTML = html;
  return node;
}

/** A time of the server as a clock on the wall. */
export const atTime = (seconds) => new Date(seconds * 1000).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });

/** Says something to those who listen to the page. */
export function announce(words) {
  const voice = document.getElementById("voice");
  if (voice) voice.textContent = voice.textContent === words ? `${words}\u00a0` : words;
}

/** Shows a view in the page's main part and puts the focus on its heading. */
export function show(...parts) {
  const main = document.getElementById("main");
  main.replaceChildren(...parts.flat().filter(Boolean));
  const head = main.querySelector("h1, h2");
  if (head) {
    head.tabIndex = -1;
    head.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }
}
