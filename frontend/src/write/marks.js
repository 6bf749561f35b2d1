// Findings at their place in the words: underlined, with the whole working on hover and by key, and their way out at a key.
import { isolateHistory } from "@codemirror/commands";
import { RangeSet, StateEffect, StateField } from "@codemirror/state";
import { Decoration, EditorView, hoverTooltip, keymap, showTooltip } from "@codemirror/view";
import { say } from "../dom.js";
import { t } from "../strings.js";
import { findingCard } from "./finding_card.js";

export const MARK_CLASS = { "must-mend": "mend", look: "look", note: "note" };
export const setFindings = StateEffect.define();
export const addWays = StateEffect.define(); // {kind, from, suggestions}: further ways out of one finding
const openAt = StateEffect.define(); // an offset, or null to close

// The findings as last told, their offsets carried along with what was typed since.
export const findings = StateField.define({
  create: () => [],
  update(held, change) {
    for (const effect of change.effects) {
      if (effect.is(setFindings)) return effect.value;
      if (effect.is(addWays)) return held.map((one) => (one.kind === effect.value.kind && one.from === effect.value.from ? { ...one, suggestions: [...effect.value.suggestions, ...one.suggestions] } : one));
    }
    return change.docChanged ? held.map((one) => carried(one, change.changes)) : held;
  },
  provide: (field) => EditorView.decorations.from(field, (held) => RangeSet.of(held.filter(placed).map(mark), true)),
});

function carried(one, changes) {
  if (one.from === null) return one;
  const move = (from, to) => ({ from: changes.mapPos(from, 1), to: changes.mapPos(to, -1) });
  return {
    ...one,
    ...move(one.from, one.to),
    suggestions: one.suggestions.map((way) => (way.from === null ? way : { ...way, ...move(way.from, way.to), stale: way.stale || changes.touchesRange(way.from, way.to) !== false })),
  };
}

const placed = (one) => one.from !== null && one.to > one.from;
const mark = (one) => Decoration.mark({ class: `f-${MARK_CLASS[one.grade] ?? "look"}`, attributes: { "data-finding": one.kind } }).range(one.from, one.to);

const tooltip = StateField.define({
  create: () => null,
  update(held, change) {
    for (const effect of change.effects) if (effect.is(openAt)) return effect.value;
    return change.docChanged || (change.selection && held !== null) ? null : held;
  },
  provide: (field) => showTooltip.compute([field], (state) => {
    const at = state.field(field);
    return at === null ? null : tip(state, at);
  }),
});

const foundAt = (state, at) => state.field(findings).filter((one) => placed(one) && one.from <= at && at <= one.to);

// Findings that must be mended and that no suggestion can be put in for.
export const withoutWay = (state) => state.field(findings).filter((one) => one.grade === "must-mend" && placed(one) && !one.suggestions.some((way) => way.insert !== null && way.insert !== undefined));

// The finding whose working is asked for at the cursor: the one it stands in, or one of its line.
export function findingAt(state, at) {
  const line = state.doc.lineAt(at);
  return foundAt(state, at)[0] ?? state.field(findings).find((one) => one.from !== null && one.from <= line.to && one.to >= line.from);
}

function tip(state, at) {
  const shown = foundAt(state, at);
  if (!shown.length) return null;
  return {
    pos: Math.min(...shown.map((one) => one.from)),
    end: Math.max(...shown.map((one) => one.to)),
    above: false,
    create(view) {
      const dom = document.createElement("div");
      dom.className = "tip";
      dom.append(...shown.map((one) => findingCard(one, { apply: (way) => applySuggestion(view, way), goTo: (from) => jump(view, from) })));
      return { dom };
    },
  };
}

function jump(view, from) {
  view.dispatch({ selection: { anchor: Math.min(from, view.state.doc.length) }, effects: EditorView.scrollIntoView(Math.min(from, view.state.doc.length), { y: "center" }) });
  view.focus();
}

// Puts a suggestion into the text; one step to undo. False where its words have changed since.
export function applySuggestion(view, way) {
  if (way.from === null || way.from === undefined || way.insert === null || way.insert === undefined || way.stale) return false;
  view.dispatch({
    changes: { from: way.from, to: way.to, insert: way.insert },
    selection: { anchor: way.from + way.insert.length },
    scrollIntoView: true,
    userEvent: "input.suggestion",
    annotations: isolateHistory.of("full"),
  });
  say(t("suggestion-applied", { words: way.words }));
  view.focus();
  return true;
}

function step(direction) {
  return (view) => {
    const all = view.state.field(findings).filter((one) => one.from !== null).sort((a, b) => a.from - b.from);
    if (!all.length) return say(t("nothing-found")), true;
    const at = view.state.selection.main.from;
    const next = direction > 0 ? (all.find((one) => one.from > at) ?? all[0]) : ([...all].reverse().find((one) => one.from < at) ?? all.at(-1));
    view.dispatch({ selection: { anchor: next.from }, effects: EditorView.scrollIntoView(next.from, { y: "center" }) });
    view.dispatch({ effects: openAt.of(next.from) });
    say(spoken(next));
    return true;
  };
}

const spoken = (one) => [t(`grade-${MARK_CLASS[one.grade] ?? "look"}`), one.message, one.suggestions[0]?.words].filter(Boolean).join(". ");

function showHere(view) {
  const one = findingAt(view.state, view.state.selection.main.head);
  if (!one) return say(t("nothing-here")), true;
  view.dispatch({ effects: openAt.of(Math.max(one.from, Math.min(view.state.selection.main.head, one.to))) });
  say([spoken(one), ...(one.table ?? []).map((row) => row.join(", "))].filter(Boolean).join(". "));
  return true;
}

function applyHere(view) {
  const one = findingAt(view.state, view.state.selection.main.head);
  const ways = (one?.suggestions ?? []).filter((way) => way.insert !== null && way.insert !== undefined && way.from !== null && !way.stale);
  const way = ways.find((each) => each.sure === "certain") ?? ways[0];
  if (!way) say(t("no-suggestion"));
  else applySuggestion(view, way);
  return true;
}

function closeTip(view) {
  if (view.state.field(tooltip) === null) return false;
  view.dispatch({ effects: openAt.of(null) });
  return true;
}

export const marks = [
  findings,
  tooltip,
  hoverTooltip((view, at) => tip(view.state, at), { hoverTime: 250 }),
  keymap.of([
    { key: "F8", run: step(1) },
    { key: "Shift-F8", run: step(-1) },
    { key: "Alt-Enter", run: showHere },
    { key: "Mod-.", run: applyHere },
    { key: "Escape", run: closeTip },
  ]),
];
