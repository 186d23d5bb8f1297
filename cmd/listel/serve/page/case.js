// case.js: the view of a case: the board with its views and every molding in place, the pieces under it, the rail beside it.

import * as api from "./api.js";
import { Board, zooms } from "./board.js";
import { drawOver, drawViews, layViews, outlinesBox, rule } from "./casedraw.js";
import { CaseModel } from "./casemodel.js";
import { piecesPanel } from "./casepieces.js";
import { CaseRail } from "./caserail.js";
import { beginCase, caseFront, starts, textOf } from "./casestart.js";
import { button, el, note, redraw, say, tools } from "./dom.js";
import { countFiles, openFile } from "./files.js";
import { way } from "./start.js";

const views = [["all", "All"], ["front", "Front"], ["section", "Section"], ["end", "Right end"], ["plan", "Plan"]];

export function mount(root, store) {
  const view = new CaseView(root, store);
  return { show: () => view.show(), hide: () => view.model.pause(true), beforeprint: () => view.beforePrint() };
}

class CaseView {
  constructor(root, store) {
    this.root = root;
    this.store = store;
    this.model = new CaseModel(store);
    this.model.pause(true);
    this.seen = "all";
    this.#build();
    this.board = new Board(this.boardHost, { label: "The case. Arrow keys move the sheet, plus and minus magnify it, 0 shows all.", scales: false });
    this.rail = new CaseRail(this.railHost, this.model, { editSection: (m) => this.editSection(m) });
    this.#listen();
    this.#opened();
  }

  #build() {
    this.boardHost = el("div", { class: "board" });
    this.stale = button("", () => this.rail.tab("text"), { class: "stale", hidden: true });
    this.closer = button("Closer", () => this.#closer(), { id: "case-closer", title: "The chosen molding, or the piece chosen, as large as the board takes", disabled: true });
    this.viewButtons = views.map(([id, words]) => button(words, () => this.look(id), { id: `case-view-${id}`, "aria-pressed": String(id === this.seen) }));
    this.piecesHost = el("div", { class: "pieces-host" });
    const bar = tools("Board", "", [this.viewButtons, this.closer], zooms(() => this.board), button("Sheets for the bench", () => (location.hash = "#sheets"), { id: "case-to-sheets" }));
    this.start = this.#start();
    this.desk = el("div", { class: "desk" }, this.boardHost, bar, this.piecesHost, this.start);
    this.railHost = el("aside", { class: "rail", "aria-label": "The case" });
    this.root.append(this.desk, this.railHost);
  }

  #start() {
    this.openWay = way("case-start-open", "Open a case", "", () => openFile(this.store, "case"));
    return el("div", { class: "start" },
      el("h2", null, "A case to put moldings on"),
      el("div", { class: "ways" }, this.openWay, starts.map((s) => way(`case-start-${s.id}`, s.title, s.words, () => beginCase(this.store, s)))));
  }

  // pictures shows the cases from the front, once, when there is nothing open.
  async #pictures() {
    if (this.pictured || this.model.doc) return;
    this.pictured = true;
    const own = this.store.files.filter((f) => f.kind === "case").slice(0, 2);
    const all = [...starts.map((s) => [s.id, s.name, () => textOf(this.store, s)]), ...own.map((f) => ["open", f.path, async () => (await api.file(f.path)).text])];
    for (const [id, name, read] of all) {
      const picture = await caseFront(name, await read());
      if (picture) this.start.querySelector(`#case-start-${id} .drawings`).append(picture);
    }
  }

  #listen() {
    const { board, model, store } = this;
    board.onview = () => this.#over();
    board.onhome = () => this.look("all");
    board.onpress = (e, target) => this.#pressed(target);
    new ResizeObserver(() => this.#resized()).observe(this.boardHost);
    model.on("doc", () => this.#opened());
    model.on("answer", () => this.#answered());
    model.on("select", () => this.draw());
    store.on("files", () => this.#ways());
  }

  // A board of another size has other room between the views.
  #resized() {
    if (!this.model.good || !this.board.width) return;
    const { fitted } = this.board;
    this.draw();
    if (fitted) this.look(this.seen);
  }

  #pressed(target) {
    const path = target.closest?.("[data-path]")?.dataset.path;
    if (path) {
      this.rail.focusPath(path);
      return;
    }
    const at = target.closest?.("[data-molding]");
    this.model.select(at?.dataset.molding ?? "", at?.dataset.run ?? "");
  }

  show() {
    this.#ways();
    this.#pictures().catch(() => {}); // the words stand without them
    this.model.pause(false);
    this.draw();
  }

  #ways() {
    countFiles(this.store, "case", this.openWay);
  }

  #opened() {
    this.root.classList.toggle("empty", !this.model.doc);
    this.fitNext = true;
    this.rail?.update();
    this.draw();
  }

  #answered() {
    const { answer } = this.model;
    const words = answer.mistakes.map((m) => m.plain).join(" ");
    if (words && words !== this.told) say(words);
    this.told = words;
    const { fitted } = this.board;
    this.draw();
    if (this.model.good && (this.fitNext || fitted)) {
      this.fitNext = false;
      this.look(this.seen);
    }
  }

  /** Brings one view before the eyes, or all of them. */
  look(id) {
    this.seen = id;
    this.#mark(id);
    if (!this.laid) return;
    if (id === "all") this.board.fit(this.laid.box, this.laid.margins);
    else this.board.fit(this.laid.boxOf(id), { left: 150, right: 190, top: 66, bottom: 96 });
  }

  // closer brings the chosen molding before the eyes where it is cut; a chosen piece that is not cut there, on the plan, where it
  // lies over the others.
  #closer() {
    const { good, selected, run } = this.model;
    if (!good || !this.laid) return;
    const found = good.views.map(({ view, shapes }) => {
      const mine = shapes.filter((s) => s.molding === selected && (run ? s.run === run : s.run !== "back-rail"));
      const cut = view === "section" ? mine.filter((s) => s.kind === "cut") : [];
      const box = outlinesBox(cut.length ? cut : mine);
      return { view, box, worth: !box ? -1 : cut.length ? 2 : view === "plan" ? 1 : 0 };
    }).reduce((a, b) => (b.worth > a.worth ? b : a));
    if (!found.box) {
      note("No view shows it.");
      return;
    }
    const [dx, dy] = this.laid.places[found.view];
    const [x, y, w, h] = found.box;
    this.seen = found.view;
    this.#over();
    this.board.fit([x + dx, y + dy, w, h], { left: 60, right: 160, top: 60, bottom: 60 });
    this.board.fitted = false; // it stays there
    this.#mark("");
  }

  #mark(id) {
    for (const b of this.viewButtons) b.setAttribute("aria-pressed", String(b.id === `case-view-${id}`));
  }

  draw() {
    if (!this.board) return;
    this.closer.disabled = !this.model.selected;
    const { answer, good, doc } = this.model;
    const bad = Boolean(answer && !answer.ok);
    this.desk.classList.toggle("is-stale", bad && Boolean(good));
    this.stale.hidden = !bad || answer.mistakes.length === 0;
    if (!this.stale.hidden) {
      const n = answer.mistakes.length;
      this.stale.replaceChildren(el("b", null, good ? "This is the last good drawing. " : "It cannot be drawn yet. "), answer.mistakes[0].plain + (n > 1 ? `. And ${n - 1} more.` : ""));
    }
    if (!good || !doc) {
      redraw(this.board.sheet, []);
      redraw(this.board.over, []);
      this.piecesHost.replaceChildren(this.stale);
      this.laid = null;
      return;
    }
    this.laid = layViews(good, this.board.width, this.board.height);
    drawViews(this.board.sheet, good, this.laid.places, this.model);
    this.#over();
    this.#pieces(good);
  }

  #pieces(good) {
    const held = this.piecesHost.contains(document.activeElement) ? document.activeElement.textContent : null;
    const { scrollTop } = this.piecesHost;
    this.piecesHost.replaceChildren(this.stale, piecesPanel(good, this.model));
    this.piecesHost.scrollTop = scrollTop;
    if (held !== null) [...this.piecesHost.querySelectorAll("button")].find((b) => b.textContent === held)?.focus();
  }

  #over() {
    const { good } = this.model;
    rule(this.board.sheet, this.board.k);
    this.board.svg.dataset.only = this.seen;
    if (good && this.laid) drawOver(this.board.over, this.board, good, this.laid, { selected: this.model.selected, only: this.seen === "all" ? "" : this.seen });
  }

  // What is seen on the board is printed as it is, for a look; the sheets are what one works from.
  beforePrint() {
    document.getElementById("print-sheet")?.remove();
    const { good } = this.model;
    if (!good) return;
    const { width, height } = this.board;
    const drawing = this.board.svg.cloneNode(true);
    drawing.setAttribute("viewBox", `0 0 ${width} ${height}`);
    document.body.append(el("div", { id: "print-sheet", class: "print-case" }, el("h1", null, good.title || good.name),
      el("p", null, "Not to scale. The sheets are drawn for the bench."), drawing, piecesPanel(good, this.model)));
  }

  /** Opens the profile of a molding in the Section view: the file it stands in, or a copy of the library's to be saved beside the case. */
  async editSection(molding) {
    const { store } = this;
    const open = store.docs.find((d) => d.kind === "profile" && (d.path === molding.file || d.name === molding.profile));
    if (open) {
      store.show(open);
    } else if (molding.from === "project") {
      await store.open(molding.file);
    } else {
      const { text } = await api.entry("profile", molding.profile);
      store.start("profile", text, { name: molding.profile, origin: { label: "in the library", text } });
      note(`This is a copy of ${molding.profile}. The case takes it from here; save it beside the case to keep it.`);
    }
    location.hash = "#section";
  }
}
