// rail.js: the rail beside the board: the whole molding, its members in the order they stand (the top one first), its back.
//
//   const rail = new Rail(host, model, {pick})   pick(at, instead) asks which member to add at a place, or to put in place of one
//   rail.focusMistake(mistake)                   goes to the field that a mistake is about

import { button, el, fail, options } from "./dom.js";
import { Choice, Field } from "./field.js";
import { capital, spelled } from "./lettering.js";
import { scaleWhole } from "./mend.js";
import { Row } from "./row.js";

const wholeKeys = [["height", "Height"], ["projection", "Projection"], ["ground", "Ground"], ["parts", "Parts"]];
const aboutKeys = [["name", "Name"], ["source", "Source"], ["family", "Sort"], ["units", "Units of the file"]];

export class Rail {
  constructor(host, model, { pick }) {
    this.model = model;
    this.pick = pick;
    this.rows = [];
    this.#build(host);
    model.on("section", () => this.update());
    model.on("select", () => this.update());
  }

  #build(host) {
    const { model } = this;
    this.title = new Field(model, { label: "Title", wide: true, plain: true, long: true });
    this.title.node.classList.add("title");
    this.whole = wholeKeys.map(([key, label]) => [key, new Field(model, { label })]);
    this.about = aboutKeys.map(([key, label]) => [key, new Field(model, { label, wide: key === "source" || key === "name", long: key === "source", plain: key !== "units" })]);
    this.tip = el("p", { class: "tip", hidden: true }, el("i"), "Drag a corner on the drawing, or choose a member here and type its sizes.");
    this.list = el("ol", { class: "members", "aria-label": "Members, from the top down", onkeydown: (e) => this.#key(e) });
    this.faults = el("ul", { class: "faults", "aria-label": "Mistakes and warnings" });
    this.backKind = el("select", { id: "back-kind", onchange: () => this.#edit({ op: "back", kind: this.backKind.value }) }, options([["none", "plain"], ["rabbet", "with a rabbet"], ["spring", "sprung"]]));
    this.backSizes = el("div", { class: "sizes" });
    this.backFields = new Map();
    host.append(
      this.title.node,
      el("div", { class: "sizes whole" }, this.whole.map(([, f]) => f.node),
        button("Scale it ...", () => scaleWhole(model), { id: "scale-whole", "data-help": "Scale: enlarge or reduce the whole molding, every size in it alike" })),
      el("div", { class: "rail-head" }, el("h2", null, "Members"),
        button("Add on top", () => this.pick(this.count), { class: "main add" })),
      this.list, this.faults, this.tip,
      el("h2", null, "Back"),
      el("div", { class: "sizes" }, el("div", { class: "field half" }, el("label", { for: "back-kind" }, "It is"), this.backKind)),
      this.backSizes,
      el("h2", null, "Lengths"), this.#lengths(),
      el("details", { class: "about" }, el("summary", null, "About it"), el("div", { class: "sizes" }, this.about.map(([, f]) => f.node))),
    );
  }

  // lengths are shown in, and snap to, what the maker works in.
  #lengths() {
    const { store } = this.model;
    const choice = (key, label, list) => {
      const select = el("select", { id: `pref-${key}`, onchange: () => store.setPrefs({ [key]: key === "fraction" ? Number(select.value) : select.value }) },
        options(list));
      select.value = store.prefs[key];
      return el("div", { class: key === "units" ? "field choice half" : "field choice", "data-help": key === "units" ? "Shown in: the units of the drawing and the rail; the file keeps its own" : "To the nearest: lengths are shown and corners snap so; 3/8- is a little less than 3/8, 3/8+ a little more" },
        el("label", { for: `pref-${key}` }, label), select);
    };
    this.fraction = choice("fraction", "to the nearest", [4, 8, 16, 32, 64].map((n) => [n, `1/${n} in`]));
    return el("div", { class: "sizes" }, choice("units", "Shown in", [["", "as in the file"], ["in", "inches"], ["mm", "millimeters"]]), this.fraction);
  }

  get count() {
    return this.model.section?.members?.length ?? 0;
  }

  update() {
    const { section } = this.model;
    if (!section) return;
    const mistakes = section.mistakes ?? [];
    const of = (path) => mistakes.filter((m) => m.key === path);
    const head = new Map((section.head ?? []).map((h) => [h.key, h]));
    const units = section.file_units || head.get("units")?.text || "in";
    this.fraction.hidden = this.model.units === "mm";
    for (const [key, field] of [["title", this.title], ...this.whole, ...this.about]) {
      const h = head.get(key);
      field.node.hidden = !h;
      if (h) field.update({ ...h, shown: h.shown || wholeSize(this.model.good, h.key) }, of(h.path), { units });
    }
    this.#updateRows(section, mistakes, units);
    this.#updateBack(section.back ?? { kind: "none" }, of, units);
    this.#updateFaults(section, mistakes);
  }

  #updateRows(section, mistakes, units) {
    const members = section.members ?? [];
    const shape = members.map((m) => m.kind).join(" ");
    if (shape !== this.shape) {
      const held = this.list.contains(document.activeElement);
      this.shape = shape;
      this.rows = members.map((m) => new Row(this.model, m.kind, {
        change: (at) => this.pick(at, true), addAbove: (at) => this.pick(at + 1), addBelow: (at) => this.pick(at), edit: (c, how) => this.#edit(c, how),
      }));
      this.list.replaceChildren(...this.rows.map((r) => r.node).reverse());
      if (held) this.refocus = true;
    }
    for (const [i, row] of this.rows.entries()) {
      const good = this.model.good?.members?.length === members.length ? this.model.good.members[i] : null;
      row.update(members[i], good, {
        units, count: members.length, selected: i === this.model.selected,
        reachable: i === this.model.selected || (this.model.selected < 0 && i === members.length - 1),
        mistakes: mistakes.filter((m) => m.index === i), warnings: (section.warnings ?? []).filter((w) => w.index === i),
      });
    }
    if (this.refocus) {
      this.refocus = false;
      this.rows[this.model.selected]?.button.focus();
    }
  }

  #updateBack(back, of, units) {
    if (document.activeElement !== this.backKind && this.backKind.value !== back.kind) this.backKind.value = back.kind;
    const wanted = [...(back.choices ?? []), ...(back.sizes ?? [])];
    const paths = wanted.map((w) => w.path).join(" ");
    if (paths !== this.backPaths) {
      this.backPaths = paths;
      this.backFields = new Map(wanted.map((w) => [w.path, w.options ? new Choice(this.model, { label: capital(w.key) }) : new Field(this.model, { label: capital(w.title ?? w.key) })]));
      this.backSizes.replaceChildren(...[...this.backFields.values()].map((f) => f.node));
    }
    for (const w of wanted) this.backFields.get(w.path).update(w, of(w.path), { units });
    this.backSizes.hidden = wanted.length === 0;
  }

  #updateFaults(section, mistakes) {
    // What a field of the back, or the panel of the member that is chosen, says of itself is not said once more.
    const said = (m) => (m.index < 0 ? this.backFields.has(m.key) : m.index === this.model.selected);
    const all = [...mistakes.filter((m) => !said(m)).map((m) => ({ ...m, bad: true })), ...(section.warnings ?? [])];
    const told = JSON.stringify(all);
    if (told === this.told) return;
    this.told = told;
    this.faults.hidden = all.length === 0;
    this.faults.replaceChildren(...all.map((m) => el("li", { class: m.bad ? "bad" : "odd" },
      button(m.text, () => this.focusMistake(m)))));
  }

  focusMistake(m) {
    if (m.index >= 0) this.model.select(m.index);
    const field = m.key && document.querySelector(`[data-path="${CSS.escape(m.key)}"] :is(input, select, textarea)`);
    (field || this.rows[m.index]?.button)?.focus();
  }

  #edit(change, how) {
    this.refocus = this.list.contains(document.activeElement);
    return this.model.edit(change, how).catch(fail);
  }

  #key(e) {
    if (e.target.matches("input, select, textarea") || e.ctrlKey || e.metaKey) return;
    const at = this.model.selected;
    const go = (to) => {
      to = Math.max(0, Math.min(this.count - 1, to));
      if (e.altKey) {
        if (to !== at && at >= 0) this.#edit({ op: "move", at, to }, { select: to });
        return;
      }
      this.model.select(to);
      this.rows[to]?.button.focus();
    };
    const acts = {
      ArrowUp: () => go(at + 1), ArrowDown: () => go(at < 0 ? this.count - 1 : at - 1), Home: () => go(this.count - 1), End: () => go(0),
      Insert: () => this.pick(at + 1), Delete: () => this.rows[at]?.remove(),
    };
    if (!acts[e.key] || (e.altKey && !e.key.startsWith("Arrow"))) return;
    e.preventDefault();
    acts[e.key]();
  }
}

// wholeSize is what a size comes to that the file leaves to the members.
const wholeSize = (good, key) => spelled(good?.dims?.find((d) => d.index < 0 && (d.of ? d.of === key : d.side === { height: "left", projection: "top" }[key]))?.text ?? "").replace(/\u2032\u2032$/, " in");
