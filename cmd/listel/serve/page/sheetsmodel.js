// sheetsmodel.js: the sheets of what is open, as the server draws them, and what they are drawn on.
//
//   model.choice     {what: packet | section | template | setups, paper, landscape, printer, setups, work, tools}; model.choose({paper: "A4"})
//   model.doc        the Doc that the sheets are of: the case for a packet, else the profile; null when there is none
//   model.pages      [{n, part, title, purpose, width_mm, height_mm, full_size, url}]; url is there once the sheet has come
//   model.state      {busy, stage, done, of, words, mistakes, notes, kept}: what is going on, what went wrong, which file was kept
//   model.stop()     stops the search for set-ups
//   await model.file(format)   the Blob of a file to keep: pdf, svg, files
//   model.on("change", fn)     called at every change

import * as api from "./api.js";
import { Teller } from "./teller.js";

export class SheetsModel extends Teller {
  constructor(store) {
    super();
    this.store = store;
    this.choice = { what: "packet", paper: "", landscape: false, printer: "", setups: false, work: "machine", tools: "", ...store.prefs.sheets };
    this.pages = [];
    this.state = { busy: false, words: "", mistakes: [], notes: [] };
    this.paused = true;
    for (const type of ["current", "text", "saved", "files"]) store.on(type, () => this.later());
    store.on("prefs", ({ sheets }) => {
      Object.assign(this.choice, sheets);
      this.later();
    });
  }

  get doc() {
    return this.choice.what === "packet" ? this.store.case : this.store.profile;
  }

  /** What can be drawn of what is open: [[what, words]]. */
  get whats() {
    const { case: c, profile: p } = this.store;
    return [...(c ? [["packet", `${c.name}: packet`]] : []),
      ...(p ? [["section", `${p.name}: section`], ["template", `${p.name}: template`], ["setups", `${p.name}: set-ups`]] : [])];
  }

  /** Whether set-ups are among the sheets. */
  get planned() {
    const { what, setups } = this.choice;
    return what === "setups" || (what === "packet" && setups);
  }

  get request() {
    const { what, paper, landscape, printer, setups, work, tools } = this.choice;
    const { effort, blank } = this.store.prefs.setups ?? {}; // as they are planned in their own view
    return { ...(this.planned ? { work, tools } : {}), ...(what === "setups" ? { effort, blank } : {}), what, paper, landscape, printer, setups: what === "packet" && setups, name: this.doc.path || this.doc.name, text: this.doc.text,
      profiles: this.store.overlay(), units: this.store.prefs.units };
  }

  choose(change) {
    Object.assign(this.choice, change);
    this.store.setPrefs({ sheets: { ...this.choice } });
    this.store.tell("steps"); // of another file, perhaps
    this.later();
    this.tell("change");
  }

  /** Chooses how the set-ups of a molding are searched for, here as in their own view. */
  plan(change) {
    this.store.setPrefs({ setups: { ...this.store.prefs.setups, ...change } });
    this.later();
  }

  pause(paused) {
    this.paused = paused;
    if (!paused) this.later();
  }

  later() {
    if (this.paused) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.#start(), 120);
  }

  #start() {
    const { whats } = this;
    if (!whats.some(([w]) => w === this.choice.what)) this.choice.what = whats[0]?.[0] ?? "packet";
    if (!this.doc) {
      this.going?.abort();
      this.#replace([]);
      this.drawn = this.stands = null;
      this.tell("change");
      return;
    }
    const asked = JSON.stringify(this.request);
    if (asked === this.drawn) return;
    this.drawn = asked;
    this.going?.abort();
    this.going = new AbortController();
    this.#run(this.going).catch(() => {});
  }

  // run draws the sheets without set-ups at once; those with set-ups take their place when they are found.
  async #run(going) {
    const request = this.request;
    const { work, tools, ...rest } = request;
    const plain = { ...rest, setups: false };
    const steps = request.setups && this.stands !== JSON.stringify(plain) ? [plain, request] : [request];
    this.state = { busy: true, words: "", mistakes: [], notes: [] };
    this.tell("change");
    for (const step of steps) {
      if (!(await this.#sheets(step, going))) return;
    }
    this.state = { ...this.state, busy: false, stage: "", of: 0 };
    this.tell("change");
  }

  async #sheets(request, going) {
    let good = true;
    let pages = [];
    try {
      await api.stream("/api/sheets", request, (line) => {
        if (this.going !== going) return;
        if (line.sheets) {
          pages = line.sheets;
          this.stem = line.stem;
          this.paper = line.paper; // that is usual, or chosen
          this.state.notes = line.notes;
          this.unsaved = line.unsaved; // what is drawn otherwise than the disk has it
        } else if (line.svg) {
          pages[line.n - 1].url = URL.createObjectURL(new Blob([line.svg], { type: "image/svg+xml" }));
        } else if (line.mistakes || line.error) {
          good = false;
          this.state = { busy: false, words: line.error ?? "", mistakes: line.mistakes ?? [], notes: [] };
        } else if ("done" in line) {
          Object.assign(this.state, line);
          this.tell("change");
        }
      }, { signal: going.signal });
    } catch (e) {
      for (const p of pages) URL.revokeObjectURL(p.url);
      if (this.going !== going) return false;
      this.state = { busy: false, words: e.name === "AbortError" ? "Stopped. The sheets without set-ups stand." : e.message, mistakes: [], notes: [] };
      this.drawn = e.name === "AbortError" ? this.drawn : null;
      this.tell("change");
      return false;
    }
    if (this.going !== going) return false;
    if (good) {
      this.#replace(pages);
      this.stands = JSON.stringify(request);
    }
    this.tell("change");
    return good;
  }

  #replace(pages) {
    for (const p of this.pages) URL.revokeObjectURL(p.url);
    this.pages = pages;
  }

  stop() {
    this.going?.abort();
  }

  file(format) {
    return api.blob(`/api/packet?format=${format}`, this.request);
  }

  /** What a file of these sheets is called. */
  fileName(format) {
    return format === "pdf" ? `${this.stem}.pdf` : `${this.stem}-${format}.zip`;
  }
}
