// Small hands for the page: making elements, dialogs, saying something to a screen reader.
import { t } from "./strings.js";

// h("button", {class: "chief", onclick: f, "aria-label": "…"}, "words", child…); null and false children are left out
export function h(tag, given, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(given ?? {})) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "class") element.className = value;
    else if (["value", "checked", "disabled", "textContent", "htmlFor", "hidden"].includes(name)) element[name] = value;
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

export const $ = (selector, within = document) => within.querySelector(selector);

let pending;
// Says words to who listens to the page. Given twice they are said twice, so the region is emptied first.
export function say(words) {
  const region = document.getElementById("said");
  clearTimeout(pending);
  region.textContent = "";
  pending = setTimeout(() => (region.textContent = words.replaceAll("`", "")), 60);
}

// A dialog with a heading; closing it takes it away. content(close) gives its children. Returns the dialog, its `closed` a promise of the value given to close.
export function dialog(heading, content, kind = "") {
  const id = `dialog-${Math.random().toString(36).slice(2, 8)}`;
  const box = h("dialog", { class: kind, "aria-labelledby": id });
  let given;
  const close = (value) => {
    given = value;
    box.close();
  };
  box.append(h("div", { class: "inside" }, h("h2", { id }, heading), ...[content(close)].flat()));
  document.body.append(box);
  box.closed = new Promise((done) =>
    box.addEventListener("close", () => {
      box.remove();
      done(given);
    }),
  );
  box.showModal();
  return box;
}

// Asks for one line of words; null where she thinks better of it.
export function askWords(heading, label, value, act) {
  const box = dialog(heading, (close) => {
    const input = h("input", { id: "asked", value, required: true, maxlength: 120, autocomplete: "off" });
    return h(
      "form",
      { method: "dialog", onsubmit: (event) => (event.preventDefault(), close(input.value.trim() || null)) },
      h("div", { class: "field" }, h("label", { for: "asked" }, label), input),
      h("div", { class: "acts" }, h("button", { class: "chief" }, act), h("button", { type: "button", onclick: () => close(null) }, t("leave-it"))),
    );
  });
  const input = $("input", box);
  input.select();
  return box.closed.then((given) => given ?? null);
}

export function told(words, gentle = false) {
  return h("div", { class: gentle ? "told gentle" : "told", role: "alert" }, h("p", null, words));
}

// Menus close when she goes elsewhere or presses Escape.
export function keepMenus() {
  const open = () => document.querySelectorAll("details.menu[open]");
  addEventListener("click", (event) => open().forEach((menu) => menu.contains(event.target) || menu.removeAttribute("open")));
  addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    for (const menu of open()) {
      menu.removeAttribute("open");
      $("summary", menu).focus();
    }
  });
  addEventListener("focusin", (event) => open().forEach((menu) => menu.contains(event.target) || menu.removeAttribute("open")));
}

// An element of an SVG that the server made. It is parsed as a document of its own, so nothing in it runs.
export function svgOf(text) {
  const made = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  if (made.localName !== "svg") return null;
  made.querySelectorAll("script, foreignObject").forEach((one) => one.remove());
  return document.importNode(made, true);
}
