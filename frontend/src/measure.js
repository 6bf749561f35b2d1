// Made to measure: a maker's own measures, gauge and yarn, and her pattern.
import { get, of, post } from "./api.js";
import { $, h, say, told } from "./dom.js";
import { t } from "./strings.js";
import { inWords as marked } from "./write/finding_card.js";
import { headline } from "./write/findings_list.js";

const root = $("#measure");
const name = root.dataset.name;
const answer = h("section", { class: "answer", tabindex: -1, "aria-live": "off" });
let made = null;

try {
  form(await get(`${of(name)}/measure`));
} catch (error) {
  root.append(told(error.message));
}

function form({ measures = [], gauge = null, sizes = [] }) {
  const field = (id, words, hint, given = {}) => h("div", { class: "field" }, h("label", { for: id }, words), hint ? h("span", { class: "hint", id: `${id}-hint` }, hint) : null, h("input", { id, autocomplete: "off", "aria-describedby": hint ? `${id}-hint` : undefined, ...given }));
  const asked = h(
    "form",
    { onsubmit: (event) => (event.preventDefault(), make(asked)) },
    measures.length
      ? h("fieldset", null, h("legend", null, t("measures")), h("div", { class: "fields" }, measures.map((one) => (typeof one === "string" ? { name: one } : one)).map((one) => field(`m-${one.name.replaceAll(" ", "-")}`, capital(one.words ?? one.name), one.typical ? t("measure-typical", { typical: one.typical }) : t("measure-hint"), { "data-measure": one.name }))))
      : h("p", { class: "told gentle" }, t("no-measures")),
    h("fieldset", null, h("legend", null, t("maker-hand")), h("div", { class: "fields" }, field("gauge", t("gauge"), gauge?.stitches ? t("gauge-hint", { gauge: inWords(gauge) }) : t("gauge-hint-none")), field("yarn", t("yarn"), t("yarn-hint")))),
    sizes.length > 1 ? h("div", { class: "field" }, h("label", { for: "near" }, t("near-size")), h("select", { id: "near" }, h("option", { value: "" }, t("nearest")), sizes.map((one) => h("option", null, one)))) : null,
    h("div", { class: "acts" }, h("button", { class: "chief" }, t("measure-make"))),
  );
  root.append(asked, answer);
}

async function make(asked) {
  const measures = Object.fromEntries([...asked.querySelectorAll("[data-measure]")].filter((one) => one.value.trim()).map((one) => [one.dataset.measure, withUnit(one.value.trim())]));
  const value = (id) => $(`#${id}`, asked)?.value.trim() || null;
  const wanted = { measures, gauge: value("gauge"), yarn: value("yarn"), size: value("near") };
  answer.replaceChildren(h("p", { class: "busy", role: "status" }, t("measure-making")));
  try {
    made = await post(`${of(name)}/measure`, wanted);
  } catch (error) {
    answer.replaceChildren(told(error.message, true));
    return;
  }
  const report = made.report ?? {};
  const mend = report.must_mend ?? 0;
  const wrong = (report.findings ?? []).filter((one) => one.grade !== "note");
  answer.replaceChildren(
    h("h2", null, made.sheet ? t("measure-made") : t("measure-not-made")),
    h("p", null, h("span", { class: `state ${mend ? "mend" : wrong.length ? "look" : "proved"}` }, headline(mend, wrong.length - mend)), " ", h("span", { class: "soft" }, report.proved ?? "")),
    wrong.length ? h("ul", null, wrong.map((one) => h("li", null, marked(one.message)))) : "",
  );
  if (made.sheet) {
    const file = `${name} - ${t("made-to-measure").toLowerCase()}`;
    answer.append(
      h(
        "div",
        { class: "acts" },
        h("a", { class: "button chief", download: `${file}.html`, href: blob(made.sheet, "text/html") }, t("measure-fetch-sheet")),
        made.manuscript ? h("button", { type: "button", onclick: keep }, t("measure-keep")) : null,
        h("a", { class: "button", download: `${file}.txt`, href: blob(made.text, "text/plain") }, t("measure-fetch-text")),
      ),
      h("iframe", { class: "paper tall", title: t("measure-made"), sandbox: "", src: `${of(name)}/measure/sheet?${query(wanted)}` }),
    );
  }
  answer.focus();
  say(`${made.sheet ? t("measure-made") : t("measure-not-made")}. ${headline(mend, wrong.length - mend)}`);
}

function query({ measures, ...others }) {
  const all = Object.entries(measures).map(([one, words]) => [`m.${one}`, words]).concat(Object.entries(others).filter(([, words]) => words));
  return new URLSearchParams(all);
}

function capital(words) {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}

function inWords({ stitches, rows, over_mm: over }) {
  return t("gauge-in-words", { stitches, rows: rows ?? "–", over: over / 10 });
}

function withUnit(words) {
  return /^[\d.,]+$/.test(words) ? `${words} cm` : words;
}

function blob(text, type) {
  return URL.createObjectURL(new Blob([text], { type }));
}

async function keep() {
  try {
    const kept = await post("/api/folder/new", { pasted: made.manuscript, name: t("measure-name", { name }) });
    location.href = `/write/${encodeURIComponent(kept.name)}`;
  } catch (error) {
    answer.prepend(told(error.message));
  }
}
