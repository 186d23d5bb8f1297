// sectionmodel.js: the drawing of the profile that is open, and the changes to it. The server draws; this keeps its answers.
//
//   model.doc         the profile's Doc, or null
//   model.section     the last answer (SECTION), with mistakes when it cannot be built; null before the first
//   model.good        the last one that could be built: what is drawn meanwhile; null when there was none
//   model.selected    index of the selected member from the foot, -1 for none; model.select(i)
//   await model.edit(change, {label, merge, select})   sends one change ({op: ...}); one step of undo. Throws what the server refuses.
//   await model.add(at, kind)  adds a member, and above one that cannot end a molding its fillet
//   model.focusNext  set: the row of the selected member gets the focus when it is drawn
//   model.drag(index, corner)  -> {move(x, y, snap), done}   changes under the hand: one request at a time, the latest wins,
//                                 the whole drag is one step of undo; await done() at its end, cancel() takes it back
//   model.step        the maker's fraction as the server takes it ("1/16", "0.5mm"); model.stepMM its length
//   model.on(type, fn)   "section": a new answer; "select": another member; "lag" ms from a change to its drawing;
//                        "busy" whether an answer is awaited

import * as api from "./api.js";
import { note } from "./dom.js";
import { Teller } from "./teller.js";

const remembered = 60; // answers kept so that undo and redo need not ask again

export class SectionModel extends Teller {
  constructor(store) {
    super();
    this.store = store;
    this.pending = 0;
    this.tail = Promise.resolve();
    this.answers = new Map();
    this.#reset();
    store.on("current", (kind) => kind === "profile" && this.#follow());
    store.on("text", (doc) => doc === this.doc && doc.text !== this.drawn && this.redraw());
    store.on("prefs", ({ units, fraction }) => {
      if (units === this.shownIn?.units && fraction === this.shownIn.fraction) return;
      this.shownIn = { units, fraction };
      this.answers.clear();
      this.redraw();
    });
    this.shownIn = { ...store.prefs };
  }

  #reset() {
    Object.assign(this, { doc: null, section: null, good: null, goodText: null, drawn: null, selected: -1 });
  }

  #follow() {
    if (this.doc === this.store.profile) return;
    this.#reset();
    this.doc = this.store.profile;
    this.tell("section");
    this.redraw();
  }

  get units() {
    return this.store.prefs.units || this.section?.units || "in";
  }

  get step() {
    return this.units === "mm" ? "0.5mm" : `1/${this.store.prefs.fraction}`;
  }

  get stepMM() {
    return this.units === "mm" ? 0.5 : 25.4 / this.store.prefs.fraction;
  }

  /** What every request on the profile carries. */
  request(text = this.doc.text) {
    const { units, fraction } = this.store.prefs;
    const profiles = this.store.overlay();
    delete profiles[this.doc.name];
    return { name: this.doc.name, text, units: units || undefined, fraction, profiles };
  }

  select(index) {
    const known = this.section?.members ?? this.good?.members;
    if (known) index = Math.min(index, known.length - 1);
    if (index === this.selected) return;
    this.selected = index;
    this.tell("select");
  }

  /** Draws the text as it is now; when texts come faster than answers, the latest wins. */
  async redraw() {
    if (!this.doc) return;
    const { doc } = this;
    const known = this.answers.get(doc.text);
    if (known) {
      this.asking?.abort();
      this.asking = null;
      this.#take(doc.text, known);
      return;
    }
    this.asking?.abort();
    const asking = (this.asking = new AbortController());
    const { text } = doc;
    try {
      const section = await api.post("/api/section", this.request(), { signal: asking.signal });
      if (this.doc === doc && doc.text === text) this.#take(text, section);
    } catch (e) {
      if (e.name !== "AbortError") this.#fail(e);
    }
  }

  #fail(e) {
    this.section = { ...(this.section ?? {}), ok: false, mistakes: [{ index: -1, key: "", text: e.message }] };
    this.tell("section");
  }

  #take(text, section) {
    this.answers.delete(text);
    this.answers.set(text, section);
    if (this.answers.size > remembered) this.answers.delete(this.answers.keys().next().value);
    this.drawn = text;
    this.section = section;
    this.doc.faulty = !section.ok;
    if (section.ok) {
      this.good = section;
      this.goodText = text;
    }
    const count = section.members?.length ?? 0;
    if (count && this.selected >= count) this.selected = count - 1;
    this.tell("section");
  }

  edit(change, { label, merge = null, select } = {}) {
    const { doc } = this;
    const run = this.tail.catch(() => {}).then(async () => {
      if (this.doc !== doc) return;
      const from = performance.now();
      const { version } = doc;
      const good = doc.refused || this.section?.ok;
      const answer = await api.post("/api/edit", { ...this.request(doc.text), change });
      if (this.doc !== doc || doc.version !== version) return;
      const refused = change.op === "set" && !answer.section.ok && good;
      this.#edited(doc, answer, { label: label ?? words(change), merge, refused, path: change.path }, select ?? answer.selected);
      if (answer.told) note(answer.told);
      this.tell("lag", performance.now() - from);
    });
    this.tail = run;
    this.#waits(run);
    return run;
  }

  /** Adds a member. One that ends in a feather at the top gets the fillet that crowns it, in the same step of undo. */
  add(at, kind) {
    const work = this.#add(at, kind);
    this.#waits(work);
    return work;
  }

  async #add(at, kind) {
    const how = { label: `adding the ${kind}`, merge: `add ${this.doc.version}`, select: at };
    await this.edit({ op: "insert", at, kind }, how);
    const { text } = this.doc;
    if (this.wantsCrown && at === this.section.members.length - 1) {
      await this.crown(how);
      if (this.section.ok) note(`A fillet is put above the ${kind} with it: by itself it would end in a feather edge.`);
      else this.store.edit(this.doc, text, how);
    }
    this.doc.merge = null;
  }

  /** Whether the last member cannot end the molding, and is no flat, so that a fillet above it would help. */
  get wantsCrown() {
    const { ok, members, mistakes } = this.section ?? {};
    const top = members?.at(-1);
    return Boolean(!ok && top && top.kind !== "fillet" && mistakes.every((m) => m.index === top.index && !m.key.includes(".")));
  }

  crown(how = { select: this.selected }) {
    return this.edit({ op: "insert", at: this.section.members.length, kind: "fillet" }, { label: "crowning it with a fillet", ...how });
  }

  #waits(work) {
    if (++this.pending === 1) this.tell("busy", true);
    work.catch(() => {}).then(() => --this.pending || this.tell("busy", false));
  }

  #edited(doc, answer, how, chosen) {
    const moved = Number.isInteger(chosen) && chosen !== this.selected;
    if (moved) this.selected = chosen; // told after the section that it belongs to
    this.asking?.abort();
    this.drawn = answer.text; // so that the change of the text does not ask once more
    this.store.edit(doc, answer.text, how);
    this.#take(answer.text, answer.section);
    if (moved) this.tell("select");
  }

  drag(index, corner) {
    const { doc } = this;
    const start = doc.text;
    const merge = `drag ${doc.version}`;
    const label = `moving ${/ /.test(corner) ? `${corner} of` : "the corner of"} ${index + 1} ${this.good?.members[index]?.kind ?? ""}`;
    let next = null;
    let busy = null;
    let over = false;
    let moved = false;
    const send = async () => {
      while (next) {
        const { change, from } = next;
        next = null;
        const { version } = doc;
        const answer = await api.post("/api/edit", { ...this.request(start), change });
        if (over || this.doc !== doc || doc.version !== version) return;
        moved ||= answer.text !== start;
        this.#edited(doc, answer, { label, merge });
        this.tell("lag", performance.now() - from);
      }
    };
    return {
      move: (x, y, snap) => {
        next = { change: { op: "drag", at: index, corner, x, y, snap }, from: performance.now() };
        if (!busy) {
          busy = send().finally(() => (busy = null));
          this.#waits(busy);
        }
        return busy;
      },
      done: async () => {
        await busy;
        over = true;
        doc.merge = null;
      },
      cancel: () => {
        over = true;
        next = null;
        if (moved && doc.text !== start) this.store.undo(doc);
      },
    };
  }
}

// words says in a few words what a change does, for undo.
function words(c) {
  switch (c.op) {
    case "set": return `setting ${c.path.replace(/^elements\[(\d+)\]\./, (_, n) => `${+n + 1}, `)} to ${c.value}`;
    case "unset": return `leaving out ${c.path}`;
    case "insert": return `adding the ${c.kind}`;
    case "remove": return `taking out member ${c.at + 1}`;
    case "move": return `moving member ${c.at + 1}`;
    case "kind": return `making member ${c.at + 1} a ${c.kind}`;
    case "point": return c.kind === "remove" ? `taking out point ${c.to + 1}` : `changing point ${c.to + 1}`;
    case "drag": return `moving a corner of member ${c.at + 1}`;
    case "back": return "changing the back";
    case "scale": return `scaling it to ${c.value}`;
    default: return "the change";
  }
}
