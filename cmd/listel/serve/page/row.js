// row.js: one member in the rail: its drawing, its name, its sizes; opened, the fields and what can be done with it.

import { attr, button, el, put, redraw, shape, svg, tell } from "./dom.js";
import { Choice, Field, told } from "./field.js";
import { boxOf, pathPoints } from "./pathpoints.js";
import { Points } from "./points.js";
import { lettering, widthOf } from "./lettering.js";

const labels = { height: "Height", projection: "Run", set: "Set", curve: "Curve", depth: "Depth", count: "Count", gap: "Gap", block: "Block", fillet: "Fillet", profile: "Profile" };

export class Row {
  constructor(model, kind, acts) {
    this.model = model;
    this.acts = acts;
    this.kind = kind;
    this.fields = new Map();
    this.drawing = svg("svg", { class: "member-drawing", viewBox: "0 0 48 36", "aria-hidden": "true" });
    this.name = el("span", { class: "member-name" });
    this.rest = el("span", { class: "rest", title: "Its height is what the other members leave of the whole" }, "rest");
    this.spoken = el("span", { class: "unseen" });
    this.figures = svg("svg", { class: "figures", height: 20, "aria-hidden": "true" });
    this.button = el("button", { class: "member", onclick: () => this.#press() }, this.drawing, this.name, this.rest, this.spoken, this.figures);
    this.words = el("p", { class: "mistake", hidden: true });
    this.sizes = el("div", { class: "sizes" });
    this.points = kind === "curve" ? new Points(model, acts.edit) : null;
    this.panel = el("div", { class: "panel", hidden: true }, this.sizes, this.points?.node, this.words, this.#buttons());
    this.node = el("li", null, this.button, this.panel);
  }

  #buttons() {
    this.up = button("Up", () => this.#move(1), { "aria-label": "Move it up" });
    this.joined = button("Join with the one above", () => this.acts.edit({ op: "join", at: this.index }), { title: "The two make one cyma" });
    this.down = button("Down", () => this.#move(-1), { "aria-label": "Move it down" });
    return el("p", { class: "acts" },
      button("Add above", () => this.acts.addAbove(this.index)), button("Add below", () => this.acts.addBelow(this.index)),
      button("Another kind", () => this.acts.change(this.index)), this.joined, this.up, this.down, button("Take out", () => this.remove()));
  }

  #press() {
    this.model.select(this.model.selected === this.index ? -1 : this.index);
  }

  #move(by) {
    const to = this.index + by;
    if (to >= 0 && to < this.count) this.acts.edit({ op: "move", at: this.index, to }, { select: to });
  }

  remove() {
    this.acts.edit({ op: "remove", at: this.index }, { label: `taking out the ${this.kind}`, select: Math.max(0, this.index - 1) });
  }

  update(m, good, { units, count, selected, reachable, mistakes, warnings }) {
    this.index = m.index;
    this.count = count;
    this.node.classList.toggle("chosen", selected);
    this.node.classList.toggle("bad", mistakes.length > 0);
    this.node.classList.toggle("odd", warnings.length > 0);
    attr(this.button, "aria-expanded", selected);
    attr(this.button, "tabindex", reachable ? 0 : -1);
    this.panel.hidden = !selected;
    this.joined.hidden = !good?.joins;
    put(this.name, m.title);
    this.rest.hidden = !m.sizes?.some((s) => s.key === "height" && s.text === "rest");
    const shown = good?.sizes ?? m.sizes;
    this.#drawFigures(shown, mistakes);
    if (good?.path) this.#drawMember(good);
    if (selected) this.#fill(m, shown, mistakes, units);
  }

  #drawFigures(sizes, mistakes) {
    const of = (key) => sizes?.find((s) => s.key === key)?.shown ?? "";
    const bare = (text) => text.replace(/ (in|mm)$/, "").replace(/^-/, "\u2212");
    const run = of("projection");
    const text = [of("height"), run].filter(Boolean).map(bare).join(" × ");
    put(this.spoken, `${of("height") ? `, height ${of("height")}` : ""}${run ? `, run ${run}` : ""}${mistakes.length ? ", has a mistake" : ""}`);
    if (text === this.figured) return;
    this.figured = text;
    const w = Math.ceil(widthOf(text, 14)) + 4;
    attr(this.figures, "width", w);
    redraw(this.figures, [lettering(text, { x: w - 2, y: 15, anchor: "end", size: 14 })]);
  }

  // drawMember draws the member's part of the face as large as the row allows, the wood at its left.
  #drawMember(m) {
    if (this.drawn === m.path) return;
    this.drawn = m.path;
    const points = pathPoints(m.path, 1);
    const [x0, y0, w, h] = boxOf(points);
    const form = points.map(([x, y]) => `${Math.round((x - x0) * 100)} ${Math.round((y - y0) * 100)}`).join();
    if (form === this.form) return; // it only stands elsewhere
    this.form = form;
    const k = Math.min(40 / Math.max(w, 0.1), 28 / Math.max(h, 0.1), 3);
    const transform = `translate(${24 - (x0 + w / 2) * k} ${18 + (y0 + h / 2) * k}) scale(${k} ${-k})`;
    redraw(this.drawing, [shape("g", { transform }, shape("path", { class: "part line", d: m.path }))]);
  }

  #fill(m, shown, mistakes, units) {
    const wanted = [...(m.sizes ?? []).map((s) => ({ ...s, shown: s.shown || shown?.find((g) => g.path === s.path)?.shown })), ...(m.choices ?? [])];
    const paths = wanted.map((w) => w.path + (w.options ? "?" : "")).join(" ");
    if (paths !== this.paths) {
      this.paths = paths;
      this.fields = new Map(wanted.map((w) => {
        const label = w.title || labels[w.key] || w.key;
        return [w.path, w.options ? new Choice(this.model, { label }) : new Field(this.model, { label })];
      }));
      this.sizes.replaceChildren(...[...this.fields.values()].map((f) => f.node));
    }
    for (const w of wanted) this.fields.get(w.path).update(w, mistakes.filter((x) => x.key === w.path), { units });
    this.points?.update(m, mistakes, { units });
    const rest = mistakes.filter((x) => !this.fields.has(x.key) && !this.points?.holds(x.key));
    tell(this.words, told(rest));
  }
}
