// sectiondraw.js: draws a section, as the server gives it, on a sheet in millimeters and over it in pixels.
//
//   drawSheet(g, section, {selected, ghost, centers, blank})     outline, members, centers; into a <g> in mm, y up
//   drawOver(g, view, section, {selected, sizes, centers, ghost, blank})  -> {used, texts}     dimensions and figures; into a <g> in pixels
//
// view has toScreen and k, and its width and height where there is an end to it. The same two draw on the board and on the page that is printed.

import { redraw, shape } from "./dom.js";
import { layDims } from "./dims.js";
import { lettering, round, widthOf } from "./lettering.js";
import { pathPoints } from "./pathpoints.js";

export function drawSheet(g, section, { selected = -1, ghost = null, centers = false, blank = false } = {}) {
  const line = (name, d) => shape("path", { class: `${name} line`, d });
  const under = [shape("path", { class: "wood", d: section.outline })];
  if (blank) under.push(line("blank", blankOf(section)));
  if (section.gap) under.push(line("gap", section.gap));
  if (ghost) under.push(line("ghost", ghost));
  const members = section.members.filter((m) => m.path).flatMap((m) => [
    line(m.index === selected ? "part chosen" : "part", m.path),
    shape("path", { class: "reach line", d: m.path, "data-member": m.index }, shape("title", null, m.title)),
  ]);
  const sweeps = shownCenters(section, selected, centers)
    .map((c) => line("sweep", arcEnds(c, section.members[c.index]?.path ?? "").map((p) => `M${c.at.join(" ")}L${p.join(" ")}`).join("")));
  redraw(g, [shape("g", null, under), line("outline", section.outline), shape("g", null, members), shape("g", null, sweeps)]);
}

const blankOf = ({ blank }) => (blank ? "M" + blank.polygon.map((p) => p.join(" ")).join("L") + "Z" : "");

const shownCenters = (section, selected, all) => (section.centers ?? []).filter((c) => all || c.index === selected);

export function drawOver(g, view, section, { selected = -1, sizes = true, centers = false, ghost = null, blank = false } = {}) {
  const box = [0, 0, section.projection_mm, section.height_mm];
  const names = section.members.map((m) => m.title.replace(/^\d+ /, ""));
  const laid = sizes ? layDims(view, box, once(section.dims), { names, selected }) : { nodes: [], used: {}, texts: [], lines: [] };
  const nodes = [...laid.nodes];
  const shown = shownCenters(section, selected, centers).map((c) => ({ ...c, ends: arcEnds(c, section.members[c.index]?.path ?? "") }));
  const drawn = shown.length ? [section.outline, ghost ?? "", blank ? blankOf(section) : ""] : [];
  const outlines = drawn.flatMap((d) => pathPoints(d, 6 / view.k).map((p) => view.toScreen(p)));
  const radii = shown.map((c) => onRadii(view, c));
  for (const [i, c] of shown.entries()) nodes.push(center(view, c, laid, { own: radii[i], ink: [outlines, ...radii.filter((r) => r !== radii[i])].flat() }));
  redraw(g, nodes);
  return laid;
}

// arcEnds returns the ends of the arc of a center: lines from it to them are what a compass leaves on paper.
function arcEnds(c, path) {
  const ends = new Map();
  let at = null;
  for (const [, , numbers] of path.matchAll(/([MLA])([^MLAZ]*)/gi)) {
    const to = (numbers.match(/-?[\d.]+(?:e-?\d+)?/g) ?? []).map(Number).slice(-2);
    for (const p of [at, to]) {
      if (p && Math.abs(Math.hypot(p[0] - c.at[0], p[1] - c.at[1]) - c.r) < 0.01) ends.set(p.join(" "), p);
    }
    at = to;
  }
  return [...ends.values()];
}

// once leaves out what is said twice: a whole run above that is below as well, and the height of the only member.
function once(dims) {
  const same = (a, b) => a.text === b.text && a.from[0] === b.from[0] && a.to[0] === b.to[0];
  const only = dims.filter((d) => d.side === "right").length === 1;
  return dims.filter((d) => !(d.side === "top" && dims.some((o) => o.side === "foot" && same(o, d))) && !(only && d.side === "left"));
}

// center marks where the compass stands, and writes the radius where there is room for it: beside the mark, else across one of the lines to the arc.
// What lies beyond the board has no room.
function center(view, c, { texts, lines }, { own, ink }) {
  const [x, y] = view.toScreen(c.at);
  const mark = shape("path", { class: "cross", d: `M${round(x - 6)} ${round(y)}h12M${round(x)} ${round(y - 6)}v12` });
  const w = widthOf(c.text, 13);
  const spots = [[8, -6], [8, 16], [-8 - w, -6], [-8 - w, 16], [-w / 2, -14], [-w / 2, 24]];
  const { width = Infinity, height = Infinity } = view;
  const clear = (r, ...all) => r.x > 2 && r.y > 2 && r.x + r.w < width - 2 && r.y + r.h < height - 2 && [...texts, ...lines].every((t) => !overlap(r, t)) &&
    !all.flat().some(([px, py]) => px > r.x - 2 && px < r.x + r.w + 2 && py > r.y - 2 && py < r.y + r.h + 2);
  const box = (bx, by) => ({ x: bx, y: by, w, h: 16 });
  const spot = spots.map(([dx, dy]) => box(x + dx, y + dy - 13)).find((r) => clear(r, ink, own)) ?? own.map(([px, py]) => box(px - w / 2, py - 8)).find((r) => clear(r, ink));
  if (!spot) return mark;
  texts.push(spot);
  return shape("g", { class: "center" }, mark, lettering(c.text, { x: spot.x, y: spot.y + 13, size: 13 }));
}

// onRadii returns points of the screen, 6 pixels apart, along the lines from the ends of an arc to its center, as far as a screen reaches.
function onRadii(view, c) {
  const [x, y] = view.toScreen(c.at);
  return c.ends.flatMap((p) => {
    const [px, py] = view.toScreen(p);
    const far = Math.hypot(px - x, py - y);
    return Array.from({ length: Math.min(far / 6, 400) }, (_, i) => [px + ((x - px) * 6 * (i + 1)) / far, py + ((y - py) * 6 * (i + 1)) / far]);
  });
}

export const overlap = (a, b) => a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
