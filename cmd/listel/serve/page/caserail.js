// caserail.js: the rail beside the case: its mistakes, its moldings from the top down, the sizes of what is chosen, or the whole text.
//
//   const rail = new CaseRail(host, model, {editSection})
//   rail.focusPath(path)    goes to the field of a key, or to its line in the text

import * as api from "./api.js";
import { Edges } from "./caseedges.js";
import { CaseText } from "./casetext.js";
import { button, el, note } from "./dom.js";
import { Choice, Field } from "./field.js";
import { thumb } from "./files.js";
import { capital } from "./lettering.js";
import { pickProfile } from "./start.js";

export class CaseRail {
  constructor(host, model, { editSection }) {
    this.model = model;
    this.editSection = editSection;
    this.text = new CaseText(model);
    this.fields = new Map();
    this.#build(host);
    model.on("answer", () => this.update());
    model.on("select", () => this.update());
  }

  #build(host) {
    this.host = host;
    const tab = (id, words) => button(words, () => this.tab(id), { id: `case-${id}`, "aria-pressed": String(id === "sizes") });
    this.tabs = { sizes: tab("sizes", "Sizes"), text: tab("text", "Text") };
    this.faults = el("ul", { class: "faults", "aria-label": "Mistakes" });
    this.notes = el("ul", { class: "faults", "aria-label": "Notes" }); // under the list, which they do not push away
    this.list = el("ul", { class: "members moldings", "aria-label": "Moldings, from the top down", onkeydown: (e) => this.#key(e) });
    this.chosen = el("div", { class: "chosen-molding" });
    this.groups = el("div", { class: "groups" });
    const follow = el("input", { id: "case-follow", type: "checkbox", checked: true, onchange: () => (this.model.follow = follow.checked) });
    this.follow = el("label", { for: "case-follow", class: "tick-box" }, follow, "A new size moves the rest along: the other stages, the moldings above");
    this.sizes = el("div", { class: "rail-sizes" }, el("div", { class: "rail-head" }, el("h2", null, "Moldings"), button("Add", () => this.#add(), { class: "main", id: "case-add" })), this.list, this.notes, this.chosen, this.groups);
    this.text.node.hidden = true;
    this.titleHost = el("div", { class: "case-title" });
    host.append(this.titleHost, el("div", { class: "rail-head tabs", role: "group", "aria-label": "What stands here" }, Object.values(this.tabs)), this.faults, this.sizes, this.text.node);
  }

  tab(id) {
    for (const [name, tab] of Object.entries(this.tabs)) tab.setAttribute("aria-pressed", name === id);
    this.sizes.hidden = id !== "sizes";
    this.text.node.hidden = id !== "text";
    this.host.closest(".view").classList.toggle("with-text", id === "text");
    if (id === "text") this.text.update();
    this.#updateFaults(this.model.answer);
  }

  update() {
    const { answer, good } = this.model;
    this.text.update();
    this.#updateFaults(answer);
    if (!answer) {
      this.list.replaceChildren();
      this.chosen.replaceChildren();
      this.groups.replaceChildren();
      this.titleHost.replaceChildren();
      this.shape = "";
      return;
    }
    this.#updateList(good);
    this.#updateGroups(answer);
    this.#updateChosen();
  }

  #updateFaults(answer) {
    const mistakes = answer?.mistakes ?? [];
    const words = (m) => (m.own || !m.file ? (this.sizes.hidden ? m.text : m.plain) : `${m.file}, ${m.text}`);
    const line = (m) => el("li", { class: "bad" }, button(words(m), () => this.#toMistake(m)));
    const notes = (answer?.ok && answer.notes) || [];
    const open = this.notes.querySelector("details")?.open ?? false;
    const unsaved = (answer?.ok && answer.unsaved) || [];
    this.faults.replaceChildren(...mistakes.map(line));
    this.notes.replaceChildren(...(unsaved.length ? [el("li", { class: "odd unsaved-words" }, `Drawn as it stands in Section, not saved: ${unsaved.join(", ")}.`)] : []), ...(notes.length === 0 ? []
      : [el("li", { class: "odd" }, el("details", { open }, el("summary", null, notes.length === 1 ? "A note" : `${notes.length} notes`), notes.map((n) => el("p", null, n))))]));
  }

  #toMistake(m) {
    if (!m.own) {
      const { store } = this.model;
      const open = store.docs.find((d) => d.kind === "profile" && (d.path || `${d.name}.yaml`) === m.file);
      if (open) store.show(open);
      else if (store.files.some((f) => f.path === m.file)) store.open(m.file).catch(() => {});
      else return;
      location.hash = "#section";
      return;
    }
    const field = this.fields.get(m.key);
    if (field && !this.sizes.hidden && field.node.isConnected) {
      this.#open(field.node);
      field.input?.focus();
      return;
    }
    this.tab("text");
    this.text.goTo(m.line);
  }

  focusPath(path) {
    const molding = this.model.answer?.fields.find((g) => g.molding && g.fields.some((f) => f.path === path))?.molding;
    if (molding) this.model.select(molding);
    this.tab("sizes");
    const field = this.fields.get(path);
    if (!field) {
      this.tab("text");
      return;
    }
    this.#open(field.node);
    field.input.focus();
    field.input.select?.();
    field.node.scrollIntoView({ block: "nearest" });
  }

  #open(node) {
    const details = node.closest("details");
    if (details) details.open = true;
  }

  // The list is made anew only when it says something else: a press that is held meanwhile would go astray.
  #updateList(good) {
    const { model } = this;
    const told = JSON.stringify([model.selected, good?.moldings.map((m) => [m.name, m.title, m.section]), good?.views.find((v) => v.view === "front").names, good?.drawers.length, good?.beads.length]);
    if (told === this.told && this.list.firstChild) return;
    this.told = told;
    const entry = (name, title, words, figures, picture) => el("li", { class: name === model.selected ? "chosen" : null },
      el("button", { class: "member", "data-molding": name, "aria-pressed": String(name === model.selected), onclick: () => model.select(name === model.selected ? "" : name) },
        picture, el("span", { class: "member-name" }, title, el("small", null, words)), el("span", { class: "figures" }, figures)));
    const held = this.list.contains(document.activeElement) ? document.activeElement.dataset.molding : null;
    const rows = (good?.moldings ?? []).map((m) => ({ m, foot: good.views.find((v) => v.view === "front").names.find((n) => n.molding === m.name)?.at[1] ?? 0 }))
      .sort((a, b) => b.foot - a.foot);
    this.list.replaceChildren(...rows.map(({ m }) => entry(m.name, m.name, m.title, m.foot, thumb(m.section, m.box))),
      ...(good && (good.drawers.length || good.beads.length) ? [entry("beads", "drawers and beads", `${good.drawers.length} openings`, "", null)] : []));
    if (held !== null) this.list.querySelector(`[data-molding="${CSS.escape(held)}"]`)?.focus();
  }

  // Groups and fields are made anew only when there are others, so that what is being typed stays.
  #updateGroups(answer) {
    const groups = answer.fields ?? [];
    const shape = JSON.stringify(groups.map((g) => [g.title, g.molding, g.begin, g.fields.map((f) => [f.path, f.fixed, f.options, f.edges?.map((e) => e.name)])]));
    if (shape !== this.shape) {
      this.shape = shape;
      this.fields = new Map();
      this.moldingGroups = new Map();
      const nodes = [];
      for (const g of groups) {
        const body = el("div", { class: "sizes" }, g.fields.map((f) => (f.path === "title" ? this.#title(f) : this.#field(f))),
          g.begin ? button(g.words, () => this.#begin(g), { class: "begin", id: `case-begin-${g.begin}` }) : null);
        if (g.molding) this.moldingGroups.set(g.molding, body);
        else nodes.push(el("details", { class: "about", open: /sizes$/.test(g.title) }, el("summary", null, g.title), body));
      }
      this.groups.replaceChildren(this.follow, ...nodes);
      this.chosenFor = null;
    }
    for (const g of groups) {
      for (const f of g.fields) this.#put(f, answer);
    }
  }

  // begin adds what the case has none of yet with first values, and goes to them.
  async #begin({ begin, words }) {
    await this.model.edit({ op: "set", path: begin, value: "new" }, { label: words.replace(/^Add/, "adding") });
    const added = this.model.answer?.fields.flatMap((g) => g.fields).filter((f) => f.path.startsWith(begin));
    const last = added?.at(-1)?.path.replace(/\.\w+$/, "");
    this.focusPath(begin === "stock" ? `${last}.thickness` : "openings.graduate.rows");
  }

  // title stands over all else, as the heading that it is.
  #title(f) {
    const field = new Field(this.model, { label: "Title", plain: true, long: true, wide: true });
    field.node.classList.add("title");
    field.input.placeholder = "Title of the case";
    this.fields.set(f.path, field);
    this.titleHost.replaceChildren(field.node);
    return null;
  }

  #field(f) {
    if (f.fixed) {
      return el("div", { class: "field" }, el("span", { class: "fixed-label" }, f.label), button("in the text", () => this.tab("text")));
    }
    const field = f.edges ? new Edges(this.model, { label: f.label }) : f.options ? new Choice(this.model, { label: f.label }) : new Field(this.model, { label: f.label, plain: Boolean(f.words), wide: Boolean(f.list) });
    if (f.list) field.input.setAttribute("list", this.#names(f.list));
    if (f.list === "profile") {
      const choose = button("Choose", () => this.#choose(f), { class: "choose-profile" });
      const row = el("div", { class: "with-choose" });
      field.input.replaceWith(row);
      row.append(field.input, choose);
    }
    this.fields.set(f.path, field);
    return field.node;
  }

  // choose gives a molding, or the beads, another profile by its look.
  async #choose(f) {
    const name = await pickProfile("Choose a section", { open: this.model.store.docs, family: f.path === "beads.profile" ? "edge" : "" });
    if (name && name !== f.text) await this.model.edit({ op: "set", path: f.path, value: name }, { label: `taking the section ${name}` });
  }

  // names returns the list of the library's entries of a kind, to choose from; it is fetched once, and again when the folder changes.
  #names(kind) {
    const id = `names-${kind}`;
    if (!document.getElementById(id)) {
      const list = el("datalist", { id });
      this.host.append(list);
      const fetch = () => api.get(`/api/library?kind=${kind}`).then(({ entries }) => list.replaceChildren(...entries.map((e) => el("option", { value: e.name }, e.title)))).catch(() => {});
      fetch();
      if (kind === "profile") this.model.store.on("files", fetch);
    }
    return id;
  }

  #put(f, answer) {
    const field = this.fields.get(f.path);
    if (!field) return;
    const mistakes = answer.mistakes.filter((m) => m.own && m.key === f.path).map((m) => ({ ...m, text: m.plain }));
    if (field instanceof Edges) field.update(f, mistakes);
    else if (field instanceof Choice) {
      field.update({ path: f.path, can: f.can, value: f.text, options: f.text === "" && !f.options.includes("") ? ["", ...f.options] : f.options }, mistakes);
      field.input.title = f.can ?? "";
      for (const o of field.input.options) o.textContent = f.shown?.[f.options.indexOf(o.value)] ?? (o.value || "as usual");
    } else field.update({ path: f.path, text: f.text, can: f.can, shown: "" }, mistakes, { units: answer.units });
  }

  #updateChosen() {
    const { model } = this;
    const { molding } = model;
    if (!molding) {
      this.chosen.replaceChildren();
      this.chosenFor = null;
      return;
    }
    if (this.chosenFor !== molding.name) {
      this.chosenFor = molding.name;
      this.section = button("Edit its section", () => this.editSection(model.molding), { class: "main", id: "edit-section" });
      this.where = el("p", { class: "quiet" });
      this.short = el("span");
      this.level = el("p", { class: "level" }, this.short, button("Level with the top", () => this.#level(), { id: "case-level", title: "Moves it so that its top is level with the top of its stage" }));
      this.chosen.replaceChildren(el("div", { class: "rail-head" }, el("h2", null, capital(molding.name)), this.section), this.where, this.level,
        this.moldingGroups?.get(molding.name) ?? "",
        el("p", { class: "choices" }, button("Take it off the case", () => this.#remove(model.molding), { id: "case-remove" })));
    }
    const names = { project: `in ${molding.file}`, user: "in your library", embedded: "in the library that comes with listel" };
    this.level.hidden = !molding.level;
    this.level.classList.toggle("odd", Boolean(molding.short));
    this.short.textContent = molding.short ? `It ends ${molding.short} below the top of its stage.` : "";
    this.where.textContent = `${molding.profile}, ${names[molding.from] ?? molding.where}`;
  }

  // add asks for a profile, and puts a molding of it on the case.
  async #add() {
    const name = await pickProfile("Add a molding", { open: this.model.store.docs });
    if (!name) return;
    const before = new Set((this.model.good?.moldings ?? []).map((m) => m.name));
    await this.model.edit({ op: "set", path: "moldings", value: name }, { label: "adding a molding" });
    const added = this.model.good?.moldings.find((m) => !before.has(m.name));
    if (!added) return;
    this.model.select(added.name);
    note("It stands lowest where there is room. Give it its height and its name.");
    this.focusPath(`moldings[${added.index}].at`);
  }

  async #level() {
    const { index, level, name } = this.model.molding;
    await this.model.edit({ op: "set", path: `moldings[${index}].at`, value: level }, { label: `bringing the ${name} level with the top` });
  }

  async #remove(molding) {
    this.model.select("");
    await this.model.edit({ op: "unset", path: `moldings[${molding.index}]` }, { label: `taking off the ${molding.name}` });
    note(`The ${molding.name} is off the case. Undo puts it back.`);
  }

  #key(e) {
    const way = { ArrowDown: 1, ArrowUp: -1 }[e.key];
    if (!way) return;
    const all = [...this.list.querySelectorAll("button")];
    all[all.indexOf(document.activeElement) + way]?.focus();
    e.preventDefault();
  }
}
