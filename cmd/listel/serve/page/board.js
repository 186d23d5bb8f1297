// board.js: a drawing board: an SVG in which a drawing in millimeters, y up, is moved and magnified.
//
//   const board = new Board(host, {label: "Section", scales: true})
//   board.sheet     <g> in millimeters, y up: put paths here. Lines keep their weight on the screen when they carry
//                   the class "line" (vector-effect is set in style.css)
//   board.under     <g> in the same millimeters, beneath the sheet: a picture to draw over
//   board.over      <g> in pixels of the screen: text, dimensions and handles; redraw them on every view:
//   board.onview = () => {...}       called after each change of the view (and of the size of the board)
//   board.fit([x, y, w, h], {left, right, top, bottom})   shows a box (mm, y up, x and y its lower left), with margins in pixels
//   board.fullSize()                 1 mm on the drawing is 1 mm on this screen (board.pxPerMM, see ruler.js)
//   board.zoom(factor, [px, py])     round a place on the screen, the middle if left out;  board.pan(dx, dy) in pixels
//   board.k                          pixels per millimeter now;  board.ratio: k / pxPerMM, 1 when full size
//   board.toScreen([x, y]) -> [px, py];  board.toSheet([px, py]) -> [x, y];  board.at(event) -> [x, y] in mm
//   board.width, board.height        pixels; board.measure() looks anew, for a board that has just been shown
//   board.setUnits("in" | "mm")      what the scales along the edges show
//
//   zooms(() => board, {between, home})   the buttons that magnify its drawing, what stands between them, and the one that shows all
//
// Pointers: drag on the ground moves the sheet; the wheel or two fingers magnify; a listener that wants a pointer for
// itself (a handle) calls event.stopPropagation(). Keys, when the board has the focus: arrows move, + and - magnify,
// 0 shows all (board.onhome), 1 full size (board.onfull, which may ask for the screen first).

import { button, svg } from "./dom.js";
import { recall, remember } from "./remember.js";
import { drawScales } from "./scales.js";

const least = 0.02; // pixels per mm: a whole case on a small screen is about 0.2
const most = 400;
const largest = 8; // times full size, when all is shown: a single fillet does not fill the board
const pressed = 3; // a pointer that moves less than this many pixels has pressed, not dragged

export class Board {
  constructor(host, { label, scales = true } = {}) {
    this.host = host;
    this.k = 4;
    this.x = 0;
    this.y = 0;
    this.units = "in";
    this.pxPerMM = Number(recall("px-per-mm")) || 96 / 25.4;
    this.onview = () => {};
    this.onhome = () => {};
    this.onfull = () => this.fullSize();
    this.onpress = () => {}; // a press on the ground
    this.under = svg("g", { class: "under" });
    this.sheet = svg("g", { class: "sheet" });
    this.over = svg("g", { class: "over" });
    this.edges = scales ? svg("g", { class: "scales", "aria-hidden": "true" }) : null;
    this.svg = svg("svg", { class: "paper", tabindex: "0", role: "group", "aria-label": label }, this.under, this.sheet, this.over, this.edges ?? []);
    host.append(this.svg);
    this.pointers = new Map();
    this.#listen();
    this.width = host.clientWidth;
    this.height = host.clientHeight;
    new ResizeObserver(() => this.#resized()).observe(host);
  }

  get ratio() {
    return this.k / this.pxPerMM;
  }

  setUnits(units) {
    if (units === this.units) return;
    this.units = units;
    if (this.edges) drawScales(this.edges, this);
  }

  setPxPerMM(px) {
    this.pxPerMM = px;
    remember("px-per-mm", String(px));
    this.#moved();
  }

  toScreen([x, y]) {
    return [this.x + x * this.k, this.y - y * this.k];
  }

  toSheet([px, py]) {
    return [(px - this.x) / this.k, (this.y - py) / this.k];
  }

  place(event) {
    const r = this.svg.getBoundingClientRect();
    return [event.clientX - r.left, event.clientY - r.top];
  }

  at(event) {
    return this.toSheet(this.place(event));
  }

  fit([x, y, w, h], { left = 40, right = 40, top = 40, bottom = 40 } = {}) {
    this.box = [x, y, w, h];
    this.margins = { left, right, top, bottom };
    const width = Math.max(60, this.width - left - right);
    const height = Math.max(60, this.height - top - bottom);
    this.k = clamp(Math.min(width / Math.max(w, 1), height / Math.max(h, 1), this.pxPerMM * largest), least, most);
    this.x = left + (width - w * this.k) / 2 - x * this.k;
    this.y = top + (height + h * this.k) / 2 + y * this.k;
    this.fitted = true;
    this.#moved();
  }

  measure() {
    this.width = this.host.clientWidth;
    this.height = this.host.clientHeight;
  }

  refit() {
    if (this.box) this.fit(this.box, this.margins);
  }

  zoom(factor, at = [this.width / 2, this.height / 2]) {
    this.#scaleTo(this.k * factor, at);
  }

  fullSize() {
    this.#scaleTo(this.pxPerMM, [this.width / 2, this.height / 2]);
  }

  #scaleTo(k, at) {
    const [x, y] = this.toSheet(at);
    this.k = clamp(k, least, most);
    this.x = at[0] - x * this.k;
    this.y = at[1] + y * this.k;
    this.fitted = false;
    this.#moved();
  }

  pan(dx, dy) {
    this.x += dx;
    this.y += dy;
    this.fitted = false;
    this.#moved();
  }

  #resized() {
    const { width, height } = this;
    this.measure();
    if (!this.width || !this.height) return;
    if (this.fitted || !width) this.refit();
    else this.pan((this.width - width) / 2, (this.height - height) / 2);
    this.#moved();
  }

  #moved() {
    const place = `translate(${this.x} ${this.y}) scale(${this.k} ${-this.k})`;
    for (const g of [this.under, this.sheet]) g.setAttribute("transform", place);
    if (this.edges) drawScales(this.edges, this);
    this.onview();
  }

  #listen() {
    const s = this.svg;
    s.addEventListener("pointerdown", (e) => this.#down(e));
    s.addEventListener("pointermove", (e) => this.#move(e));
    for (const type of ["pointerup", "pointercancel"]) s.addEventListener(type, (e) => this.#up(e));
    s.addEventListener("wheel", (e) => this.#wheel(e), { passive: false });
    s.addEventListener("keydown", (e) => this.#key(e));
  }

  #down(e) {
    if (e.button > 1) return;
    this.pointers.set(e.pointerId, this.place(e));
    this.pressed = this.pointers.size === 1 ? { at: this.place(e), far: 0, target: e.target } : null;
    if (this.pointers.size === 2) this.grip = this.#spread();
    // Until it moves the pointer stays with what it is on, so that members can be clicked.
  }

  #move(e) {
    const old = this.pointers.get(e.pointerId);
    if (!old) return;
    const now = this.place(e);
    this.pointers.set(e.pointerId, now);
    if (this.pointers.size === 1) {
      if (this.pressed) {
        this.pressed.far = Math.max(this.pressed.far, Math.hypot(now[0] - this.pressed.at[0], now[1] - this.pressed.at[1]));
        if (this.pressed.far < pressed) return;
        if (!this.svg.hasPointerCapture(e.pointerId)) this.svg.setPointerCapture(e.pointerId);
      }
      this.pan(now[0] - old[0], now[1] - old[1]);
      return;
    }
    const { middle, apart } = this.#spread();
    this.pan(middle[0] - this.grip.middle[0], middle[1] - this.grip.middle[1]);
    if (this.grip.apart > 0) this.zoom(apart / this.grip.apart, middle);
    this.grip = { middle, apart };
  }

  #up(e) {
    if (!this.pointers.delete(e.pointerId)) return;
    if (this.pressed && this.pressed.far < pressed && e.type === "pointerup") this.onpress(e, this.pressed.target);
    this.pressed = null;
    if (this.pointers.size === 2) this.grip = this.#spread();
  }

  #spread() {
    const [[ax, ay], [bx, by]] = [...this.pointers.values()];
    return { middle: [(ax + bx) / 2, (ay + by) / 2], apart: Math.hypot(ax - bx, ay - by) };
  }

  #wheel(e) {
    e.preventDefault();
    const lines = e.deltaMode === 1 ? 30 : 1;
    const asWheel = e.deltaMode === 1 || (e.deltaX === 0 && Math.abs(e.deltaY) >= 60);
    if (e.ctrlKey || e.metaKey || asWheel) {
      const speed = e.ctrlKey && !asWheel ? 0.01 : 0.0015;
      this.zoom(Math.exp(-clamp(e.deltaY * lines, -300, 300) * speed), this.place(e));
    } else {
      this.pan(-e.deltaX * lines, -e.deltaY * lines);
    }
  }

  #key(e) {
    if (e.target !== this.svg || e.ctrlKey || e.metaKey || e.altKey) return;
    const by = e.shiftKey ? 120 : 40;
    const acts = {
      ArrowLeft: () => this.pan(by, 0), ArrowRight: () => this.pan(-by, 0),
      ArrowUp: () => this.pan(0, by), ArrowDown: () => this.pan(0, -by),
      "+": () => this.zoom(1.25), "=": () => this.zoom(1.25), "-": () => this.zoom(0.8),
      0: () => this.onhome(), 1: () => this.onfull(),
    };
    if (!acts[e.key]) return;
    acts[e.key]();
    e.preventDefault();
  }
}

export const zooms = (board, { between, home } = {}) => [
  button("−", () => board().zoom(0.8), { "aria-label": "Smaller" }), between, button("+", () => board().zoom(1.25), { "aria-label": "Larger" }),
  home && button("All", home, { title: "Show all of it (0)" }),
];

export const clamp = (v, lo, hi) => Math.min(hi, Math.max(lo, v));
