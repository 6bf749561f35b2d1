// The schematic of a piece with its measurements, in the chosen size.
import { get, of } from "../api.js";
import { h, svgOf } from "../dom.js";
import { piecePick, query } from "./pieces.js";

export function schematic(root, about) {
  const pick = piecePick(about, () => draw());
  const holder = h("div", { class: "drawing" });
  root.append(h("div", { class: "tools" }, pick.element), holder);
  async function draw(signal) {
    const svg = svgOf(await get(`${of(about.name)}/schematic?${query({ piece: pick.piece(), size: about.size() })}`, signal));
    if (svg) holder.replaceChildren(svg);
  }
  return {
    keep: true,
    update(why, signal) {
      pick.follow();
      return draw(signal);
    },
    follow: () => pick.follow() && draw().catch(() => {}),
  };
}
