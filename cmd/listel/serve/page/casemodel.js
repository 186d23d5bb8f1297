// casemodel.js: the case that is open as the server fits and draws it, and the changes to its text.
//
//   model.doc        the case's Doc, or null
//   model.answer     the last answer, with mistakes when it does not fit; null before the first
//   model.good       the last that fitted: what is drawn meanwhile; null when there was none
//   model.selected   name of the molding that is chosen ("beads" for the beads), "" for none; model.select(name, run)
//   model.run        the run that is chosen with it, "" for all of them
//   await model.edit({op, path, value}, {label, merge})   changes one key: one step of undo. Throws what the server refuses.
//   model.type(text)                                       the whole text as it is being typed
//   model.on(type, fn)   "answer", "select", "doc"

import * as api from "./api.js";
import { Teller } from "./teller.js";

// inPlainWords leaves out of a mistake what only a reader of the text, or of the terminal, has a use for.
const inPlainWords = (text) => text.replace(/^(column \d+ of )?line \d+: /, "").replace(/; library list shows.*$/, "");

const finest = 64; // pieces are cut to the finest fraction, as the miter command prints them

export class CaseModel extends Teller {
  constructor(store) {
    super();
    this.store = store;
    this.tail = Promise.resolve();
    this.follow = true; // what hangs on the size of a stage goes with it
    this.#reset();
    store.on("current", (kind) => (kind === "case" ? this.#follow() : this.redraw()));
    store.on("text", (doc) => (doc !== this.doc || doc.text !== this.shownText) && this.redraw());
    store.on("saved", () => this.redraw());
    store.on("files", () => this.redraw());
    store.on("prefs", () => this.redraw());
    this.#follow();
  }

  #reset() {
    Object.assign(this, { doc: null, answer: null, good: null, selected: "", run: "", shownText: null });
  }

  #follow() {
    if (this.doc === this.store.case) return;
    this.going?.abort();
    this.#reset();
    this.doc = this.store.case;
    this.tell("doc");
    this.redraw();
  }

  get file() {
    return this.doc ? this.doc.path || this.doc.name : "";
  }

  get #asked() {
    return { name: this.file, text: this.doc.text, profiles: this.store.overlay(), units: this.store.prefs.units, fraction: finest };
  }

  select(name, run = "") {
    if (this.selected === name && this.run === run) return;
    this.selected = name;
    this.run = run;
    this.tell("select");
  }

  get molding() {
    return this.good?.moldings.find((m) => m.name === this.selected) ?? null;
  }

  // Hidden views ask for nothing: what changed meanwhile is drawn when the view is shown.
  pause(paused) {
    this.paused = paused;
    if (!paused && this.waiting) this.redraw();
  }

  redraw() {
    this.waiting = true;
    if (this.paused || !this.doc) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.#ask(), 20);
  }

  async #ask(stock = false) {
    if (!this.doc) return;
    clearTimeout(this.stockTimer);
    this.waiting = false;
    this.going?.abort();
    const going = new AbortController();
    this.going = going;
    const { doc } = this;
    const asked = { ...this.#asked, stock };
    try {
      const answer = await api.post("/api/case", asked, { signal: going.signal });
      if (this.doc === doc && doc.text === asked.text) this.#take(answer, asked.text, stock);
    } catch (e) {
      if (e.name !== "AbortError") this.#fail(e);
    }
  }

  #fail(e) {
    if (!this.answer) this.answer = { ok: false, fields: [], mistakes: [] };
    this.answer = { ...this.answer, ok: false, mistakes: [{ own: false, line: 0, key: "", text: e.message, plain: e.message }] };
    this.tell("answer");
  }

  #take(answer, text, stock = false) {
    this.shownText = text;
    this.answer = answer;
    this.doc.faulty = !answer.ok;
    for (const m of answer.mistakes) m.plain = inPlainWords(m.text);
    const before = this.molding;
    if (answer.ok) this.good = answer;
    if (before && !this.molding) {
      // A molding that has another name now stays chosen.
      const { moldings } = this.good;
      const renamed = moldings.length > before.index && this.good.moldings[before.index].profile === before.profile ? moldings[before.index] : null;
      this.selected = renamed?.name ?? "";
      this.run = "";
    }
    this.tell("answer");
    // Whether the stock will do takes a search: it is asked when the hands rest.
    if (answer.ok && !stock) this.stockTimer = setTimeout(() => this.paused || this.#ask(true), 700);
  }

  edit(change, how = {}) {
    const next = this.tail.catch(() => {}).then(() => this.#edit(change, how));
    this.tail = next;
    return next;
  }

  async #edit({ op, path, value }, { label = `changing ${path}`, merge = null }) {
    const { doc } = this;
    if (!doc) return;
    const { text } = doc;
    // What follows a size goes by what it was, so the entry after a refused one starts from what stood before that.
    const from = doc.amends(path) ? doc.past.at(-1)?.text ?? text : text;
    const asked = { ...this.#asked, text: from, change: { path, value: op === "unset" ? "" : value, follow: this.follow } };
    const answer = await api.post("/api/case", asked).catch((e) => {
      this.tell("answer"); // the fields take back what they had
      throw e;
    });
    if (this.doc !== doc || doc.text !== text) return; // typed over meanwhile
    const refused = op === "set" && !answer.ok && Boolean(doc.refused || this.answer?.ok);
    this.#take(answer, answer.text);
    this.store.edit(doc, answer.text, { label, merge, refused, path });
  }

  type(text) {
    if (this.doc) this.store.edit(this.doc, text, { label: "typing", merge: "typing" });
  }
}
