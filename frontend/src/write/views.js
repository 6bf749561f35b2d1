// On a narrow page one of words, findings and what stands beside is shown at a time.
import { $ } from "../dom.js";
import { tabKeys } from "../tabs.js";

export function views() {
  const list = $(".views");
  list.hidden = false;
  const main = $("#main");
  const tabs = [...list.querySelectorAll("[role=tab]")];
  const show = (which) => {
    main.dataset.show = which;
    for (const tab of tabs) {
      tab.setAttribute("aria-selected", String(tab.id === `view-${which}`));
      tab.tabIndex = tab.id === `view-${which}` ? 0 : -1;
    }
    dispatchEvent(new Event("resize"));
  };
  for (const tab of tabs) tab.addEventListener("click", () => show(tab.id.slice(5)));
  tabKeys(list);
  show("words");
  return { show };
}
