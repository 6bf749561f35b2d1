// The chart: the row under the cursor is marked, and a symbol leads to its words.
import { get, of } from "../api.js";
import { h, svgOf } from "../dom.js";
import { t } from "../strings.js";
import { piecePick, query } from "./pieces.js";

const REACH_PX = 14;

export function chart(root, about) {
  const pick = piecePick(about, () => draw());
  const holder = h("div", { class: "drawing", tabindex: 0, role: "group", "aria-label": t("chart-help") });
  const status = h("p", { class: "soft small", id: "chart-at", role: "status" });
  const zoom = h("div", { class: "zoom" }, h("button", { type: "button", "aria-label": t("smaller"), onclick: () => scale(0.8) }, "−"), h("button", { type: "button", "aria-label": t("larger"), onclick: () => scale(1.25) }, "+"));
  root.append(h("div", { class: "tools" }, pick.element, zoom), holder, status);
  let at = -1;
  let factor = 1;

  async function draw(signal) {
    const svg = svgOf(await get(`${of(about.name)}/chart?${query({ piece: pick.piece(), size: about.size() })}`, signal));
    if (!svg) throw new Error("no picture");
    holder.replaceChildren(svg);
    at = -1;
    scale(1);
    mark();
  }

  function scale(by) {
    factor = Math.min(6, Math.max(0.4, factor * by));
    const svg = holder.firstElementChild;
    if (svg) svg.style.width = `${Math.round(factor * 100)}%`;
  }

  function mark() {
    const row = about.row();
    const here = row?.label ?? null;
    for (const one of symbols()) one.classList.toggle("here", here !== null && one.dataset.row === here);
    status.textContent = here ? t("chart-row", { row: here }) : "";
  }

  const symbols = () => [...holder.querySelectorAll("[data-stitch][data-from]")];

  // Symbols are thin lines: the nearest within a finger's breadth is meant.
  function nearest(x, y) {
    let best = null;
    let least = REACH_PX;
    for (const one of symbols()) {
      const { left, right, top, bottom } = one.getBoundingClientRect();
      const away = Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom)) + 0.05 * Math.hypot((left + right) / 2 - x, (top + bottom) / 2 - y);
      if (away < least) [best, least] = [one, away];
    }
    return best;
  }

  function go(one) {
    about.goTo(Number(one.dataset.from));
  }

  holder.addEventListener("click", (event) => {
    const one = nearest(event.clientX, event.clientY);
    if (one) go(one);
  });
  holder.addEventListener("keydown", (event) => {
    const all = symbols();
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: all.length - 1 }[event.key];
    if (event.key === "Enter" && all[at]) return go(all[at]);
    if (to === undefined || !all.length) return;
    event.preventDefault();
    all[at]?.classList.remove("at");
    at = Math.min(all.length - 1, Math.max(0, to));
    all[at].classList.add("at");
    all[at].scrollIntoView({ block: "nearest", inline: "nearest" });
    status.textContent = t("chart-symbol", { stitch: all[at].dataset.stitch ?? "", row: all[at].dataset.row ?? "" });
  });

  return {
    keep: true,
    update(why, signal) {
      pick.follow();
      return draw(signal);
    },
    follow() {
      if (pick.follow()) draw().catch(() => {});
      else mark();
    },
  };
}
