// One finding as she reads it: how grave, what, where, the sum, and the ways out, each to be taken with a click.
import { h } from "../dom.js";
import { t } from "../strings.js";

const KIND = { "must-mend": "mend", look: "look", note: "note" };
const SURE = { certain: "sure-certain", likely: "sure-likely", "your choice": "sure-choice" };

// apply(suggestion); show(): goes to its place (left out where the card stands at it); goTo(offset): to a further place. open: the sum is open from the start.
export function findingCard(one, { apply, show, goTo, open = true }) {
  const grade = KIND[one.grade] ?? "look";
  return h(
    "article",
    { class: `finding ${grade}` },
    h("p", { class: "message" }, h("span", { class: `state ${grade}` }, t(`grade-${grade}`)), " ", inWords(one.message)),
    show && one.line ? h("button", { type: "button", class: "plain where", onclick: show }, one.where || (one.row ? t("at-row", { row: one.row, line: one.line }) : t("at-line", { line: one.line }))) : null,
    one.table?.length ? (open ? sum(one.table) : h("details", null, h("summary", null, t("the-sum")), sum(one.table))) : null,
    one.echoes?.length ? h("p", { class: "soft small" }, t("for-the-same-reason", { rows: one.echoes.join(", ") })) : null,
    one.labels?.length && goTo ? h("ul", { class: "ways" }, one.labels.map((label) => h("li", null, h("button", { type: "button", class: "plain where", onclick: () => goTo(label.from) }, label.words)))) : null,
    one.suggestions.length ? h("ul", { class: "ways", "aria-label": t("ways-out") }, one.suggestions.map((way) => h("li", null, wayOut(way, apply)))) : null,
  );
}

// The sum as it could be redone on paper: the first row is the headings, the first column whom it is about.
function sum([head, ...rows]) {
  return h(
    "div",
    { class: "wide", tabindex: 0, role: "region", "aria-label": t("the-sum") },
    h("table", { class: "sum" }, h("thead", null, h("tr", null, head.map((words) => (words ? h("th", { scope: "col" }, words) : h("td"))))), h("tbody", null, rows.map((row) => h("tr", { class: row.at(-1) === "<-" ? "off" : undefined }, row.map((cell) => h("td", null, cell === "<-" ? t("here-it-differs") : cell)))))),
  );
}

function wayOut(way, apply) {
  const sure = h("span", { class: "sure" }, t(SURE[way.sure] ?? "sure-likely"));
  const can = way.insert !== null && way.insert !== undefined && way.from !== null && way.from !== undefined;
  if (!can) return [sure, " ", inWords(way.words)];
  return [h("button", { type: "button", class: "way", onclick: () => apply(way) }, sure, h("span", null, ...inWords(way.words)))];
}

// `words` between back quotes are words of hers
export function inWords(text) {
  return text.split("`").map((part, at) => (at % 2 ? h("q", { class: "hers" }, part) : part));
}
