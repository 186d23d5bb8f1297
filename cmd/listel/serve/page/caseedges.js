// caseedges.js: the edges of the case that a molding goes along, a box to tick for each edge of its stage's plan.
//
//   const e = new Edges(model, {label})   e.node, e.input the first box;  e.update(field, mistakes)

import { attr, el, fail, tell } from "./dom.js";

export class Edges {
  constructor(model, { label }) {
    this.model = model;
    this.label = label;
    this.boxes = el("div", { class: "edges" });
    this.words = el("p", { class: "mistake", hidden: true });
    this.node = el("fieldset", { class: "field wide" }, el("legend", null, label), this.boxes, this.words);
  }

  get input() {
    return this.boxes.querySelector("input");
  }

  update({ path, can, edges, text }, mistakes = []) {
    this.path = path;
    attr(this.node, "data-path", path);
    attr(this.node, "data-help", `${this.label}: ${can}`);
    if (edges.map((e) => e.name).join() !== this.names) {
      this.names = edges.map((e) => e.name).join();
      this.boxes.replaceChildren(...edges.map(({ name }) => el("label", { class: "tick-box" }, el("input", { type: "checkbox", value: name, onchange: () => this.#send() }), name.replaceAll("-", " "))));
    }
    this.text = text;
    for (const [i, box] of [...this.boxes.querySelectorAll("input")].entries()) box.checked = edges[i].on;
    tell(this.words, mistakes.map((m) => m.text).join(" "));
  }

  async #send() {
    const boxes = [...this.boxes.querySelectorAll("input")];
    const on = boxes.filter((b) => b.checked).map((b) => b.value);
    const value = on.length === boxes.length ? "" : `[${on.join(", ")}]`;
    try {
      if (on.length === 0) throw new Error("It goes along one edge at least; to have none, take it off the case.");
      await this.model.edit({ op: "set", path: this.path, value }, { label: "changing where it runs" });
    } catch (e) {
      fail(e);
      this.model.tell("answer"); // the boxes take back what they had
    }
  }
}
