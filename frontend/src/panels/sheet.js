// The sheet as it will print, in US or UK terms.
import { of } from "../api.js";
import { h } from "../dom.js";
import { t } from "../strings.js";

export function sheet(root, about) {
  let terms = sessionStorage.getItem("sheet-terms") ?? "";
  const frames = [frame(), frame()];
  const radios = h("fieldset", { class: "switch" }, h("legend", { class: "unseen" }, t("terms")), ["us", "uk"].map((one) => choice(one)));
  root.append(h("div", { class: "tools" }, radios), h("div", { class: "paper-stack" }, frames));
  frames[1].hidden = true;

  function choice(one) {
    const input = h("input", { type: "radio", name: "terms", value: one, id: `terms-${one}`, onchange: () => ((terms = one), sessionStorage.setItem("sheet-terms", one), load()) });
    return h("label", { for: `terms-${one}` }, input, h("span", null, t(`terms-${one}`)));
  }

  // Loads behind the one that is seen and takes its place when it is there, at the same height of the page.
  function load(signal) {
    const [seen, next] = frames[0].hidden ? [frames[1], frames[0]] : frames;
    return new Promise((done, stop) => {
      next.onload = () => {
        if (signal?.aborted) return;
        next.hidden = false;
        seen.hidden = true;
        done();
      };
      signal?.addEventListener("abort", () => stop(new DOMException("left", "AbortError")));
      next.src = `${of(about.name)}/sheet?terms=${terms}&v=${Date.now()}`;
    });
  }

  return {
    update(why, signal) {
      if (why === "size") return;
      terms ||= (about.report()?.terms ?? "US").toLowerCase();
      root.querySelector(`#terms-${terms}`).checked = true;
      return load(signal);
    },
  };
}

function frame() {
  return h("iframe", { class: "paper", title: t("panel-sheet"), sandbox: "allow-same-origin" });
}
