// hand.js: the corners of the members under the hand: by pointer, and by the arrow keys, one fraction at a time.
//
//   const hand = new Hand(board, model)
//   hand.draw(g, texts)  puts the handles over the drawing; call it on every view and every new section. texts are the rectangles of the figures
//   hand.moving         true while a corner is dragged: the view then stays as it is

import { attr, fail, note, redraw, say, shape, svg } from "./dom.js";
import { capital, lettering, round, widthOf } from "./lettering.js";
import { overlap } from "./sectiondraw.js";

export class Hand {
  constructor(board, model) {
    this.board = board;
    this.model = model;
    this.moving = false;
    this.handles = new Map();
    this.tag = svg("g", { class: "tag", "aria-hidden": "true" });
  }

  draw(g, texts = []) {
    this.texts = texts;
    const section = this.model.good;
    const live = section && this.model.section?.ok !== undefined;
    const wanted = new Map();
    for (const m of live ? section.members : []) {
      if (m.index === this.model.selected) {
        for (const [corner, at] of pointSpots(m)) if (at) wanted.set(`${m.index} ${corner}`, { m, corner });
      }
      if (!m.drag || !m.top) continue;
      wanted.set(`${m.index} top`, { m, corner: "top" });
      if (m.index === this.model.selected && m.index > 0 && m.foot) wanted.set(`${m.index} foot`, { m, corner: "foot" });
    }
    for (const [key, h] of this.handles) {
      if (!wanted.has(key)) {
        h.node.remove();
        this.handles.delete(key);
      }
    }
    if (this.group !== g) g.append(this.tag);
    this.group = g;
    for (const [key, w] of wanted) this.#place(key, w, g);
    this.#placeTag();
  }

  #place(key, { m, corner }, g) {
    let h = this.handles.get(key);
    if (!h) {
      h = { node: this.#handle(), key };
      this.handles.set(key, h);
      g.insertBefore(h.node, this.tag);
    }
    h.m = m;
    h.corner = corner;
    h.node.handle = h;
    const chosen = m.index === this.model.selected;
    attr(h.node, "class", `handle ${corner.replace(/ .*/, "")}${chosen ? " chosen" : ""}`);
    const [x, y] = this.board.toScreen(spot(m, corner));
    attr(h.node, "transform", `translate(${round(x)} ${round(y)})`);
    attr(h.node, "tabindex", chosen ? "0" : "-1");
    const { step, units } = this.model;
    const steps = [step.replace("mm", " mm"), units === "mm" ? "0.1 mm" : "1/64"];
    if (this.#fine) steps.reverse();
    attr(h.node, "data-help", `Dragged, it goes by ${steps[0]}${this.#fine ? " over the plate" : ""}; with Alt by ${steps[1]}`);
    attr(h.node, "aria-label", `${cornerName(corner)} of ${m.title}: ${sizeWords(m, corner)}. Arrow keys move it${/^p/.test(corner) ? ", Insert adds one before it, Delete takes it out" : ""}.`);
  }

  // Over a plate a corner goes where the plate has it, not by the steps of the rule.
  get #fine() {
    return Boolean(this.model.doc?.plate?.on);
  }

  #handle() {
    const node = svg("g", { class: "handle", role: "button", "aria-roledescription": "corner" },
      svg("circle", { class: "grip", r: 22 }), svg("circle", { class: "ring", r: 11 }), svg("rect", { class: "knob", x: -4.5, y: -4.5, width: 9, height: 9 }));
    node.addEventListener("pointerdown", (e) => this.#down(e, node.handle));
    node.addEventListener("keydown", (e) => this.#key(e, node.handle));
    node.addEventListener("focus", () => this.model.select(node.handle.m.index));
    return node;
  }

  #down(e, h) {
    if (e.button !== 0 || this.moving) return;
    e.stopPropagation();
    e.preventDefault();
    this.model.select(h.m.index);
    h.node.focus();
    const from = this.board.at(e);
    const corner = spot(h.m, h.corner);
    const off = [corner[0] - from[0], corner[1] - from[1]];
    this.moving = true;
    this.held = h;
    const drag = this.model.drag(h.m.index, h.corner);
    const { node } = h;
    node.setPointerCapture(e.pointerId);
    let moved = false;
    const move = (ev) => {
      const [x, y] = this.board.at(ev);
      if (!moved && Math.hypot(x - from[0], y - from[1]) * this.board.k < 3) return;
      moved = true;
      drag.move(x + off[0], y + off[1], ev.altKey === this.#fine ? this.model.step : "")?.catch((err) => (this.refused = err.message));
    };
    const finish = async (ev) => {
      for (const [type, fn] of listeners) node.removeEventListener(type, fn);
      document.removeEventListener("keydown", escape, true);
      if (ev?.type === "pointercancel") drag.cancel();
      else await drag.done().catch(() => {});
      this.moving = false;
      this.held = null;
      this.#placeTag();
      if (this.refused) note(this.refused, { bad: true });
      else if (moved) say(`${this.#now(h).title}: ${sizeWords(this.#now(h), h.corner)}`);
      this.refused = null;
      this.onend?.(moved);
    };
    const escape = (ev) => {
      if (ev.key !== "Escape") return;
      ev.stopPropagation();
      drag.cancel();
      finish();
    };
    const listeners = [["pointermove", move], ["pointerup", finish], ["pointercancel", finish]];
    for (const [type, fn] of listeners) node.addEventListener(type, fn);
    document.addEventListener("keydown", escape, true);
    this.#placeTag();
  }

  #now(h) {
    return this.model.good?.members[h.m.index] ?? h.m;
  }

  #key(e, h) {
    const point = /^point (\d+)$/.exec(h.corner);
    if (point && (e.key === "Insert" || e.key === "Delete") && !e.altKey && !e.ctrlKey && !e.metaKey) {
      e.preventDefault();
      e.stopPropagation();
      const kind = e.key === "Insert" ? "add" : "remove";
      this.model.edit({ op: "point", at: h.m.index, to: point[1] - 1, kind }).then(() => this.#focusPoint(h.m.index), fail);
      return;
    }
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[e.key];
    if (!by || e.altKey || e.ctrlKey || e.metaKey) return;
    e.preventDefault();
    e.stopPropagation();
    this.#shift(h, by, e.shiftKey ? 4 : 1);
  }

  // The keys stay at the curve when the point that they were at is gone.
  #focusPoint(index) {
    if (document.activeElement !== document.body) return;
    [...this.handles.values()].findLast((h) => h.m.index === index)?.node.focus();
  }

  // shift moves a corner by steps; presses that come before the answer are added up.
  async #shift(h, [dx, dy], steps) {
    this.due = [(this.due?.[0] ?? 0) + dx * steps, (this.due?.[1] ?? 0) + dy * steps];
    if (this.shifting) return;
    this.shifting = true;
    try {
      while (this.due && (this.due[0] || this.due[1])) {
        const due = this.due;
        this.due = null;
        const m = this.#now(h);
        const at = spot(m, h.corner);
        const step = this.model.stepMM;
        const [dx, dy] = h.corner === "top" ? along(m, due) : due;
        const change = { op: "drag", at: m.index, corner: h.corner, x: at[0] + dx * step, y: at[1] + dy * step, snap: this.model.step };
        await this.model.edit(change, { merge: `keys ${m.index} ${h.corner}`, label: `moving the corner of ${m.title}` });
        say(sizeWords(this.#now(h), h.corner));
      }
    } catch (err) {
      fail(err);
    } finally {
      this.shifting = false;
      this.due = null;
    }
  }

  // placeTag writes the sizes beside the corner that is held.
  #placeTag() {
    if (!this.held) {
      redraw(this.tag, []);
      return;
    }
    const m = this.#now(this.held);
    const words = sizeWords(m, this.held.corner);
    const [x, y] = this.board.toScreen(spot(m, this.held.corner));
    const w = widthOf(words, 16) * 1.1 + 24; // its letters are bold
    const places = [[x + 22, y - 50], [x - 22 - w, y - 50], [x - 22 - w, y + 18], [x + 22, y + 18]].map(([px, py]) => ({ x: px, y: Math.max(8, py), w, h: 32 }));
    const within = places.filter((r) => r.x > 8 && r.x + w < this.board.width - 8);
    const at = within.find((r) => !this.texts.some((t) => overlap(r, t))) ?? within[0] ?? places[0];
    redraw(this.tag, [shape("rect", { x: round(at.x), y: round(at.y), width: round(w), height: at.h, rx: 3 }), lettering(words, { x: at.x + 10, y: at.y + 22, size: 16 })]);
    if (this.group?.lastChild !== this.tag) this.group?.append(this.tag);
  }
}

// along turns a move by keys into one that a member can make whose run is its rise: out and up together.
function along(m, [dx, dy]) {
  const curve = m.choices?.find((c) => c.key === "curve")?.value;
  if (m.kind !== "conge" && curve !== "quadrant" && curve !== "bold") return [dx, dy];
  const out = Math.sign(m.projection_mm) || 1;
  const by = dy || dx * out;
  return [by * out, by];
}

// spot is where a corner of a member stands; the points of a curve, and the bends of its arcs, are counted from 1.
function spot(m, corner) {
  return corner === "top" ? m.top : corner === "foot" ? m.foot : pointSpots(m).find(([name]) => name === corner)?.[1] ?? m.top;
}

const pointSpots = (m) => (m.points ?? []).flatMap((p, i) => [[`point ${i + 1}`, p.at], [`bend ${i + 1}`, p.via]]);

const cornerName = (corner) => ({ top: "Upper corner", foot: "Lower corner" })[corner] ?? capital(corner);

/** What a corner says: the height and run of its member. */
function sizeWords(m, corner = "top") {
  const shown = (key) => m.sizes?.find((s) => s.key === key)?.shown;
  if (corner === "foot" && shown("set")) return `set ${shown("set")}`;
  const [, what, n] = /^(point|bend) (\d+)$/.exec(corner) ?? [];
  if (what) {
    const [across, up] = m.points?.[n - 1]?.[what === "bend" ? "bend" : "sizes"] ?? [];
    return across ? `across ${across.shown} · up ${up.shown}` : "";
  }
  return [["height", shown("height")], ["run", shown("projection")]].filter(([, v]) => v).map((p) => p.join(" ")).join(" · ");
}
