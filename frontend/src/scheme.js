// Light or dark as she chose it, before anything is painted; the machine's own scheme where she chose none.
(() => {
  const root = document.documentElement;
  const machine = matchMedia("(prefers-color-scheme: dark)");
  let chosen = null;
  try {
    chosen = localStorage.getItem("scheme");
  } catch {
    // a browser that keeps nothing for us: the machine's scheme stands
  }
  const set = (scheme) => (scheme ? root.setAttribute("data-scheme", scheme) : root.removeAttribute("data-scheme"));
  const dark = () => (root.dataset.scheme ?? (machine.matches ? "dark" : "light")) === "dark";
  set(chosen);
  addEventListener("DOMContentLoaded", () => {
    const button = document.getElementById("scheme");
    const show = () => (button.textContent = dark() ? button.dataset.light : button.dataset.dark);
    button.addEventListener("click", () => {
      set(dark() ? "light" : "dark");
      try {
        localStorage.setItem("scheme", root.dataset.scheme);
      } catch {
        // then it holds for this page
      }
      show();
    });
    machine.addEventListener("change", show);
    show();
  });
})();
