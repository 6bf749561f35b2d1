// Her folder: what is in it, how it stands, and how something new is begun.
import { get, of, post } from "./api.js";
import { $, askWords, dialog, h, keepMenus, say, told } from "./dom.js";
import { ago, moment, t } from "./strings.js";
import { pasteDialog } from "./folder/paste.js";

const STATES = { proved: "proved", "must mend": "mend", look: "look", "not read": "unread" };
let templates = [];

keepMenus();
$("#begin").hidden = false;
$("#new").addEventListener("click", newDialog);
$("#paste").addEventListener("click", () => pasteDialog(open));
await show();
addEventListener("focus", () => show());
addEventListener("pageshow", (event) => event.persisted && show());

function open(name) {
  location.href = `/write/${encodeURIComponent(name)}`;
}

async function show() {
  const list = $("#list");
  let folder;
  try {
    folder = await get("/api/folder");
  } catch (error) {
    list.replaceChildren(told(error.message));
    return;
  } finally {
    list.removeAttribute("aria-busy");
  }
  templates = folder.templates;
  const focused = document.activeElement?.closest("[data-name]")?.dataset.name;
  const here = folder.manuscripts.filter((one) => !one.archived);
  const away = folder.manuscripts.filter((one) => one.archived);
  list.replaceChildren(here.length ? h("ul", { class: "manuscripts" }, here.map(entry)) : h("div", { class: "empty" }, h("p", { class: "lead" }, t("folder-empty")), h("ul", { class: "beginnings" }, templates.map(beginning))));
  $("#put-away").hidden = !away.length;
  $("#archived").replaceChildren(h("ul", { class: "manuscripts away" }, away.map(entry)));
  if (focused) $(`[data-name="${CSS.escape(focused)}"] a, [data-name="${CSS.escape(focused)}"] button`)?.focus();
  if (folder.being_read) setTimeout(show, 900);
}

function entry(one) {
  const state = STATES[one.state] ?? "unread";
  const words = { proved: t("state-proved"), mend: t("state-mend", { number: one.must_mend || 1 }), look: t("state-look", { number: one.look || 1 }), unread: one.state === "being read" ? t("state-being-read") : t("state-unread") }[state];
  const address = `/write/${encodeURIComponent(one.name)}`;
  return h(
    "li",
    { "data-name": one.name },
    thumb(one),
    h(
      "div",
      { class: "about" },
      h("h3", null, one.archived ? one.title || one.name : h("a", { href: address }, one.title || one.name)),
      one.summary ? h("p", { class: "summary" }, one.summary) : null,
      h("p", { class: "facts soft small" }, one.sizes.length > 1 ? h("span", null, one.sizes.length > 6 ? t("sizes-many", { number: one.sizes.length, first: one.sizes[0], last: one.sizes.at(-1) }) : one.sizes.join(", ")) : null, one.changed ? h("time", { datetime: one.changed, title: moment(one.changed) }, ago(one.changed)) : null),
    ),
    h("p", { class: `state ${state}` }, words),
    menu(one),
  );
}

// Its picture, with its first letter until that is there.
function thumb(one) {
  const letter = h("span", null, (one.title || one.name).slice(0, 1));
  const picture = one.picture ? h("img", { src: one.picture, alt: "", onload: () => letter.remove(), onerror: () => picture.remove() }) : null;
  return h("div", { class: "thumb", "aria-hidden": "true" }, letter, picture);
}

function menu(one) {
  const act = (words, does) => h("button", { type: "button", onclick: does }, words);
  const title = one.title || one.name;
  if (one.archived) return h("div", null, h("button", { type: "button", "aria-label": t("restore-named", { title }), onclick: () => then(post(`${of(one.name)}/restore`), t("restored", { title })) }, t("restore")));
  return h(
    "details",
    { class: "menu" },
    h("summary", { "aria-label": t("more-named", { title }) }, t("more")),
    h(
      "div",
      null,
      h("a", { class: "button", href: `/keep/${encodeURIComponent(one.name)}` }, t("keep-rows")),
      h("a", { class: "button", href: `/measure/${encodeURIComponent(one.name)}` }, t("made-to-measure")),
      h("a", { class: "button", href: `/history/${encodeURIComponent(one.name)}` }, t("history")),
      act(t("copy"), async () => {
        const name = await askWords(t("copy"), t("new-name"), `${one.name} 2`, t("copy"));
        if (name) then(post("/api/folder/new", { copy_of: one.name, name }), t("copied", { title }));
      }),
      act(t("rename"), async () => {
        const to = await askWords(t("rename"), t("new-name"), one.name, t("rename"));
        if (to && to !== one.name) then(post(`${of(one.name)}/rename`, { to }), t("renamed", { title, to }));
      }),
      act(t("archive"), () => then(post(`${of(one.name)}/archive`), t("archived", { title }))),
    ),
  );
}

async function then(doing, words) {
  $("#begin + .told")?.remove();
  try {
    await doing;
    await show();
    say(words);
  } catch (error) {
    $("#begin").after(told(error.message));
  }
}

function beginning(one) {
  return h("li", null, h("button", { type: "button", class: "beginning", onclick: () => begin(one) }, h("strong", null, one.title), h("span", { class: "soft small" }, one.summary)));
}

async function begin(one) {
  const name = await askWords(t("new-manuscript"), t("name-it"), one.title, t("begin"));
  if (!name) return;
  try {
    open((await post("/api/folder/new", { template: one.id, name })).name);
  } catch (error) {
    $("#begin").after(told(error.message));
  }
}

function newDialog() {
  dialog(
    t("new-manuscript"),
    (close) => [
      h("p", { class: "soft" }, t("new-lead")),
      h("ul", { class: "beginnings" }, templates.map((one) => h("li", null, h("button", { type: "button", class: "beginning", onclick: () => (close(), begin(one)) }, h("strong", null, one.title), h("span", { class: "soft small" }, one.summary))))),
      h("div", { class: "acts" }, h("button", { type: "button", onclick: () => (close(), pasteDialog(open)) }, t("paste-pattern")), h("button", { type: "button", onclick: () => close() }, t("leave-it"))),
    ],
    "broad",
  );
}
