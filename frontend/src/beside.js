// What the words come to, beside them: one panel at a time, following the cursor and the chosen size.
import { $, h } from "./dom.js";
import { t } from "./strings.js";
import { tabKeys } from "./tabs.js";
import { chart } from "./panels/chart.js";
import { picture } from "./panels/picture.js";
import { schematic } from "./panels/schematic.js";
import { sheet } from "./panels/sheet.js";
import { sizes } from "./panels/sizes.js";
import { swatches } from "./panels/swatches.js";
import { yarn } from "./panels/yarn.js";

const PAUSE_MS = 450;
const PANELS = { sheet, chart, picture, schematic, sizes, swatches, yarn };

// about: what the panels may ask of the page (see write.js)
export function beside(about) {
  const root = $("#beside");
  const place = $("#panel");
  const size = $("#size");
  const tabs = $("#tabs");
  root.hidden = false;
  let open = null;
  let shown = null;
  let work = null;

  for (const id of Object.keys(PANELS)) tabs.append(h("button", { type: "button", role: "tab", id: `tab-${id}`, "aria-controls": "panel", onclick: () => show(id) }, t(`panel-${id}`)));
  tabKeys(tabs);
  size.addEventListener("change", () => about.chooseSize(size.selectedIndex));

  function show(id) {
    open = id;
    sessionStorage.setItem("beside", id);
    for (const tab of tabs.children) {
      tab.setAttribute("aria-selected", String(tab.id === `tab-${id}`));
      tab.tabIndex = tab.id === `tab-${id}` ? 0 : -1;
    }
    place.setAttribute("aria-labelledby", `tab-${id}`);
    place.dataset.panel = id;
    place.replaceChildren();
    shown?.leave?.();
    shown = PANELS[id](place, about);
    refresh("opened");
  }

  // Asks the panel to show things anew; what it was still waiting for is given up.
  async function refresh(why) {
    work?.abort();
    const mine = (work = new AbortController());
    place.setAttribute("aria-busy", "true");
    try {
      await shown.update(why, mine.signal);
      place.querySelector(":scope > .told.refused")?.remove();
    } catch (error) {
      if (error.name === "AbortError" || mine.signal.aborted) return;
      if (error.status === undefined) console.error(error);
      const words = h("div", { class: "told gentle refused" }, h("p", null, error.status === undefined ? t("not-done") : error.message));
      if (shown.keep) place.querySelector(":scope > .told.refused")?.remove(), place.prepend(words);
      else place.replaceChildren(words);
    } finally {
      if (mine === work) place.removeAttribute("aria-busy");
    }
  }

  function fillSizes() {
    const report = about.report();
    const names = report?.sizes ?? [];
    if ([...size.options].map((one) => one.text).join("|") !== names.join("|")) size.replaceChildren(...names.map((one) => h("option", null, one)));
    size.selectedIndex = about.chosen();
    size.parentElement.hidden = names.length < 2;
  }

  function wait() {
    clearTimeout(later);
    later = setTimeout(() => {
      later = null;
      refresh("kept");
    }, shown.slow ?? PAUSE_MS);
  }

  let begun = false;
  let later = null;
  return {
    // Saved: shown anew once she pauses, so that what takes long never holds up the checking of what she types.
    kept() {
      if (begun) wait();
    },
    typed() {
      if (later) wait();
    },
    sized() {
      fillSizes();
      refresh("size");
    },
    reported() {
      fillSizes();
      if (!begun) {
        begun = true;
        show(sessionStorage.getItem("beside") in PANELS ? sessionStorage.getItem("beside") : "sheet");
      }
    },
    followed: () => begun && shown?.follow?.(),
    open: () => open,
  };
}
