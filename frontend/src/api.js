// Asking the server on this machine. What it refuses comes back as words for her.
import { t } from "./strings.js";

const token = document.querySelector('meta[name="token"]').content;
export const nonce = document.querySelector('meta[name="nonce"]').content;

export class Told extends Error {
  constructor(words, status, body) {
    super(words);
    this.status = status;
    this.body = body;
  }
}

export async function ask(method, path, body, signal) {
  let answer;
  try {
    answer = await fetch(path, {
      method,
      signal,
      headers: { "X-Hookwright-Token": token, ...(body === undefined ? {} : { "Content-Type": "application/json" }) },
      body: body === undefined ? undefined : JSON.stringify(body),
    });
  } catch (gone) {
    if (gone.name === "AbortError") throw gone;
    throw new Told(t("server-gone"), 0);
  }
  const kind = answer.headers.get("Content-Type") ?? "";
  const content = kind.includes("json") ? await answer.json() : kind.startsWith("image/png") || kind.startsWith("model/") || kind.includes("octet") ? await answer.arrayBuffer() : await answer.text();
  if (!answer.ok) throw new Told(content?.error ?? t("not-done"), answer.status, content);
  return content;
}

export const get = (path, signal) => ask("GET", path, undefined, signal);
export const post = (path, body = {}) => ask("POST", path, body);
export const of = (name) => `/api/m/${encodeURIComponent(name)}`;

export function socketAddress(name, window_) {
  const address = new URL(`${of(name)}/live`, location.href);
  address.protocol = address.protocol === "https:" ? "wss:" : "ws:";
  address.searchParams.set("token", token);
  address.searchParams.set("window", window_);
  return address;
}

// Waits for long work: an answer {job} is asked about until it is done; any other answer is the result itself.
export async function finished(answer, { progress = () => {}, signal } = {}) {
  if (!answer?.job) return { result: answer };
  for (let wait = 120; ; wait = Math.min(wait * 1.3, 1000)) {
    const job = await get(`/api/jobs/${answer.job}`, signal);
    progress(job);
    if (job.state === "done") return { job, file: job.file ?? `/api/jobs/${answer.job}/file` };
    if (job.state === "failed" || job.state === "cancelled") throw new Told(job.words ?? t("not-done"), 0, job);
    await new Promise((done, stop) => {
      const timer = setTimeout(done, wait);
      signal?.addEventListener("abort", () => (clearTimeout(timer), stop(new DOMException("left", "AbortError"))), { once: true });
    });
  }
}

export async function image(path, signal) {
  const { result, file } = await finished(await get(path, signal), { signal });
  return result ?? get(file, signal);
}
