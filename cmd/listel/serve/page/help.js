// help.js: the keys, in a dialog.

import { ask, el } from "./dom.js";

const keys = [
  ["Members", [
    ["↑ ↓", "go to the member above, below"],
    ["Enter", "open its sizes"],
    ["Alt + ↑ ↓", "move it up, down in the molding"],
    ["Insert", "add a member above it"],
    ["Delete", "take it out"],
  ]],
  ["A corner on the drawing", [
    ["← → ↑ ↓", "move it by one fraction: run and rise"],
    ["Shift + arrow", "move it by four"],
  ]],
  ["A size", [
    ["↑ ↓", "one fraction more, less"],
    ["Enter", "take what is typed"],
    ["Esc", "leave it as it was"],
  ]],
  ["The board", [
    ["+ −", "larger, smaller"],
    ["0", "all of it"],
    ["1", "full size"],
    ["← → ↑ ↓", "move the sheet"],
  ]],
  ["Set-ups", [
    ["← →", "the one before, the next"],
    ["Shift + arrow", "move the picture"],
  ]],
  ["Scan", [
    ["Enter", "press in the middle of the board"],
    ["← → ↑ ↓", "move a point by a pixel; with Shift by ten"],
    ["Delete", "take it away"],
  ]],
  ["Everywhere", [
    ["Ctrl + Z", "undo"],
    ["Ctrl + Shift + Z, Ctrl + Y", "redo"],
    ["Ctrl + S", "save; with Shift under another name"],
    ["Ctrl + O", "open"],
  ]],
];

export function keysHelp() {
  return ask({
    title: "Keys",
    className: "keys",
    body: el("div", { class: "columns" }, keys.map(([title, rows]) => el("section", null, el("h3", null, title),
      el("dl", null, rows.map(([key, what]) => [el("dt", null, key), el("dd", null, what)]))))),
    choices: [{ label: "Close", value: null }],
  });
}
