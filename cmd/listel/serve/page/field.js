// field.js: one size of the file, typed as the file writes it.
//
//   const f = new Field(model, {label, wide})   f.node is its element
//   f.update(size, mistakes, {units})           size {key, path, text, shown, mm, can}; mistakes are those of this key
//
// Enter or leaving the field sends what is typed; Escape takes it back; the up and down keys go by one fraction. An emptied
// field takes the key out of the file. What cannot be is said under it in the server's words, and stays as typed.

import { attr, el, fail, tell } from "./dom.js";
import { nudge } from "./nudge.js";

let count = 0;

/** Mistakes in words, without their lines. */
export const told = (mistakes) => mistakes.map((m) => m.text.replace(/^line \d+: /, "")).join(" ");

// An Entry is what fields and choices have in common: the label over the input, and under it the words of its mistakes.
class Entry {
  constructor(model, label, input, className) {
    const id = `field-${++count}`;
    Object.assign(this, { model, label, input });
    input.id = id;
    input.setAttribute("aria-describedby", `${id}-words hint`);
    this.words = el("p", { class: "mistake", id: `${id}-words`, hidden: true });
    this.node = el("div", { class: "entry" }, el("div", { class: `field ${className}` }, el("label", { for: id }, label), input), this.words);
  }

  mark({ path, can }, mistakes) {
    attr(this.node, "data-path", path);
    attr(this.node, "data-help", can ? `${this.label}: ${can}` : "");
    this.tell(told(mistakes));
  }

  tell(words) {
    tell(this.words, words);
    attr(this.input, "aria-invalid", words !== "");
  }
}

export class Field extends Entry {
  constructor(model, { label, wide = false, plain = false, long = false }) {
    super(model, label, el(long ? "textarea" : "input", {
      type: long ? null : "text", rows: long ? 1 : null, inputmode: plain ? "text" : null,
      onchange: () => this.#send(), onkeydown: (e) => this.#key(e), onfocus: () => plain || this.input.select(),
    }), wide ? "wide" : "");
    this.plain = plain; // a text that is no length
    this.long = long; // may take two lines
  }

  update(size, mistakes = [], { units = "in" } = {}) {
    this.size = size;
    this.units = units;
    const typing = document.activeElement === this.input && this.input.value !== this.input.defaultValue;
    if (!typing) this.#put(size.text);
    const shown = size.text === "" ? size.shown || (this.long ? this.label : "") : "";
    if (this.input.placeholder !== shown) this.input.placeholder = shown;
    this.mark(size, mistakes);
    attr(this.input, "title", this.node.dataset.help);
  }

  #put(text) {
    if (this.input.value === text && this.input.defaultValue === text) return;
    this.input.value = text;
    this.input.defaultValue = text;
    if (this.long) this.input.rows = Math.min(6, Math.ceil((text.length + 1) / 32));
  }

  async #send(how = {}) {
    const value = this.input.value.trim();
    if (value === (this.size.text ?? "").trim()) return;
    this.input.defaultValue = this.input.value;
    const { path } = this.size;
    const change = value === "" ? { op: "unset", path } : { op: "set", path, value, words: this.plain };
    try {
      await this.model.edit(change, how);
    } catch (e) {
      fail(e);
      this.tell(e.message);
    }
  }

  #key(e) {
    if (e.altKey || e.ctrlKey || e.metaKey) return;
    if (e.key === "Escape" && this.input.value !== this.input.defaultValue) {
      this.input.value = this.input.defaultValue;
      e.stopPropagation();
    } else if (e.key === "Enter") {
      e.preventDefault();
      this.#send();
      this.input.select();
    } else if (!this.plain && (e.key === "ArrowUp" || e.key === "ArrowDown")) {
      this.#step((e.key === "ArrowUp" ? 1 : -1) * (e.shiftKey ? 4 : 1));
      e.preventDefault();
    } else {
      return;
    }
    e.stopPropagation();
  }

  #step(ticks) {
    const next = nudge(this.input.value, ticks, { units: this.units, fraction: this.model.store.prefs.fraction, mm: this.size.mm });
    if (next === null) return;
    this.input.value = next;
    this.#send({ merge: `step ${this.size.path}` });
  }
}

/** A choice between words: f.update(choice, mistakes) with choice {key, path, value, options}. */
export class Choice extends Entry {
  constructor(model, { label }) {
    super(model, label, el("select", { onchange: () => this.#send() }), "choice");
  }

  update(choice, mistakes = []) {
    this.choice = choice;
    const options = choice.options.includes(choice.value) ? choice.options : [choice.value, ...choice.options];
    if ([...this.input.options].map((o) => o.value).join("|") !== options.join("|")) {
      this.input.replaceChildren(...options.map((o) => el("option", { value: o }, { true: "yes", false: "no" }[o] ?? o)));
    }
    if (this.input.value !== choice.value) this.input.value = choice.value;
    this.mark(choice, mistakes);
  }

  async #send() {
    const { path, options } = this.choice;
    const { value } = this.input;
    try {
      await this.model.edit({ op: "set", path, value });
    } catch (e) {
      this.input.value = options.includes(this.choice.value) ? this.choice.value : "";
      fail(e);
    }
  }
}
