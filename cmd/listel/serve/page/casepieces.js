// casepieces.js: the pieces of the chosen molding, or of the beads, in a table, with how they are cut and what holds them.
//
//   piecesPanel(answer, model) -> element

import { el } from "./dom.js";
import { capital } from "./lettering.js";

const heads = ["Mark", "Pieces", "Run", "Hand", "Back", "Long", "Short", "Rough", "Left end", "Right end"];

export function piecesPanel(answer, model) {
  const { molding, selected } = model;
  if (selected === "beads") return beads(answer, model);
  if (!molding) return all(answer, model);
  return el("div", { class: "pieces" },
    el("h2", null, `${capital(molding.name)}: pieces to cut`),
    table(molding.pieces, model, molding.name),
    ends(molding.pieces),
    words(molding.say));
}

function all(answer, model) {
  const rows = answer.moldings.flatMap((m) => m.pieces.map((p) => ({ ...p, molding: m.name })));
  return el("div", { class: "pieces" },
    el("h2", null, "All pieces"),
    el("p", { class: "quiet" }, "Choose a molding on the drawing or in the list to see how its pieces are cut."),
    table(rows, model, ""));
}

function beads(answer, model) {
  return el("div", { class: "pieces" },
    el("h2", null, "Drawers and beads"),
    answer.drawers.length ? el("div", { class: "wide-table", tabindex: "0", role: "group", "aria-label": "Drawer openings" }, el("table", { class: "drawers" },
      el("caption", null, "Openings, clear, before beads. Rows count from the bottom."),
      el("thead", null, el("tr", null, ["Row", "Column", "Wide", "High"].map((h) => el("th", { scope: "col" }, h)))),
      el("tbody", null, answer.drawers.map((d) => el("tr", null, [d.row, d.column, d.width, d.height].map((v) => el("td", null, String(v)))))))) : null,
    answer.beads.length ? table(answer.beads, model, "beads") : null,
    words(answer.beads_say));
}

function table(pieces, model, molding) {
  const row = (p) => el("tr", { class: model.run && p.runs.includes(model.run) ? "chosen" : null, "data-mark": p.mark },
    el("th", { scope: "row" }, el("button", {
      "aria-pressed": String(model.run && p.runs.includes(model.run) && (p.molding ?? molding) === model.selected),
      title: "Show it on the drawing", onclick: () => model.select(p.molding ?? molding, p.runs[0]),
    }, p.mark)),
    [p.count, p.runs.length > 1 ? p.runs.join(", ") : p.run, p.hand, p.back, p.long, p.short, p.rough].map((v) => el("td", null, String(v))),
    [p.left, p.right].map((end) => el("td", { class: "cut-end" }, settings(end.words))));
  return el("div", { class: "wide-table", tabindex: "0", role: "group", "aria-label": "Pieces" },
    el("table", { class: "cuts" },
      el("thead", null, el("tr", null, heads.map((h) => el("th", { scope: "col" }, h)))),
      el("tbody", null, pieces.map(row))));
}

// settings breaks the words of an end at spaces, but never between a setting and its figure.
const settings = (words) => words.split(/ (?!\d)/).flatMap((w, i) => (i ? [" ", el("span", null, w)] : [el("span", null, w)]));

// ends tells for each different way of cutting how the piece lies at the saw.
function ends(pieces) {
  const ways = new Map();
  for (const p of pieces) {
    for (const [side, end] of [["left", p.left], ["right", p.right]]) {
      if (!end.saw) continue;
      if (!ways.has(end.saw)) ways.set(end.saw, []);
      ways.get(end.saw).push(`${p.mark} ${side}`);
    }
  }
  if (ways.size === 0) return null;
  return el("div", { class: "at-saw" },
    el("h3", null, "At the saw"),
    el("dl", null, [...ways].map(([how, which]) => [el("dt", null, which.join(", ")), el("dd", null, capital(how) + ".")])),
    el("p", { class: "quiet" }, "For a saw that reads 0 at a square cut, as one faces its fence. Cut a test corner first; follow the saw's manual and keep its guards on."));
}

const words = (list) => (list.length ? el("ul", { class: "says" }, list.map((w) => el("li", null, capital(w.trim())))) : null);
