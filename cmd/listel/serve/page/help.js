// help.js: the keys and the words, in a dialog.

import { ask, el } from "./dom.js";

const keys = [
  ["Members", [
    ["↑ ↓", "go to the member above, below"],
    ["Enter", "open its sizes, or close them"],
    ["Alt + ↑ ↓", "move it up, down in the molding"],
    ["Insert", "add a member above it"],
    ["Delete", "take it out"],
  ]],
  ["A corner on the drawing", [
    ["← → ↑ ↓", "move it by one fraction: run and height"],
    ["Shift + arrow", "move it by four"],
    ["Insert, Delete", "at a point of a curve: one more before it, take it out"],
  ]],
  ["A dimension on the drawing", [
    ["two clicks", "type it where it stands"],
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
    ["Ctrl + Z", "undo: what is measured, cropped, pressed"],
  ]],
  ["Case", [
    ["Tab, Enter", "choose a molding, a size"],
    ["0", "all views"],
    ["+ − arrows", "magnify, move the sheet"],
  ]],
  ["Sheets", [
    ["← →", "the page before, after"],
    ["Home, End", "the first, the last"],
  ]],
  ["Everywhere", [
    ["Ctrl + Z", "undo"],
    ["Ctrl + Shift + Z, Ctrl + Y", "redo"],
    ["Ctrl + S", "save; with Shift under another name"],
    ["Ctrl + O", "open"],
  ]],
];

const words = [
  ["height", "of a member or of the whole, measured plumb"],
  ["run", "how far out a member comes from its foot to its top"],
  ["set", "a step out, or back, before a member begins"],
  ["projection", "how far the whole stands out from the back"],
  ["ground", "how far the face stands from the back at the foot"],
  ["parts", "the height divided evenly; 2p is two of them"],
  ["rest", "what the other members leave: one may take it"],
  ["3/8-  3/8+", "a little less, a little more than 3/8"],
  ["fillet", "a narrow plumb flat that parts two curves"],
  ["quirk", "a square groove beside a bead or between members"],
  ["drip", "a groove under a corona that lets water drop off"],
  ["sprung", "leaning from wall to ceiling, open behind"],
  ["rabbet", "a step cut out of the back"],
  ["blank", "the smallest piece of wood that holds it"],
];

export function keysHelp() {
  return ask({
    title: "Keys and words",
    className: "keys",
    body: el("div", { class: "columns" }, keys.map(([title, rows]) => el("section", null, el("h3", null, title),
      el("dl", null, rows.map(([key, what]) => [el("dt", null, key), el("dd", null, what)])))),
      el("section", { class: "words" }, el("h3", null, "Words"), el("dl", null, words.map(([word, what]) => [el("dt", null, word), el("dd", null, what)])))),
  });
}
