// The ledger: beside each row what it comes to in every size, under the sizes' names, which are also how a size is chosen.
import { RangeSet, StateEffect, StateField } from "@codemirror/state";
import { gutter, GutterMarker, showPanel, ViewPlugin } from "@codemirror/view";
import { h } from "../dom.js";
import { t } from "../strings.js";

const COLUMN_REM = 3;
const NARROW_REM = 2.4; // of many sizes
const BROAD_REM = 5; // of few with long names
const MANY = 5;
const FEW = 3;
const TEXT_REM = 19; // the words keep at least this much beside the counts

export const setCounts = StateEffect.define(); // {sizes, rows, findings, chosen}
const setShown = StateEffect.define(); // the indices of the sizes for which there is room

const column = (sizes) => (sizes.length > MANY ? NARROW_REM : sizes.length > 1 && sizes.length <= FEW && sizes.some((size) => size.length > 4) ? BROAD_REM : COLUMN_REM);

class Counts extends GutterMarker {
  constructor(cells, words) {
    super();
    this.cells = cells;
    this.words = words;
  }
  eq(other) {
    return this.words === other.words && JSON.stringify(this.cells) === JSON.stringify(other.cells);
  }
  toDOM() {
    return h("span", { class: "counts", title: this.words }, this.cells.map(({ count, chosen, off, more }) => h("span", { class: `count${chosen ? " chosen" : ""}${off ? " off" : ""}${more ? " more" : ""}` }, off ? `≠ ${count}` : `${count}`)));
  }
}

const ledger = StateField.define({
  create: () => ({ sizes: [], rows: [], findings: [], chosen: 0, shown: [0], marks: RangeSet.empty }),
  update(held, change) {
    let next = held;
    for (const effect of change.effects) {
      if (effect.is(setCounts)) next = { ...next, ...effect.value };
      if (effect.is(setShown)) next = { ...next, shown: effect.value };
    }
    if (next !== held) return { ...next, marks: marksOf(next, change.state.doc) };
    return change.docChanged ? { ...held, marks: held.marks.map(change.changes) } : held;
  },
});

function marksOf({ sizes, rows, findings, chosen, shown }, doc) {
  const lines = new Map();
  for (const row of rows) {
    if (!row.line || row.line > doc.lines) continue;
    if (!lines.has(row.line)) lines.set(row.line, []);
    lines.get(row.line).push(row);
  }
  const off = new Map();
  for (const one of findings) {
    if (one.grade !== "must-mend" || !one.line) continue;
    const which = off.get(one.line) ?? new Set();
    (one.sizes?.length ? one.sizes : sizes).forEach((size) => which.add(size));
    off.set(one.line, which);
  }
  const marks = [...lines.keys()].sort((a, b) => a - b).map((line) => {
    const here = lines.get(line);
    const last = here.at(-1);
    const cells = shown.map((at) => {
      const differ = new Set(here.map((row) => row.counts[at])).size > 1;
      return { count: last.counts[at] ?? "–", chosen: at === chosen, off: off.get(line)?.has(sizes[at]) ?? false, more: differ };
    });
    return new Counts(cells, spoken(here, sizes)).range(doc.line(line).from);
  });
  return RangeSet.of(marks);
}

// "Row 2: S 30, M 33, L 40"
export function spoken(rows, sizes) {
  const shown = rows.length > 6 ? [...rows.slice(0, 3), null, ...rows.slice(-2)] : rows;
  return shown.map((row) => (row ? `${row.label}: ${sizes.length > 1 ? sizes.map((size, at) => `${size} ${row.counts[at] ?? "–"}`).join(", ") : (row.counts[0] ?? "–")}` : "…")).join("\n");
}

// What stands beside a line, in words, for who does not see the margin.
export function countsInWords(state, line) {
  const { rows, sizes } = state.field(ledger);
  return spoken(rows.filter((row) => row.line === line), sizes);
}

// choose(index): a size was chosen at its column
export function counts({ choose }) {
  const head = (view) => {
    const dom = h("div", { class: "ledger", role: "group", "aria-label": t("counts-by-size") });
    const draw = () => {
      const { sizes, chosen, shown } = view.state.field(ledger);
      const bar = view.scrollDOM.offsetWidth - view.scrollDOM.clientWidth;
      dom.style.paddingRight = `calc(${bar}px + .75rem)`;
      const long = shown.some((at) => (sizes[at] ?? "").length > (shown.length > FEW ? 4 : 9));
      dom.classList.toggle("long", long && shown.length > 1);
      dom.classList.toggle("alone", shown.length === 1);
      view.dom.style.setProperty("--columns", shown.length);
      view.dom.style.setProperty("--column", `${column(shown.map((at) => sizes[at] ?? ""))}rem`);
      dom.replaceChildren(
        h("span", { class: "of" }, t("counts-worked")),
        ...shown.map((at) =>
          h("button", { type: "button", class: "size", "aria-pressed": String(at === chosen), title: sizes[at] ?? "", onclick: () => choose(at) }, h("span", null, sizes.length > 1 ? (sizes[at] ?? "") : t("worked"))),
        ),
      );
    };
    draw();
    return {
      dom,
      top: true,
      update(update) {
        if (update.startState.field(ledger) !== update.state.field(ledger) || update.geometryChanged) draw();
      },
    };
  };
  const room = ViewPlugin.fromClass(
    class {
      constructor(view) {
        this.view = view;
        this.watch = new ResizeObserver(() => this.fit());
        this.watch.observe(view.dom);
      }
      update(update) {
        if (update.startState.field(ledger).sizes !== update.state.field(ledger).sizes || update.startState.field(ledger).chosen !== update.state.field(ledger).chosen) requestAnimationFrame(() => this.fit());
      }
      fit() {
        const rem = parseFloat(getComputedStyle(document.documentElement).fontSize);
        const { sizes, chosen, shown } = this.view.state.field(ledger);
        const all = sizes.length * column(sizes) + TEXT_REM <= this.view.dom.clientWidth / rem;
        const next = all ? sizes.map((_, at) => at) : [chosen];
        if (next.join() !== shown.join()) this.view.dispatch({ effects: setShown.of(next) });
      }
      destroy() {
        this.watch.disconnect();
      }
    },
  );
  return [
    ledger,
    gutter({ class: "cm-counts", side: "after", markers: (view) => view.state.field(ledger).marks }),
    showPanel.of(head),
    room,
  ];
}
