// All sizes: their finished measures as a table and against the bodies they are for; ease on sliders, tried without writing anything.
import { get, of, post } from "../api.js";
import { h, say, svgOf } from "../dom.js";
import { locale, t } from "../strings.js";
import { tableOf } from "../table.js";

const PAUSE_MS = 120;

export function sizes(root, about) {
  const sliders = h("div", { class: "eases" });
  const note = h("div", { class: "acts", hidden: true });
  const shown = h("div");
  root.append(sliders, note, shown);
  const tried = new Map();
  let held = null;
  let timer = null;
  let serial = 0;

  function show(told) {
    held = told;
    const size = about.size();
    const plot = told.plot ? svgOf(told.plot) : null;
    const numbers = Object.entries(told.numbers ?? {});
    shown.replaceChildren(
      ...(told.clash ?? []).map((words) => h("p", { class: "told" }, words)),
      ...(told.findings ?? []).map((words) => h("p", { class: "told gentle" }, words)),
      ...(told.tables ?? []).map((one) => tableOf({ caption: one.caption || t("sizes-table"), head: one.head, rows: one.rows, chosen: one.head.indexOf(size), chosenRow: (at) => one.rows[at][0] === size && (told.sizes ?? []).length > 1 })),
      numbers.length ? tableOf({ caption: t("numbers-found"), head: ["", ...(told.sizes ?? [])], rows: numbers.map(([name, one]) => [name, ...one.values]), chosen: 1 + (told.sizes ?? []).indexOf(size) }) : "",
      plot ? h("div", { class: "drawing", tabindex: 0, role: "region", "aria-label": t("sizes-plot") }, plot) : "",
      !told.tables?.length && !numbers.length ? h("p", { class: "soft" }, t("no-sizes-table")) : "",
      ...(told.words ?? []).map((words) => h("p", { class: "soft small" }, words)),
    );
  }

  function slider(one) {
    const id = `ease-${one.number}`;
    const out = h("output", { for: id }, length(one.ease_mm, one.unit));
    const step = one.unit === "in" ? 6.35 : 5;
    const input = h("input", { type: "range", id, min: one.ease_mm - Math.floor((one.ease_mm - one.least) / step) * step, max: one.most, step, oninput: moved });
    input.value = one.ease_mm;
    function moved() {
      const mm = Number(input.value);
      out.textContent = length(mm, one.unit);
      input.setAttribute("aria-valuetext", out.textContent);
      tried.set(one.number, mm);
      clearTimeout(timer);
      timer = setTimeout(attempt, PAUSE_MS);
    }
    input.setAttribute("aria-valuetext", out.textContent);
    return h("div", { class: "field" }, h("label", { for: id }, one.number === "ease" ? t("ease-of-all") : t("ease-of", { of: one.of ? `${one.number}, ${one.of}` : one.number })), h("div", { class: "slide" }, input, out));
  }

  async function attempt() {
    const mine = ++serial;
    root.classList.add("trying");
    try {
      const told = await post(`${of(about.name)}/sizes/try`, { ease: Object.fromEntries(tried) });
      if (mine !== serial) return;
      show(told);
      note.hidden = false;
      note.replaceChildren(
        h("span", { class: "soft" }, t("ease-not-written")),
        told.edits?.length ? h("button", { type: "button", onclick: () => about.edit(told.edits) }, t("ease-write")) : "",
        h("button", { type: "button", class: "plain", onclick: () => api.update("again") }, t("ease-back")),
      );
      say(t("ease-tried"));
    } catch (error) {
      if (mine === serial) shown.prepend(h("p", { class: "told gentle" }, error.message));
    } finally {
      if (mine === serial) root.classList.remove("trying");
    }
  }

  const api = {
    keep: true,
    async update(why, signal) {
      if (why === "size" && held) return show(held);
      const told = await get(`${of(about.name)}/sizes`, signal);
      serial++;
      note.hidden = true;
      tried.clear();
      show(told);
      const focused = document.activeElement?.id;
      sliders.replaceChildren(...(told.eases ?? []).map(slider));
      if (focused?.startsWith("ease-")) document.getElementById(focused)?.focus();
    },
  };
  return api;
}

function length(mm, unit) {
  const value = unit === "in" ? mm / 25.4 : mm / 10;
  return `${mm > 0 ? "+" : mm < 0 ? "−" : ""}${Math.abs(value).toLocaleString(locale, { minimumFractionDigits: 1, maximumFractionDigits: unit === "in" ? 2 : 1 })} ${unit}`;
}
