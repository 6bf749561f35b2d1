// The piece as it will look: turned by hand where the browser can draw in space, a still picture everywhere else.
import { finished, get, image, of } from "../api.js";
import { h } from "../dom.js";
import { t } from "../strings.js";
import { piecePick, query } from "./pieces.js";

export function picture(root, about) {
  const pick = piecePick(about, () => draw());
  const stage = h("div", { class: "stage" });
  const note = h("p", { class: "soft small", role: "status" });
  root.append(h("div", { class: "tools" }, pick.element), stage, note);
  let turning = null;
  let still = null;
  let drawn = null;
  let asked = 0;

  async function draw(signal) {
    const mine = ++asked; // what was asked for before this is no longer wanted
    const past = () => mine !== asked || signal?.aborted;
    const which = query({ piece: pick.piece(), size: about.size() });
    if (!stage.childElementCount) note.textContent = t("picture-making");
    if (canTurn()) {
      try {
        const surface = await image(`${of(about.name)}/surface.glb?${which}`, signal);
        const { turningPicture } = await import("./turning.js");
        if (past()) return;
        turning ??= turningPicture(stage, t("picture-help"));
        await turning.show(surface, which !== drawn);
        drawn = which;
        note.textContent = t("picture-turn");
        return;
      } catch (error) {
        if (error.name === "AbortError") throw error;
        if (past()) return;
        turning?.leave();
        turning = null; // no surface, or no context after all: the still picture
      }
    }
    const { result, file } = await finished(await get(`${of(about.name)}/picture.png?${which}`, signal), { signal });
    const bytes = result ?? (await get(file, signal));
    if (past()) return;
    const made = URL.createObjectURL(new Blob([bytes], { type: "image/png" }));
    stage.replaceChildren(h("img", { src: made, alt: t("picture-alt", { piece: pick.piece() || about.name, size: about.size() }) }));
    if (still) URL.revokeObjectURL(still);
    still = made;
    note.textContent = t("picture-still");
  }

  return {
    slow: 1500,
    async update(why, signal) {
      pick.together((await get(`${of(about.name)}/together?${query({ size: about.size() })}`, signal)).together);
      pick.follow();
      return draw(signal);
    },
    follow: () => pick.follow() && draw().catch(() => {}),
    leave() {
      turning?.leave();
      if (still) URL.revokeObjectURL(still);
    },
  };
}

function canTurn() {
  try {
    const context = document.createElement("canvas").getContext("webgl2");
    context?.getExtension("WEBGL_lose_context")?.loseContext();
    return Boolean(context);
  } catch {
    return false;
  }
}
