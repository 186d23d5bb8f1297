// store.js: the files that are open, kept over a reload, saved, and followed on the disk. One store serves all views.
//
//   store.profile, store.case      the Doc (see doc.js) that the views show, or null; store.current(kind)
//   store.section                  the drawing of store.profile and the changes to it (see sectionmodel.js)
//   store.prefs                    {units: "" (the file's) | "in" | "mm", fraction: 16, ...}; store.setPrefs({fraction: 32})
//   store.files                    the listing of the folder; await store.list() reads it anew
//   await store.open(path)         opens a file of the folder and shows it; returns its Doc
//   store.free(name)               the name, or it with a number where it is taken
//   store.start(kind, text, {name, origin})   begins one that is not on the disk yet
//   store.edit(doc, text, {label, merge, refused, path})   changes a text: one step of undo, unless it is refused as it was typed (see doc.js)
//   store.undo(doc), store.redo(doc)
//   await store.save(doc, path)    writes it; false when the disk has something else (doc.outside is then set)
//   store.keepMine(doc), store.takeTheirs(doc)   answers to doc.outside
//   store.overlay()                {name: text} of open profiles that are not saved: send it as `profiles`
//   store.on(type, fn)             returns a function that stops it. Types, with what fn gets:
//        "current" kind        another Doc is shown          "text" doc     a text changed
//        "saved" doc           a Doc was written             "outside" doc  the disk changed under a Doc (look at doc.outside)
//        "prefs" prefs         units or fraction changed     "files" list   the folder was listed
//        "connection" up       the server is there, or not
//        "steps"               a view that has steps of undo of its own took one
//        "setups" words        how far the set-ups of store.profile are: being planned, planned, ..., "" for not at all

import * as api from "./api.js";
import { fail, note, say, unsay } from "./dom.js";
import { Doc } from "./doc.js";
import { recall, remember } from "./remember.js";
import { SectionModel } from "./sectionmodel.js";
import { Teller } from "./teller.js";

const keptAs = "listel:" + api.folder;

export class Store extends Teller {
  constructor() {
    super();
    this.docs = [];
    this.profile = null;
    this.case = null;
    this.files = [];
    this.prefs = { units: "", fraction: 16, ...parsed(recall("prefs")) };
    this.section = new SectionModel(this);
  }

  current(kind) {
    return kind === "case" ? this.case : this.profile;
  }

  show(doc) {
    if (!this.docs.includes(doc)) this.docs.push(doc);
    this[doc.kind === "case" ? "case" : "profile"] = doc;
    this.keep();
    this.tell("current", doc.kind);
  }

  /** Puts a Doc away, and what it had unsaved with it. */
  close(doc) {
    this.docs = this.docs.filter((d) => d !== doc);
    const place = doc.kind === "case" ? "case" : "profile";
    if (this[place] === doc) this[place] = null;
    this.keep();
    this.tell("current", doc.kind);
  }

  setPrefs(change) {
    Object.assign(this.prefs, change);
    remember("prefs", JSON.stringify(this.prefs));
    this.tell("prefs", this.prefs);
  }

  async list() {
    const answer = await api.get("/api/files");
    this.files = answer.files;
    this.tell("files", this.files);
    return this.files;
  }

  async open(path) {
    const open = this.docs.find((d) => d.path === path);
    if (open) {
      this.show(open);
      return open;
    }
    const [file, listed] = await Promise.all([
      api.file(path),
      this.files.find((f) => f.path === path) ?? this.list().then((l) => l.find((f) => f.path === path)),
    ]);
    const doc = new Doc({
      kind: listed?.kind ?? "profile", path, name: stem(path), text: file.text, base: file.hash, saved: file.text,
      origin: { label: "as opened", text: file.text },
    });
    this.show(doc);
    return doc;
  }

  /** A name that no file has, and nothing that is open: the one given, or it with a number. */
  free(name) {
    let own = name;
    for (let n = 2; this.files.some((f) => f.name === own) || this.docs.some((d) => d.name === own); n++) own = `${name}-${n}`;
    return own;
  }

  start(kind, text, { name, origin = null }) {
    const doc = new Doc({ kind, name, text, origin });
    this.show(doc);
    return doc;
  }

  edit(doc, text, how) {
    if (!doc.change(text, how)) return;
    this.keep();
    this.tell("text", doc);
  }

  undo(doc) {
    const label = doc.undo();
    if (label) this.#stepped(doc, `Undone: ${label}`);
  }

  redo(doc) {
    const label = doc.redo();
    if (label) this.#stepped(doc, `Done again: ${label}`);
  }

  #stepped(doc, words) {
    this.keep();
    unsay();
    say(words);
    this.tell("text", doc);
  }

  async save(doc, path = doc.path) {
    const text = doc.text;
    const base = path === doc.path ? doc.base : "";
    const copy = doc.path !== "" && path !== doc.path;
    try {
      const answer = await api.put("/api/file", { path, text, base });
      Object.assign(doc, { path, name: stem(path), base: answer.hash, saved: text, outside: null });
      if (copy) doc.origin = { label: "as saved", text }; // it is a molding of its own from here on
      doc.merge = null;
      this.keep();
      this.tell("saved", doc);
      this.list().catch(() => {});
      note(`Saved as ${path}.${doc.faulty ? " It cannot be drawn as it stands." : ""}`);
      return true;
    } catch (e) {
      if (!(e instanceof api.Refused) || e.status !== 409 || path !== doc.path) throw e;
      this.#other(doc, { text: e.answer.text ?? "", hash: e.answer.hash ?? "" });
      return false;
    }
  }

  keepMine(doc) {
    doc.base = doc.outside.hash;
    doc.saved = doc.outside.text;
    doc.outside = null;
    this.keep();
    this.tell("outside", doc);
    note("Yours is kept. It replaces the file when you save.");
  }

  takeTheirs(doc) {
    const { text, hash } = doc.outside;
    Object.assign(doc, { base: hash, saved: text, outside: null });
    this.edit(doc, text, { label: "taking the file as it is on the disk" });
    this.keep();
    this.tell("outside", doc);
    note("The file on the disk is taken. Undo brings yours back.");
  }

  overlay() {
    const texts = {};
    for (const d of this.docs) {
      if (d.kind === "profile" && d.dirty) texts[d.name] = d.text;
    }
    return texts;
  }

  /** Follows the disk until the page is closed. */
  follow() {
    api.events((e) => {
      if (e.type === "connection") {
        this.#connected(e.up);
        return;
      }
      this.#relist();
      const doc = this.docs.find((d) => d.path === e.path);
      if (doc) this.#look(doc, e.hash).catch(fail);
    });
  }

  #connected(up) {
    if (this.up === up) return;
    const back = this.up === false && up;
    this.up = up;
    this.tell("connection", up);
    if (!back) return;
    this.#relist();
    for (const doc of this.docs) {
      if (doc.path) this.#look(doc, null).catch(() => {});
    }
  }

  #relist() {
    clearTimeout(this.listing);
    this.listing = setTimeout(() => this.list().catch(() => {}), 200);
  }

  async #look(doc, hash) {
    if (hash === doc.base) return;
    if (hash === "") {
      this.#other(doc, { text: "", hash: "", gone: true });
      return;
    }
    const file = await api.file(doc.path);
    if (file.hash === doc.base) return;
    if (file.text === doc.text) {
      Object.assign(doc, { base: file.hash, saved: file.text, outside: null });
      this.keep();
      this.tell("saved", doc);
      return;
    }
    if (doc.dirty) {
      this.#other(doc, { text: file.text, hash: file.hash });
      return;
    }
    doc.base = file.hash;
    doc.saved = file.text;
    this.edit(doc, file.text, { label: "the change made outside" });
    this.tell("saved", doc);
    note(`${doc.path} was changed outside; this is the new one.`);
  }

  #other(doc, outside) {
    if (outside.gone) {
      doc.base = "";
      doc.saved = null;
      note(`${doc.path} is gone from the disk. Save writes it again.`, { bad: true });
      this.keep();
      this.tell("saved", doc);
      return;
    }
    doc.outside = outside;
    this.tell("outside", doc);
  }

  keep() {
    clearTimeout(this.keeping);
    this.keeping = setTimeout(() => this.keepNow(), 150);
  }

  keepNow() {
    clearTimeout(this.keeping);
    const at = (doc) => this.docs.indexOf(doc);
    const kept = { docs: this.docs.map((d) => d.kept()), profile: at(this.profile), case: at(this.case) };
    try {
      sessionStorage.setItem(keptAs, JSON.stringify(kept));
    } catch {
      for (const d of kept.docs) d.past = d.future = [];
      try {
        sessionStorage.setItem(keptAs, JSON.stringify(kept));
      } catch {
        // Nothing can be kept: the question before leaving is what is left.
      }
    }
  }

  /** Brings back what was open before a reload, and looks what became of it on the disk. */
  restore() {
    const kept = parsed(sessionStorage.getItem(keptAs));
    if (!kept?.docs) return;
    this.docs = kept.docs.map((d) => Doc.restore(d));
    this.profile = this.docs[kept.profile] ?? null;
    this.case = this.docs[kept.case] ?? null;
    for (const kind of ["profile", "case"]) {
      if (this.current(kind)) this.tell("current", kind);
    }
    for (const doc of this.docs) {
      if (doc.path) this.#look(doc, null).catch((e) => e.status === 404 && this.#other(doc, { gone: true }));
    }
  }
}

/** The name of a file without its folder and ending. */
export function stem(path) {
  return path.replace(/^.*\//, "").replace(/\.ya?ml$/i, "");
}

function parsed(json) {
  try {
    return JSON.parse(json) ?? {};
  } catch {
    return {};
  }
}
