// Keeping what she writes: within a second of typing it is with the server, until then in this browser, and nothing of another window is lost.
import { ask, of } from "../api.js";

const AFTER_MS = 500;
const AT_MOST_MS = 900;

// text(): what stands here; merged(text): the server merged it with changes from elsewhere; clash(body) -> "mine" | "theirs"
// state(word, words): "typing", "saving", "kept", "waiting" (no server) or "told" (refused, in words); kept(version): it is on the disk
export function keeping(name, { version, savedText, text, merged, clash, state, kept }) {
  const window_ = sessionStorage.getItem("window") ?? crypto.randomUUID();
  sessionStorage.setItem("window", window_);
  const draft = `draft:${name}`;
  let timer = null;
  let since = null;
  let why = "typing";
  let running = null;
  let again = 500;
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
      localStorage.setItem(draft, JSON.stringify({ text: text(), base: version, saved: savedText }));
    } catch {
      // no room in this browser: the server has it within the second
    }
  }

  const forget = () => localStorage.removeItem(draft);

  function save() {
    running ??= put().finally(() => (running = null));
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
      answer = await ask("PUT", of(name), { text: sent, base: version, window: window_, why });
    } catch (error) {
      if (error.status === 409 && error.body?.theirs !== undefined) return resolve(error.body);
      state(error.status ? "told" : "waiting", error.message);
      timer = setTimeout(save, again);
      again = Math.min(again * 1.6, 4000);
      return;
    }
    again = 500;
    why = "typing";
    version = answer.version;
    savedText = answer.text ?? sent;
    if (answer.text !== undefined && answer.text !== sent) merged(answer.text, sent);
    settle();
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
    if (chosen === "theirs") merged(body.theirs, text());
    if (text() === savedText) return settle();
    since = null;
    timer = setTimeout(save, 0);
  }

  // The file changed elsewhere: taken over where nothing is unsaved here, else brought together by saving.
  function changedElsewhere(news) {
    if (news.version === version) return;
    if (running) return void running.then(() => changedElsewhere(news));
    if (text() !== savedText) return void save();
    version = news.version;
    savedText = news.text;
    if (news.text !== text()) merged(news.text, text());
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
    version = held.base;
    savedText = held.saved;
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
