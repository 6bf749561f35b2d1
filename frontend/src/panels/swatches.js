// Swatches: those of the manuscript, and a new one reckoned to a gauge and put into the head.
import { get, of, post } from "../api.js";
import { h, say, told } from "../dom.js";
import { t } from "../strings.js";
import { tableOf } from "../table.js";

export function swatches(root, about) {
  const there = h("div");
  const gauge = h("div", { "aria-live": "polite" });
  const field = (name, more) => h("div", { class: "field" }, h("label", { for: `swatch-${name}` }, t(`swatch-${name}`)), h("input", { id: `swatch-${name}`, name, inputmode: "decimal", autocomplete: "off", size: 6, ...more }));
  const unit = h("select", { id: "swatch-unit", name: "unit" }, h("option", { value: "cm" }, t("unit-cm")), h("option", { value: "in" }, t("unit-in")));
  const form = h(
    "form",
    { onsubmit: (event) => (event.preventDefault(), reckon()), oninput: later },
    h("h2", { class: "small-heading" }, t("swatch-new")),
    h("p", { class: "soft small" }, t("swatch-lead")),
    h("div", { class: "fields" }, field("of", { inputmode: "text" }), field("stitches", { required: true }), field("width", { required: true }), field("rows"), field("height"), h("div", { class: "field" }, h("label", { for: "swatch-unit" }, t("swatch-unit")), unit)),
    h("div", { class: "acts" }, h("button", null, t("swatch-reckon"))),
    gauge,
  );
  root.append(there, form);
  let timer = null;

  function later() {
    clearTimeout(timer);
    const given = new FormData(form);
    if (given.get("stitches") && given.get("width")) timer = setTimeout(reckon, 350);
  }

  async function reckon() {
    clearTimeout(timer);
    const given = Object.fromEntries(new FormData(form));
    for (const name of ["stitches", "width", "rows", "height"]) given[name] = given[name] ? Number(given[name].replace(",", ".")) : null;
    try {
      const found = await post(`${of(about.name)}/swatches/reckon`, given);
      gauge.replaceChildren(h("p", { class: "gauge" }, found.words), found.yaml ? h("pre", { class: "sum", tabindex: 0 }, found.yaml) : "", found.yaml ? h("button", { type: "button", onclick: () => about.putInHead(found) }, t("swatch-put")) : "");
    } catch (error) {
      gauge.replaceChildren(told(error.message, true));
      say(error.message);
    }
  }

  return {
    async update(why, signal) {
      if (why === "size") return;
      const { swatches: all = [] } = await get(`${of(about.name)}/swatches`, signal);
      there.replaceChildren(
        all.length
          ? tableOf({ caption: t("swatches-there"), head: [t("swatch-of"), t("swatch-worked"), t("swatch-gauge")], rows: all.map((one) => [one.of || t("swatch"), counted(one), one.words]) })
          : h("p", { class: "soft" }, t("no-swatches")),
      );
    },
  };
}

// "30 stitches over 21.4 cm, 24 rows over 22.8 cm"
function counted(one) {
  const over = (number, mm, kind) => (number && mm ? t(kind, { number, over: (mm / 10).toLocaleString() }) : null);
  return [over(one.stitches, one.width_mm, "stitches-over"), over(one.rows, one.height_mm, "rows-over")].filter(Boolean).join(", ");
}
