import { button, h } from "./dom.js";
import { ask } from "./talk.js";

const form = document.getElementById("form");
const trouble = document.getElementById("trouble");
const code = document.getElementById("code");

function tell(words) {
  trouble.textContent = words;
  trouble.hidden = !words;
  code.setAttribute("aria-invalid", String(Boolean(words)));
  if (words) code.focus();
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  tell("");
  if (!code.value.trim()) return tell("Type the code on your slip first.");
  try {
    await ask("POST", "/api/sign-in", { code: code.value });
    location.assign("/sit");
  } catch (error) {
    tell(error.message);
  }
});
code.focus();

function begin(one) {
  return async () => {
    try {
      const found = await ask("POST", "/api/practice", { sitting: one.id });
      const words = h("p", {}, "Your code, if you want to go on later or elsewhere: ", h("b", {}, found.code));
      place.replaceChildren(h("section", { class: "card" }, h("h2", {}, one.title), words, h("a", { href: "/sit", class: "button main go" }, "Go to the exercises")));
      place.querySelector("a").focus();
    } catch (error) { tell(error.message); }
  };
}

const place = document.getElementById("practice");
ask("GET", "/api/practice").then(({ practices }) => {
  if (!practices.length) return;
  const buttons = practices.map((one) => button(one.title, begin(one)));
  place.replaceChildren(h("section", { class: "card" }, h("h2", {}, "Practise without a code"), h("p", {}, "You are told at once what is met. No marks are kept for your tutor."), h("p", { class: "row" }, ...buttons)));
}, () => {});
