// Which piece a panel shows: the one the cursor is in, until she chooses another.
import { h } from "../dom.js";
import { t } from "../strings.js";

const ALL = "*"; // the garment that the pieces are sewn to

export function piecePick(about, changed) {
  let own = null;
  let sewn = false;
  const select = h("select", { id: "piece", onchange: () => ((own = select.value || null), changed()) });
  const element = h("div", { class: "pick" }, h("label", { for: "piece" }, t("piece")), select);
  return {
    element,
    piece: () => (own === ALL ? "" : (own ?? about.piece())),
    // Whether the pieces are sewn to a garment: then all of it is shown first.
    together(is) {
      if (is && !sewn) own ??= ALL;
      sewn = is;
    },
    // True where another piece than before is to be shown.
    follow() {
      const names = [...new Set((about.report()?.rows ?? []).map((row) => row.piece ?? ""))];
      const before = select.dataset.shown;
      const all = sewn ? [ALL] : [];
      if (own && ![...all, ...names].includes(own)) own = null;
      if ([...select.options].map((one) => one.value).join("|") !== [...all, "", ...names].join("|"))
        select.replaceChildren(
          ...all.map((one) => h("option", { value: one }, t("piece-all"))),
          h("option", { value: "" }, t("piece-at-cursor")),
          ...names.map((one) => h("option", { value: one }, one || t("whole"))),
        );
      select.value = own ?? "";
      element.hidden = names.length < 2;
      select.dataset.shown = own ?? about.piece();
      return before !== undefined && before !== select.dataset.shown;
    },
  };
}

export const query = (values) => new URLSearchParams(Object.entries(values).filter(([, value]) => value !== "" && value !== null && value !== undefined)).toString();
