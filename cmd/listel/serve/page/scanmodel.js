// scanmodel.js: a plate, what is known of it, and the section that is traced from it. Places are pixels of the plate, from its left and its top.
// All of it lives as long as the page does; the server keeps nothing.
//
//   model.plate       {name, path, blob, url, image, width, height}, or null;  await model.load({blob, name} | {path})
//   model.scales      [{lengths: [{from, to, text, bar}], points: [{at, x, y}]}];  model.scale: index of the one in use
//   model.section     {name, title, face, drawn, parts, tolerance, crop: null | [left, top, right, bottom], back: null | [x, y], points: [[x, y], ...]}
//   model.change(fn, {label, merge})  fn changes the two: one step of undo, those in a row with the same merge one together; what was traced is then old
//   model.steps       {undo, redo: what was done, "" for nothing; back(), again()};  model.turn counts the steps gone back and again
//   model.reading(text)   how a length is read: {words} or {fault}, null until the server has told
//   model.result      what was traced, or null;  model.old: whether something changed since
//   model.faults      [{scale, row, key, text, boxes}];  model.state {busy, stage, done, of, words}
//   await model.trace();  model.stop();  model.open()   opens the result as a profile, the plate under it
//   await model.layUnder(doc)   lays the plate under a profile, as it is traced, else by the crop's corner; says which, "" when it cannot be
//   model.on("change", fn)      called at every change

import * as api from "./api.js";
import { note, say } from "./dom.js";
import { stem } from "./store.js";
import { Teller } from "./teller.js";
import { flatten } from "./underlay.js";

const idle = { busy: false, stage: "", done: 0, of: 0, words: "" };

export class ScanModel extends Teller {
  constructor(store) {
    super();
    this.store = store;
    this.readings = new Map();
    this.#empty();
  }

  #empty() {
    Object.assign(this, { plate: null, scales: [{ lengths: [], points: [] }], scale: 0, result: null, old: false, faults: [], state: idle,
      past: [], future: [], merge: null, turn: 0,
      section: { name: "", title: "", face: "right", drawn: "any", parts: false, tolerance: "", crop: null, back: null, points: [] } });
  }

  get units() {
    return this.store.prefs.units || "in";
  }

  get rows() {
    return this.scales[this.scale];
  }

  async load({ blob = null, path = "", name = path }) {
    this.stop();
    const answer = await api.whole("/api/scan/picture", framed({ path, name }, blob));
    const shown = await answer.blob();
    const url = URL.createObjectURL(shown);
    const image = new Image();
    image.src = url;
    try {
      await image.decode();
    } catch {
      URL.revokeObjectURL(url);
      throw new Error(`${name} cannot be shown.`);
    }
    if (this.plate) URL.revokeObjectURL(this.plate.url);
    this.#empty();
    const [width, height] = ["X-Width", "X-Height"].map((h) => Number(answer.headers.get(h)));
    this.plate = { name, path, blob, url, image, width, height };
    this.section.name = `${stem(name.replace(/\.\w+$/, "")).toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "plate"}-molding`;
    this.tell("change");
  }

  change(fn, { label = "the change", merge = null } = {}) {
    const was = this.#state();
    fn(this);
    if (this.#state() !== was) {
      if (merge === null || merge !== this.merge) this.past.push({ state: was, label });
      this.merge = merge;
      this.future = [];
      this.old = this.result !== null;
    }
    this.tell("change");
  }

  #state() {
    return JSON.stringify([this.scales, this.scale, this.section]);
  }

  get steps() {
    const step = (from, to, words) => {
      const last = from.pop();
      if (!last) return;
      to.push({ state: this.#state(), label: last.label });
      [this.scales, this.scale, this.section] = JSON.parse(last.state);
      Object.assign(this, { merge: null, faults: [], old: this.result !== null && last.state !== this.tracedState, turn: this.turn + 1 });
      say(`${words}: ${last.label}`);
      this.tell("change");
    };
    return { undo: this.past.at(-1)?.label ?? "", redo: this.future.at(-1)?.label ?? "",
      back: () => step(this.past, this.future, "Undone"), again: () => step(this.future, this.past, "Done again") };
  }

  reading(text) {
    const key = this.units + text;
    if (text.trim() === "") return null;
    if (!this.readings.has(key)) {
      this.readings.set(key, null);
      api.post("/api/length", { text, units: this.units }).then(({ words }) => ({ words }), (e) => (e instanceof api.Refused ? { fault: e.message } : null)).then((told) => {
        if (told) this.readings.set(key, told);
        else this.readings.delete(key);
        this.tell("change");
      });
    }
    return this.readings.get(key);
  }

  get request() {
    const { plate, section, units } = this;
    return { path: plate.path, name: plate.name, units, fraction: units === "mm" ? 0 : this.store.prefs.fraction,
      scales: this.scales.map((s, i) => ({ name: String(i + 1), ...s })), section: { ...section, scale: this.scale } };
  }

  trace() {
    const state = this.#state();
    return this.#ask(this.request, (traced) => Object.assign(this, { result: traced, old: false, tracedState: state }));
  }

  // What is traced of the plate tells how it lies. Where nothing can be, the crop, clicked as a section, does: its corner at the back and foot is
  // the drawing's zero.
  async layUnder(doc) {
    const { plate } = this;
    if (!this.result || this.old) await this.trace();
    if (this.result && !this.old) {
      this.#lay(doc, this.result);
      return "The plate lies as it was traced, its back and foot at the molding's.";
    }
    const told = { faults: this.faults, state: this.state };
    if (this.state.stopped || this.faults.some((f) => f.boxes.length || f.scale >= 0)) return "";
    const [l, t, r, f] = this.section.crop ?? [0, 0, plate.width, plate.height];
    let laid = "";
    const { request } = this;
    await this.#ask({ ...request, section: { ...request.section, points: [[l, f], [r, f], [r, t], [l, t]] } }, (traced) => {
      this.#lay(doc, traced);
      laid = "Nothing could be traced: the lower corner of the crop, at the back, lies at the molding's foot.";
    });
    if (!laid) Object.assign(this, told);
    this.tell("change");
    return laid;
  }

  #lay(doc, traced) {
    doc.plate = flatten(this.plate, traced);
    this.store.tell("plate", doc);
  }

  async #ask(request, take) {
    if (!this.plate || this.state.busy) return;
    const going = (this.going = new AbortController());
    Object.assign(this, { faults: [], state: { ...idle, busy: true } });
    this.tell("change");
    try {
      await api.stream("/api/scan/trace", framed(request, this.plate.path ? null : this.plate.blob), (line) => {
        if (this.going !== going) return;
        if ("done" in line) this.state = { ...this.state, ...line };
        else this.state = { ...idle, words: line.error ?? "" };
        if (line.faults) this.faults = line.faults;
        if (line.traced) take(line.traced);
        this.tell("change");
      }, { signal: going.signal });
    } catch (e) {
      if (this.going === going) this.state = { ...idle, words: e.name === "AbortError" ? "Stopped." : e.message, stopped: e.name === "AbortError" };
    }
    if (this.going !== going) return;
    if (this.state.busy) this.state = { ...idle, words: "It ended without a section." };
    this.going = null;
    this.tell("change");
  }

  stop() {
    this.going?.abort();
  }

  open() {
    const { result, store } = this;
    const former = store.profile;
    const name = store.free(result.name);
    const text = name === result.name ? result.text : result.text.replace(/^name:.*$/m, `name: ${name}`);
    const doc = store.start("profile", text, { name, origin: { label: "as traced", text } });
    this.#lay(doc, result);
    if (former) note(`${former.name} is kept as it stands${former.dirty ? ", not saved" : ""}: Open lists it.`);
  }
}

// framed is a request with the bytes of a picture behind it: a line of JSON, then the picture.
const framed = (request, blob) => new Blob([JSON.stringify(request), "\n", ...(blob ? [blob] : [])]);
