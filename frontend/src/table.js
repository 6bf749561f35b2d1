// A table of plain values: numbers to the right, the first column as the heads of its rows.
import { h } from "./dom.js";

const NUMBER = /^(?:[\s\d.,–−+-]+(?:\s?[\p{L}"%€$£]{1,4})?)?$/u;

// head: [words]; rows: [[values]]; chosen: the column that is emphasised, chosenRow(at): whether a row is
export function tableOf({ caption, head, rows, chosen = -1, chosenRow = () => false }) {
  const numeric = head.map((_, at) => at > 0 && rows.length > 0 && rows.every((row) => NUMBER.test(String(row[at] ?? ""))));
  const cls = (at, row) => [numeric[at] ? "number" : "", at === chosen || row ? "chosen" : ""].filter(Boolean).join(" ") || undefined;
  return h(
    "div",
    { class: "wide", tabindex: 0, role: "region", "aria-label": caption },
    h(
      "table",
      null,
      h("caption", null, caption),
      h("thead", null, h("tr", null, head.map((words, at) => (words ? h("th", { scope: "col", class: cls(at) }, words) : h("td"))))),
      h("tbody", null, rows.map((row, line) => h("tr", null, row.map((value, at) => h(at ? "td" : "th", { scope: at ? undefined : "row", class: cls(at, chosenRow(line)) }, show(value)))))),
    ),
  );
}

const show = (value) => (value === null || value === undefined ? "–" : String(value));
