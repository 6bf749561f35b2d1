// The line to the server: what is typed is checked over it, and it tells of changes from elsewhere. It comes back by itself.
import { socketAddress } from "../api.js";

const PAUSE_MS = 40;

// window: the id of this window; onReport(report, text), onChanged({version, text}), onOther(event), onLine(up)
export function liveLine(name, { text, window: id, onReport, onChanged, onOther, onLine }) {
  let socket = null;
  let serial = 0;
  let wait = 250;
  let timer = null;
  let left = false;
  const asked = new Map();

  function open() {
    socket = new WebSocket(socketAddress(name, id));
    socket.addEventListener("open", () => {
      wait = 250;
      onLine(true);
      check();
    });
    socket.addEventListener("message", ({ data }) => {
      const told = JSON.parse(data);
      if (told.event === "changed") onChanged(told);
      if (["renamed", "gone"].includes(told.event) || (told.event === "not-checked" && told.serial === serial)) onOther(told);
      if (told.event !== "report" || told.serial < serial) return;
      const about = asked.get(told.serial);
      asked.clear();
      if (about !== undefined) onReport(told, about);
    });
    socket.addEventListener("close", () => {
      if (left) return;
      onLine(false);
      setTimeout(open, wait);
      wait = Math.min(wait * 1.7, 4000);
    });
  }

  function check() {
    if (socket?.readyState !== WebSocket.OPEN) return;
    const now = text();
    asked.set(++serial, now);
    socket.send(JSON.stringify({ op: "check", serial, text: now }));
  }

  addEventListener("pagehide", () => {
    left = true;
    socket?.close();
  });
  addEventListener("pageshow", (event) => {
    if (!event.persisted) return;
    left = false;
    open();
  });
  open();
  return {
    typed() {
      clearTimeout(timer);
      timer = setTimeout(check, PAUSE_MS);
    },
  };
}
