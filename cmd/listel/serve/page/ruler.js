// ruler.js: how large a millimeter is on this screen, found with a bank card (85.60 x 53.98 mm, ISO/IEC 7810 ID-1) or a ruler.
//
//   await checkScreen(board)    a dialog; true when the board now knows (board.pxPerMM), which is remembered
//   screenKnown()

import { ask, button, el, svg } from "./dom.js";
import { recall } from "./remember.js";

const card = [85.6, 53.98]; // mm, ISO/IEC 7810, size ID-1
const rule = 101.6; // mm: 4 in, and 100 mm within it

export const screenKnown = () => Number(recall("px-per-mm")) > 0;

export async function checkScreen(board) {
  let px = board.pxPerMM;
  const drawing = svg("svg", { class: "ruler", role: "img", "aria-label": "A card and a rule to hold yours against" });
  const slider = el("input", {
    id: "ruler-size", type: "range", min: "2", max: "12", step: "0.005", value: String(px),
    oninput: () => draw(Number(slider.value)),
  });
  const draw = (v) => {
    px = v;
    const [w, h] = [card[0] * px, card[1] * px];
    drawing.setAttribute("width", Math.max(w, rule * px) + 4);
    drawing.setAttribute("height", h + 112);
    let ticks = "";
    for (let mm = 0; mm <= 100; mm++) ticks += `M${2 + mm * px} ${h + 56}v${mm % 10 === 0 ? -22 : mm % 5 === 0 ? -14 : -8}`;
    for (let n = 0; n <= 64; n++) ticks += `M${2 + (n * 25.4 * px) / 16} ${h + 108}v${n % 16 === 0 ? -22 : n % 8 === 0 ? -17 : n % 4 === 0 ? -13 : -8}`;
    drawing.replaceChildren(
      svg("rect", { class: "card", x: 2, y: 2, width: w, height: h, rx: 3.18 * px }),
      svg("text", { x: 2 + w / 2, y: 2 + h / 2, "text-anchor": "middle" }, "Hold a bank card here"),
      svg("path", { class: "ticks", d: ticks }),
      svg("text", { x: 6, y: h + 24 }, "or a rule here: 100 mm"),
      svg("text", { x: 6, y: h + 78 }, "or in inches: 4 in"));
  };
  draw(px);
  const step = (by) => () => {
    slider.value = String(px + by);
    draw(Number(slider.value));
  };
  const known = await ask({
    title: "How large is this screen?",
    className: "screen",
    body: [
      el("p", null, "Move the slider until the card on the screen is as large as yours. This is done once on each screen."),
      drawing,
      el("p", { class: "slide" },
        el("label", { for: "ruler-size" }, "Size"),
        button("−", step(-0.01), { "aria-label": "a little smaller" }), slider,
        button("+", step(0.01), { "aria-label": "a little larger" })),
    ],
    choices: [{ label: "Close", value: false }, { label: "It fits", main: true, value: true }],
    ready: () => slider.focus(),
  });
  if (known) board.setPxPerMM(px);
  return Boolean(known);
}
