// Saved states: each can be looked at, compared row by row by its stitches, and brought back.
import { get, of, post } from "./api.js";
import { $, h, say, told } from "./dom.js";
import { ago, moment, t } from "./strings.js";

const root = $("#history");
const name = root.dataset.name;
const list = h("ol", { class: "states", "aria-label": t("states") });
const look = h("div", { class: "look", "aria-live": "off" });
const every = h("input", { type: "checkbox", id: "every", onchange: () => show() });
root.append(h("div", { class: "pane" }, h("label", { class: "tick", for: "every" }, every, t("every-saving")), list), look);
let states = [];
let chosen = null;
let view = "compare";

await show();

async function show() {
  try {
    ({ states } = await get(`${of(name)}/history${every.checked ? "?every=1" : ""}`));
  } catch (error) {
    root.prepend(told(error.message));
    return;
  }
  if (!states.length) return look.replaceChildren(h("p", { class: "soft" }, t("no-states")));
  list.replaceChildren(...states.map((one, at) => h("li", null, h("button", { type: "button", class: "saved", "aria-pressed": "false", "data-id": one.id, onclick: () => choose(one.id) }, h("span", { class: "when" }, at === 0 ? t("state-now") : ago(one.at)), h("span", { class: "soft small" }, [moment(one.at), t(`why-${one.why}`), one.states > 1 ? t("states-in-run", { number: one.states }) : null].filter(Boolean).join(" · "))))));
  choose(states.some((one) => one.id === chosen) ? chosen : (states[1] ?? states[0]).id);
}

function choose(id) {
  chosen = id;
  for (const button of list.querySelectorAll("button")) button.setAttribute("aria-pressed", String(button.dataset.id === String(id)));
  draw();
}

async function draw() {
  const one = states.find((state) => state.id === chosen);
  const now = one === states[0];
  const body = h("div", { "aria-busy": "true" }, h("p", { class: "busy" }, t("reading")));
  look.replaceChildren(
    h("h2", null, now ? t("state-now") : moment(one.at)),
    h(
      "div",
      { class: "tools" },
      h("button", { type: "button", "aria-pressed": String(view === "compare"), onclick: () => ((view = "compare"), draw()) }, t("compare-now")),
      h("button", { type: "button", "aria-pressed": String(view === "text"), onclick: () => ((view = "text"), draw()) }, t("look-at")),
      now ? null : h("button", { type: "button", class: "chief", onclick: () => bringBack(one) }, t("bring-back")),
    ),
    body,
  );
  try {
    body.replaceChildren(...(view === "text" ? [h("pre", { class: "manuscript", tabindex: 0, role: "region", "aria-label": t("manuscript") }, (await get(`${of(name)}/history/${one.id}`)).text)] : await compared(one, now)));
  } catch (error) {
    body.replaceChildren(told(error.message, true));
  }
  body.removeAttribute("aria-busy");
}

async function compared(one, now) {
  if (now) return [h("p", { class: "soft" }, t("compare-same-state"))];
  const { rows, head_changed: head } = await get(`${of(name)}/compare?a=${one.id}&b=now`);
  const differ = rows.filter((row) => !row.same_stitches || row.text_a !== row.text_b);
  const stitches = differ.filter((row) => !row.same_stitches).length;
  const out = [h("p", null, (differ.length ? t("compare-summary", { stitches, words: differ.length - stitches }) : t("compare-none")), head ? ` ${t("compare-head")}` : "")];
  if (!differ.length) return out;
  out.push(
    h(
      "div",
      { class: "compare" },
      differ.map((row) =>
        h(
          "article",
          { class: row.same_stitches ? "reworded" : "restitched" },
          h("h3", null, row.piece ? `${row.piece}, ${row.label}` : row.label, " ", h("span", { class: `state ${row.same_stitches ? "proved" : "look"}` }, row.same_stitches ? t("same-stitches") : t("other-stitches"))),
          h("div", { class: "pair" }, side(t("then"), row.text_a, row.counts_a), side(t("now"), row.text_b, row.counts_b)),
        ),
      ),
    ),
  );
  return out;
}

function side(words, text, counts) {
  return h("div", null, h("p", { class: "label small" }, words), h("p", null, text || h("em", null, t("nothing-there"))), counts?.length ? h("p", { class: "soft small" }, `${t("counts-worked")}: ${counts.map((count) => count ?? "–").join(", ")}`) : null);
}

async function bringBack(one) {
  try {
    await post(`${of(name)}/history/${one.id}/bring-back`);
    say(t("brought-back"));
    chosen = null;
    await show();
    root.querySelector(".told")?.remove();
    root.prepend(h("p", { class: "told gentle", role: "status" }, t("brought-back")));
  } catch (error) {
    look.prepend(told(error.message));
  }
}
