// casedraw.js: the views of a case laid out on the board: the front, the plan over it, the right end and the section beside it.
//
//   layViews(answer, width, height) -> {places: {front: [dx, dy], ...}, box, boxOf(view), margins, k}
//                    millimeters on a board of that many pixels; k is the scale at which all is seen
//   drawViews(sheet, answer, places, {selected, run})     the outlines into board.sheet
//   outlinesBox(shapes)    the box that holds outlines
//   rule(sheet, k)   rules cut wood as wide on the screen at every scale
//   drawOver(over, board, answer, laid, {selected, only})   sizes, names and titles into board.over; only is the view that is looked
//                    at by itself: it has all its sizes and names, and stands alone; "" for all of them
//
// Outlines carry data-molding and data-run, sizes data-path, names data-molding and data-path.

import { layDims } from "./dims.js";
import { redraw, shape, svg } from "./dom.js";
import { lettering, round, widthOf } from "./lettering.js";
import { boxOf, pathPoints } from "./pathpoints.js";

const order = ["front", "plan", "end", "section"];

// Room for names, sizes and titles round the views, in pixels when all of them are seen.
const room = { left: 128, front: 60, section: 54, right: 178, top: 34, plan: 84, foot: 92, beside: 132, apart: 226 };

/** Lays the views out so that all of them fill a board of that size: the plan over the front, or at the right where that is larger. */
export function layViews(answer, width, height) {
  const box = (name) => answer.views.find((v) => v.view === name).box;
  const [front, plan, section, end] = ["front", "plan", "section", "end"].map(box);
  const wide = front[2] + section[2] + end[2];
  const gaps = room.left + room.front + room.section;
  const over = Math.min((width - gaps - room.right) / wide, (height - room.top - room.plan - room.foot) / (front[3] + plan[3]));
  const beside = Math.min((width - gaps - room.apart - room.beside) / (wide + plan[2]), (height - 2 * room.top - room.foot) / front[3]);
  const above = over >= 0.9 * beside;
  const k = Math.max(above ? over : beside, 0.03);
  const mm = (px) => px / k;
  const places = { front: [0, 0] };
  let right = front[0] + front[2];
  const put = (name, b, gap) => {
    places[name] = [right + mm(gap) - b[0], 0];
    right = places[name][0] + b[0] + b[2];
  };
  put("section", section, room.front);
  put("end", end, room.section);
  let top = front[1] + front[3];
  if (above) {
    places.plan = [0, top + mm(room.plan) - plan[1]];
    top = places.plan[1] + plan[1] + plan[3];
  } else {
    put("plan", plan, room.apart);
    places.plan[1] = front[1] + front[3] / 2 - plan[1] - plan[3] / 2;
    top += mm(room.top);
  }
  const boxOf = (name) => {
    const b = box(name);
    return [b[0] + places[name][0], b[1] + places[name][1], b[2], b[3]];
  };
  const y0 = Math.min(front[1], 0);
  return { places, boxOf, k, margins: { left: room.left, right: above ? room.right : room.beside, top: room.top, bottom: room.foot }, box: [front[0], y0, right - front[0], top - y0] };
}

const chosen = (shape, selected, run) => shape.molding && shape.molding === selected && (!run || run === shape.run);

export function drawViews(sheet, answer, places, { selected, run }) {
  const groups = [];
  for (const name of order) {
    const view = answer.views.find((v) => v.view === name);
    const [dx, dy] = places[name];
    const nodes = view.shapes.map((s) => shape("path", {
      class: `line on-case ${s.kind}${chosen(s, selected, run) ? " chosen" : ""}`, d: s.d, "data-molding": s.molding, "data-run": s.run,
    }));
    if (name === "plan") {
      nodes.push(cutLine(answer, view));
      // The chosen molding lies over the others, which hide it where it reaches less far.
      nodes.sort((a, b) => / chosen$/.test(a.attributes.class) - / chosen$/.test(b.attributes.class));
    }
    groups.push(shape("g", { class: `view-${name}`, transform: `translate(${dx} ${dy})` }, ground(view), nodes));
  }
  redraw(sheet, [shape("defs", null, hatch()), ...groups]);
}

/** A small picture of a case from the front. */
export function frontPicture(answer) {
  const { box: [x, y, w, h], shapes } = answer.views.find((v) => v.view === "front");
  return svg("svg", { class: "thumb case-thumb", viewBox: `${x - 20} ${-y - h - 20} ${w + 40} ${h + 40}`, "aria-hidden": "true" },
    svg("g", { transform: "scale(1 -1)" }, shapes.map((s) => svg("path", { class: `line on-case ${s.kind}`, d: s.d }))));
}

export function rule(sheet, k) {
  sheet.querySelector("#cut-wood")?.setAttribute("patternTransform", `rotate(45) scale(${0.7 / k})`);
}

// hatch is the ruling of cut wood.
const hatch = () => shape("pattern", { id: "cut-wood", width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
  shape("rect", { class: "cut-ground", width: 7, height: 7 }), shape("path", { class: "cut-line", d: "M0 0V7" }));

// cutFoot is the foot, on the plan, of the line where the section is cut.
const cutFoot = (answer, { box: [, y, , h] }) => [answer.views.find((v) => v.view === "section").cut_mm, y - h / 6];

// cutLine shows on the plan where the section is cut, and cutName says so at its foot.
function cutLine(answer, plan) {
  const [x, foot] = cutFoot(answer, plan);
  const [, y, , h] = plan.box;
  return shape("path", { class: "line cut-at", d: `M${x} ${foot}V${y + h}` });
}

function cutName(answer, plan, at) {
  const [x, y] = at.toScreen(cutFoot(answer, plan));
  return lettering("section", { x, y: y + 14, anchor: "middle", size: 12, className: "cut-name" });
}

// ground is the floor under a view, or the wall behind a plan.
function ground(view) {
  const [x, y, w, h] = view.box;
  const level = view.view === "plan" ? y + h : 0;
  const wall = view.view === "section" ? `M${x} ${y}V${y + h + 40}` : view.view === "end" ? `M${x + w} ${y}V${y + h + 40}` : "";
  return shape("path", { class: "line floor", d: `M${x - 60} ${level}H${x + w + 60}${wall}` });
}

export function drawOver(over, board, answer, laid, { selected, only }) {
  const nodes = [];
  for (const name of only ? [only] : order) {
    const view = answer.views.find((v) => v.view === name);
    const [dx, dy] = laid.places[name];
    const at = { toScreen: ([x, y]) => board.toScreen([x + dx, y + dy]) };
    if (only || board.k > 0.93 * laid.k) {
      const upright = name === "end" || name === "plan" || Boolean(only);
      nodes.push(...sizes(at, { ...view, dims: view.dims.map((d, index) => ({ ...d, index })).filter((d) => only || !d.fine) }, board.k, upright));
      if (name === "front" || only) nodes.push(...names(at, view, selected));
    }
    nodes.push(title(at, view, Boolean(only)));
    if (name === "plan") nodes.push(cutName(answer, view, at));
    if (only) nodes.push(...joints(at, view));
  }
  redraw(over, nodes);
}

// sizes lays the dimensions: those of the first rank, and outside of them those over all.
function sizes(at, view, k, upright) {
  const beside = (d) => d.side === "right" || d.side === "left";
  const dims = view.dims.filter((d) => upright || !beside(d));
  const inner = layDims(at, view.box, dims.filter((d) => !beside(d) || d.level === 0 || view.view === "plan"));
  const outer = dims.filter((d) => beside(d) && d.level > 0 && view.view !== "plan");
  const [x, y, w, h] = view.box;
  const wide = [x - inner.used.left / k, y, w + (inner.used.left + inner.used.right) / k, h];
  const all = [...inner.nodes, ...layDims(at, wide, outer).nodes];
  for (const g of all) {
    const d = view.dims.find((one) => one.index === g.attributes["data-index"]);
    if (!d?.path) continue;
    Object.assign(g.attributes, { class: `${g.attributes.class} given`, "data-path": d.path });
    g.children.push(shape("title", null, `${d.label}: press to change it`));
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
    return shape("g", { class: n.molding === selected ? "molding-name chosen" : "molding-name", "data-molding": n.molding },
      shape("path", { class: "lead", d: `M${round(n.tip[0])} ${round(n.tip[1])}L${round(edge)} ${round(y - 4)}h${way * 12}` }),
      shape("rect", { class: "hit", x: left ? tx - wide : tx, y: y - 16, width: wide, height: step }),
      lettering(n.molding, { x: tx, y, anchor, size, className: "name" }),
      shape("g", { "data-path": n.path, class: "given" }, lettering(foot, { x: tx, y: y + 14, anchor, size: size - 1 })));
  });
}

// joints says what the dashed outlines within a molding are, where they are seen large.
function joints(at, view) {
  return view.shapes.filter((s) => s.kind === "spline" || s.kind === "pin").flatMap((s) => {
    const [x, y, w, h] = outlinesBox([s]);
    const [[x0, y0], [x1]] = [at.toScreen([x, y]), at.toScreen([x + w, y + h])];
    const words = s.kind === "pin" ? "pin" : "spline, in the miter";
    return x1 - x0 < 30 ? [] : [lettering(words, { x: (x0 + x1) / 2, y: y0 + 16, anchor: "middle", size, className: "name" })];
  });
}

/** The box that holds outlines, [x, y, w, h] in mm, null for none. */
export const outlinesBox = (shapes) => (shapes.length ? boxOf(shapes.flatMap((s) => pathPoints(s.d, Infinity))) : null);

// title stands under a view, below its dimensions; over the plan's upper edge.
function title(at, view, alone) {
  const [x, y, w, h] = view.box;
  const [px, foot] = at.toScreen([x + w / 2, y]);
  const top = at.toScreen([x, y + h])[1];
  const py = view.view === "plan" ? top - 14 : foot + 76;
  const words = alone && view.more ? `${view.title}, ${view.more}` : view.title;
  return lettering(words, { x: px, y: py, anchor: "middle", size: 14, className: "view-title" });
}
