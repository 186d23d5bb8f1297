// api.js: what the page asks of its server.
//
//   get(path, {signal})            answer of a GET, read from JSON
//   file(path), entry(kind, name)  the text of a file of the folder, and of an entry of the library
//   post(path, body, {signal})     answer of a POST; body is sent as JSON, a Blob as it is
//   put(path, body, {signal})
//   blob(path, body, {signal})     the answer as a Blob: a file to download
//   whole(path, body, {signal})    the answer as fetch gives it, with its heads
//   stream(path, body, each, {signal})  newline-delimited JSON, each(value) for every line as it comes
//   events(each)                   server-sent events: each({type, ...}), type "file" or "connection" {up}
//
// A refusal throws Refused with status and the words of the server; an interrupted request throws what fetch throws.
// Stop a request with an AbortController's signal: the server stops its work too.

const meta = (name) => document.querySelector(`meta[name="${name}"]`)?.content ?? "";

/** The folder that is served, as the server names it. */
export const folder = meta("folder");

const token = meta("token");

/** A Refused is an answer of the server other than success. */
export class Refused extends Error {
  constructor(status, answer) {
    super(answer?.error || `The server answered ${status}.`);
    this.status = status;
    this.answer = answer ?? {};
  }
}

async function ask(method, path, body, { signal } = {}) {
  const headers = { "X-Token": token };
  if (body !== undefined && !(body instanceof Blob)) {
    headers["Content-Type"] = "application/json";
    body = JSON.stringify(body);
  }
  const answer = await fetch(path, { method, headers, body, signal });
  if (!answer.ok) {
    throw new Refused(answer.status, await answer.json().catch(() => null));
  }
  return answer;
}

export const get = async (path, o) => (await ask("GET", path, undefined, o)).json();
export const file = (path) => get("/api/file?path=" + encodeURIComponent(path));
export const entry = (kind, name) => get(`/api/library/text?kind=${kind}&name=${encodeURIComponent(name)}`);
export const post = async (path, body, o) => (await ask("POST", path, body, o)).json();
export const put = async (path, body, o) => (await ask("PUT", path, body, o)).json();
export const whole = (path, body, o) => ask("POST", path, body, o);
export const blob = async (path, body, o) => (await ask("POST", path, body, o)).blob();

export async function stream(path, body, each, o) {
  const answer = await ask("POST", path, body, o);
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { value, done } = await reader.read();
    rest += value ?? "";
    const lines = rest.split("\n");
    rest = done ? "" : lines.pop();
    for (const line of lines) {
      if (line.trim()) each(JSON.parse(line));
    }
    if (done) return;
  }
}

export function events(each) {
  const source = new EventSource("/api/events?token=" + encodeURIComponent(token));
  source.addEventListener("file", (e) => each({ type: "file", ...JSON.parse(e.data) }));
  source.addEventListener("open", () => each({ type: "connection", up: true }));
  source.addEventListener("error", () => each({ type: "connection", up: false }));
  return () => source.close();
}
