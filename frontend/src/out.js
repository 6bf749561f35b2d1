// What is to be made of a manuscript, its progress, and the file: one folder packed, with a list of what is in it.
import { ask, get, of, post } from "./api.js";
import { dialog, h, say } from "./dom.js";
import { t } from "./strings.js";

const FIRST = ["pdf-a4-us", "pdf-a4-uk", "html-us", "html-uk"];

const GROUPS = { pdf: "pdf", html: "html", txt: "text", md: "text", manuscript: "text", chart: "drawings", schematic: "drawings", picture: "drawings", surface: "drawings" };
const groupOf = (id) => GROUPS[id.split("-")[0]] ?? "tables";

const stop = (job) => ask("DELETE", `/api/jobs/${job}`).catch(() => {});

export async function outDialog(name) {
  let formats;
  try {
    formats = (await get(`${of(name)}/out`)).formats.map((id) => ({ id, group: groupOf(id), words: t(`format-${id}`) }));
  } catch (error) {
    dialog(t("out"), (close) => [h("p", { class: "told" }, error.message), h("div", { class: "acts" }, h("button", { type: "button", onclick: () => close() }, t("close")))]);
    return;
  }
  let job = null;
  let over = false;
  const remembered = JSON.parse(localStorage.getItem("out") ?? "null") ?? FIRST;
  const groups = [...new Set(formats.map((one) => one.group))];
  const choices = groups.map((group) =>
    h(
      "fieldset",
      null,
      h("legend", null, t(`out-${group}`)),
      formats.filter((one) => one.group === group).map((one) => h("label", { class: "tick" }, h("input", { type: "checkbox", name: "format", value: one.id, checked: remembered.includes(one.id) }), one.words)),
    ),
  );
  const all = () => [...form.querySelectorAll('input[name="format"]:checked')].map((one) => one.value);
  const doing = h("div", { class: "doing" });
  const make = h("button", { class: "chief" }, t("out-make"));
  const pictures = h("select", { id: "out-pictures" }, ["none", "first", "all"].map((one) => h("option", { value: one }, t(`pictures-${one}`))));
  pictures.value = localStorage.getItem("out-pictures") ?? "first";
  let closing;
  const form = h(
    "form",
    { onsubmit: (event) => (event.preventDefault(), begin()) },
    h("p", { class: "soft" }, t("out-lead")),
    h("div", { class: "formats" }, choices),
    h("div", { class: "field" }, h("label", { for: "out-pictures" }, t("out-pictures")), pictures),
    doing,
    h("div", { class: "acts" }, make, h("button", { type: "button", onclick: () => closing() }, t("close"))),
  );
  const box = dialog(t("out"), (close) => ((closing = close), form), "broad");
  box.closed.then(() => {
    over = true;
    if (job) stop(job);
  });

  async function begin() {
    const wanted = all();
    if (!wanted.length) return doing.replaceChildren(h("p", { class: "told gentle" }, t("out-choose"))), say(t("out-choose"));
    localStorage.setItem("out", JSON.stringify(wanted));
    localStorage.setItem("out-pictures", pictures.value);
    const bar = h("progress", { max: 1, "aria-label": t("out-making") });
    const words = h("p", { role: "status" }, t("out-making"));
    const cancel = h("button", { type: "button", onclick: () => ((stopped = true), job && stop(job)) }, t("out-cancel"));
    let stopped = false;
    doing.replaceChildren(words, bar, h("div", { class: "acts" }, cancel));
    make.disabled = true;
    cancel.focus();
    try {
      ({ job } = await post(`${of(name)}/out`, { formats: wanted, pictures: pictures.value }));
      if (stopped || over) stop(job); // before it was begun
      for (;;) {
        const now = await get(`/api/jobs/${job}`);
        if (over) return;
        if (now.words) words.textContent = now.words;
        bar.value = now.done ?? 0;
        if (now.state === "done") return ready(now);
        if (now.state !== "running") throw new Error(now.words || t("not-done"));
        await new Promise((done) => setTimeout(done, 200));
      }
    } catch (error) {
      job = null;
      doing.replaceChildren(h("p", { class: "told gentle" }, error.message));
      say(error.message);
    } finally {
      make.disabled = false;
    }
  }

  function ready(now) {
    const link = h("a", { class: "button chief", href: now.file ?? `/api/jobs/${job}/file`, download: now.name ?? `${name}.zip` }, t("out-fetch", { name: now.name ?? `${name}.zip` }));
    doing.replaceChildren(h("p", { class: "state proved" }, now.words || t("out-ready")), h("div", { class: "acts" }, link));
    job = null;
    say(t("out-ready"));
    link.focus();
  }
}
