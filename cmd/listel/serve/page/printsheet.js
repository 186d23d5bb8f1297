// printsheet.js: the drawing at full size for the browser's own print command: one sheet, with bars to lay a rule on.
// Moldings larger than the paper, and everything else for the bench, are printed from the sheets.

import { el, svg } from "./dom.js";
import { spelled } from "./lettering.js";
import { drawOver, drawSheet } from "./sectiondraw.js";

const fine = (list) => list.map((d) => ({ ...d, text: d.fine ?? d.text })); // as the sheets say it
const px = 96 / 25.4; // CSS: an inch is 96 pixels, and on paper an inch

export function printSheet(section, { stale, from }) {
  document.getElementById("print-sheet")?.remove();
  section = { ...section, dims: fine(section.dims), centers: fine(section.centers) };
  const view = { k: px, x: 0, y: 0, toScreen: ([x, y]) => [view.x + x * px, view.y - y * px] };
  const over = svg("g", { class: "over" });
  const { used } = drawOver(over, view, section);
  view.x = used.left + 16;
  view.y = used.top + 16 + section.height_mm * px;
  drawOver(over, view, section);
  const sheet = svg("g", { class: "sheet", transform: `translate(${view.x} ${view.y}) scale(${px} ${-px})` });
  drawSheet(sheet, section);
  const width = view.x + section.projection_mm * px + used.right + 16;
  const height = view.y + used.bottom + 16;
  const large = width > 6.7 * 96 || height > 7 * 96; // more than Letter or A4 hold beside the words
  const curves = section.members.filter((m) => m.points?.length);
  document.body.append(el("div", { id: "print-sheet" },
    el("h1", null, section.title || section.name),
    el("p", null, `Full size. Print at 100 %, never fitted to the page, and lay a rule on the bars.${stale ? " The last good drawing; the file has mistakes." : ""} From ${from}.${large ? " What the paper does not hold is printed on tiles, from Sheets." : ""}`),
    svg("svg", { class: "bars", width: 400, height: 60 }, bar(100, "100 mm", 10, 20), bar(101.6, "4 in", 10, 50)),
    el("div", { class: "full" }, svg("svg", { class: "bars", width: 60, height: 404 }, bar(100, "100 mm", 20, 394, true), bar(101.6, "4 in", 50, 394, true)),
      svg("svg", { width, height, viewBox: `0 0 ${width} ${height}` }, sheet, over)),
    curves.map((m) => points(section, m))));
}

// points are those of a curve, as they are laid out from the corner where it starts.
function points(section, m) {
  const radius = (p) => p.via && section.centers.find((c) => c.index === m.index && [p.at, p.via].every((q) => Math.abs(Math.hypot(q[0] - c.at[0], q[1] - c.at[1]) - c.r) < 0.01));
  return el("table", null, el("caption", null, `${m.title}: its points, from the corner where it starts`),
    el("tr", null, ["Point", "Across", "Up", "Arc to it"].map((words) => el("th", null, words))),
    m.points.map((p, i) => el("tr", null, [i + 1, ...p.sizes.map((s) => s.fine ?? s.shown), spelled(radius(p)?.text ?? "line").replace("\u2032\u2032", "\u2033")].map((words) => el("td", null, String(words))))));
}

// bar is a length to lay a rule on: across, or up at the side of the drawing.
const bar = (mm, words, x, y, up) => svg("g", { transform: `translate(${x} ${y})${up ? "rotate(-90)" : ""}` },
  svg("path", { class: "tick", d: `M0 0h${mm * px}m0 -5v10m${-mm * px} -10v10` }),
  svg("text", { x: mm * px / 2, y: -5, "font-size": 12, "text-anchor": "middle" }, words));
