// Arrow keys along a row of tabs, as is the custom for them.
export function tabKeys(list) {
  list.addEventListener("keydown", (event) => {
    const tabs = [...list.querySelectorAll("[role=tab]:not([hidden])")];
    const at = tabs.indexOf(document.activeElement);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: tabs.length - 1 }[event.key];
    if (at < 0 || to === undefined) return;
    event.preventDefault();
    const next = tabs[(to + tabs.length) % tabs.length];
    next.click();
    next.focus();
  });
}
