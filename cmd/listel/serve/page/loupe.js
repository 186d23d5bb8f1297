// loupe.js: a glass over a place of the plate, so that a point is set to a pixel.
//
//   const loupe = new Loupe(host);  loupe.load(plate);  loupe.show([x, y]);  loupe.clear([px, py]) of a place on the board;  loupe.hide()

import { svg } from "./dom.js";

const across = 18; // pixels of the plate that it shows

export class Loupe {
  constructor(host) {
    this.picture = svg("image", { preserveAspectRatio: "none" });
    this.lines = svg("path", { class: "line" });
    this.node = svg("svg", { class: "loupe", viewBox: `0 0 ${across} ${across}`, "aria-hidden": "true" }, this.picture, this.lines);
    this.node.style.display = "none";
    host.append(this.node);
  }

  load({ url, width, height }) {
    for (const [k, v] of Object.entries({ href: url, width, height })) this.picture.setAttribute(k, v);
  }

  show([x, y]) {
    this.node.style.display = "";
    this.node.setAttribute("viewBox", `${x - across / 2} ${y - across / 2} ${across} ${across}`);
    this.lines.setAttribute("d", `M${x - 4} ${y}H${x - 0.7}M${x + 0.7} ${y}H${x + 4}M${x} ${y - 4}V${y - 0.7}M${x} ${y + 0.7}V${y + 4}`);
  }

  // clear keeps the glass off the place that it shows.
  clear([px, py]) {
    const host = this.node.parentNode;
    this.node.classList.toggle("low", px > host.clientWidth - 220 && py < Math.min(220, host.clientHeight / 2));
  }

  hide() {
    this.node.style.display = "none";
  }
}
