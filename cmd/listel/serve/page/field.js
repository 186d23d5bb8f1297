// field.js: one size of the file, typed as the file writes it.
//
//   const f = new Field(model, {label, wide})   f.node is its element
//   f.update(size, mistakes, {units})           size {key, path, text, shown, mm, can}; mistakes are those of this key
//
// Enter or leaving the field sends what is typed; Escape takes it back; the up and down keys go by one fraction. An emptied
// field takes the key out of the file. What cannot be is said under it in the server's words, and stays as typed.

import { attr, el, note, put } from "./dom.js";
import { nudge } from "./nudge.js";

let count = 0;

export class Field {
  constructor(model, { label, wide = false, plain = false, long = false }) {
    this.model = model;
    this.plain = plain; // a text that is no length
    const id = `field-${++count}`;
    this.long = long; // may take two lines
    this.input = el(long ? "textarea" : "input", {
      id, type: long ? null : "text", rows: long ? 1 : null, autocomplete: "off", spellcheck: "false", "aria-describedby": `${id}-words hint`,
      inputmode: plain ? "text" : null,
      onchange: () => this.#send(), onkeydown: (e) => this.#key(e), onfocus: () => plain || this.input.select(),
    });
    this.words = el("p", { class: "mistake", id: `${id}-words`, hidden: true });
    this.labelNode = el("label", { for: id }, label);
    this.node = el("div", { class: wide ? "field wide" : "field" }, this.labelNode, this.input, this.words);
  }

  update(size, mistakes = [], { units = "in" } = {}) {
    this.size = size;
    this.units = units;
    attr(this.node, "data-path", size.path);
    const typing = document.activeElement === this.input && this.input.value !== this.input.defaultValue;
    if (!typing) this.#put(size.text);
    const shown = size.text === "" ? size.shown || (this.long ? this.labelNode.textContent : "") : "";
    if (this.input.placeholder !== shown) this.input.placeholder = shown;
    const help = size.can ? `${this.labelNode.textContent}: ${size.can}` : "";
    if (this.node.dataset.help !== help) this.node.dataset.help = this.input.title = help;
    const words = mistakes.map((m) => m.text.replace(/^line \d+: /, "")).join(" ");
    put(this.words, words);
    this.words.hidden = words === "";
    attr(this.input, "aria-invalid", words !== "");
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
      note(e.message, { bad: true });
      this.words.textContent = e.message;
      this.words.hidden = false;
      this.input.setAttribute("aria-invalid", "true");
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
export class Choice {
  constructor(model, { label }) {
    this.model = model;
    const id = `field-${++count}`;
    this.input = el("select", { id, onchange: () => this.#send(), "aria-describedby": `${id}-words hint` });
    this.words = el("p", { class: "mistake", id: `${id}-words`, hidden: true });
    this.label = label;
    this.node = el("div", { class: "field choice" }, el("label", { for: id }, label), this.input, this.words);
  }

  update(choice, mistakes = []) {
    this.choice = choice;
    attr(this.node, "data-path", choice.path);
    attr(this.node, "data-help", choice.can ? `${this.label}: ${choice.can}` : "");
    const options = choice.options.includes(choice.value) ? choice.options : [choice.value, ...choice.options];
    if ([...this.input.options].map((o) => o.value).join("|") !== options.join("|")) {
      this.input.replaceChildren(...options.map((o) => el("option", { value: o }, { true: "yes", false: "no" }[o] ?? o)));
    }
    if (this.input.value !== choice.value) this.input.value = choice.value;
    put(this.words, mistakes.map((m) => m.text.replace(/^line \d+: /, "")).join(" "));
    this.words.hidden = mistakes.length === 0;
  }

  async #send() {
    const { path, options } = this.choice;
    const { value } = this.input;
    try {
      await this.model.edit({ op: "set", path, value });
    } catch (e) {
      this.input.value = options.includes(this.choice.value) ? this.choice.value : "";
      note(e.message, { bad: true });
    }
  }
}
