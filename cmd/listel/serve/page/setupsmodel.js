// setupsmodel.js: the plans of set-ups of what is open. Each is searched for by the server while the page goes on.
//
//   model.choice      {tools, work: machine | plane, effort: quick | usual | long, blank: "" | flat | upright}; model.choose({work: "plane"})
//   model.doc         the profile that is open, or null
//   model.plan        its last plan, or null;  model.stale: "" | "text" | "choice": what changed since it was asked for
//   model.state       {busy, stage, done, words, mistakes} of its search
//   model.look()      shows the plan that is kept from before, if there is one
//   model.search()    searches for it;  model.stop()
//   model.on("change", fn)      called at every change;  model.onfound = (doc) => {...}

import * as api from "./api.js";
import { Teller } from "./teller.js";

const idle = { busy: false, stage: "", done: 0, words: "", mistakes: [] };

/** How long to search, and from which blank what is sprung is molded: [value, words]. */
export const searches = {
  effort: [["quick", "quick"], ["usual", "usual"], ["long", "long"]],
  blank: [["", "flat if safe"], ["flat", "flat"], ["upright", "upright"]],
};

export class SetupsModel extends Teller {
  constructor(store) {
    super();
    this.store = store;
    this.choice = { tools: "", work: "machine", effort: "usual", blank: "", ...store.prefs.setups };
    this.records = new WeakMap();
    this.onfound = () => {};
    for (const type of ["current", "text"]) store.on(type, () => this.#changed());
    this.units = store.prefs.units;
    store.on("prefs", ({ units, setups }) => {
      Object.assign(this.choice, setups); // chosen with the sheets, perhaps
      if (units === this.units) return;
      this.units = units;
      const { doc } = this;
      if (doc && this.plan && !this.state.busy) this.#ask(doc, { kept: true }); // the same plan in other words
    });
  }

  #changed() {
    this.tell("change");
    this.store.tell("setups", this.state.busy ? "being planned" : !this.plan ? "" : this.stale ? "planned before the last change" : "planned");
  }

  get doc() {
    return this.store.profile;
  }

  #record(doc) {
    if (!this.records.has(doc)) this.records.set(doc, { plan: null, asked: null, state: idle, going: null });
    return this.records.get(doc);
  }

  get plan() {
    return this.doc ? this.#record(this.doc).plan : null;
  }

  get state() {
    return this.doc ? this.#record(this.doc).state : idle;
  }

  get stale() {
    const r = this.doc && this.#record(this.doc);
    if (!r?.plan) return "";
    const now = this.#asking(this.doc);
    return now.text !== r.asked.text || JSON.stringify(now.profiles) !== JSON.stringify(r.asked.profiles) ? "text" : JSON.stringify(now) !== JSON.stringify(r.asked) ? "choice" : "";
  }

  // asking is all that a plan follows from.
  #asking(doc) {
    const profiles = this.store.overlay();
    delete profiles[doc.name];
    return { name: doc.path || doc.name, text: doc.text, profiles, ...this.choice };
  }

  choose(change) {
    Object.assign(this.choice, change);
    this.store.setPrefs({ setups: { ...this.choice } });
    this.look();
    this.#changed();
  }

  look() {
    const { doc } = this;
    if (!doc || this.state.busy || (this.plan && !this.stale)) return;
    const asked = JSON.stringify(this.#asking(doc));
    if (this.looked === asked) return;
    this.looked = asked;
    this.#ask(doc, { kept: true });
  }

  search() {
    if (this.doc) this.#ask(this.doc, { kept: false });
  }

  stop() {
    if (this.doc) this.#record(this.doc).going?.abort();
  }

  async #ask(doc, { kept }) {
    const r = this.#record(doc);
    r.going?.abort();
    const going = (r.going = new AbortController());
    const asked = this.#asking(doc);
    const { units } = this.store.prefs;
    if (!kept) r.state = { ...idle, busy: true };
    this.#changed();
    try {
      await api.stream("/api/setups", { ...asked, kept, units: units || undefined }, (line) => {
        if (r.going !== going) return;
        if (line.plan) {
          Object.assign(r, { plan: line.plan, asked, state: idle });
          this.onfound(doc, { kept });
        } else if (line.mistakes || line.error) {
          r.state = kept ? idle : { ...idle, words: line.error ?? "", mistakes: line.mistakes ?? [] };
        } else if ("done" in line) {
          r.state = { ...r.state, ...line };
        }
        this.#changed();
      }, { signal: going.signal });
    } catch (e) {
      if (r.going !== going) return;
      r.state = kept ? idle : { ...idle, words: e.name === "AbortError" ? "Stopped." : e.message };
    }
    if (r.going !== going) return;
    if (r.state.busy) r.state = { ...idle, words: "The search ended without a plan." };
    r.going = null;
    this.#changed();
  }
}
