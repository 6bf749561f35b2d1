// The editor of the words: one CodeMirror view, with what the rest of the page needs of it.
import { closeBrackets } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap, isolateHistory } from "@codemirror/commands";
import { search, searchKeymap } from "@codemirror/search";
import { ChangeSet, EditorState, Transaction } from "@codemirror/state";
import { drawSelection, EditorView, highlightActiveLine, keymap } from "@codemirror/view";
import { nonce } from "../api.js";
import { t } from "../strings.js";
import { changesBetween } from "./difference.js";

// What the editor itself says, in the words of the catalogue.
const PHRASES = {
  Find: t("search-find"),
  Replace: t("search-replace-with"),
  next: t("search-next"),
  previous: t("search-previous"),
  all: t("search-all"),
  "match case": t("search-case"),
  regexp: t("search-regexp"),
  "by word": t("search-whole"),
  replace: t("search-replace"),
  "replace all": t("search-replace-all"),
  close: t("close"),
  "current match": t("search-current"),
  "replaced $ matches": t("search-replaced"),
  "on line": t("search-on-line"),
  "Go to line": t("go-to-line"),
  go: t("go"),
  Completions: t("words-offered"),
};

// onChange(byHer, suggested): after every change; onCursor(offset): when the cursor moved. extensions: marks, counts, words and their keys.
export function makeEditor({ parent, text, extensions, onChange, onCursor }) {
  const view = new EditorView({
    parent,
    state: EditorState.create({
      doc: text,
      extensions: [
        EditorView.cspNonce.of(nonce),
        extensions,
        history({ newGroupDelay: 700 }),
        drawSelection(),
        highlightActiveLine(),
        closeBrackets(),
        search({ top: true }),
        EditorState.phrases.of(PHRASES),
        EditorView.lineWrapping,
        EditorState.tabSize.of(2),
        EditorView.contentAttributes.of({ "aria-label": t("manuscript"), "aria-describedby": "editor-help", tabindex: "0", spellcheck: "false", autocapitalize: "off", translate: "no" }),
        keymap.of([...defaultKeymap, ...historyKeymap, ...searchKeymap]),
        EditorView.updateListener.of((update) => {
          if (update.docChanged) onChange(!update.transactions.every((one) => one.annotation(Transaction.remote)), update.transactions.some((one) => one.isUserEvent("input.suggestion")));
          if (update.selectionSet || update.docChanged) onCursor(update.state.selection.main.head);
        }),
      ],
    }),
  });
  return {
    view,
    text: () => view.state.doc.toString(),
    // What was changed elsewhere, from `before` to `after`, brought into what stands here by now; only what differs is touched, so that
    // cursor, marks and her own undo stay.
    bring(before, after) {
      const theirs = ChangeSet.of(changesBetween(before, after), before.length);
      const hers = ChangeSet.of(changesBetween(before, view.state.doc.toString()), before.length);
      if (!theirs.empty) view.dispatch({ changes: theirs.map(hers), annotations: [Transaction.remote.of(true), Transaction.addToHistory.of(false)] });
    },
    // Another text in place of this one, as a step of her own.
    replace(other) {
      view.dispatch({ changes: changesBetween(view.state.doc.toString(), other), annotations: isolateHistory.of("full") });
    },
    insert(at, words) {
      view.dispatch({ changes: { from: at, insert: words }, selection: { anchor: at + words.length }, scrollIntoView: true, annotations: isolateHistory.of("full") });
      view.focus();
    },
    // Several changes as one step to undo: [{from, to, insert}]
    edit(changes) {
      view.dispatch({ changes, annotations: isolateHistory.of("full"), scrollIntoView: true });
      view.focus();
    },
    goTo(from, to = from) {
      const end = view.state.doc.length;
      view.dispatch({ selection: { anchor: Math.min(from, end), head: Math.min(to, end) }, effects: EditorView.scrollIntoView(Math.min(from, end), { y: "center" }) });
      view.focus();
    },
    lineAt: (offset) => view.state.doc.lineAt(Math.min(offset, view.state.doc.length)),
  };
}
