// dims.js: lays dimensions round a drawing so that no text meets another text or a line that is not its own.
//
//   layDims(view, box, dims, {names, selected}) -> {nodes, used: {left, right, top, bottom}, texts, lines: [{x, y, w, h}]}
//
// view has toScreen; box is [x, y, w, h] of the drawing in mm; a dim is {from, to, text, side, index} as the server gives it. used
// is the room that the dimensions took on each side, in pixels; texts and lines are the rectangles that they fill.

import { shape } from "./dom.js";
import { lettering, round, widthOf } from "./lettering.js";

const size = 14; // pixels of the figures
const line = 18; // least distance of two lines of text
const off = 30; // from the drawing to the nearest dimension
const lane = 24; // from one row of dimensions to the next
const rows = 5; // of dimensions, at most

export function layDims(view, box, dims, { names = [], selected = -1 } = {}) {
  const [left, foot] = view.toScreen([box[0], box[1]]);
  const [right, top] = view.toScreen([box[0] + box[2], box[1] + box[3]]);
  const out = { nodes: [], used: { left: 0, right: 0, top: 0, bottom: 0 }, texts: [], lines: [], selected };
  const of = (side) => dims.filter((d) => d.side === side && d.text);
  uprights(out, view, of("right"), right + off, +1, right, names);
  uprights(out, view, of("left"), left - off, -1, left, []);
  levels(out, view, of("foot"), foot + off, +1, foot);
  levels(out, view, of("top"), top - off, -1, top);
  return out;
}

const group = (out, d, ...children) =>
  shape("g", { class: d.index >= 0 && d.index === out.selected ? "dim chosen" : "dim", "data-index": d.index, "data-of": d.of }, children);

const between = (p, q) => ({ x: Math.min(p[0], q[0]) - 1, y: Math.min(p[1], q[1]) - 1, w: Math.abs(p[0] - q[0]) + 2, h: Math.abs(p[1] - q[1]) + 2 });

// tick is the short slanting stroke at the end of a dimension.
export const tick = (x, y) => `M${round(x - 4)} ${round(y + 4)}l8 -8`;

// uprights lays heights along one plumb line; texts that would be too close are spread, each tied to its place by a thin line.
function uprights(out, view, dims, x, way, side, names) {
  if (dims.length === 0) return;
  const rows = dims.map((d) => {
    const a = view.toScreen(d.from);
    const b = view.toScreen(d.to);
    const name = names[d.index] ?? "";
    return { d, a, b, mid: (a[1] + b[1]) / 2, at: (a[1] + b[1]) / 2, name, width: widthOf(d.text, size) + (name ? 10 + widthOf(name, size - 1) : 0) };
  }).sort((p, q) => p.mid - q.mid);
  const whole = rows.length === 1;
  if (whole) {
    upright(out, rows[0], x, way, side);
    return;
  }
  spread(rows);
  for (const r of rows) upright(out, r, x, way, side);
}

// spread moves the texts of rows, sorted by their place, apart to the least distance, as little as it can.
function spread(rows) {
  let blocks = rows.map((r) => ({ rows: [r], at: r.mid }));
  for (let i = 1; i < blocks.length;) {
    const p = blocks[i - 1];
    const q = blocks[i];
    const need = ((p.rows.length + q.rows.length) * line) / 2;
    if (q.at - p.at >= need) {
      i++;
      continue;
    }
    const all = [...p.rows, ...q.rows];
    const mean = all.reduce((s, r, n) => s + r.mid - (n - (all.length - 1) / 2) * line, 0) / all.length;
    blocks.splice(i - 1, 2, { rows: all, at: mean });
    i = Math.max(1, i - 1);
  }
  for (const b of blocks) {
    b.rows.forEach((r, n) => (r.at = b.at + (n - (b.rows.length - 1) / 2) * line));
  }
}

function upright(out, r, x, way, side) {
  const [y0, y1] = [Math.min(r.a[1], r.b[1]), Math.max(r.a[1], r.b[1])];
  for (const p of [r.a, r.b]) out.lines.push(between(p, [x + way * 5, p[1]]));
  out.lines.push(between([x, y0], [x, y1]));
  const reach = (p) => `M${round(p[0] + way * 5)} ${round(p[1])}H${round(x + way * 5)}`;
  const d = `${reach(r.a)}${reach(r.b)}M${round(x)} ${round(y0)}V${round(y1)}`;
  const ticks = tick(x, y0) + tick(x, y1);
  const nodes = [shape("path", { class: "thin", d }), shape("path", { class: "tick", d: ticks })];
  if (r.d.index < 0 && y1 - y0 > r.width + 12) {
    nodes.push(lettering(r.d.text, { x: x - 6, y: (y0 + y1) / 2, anchor: "middle", size, rotate: -90 }));
    out.texts.push({ x: x - 20, y: (y0 + y1) / 2 - r.width / 2, w: 18, h: r.width });
    out.used[way > 0 ? "right" : "left"] = Math.max(out.used[way > 0 ? "right" : "left"], off + 24);
  } else {
    const away = Math.abs(r.at - r.mid) > 1.5 || y1 - y0 < line;
    const tx = x + way * (away ? 24 : 10);
    if (away) nodes.push(shape("path", { class: "lead", d: `M${round(x + way * 2)} ${round(r.mid)}L${round(x + way * 20)} ${round(r.at)}` }));
    const anchor = way > 0 ? "start" : "end";
    nodes.push(lettering(r.d.text, { x: tx, y: r.at + 5, anchor, size }));
    if (r.name) nodes.push(lettering(r.name, { x: tx + way * (widthOf(r.d.text, size) + 10), y: r.at + 5, anchor, size: size - 1, className: "name" }));
    out.texts.push({ x: way > 0 ? tx : tx - r.width, y: r.at - line / 2, w: r.width, h: line });
    const key = way > 0 ? "right" : "left";
    out.used[key] = Math.max(out.used[key], Math.abs(x - side) + 24 + r.width);
  }
  out.nodes.push(group(out, r.d, nodes));
}

// levels lays runs in rows, the short ones nearest to the drawing. The lines that carry a dimension to its row stay clear of the
// texts of the rows between.
function levels(out, view, dims, y, way, side) {
  const placed = [];
  const items = dims.map((d) => {
    const a = view.toScreen(d.from);
    const b = view.toScreen(d.to);
    return { d, a, b, x0: Math.min(a[0], b[0]), x1: Math.max(a[0], b[0]), width: widthOf(d.text, size) };
  }).sort((p, q) => (p.d.index < 0) - (q.d.index < 0) || p.x1 - p.x0 - (q.x1 - q.x0) || p.x0 - q.x0);
  for (const it of items) {
    if (!place(it, placed, items)) continue; // too small to write: magnified, it comes back
    placed.push(it);
    level(out, it, y + way * it.row * lane, way, side);
  }
}

// place finds the row of a dimension, and where in it its text stands: between the ends, else beside them, away from what joins on.
function place(it, placed, items) {
  const fits = it.x1 - it.x0 > it.width + 10;
  const ways = fits ? [(it.x0 + it.x1) / 2] : [it.x1 + 8 + it.width / 2, it.x0 - 8 - it.width / 2];
  if (items.some((o) => Math.abs(o.x0 - it.x1) < 0.5)) ways.reverse();
  for (it.row = 0; it.row < rows; it.row++) {
    for (it.tx = ways[0], it.n = 0; it.n < ways.length; it.tx = ways[++it.n]) {
      if (placed.every((p) => clear(it, p))) return true;
    }
  }
  return false;
}

// clear reports whether a dimension in its row leaves another alone.
function clear(it, p) {
  const gap = 5;
  const text = (q) => [q.tx - q.width / 2 - gap, q.tx + q.width / 2 + gap];
  const span = (q) => [Math.min(q.x0, text(q)[0]), Math.max(q.x1, text(q)[1])];
  const inside = (q) => q.tx > q.x0 && q.tx < q.x1; // over the line, which may go on beneath it
  const run = (q, t) => (inside(q) || inside(t) ? [q.x0, q.x1] : [q.x0 - 6, q.x1 + 6]);
  const meets = ([a, b], [c, d]) => a < d && c < b;
  if (it.row === p.row) {
    const chained = it.x1 <= p.x0 + 0.5 || p.x1 <= it.x0 + 0.5;
    return !(chained ? meets(text(it), text(p)) || meets(text(it), run(p, it)) || meets(text(p), run(it, p)) : meets(span(it), span(p)));
  }
  const [near, far] = it.row < p.row ? [it, p] : [p, it];
  const [a, b] = text(near);
  return ![far.x0, far.x1].some((x) => x > a && x < b && x !== near.x0 && x !== near.x1);
}

function level(out, it, y, way, side) {
  const reach = (p) => `M${round(p[0])} ${round(side + way * 6)}V${round(y + way * 5)}`;
  for (const p of [it.a, it.b]) out.lines.push(between([p[0], it.d.index === out.selected ? p[1] : side], [p[0], y + way * 5]));
  out.lines.push(between([it.x0 - 6, y], [it.x1 + 6, y]));
  const inside = it.tx > it.x0 && it.tx < it.x1;
  const own = inside ? [it.x0, it.x1] : [Math.min(it.x0, it.tx), Math.max(it.x1, it.tx)].map((v) => v);
  const run = inside ? `M${round(own[0])} ${round(y)}H${round(own[1])}` : `M${round(it.x0 - 6)} ${round(y)}H${round(it.x1 + 6)}`;
  const nodes = [
    shape("path", { class: "thin", d: reach(it.a) + reach(it.b) + run }),
    shape("path", { class: "tick", d: tick(it.x0, y) + tick(it.x1, y) }),
    lettering(it.d.text, { x: it.tx, y: inside ? y - 5 : y + 5, anchor: "middle", size }),
  ];
  if (it.d.index >= 0 && it.d.index === out.selected) {
    const carry = (p) => `M${round(p[0])} ${round(p[1] + way * 6)}V${round(side + way * 6)}`;
    nodes.unshift(shape("path", { class: "carry", d: carry(it.a) + carry(it.b) }));
  }
  out.texts.push({ x: it.tx - it.width / 2, y: y - (inside ? 18 : 9), w: it.width, h: 18 });
  const key = way > 0 ? "bottom" : "top";
  out.used[key] = Math.max(out.used[key], Math.abs(y - side) + 16);
  out.nodes.push(group(out, it.d, nodes));
}
