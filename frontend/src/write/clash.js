// Both versions, side by side, where a file was changed elsewhere in the same place; she chooses what stands. The other stays in the history.
import { dialog, h } from "../dom.js";
import { t } from "../strings.js";
import { hunks } from "./difference.js";

// -> "mine" | "theirs"
export async function askWhichStands({ theirs, yours }) {
  const box = dialog(
    t("clash-heading"),
    (close) => [
      h("p", null, t("clash-words")),
      sideBySide(yours, theirs, t("clash-mine"), t("clash-theirs")),
      h(
        "div",
        { class: "acts" },
        h("button", { type: "button", class: "chief", onclick: () => close("mine") }, t("clash-keep-mine")),
        h("button", { type: "button", onclick: () => close("theirs") }, t("clash-take-theirs")),
      ),
    ],
    "broad",
  );
  box.addEventListener("cancel", (event) => event.preventDefault());
  return (await box.closed) ?? "mine";
}

// Only what differs, with a line before and after each.
export function sideBySide(one, other, oneWords, otherWords) {
  const a = one.split("\n");
  const b = other.split("\n");
  const rows = hunks(a, b).map(({ a0, a1, b0, b1 }) =>
    h("tr", null, h("td", null, part(a, a0, a1)), h("td", null, part(b, b0, b1))),
  );
  return h("div", { class: "wide", tabindex: 0, role: "region", "aria-label": t("what-differs") }, h("table", { class: "side" }, h("thead", null, h("tr", null, h("th", { scope: "col" }, oneWords), h("th", { scope: "col" }, otherWords))), h("tbody", null, rows)));
}

function part(lines, from, to) {
  return h("div", { class: "lines" }, from > 0 ? h("p", { class: "soft" }, lines[from - 1]) : null, from === to ? h("p", null, h("em", null, t("nothing-there"))) : lines.slice(from, to).map((line) => h("p", { class: "differs" }, line || " ")), to < lines.length ? h("p", { class: "soft" }, lines[to]) : null);
}
