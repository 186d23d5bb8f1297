// points.js: the points of a curve in the panel of its member: each typed, led to in a line or an arc, one more before it, or taken out.
//
//   const p = new Points(model, edit)    p.node; edit(change, how) sends a change
//   p.update(member, mistakes, {units})  p.holds(path) tells whether the field of a path is here

import { el } from "./dom.js";
import { Field } from "./field.js";

export class Points {
  constructor(model, edit) {
    Object.assign(this, { model, edit, fields: new Map(), shape: "" });
    this.node = el("ol", { class: "points", "aria-label": "Points of the curve, from its foot up" });
  }

  update({ index, points = [] }, mistakes, { units }) {
    const shape = points.map((p) => p.bend.length).join() + index;
    if (shape !== this.shape) this.#build(index, points, shape);
    for (const p of points) {
      for (const s of [...p.sizes, ...p.bend]) this.fields.get(s.path)?.update(s, mistakes.filter((m) => m.key === s.path), { units });
    }
  }

  #build(at, points, shape) {
    this.shape = shape;
    this.fields = new Map(points.flatMap((p) => [...p.sizes, ...p.bend]).map((s) => [s.path, new Field(this.model, { label: s.title })]));
    const button = (to, kind, words, name) => el("button", { class: "small", "data-point": `${kind} ${to}`, "aria-label": name,
      onclick: () => this.edit({ op: "point", at, to, kind }, { label: name.toLowerCase() }) }, words);
    this.node.replaceChildren(...points.map((p, i) => el("li", null,
      el("div", { class: "rail-head" }, el("b", null, `Point ${i + 1}`), el("span", { class: "set" },
        p.bend.length ? button(i, "line", "To line", `Lead to point ${i + 1} in a line`) : button(i, "arc", "To arc", `Lead to point ${i + 1} in an arc`),
        button(i, "add", "Add before", `Add a point before point ${i + 1}`), points.length > 1 ? button(i, "remove", "Take out", `Take out point ${i + 1}`) : null)),
      el("div", { class: "sizes pair" }, [...p.sizes, ...p.bend].map((s) => this.fields.get(s.path).node)))));
  }

  holds(path) {
    return this.fields.has(path);
  }
}
