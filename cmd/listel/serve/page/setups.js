// setups.js: the view of the set-ups: step through them, forward and back, and see the wood come away.

import * as api from "./api.js";
import { Board, zooms } from "./board.js";
import { button, el, fail, note, options, redraw, say, svg, tools } from "./dom.js";
import { thumb } from "./files.js";
import { widthOf } from "./lettering.js";
import { drawBlank, drawDone, drawSettings, drawStep, room } from "./setupsdraw.js";
import { searches, SetupsModel } from "./setupsmodel.js";
import { wordsOf } from "./setupswords.js";

export function mount(root, store) {
  const view = new SetupsView(root, store);
  return { show: () => view.show(), hide: () => view.hide(), print: () => view.toSheets() };
}

const stages = {
  waiting: "waiting for another search to end", candidates: "looking for cuts that clear the waste and leave the molding", cover: "choosing the fewest of them",
  order: "finding an order in which the stick bears best", "": "beginning",
};

class SetupsView {
  constructor(root, store) {
    this.root = root;
    this.store = store;
    this.model = new SetupsModel(store);
    this.at = 0;
    this.#build();
    this.board = new Board(this.boardHost, { label: "The set-up. Left and right arrow go to the one before and the next; with Shift they move the picture; plus and minus magnify it, 0 shows all.", scales: false });
    this.settings = svg("g");
    this.board.over.append(this.settings);
    this.board.onview = () => this.#over();
    this.board.onhome = () => this.home();
    this.boardHost.addEventListener("keydown", (e) => this.#boardKey(e), true);
    this.model.on("change", () => this.update());
    this.model.onfound = (doc, { kept }) => this.#found(doc, kept);
    store.on("current", (kind) => kind === "profile" && !root.hidden && this.model.look());
    store.section.on("section", () => this.#blankChoice());
  }

  #build() {
    const { model } = this;
    const choice = (id, label, key, list) => {
      const select = el("select", { id, onchange: () => model.choose({ [key]: select.value }) }, options(list));
      select.value = model.choice[key];
      return el("span", { class: "set" }, el("label", { for: id }, label), select);
    };
    this.blank = choice("setups-blank", "blank", "blank", searches.blank);
    this.blank.title = "Of what is sprung. Flat lies along the leaning back; upright takes more wood, and the leaning back is sawn off it. Flat if safe: upright where only that is safe and takes no more set-ups.";
    this.go = button("Plan the set-ups", () => model.search(), { class: "main", id: "setups-plan" });
    this.stopButton = button("Stop", () => model.stop(), { id: "setups-stop" });
    this.choices = el("div", { class: "tools setup-choices", role: "group", "aria-label": "What they are planned with" },
      choice("setups-work", "Worked", "work", [["machine", "by machine"], ["plane", "with hand planes"]]),
      choice("setups-tools", "tools", "tools", [["", "the usual tools"]]), this.blank,
      choice("setups-effort", "search", "effort", searches.effort), this.go);
    this.state = el("div", { class: "setup-state", role: "status" });
    this.list = el("ol", { class: "setup-list", "aria-label": "Set-ups, in their order", onkeydown: (e) => this.#listKey(e) });
    this.boardHost = el("div", { class: "board" });
    this.words = el("aside", { class: "rail setup-words", "aria-label": "What to set, and what to watch", tabindex: "0" });
    this.before = button("Before", () => this.step(this.at - 1), { id: "setup-before" });
    this.next = button("Next", () => this.step(this.at + 1), { id: "setup-next" });
    this.count = el("span", { class: "setup-count" });
    this.acts = tools("Set-ups", "setup-acts", [this.before, this.next, this.count], zooms(() => this.board, { home: () => this.home() }),
      button("To the sheets", () => this.toSheets(), { id: "setups-sheets", title: "The set-ups as they print, one picture each" }));
    this.desk = el("div", { class: "setup-desk" }, this.list, this.boardHost, this.words);
    this.idle = el("div", { class: "setup-idle" });
    this.none = el("div", { class: "start" }, el("h2", null, "No molding is open"), el("p", null, "Set-ups are planned for the molding that is open: which cutter, which face, which fence, in which order."),
      el("p", { class: "choices to-start" }, button("To the section", () => (location.hash = "#section"), { class: "main" })));
    this.root.append(this.choices, this.state, this.desk, this.idle, this.acts, this.none);
  }

  show() {
    for (const key of ["effort", "blank"]) this.root.querySelector(`#setups-${key}`).value = this.model.choice[key]; // chosen with the sheets, perhaps
    this.#toolSets().catch(fail);
    this.#blankChoice();
    this.model.look();
    this.update();
  }

  hide() {} // a search goes on

  async #toolSets() {
    const { entries } = await api.get("/api/library?kind=tool");
    const select = this.root.querySelector("#setups-tools");
    const { choice } = this.model;
    select.replaceChildren(el("option", { value: "" }, "the usual tools"), ...entries.filter((e) => !e.fault).map((e) => el("option", { value: e.name }, e.title || e.name)));
    select.value = choice.tools;
    if (select.value !== choice.tools) this.model.choose({ tools: "" }); // gone from the folder
  }

  // What is sprung has two blanks to choose from.
  #blankChoice() {
    this.blank.hidden = this.store.section.section?.back?.kind !== "spring";
  }

  #found(doc, kept) {
    if (doc === this.store.profile) this.at = kept ? Math.min(this.at, this.model.plan.steps.length + 1) : 0; // a new plan begins with its blank
    if (kept) return;
    const n = this.model.plan?.steps.length;
    if (this.root.hidden || doc !== this.store.profile) note(`The set-ups of ${doc.name} are planned.`);
    else say(n === 1 ? "Planned: one set-up." : `Planned: ${n} set-ups.`);
  }

  update() {
    const { model, root } = this;
    if (root.hidden) return;
    const { plan, state, doc } = model;
    const held = [this.go, this.stopButton].includes(document.activeElement) || this.state.contains(document.activeElement) || this.idle.contains(document.activeElement);
    root.classList.toggle("empty", !doc);
    root.classList.toggle("unplanned", !plan);
    root.setAttribute("aria-busy", String(state.busy));
    this.go.hidden = state.busy;
    this.go.textContent = plan ? "Plan it anew" : "Plan the set-ups";
    this.go.disabled = Boolean(plan && !model.stale && !plan.stopped);
    this.#state(state, plan);
    this.#idle(state);
    const { units } = this.store.prefs;
    const asShown = plan && plan === this.shown && units === this.units;
    this.shown = plan;
    this.units = units;
    if (plan && !asShown) {
      this.#fill(plan);
      this.step(Math.min(this.at, plan.steps.length + 1), { quiet: true });
      this.home();
    }
    // The keys go on where the work goes on.
    if (held && (document.activeElement === document.body || !document.activeElement.getClientRects().length)) (state.busy ? this.stopButton : plan ? this.next : this.go).focus();
  }

  #state(state, plan) {
    const parts = [];
    if (state.busy) {
      this.progress ??= el("progress", { "aria-label": "Planning the set-ups" });
      this.progressWords ??= el("span", { class: "progress-words" });
      this.progressWords.textContent = `${stages[state.stage] ?? state.stage}${state.done ? `: ${state.done.toLocaleString("en-US")} so far` : ""}`;
      if (this.state.firstChild === this.progress) return; // it goes on smoothly
      parts.push(this.progress, this.progressWords, this.stopButton);
    } else {
      if (plan && this.model.stale) {
        parts.push(el("p", { class: "odd" }, this.model.stale === "text" ? "The molding has changed since this was planned." : "This was planned with other choices."));
      }
      if (state.words) parts.push(el("p", { class: "mistake" }, state.words));
      for (const m of state.mistakes.slice(0, 3)) parts.push(el("p", { class: "mistake" }, m.line ? `line ${m.line}: ${m.text}` : m.text));
      if (plan && !plan.good) parts.push(el("p", { class: "mistake" }, "Do not cut from this: the plan did not pass its check."));
    }
    this.state.replaceChildren(...parts);
  }

  #idle(state) {
    if (this.model.plan || !this.model.doc) return;
    const key = `${state.busy}`;
    if (this.idle.dataset.busy === key) return;
    this.idle.dataset.busy = key;
    this.idle.replaceChildren(state.busy
      ? el("p", { class: "quiet" }, "Go on with the molding meanwhile: the search runs by itself.")
      : el("div", null, el("h2", null, "Not planned yet"), el("p", { class: "quiet" }, "As few set-ups as can be, from the smallest blank, in an order in which the stick bears on table and fence where it can; what to watch is told. It takes some seconds; you can go on meanwhile."),
        el("p", { class: "choices to-start" }, button("Plan the set-ups", () => this.model.search(), { class: "main" }))));
  }

  // fill puts the steps into the list: the blank, the set-ups, the stick as it comes off the machine.
  #fill(plan) {
    const held = this.list.contains(document.activeElement);
    const row = (i, title, words, wood) => {
      const drawing = thumb(wood, plan.box);
      drawing.append(svg("path", { class: "to-come line", transform: "scale(1 -1)", d: plan.section }));
      return el("li", null, el("button", { "data-step": i, tabindex: "-1", onclick: () => this.step(i) }, drawing, el("span", null, title, words ? el("small", null, words) : null)));
    };
    this.list.replaceChildren(
      row(0, "The blank", plan.blank, plan.wood[0]),
      ...plan.steps.map((s) => row(s.n, [el("b", null, `${s.n} `), s.tool], s.words && `finished: ${s.words}`, plan.wood[s.n])),
      row(plan.steps.length + 1, plan.by_hand ? "Off the planes" : "Off the machine", "for the scraper", plan.wood.at(-1)));
    if (held) this.buttons[this.at]?.focus();
  }

  get buttons() {
    return [...this.list.querySelectorAll("button")];
  }

  /** Shows a step: 0 is the blank, then the set-ups, then the stick as it comes off the machine. */
  step(i, { quiet = false } = {}) {
    const plan = this.shown;
    if (!plan || i < 0 || i > plan.steps.length + 1) return;
    const forward = i === this.at + 1;
    this.at = i;
    for (const [n, b] of this.buttons.entries()) {
      b.setAttribute("aria-current", n === i ? "step" : "false");
      b.tabIndex = n === i ? 0 : -1;
    }
    this.buttons[i]?.scrollIntoView({ block: "nearest" });
    this.before.disabled = i === 0;
    this.next.disabled = i === plan.steps.length + 1;
    const step = plan.steps[i - 1];
    this.count.textContent = step ? `set-up ${step.n} of ${plan.steps.length}` : i === 0 ? "before the first" : "after the last";
    if (step) drawStep(this.board.sheet, plan, step, { enter: forward && !quiet });
    else if (i === 0) drawBlank(this.board.sheet, plan);
    else drawDone(this.board.sheet, plan);
    this.words.replaceChildren(...wordsOf(plan, i));
    this.words.scrollTo(0, 0);
    if (this.board.fitted) this.home();
    else this.#over();
    if (!quiet) say(step ? `Set-up ${step.n} of ${plan.steps.length}: ${step.tool}` : i === 0 ? "The blank" : "Off the machine");
  }

  #over() {
    const step = this.shown?.steps[this.at - 1];
    if (step) drawSettings(this.settings, this.board, step);
    else redraw(this.settings, []);
  }

  home() {
    const plan = this.shown;
    if (!plan) return;
    const step = plan.steps[this.at - 1];
    if (step) this.board.fit(room(plan, step), { left: Math.max(40, widthOf(step.over, 17)) + 56, right: 36, top: 30, bottom: 70 });
    else this.board.fit(plan.box, { left: 60, right: 60, top: 60, bottom: 60 });
  }

  toSheets() {
    this.store.setPrefs({ sheets: { ...this.store.prefs.sheets, what: "setups", work: this.model.choice.work, tools: this.model.choice.tools } });
    location.hash = "#sheets";
  }

  #listKey(e) {
    const way = { ArrowDown: 1, ArrowUp: -1, ArrowRight: 1, ArrowLeft: -1, Home: -Infinity, End: Infinity }[e.key];
    if (!way || !this.shown) return;
    e.preventDefault();
    this.step(Math.max(0, Math.min(this.shown.steps.length + 1, this.at + way)));
    this.buttons[this.at]?.focus();
  }

  #boardKey(e) {
    const way = { ArrowRight: 1, ArrowLeft: -1, PageDown: 1, PageUp: -1 }[e.key];
    if (!way || e.shiftKey || e.ctrlKey || e.altKey || e.metaKey) return;
    e.preventDefault();
    e.stopPropagation();
    this.step(this.at + way);
  }
}
