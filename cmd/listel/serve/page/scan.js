// scan.js: the view in which a plate is put under the section: measured, cropped, traced, and opened as a molding.

import { zooms } from "./board.js";
import { button, el, fail, note, say, tools } from "./dom.js";
import { ScanBoard } from "./scanboard.js";
import { ScanModel } from "./scanmodel.js";
import { ScanRail } from "./scanrail.js";

export function mount(root, store) {
  const view = new ScanView(root, store);
  return { show: () => view.show(), steps: () => (view.model.plate ? view.model.steps : null), print: () => note("A plate does not print: open what was traced in the section.") };
}

const kinds = /\.(png|jpe?g|gif|tiff?)$/i;

class ScanView {
  constructor(root, store) {
    this.root = root;
    this.store = store;
    this.model = new ScanModel(store);
    this.#build();
    this.board = new ScanBoard(this.boardHost, this.model);
    this.rail = new ScanRail(this.railHost, this.model, this.board, { another: () => this.choose() });
    this.board.onmode = () => this.#mode();
    this.board.onlength = (what) => this.rail.focusLast(what);
    this.model.on("change", () => {
      this.update();
      store.tell("steps");
    });
    store.on("files", () => this.#files());
    for (const type of ["prefs", "current"]) store.on(type, () => this.update());
    for (const type of ["dragenter", "dragover"]) window.addEventListener(type, (e) => this.#over(e));
    window.addEventListener("drop", (e) => this.#drop(e)); // wherever it falls: a browser would leave the page for it
    this.update();
  }

  #build() {
    this.input = el("input", { type: "file", id: "scan-file", accept: "image/png,image/jpeg,image/gif,image/tiff,.tif,.tiff", class: "unseen", tabindex: "-1", "aria-label": "A picture of a plate",
      onchange: () => this.input.files[0] && this.#take({ blob: this.input.files[0], name: this.input.files[0].name }) });
    this.list = el("ul", { class: "files" });
    this.listHead = el("h3", null, "In the folder");
    this.start = el("div", { class: "start scan-start" },
      el("h2", null, "A plate to draw over"),
      el("p", null, "A scan or a photograph of a printed or measured section: PNG, JPEG, TIFF or GIF. Drop it here, or choose it. It stays on this machine, and is kept only while this page is open."),
      el("p", { class: "choices to-start" }, button("Choose a picture", () => this.choose(), { class: "main", id: "scan-choose" })),
      this.listHead, this.list);
    this.boardHost = el("div", { class: "board" });
    this.hint = el("p", { class: "scan-hint", role: "status" });
    this.ways = [["length", "Measure a length"], ["crop", "Crop"], ["points", "Click corners"]].map(([mode, words]) =>
      button(words, () => (this.board.mode = this.board.mode === mode ? "" : mode), { id: `scan-${mode}`, "aria-pressed": "false", "data-mode": mode }));
    this.acts = tools("Plate", "", this.ways, zooms(() => this.board.board, { home: () => this.board.home() }));
    this.railHost = el("aside", { class: "rail scan-rail", "aria-label": "The plate" });
    this.root.append(this.input, this.start, el("div", { class: "desk scan-desk" }, this.boardHost, this.hint, this.acts), this.railHost);
  }

  show() {
    this.#files();
    this.update();
  }

  #files() {
    const pictures = this.store.files.filter((f) => f.kind === "image");
    this.listHead.hidden = pictures.length === 0;
    this.list.replaceChildren(...pictures.map((f) => el("li", null, button(f.path, () => this.#take({ path: f.path }), { "data-path": f.path }))));
  }

  choose() {
    this.input.value = "";
    this.input.click();
  }

  async #take(what) {
    try {
      say("Reading the picture");
      await this.model.load(what);
      this.board.home();
      this.board.mode = "length";
      this.board.board.svg.focus();
    } catch (e) {
      fail(e);
    }
  }

  #over(e) {
    if (![...(e.dataTransfer?.types ?? [])].includes("Files")) return;
    e.preventDefault();
    e.dataTransfer.dropEffect = "copy";
  }

  #drop(e) {
    if (!e.dataTransfer?.files.length) return;
    e.preventDefault();
    location.hash = "#scan";
    const file = [...e.dataTransfer.files].find((f) => kinds.test(f.name) || f.type.startsWith("image/"));
    if (file) this.#take({ blob: file, name: file.name });
    else note("That is no picture: a PNG, JPEG, TIFF or GIF file is needed.", { bad: true });
  }

  #mode() {
    for (const b of this.ways) b.setAttribute("aria-pressed", String(b.dataset.mode === this.board.mode));
    this.hint.textContent = this.board.hint;
    this.hint.hidden = !this.board.hint;
  }

  update() {
    this.root.classList.toggle("empty", !this.model.plate);
    this.root.setAttribute("aria-busy", String(this.model.state.busy));
    this.board.draw();
    this.rail.update();
    this.#mode();
  }
}
