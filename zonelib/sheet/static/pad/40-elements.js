const SVG = "http://www.w3.org/2000/svg";

/** An element with attributes; `on…` functions become listeners, children are nodes or plain text. */
function h(tag, attributes = {}, ...children) {
  return dressed(document.createElement(tag), attributes, children);
}

const svg = (tag, attributes = {}, ...children) => dressed(document.createElementNS(SVG, tag), attributes, children);

function dressed(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (value !== null && value !== false) node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...children.filter((c) => c !== null));
  return node;
}

let serial = 0;
const freshId = (word) => `zl-${word}-${(serial += 1)}`;

const ICONS = {
  draw: "M3 17l1-4L14 3l3 3L7 16z", adjust: "M10 2v16M2 10h16M10 2l-2 3h4zM10 18l-2-3h4zM2 10l3-2v4zM18 10l-3-2v4z",
  undo: "M7 4L3 8l4 4M3 8h9a5 5 0 0 1 0 10H8", redo: "M13 4l4 4-4 4M17 8H8a5 5 0 0 0 0 10h4",
  insert: "M2 15h5M13 15h5M10 12v6M7 15h6M10 3v5M8 6l2 2 2-2", bin: "M4 6h12M8 6V3h4v3M6 6l1 11h6l1-11", clear: "M4 4l12 12M16 4L4 16",
  slant: "M3 17L17 3", plus: "M10 4v12M4 10h12", minus: "M4 10h12", fit: "M3 7V3h4M13 3h4v4M17 13v4h-4M7 17H3v-4",
  view: "M6 10V5a1.5 1.5 0 0 1 3 0v4V3.500a1.500 1.500 0 0 1 3 0V9V5a1.500 1.500 0 0 1 3 0v7a6 6 0 0 1-11 3l-2-4a1.500 1.500 0 0 1 2-1z",
  left: "M12 4l-6 6 6 6", right: "M8 4l6 6-6 6", up: "M4 12l6-6 6 6", down: "M4 8l6 6 6-6",
  table: "M3 4h14v12H3zM3 8h14M3 12h14M9 4v12", speak: "M3 8v4h3l4 4V4L6 8zM13 7a4 4 0 0 1 0 6M15 5a7 7 0 0 1 0 10",
};

const icon = (name) => svg("svg", { viewBox: "0 0 20 20", class: "zl-icon", "aria-hidden": "true", focusable: "false" }, svg("path", { d: ICONS[name] }));
