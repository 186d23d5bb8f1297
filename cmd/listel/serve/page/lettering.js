// lettering.js: text on drawings, with fractions set as a draftsman writes them: the numerator raised, the denominator lowered.
//
//   lettering("1 3/4", {x, y, anchor, size, className})   the shape of a <text> in a <g> that stands where it is wanted: moved, its letters need
//                                                         not be set anew
//   spelled("1\u00be") is "1 3/4"
//   widthOf("1 3/4", size)                                 its width in pixels

import { shape } from "./dom.js";

const small = 0.72; // of the size: numerator and denominator
const raised = 0.32; // of the size: how far the numerator stands up

const pen = document.createElement("canvas").getContext("2d");
const widths = new Map();
const split = new Map();

let face = "";

function plainWidth(text, size) {
  face ||= getComputedStyle(document.body).fontFamily;
  const key = size + text;
  if (!widths.has(key)) {
    pen.font = `${size}px ${face}`;
    widths.set(key, pen.measureText(text).width);
  }
  return widths.get(key);
}

/** A size spelled out, as it is typed: ready-made characters for fractions are too small to read at a bench. */
export const spelled = (text) => text.replace(/(\d)(?=[\u00bc-\u00be\u2150-\u215e])/g, "$1 ").normalize("NFKD").replaceAll("\u2044", "/");

// pieces splits a text at its fractions: [plain, numerator, denominator, plain, ...].
function pieces(text) {
  if (!split.has(text)) split.set(text, spelled(text).split(/ ?(\d+)\/(\d+)/));
  return split.get(text);
}

// gap is what stands before a fraction.
const gap = (before, size) => (before === "" ? 0 : /[-\u2212+]$/.test(before) ? size * 0.06 : /\d$/.test(before) ? size * 0.12 : size * 0.3);

export function widthOf(text, size) {
  let w = 0;
  for (const [i, piece] of pieces(text).entries()) {
    if (i % 3 === 1) w += gap(pieces(text)[i - 1], size);
    w += i % 3 === 0 ? plainWidth(piece, size) : plainWidth(piece, size * small);
    if (i % 3 === 1) w += plainWidth("\u2044", size);
  }
  return w;
}

export function lettering(text, { x, y, anchor = "start", size = 14, className = null, rotate = null }) {
  const parts = [];
  let lift = 0;
  const part = (words, dy, scale, dx = 0) => {
    if (words === "") return;
    parts.push(shape("tspan", { dy: round(dy - lift), dx: dx || null, "font-size": scale === 1 ? null : round(size * scale) }, words));
    lift = dy;
  };
  for (const [i, piece] of pieces(text).entries()) {
    if (i % 3 === 0) part(piece, 0, 1);
    else if (i % 3 === 1) {
      part(piece, -size * raised, small, round(gap(pieces(text)[i - 1], size)));
      part("\u2044", 0, 1);
    } else part(piece, size * 0.04, small);
  }
  const width = widthOf(text, size);
  return shape("g", { transform: `translate(${round(x)} ${round(y)})${rotate === null ? "" : ` rotate(${rotate})`}` },
    // A halo round the letters would eat into those before: each piece of a text is painted by itself.
    shape("rect", { class: "under", fill: "none", x: round(-width * { start: 0, middle: 0.5, end: 1 }[anchor] - 1), y: round(-size * 0.88), width: round(width + 2), height: round(size * 0.96) }),
    shape("text", { "text-anchor": anchor, "font-size": size, class: className, "data-text": spelled(text) }, parts));
}

export const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

export const round = (v) => Math.round(v * 100) / 100;
