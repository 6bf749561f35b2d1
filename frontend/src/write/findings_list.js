// All findings, gravest first, and what was proved; what is new is said aloud.
import { h, say, told as told_ } from "../dom.js";
import { t } from "../strings.js";
import { findingCard } from "./finding_card.js";

const ORDER = { "must-mend": 0, look: 1, note: 2 };

export function findingsList(root, { apply, goTo }) {
  let told = null;
  let opened = new Set();
  return {
    // report: as the server tells it, offsets of this browser; held: its findings as the marks carry them
    show(report, held) {
      const all = [...held].sort((a, b) => ORDER[a.grade] - ORDER[b.grade] || (a.from ?? 0) - (b.from ?? 0));
      const mend = all.filter((one) => one.grade === "must-mend").length;
      const look = all.filter((one) => one.grade === "look").length;
      const focused = root.contains(document.activeElement) ? document.activeElement.closest("li")?.dataset.key : null;
      opened = new Set([...root.querySelectorAll("li[data-key]")].filter((item) => item.querySelector("details[open]")).map((item) => item.dataset.key));
      root.replaceChildren(
        h("p", { class: "sum-up" }, h("span", { class: `state ${mend ? "mend" : look ? "look" : "proved"}` }, headline(mend, look)), report.proved?.words ? h("span", { class: "soft" }, report.proved.words) : null),
        all.length ? h("ol", null, all.slice(0, 60).map((one) => item(one))) : "",
        all.length > 60 ? h("p", { class: "soft" }, t("and-more", { number: all.length - 60 })) : "",
      );
      if (focused) root.querySelector(`li[data-key="${CSS.escape(focused)}"] button`)?.focus({ preventScroll: true });
      const now = new Set(all.map(keyOf));
      if (told !== null) {
        const fresh = all.filter((one) => !told.has(keyOf(one)) && one.grade !== "note");
        if (fresh.length) say([headline(mend, look), ...fresh.slice(0, 2).map((one) => one.message)].join(". "));
        else if ([...told].some((key) => !now.has(key))) say(headline(mend, look));
      } else say(headline(mend, look));
      told = now;
      return { mend, look };
    },
    // Words of why it was not checked at all.
    refused(words) {
      root.replaceChildren(told_(words));
      say(words);
    },
    // Marks the findings of the line the cursor is in.
    follow(line) {
      for (const one of root.querySelectorAll("li[data-line]")) one.classList.toggle("here", Number(one.dataset.line) === line);
    },
  };

  function item(one) {
    const key = keyOf(one);
    const made = h("li", { "data-key": key, "data-line": one.line }, findingCard(one, { apply, show: one.from === null ? null : () => goTo(one.from), goTo, open: false }));
    if (opened.has(key)) made.querySelector("details")?.setAttribute("open", "");
    return made;
  }
}

const keyOf = (one) => `${one.kind}|${one.row ?? ""}|${one.message}`;

export function headline(mend, look) {
  if (!mend && !look) return t("all-well");
  return [mend ? t("must-be-mended", { number: mend }) : t("nothing-must"), look ? t("to-look-at", { number: look }) : null].filter(Boolean).join(", ");
}
