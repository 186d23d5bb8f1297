// underlay.js: a plate under the section that was traced from it, so that members can be dragged over it.
//
//   flatten(plate, traced) -> {url, box}     the plate as it lies under the section: its part round it, straightened, in mm, y up
//   new Underlay(board, store, tools)        shows doc.plate of the profile that is open; its switch and strength stand in tools

import { button, el, svg } from "./dom.js";

const most = 1500; // pixels of the straightened picture either way
const round = 0.3; // of the section's size: the paper that is kept round it

export function flatten(plate, { pixels: m, box: [x, y, w, h] }) {
  const margin = Math.max(w, h) * round;
  const box = [x - margin, y - margin, w + 2 * margin, h + 2 * margin];
  const at = (mx, my) => {
    const d = m[6] * mx + m[7] * my + m[8];
    return [(m[0] * mx + m[1] * my + m[2]) / d, (m[3] * mx + m[4] * my + m[5]) / d];
  };
  const corners = [at(box[0], box[1]), at(box[0] + box[2], box[1]), at(box[0], box[1] + box[3]), at(box[0] + box[2], box[1] + box[3])];
  const left = Math.max(0, Math.floor(Math.min(...corners.map((c) => c[0]))));
  const top = Math.max(0, Math.floor(Math.min(...corners.map((c) => c[1]))));
  const right = Math.min(plate.width, Math.ceil(Math.max(...corners.map((c) => c[0]))));
  const foot = Math.min(plate.height, Math.ceil(Math.max(...corners.map((c) => c[1]))));
  const k = Math.min(1, most / Math.max(right - left, foot - top, 1)); // of the plate's pixels
  const source = canvas(Math.max(1, Math.round((right - left) * k)), Math.max(1, Math.round((foot - top) * k)));
  const shown = [plate.image.naturalWidth / plate.width, plate.image.naturalHeight / plate.height];
  source.pen.drawImage(plate.image, left * shown[0], top * shown[1], (right - left) * shown[0], (foot - top) * shown[1], 0, 0, source.width, source.height);
  const from = source.pen.getImageData(0, 0, source.width, source.height);
  const size = Math.min(most, Math.max(source.width, source.height)) / Math.max(box[2], box[3]);
  const out = canvas(Math.max(1, Math.round(box[2] * size)), Math.max(1, Math.round(box[3] * size)));
  const to = out.pen.createImageData(out.width, out.height);
  for (let j = 0; j < out.height; j++) {
    for (let i = 0; i < out.width; i++) {
      const [px, py] = at(box[0] + ((i + 0.5) / out.width) * box[2], box[1] + box[3] - ((j + 0.5) / out.height) * box[3]);
      sample(from, (px - left) * k - 0.5, (py - top) * k - 0.5, to.data, (j * out.width + i) * 4);
    }
  }
  out.pen.putImageData(to, 0, 0);
  return { url: out.node.toDataURL("image/jpeg", 0.85), box, on: true, strength: 0.6 };
}

function canvas(width, height) {
  const node = el("canvas", { width, height });
  return { node, width, height, pen: node.getContext("2d", { willReadFrequently: true }) };
}

// sample takes the color between four pixels; beyond the plate there is white.
function sample({ data, width, height }, x, y, to, at) {
  const [x0, y0] = [Math.floor(x), Math.floor(y)];
  const [u, v] = [x - x0, y - y0];
  const inside = x0 >= 0 && y0 >= 0 && x0 + 1 < width && y0 + 1 < height;
  const p = (y0 * width + x0) * 4;
  for (let c = 0; c < 3; c++) {
    to[at + c] = inside ? (data[p + c] * (1 - u) + data[p + 4 + c] * u) * (1 - v) + (data[p + width * 4 + c] * (1 - u) + data[p + width * 4 + 4 + c] * u) * v : 255;
  }
  to[at + 3] = 255;
}

export class Underlay {
  constructor(board, store, tools) {
    this.board = board;
    this.store = store;
    this.toggle = button("Plate", () => this.#set({ on: !this.plate.on }), { id: "show-plate", title: "The plate that it was traced from" });
    this.range = el("input", { type: "range", id: "plate-strength", min: "0.1", max: "1", step: "0.05", "aria-label": "Strength of the plate", oninput: () => this.#set({ strength: Number(this.range.value) }) });
    this.node = el("span", { class: "set plate-set", hidden: true }, this.toggle, this.range);
    tools.append(this.node);
    for (const type of ["current", "plate"]) store.on(type, () => this.draw());
    this.draw();
  }

  get plate() {
    return this.store.profile?.plate ?? null;
  }

  #set(change) {
    Object.assign(this.plate, change);
    this.draw();
  }

  draw() {
    const { plate, board } = this;
    const on = Boolean(plate?.on);
    this.node.hidden = !plate;
    board.host.classList.toggle("over-plate", on);
    this.toggle.setAttribute("aria-pressed", String(on));
    this.range.hidden = !on;
    if (!on) {
      board.under.replaceChildren();
      return;
    }
    this.range.value = plate.strength;
    const [x, y, width, height] = plate.box;
    board.under.replaceChildren(svg("image", { href: plate.url, x, y: -(y + height), width, height, transform: "scale(1 -1)", preserveAspectRatio: "none", opacity: plate.strength }));
  }
}
