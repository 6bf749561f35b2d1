// The row keeper: one row at a time in large type, in one size; ticked by key, tap or voice; it remembers where she was and times each row.
import { ask, get, of } from "./api.js";
import { $, h, say, told } from "./dom.js";
import { minutesOf, t } from "./strings.js";
import { voice } from "./keep/voice.js";

const root = $("#keep");
const name = root.dataset.name;
const size = $("#size");
const own = `keep:${name}`;
const now = { rows: [], at: 0, ticked: new Set(), seconds: [], repeats: [], between: [], since: performance.now(), keeping: null };

const place = h("p", { class: "place soft" });
const label = h("h2", { class: "row-label" });
const words = h("p", { class: "row-words", id: "row-words" });
const count = h("p", { class: "row-count" });
const notes = h("div", { class: "row-notes soft" });
const repeats = h("div", { class: "row-repeats" });
const clock = h("p", { class: "clock soft", role: "timer", "aria-live": "off" });
const done = h("button", { type: "button", class: "chief big", onclick: () => finish() }, t("row-done"));
const back = h("button", { type: "button", class: "big", onclick: () => step(-1) }, t("row-back"));
const on = h("button", { type: "button", class: "big", onclick: () => step(1) }, t("row-skip"));
const all = h("ol", { class: "all-rows" });
const work = h("section", { class: "work", tabindex: 0, "aria-label": t("keep-work"), "aria-describedby": "keep-keys" }, place, label, notes, words, count, repeats, h("div", { class: "acts" }, done, back, on), clock);
root.append(work, h("p", { class: "soft small", id: "keep-keys" }, t("keep-keys")), h("details", { class: "whole" }, h("summary", null, t("all-rows")), all));

work.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const button = event.target.closest("button, input");
  const act = { " ": button ? null : finish, Enter: button ? null : finish, ArrowRight: () => step(1), ArrowDown: () => step(1), ArrowLeft: () => step(-1), ArrowUp: () => step(-1), r: again, R: again }[event.key];
  if (!act) return;
  event.preventDefault();
  act();
});

document.addEventListener("visibilitychange", () => {
  // time away from the page is not time at the row
  if (document.hidden) spend();
  else now.since = performance.now();
});
addEventListener("pagehide", () => (spend(), keep()));
setInterval(tick, 1000);
voice($("#voice"), { next: finish, back: () => step(-1), again, where: () => say(spoken()) });

size.addEventListener("change", () => {
  localStorage.setItem(`${own}:size`, size.value);
  load();
});
await begin();

async function begin() {
  try {
    const first = await get(`${of(name)}/keeper?size=${encodeURIComponent(localStorage.getItem(`${own}:size`) ?? "")}`);
    const sizes = first.sizes ?? [];
    size.replaceChildren(...sizes.map((one) => h("option", null, one)));
    size.value = first.size ?? sizes[0] ?? "";
    size.parentElement.hidden = sizes.length < 2;
    take(first);
  } catch (error) {
    root.replaceChildren(told(error.message));
  }
}

async function load() {
  try {
    take(await get(`${of(name)}/keeper?size=${encodeURIComponent(size.value)}`));
  } catch (error) {
    root.prepend(told(error.message));
  }
}

function take(given) {
  now.rows = given.rows.map((row) => ({ ...row, repeats: (row.repeats ?? []).filter((one) => one.times > 1) }));
  now.at = Math.min(given.at ?? 0, Math.max(given.rows.length - 1, 0));
  now.ticked = new Set(given.ticked ?? []);
  now.seconds = Array.isArray(given.seconds) ? given.seconds : [];
  now.between = given.between ?? [];
  now.repeats = [];
  now.since = performance.now();
  draw();
}

function draw() {
  const row = now.rows[now.at];
  if (!row) return work.replaceChildren(h("p", { class: "lead" }, t("no-rows")));
  place.textContent = [row.piece, t("row-of", { at: now.at + 1, of: now.rows.length })].filter(Boolean).join(" · ");
  label.textContent = row.label;
  notes.replaceChildren(...now.between.filter((one) => one.before === now.at).map((one) => h("p", null, one.words)));
  words.textContent = row.words;
  count.textContent = row.count === null || row.count === undefined ? "" : t("row-count", { count: row.count });
  done.textContent = now.ticked.has(now.at) ? t("row-done-again") : t("row-done");
  back.disabled = now.at === 0;
  on.disabled = now.at === now.rows.length - 1;
  repeats.replaceChildren(...(row.repeats ?? []).map((one, at) => repeat(one, at)));
  all.replaceChildren(...now.rows.map((one, at) => h("li", null, h("button", { type: "button", class: at === now.at ? "plain at" : "plain", "aria-current": at === now.at ? "step" : undefined, onclick: () => go(at) }, h("span", { "aria-hidden": "true" }, now.ticked.has(at) ? "✓" : "○"), h("span", { class: "unseen" }, now.ticked.has(at) ? t("ticked") : ""), one.piece && one.piece !== now.rows[at - 1]?.piece ? `${one.piece}: ${one.label}` : one.label, now.seconds[at] ? h("span", { class: "soft small" }, minutesOf(now.seconds[at])) : null))));
  tick();
}

function repeat(one, at) {
  const made = now.repeats[at] ?? 0;
  const many = Math.min(one.times, 60);
  const box = (index) => h("button", { type: "button", class: "again", "aria-pressed": String(index < made), "aria-label": t("repeat-number", { number: index + 1, of: one.times }), onclick: () => setRepeat(at, index < made && index === made - 1 ? index : index + 1) }, index < made ? "✓" : `${index + 1}`);
  return h("fieldset", null, h("legend", null, one.words, " ", h("span", { class: "soft" }, t("repeats-made", { made, times: one.times }))), one.times <= 60 ? Array.from({ length: many }, (_, index) => box(index)) : h("button", { type: "button", onclick: () => setRepeat(at, made + 1) }, t("repeat-one-more")));
}

function setRepeat(at, made) {
  now.repeats[at] = made;
  const focused = [...repeats.querySelectorAll("button")].indexOf(document.activeElement);
  draw();
  repeats.querySelectorAll("button")[focused]?.focus();
  say(t("repeats-made", { made, times: now.rows[now.at].repeats[at].times }));
}

// One more repeat of the first that is not all worked.
function again() {
  const list = now.rows[now.at]?.repeats ?? [];
  const at = list.findIndex((one, index) => (now.repeats[index] ?? 0) < one.times);
  if (at < 0) return say(t("repeats-over"));
  setRepeat(at, (now.repeats[at] ?? 0) + 1);
}

function finish() {
  spend();
  now.ticked.add(now.at);
  if (now.at < now.rows.length - 1) return go(now.at + 1);
  draw();
  keep();
  say(t("all-rows-done"));
}

function step(by) {
  go(now.at + by);
}

function go(at) {
  if (at < 0 || at >= now.rows.length) return;
  spend();
  now.at = at;
  now.repeats = [];
  draw();
  keep();
  say(spoken());
}

function spoken() {
  const row = now.rows[now.at];
  return row ? `${row.label}. ${row.words} ${row.count ?? ""}` : "";
}

function spend() {
  if (!now.rows.length) return;
  const spent = (performance.now() - now.since) / 1000;
  now.seconds[now.at] = (now.seconds[now.at] ?? 0) + Math.min(spent, 3600);
  now.since = performance.now();
}

function tick() {
  if (!now.rows.length || document.hidden) return;
  const here = (now.seconds[now.at] ?? 0) + (performance.now() - now.since) / 1000;
  const worked = now.seconds.reduce((sum, one, at) => sum + (at === now.at ? 0 : (one ?? 0)), 0) + here;
  clock.textContent = t("row-clock", { row: minutesOf(here), all: minutesOf(worked) });
}

function keep() {
  clearTimeout(now.keeping);
  now.keeping = setTimeout(() => {
    const seconds = Array.from({ length: now.rows.length }, (_, at) => Math.round((now.seconds[at] ?? 0) * 10) / 10);
    ask("PUT", `${of(name)}/keeper?size=${encodeURIComponent(size.value)}`, { at: now.at, ticked: [...now.ticked].sort((a, b) => a - b), seconds, size: size.value }).catch((error) => say(error.message));
  }, 60);
}
