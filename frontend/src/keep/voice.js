// Her voice, where the browser listens: "done", "back", "repeat", "where". Off until she turns it on, since some browsers send what they hear to their maker.
import { dialog, h, say } from "../dom.js";
import { locale, t } from "../strings.js";

export function voice(button, acts) {
  const Listening = globalThis.SpeechRecognition ?? globalThis.webkitSpeechRecognition;
  if (!Listening) return;
  button.hidden = false;
  const said = Object.entries({ next: t("voice-next"), back: t("voice-back"), again: t("voice-again"), where: t("voice-where") }).map(([act, words]) => [act, words.split(",").map((one) => one.trim().toLowerCase())]);
  let ear = null;

  button.addEventListener("click", async () => {
    if (ear) return stop();
    if (localStorage.getItem("voice") !== "yes" && !(await agreed())) return;
    listen();
  });

  function listen() {
    ear = new Listening();
    ear.lang = locale;
    ear.continuous = true;
    if ("processLocally" in ear) ear.processLocally = true; // on this machine alone, where the browser can
    ear.onresult = (event) => {
      for (const result of [...event.results].slice(event.resultIndex)) if (result.isFinal) heard(result[0].transcript.trim().toLowerCase());
    };
    ear.onend = () => ear?.start();
    ear.onerror = (event) => {
      if (["no-speech", "aborted"].includes(event.error)) return;
      stop();
      say(t("voice-not"));
    };
    ear.start();
    button.setAttribute("aria-pressed", "true");
  }

  function stop() {
    const was = ear;
    ear = null;
    was?.stop();
    button.setAttribute("aria-pressed", "false");
  }

  function heard(words) {
    for (const [act, ways] of said) if (ways.some((way) => ` ${words} `.includes(` ${way} `))) return acts[act]();
  }
}

async function agreed() {
  const box = dialog(t("voice"), (close) => [h("p", null, t("voice-warning")), h("div", { class: "acts" }, h("button", { type: "button", class: "chief", onclick: () => close(true) }, t("voice-on")), h("button", { type: "button", onclick: () => close(false) }, t("leave-it")))]);
  const yes = (await box.closed) === true;
  if (yes) localStorage.setItem("voice", "yes");
  return yes;
}
