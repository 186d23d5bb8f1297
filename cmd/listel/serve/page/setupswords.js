// setupswords.js: what is said beside a step: what to set and what to watch; before the first, what to know; after the last, what is left.
//
//   wordsOf(plan, i)   nodes; i is 0 for the blank, then the set-ups, then the stick as it comes off the machine

import { el, made, svg } from "./dom.js";
import { lettering, widthOf } from "./lettering.js";

export function wordsOf(plan, i) {
  const step = plan.steps[i - 1];
  if (step) return stepWords(plan, step);
  return i === 0 ? blankWords(plan) : doneWords(plan);
}

function stepWords(plan, step) {
  const opening = plan.fence.find(([n]) => n === String(step.n));
  return [
    el("h2", null, `${step.n}. ${step.tool}`),
    ...step.remarks.map((r) => (r.figure ? figure(r) : el("p", { class: r.text.startsWith("WATCH") ? "watch" : r.strong ? "strong" : null }, r.text))),
    opening ? el("p", null, `At the fence: ${opening[1]}.`) : null,
    el("p", { class: "quiet" }, plan.by_hand ? "Try it on a test piece, hands behind the edge." : "Try it on a test piece. The machine’s manual and local rules come first."),
  ].filter(Boolean);
}

// figure is a setting in large figures, with fractions as a draftsman writes them.
function figure(r) {
  const width = Math.ceil(widthOf(r.figure, 26)) + 6;
  return el("p", { class: "figure" }, el("span", null, r.text), " ",
    svg("svg", { width, height: 28, role: "img", "aria-label": r.figure }, made(lettering(r.figure, { x: 1, y: 26, size: 26 }))), el("span", { class: "quiet" }, r.more));
}

function blankWords(plan) {
  return [
    el("h2", null, plan.title),
    el("p", { class: "strong" }, plan.summary),
    plan.bound || plan.stopped ? el("p", { class: "quiet" }, plan.bound, plan.stopped ? " The search ended before it was done; a long one looks further." : "") : null,
    ...plan.notes.map((n) => el("p", { class: n.strong ? "watch" : null }, n.text)),
    el("h3", null, "Tools"), toolTable(plan),
    plan.fence.length ? el("h3", null, "At the fence") : null,
    plan.fence.length ? el("ul", { class: "plain-list" }, plan.fence.map(([n, words]) => el("li", null, el("b", null, `Set-up ${n}: `), words))) : null,
    el("p", { class: "quiet" }, plan.about),
    plan.cautions.length ? el("h3", null, "Cautions") : null,
    el("ul", { class: "plain-list cautions" }, plan.cautions.map((c) => el("li", null, c))),
  ].filter(Boolean);
}

function toolTable(plan) {
  const fast = plan.tools.some((t) => t.speed), long = plan.tools.some((t) => t.cuts);
  return el("table", { class: "tool-table" },
    el("thead", null, el("tr", null, el("th", { scope: "col" }, "Tool"), el("th", { scope: "col" }, "Used in"), long ? el("th", { scope: "col" }, "Cuts at least") : null, fast ? el("th", { scope: "col" }, "At most") : null)),
    el("tbody", null, plan.tools.map((t) => el("tr", null, el("td", null, t.tool), el("td", null, t.used), long ? el("td", null, t.cuts) : null, fast ? el("td", null, t.speed) : null))));
}

function doneWords(plan) {
  return [
    el("h2", null, plan.by_hand ? "Off the planes" : "Off the machine"),
    el("p", null, "The dashed line is the section. What stands over it is for scraper and paper."),
    ...plan.notes.filter((n) => !n.strong).map((n) => el("p", null, n.text)),
  ];
}
