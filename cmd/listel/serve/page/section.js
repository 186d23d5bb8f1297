// section.js: the view in which a molding is composed: the board with its drawing, and the rail with its members.

import * as api from "./api.js";
import { Board, zooms } from "./board.js";
import { button, el, fail, note, options, put, redraw, say, svg, tools, unsay } from "./dom.js";
import { Hand } from "./hand.js";
import { boxOf } from "./pathpoints.js";
import { pickKind } from "./picker.js";
import { printSheet } from "./printsheet.js";
import { Rail } from "./rail.js";
import { checkScreen, screenKnown } from "./ruler.js";
import { edge } from "./scales.js";
import { drawOver, drawSheet } from "./sectiondraw.js";
import { helps } from "./mend.js";
import { startPanel } from "./start.js";
import { typeDim } from "./typedim.js";
import { Underlay } from "./underlay.js";

const shows = [["sizes", "Sizes", "Dimensions on the drawing"], ["centers", "Centers", "Where the compass stands for every arc"],
  ["blank", "Blank", "The smallest piece of wood that holds it"], ["ghost", "As it was", "The molding this one came from"]];

export function mount(root, store) {
  const view = new SectionView(root, store);
  return { show: () => view.show(), beforeprint: () => view.print() };
}

class SectionView {
  constructor(root, store) {
    this.store = store;
    this.model = store.section;
    this.shown = { sizes: true, centers: false, blank: false, ghost: true, ...store.prefs.shown };
    this.#build(root);
    this.board = new Board(this.boardHost, { label: "The section. Arrow keys move the sheet, plus and minus magnify it, 0 shows all, 1 is full size." });
    this.plate = new Underlay(this.board, this.store, this.tools);
    this.over = { dims: svg("g"), hand: svg("g") };
    this.board.over.append(this.over.dims, this.over.hand);
    this.hand = new Hand(this.board, this.model);
    this.rail = new Rail(this.railHost, this.model, { pick: (at, instead) => this.pick(at, instead).catch(fail) });
    this.#listen();
  }

  #build(root) {
    this.root = root;
    this.start = startPanel(this.store);
    this.boardHost = el("div", { class: "board" });
    this.staleWords = button("", () => this.rail.focusMistake(this.model.section.mistakes[0]), { class: "plain" });
    this.crown = button("Crown it with a fillet", () => this.model.crown(), { class: "main" });
    this.helps = el("span", { class: "helps" });
    this.stale = el("div", { class: "stale", hidden: true }, this.staleWords, this.crown, this.helps);
    this.hint = el("div", { class: "hint", hidden: true });
    this.figures = el("p", { class: "whole-figures" });
    this.ratio = el("select", { class: "ratio", "aria-label": "Scale on this screen", onchange: () => this.scaleTo(this.ratio.value) },
      el("option", { value: "now" }), options([["1/4", "1 : 4"], ["1/2", "1 : 2"], ["1", "full size"], ["2", "2 : 1"], ["4", "4 : 1"], ["8", "8 : 1"]]));
    this.toggles = shows.map(([key, words, title]) => button(words, () => this.toggle(key), { title, "aria-pressed": String(this.shown[key]), "data-show": key }));
    this.check = button("Check it", () => checkScreen(this.board), { title: "Hold a bank card or a rule against the screen", id: "check-screen", hidden: true });
    this.tools = tools("Board", "",
      [zooms(() => this.board, { between: this.ratio, home: () => this.home() }), button("Full size", () => this.fullSize(), { title: "An inch on the screen is an inch (1)", id: "full-size" }), this.check],
      this.toggles);
    this.desk = el("div", { class: "desk" }, this.stale, this.boardHost, this.hint, this.figures, this.start.node, this.tools);
    this.railHost = el("aside", { class: "rail", "aria-label": "The molding" });
    root.append(this.desk, this.railHost);
  }

  #listen() {
    const { board, model, store } = this;
    board.onview = () => this.#viewed();
    board.onhome = () => this.home();
    board.onfull = () => this.fullSize();
    board.onpress = (e, target) => {
      const at = target.closest?.("[data-member], [data-index]");
      const dim = target.closest?.(".dim");
      const twice = dim && this.lastDim?.key === dim.dataset.of + dim.dataset.index && e.timeStamp - this.lastDim.time < 500;
      this.lastDim = dim && !twice ? { key: dim.dataset.of + dim.dataset.index, time: e.timeStamp } : null;
      if (twice) {
        typeDim(model, this.boardHost, dim);
        return;
      }
      model.select(at ? Number(at.dataset.member ?? at.dataset.index) : -1);
    };
    model.on("section", () => this.#sectioned());
    model.on("select", () => this.draw());
    model.on("busy", (busy) => this.desk.setAttribute("aria-busy", String(busy)));
    store.on("files", () => this.start.update());
    store.on("current", (kind) => kind === "profile" && this.#opened());
    this.hand.onend = (moved) => {
      this.draw();
      if (!moved) return;
      this.#learned("drag");
      this.#keepInView();
    };
    this.#opened();
  }

  show() {
    this.start.update();
    this.draw();
    if (this.fitNext) this.home();
    else this.#keepInView();
  }

  #opened() {
    const doc = this.store.profile;
    this.root.classList.toggle("empty", !doc);
    this.fitNext = true;
    this.#ghost();
    if (!doc) {
      this.start.draw();
      this.draw();
    }
  }

  #sectioned() {
    const { model } = this;
    if (!model.doc) return;
    this.board.setUnits(model.section?.units ?? model.units);
    this.#ghost();
    if (model.good && this.fitNext) {
      this.draw();
      this.home();
    } else {
      this.draw();
      if (!this.hand.moving) this.#keepInView();
    }
    const { section } = model;
    if (model.focusNext && section?.members?.length) {
      model.focusNext = false;
      this.rail.rows[Math.max(0, model.selected)]?.button.focus();
    }
    if (section && !section.ok && section.mistakes?.length) this.#tellMistake(section.mistakes);
    else {
      if (this.told) unsay(); // what kept it from being drawn is put right
      this.told = "";
    }
  }

  #tellMistake(mistakes) {
    const words = mistakes.map((m) => m.text).join(" ");
    if (words !== this.told) say(words);
    this.told = words;
  }

  /** Draws all anew: the sheet, what lies over it, the words round it. */
  draw() {
    const { model, board } = this;
    const { good, section } = model;
    this.desk.classList.toggle("is-stale", Boolean(section && !section.ok && good));
    // A strip that comes moves the board: not while a corner is under the hand.
    this.stale.hidden = !section || section.ok || !section.mistakes?.length || this.hand.moving;
    if (!this.stale.hidden) {
      const n = section.mistakes.length;
      this.crown.hidden = !model.wantsCrown;
      this.staleWords.replaceChildren(el("b", null, good ? "This is the last good drawing. " : "It cannot be drawn yet. "),
        section.mistakes[0].text + (n > 1 ? `. And ${n - 1} more.` : ""));
      this.helps.replaceChildren(...helps(model).map((h) => button(h.label, () => this.#mend(h), { title: h.title })));
    }
    this.#drawHint();
    if (!good) {
      redraw(board.sheet, []);
      redraw(this.over.dims, []);
      this.hand.draw(this.over.hand);
      this.figures.textContent = "";
      return;
    }
    const { centers, blank } = this.shown;
    drawSheet(board.sheet, good, { selected: model.selected, centers, blank, ghost: this.#shownGhost });
    this.#viewed();
  }

  #mend({ label, change, afresh }) {
    if (afresh) this.store.undo(this.model.doc); // from the sizes as they were
    return this.model.edit(change, { label: label.toLowerCase() });
  }

  #viewed() {
    const { model, board } = this;
    const r = board.ratio;
    this.check.hidden = Math.abs(r - 1) >= 0.004;
    const [now, ...fixed] = this.ratio.options;
    const same = fixed.find((o) => Math.abs(r / fraction(o.value) - 1) < 0.004);
    now.hidden = Boolean(same);
    put(now, r > 1 ? `${trim(r)} : 1` : `1 : ${trim(1 / r)}`);
    const value = same?.value ?? "now";
    if (this.ratio.value !== value) this.ratio.value = value;
    if (!model.good || !model.doc) return;
    const { used, texts } = drawOver(this.over.dims, board, model.good, { ...this.shown, selected: model.selected, ghost: this.#shownGhost });
    this.used = used;
    this.hand.draw(this.over.hand, texts);
    this.#placeHint();
  }

  // shownGhost is the outline before the changes where it is shown and differs, else null.
  get #shownGhost() {
    return this.shown.ghost && this.ghost !== this.model.good.outline ? this.ghost : null;
  }

  // box holds what is drawn of the section, its blank with it when that is shown.
  get #box() {
    const { projection_mm, height_mm, blank } = this.model.good;
    return boxOf([[0, 0], [projection_mm, height_mm], ...((this.shown.blank && blank?.polygon) || [])]);
  }

  home() {
    const s = this.model.good;
    if (!s) return;
    this.board.measure();
    this.fitNext = !this.board.width; // it is not shown: when it is
    if (this.fitNext) return;
    let u = this.shown.sizes ? { left: 50, right: 140, top: 60, bottom: 60 } : {};
    for (let i = 0; i < 3; i++) { // the room that the sizes take hangs on the scale, and the scale on the room
      const most = { left: this.board.width * 0.3, right: this.board.width * 0.35, top: this.board.height * 0.25, bottom: this.board.height * 0.25 };
      const room = (side, least) => Math.min(most[side], Math.max(least, (u[side] ?? 0) + 20));
      this.board.fit(this.#box, { left: room("left", 48) + edge, right: room("right", 48), top: room("top", 64), bottom: room("bottom", 48) + edge });
      if (this.shown.sizes) u = this.used ?? {};
    }
  }

  fullSize() {
    return this.scaleTo("1");
  }

  /** Shows it true to a scale: a number, or one over another. What a millimeter is on this screen has to be known for that. */
  async scaleTo(text) {
    if (!screenKnown() && !(await checkScreen(this.board))) note("This screen was not checked: the scale is a guess. Full size, then Check it, makes it true.");
    this.board.zoom(fraction(text) / this.board.ratio);
    const s = this.model.good;
    if (!s) return;
    const [x, y] = this.board.toScreen([s.projection_mm / 2, s.height_mm / 2]);
    this.board.pan(this.board.width / 2 - x, this.board.height / 2 - y);
  }

  #keepInView() {
    const s = this.model.good;
    if (!s) return;
    if (this.board.fitted) {
      const [x, y, w, h] = this.#box;
      const [x0, y0] = this.board.toScreen([x, y + h]);
      const [x1, y1] = this.board.toScreen([x + w, y]);
      const u = this.shown.sizes ? this.used ?? {} : {};
      const b = this.board;
      const tight = x0 - (u.left ?? 0) < edge || y0 - (u.top ?? 0) < 6 || x1 + (u.right ?? 0) > b.width || y1 + (u.bottom ?? 0) > b.height - edge;
      const loose = x1 - x0 < b.width * 0.25 && y1 - y0 < b.height * 0.35;
      if (tight || loose) this.home();
    }
  }

  async #ghost() {
    const { doc } = this.model;
    const toggle = this.toggles.find((t) => t.dataset.show === "ghost");
    const text = doc?.outside?.text ?? doc?.origin?.text ?? null;
    toggle.disabled = !text;
    if (doc === this.ghostDoc && text === this.ghostText) return;
    Object.assign(this, { ghostDoc: doc, ghostText: text, ghost: null });
    if (!text) return;
    const s = await api.post("/api/section", this.model.request(text)).catch(() => null);
    if (this.ghostDoc !== doc || this.ghostText !== text) return;
    this.ghost = s?.ok ? s.outline : null;
    this.draw();
  }

  toggle(key) {
    this.shown[key] = !this.shown[key];
    this.toggles.find((t) => t.dataset.show === key).setAttribute("aria-pressed", String(this.shown[key]));
    this.store.setPrefs({ shown: { ...this.shown } });
    this.draw();
    this.#keepInView();
  }

  async pick(at, instead = false) {
    const m = this.model.section?.members?.[at];
    const below = this.model.section?.members?.[at - 1];
    const kind = await pickKind(this.store, instead ? `What shall ${m.title} be?` : below ? `Add above ${below.title}` : "Add at the foot");
    if (!kind) return;
    this.#learned("add");
    if (instead) await this.model.edit({ op: "kind", at, kind }, { select: at });
    else await this.model.add(at, kind);
    this.rail.rows[this.model.selected]?.button.focus();
  }

  // Hints stand on the board until the thing was done once.
  #drawHint() {
    const { good, section } = this.model;
    const done = this.store.prefs.learned ?? [];
    const step = !good || !section?.ok ? null : !done.includes("add") && good.members.length === 1 ? "add" : !done.includes("drag") && good.members.length > 1 ? "drag" : null;
    this.hint.hidden = step !== "add" || !this.model.doc;
    this.rail.tip.hidden = step !== "drag";
    if (this.hint.dataset.step === step) return;
    this.hint.dataset.step = step ?? "";
    if (step === "add") {
      this.hint.replaceChildren(button("Add a member on top", () => this.pick(this.model.good.members.length), { class: "main" }));
    }
  }

  #placeHint() {
    const last = this.model.good?.members.at(-1);
    if (this.hint.hidden || !last?.top) return;
    const [x, y] = this.board.toScreen([this.model.good.projection_mm, this.model.good.height_mm]);
    this.hint.style.left = `${Math.min(x + 18, this.board.width - 250)}px`;
    this.hint.style.top = `${Math.max(8, y - 44 - (this.shown.sizes ? this.used?.top ?? 0 : 0))}px`;
  }

  #learned(what) {
    const done = this.store.prefs.learned ?? [];
    if (done.includes(what)) return;
    this.store.setPrefs({ learned: [...done, what] });
    this.draw();
  }

  print() {
    if (this.model.good) printSheet(this.model.good, { stale: !this.model.section.ok, from: this.model.doc.path || this.model.doc.name });
  }
}

// fraction reads a scale, "1/4" or "2".
const fraction = (text) => {
  const [n, d = 1] = text.split("/").map(Number);
  return n / d;
};

const trim = (v) => (v >= 10 ? Math.round(v) : Math.round(v * 10) / 10);
