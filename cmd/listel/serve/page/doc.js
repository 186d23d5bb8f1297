// doc.js: one file as it is being edited. The text is the whole truth: undo is a list of texts.
//
//   doc.kind, doc.path ("" before it is first saved), doc.name (the name that other files use for it)
//   doc.text, doc.saved (text on the disk), doc.base (hash of it, "" for none), doc.dirty
//   doc.origin      {label, text}: what it came from, or null
//   doc.outside     {text, hash, gone}: the file as another program left it while this one has unsaved changes, or null
//   doc.change(text, {label, merge, refused})   one step that can be undone; steps in a row with the same merge are one step
//   doc.undo(), doc.redo()             return the label of what was undone or redone, "" when there is nothing
//   doc.refused     the text as it stands was typed and is refused: it is no step, undo goes past it to what stood before
//   doc.faulty      its text cannot be drawn, as far as a view has asked
//   doc.version     counts every change of the text

export class Doc {
  constructor({ kind, path = "", name, text, base = "", saved = null, origin = null }) {
    Object.assign(this, { kind, path, name, text, base, saved, origin });
    this.outside = null;
    this.version = 0;
    this.refused = false;
    this.past = [];
    this.future = [];
    this.merge = null;
  }

  get dirty() {
    return this.text !== this.saved;
  }

  change(text, { label = "the change", merge = null, refused = false } = {}) {
    if (text === this.text) return false;
    if (this.refused && this.past.at(-1)?.text === text) this.past.pop();
    else if (this.refused && this.past.length) this.past.at(-1).label = label;
    else if (merge === null || merge !== this.merge) this.past.push({ text: this.text, label });
    this.refused = refused;
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
    const { kind, path, name, text, base, saved, origin, refused } = this;
    const steps = (list) => list.slice(-300);
    return { kind, path, name, text, base, saved, origin, refused, past: steps(this.past), future: steps(this.future) };
  }

  static restore(kept) {
    const doc = new Doc(kept);
    doc.refused = Boolean(kept.refused);
    doc.past = kept.past ?? [];
    doc.future = kept.future ?? [];
    return doc;
  }
}
