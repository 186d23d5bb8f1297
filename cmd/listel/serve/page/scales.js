// scales.js: the scales that lie along the lower and the left edge of the board, inches or millimeters from the drawing's zero.

import { redraw, shape } from "./dom.js";

const inch = 25.4;

// Steps of a scale, finest first: [length of a tick in mm, ticks to a numbered one, ticks to a longer one].
const inches = [[inch / 32, 8, 4], [inch / 16, 16, 4], [inch / 8, 8, 4], [inch / 4, 4, 2], [inch, 12, 3], [3 * inch, 4, 4], [12 * inch, 4, 4]];
const millimeters = [[0.5, 10, 2], [1, 10, 5], [5, 10, 2], [10, 10, 5], [50, 10, 2], [100, 10, 5]];

export const edge = 24; // pixels that a scale takes

export function drawScales(g, board) {
  const { width, height, k } = board;
  const table = board.units === "mm" ? millimeters : inches;
  const [step, numbered, longer] = table.find(([mm]) => mm * k >= 6) ?? table.at(-1);
  const parts = [
    shape("path", { class: "rule", d: `M0 0H${edge}V${height - edge}H${width}V${height}H0Z` }),
  ];
  let ticks = "";
  const mark = (x, y, mm) => shape("g", { transform: `translate(${x} ${y})` }, shape("text", null, label(mm)));
  const label = (mm) => (board.units === "mm" ? String(Math.round(mm)) : inchLabel(mm / inch));
  const x0 = Math.ceil((edge - board.x) / k / step);
  const x1 = Math.floor((width - board.x) / k / step);
  for (let i = x0; i <= x1; i++) {
    const px = round(board.x + i * step * k);
    const long = i % numbered === 0 ? 12 : i % longer === 0 ? 8 : 5;
    ticks += `M${px} ${height - edge}v${long}`;
    if (i % numbered === 0 && px < width - 10) parts.push(mark(px + 3, height - 5, i * step));
  }
  const y0 = Math.ceil((board.y - (height - edge)) / k / step);
  const y1 = Math.floor(board.y / k / step);
  for (let i = y0; i <= y1; i++) {
    const py = round(board.y - i * step * k);
    const long = i % numbered === 0 ? 12 : i % longer === 0 ? 8 : 5;
    ticks += `M${edge} ${py}h${-long}`;
    if (i % numbered === 0 && py > 12) parts.push(mark(3, py - 3, i * step));
  }
  parts.push(shape("path", { class: "ticks", d: ticks }));
  redraw(g, parts);
}

function inchLabel(v) {
  const whole = Math.trunc(v + Math.sign(v) * 1e-9);
  const rest = Math.round(Math.abs(v - whole) * 8);
  const eighths = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"][rest % 8];
  return (whole === 0 && eighths ? (v < 0 ? "-" : "") : String(whole)) + eighths;
}

const round = (v) => Math.round(v * 10) / 10;
