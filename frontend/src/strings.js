// The words of the page, from the same catalogue as the templates.
const messages = JSON.parse(document.getElementById("strings").textContent);
export const locale = document.documentElement.lang || "en";
const plural = new Intl.PluralRules(locale);

// The message of that id: a text with {name} where a value goes, or one text for each kind of number.
export function t(id, values = {}) {
  const message = messages[id];
  if (message === undefined) return id;
  const number = typeof message === "object" ? values[message.by] : null;
  const text = typeof message === "object" ? (message[number] ?? message[plural.select(Number(number))] ?? message.other) : message;
  return text.replace(/\{(\w[\w-]*)\}/g, (whole, name) => (name in values ? show(values[name]) : whole));
}

function show(value) {
  return typeof value === "number" ? value.toLocaleString(locale) : String(value);
}

// "just now", "3 hours ago", "12 March"
export function ago(iso, now = Date.now()) {
  const then = new Date(iso);
  const minutes = Math.round((then - now) / 60000);
  const words = new Intl.RelativeTimeFormat(locale, { numeric: "auto" });
  if (minutes > -1) return t("just-now");
  if (minutes > -60) return words.format(minutes, "minute");
  if (minutes > -60 * 20) return words.format(Math.round(minutes / 60), "hour");
  if (minutes > -60 * 24 * 6) return words.format(Math.round(minutes / 1440), "day");
  return new Intl.DateTimeFormat(locale, { day: "numeric", month: "long", year: then.getFullYear() === new Date(now).getFullYear() ? undefined : "numeric" }).format(then);
}

export function moment(iso) {
  return new Intl.DateTimeFormat(locale, { weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit", second: "2-digit" }).format(new Date(iso));
}

export function minutesOf(seconds) {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
