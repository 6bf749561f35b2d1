// The writing page: the words with their counts and findings, and beside them what they come to.
import { get, of, post } from "./api.js";
import { beside } from "./beside.js";
import { $, askWords, dialog, h, keepMenus, say } from "./dom.js";
import { outDialog } from "./out.js";
import { t } from "./strings.js";
import { askWhichStands } from "./write/clash.js";
import { counts, countsInWords, setCounts } from "./write/counts.js";
import { makeEditor } from "./write/editor.js";
import { findingsList, headline } from "./write/findings_list.js";
import { keeping } from "./write/keeping.js";
import { liveLine } from "./write/live.js";
import { addWays, applySuggestion, findings, marks, setFindings, withoutWay } from "./write/marks.js";
import { views } from "./write/views.js";
import { words, wordsChanged } from "./write/words.js";
import { keymap } from "@codemirror/view";

const place = $("#words-view");
const name = place.dataset.name;
const plain = $("#text");
const hold = { report: null, chosen: 0, sizeName: sessionStorage.getItem(`size:${name}`), cursorLine: 1, dialect: "" };

const MENDS_AFTER_MS = 900;
const MOST_MENDS = 3;
const WORDS_EVERY_MS = 15_000;
const KEYS = [
  ["F8", t("key-next")],
  ["Shift F8", t("key-before")],
  ["Alt Enter", t("key-sum")],
  ["Ctrl .", t("key-apply")],
  ["Ctrl Space", t("key-offer")],
  ["Alt C", t("key-counts")],
  ["Ctrl Z", t("key-undo")],
  ["Ctrl F", t("key-find")],
  ["Ctrl S", t("key-save")],
];

keepMenus();
// The text as the server holds it now; what the page came with may be older where the browser kept the page.
const begun = await get(of(name));
const savedText = begun.text;
$("#plain").hidden = true;
$("#editor").hidden = false;
place.append(h("p", { id: "editor-help", class: "unseen" }, t("editor-help")));

const editor = makeEditor({
  parent: $("#editor"),
  text: savedText,
  extensions: [marks, counts({ choose: chooseSize }), words({}), keymap.of([{ key: "Alt-c", run: sayCounts }, { key: "Mod-s", run: () => (keeper.save(), true) }])],
  onChange(byHer, suggested) {
    if (byHer) keeper.changed(suggested ? "suggestion" : "typing");
    live.typed();
    panels.typed();
  },
  onCursor: follow,
});

const keeper = keeping(name, {
  version: begun.version,
  savedText,
  text: editor.text,
  merged(before, after) {
    editor.bring(before, after);
    say(t("changed-outside-taken"));
    showKept("kept", t("changed-outside-taken"));
  },
  clash: askWhichStands,
  state: showKept,
  kept() {
    panels.kept();
    if (performance.now() - hold.wordsAt > WORDS_EVERY_MS) takeWords();
  },
});

const list = findingsList($("#findings"), { apply: (way) => applySuggestion(editor.view, way), goTo: (from) => (narrow.show("words"), editor.goTo(from)) });
const narrow = views();
const panels = beside({
  name,
  text: editor.text,
  report: () => hold.report,
  size: () => hold.report?.sizes[hold.chosen] ?? hold.sizeName ?? "",
  chosen: () => hold.chosen,
  row: rowAtCursor,
  piece: pieceAtCursor,
  goTo(from) {
    narrow.show("words");
    editor.goTo(from);
  },
  goToLine(line) {
    narrow.show("words");
    editor.goTo(editor.view.state.doc.line(Math.min(line, editor.view.state.doc.lines)).from);
  },
  putInHead,
  edit(changes) {
    editor.edit(changes);
    narrow.show("words");
  },
  chooseSize,
});
const live = liveLine(name, {
  text: editor.text,
  onReport: reported,
  window: keeper.window,
  onChanged: keeper.changedElsewhere,
  onOther(told) {
    if (told.event === "renamed") location.replace(`/write/${encodeURIComponent(told.to)}`);
    if (told.event === "gone") showKept("told", t("put-away-elsewhere"));
    if (told.event === "not-checked") list.refused(told.error);
  },
  onLine(up) {
    $("#kept").classList.toggle("no-line", !up);
    if (!up) showKept("waiting", t("server-gone"));
    else {
      keeper.save();
      if (hold.wasGone) keeper.changedElsewhere({ version: null });
    }
    hold.wasGone = !up;
  },
});

const left = keeper.leftBehind();
if (left) {
  editor.replace(left.text);
  keeper.takeUp(left);
  say(t("taken-up"));
}
takeWords();

function reported(told, about) {
  if (about !== editor.text()) return; // typed since: the next report is under way
  const report = settled(told);
  hold.report = report;
  if (hold.sizeName !== null && report.sizes.includes(hold.sizeName)) hold.chosen = report.sizes.indexOf(hold.sizeName);
  else hold.chosen = Math.min(hold.chosen, Math.max(report.sizes.length - 1, 0));
  editor.view.dispatch({ effects: [setFindings.of(report.findings), setCounts.of({ sizes: report.sizes, rows: report.rows, findings: report.findings, chosen: hold.chosen })] });
  const { mend, look } = list.show(report, editor.view.state.field(findings));
  $("#how-many").textContent = mend + look ? `(${mend + look})` : "";
  $("#how-many").title = headline(mend, look);
  if (hold.dialect && report.terms !== hold.dialect) takeWords();
  if (report.title) {
    $("#title").textContent = report.title;
    document.title = `${report.title} · Hookwright`;
  }
  panels.reported();
  follow();
  clearTimeout(hold.mending);
  hold.mending = setTimeout(() => lookForMends(about), MENDS_AFTER_MS);
}

// Where nothing that was suggested can be put in, the server tries what would mend the row; asked once she pauses, for the first few.
async function lookForMends(about) {
  for (const one of withoutWay(editor.view.state).slice(0, MOST_MENDS)) {
    if (editor.text() !== about) return;
    let suggestions;
    try {
      ({ suggestions } = await post(`${of(name)}/mends`, { text: about, kind: one.kind, from: one.from }));
    } catch {
      return; // it took too long, or there is nothing that tries
    }
    if (editor.text() !== about) return;
    if (!suggestions.length) continue;
    editor.view.dispatch({ effects: addWays.of({ kind: one.kind, from: one.from, suggestions }) });
    list.show(hold.report, editor.view.state.field(findings));
    say(t("mend-found", { words: suggestions[0].words }));
  }
}

// What has no place in the text has no offsets, and a foundation counts its chains.
function settled(told) {
  const findings_ = told.findings.map((one) => (one.nowhere ? { ...one, from: null, to: null, line: null } : one));
  const rows = told.rows.map((row) => ({ ...row, counts: row.counts.map((count, at) => count || (row.chains?.[at] ?? count)) }));
  return { ...told, findings: findings_, rows };
}

// The words of her dialect and her own stitches; asked for again when something was saved, and set only where they changed.
async function takeWords() {
  hold.wordsAt = performance.now();
  try {
    const given = await get(`${of(name)}/words`);
    const known = JSON.stringify(given);
    hold.dialect = given.terms;
    if (known === hold.words) return;
    hold.words = known;
    editor.view.dispatch({ effects: wordsChanged(given) });
  } catch {
    // without them nothing is coloured or offered; the words themselves are as good
  }
}

function chooseSize(at) {
  if (!hold.report || at === hold.chosen) return;
  hold.chosen = at;
  hold.sizeName = hold.report.sizes[at];
  sessionStorage.setItem(`size:${name}`, hold.sizeName);
  editor.view.dispatch({ effects: setCounts.of({ chosen: at }) });
  say(t("size-chosen", { size: hold.sizeName }));
  panels.sized();
}

function follow() {
  cancelAnimationFrame(hold.following);
  hold.following = requestAnimationFrame(() => {
    hold.cursorLine = editor.lineAt(editor.view.state.selection.main.head).number;
    list.follow(hold.cursorLine);
    panels.followed();
  });
}

// The worked row whose words the cursor is in, or null: {label, piece, line, counts}
function rowAtCursor() {
  return hold.report?.rows.find((row) => row.line === hold.cursorLine) ?? null;
}

function pieceAtCursor() {
  const rows = hold.report?.rows ?? [];
  let found = rows[0]?.piece;
  for (const row of rows) if (row.line <= hold.cursorLine) found = row.piece;
  return found ?? "";
}

function sayCounts(view) {
  const spokenCounts = countsInWords(view.state, view.state.doc.lineAt(view.state.selection.main.head).number);
  say(spokenCounts || t("no-counts-here"));
  return true;
}

// A swatch into the head: beside those that are there, else as the first; a head is begun where there is none. {yaml, line}
function putInHead({ yaml, line }) {
  const text = editor.text();
  const end = text.startsWith("---\n") ? text.indexOf("\n---", 3) : -1;
  narrow.show("words");
  say(t("put-in-head"));
  if (end < 0) return editor.insert(0, `---\n${yaml}\n---\n\n`);
  const listed = text.slice(0, end + 1).match(/\nswatches:[ \t]*(?=\n[ \t]*-)/);
  if (listed) return editor.insert(listed.index + listed[0].length, `\n${line}`);
  const within = text.slice(0, end + 1).match(/\nswatches:[ \t]*\[/);
  if (within) return editor.insert(within.index + within[0].length, `${line.replace(/^\s*-\s*/, "")}, `);
  editor.insert(end, `\n${yaml}`);
}

function showKept(state, words_) {
  const place_ = $("#kept");
  place_.dataset.state = state;
  place_.textContent = words_ ?? t(`kept-${state}`);
}

$("#out").addEventListener("click", () => keeper.save().then(() => outDialog(name)));
$("#rename").addEventListener("click", async () => {
  const to = await askWords(t("rename"), t("new-name"), name, t("rename"));
  if (to && to !== name) await act("rename", { to });
});
$("#copy").addEventListener("click", async () => {
  const to = await askWords(t("copy"), t("new-name"), `${name} 2`, t("copy"));
  if (to) await act("copy", to);
});
$("#keys").addEventListener("click", () =>
  dialog(t("keys"), (close) => [
    h("dl", { class: "keys" }, KEYS.map(([key, words_]) => h("div", null, h("dt", null, h("kbd", null, key)), h("dd", null, words_)))),
    h("div", { class: "acts" }, h("button", { type: "button", onclick: () => close() }, t("close"))),
  ]),
);

async function act(what, given) {
  await keeper.save();
  try {
    const answer = what === "copy" ? await post("/api/folder/new", { copy_of: name, name: given }) : await post(`${of(name)}/${what}`, given);
    location.href = `/write/${encodeURIComponent(answer?.name ?? given.to)}`;
  } catch (told) {
    showKept("told", told.message);
    say(told.message);
  }
}
