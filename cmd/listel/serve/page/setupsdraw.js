// setupsdraw.js: draws one set-up: the end of the stick as it lies on the machine, seen from where it is fed in, fence at the right.
//
//   drawStep(g, plan, step)          into a <g> in mm, y up: table, fence, tool, what stands, what is taken, what is to come
//   drawBlank(g, plan), drawDone(g, plan)    the stick before the first cut and after the last, as the section stands
//   drawSettings(g, board, step)     the two dimensions, into a <g> in pixels
//   room(plan, step)                 the box [x, y, w, h] that holds a step's picture

import { redraw, shape, svg } from "./dom.js";
import { tick } from "./dims.js";
import { lettering, round } from "./lettering.js";
import { boxOf, pathPoints } from "./pathpoints.js";

const rect = (className, [x, y, width, height]) => svg("rect", { class: className, x, y, width, height });

const matrix = (m) => `matrix(${m.join(" ")})`;

const at = (m, [x, y]) => [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];

// hatching tells what is taken without color.
const hatching = () => svg("defs", null, svg("pattern", { id: "taken", patternUnits: "userSpaceOnUse", width: 1.1, height: 1.1, patternTransform: "rotate(45)" },
  svg("rect", { class: "taken-ground", width: 1.1, height: 1.1 }), svg("rect", { class: "taken-line", width: 0.34, height: 1.1 })));

export function drawStep(g, plan, step, { enter = false } = {}) {
  const i = step.n - 1;
  const tool = svg("g", { class: "tool" });
  if (step.body) tool.append(svg("path", { class: "tool-body line", d: step.body, transform: matrix(step.place) }));
  tool.append(svg("path", { class: "tool-edge line", d: step.cut, transform: matrix(step.place) }));
  const shown = svg("g", { transform: matrix(step.place) },
    svg("path", { class: "taken", fill: "url(#taken)", d: plan.wood[i] }),
    svg("path", { class: "wood stands", d: plan.wood[i + 1] }),
    svg("path", { class: "before line", d: plan.wood[i] }),
    svg("path", { class: "to-come line", d: plan.section }),
    svg("path", { class: "outline line", d: plan.wood[i + 1] }),
    plan.members.filter((m) => step.cleans.includes(m.index)).map((m) => svg("path", { class: "clean line", d: m.path })));
  // Within the blank the tool's edge is what counts; a silhouette is closed anyhow outside of it.
  const over = svg("g", { "clip-path": "url(#in-blank)" }, svg("path", { class: "tool-outline line", d: step.cut, transform: matrix(step.place) }));
  const blank = svg("clipPath", { id: "in-blank" }, svg("path", { d: plan.wood[0], transform: matrix(step.place) }));
  g.replaceChildren(hatching(), blank, rect("bed", step.table), rect("bed", step.fence), tool, shown, over);
  if (step.axis !== null) g.append(svg("path", { class: "axis line", d: `M${step.axis} ${step.table[1] - 2}V${step.height + 2}` }));
  if (enter && !matchMedia("(prefers-reduced-motion: reduce)").matches) {
    const from = { table: "0px -14px", fence: "14px 0px", above: "0px 14px" }[step.enters];
    for (const node of [tool, over.firstChild]) node.animate([{ translate: from }, { translate: "0px 0px" }], { duration: 320, easing: "ease-out" });
  }
}

export function drawBlank(g, plan) {
  g.replaceChildren(svg("path", { class: "wood", d: plan.wood[0] }), svg("path", { class: "to-come line", d: plan.section }), svg("path", { class: "outline line", d: plan.wood[0] }));
}

export function drawDone(g, plan) {
  g.replaceChildren(svg("path", { class: "wood stands", d: plan.wood.at(-1) }), svg("path", { class: "to-come line", d: plan.section }), svg("path", { class: "outline line", d: plan.wood.at(-1) }));
}

export function drawSettings(g, board, step) {
  const [tableLeft, tableFoot] = [step.table[0], step.table[1]];
  const low = Math.min(tableFoot, ...pathPoints(step.cut, 5).map((p) => at(step.place, p)[1]));
  const left = Math.min(tableLeft, ...pathPoints(step.cut, 5).map((p) => at(step.place, p)[0]));
  const [x0, y] = board.toScreen([0, low]);
  const [x1] = board.toScreen([step.edge, low]);
  const [, table] = board.toScreen([0, tableFoot]);
  const line = y + 26;
  const [xa, xb] = [Math.min(x0, x1), Math.max(x0, x1)];
  const level = shape("g", { class: "dim" },
    shape("path", { class: "thin", d: `M${round(x0)} ${round(table + 4)}V${round(line + 6)}M${round(x1)} ${round(table + 4)}V${round(line + 6)}M${round(xa - 6)} ${round(line)}H${round(xb + 6)}` }),
    shape("path", { class: "tick", d: tick(x0, line) + tick(x1, line) }),
    lettering(step.setting, { x: (x0 + x1) / 2, y: line + 22, anchor: "middle", size: 17, className: "setting" }));
  const [xl, yt] = board.toScreen([left, step.height]);
  const [, y0] = board.toScreen([0, 0]);
  const [wood] = board.toScreen([step.table[0] + 5, 0]);
  const up = xl - 26;
  const upright = shape("g", { class: "dim" },
    shape("path", { class: "thin", d: `M${round(xl - 4)} ${round(y0)}H${round(up - 6)}M${round(Math.max(wood, xl) - 2)} ${round(yt)}H${round(up - 6)}M${round(up)} ${round(y0 + 6)}V${round(yt - 6)}` }),
    shape("path", { class: "tick", d: tick(up, y0) + tick(up, yt) }),
    lettering(step.over, { x: up - 10, y: (y0 + yt) / 2 + 6, anchor: "end", size: 17, className: "setting" }));
  redraw(g, [level, upright]);
}

export const room = (plan, step) => boxOf([...corners(step.table), ...corners(step.fence), ...corners(plan.box).map((p) => at(step.place, p)),
  ...pathPoints(step.cut, 5).map((p) => at(step.place, p))]);

const corners = ([x, y, w, h]) => [[x, y], [x + w, y], [x, y + h], [x + w, y + h]];
