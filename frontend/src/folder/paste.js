// A pattern pasted as it was published: read, tidied into a manuscript, shown beside what was pasted, and kept once she says so.
import { post } from "../api.js";
import { $, dialog, h, say, told } from "../dom.js";
import { t } from "../strings.js";
import { headline } from "../write/findings_list.js";

export function pasteDialog(open) {
  let tidied = null;
  const problem = h("div");
  const pasted = h("textarea", { id: "pasted", rows: 14, spellcheck: "false", required: true });
  const result = h("div", { class: "tidied", hidden: true });
  const read = h("button", { class: "chief" }, t("paste-read"));
  const box = dialog(
    t("paste-pattern"),
    (close) => [
      h("form", { onsubmit: (event) => (event.preventDefault(), tidy()) }, h("div", { class: "field" }, h("label", { for: "pasted" }, t("paste-here")), h("span", { class: "hint" }, t("paste-hint")), pasted), h("div", { class: "acts" }, read, h("button", { type: "button", onclick: () => close() }, t("leave-it")))),
      problem,
      result,
    ],
    "broad",
  );
  pasted.focus();

  async function tidy() {
    problem.replaceChildren(h("p", { class: "busy" }, t("paste-reading")));
    try {
      tidied = await post("/api/folder/tidy", { pasted: pasted.value });
    } catch (error) {
      return problem.replaceChildren(told(error.message));
    }
    problem.replaceChildren();
    show();
  }

  function show() {
    const { report = {} } = tidied;
    const mend = report.must_mend ?? (report.findings ?? []).filter((one) => one.grade === "must-mend").length;
    const look = report.look ?? (report.findings ?? []).filter((one) => one.grade === "look").length;
    const name = h("input", { id: "tidied-name", value: tidied.title || "", required: true, maxlength: 100, autocomplete: "off" });
    const text = h("textarea", { id: "tidied-text", rows: 14, spellcheck: "false", value: tidied.text });
    const plain = h("input", { type: "checkbox", id: "tidied-plain", onchange: () => (text.value = plain.checked ? tidied.respelled : tidied.text) });
    const notes = tidied.notes ?? [];
    result.hidden = false;
    result.replaceChildren(
      h("h3", { tabindex: -1 }, t("paste-tidied")),
      h("p", null, h("span", { class: `state ${mend ? "mend" : look ? "look" : "proved"}` }, headline(mend, look)), " ", h("span", { class: "soft" }, report.proved?.words ?? "")),
      notes.length ? h("ul", { class: "soft" }, notes.map((words) => h("li", null, words))) : "",
      h("form", { onsubmit: (event) => (event.preventDefault(), keep(name.value.trim(), text.value)) }, h("div", { class: "field" }, h("label", { for: "tidied-name" }, t("name-it")), name), h("div", { class: "field" }, h("label", { for: "tidied-text" }, t("paste-manuscript")), h("span", { class: "hint" }, t("paste-manuscript-hint")), text), tidied.respelled ? h("label", { class: "tick", for: "tidied-plain" }, plain, t("paste-plain")) : null, h("div", { class: "acts" }, h("button", { class: "chief" }, t("paste-keep")))),
    );
    read.className = "";
    $("h3", result).focus();
    result.scrollIntoView({ block: "start" });
    say(`${t("paste-tidied")}. ${headline(mend, look)}`);
  }

  async function keep(name, text) {
    try {
      open((await post("/api/folder/new", { pasted: text, name })).name);
    } catch (error) {
      problem.replaceChildren(told(error.message));
      box.scrollTop = 0;
    }
  }
}
