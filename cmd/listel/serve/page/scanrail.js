// scanrail.js: what is known of the plate and wanted from it, in the order of the work: measure, crop, trace, open.

import { attr, button, el, note, options, tell } from "./dom.js";
import { capital } from "./lettering.js";

const stages = { picture: "reading the picture", scales: "measuring its scale", ink: "finding the ink", edges: "following its edge", members: "naming its members" };

export class ScanRail {
  constructor(host, model, board, { another }) {
    Object.assign(this, { host, model, board });
    this.name = el("b");
    this.size = el("span", { class: "quiet" });
    this.scaleChoice = el("select", { id: "scan-scale", onchange: () => this.#scale(this.scaleChoice.value) });
    this.scaleField = el("div", { class: "field" }, el("label", { for: "scan-scale" }, "By which scale the section is drawn"), this.scaleChoice);
    this.rows = el("ul", { class: "scan-rows" });
    this.scaleWords = el("p", { class: "mistake", hidden: true });
    this.fields = {
      name: this.#text("name", "Name"), title: this.#text("title", "Title"), tolerance: this.#text("tolerance", "May be off by", "by the scan"),
      face: this.#choice("face", "Its face is on the", [["right", "right"], ["left", "left"]], "the worked side; the back is on the other"), drawn: this.#choice("drawn", "It is drawn", [["any", "either way"], ["outlined", "in outline"], ["filled", "filled in"]], "in outline, its edge is the middle of the line; filled in, where the ink ends"),
      parts: this.#choice("parts", "Its sizes are", [["", "lengths"], ["yes", "parts of its height"]], "where they come out whole or half parts, the file gives them so"),
      back: this.#choice("back", "Its back is", [["", "as it is drawn"], ["placed", "where I press"]], "press on it where the drawing is left open behind, or broken off by a jagged line"),
    };
    this.crop = ["left", "top", "right", "foot"].map((word, i) => {
      const input = el("input", { id: `scan-crop-${i}`, type: "number", min: "0", inputmode: "numeric", onchange: () => this.#cropped(i) });
      return { input, node: el("div", { class: "field" }, el("label", { for: input.id }, word), input) };
    });
    this.cropWords = el("p", { class: "mistake", hidden: true });
    this.corners = el("p", { class: "quiet" });
    this.cornersAway = button("Take the corners away", () => model.change(() => (model.section.points = []), { label: "taking the corners away" }), { id: "scan-no-points" });
    this.go = button("Trace it", () => model.trace(), { class: "main", id: "scan-trace" });
    this.under = button("", () => this.#layUnder(), { id: "scan-under", title: "Upright and to its scale, the back and foot of what is traced at the molding's own" });
    this.stop = button("Stop", () => model.stop(), { id: "scan-stop" });
    this.progress = el("progress", { "aria-label": "Tracing", max: 1 });
    this.state = el("div", { class: "scan-state", role: "status" });
    this.result = el("div", { class: "scan-result" });
    host.append(
      el("p", null, this.name, " ", this.size, " ", button("Another plate", another, { class: "small" })),
      el("h2", null, "1. Measure"), this.scaleField, this.rows, this.scaleWords,
      el("p", { class: "choices to-start" }, button("A known place", () => (board.mode = "place"), { title: "Three known places correct a turn, four a plate photographed aslant", id: "scan-place" }),
        button("Another scale", () => this.#scale("new"), { title: "When parts of the plate are drawn at other scales", id: "scan-another" })),
      el("h2", null, "2. Crop to one section"),
      el("div", { class: "sizes scan-crop" }, this.crop.map((c) => c.node)), this.cropWords,
      el("div", { class: "sizes scan-pair" }, this.fields.face.node, this.fields.drawn.node, this.fields.back.node, this.fields.parts.node), this.corners, this.cornersAway,
      el("h2", null, "3. Trace"),
      el("div", { class: "sizes scan-pair" }, this.fields.name.node, this.fields.tolerance.node, this.fields.title.node),
      this.state, this.result);
  }

  #text(key, label, placeholder = "") {
    const input = el("input", { id: `scan-${key}`, type: "text", placeholder, onchange: () => this.model.change(({ section }) => (section[key] = input.value.trim()), { label: label.toLowerCase() }) });
    const words = el("p", { class: "mistake", hidden: true });
    return { input, words, node: el("div", { class: key === "title" ? "field wide" : "field" }, el("label", { for: input.id }, label), input, words) };
  }

  #choice(key, label, list, help) {
    const input = el("select", { id: `scan-${key}`, onchange: () => this.#chosen(key, input.value, label) }, options(list));
    const words = el("p", { class: "mistake", hidden: true });
    return { input, words, node: el("div", { class: "field", "data-help": `${label}: ${help}` }, el("label", { for: input.id }, label), input, words) };
  }

  #chosen(key, value, label) {
    const { model, board } = this;
    if (key === "back" && value) {
      board.mode = "back";
      board.board.svg.focus();
      return;
    }
    if (key === "back" && board.mode === "back") board.mode = "";
    model.change(({ section }) => (section[key] = key === "parts" ? Boolean(value) : key === "back" ? null : value), { label: label.toLowerCase() });
  }

  #scale(value) {
    this.model.change((m) => {
      if (value === "new") m.scales.push({ lengths: [], points: [] });
      m.scale = value === "new" ? m.scales.length - 1 : Number(value);
    }, { label: value === "new" ? "another scale" : "choosing a scale" });
    if (value === "new") this.board.mode = "length";
  }

  #cropped(i) {
    const { model } = this;
    const { plate, section } = model;
    const v = this.crop[i].input.valueAsNumber;
    if (!Number.isFinite(v)) return;
    model.change(() => {
      const c = section.crop ?? [0, 0, plate.width, plate.height];
      section.crop = c.map((old, k) => (k === i ? Math.round(v) : old));
    }, { label: "the crop" });
  }

  /** Puts the keys where the size of what was measured last is typed. */
  focusLast(what) {
    const all = this.rows.querySelectorAll(what === "length" ? "input.length" : "input.x");
    all[all.length - 1]?.focus();
  }

  update() {
    const { model } = this;
    const { plate, section, scales, faults } = model;
    if (!plate) return;
    this.name.textContent = plate.name;
    this.size.textContent = `${plate.width} × ${plate.height} px`;
    this.scaleField.hidden = scales.length < 2;
    this.scaleChoice.replaceChildren(...scales.map((s, i) => el("option", { value: i }, `scale ${i + 1}${s.lengths[0]?.text ? `: ${s.lengths[0].text}` : ""}`)));
    this.scaleChoice.value = model.scale;
    this.#updateRows();
    const of = (key) => faults.filter((f) => f.key === key && f.scale < 0).map((f) => f.text).join(" ");
    const say = (node, words) => tell(node, capital(words));
    for (const [key, f] of Object.entries(this.fields)) {
      if (document.activeElement !== f.input || f.input.matches("select")) f.input.value = this.#told(key);
      say(f.words, of(key));
    }
    for (const [i, c] of this.crop.entries()) {
      c.input.max = i % 2 ? plate.height : plate.width;
      if (document.activeElement !== c.input) c.input.value = (section.crop ?? [0, 0, plate.width, plate.height])[i];
    }
    say(this.cropWords, of("crop"));
    const rest = faults.filter((f) => f.scale < 0 && f.key !== "crop" && !this.fields[f.key]).map((f) => f.text);
    say(this.scaleWords, [...faults.filter((f) => f.scale === model.scale && f.row < 0).map((f) => f.text), ...rest].join(" "));
    this.corners.hidden = this.cornersAway.hidden = section.points.length === 0;
    this.corners.textContent = `${section.points.length} corners are clicked: they are followed in place of the ink.`;
    this.#updateState();
    this.#updateResult();
  }

  // told is what a field shows of a key of the section.
  #told(key) {
    const { section } = this.model;
    if (key === "parts") return section.parts ? "yes" : "";
    if (key === "back") return section.back || this.board.mode === "back" ? "placed" : "";
    return section[key];
  }

  #updateRows() {
    const { model } = this;
    const { rows } = model;
    const shape = `${model.plate.url} ${model.turn} ${model.scale} ${rows.lengths.length} ${rows.points.length}`;
    if (shape !== this.shape) {
      this.shape = shape;
      this.inputs = [...rows.lengths.map((l, i) => this.#lengthRow(l, i)), ...rows.points.map((p, i) => this.#pointRow(p, i, rows.lengths.length))];
      this.rows.replaceChildren(...this.inputs.map((r) => r.node));
      if (this.inputs.length === 0) this.rows.replaceChildren(el("li", null, el("p", { class: "quiet" }, "Press on both ends of something whose length you know: a printed scale, or a dimension. One across and one up correct a stretched scan.")));
    }
    for (const [i, r] of (this.inputs ?? []).entries()) {
      const read = r.texts().map((text) => model.reading(text));
      const fault = model.faults.find((x) => x.scale === model.scale && x.row === i)?.text ?? read.find((x) => x?.fault)?.fault ?? "";
      tell(r.words, fault || read.map((x) => x?.words).filter(Boolean).join("; "));
      r.words.className = fault ? "mistake" : "reads quiet";
      for (const input of r.fields) attr(input, "aria-invalid", fault !== "");
    }
  }

  #lengthRow(l, i) {
    const { model } = this;
    const input = el("input", { id: `scan-length-${i}`, class: "length", type: "text", value: l.text, placeholder: model.units === "mm" ? "such as 75" : "such as 3", onchange: () => model.change(() => (l.text = input.value.trim()), { label: `length ${i + 1}` }),
      onkeydown: (e) => e.key === "Enter" && input.blur() });
    const bar = el("input", { id: `scan-bar-${i}`, type: "checkbox", checked: l.bar, onchange: () => model.change(() => (l.bar = bar.checked), { label: `length ${i + 1}` }) });
    const words = el("p", { class: "mistake", hidden: true });
    input.setAttribute("aria-label", `Length ${i + 1}`);
    return { words, fields: [input], texts: () => [l.text], node: el("li", null, el("b", null, `${i + 1}`), input,
      el("label", { for: bar.id, class: "tick-box", title: "Its ends and marks are found in the ink" }, bar, "printed scale"), this.#away(() => model.rows.lengths.splice(i, 1), `length ${i + 1}`), words) };
  }

  #pointRow(p, i, before) {
    const { model } = this;
    const field = (key, word) => {
      const input = el("input", { id: `scan-point-${i}-${key}`, class: key, type: "text", value: p[key], onchange: () => model.change(() => (p[key] = input.value.trim()), { label: `place ${i + 1}` }) });
      return [input, el("label", { for: input.id }, word)];
    };
    const [x, xWord] = field("x", `Place ${i + 1}: right`);
    const [y, yWord] = field("y", "up");
    const words = el("p", { class: "mistake", hidden: true });
    return { words, fields: [x, y], texts: () => [p.x, p.y], node: el("li", { class: "known", title: "How far it lies to the right, and up, in truth, from one place that you choose for all of them" }, xWord, x, yWord, y, this.#away(() => model.rows.points.splice(i, 1), `place ${before + i + 1}`), words) };
  }

  #away(fn, what) {
    return button("✕", () => this.model.change(fn, { label: `taking away ${what}` }), { class: "small", "aria-label": `Take away ${what}` });
  }

  #updateState() {
    const { state, result, old } = this.model;
    if (state.busy) {
      if (state.of > 0) this.progress.value = state.done / state.of;
      else this.progress.removeAttribute("value");
      this.stageWords ??= el("span", null);
      this.stageWords.textContent = stages[state.stage] ?? "beginning";
      if (this.state.firstChild !== this.progress) {
        const held = this.state.contains(document.activeElement);
        this.state.replaceChildren(this.progress, this.stageWords, this.stop);
        if (held) this.stop.focus();
      }
      return;
    }
    const held = this.state.contains(document.activeElement); // the keys go on where the work goes on
    this.go.textContent = result ? "Trace it anew" : "Trace it";
    this.go.classList.toggle("main", !result || old);
    const words = state.words ? el("p", { class: "mistake" }, state.words) : old ? el("p", { class: "quiet" }, "Something changed since this was traced.") : "";
    const doc = this.model.store.profile;
    this.under.textContent = doc ? `Lay it under ${doc.name}` : "";
    this.state.replaceChildren(this.go, doc ? this.under : "", words);
    if (held) this.go.focus();
  }

  #updateResult() {
    const { model } = this;
    const { result } = model;
    if (result === this.shownResult) return;
    this.shownResult = result;
    if (!result) {
      this.result.replaceChildren();
      return;
    }
    this.result.replaceChildren(
      el("p", { class: "choices to-start" },
        button("Open in the section", () => this.#open(), { class: "main", id: "scan-open" }),
        button("The worst place", () => this.board.look(result.worst), { id: "scan-worst" })),
      ...result.truth.map((t, i) => el("p", { class: i === 0 && !result.within ? "watch" : null }, t)),
      el("dl", { class: "scan-members" }, result.members.map((m) => [el("dt", null, m.title), el("dd", null, m.sizes || "—")])),
      result.whole ? el("p", { class: "quiet" }, result.whole) : "",
      ...result.notes.map((n) => el("p", { class: "quiet" }, `${capital(n)}.`)));
    if (this.state.contains(document.activeElement)) this.result.querySelector("#scan-open").focus();
    this.result.scrollIntoView({ block: "nearest" });
  }

  async #layUnder() {
    const words = await this.model.layUnder(this.model.store.profile);
    if (!words) return;
    location.hash = "#section";
    note(words);
  }

  #open() {
    this.model.open();
    location.hash = "#section";
  }
}
