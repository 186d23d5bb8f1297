// sheets.js: the view of the sheets as they print: the list of them in the order of the work, one of them large, and what to do with them.

import * as api from "./api.js";
import { button, el, fail, note, options, say, tools } from "./dom.js";
import { printPages } from "./printpages.js";
import { recall, remember } from "./remember.js";
import { checkScreen } from "./ruler.js";
import { searches } from "./setupsmodel.js";
import { SheetsModel } from "./sheetsmodel.js";

export function mount(root, store) {
  const view = new SheetsView(root, store);
  return { show: (from) => view.show(from), doc: () => view.model.doc, hide: () => view.model.pause(true), print: () => view.print(), beforeprint: () => view.beforePrint() };
}

class SheetsView {
  constructor(root, store) {
    this.root = root;
    this.store = store;
    this.model = new SheetsModel(store);
    this.at = 0;
    this.seen = new WeakSet();
    this.zoom = "whole";
    this.#build();
    this.model.on("change", () => this.update());
  }

  #build() {
    const choice = (id, label, change, ...offered) => {
      const select = el("select", { id, onchange: () => change(select.value) }, offered);
      return el("div", { class: "field" }, el("label", { for: id }, label), select);
    };
    const box = (id, label, change) => {
      const input = el("input", { id, type: "checkbox", onchange: () => change(input.checked) });
      return [el("label", { for: id, class: "tick-box" }, input, label)];
    };
    const { model } = this;
    this.choices = el("div", { class: "tools sheet-choices", role: "group", "aria-label": "What is drawn, and on what" },
      el("span", { class: "set" }, choice("sheets-what", "Sheets of", (what) => model.choose({ what }))),
      el("span", { class: "set" }, choice("sheets-paper", "Paper", (paper) => model.choose({ paper })), box("sheets-landscape", "Landscape", (landscape) => model.choose({ landscape }))),
      el("span", { class: "set" }, choice("sheets-printer", "Printer", (printer) => model.choose({ printer }))),
      el("span", { class: "set", id: "sheets-with" }, box("sheets-setups", "Set-ups too", (setups) => model.choose({ setups }))),
      el("span", { class: "set", id: "sheets-shop" }, choice("sheets-work", "Worked", (work) => model.choose({ work }), options([["machine", "by machine"], ["plane", "with hand planes"]])),
        choice("sheets-tools", "Tools", (tools) => model.choose({ tools }))),
      el("span", { class: "set", id: "sheets-search" }, ["effort", "blank"].map((key) =>
        choice(`sheets-${key}`, { effort: "search", blank: "blank" }[key], (value) => model.plan({ [key]: value }), options(searches[key])))),
      el("span", { class: "set" }, choice("sheets-units", "Sizes in", (units) => this.store.setPrefs({ units }),
        options([["", "as in the file"], ["in", "inches"], ["mm", "millimeters"]]))));
    this.list = el("ol", { class: "sheet-list", "aria-label": "Sheets, in the order of the work", onkeydown: (e) => this.#key(e) });
    this.large = el("img", { class: "sheet-large", alt: "" });
    this.largeHost = el("div", { class: "sheet-host", tabindex: "0", role: "group", "aria-label": "The sheet. Page up and page down turn to another.", onkeydown: (e) => this.#turn(e) }, this.large);
    new ResizeObserver(() => this.#size()).observe(this.largeHost);
    this.zooms = [["whole", "Whole sheet"], ["wide", "Its width"], ["full", "Full size"]].map(([id, words]) => button(words, () => this.magnify(id), { id: `sheet-${id}`, "aria-pressed": String(id === this.zoom) }));
    this.words = el("div", { class: "sheet-state", role: "status" });
    this.files = [["pdf", "PDF"], ["svg", "SVG (.zip)"], ["files", "Files (.zip)"]].map(([format, words]) =>
      button(words, () => this.download(format), { id: `sheets-${format}`, class: format === "pdf" ? "main" : null, title: fileWords[format] }));
    this.acts = tools("Sheets", "sheet-acts", [button("Before", () => this.go(this.at - 1), { id: "sheet-before" }), button("Next", () => this.go(this.at + 1), { id: "sheet-next" })],
      [this.zooms, button("Check screen", () => this.#check(), { title: "Hold a bank card or a rule against the screen" })], [el("span", { class: "quiet" }, "Download"), this.files]);
    this.none = el("div", { class: "start" }, el("h2", null, "Nothing is open"),
      el("p", null, "Open a case for its whole packet, or a molding for its section, template and set-ups."),
      el("p", { class: "choices to-start" }, button("To the case", () => (location.hash = "#case"), { class: "main" }), button("To the section", () => (location.hash = "#section"))));
    this.root.append(this.choices, el("div", { class: "sheet-desk" }, this.list, el("div", { class: "sheet-side" }, this.words, this.largeHost)), this.acts, this.none);
  }

  // What has come to be open since the sheets were seen last is what they show.
  show(from) {
    const what = { profile: "section", case: "packet" }[from?.kind];
    if (what && from !== this.model.doc && !this.seen.has(from)) this.model.choose({ what });
    for (const d of this.store.docs) this.seen.add(d);
    this.#papers().then(() => this.update()).catch(fail);
    this.model.pause(false);
    this.update();
  }

  async #papers() {
    const [{ papers, printers }, { entries }] = await Promise.all([api.get("/api/papers"), api.get("/api/library?kind=tool")]);
    const fill = (id, list, value) => {
      const select = this.root.querySelector(id);
      select.replaceChildren(...options(list));
      select.value = list.some(([v]) => v === value) ? value : "";
    };
    fill("#sheets-paper", [["", "as usual"], ...papers.map((p) => [p, p])], this.model.choice.paper);
    fill("#sheets-printer", [["", "not measured"], ...printers.map((p) => [p.name, p.name])], this.model.choice.printer);
    fill("#sheets-tools", [["", "the usual tools"], ...entries.map((e) => [e.name, e.title || e.name])], this.model.choice.tools);
    this.root.querySelector("#sheets-printer").title = printers.length ? "Sheets are corrected for its measured error" : "None is measured yet: print the last sheet of a packet, and listel printer records it";
  }

  update() {
    const { model, root } = this;
    const { choice, pages, doc, state } = model;
    root.classList.toggle("empty", !doc && model.whats.length === 0);
    const what = root.querySelector("#sheets-what");
    const { whats } = model;
    const offered = JSON.stringify(whats);
    if (offered !== this.whats) {
      this.whats = offered;
      what.replaceChildren(...options(whats));
    }
    what.value = choice.what;
    root.querySelector("#sheets-landscape").checked = choice.landscape;
    root.querySelector("#sheets-setups").checked = choice.setups;
    root.querySelector("#sheets-units").value = this.store.prefs.units;
    const usual = root.querySelector('#sheets-paper option[value=""]');
    if (usual && choice.paper === "" && model.paper) usual.textContent = `${model.paper}, as usual`;
    root.querySelector("#sheets-with").hidden = choice.what !== "packet";
    root.querySelector("#sheets-shop").hidden = !model.planned;
    root.querySelector("#sheets-work").value = choice.work;
    root.querySelector("#sheets-search").hidden = choice.what !== "setups";
    for (const key in searches) root.querySelector(`#sheets-${key}`).value = this.store.prefs.setups?.[key] ?? { effort: "usual", blank: "" }[key];
    for (const b of this.files) b.disabled = pages.length === 0;
    this.#list(pages);
    this.#state(state);
    this.#large();
  }

  // list keeps the place in the work when other sheets come: the sheet of the same title.
  #list(pages) {
    if (pages === this.shownPages) return;
    const before = this.shownPages?.[this.at]?.title;
    this.shownPages = pages;
    const same = pages.findIndex((p) => p.title === before);
    this.at = same >= 0 ? same : Math.min(this.at, Math.max(0, pages.length - 1));
    const held = this.list.contains(document.activeElement);
    this.list.replaceChildren(...pages.map((p, i) => el("li", null, p.part && p.part !== pages[i - 1]?.part ? el("h3", null, p.part) : null, el("button", { "data-sheet": p.n, onclick: () => this.go(i), title: p.purpose },
      el("img", { loading: "lazy", decoding: "async", src: p.url, alt: "", width: Math.round((p.width_mm / Math.max(p.width_mm, p.height_mm)) * 92), height: Math.round((p.height_mm / Math.max(p.width_mm, p.height_mm)) * 92) }),
      el("span", null, el("b", null, `${p.n} `), p.title, p.full_size ? el("small", null, "full size") : null)))));
    this.#mark();
    if (held) this.list.querySelectorAll("button")[this.at]?.focus();
  }

  #mark() {
    for (const [i, b] of [...this.list.querySelectorAll("button")].entries()) b.setAttribute("aria-current", i === this.at);
    this.list.querySelectorAll("button")[this.at]?.scrollIntoView({ block: "nearest" });
    this.root.querySelector("#sheet-before").disabled = this.at <= 0;
    this.root.querySelector("#sheet-next").disabled = this.at >= this.model.pages.length - 1;
  }

  #state(state) {
    const parts = [];
    if (state.of > 0 && state.busy) {
      parts.push(el("p", null, `Planning the set-ups: ${state.done} of ${state.of} moldings${state.stage ? `, ${state.stage}` : ""}. `),
        el("progress", { max: state.of, value: state.done, "aria-label": "Set-ups planned" }), button("Stop", () => this.model.stop(), { id: "sheets-stop" }));
    } else if (state.busy && this.model.pages.length === 0) {
      parts.push(el("p", null, "The sheets are being drawn."));
    }
    if (state.words) parts.push(el("p", { class: "mistake" }, state.words));
    for (const m of state.mistakes.slice(0, 5)) parts.push(el("p", { class: "mistake" }, m.own ? m.text : `${m.file}, ${m.text}`));
    if (state.mistakes.length && this.model.pages.length) parts.push(el("p", { class: "quiet" }, "These are the last good sheets."));
    if (this.model.pages.length && this.model.unsaved?.length) parts.push(el("p", { class: "odd unsaved-words" }, `Drawn from what is not saved yet: ${this.model.unsaved.join(", ")}. The sheets say so.`));
    if (state.kept) parts.push(el("p", { class: "kept" }, state.kept));
    for (const n of state.notes ?? []) parts.push(el("p", { class: "quiet" }, n));
    this.words.replaceChildren(...parts);
    this.root.classList.toggle("is-stale", state.mistakes.length > 0);
  }

  go(i) {
    const { pages } = this.model;
    if (i < 0 || i >= pages.length) return;
    this.at = i;
    this.#mark();
    this.#large();
    this.largeHost.scrollTo(0, 0);
    say(`Sheet ${pages[i].n} of ${pages.length}: ${pages[i].title}`);
  }

  #large() {
    const p = this.model.pages[this.at];
    this.large.hidden = !p;
    if (!p) return;
    if (this.large.getAttribute("src") !== p.url) this.large.src = p.url;
    this.large.alt = `Sheet ${p.n}: ${p.title}. ${p.purpose}`;
    this.#size();
  }

  magnify(id) {
    this.zoom = id;
    for (const b of this.zooms) b.setAttribute("aria-pressed", b.id === `sheet-${id}`);
    this.#size();
  }

  get pxPerMM() {
    return Number(recall("px-per-mm")) || 96 / 25.4;
  }

  #check() {
    checkScreen({ pxPerMM: this.pxPerMM, setPxPerMM: (px) => remember("px-per-mm", String(px)) }).then((known) => known && this.magnify("full"));
  }

  #size() {
    const p = this.model.pages[this.at];
    if (!p) return;
    const room = [this.largeHost.clientWidth - 24, this.largeHost.clientHeight - 24];
    const k = { whole: Math.min(room[0] / p.width_mm, room[1] / p.height_mm), wide: room[0] / p.width_mm, full: this.pxPerMM }[this.zoom];
    this.large.style.width = `${p.width_mm * k}px`;
    this.large.style.height = `${p.height_mm * k}px`;
  }

  async download(format) {
    const { model } = this;
    const name = model.fileName(format);
    say(`Making ${name}`);
    const blob = await model.file(format);
    const url = URL.createObjectURL(blob);
    const link = el("a", { href: url, download: name });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(url), 60000);
    const words = `${name} is in your downloads.`;
    this.model.state.kept = words; // until other sheets are drawn
    this.update();
    note(words);
  }

  /** Prints when every sheet is there to print. */
  async print() {
    say("Making the sheets ready to print");
    await printPages(this.model.pages);
    this.ready = true;
    window.print();
    this.ready = false;
  }

  // The browser's own command comes here without waiting.
  beforePrint() {
    if (!this.ready) printPages(this.model.pages);
  }

  #key(e) {
    const way = { ArrowDown: 1, ArrowUp: -1, Home: -Infinity, End: Infinity }[e.key];
    if (!way) return;
    this.go(Math.max(0, Math.min(this.model.pages.length - 1, this.at + way)));
    this.list.querySelectorAll("button")[this.at]?.focus();
    e.preventDefault();
  }

  #turn(e) {
    const way = { PageDown: 1, PageUp: -1 }[e.key];
    if (!way) return;
    this.go(this.at + way);
    e.preventDefault();
  }
}

const fileWords = {
  pdf: "One file to print, the same as the packet command writes",
  svg: "One drawing a sheet, in a zip",
  files: "The case as a text, with its profiles and the tools and woods of your own, in a zip",
};
