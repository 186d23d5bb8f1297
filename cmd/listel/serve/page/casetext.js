// casetext.js: the text of the case with line numbers, its mistakes at their lines.
//
//   const text = new CaseText(model)   text.node; text.update(); text.goTo(line)

import { el } from "./dom.js";

export class CaseText {
  constructor(model) {
    this.model = model;
    this.numbers = el("div", { class: "line-numbers", "aria-hidden": "true" });
    this.area = el("textarea", {
      id: "case-area", autocapitalize: "off", wrap: "off", "aria-label": "The text of the case", "aria-describedby": "case-text-keys",
      oninput: () => this.#typed(), onscroll: () => this.#scrolled(), onkeydown: (e) => this.#key(e),
    });
    this.keys = el("p", { class: "quiet", id: "case-text-keys" }, "This is the whole file as it stands here. Tab moves on.");
    this.node = el("div", { class: "case-text" }, el("div", { class: "text-sheet" }, this.numbers, this.area), this.keys);
  }

  update() {
    const { doc, answer } = this.model;
    const text = doc?.text ?? "";
    if (this.area.value !== text) {
      const { selectionStart, selectionEnd, scrollTop } = this.area;
      this.area.value = text;
      if (document.activeElement === this.area) this.area.setSelectionRange(selectionStart, selectionEnd);
      this.area.scrollTop = scrollTop;
    }
    this.#number(answer?.mistakes ?? []);
  }

  #number(mistakes) {
    const at = new Map(mistakes.filter((m) => m.own).map((m) => [m.line, m.text]));
    const n = this.area.value.split("\n").length;
    const key = n + JSON.stringify([...at]);
    if (key === this.numbered) return;
    this.numbered = key;
    this.numbers.replaceChildren(...Array.from({ length: n }, (_, i) =>
      el("span", at.has(i + 1) ? { class: "bad", title: at.get(i + 1) } : null, String(i + 1))));
    this.area.setAttribute("aria-invalid", at.size > 0);
  }

  #typed() {
    this.model.type(this.area.value);
    this.#number(this.model.answer?.mistakes ?? []);
  }

  #scrolled() {
    this.numbers.scrollTop = this.area.scrollTop;
  }

  // The page's own undo holds, so that typing and fields are one row of steps.
  #key(e) {
    if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
    const key = e.key.toLowerCase();
    if (key !== "z" && key !== "y") return;
    e.preventDefault();
    e.stopPropagation();
    if (key === "y" || e.shiftKey) this.model.store.redo(this.model.doc);
    else this.model.store.undo(this.model.doc);
  }

  goTo(line) {
    const lines = this.area.value.split("\n");
    const before = lines.slice(0, Math.max(0, line - 1)).join("\n").length + (line > 1 ? 1 : 0);
    this.area.focus();
    this.area.setSelectionRange(before, before + (lines[line - 1] ?? "").length);
    const high = parseFloat(getComputedStyle(this.area).lineHeight) || 20;
    this.area.scrollTop = Math.max(0, (line - 4) * high);
    this.#scrolled();
  }
}
