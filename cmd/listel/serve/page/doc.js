// doc.js: one file as it is being edited. The text is the whole truth: undo is a list of texts.
//
//   doc.kind, doc.path ("" before it is first saved), doc.name (the name that other files use for it)
//   doc.text, doc.saved (text on the disk), doc.base (hash of it, "" for none), doc.dirty
//   doc.origin      {label, text}: what it came from, or null
//   doc.outside     {text, hash, gone}: the file as another program left it while this one has unsaved changes, or null
//   doc.change(text, {label, merge, refused, path})   one step that can be undone; steps in a row with the same merge are one step; path is
//                   the key whose size was typed
//   doc.undo(), doc.redo()             return the label of what was undone or redone, "" when there is nothing
//   doc.refused     the text as it stands was typed and is refused: undo goes past it to what stood before
//   doc.amends(path)                   whether a change of the key takes the place of what was typed there and refused; any other is a step of its own
//   doc.faulty      its text cannot be drawn, as far as a view has asked
//   doc.version     counts every change of the text

export class Doc {
  constructor({ kind, path = "", name, text, base = "", saved = null, origin = null }) {
    Object.assign(this, { kind, path, name, text, base, saved, origin });
    this.outside = null;
    this.version = 0;
    this.refused = false;
    this.typed = "";
    this.past = [];
    this.future = [];
    this.merge = null;
  }

  get dirty() {
    return this.text !== this.saved;
  }

  amends(path) {
    return this.refused && path === this.typed;
  }

  change(text, { label = "the change", merge = null, refused = false, path = "" } = {}) {
    if (text === this.text) return false;
    const before = this.amends(path) ? this.past.at(-1) : null;
    if (before?.text === text) this.past.pop();
    else if (before) before.label = label;
    else if (merge === null || merge !== this.merge) this.past.push({ text: this.text, label });
    Object.assign(this, { refused, typed: path });
    this.merge = merge;
    this.future = [];
    this.text = text;
    this.version++;
    return true;
  }

  undo() {
    return this.#step(this.past, this.future);
  }

  redo() {
    return this.#step(this.future, this.past);
  }

  #step(from, to) {
    const step = from.pop();
    if (!step) return "";
    if (!this.refused) to.push({ text: this.text, label: step.label });
    this.refused = false;
    this.text = step.text;
    this.merge = null;
    this.version++;
    return step.label;
  }

  /** What is kept over a reload; restore makes a Doc of it. */
  kept() {
    const { kind, path, name, text, base, saved, origin, refused, typed } = this;
    const steps = (list) => list.slice(-300);
    return { kind, path, name, text, base, saved, origin, refused, typed, past: steps(this.past), future: steps(this.future) };
  }

  static restore(kept) {
    const doc = new Doc(kept);
    const { refused = false, typed = "", past = [], future = [] } = kept;
    return Object.assign(doc, { refused, typed, past, future });
  }
}
