// casedraw.js: the views of a case laid out on the board: the front, the plan over it, the right end and the section beside it.
//
//   layViews(answer) -> {places: {front: [dx, dy], ...}, box, boxOf(view)}   millimeters on the board
//   drawViews(sheet, answer, places, {selected, run})     the outlines into board.sheet
//   drawOver(over, board, answer, places, {selected})     sizes, names and titles into board.over
//
// Outlines carry data-molding and data-run, sizes data-path, names data-molding and data-path.

import { layDims } from "./dims.js";
import { svg } from "./dom.js";
import { lettering, round, widthOf } from "./lettering.js";

const order = ["front", "plan", "end", "section"];

export function layViews(answer) {
  const view = (name) => answer.views.find((v) => v.view === name);
  const front = view("front").box;
  const gap = Math.max(260, 0.17 * Math.max(front[2], front[3]));
  const places = { front: [0, 0] };
  let right = front[0] + front[2];
  // The names of the moldings stand at the right of a section, and its heights at its left.
  for (const [name, before] of [["section", 1.5], ["end", 1.8]]) {
    const b = view(name).box;
    places[name] = [right + before * gap - b[0], 0];
    right = places[name][0] + b[0] + b[2];
  }
  const plan = view("plan").box;
  places.plan = [0, front[1] + front[3] + gap - plan[1]];
  const boxOf = (name) => {
    const b = view(name).box;
    return [b[0] + places[name][0], b[1] + places[name][1], b[2], b[3]];
  };
  const boxes = ["front", "plan", "section", "end"].map(boxOf);
  const x0 = Math.min(...boxes.map((b) => b[0]));
  const y0 = Math.min(...boxes.map((b) => b[1]));
  const x1 = Math.max(...boxes.map((b) => b[0] + b[2]));
  const y1 = Math.max(...boxes.map((b) => b[1] + b[3]));
  return { places, boxOf, box: [x0, y0, x1 - x0, y1 - y0] };
}

const chosen = (shape, selected, run) => shape.molding && shape.molding === selected && (!run || run === shape.run);

export function drawViews(sheet, answer, places, { selected, run }) {
  const groups = [];
  for (const name of order) {
    const view = answer.views.find((v) => v.view === name);
    const [dx, dy] = places[name];
    const nodes = view.shapes.map((s) => svg("path", {
      class: `line on-case ${s.kind}${chosen(s, selected, run) ? " chosen" : ""}`, d: s.d, "data-molding": s.molding, "data-run": s.run,
    }));
    if (name === "plan") {
      // The chosen molding lies over the others, which hide it where it reaches less far.
      nodes.sort((a, b) => a.classList.contains("chosen") - b.classList.contains("chosen"));
    }
    groups.push(svg("g", { class: `view-${name}`, transform: `translate(${dx} ${dy})` }, ground(view), nodes));
  }
  sheet.replaceChildren(svg("defs", null, hatch()), ...groups);
}

// hatch is the ruling of cut wood, as wide as it looks well on a whole case.
const hatch = () => svg("pattern", { id: "cut-wood", width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
  svg("rect", { class: "cut-ground", width: 7, height: 7 }), svg("path", { class: "cut-line", d: "M0 0V7" }));

// ground is the floor under a view, or the wall behind a plan.
function ground(view) {
  const [x, y, w, h] = view.box;
  const level = view.view === "plan" ? y + h : 0;
  const wall = view.view === "section" ? `M${x} ${y}V${y + h + 40}` : view.view === "end" ? `M${x + w} ${y}V${y + h + 40}` : "";
  return svg("path", { class: "line floor", d: `M${x - 60} ${level}H${x + w + 60}${wall}` });
}

export function drawOver(over, board, answer, places, { selected }) {
  const nodes = [];
  for (const name of order) {
    const view = answer.views.find((v) => v.view === name);
    const [dx, dy] = places[name];
    const at = { toScreen: ([x, y]) => board.toScreen([x + dx, y + dy]) };
    const tall = view.box[3] * board.k;
    if (tall > 130 || view.view === "plan") {
      nodes.push(...sizes(at, view, board.k));
      nodes.push(...names(at, view, selected));
    }
    nodes.push(title(at, view));
  }
  over.replaceChildren(...nodes);
}

// sizes lays the dimensions: those of the first rank, and outside of them those over all.
function sizes(at, view, k) {
  const dims = view.dims.map((d, index) => ({ ...d, index }));
  const inner = layDims(at, view.box, dims.filter((d) => d.side !== "right" && d.side !== "left" ? true : d.level === 0));
  const outer = dims.filter((d) => (d.side === "right" || d.side === "left") && d.level > 0);
  const [x, y, w, h] = view.box;
  const wide = [x - inner.used.left / k, y, w + (inner.used.left + inner.used.right) / k, h];
  const all = [...inner.nodes, ...layDims(at, wide, outer).nodes];
  for (const g of all) {
    const d = view.dims[g.dataset.index];
    if (!d?.path) continue;
    g.classList.add("given");
    g.dataset.path = d.path;
    g.append(svg("title", null, `${d.label}: press to change it`));
  }
  return all;
}

const size = 13;
const step = 31; // pixels that a name and the height of its foot take

// names sets the names of the moldings beside a view, apart from each other, each with a line to its molding.
function names(at, view, selected) {
  const [x, , w] = view.box;
  const list = view.names.map((n) => ({ ...n, tip: at.toScreen(n.at) })).sort((a, b) => a.tip[1] - b.tip[1]);
  let last = -Infinity;
  for (const n of list) {
    n.y = Math.max(n.tip[1], last + step);
    last = n.y;
  }
  const over = list.length ? (list.at(-1).y - list.at(-1).tip[1]) / 2 : 0;
  return list.map((n) => {
    const left = n.side === "left";
    const way = left ? -1 : 1;
    const edge = at.toScreen([left ? x : x + w, 0])[0] + way * 14;
    const tx = edge + way * 16;
    const y = n.y - Math.min(over, step);
    const anchor = left ? "end" : "start";
    const foot = n.foot === "0 in" || n.foot === "0 mm" ? "on the floor" : `foot at ${n.foot}`;
    const wide = Math.max(widthOf(n.molding, size), widthOf(foot, size - 1));
    return svg("g", { class: n.molding === selected ? "molding-name chosen" : "molding-name", "data-molding": n.molding },
      svg("path", { class: "lead", d: `M${round(n.tip[0])} ${round(n.tip[1])}L${round(edge)} ${round(y - 4)}h${way * 12}` }),
      svg("rect", { class: "hit", x: left ? tx - wide : tx, y: y - 16, width: wide, height: step }),
      lettering(n.molding, { x: tx, y, anchor, size, className: "name" }),
      svg("g", { "data-path": n.path, class: "given" }, lettering(foot, { x: tx, y: y + 14, anchor, size: size - 1 })));
  });
}

// title stands under a view, below its dimensions; over the plan's upper edge.
function title(at, view) {
  const [x, y, w, h] = view.box;
  const [px, foot] = at.toScreen([x + w / 2, y]);
  const top = at.toScreen([x, y + h])[1];
  const py = view.view === "plan" ? top - 12 : foot + 66;
  return lettering(view.title, { x: px, y: py, anchor: "middle", size: 13, className: "view-title" });
}
