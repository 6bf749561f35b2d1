// Keeping what she writes: within a second of typing it is with the server, until then in this browser, and nothing of another window is lost.
import { ask, get, of } from "../api.js";
import { t } from "../strings.js";

const AFTER_MS = 500;
const AT_MOST_MS = 900;

// text(): what stands here; merged(before, after): changed elsewhere; clash(body) -> "mine" | "theirs"
// state(word, words): "typing", "saving", "kept", "waiting" (no server) or "told" (refused, in words); kept(version): it is on the disk
export function keeping(name, { version, savedText, text, merged, clash, state, kept }) {
  const window_ = crypto.randomUUID(); // not kept: a tab that is copied is a window of its own
  const draft = `draft:${name}`;
  let timer = null;
  let since = null;
  let why = "typing";
  let running = null;
  let turn = 0; // how many savings there were
  let again = 500;
  let unanswered = null; // sent, and whether it came to the disk is not known
  let told = version; // the version that was last told on

  function changed(how = "typing") {
    if (text() === savedText) return;
    why = how === "suggestion" ? how : why;
    since ??= performance.now();
    keepHere();
    state("typing");
    clearTimeout(timer);
    timer = setTimeout(save, Math.max(0, Math.min(AFTER_MS, since + AT_MOST_MS - performance.now())));
  }

  function keepHere() {
    try {
      localStorage.setItem(draft, JSON.stringify({ text: text(), base: version, saved: savedText, sent: unanswered }));
    } catch {
      // no room in this browser: the server has it within the second
    }
  }

  const forget = () => localStorage.removeItem(draft);

  function save() {
    running ??= put().finally(() => {
      running = null;
      turn++;
    });
    return running;
  }

  async function put() {
    clearTimeout(timer);
    const sent = text();
    if (sent === savedText) return settle();
    state("saving");
    since = null;
    let answer;
    try {
      await learn();
      answer = await ask("PUT", of(name), { text: sent, base: version, window: window_, why });
    } catch (error) {
      if (error.status === 409 && error.body?.theirs !== undefined) return resolve(error.body);
      if (!error.status) {
        unanswered ??= sent;
        keepHere();
      }
      state(error.status ? "told" : "waiting", error.status === 403 ? t("started-anew") : error.message);
      timer = setTimeout(save, again);
      again = Math.min(again * 1.6, 4000);
      return;
    }
    again = 500;
    why = "typing";
    version = answer.version;
    savedText = answer.text ?? sent;
    if (answer.text !== undefined && answer.text !== sent) merged(sent, answer.text);
    settle();
  }

  // The line broke while a text was on its way: if it came to the disk all the same, it is what is saved.
  async function learn() {
    if (unanswered === null) return;
    const now = await get(of(name));
    if (now.text === unanswered) [version, savedText] = [now.version, now.text];
    unanswered = null;
  }

  function settle() {
    if (text() !== savedText) return changed();
    since = null;
    forget();
    state("kept");
    if (version !== told) kept((told = version));
  }

  async function resolve(body) {
    const chosen = await clash({ theirs: body.theirs, yours: text() });
    version = body.version;
    savedText = body.theirs;
    if (chosen === "theirs") merged(text(), body.theirs);
    if (text() === savedText) return settle();
    since = null;
    timer = setTimeout(save, 0);
  }

  // The file changed elsewhere: taken over where nothing is unsaved here, else brought together by saving. What the news says may be old
  // by now, when a saving of ours came between, so the text is asked for.
  async function changedElsewhere(news) {
    if (news.version === version) return;
    if (!running && text() !== savedText) return void save();
    for (;;) {
      await running;
      const at = turn;
      const now = await get(of(name)).catch(() => null);
      if (!now) return;
      if (at === turn && !running) return takeOver(now);
    }
  }

  function takeOver(now) {
    if (now.version === version) return;
    if (text() !== savedText) return void save();
    version = now.version;
    savedText = now.text;
    if (now.text !== text()) merged(text(), now.text);
    settle();
  }

  // What this browser kept while there was no server, from before: {text, base} or null.
  function leftBehind() {
    try {
      const held = JSON.parse(localStorage.getItem(draft));
      return held && held.text !== savedText && held.text !== held.saved ? held : null;
    } catch {
      return null;
    }
  }

  function takeUp(held) {
    if (held.sent !== savedText) [version, savedText] = [held.base, held.saved];
    changed();
  }

  addEventListener("pagehide", () => {
    if (text() !== savedText) {
      keepHere();
      save();
    }
  });
  return { changed, save, changedElsewhere, leftBehind, takeUp, window: window_ };
}
