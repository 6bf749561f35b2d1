// Yarn: by size and colour, metres, grams, whole balls and what they cost, and how sure it is.
import { get, of } from "../api.js";
import { h } from "../dom.js";
import { locale, t } from "../strings.js";
import { inWords } from "../write/finding_card.js";
import { tableOf } from "../table.js";

export function yarn(root, about) {
  let held = null;

  function show() {
    const { sizes = [], rows = [], words = [] } = held;
    const several = sizes.length > 1;
    const mine = several ? rows.filter((row) => row.size === about.size()) : rows;
    const has = (key) => rows.some((row) => row[key] !== null && row[key] !== undefined && row[key] !== "");
    const columns = [
      several && [t("size"), (row) => row.size],
      has("colour") && [t("colour"), (row) => row.colour],
      [t("yarn-metres"), (row) => range(row.metres)],
      has("grams") && [t("yarn-grams"), (row) => range(row.grams)],
      has("balls") && [t("yarn-balls"), (row) => row.balls],
      has("cost") && [t("yarn-cost"), (row) => (row.cost === null ? null : `${row.cost.toFixed(2)} ${row.coin ?? ""}`.trim())],
    ].filter(Boolean);
    root.replaceChildren(
      ...mine.map((row) => h("p", { class: "lead-number" }, t("yarn-of", { what: row.colour || t("yarn"), metres: whole(row.metres.estimate) }), row.balls ? `, ${t("balls", { number: row.balls })}` : "")),
      rows.length ? tableOf({ caption: t("yarn-table"), head: columns.map(([head]) => head), rows: rows.map((row) => columns.map(([, cell]) => cell(row))), chosenRow: several ? (at) => rows[at].size === about.size() : undefined }) : "",
      ...words.map((one) => h("p", { class: "soft small" }, inWords(one))),
    );
  }

  return {
    async update(why, signal) {
      if (why !== "size" || !held) held = await get(`${of(about.name)}/yarn`, signal);
      show();
    },
  };
}

const whole = (number) => Math.round(number).toLocaleString(locale);
const range = (value) => (value === null || value === undefined ? null : `${whole(value.low)}–${whole(value.high)}`);
