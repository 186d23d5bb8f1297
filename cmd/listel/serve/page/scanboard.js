// scanboard.js: the plate on its board: what is measured, the crop, the corners, what was traced; all of it under the hand.
//
//   const b = new ScanBoard(host, model)
//   b.mode = "length" | "crop" | "points" | "place" | "back" | "";  b.onmode = () => {...}   what a press on the plate does
//   b.onlength = (row) => {...}    a length was measured and wants its size
//   b.draw();  b.home();  b.look([x, y])   shows a place of the plate large

import { Board, clamp } from "./board.js";
import { say, svg } from "./dom.js";
import { round, spelled } from "./lettering.js";
import { Loupe } from "./loupe.js";

const words = {
  length: "Press on both ends of something whose length you know. Enter presses in the middle of the board.",
  crop: "Draw a rectangle round one section, with some paper round it.",
  points: "Press on the corners of the section in order, and on some places along its curves. Delete takes the last one back.",
  place: "Press on a place that you know.",
  back: "Press on the back of the section, where the drawing is left open or broken off.",
};

export class ScanBoard {
  constructor(host, model) {
    this.host = host;
    this.model = model;
    this.drags = 0;
    this.pending = null; // the first end of a length
    this.onmode = this.onlength = () => {};
    this.board = new Board(host, { label: "The plate. Arrow keys move it, plus and minus magnify it, 0 shows all. While something is measured, Enter presses in the middle.", scales: false });
    this.layer = svg("g", { transform: "scale(1 -1)" });
    this.board.sheet.append(this.layer);
    this.handles = svg("g");
    this.board.over.append(this.handles);
    this.loupe = new Loupe(host);
    this.board.onview = () => this.#over();
    this.board.onhome = () => this.home();
    this.board.onfull = () => this.board.zoom(1 / this.board.k); // a pixel is a pixel
    this.board.onpress = (e, target) => this.#pressed(e, target);
    const paper = this.board.svg;
    paper.addEventListener("pointerdown", (e) => this.mode === "crop" && this.#crop(e), true);
    paper.addEventListener("pointermove", (e) => this.#hover(e));
    paper.addEventListener("pointerleave", () => this.loupe.hide());
    paper.addEventListener("keydown", (e) => this.#key(e));
    // Not at once: when the focus goes on to a spot, that must be there still to take it.
    for (const type of ["focus", "blur"]) paper.addEventListener(type, () => requestAnimationFrame(() => this.#over()));
  }

  get mode() {
    return this.way ?? "";
  }

  set mode(mode) {
    this.way = mode;
    this.pending = null;
    this.host.classList.toggle("is-placing", mode !== "");
    this.host.dataset.mode = mode; // what else a press falls on is then let through, but for the mark of a corner while corners are clicked
    if (mode) say(words[mode]);
    else this.loupe.hide();
    this.onmode();
    this.draw();
  }

  get hint() {
    return this.pending ? "Now the other end." : words[this.mode] ?? "";
  }

  home() {
    const { plate } = this.model;
    if (plate) this.board.fit([0, -plate.height, plate.width, plate.height], { left: 16, right: 16, top: 16, bottom: 16 });
  }

  look([x, y]) {
    const { board } = this;
    board.zoom(Math.max(board.k, 6) / board.k);
    const [px, py] = board.toScreen([x, -y]);
    board.pan(board.width / 2 - px, board.height / 2 - py);
  }

  screen = ([x, y]) => this.board.toScreen([x, -y]);

  place(e) {
    const [x, y] = this.board.at(e);
    return [x, -y];
  }

  draw() {
    const { plate, result, old } = this.model;
    if (!plate) {
      this.layer.replaceChildren();
      this.handles.replaceChildren();
      return;
    }
    this.picture ??= svg("image", { preserveAspectRatio: "none" });
    if (this.shownUrl !== plate.url) {
      this.shownUrl = plate.url;
      for (const [k, v] of Object.entries({ href: plate.url, width: plate.width, height: plate.height })) this.picture.setAttribute(k, v);
      this.loupe.load(plate);
    }
    const nodes = [this.picture];
    if (result) {
      nodes.push(svg("path", { class: `found line${old ? " old" : ""}`, d: result.traced }), svg("path", { class: `made line${old ? " old" : ""}`, d: result.section }));
    }
    this.layer.replaceChildren(...nodes);
    this.#over();
  }

  // over draws what keeps its size on the screen.
  #over() {
    const { model } = this;
    if (!model.plate) return;
    this.layer.classList.toggle("as-pixels", this.board.k > 3);
    const held = this.handles.contains(document.activeElement) ? document.activeElement.dataset.key : null;
    const nodes = [];
    this.#drawCrop(nodes);
    for (const [i, l] of model.rows.lengths.entries()) this.#drawLength(nodes, i, l);
    for (const [i, p] of model.rows.points.entries()) nodes.push(this.#handle(`place ${i}`, `Known place ${i + 1}`, p.at, (at) => (p.at = at), () => model.rows.points.splice(i, 1)));
    const { back } = model.section;
    if (back) {
      const [x] = this.screen(back);
      nodes.push(svg("path", { class: "measure back-line", d: `M${round(x)} 0V${this.board.height}` }), this.#handle("back 0", "The back", back, (at) => (model.section.back = at), () => (model.section.back = null)));
    }
    this.#drawPoints(nodes);
    for (const f of model.faults) for (const b of f.boxes) nodes.push(this.#box(b));
    if (model.result && !model.old) nodes.push(this.#worst(model.result.worst));
    if (this.pending) nodes.push(svg("path", { class: "measure", d: cross(this.screen(this.pending)) }));
    if (this.mode && document.activeElement === this.board.svg) nodes.push(svg("path", { class: "aim", d: cross([this.board.width / 2, this.board.height / 2], 16) }));
    this.handles.replaceChildren(...nodes);
    if (held) this.handles.querySelector(`[data-key="${held}"]`)?.focus();
  }

  #drawLength(nodes, i, l) {
    const [a, b] = [this.screen(l.from), this.screen(l.to)];
    const apart = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const [nx, ny] = [(-(b[1] - a[1]) / apart) * 9, ((b[0] - a[0]) / apart) * 9];
    const end = ([x, y]) => `M${round(x - nx)} ${round(y - ny)}L${round(x + nx)} ${round(y + ny)}`;
    const d = `M${round(a[0])} ${round(a[1])}L${round(b[0])} ${round(b[1])}${end(a)}${end(b)}`;
    nodes.push(svg("path", { class: "measure-ground", d }), svg("path", { class: "measure", d }), label(l.text ? `length ${i + 1}: ${spelled(this.model.reading(l.text)?.words?.split(",")[0] ?? l.text)}` : `length ${i + 1}`, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2 - 12]));
    const remove = () => this.model.rows.lengths.splice(i, 1);
    nodes.push(this.#handle(`from ${i}`, `Length ${i + 1}, first end`, l.from, (at) => (l.from = at), remove), this.#handle(`to ${i}`, `Length ${i + 1}, second end`, l.to, (at) => (l.to = at), remove));
  }

  #drawCrop(nodes) {
    const { section, plate } = this.model;
    if (!section.crop) return;
    const [l, t, r, f] = section.crop;
    const [x0, y0] = this.screen([l, t]);
    const [x1, y1] = this.screen([r, f]);
    const [w, h] = [this.board.width, this.board.height];
    nodes.push(svg("path", { class: "outside", "fill-rule": "evenodd", d: `M-9 -9H${w + 9}V${h + 9}H-9ZM${round(x0)} ${round(y0)}H${round(x1)}V${round(y1)}H${round(x0)}Z` }),
      svg("rect", { class: "crop", x: x0, y: y0, width: Math.max(0, x1 - x0), height: Math.max(0, y1 - y0) }));
    const put = (i, j) => ([x, y]) => {
      const c = [...section.crop];
      c[i] = i === 0 ? clamp(Math.round(x), 0, c[2] - 1) : clamp(Math.round(x), c[0] + 1, plate.width);
      c[j] = j === 1 ? clamp(Math.round(y), 0, c[3] - 1) : clamp(Math.round(y), c[1] + 1, plate.height);
      section.crop = c;
    };
    const remove = () => (section.crop = null);
    nodes.push(...[["upper left", l, t, 0, 1], ["upper right", r, t, 2, 1], ["lower left", l, f, 0, 3], ["lower right", r, f, 2, 3]]
      .map(([where, x, y, i, j], n) => this.#handle(`crop ${n}`, `Crop, ${where} corner`, [x, y], put(i, j), remove)));
  }

  #drawPoints(nodes) {
    const { points } = this.model.section;
    if (points.length === 0) return;
    nodes.push(svg("path", { class: "clicked", d: `M${points.map((p) => this.screen(p).map(round).join(" ")).join("L")}${points.length > 2 ? "Z" : ""}` }));
    for (const [i, p] of points.entries()) nodes.push(this.#handle(`point ${i}`, `Corner ${i + 1}`, p, (at) => (points[i] = at), () => points.splice(i, 1)));
  }

  #worst(at) {
    const [x, y] = this.screen(at);
    return svg("g", { class: "worst", transform: `translate(${round(x)} ${round(y)})` }, svg("title", null, "Here it is farthest off"), svg("circle", { r: 13 }), svg("path", { d: "M0 -20V-13M0 20V13M-20 0H-13M20 0H13" }));
  }

  // box is one of several sections in the crop: a press crops to it.
  #box([l, t, r, f]) {
    const [x0, y0] = this.screen([l, t]);
    const [x1, y1] = this.screen([r, f]);
    const { model } = this;
    const choose = () => model.change(() => {
      const { plate, section } = model;
      const paper = Math.max(8, Math.round(Math.max(r - l, f - t) * 0.05));
      section.crop = [Math.max(0, l - paper), Math.max(0, t - paper), Math.min(plate.width, r + paper), Math.min(plate.height, f + paper)];
      model.faults = [];
    }, { label: "the crop" });
    return svg("rect", { class: "one-of", x: x0, y: y0, width: Math.max(2, x1 - x0), height: Math.max(2, y1 - y0), tabindex: "0", role: "button", "aria-label": `Crop to the section at ${l}, ${t}`,
      onpointerdown: (e) => e.stopPropagation(), onclick: choose, onkeydown: (e) => (e.key === "Enter" || e.key === " ") && (e.preventDefault(), e.stopPropagation(), choose()) });
  }

  #handle(key, name, at, put, remove) {
    const [x, y] = this.screen(at);
    const { model } = this;
    const move = (to, merge) => {
      model.change(() => put(inside(to, model.plate)), { label: `moving ${name[0].toLowerCase()}${name.slice(1)}`, merge });
      this.#glass(to);
    };
    const node = svg("g", { class: "spot", "data-key": key, tabindex: "0", role: "button", "aria-label": `${name}: ${at.map((v) => Math.round(v * 10) / 10).join(", ")}. Arrow keys move it by a pixel, Delete takes it away.`,
      transform: `translate(${round(x)} ${round(y)})`, onpointerdown: (e) => this.#drag(e, move), onfocus: () => this.#glass(at), onblur: () => this.loupe.hide(),
      onkeydown: (e) => {
        const by = e.shiftKey ? 10 : 1;
        const way = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] }[e.key];
        if (!way && e.key !== "Delete" && e.key !== "Backspace") return;
        e.preventDefault();
        e.stopPropagation();
        if (way) move([at[0] + way[0], at[1] + way[1]], `keys ${key}`);
        else {
          model.change(remove, { label: `taking away ${name[0].toLowerCase()}${name.slice(1)}` });
          this.board.svg.focus();
        }
      } }, svg("circle", { class: "grip", r: 22 }), svg("circle", { class: "ring", r: 10 }), svg("path", { class: "mark", d: "M-7 0H7M0 -7V7" }));
    return node;
  }

  // drag moves a spot by as much as the pointer moves, so that it need not be under it.
  #drag(e, move) {
    if (e.button > 0) return;
    e.stopPropagation();
    e.preventDefault();
    e.currentTarget.focus({ preventScroll: true });
    const start = this.place(e);
    const key = e.currentTarget.dataset.key;
    const at = this.#spot(key);
    const merge = `drag ${++this.drags}`;
    const go = (ev) => {
      const now = this.place(ev);
      move([at[0] + now[0] - start[0], at[1] + now[1] - start[1]], merge);
    };
    followPointer(go);
  }

  #spot(key) {
    const [what, n] = key.split(" ");
    const { rows, section } = this.model;
    const c = section.crop;
    return { from: () => rows.lengths[n].from, to: () => rows.lengths[n].to, place: () => rows.points[n].at, point: () => section.points[n], back: () => section.back,
      crop: () => [[c[0], c[1]], [c[2], c[1]], [c[0], c[3]], [c[2], c[3]]][n] }[what]();
  }

  #pressed(e, target) {
    if (!this.mode || this.mode === "crop" || target.closest?.(".spot, .one-of")) return;
    this.press(this.place(e));
  }

  /** Does what the mode says at a place of the plate. */
  press(at) {
    const { model } = this;
    at = inside(at, model.plate).map((v) => Math.round(v * 10) / 10);
    if (this.mode === "points") model.change(() => model.section.points.push(at), { label: `corner ${model.section.points.length + 1}` });
    else if (this.mode === "back") {
      model.change(() => (model.section.back = at), { label: "placing the back" });
      this.mode = "";
    }
    else if (this.mode === "place") {
      model.change(() => model.rows.points.push({ at, x: "", y: "" }), { label: "a known place" });
      this.mode = "";
      this.onlength("place");
    } else if (!this.pending) {
      this.pending = at;
      say("Now the other end.");
      this.onmode();
      this.draw();
    } else {
      const from = this.pending;
      model.change(() => model.rows.lengths.push({ from, to: at, text: "", bar: false }), { label: "measuring a length" });
      this.mode = "";
      this.onlength("length");
    }
  }

  #crop(e) {
    if (e.button > 0 || e.target.closest?.(".spot")) return;
    e.stopPropagation();
    e.preventDefault();
    const { model } = this;
    const from = inside(this.place(e), model.plate);
    const merge = `drag ${++this.drags}`;
    const go = (ev) => {
      const to = inside(this.place(ev), model.plate);
      const crop = [Math.min(from[0], to[0]), Math.min(from[1], to[1]), Math.max(from[0], to[0]), Math.max(from[1], to[1])].map(Math.round);
      if (crop[2] - crop[0] > 3 && crop[3] - crop[1] > 3) model.change(() => (model.section.crop = crop), { label: "the crop", merge });
    };
    followPointer(go, () => model.section.crop && (this.mode = ""));
  }

  #hover(e) {
    if (this.mode && this.mode !== "crop" && this.model.plate) this.#glass(this.place(e));
  }

  #glass(at) {
    this.loupe.clear(this.screen(at));
    this.loupe.show(at);
  }

  #key(e) {
    if (e.target !== this.board.svg || !this.mode) return;
    if (e.key === "Escape") this.mode = "";
    else if (e.key === "Delete" || e.key === "Backspace") this.#takeBack();
    else if (e.key !== "Enter") return;
    else if (this.mode === "crop") {
      const [x, y] = this.middle;
      const { plate, section } = this.model;
      const half = Math.min(this.board.width, this.board.height) / this.board.k / 4;
      this.model.change(() => (section.crop = [...inside([x - half, y - half], plate), ...inside([x + half, y + half], plate)].map(Math.round)), { label: "the crop" });
      this.mode = "";
    } else this.press(this.middle);
    e.preventDefault();
  }

  // takeBack takes the press back that was made last.
  #takeBack() {
    const { model, mode } = this;
    if (this.pending) this.mode = mode;
    else if (mode === "points" && model.section.points.length) model.change(() => model.section.points.pop(), { label: `taking away corner ${model.section.points.length}` });
  }

  get middle() {
    const [x, y] = this.board.toSheet([this.board.width / 2, this.board.height / 2]);
    return [x, -y];
  }
}

// followPointer calls go for each move of the pointer until it is let go, and then done.
function followPointer(go, done = () => {}) {
  const listeners = [["pointermove", go], ...["pointerup", "pointercancel"].map((type) => [type, end])];
  function end() {
    for (const [type, fn] of listeners) window.removeEventListener(type, fn);
    done();
  }
  for (const [type, fn] of listeners) window.addEventListener(type, fn);
}

const inside = ([x, y], { width, height }) => [clamp(x, 0, width), clamp(y, 0, height)];

const cross = ([x, y], r = 9) => `M${round(x - r)} ${round(y)}H${round(x + r)}M${round(x)} ${round(y - r)}V${round(y + r)}`;

const label = (text, [x, y]) => svg("g", { class: "measured", transform: `translate(${round(x)} ${round(y)})` },
  svg("text", { class: "halo", "text-anchor": "middle" }, text), svg("text", { "text-anchor": "middle" }, text));
