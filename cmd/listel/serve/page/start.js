// start.js: what stands on the board before there is a molding: three ways to begin.
//
//   const start = startPanel(store)     start.node; start.update() after the folder changed
//   way(id, title, words, act)          the button of one way, with room for what it begins with
//   await pickProfile(title, {first, open, family})   a dialog with the profiles that there are; the name of the one chosen
//   await beginNew(store, kind)         a dialog with an empty sheet and the library, or with the cases to begin from

import * as api from "./api.js";
import { newCase } from "./casestart.js";
import { ask, button, el } from "./dom.js";
import { countFiles, openFile, thumb } from "./files.js";
import { walk } from "./picker.js";

const fresh = {
  in: `kind: profile
name: my-molding
title: My molding
units: in
ground: 1/2 # how far the face stands from the back at the foot
elements: # from the foot upward
  - fillet: {height: 1/4}
`,
  mm: `kind: profile
name: my-molding
title: My molding
units: mm
ground: 12 # how far the face stands from the back at the foot
elements: # from the foot upward
  - fillet: {height: 6}
`,
};

function beginEmpty(store) {
  const units = store.prefs.units || "in";
  const name = store.free("my-molding");
  store.start("profile", fresh[units].replace("my-molding", name), { name });
  store.section.select(0);
  store.section.focusNext = true;
}

/** Lets the reader choose a profile by looking: of the folder or the library, or one that is open and was never saved, those of a family first; resolves to its name, null when left. */
export async function pickProfile(title, { first = null, open = [], family = "" } = {}) {
  const { entries } = await api.get("/api/library?kind=profile");
  entries.unshift(...open.filter((d) => d.kind === "profile" && !d.path).map(({ name }) => ({ name, family: "not saved yet" })));
  entries.sort((a, b) => (b.family === family) - (a.family === family));
  const search = el("input", { id: "library-search", type: "search", placeholder: "cornice, ovolo, 1760 ..." });
  const list = el("ul", { class: "kinds library" });
  const none = el("p", { class: "quiet", hidden: true }, "Nothing of that name.");
  const cards = entries.map((e) => ({ e, words: [e.name, e.title, e.source, e.family].join(" ").toLowerCase() }));
  return ask({
    title,
    className: "picker",
    body: [el("p", { class: "search" }, el("label", { for: "library-search" }, "Look for"), search), none, list],
    ready: (form, leave) => {
      for (const c of cards) {
        c.node = el("li", null, el("button", { "data-name": c.e.name, title: c.e.source, onclick: () => leave(c.e.name) },
          c.e.thumb ? thumb(c.e.thumb, [0, 0, c.e.projection_mm, c.e.height_mm]) : null, el("b", null, c.e.title || c.e.name), el("span", null, c.e.family), c.e.source ? el("span", { class: "source" }, c.e.source) : null));
      }
      if (first) {
        list.append(el("li", null, el("button", { class: "first", "data-first": true, onclick: () => leave(true) }, first.picture ?? null, el("b", null, first.title), el("span", null, first.words))));
      }
      list.append(...cards.map((c) => c.node));
      list.addEventListener("keydown", (e) => walk(e, list));
      search.addEventListener("input", () => {
        const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
        for (const c of cards) c.node.hidden = !words.every((w) => c.words.includes(w));
        none.hidden = cards.some((c) => !c.node.hidden);
      });
      search.addEventListener("keydown", (e) => {
        if (e.key !== "Enter") return;
        e.preventDefault();
        list.querySelector("li:not([hidden]) button")?.focus();
      });
      search.focus();
    },
  });
}

async function takeFromLibrary(store) {
  await copyOf(store, await pickProfile("Take a molding from the library"));
}

async function copyOf(store, name) {
  if (!name) return;
  const { text } = await api.entry("profile", name);
  store.section.focusNext = true;
  store.start("profile", text, { name, origin: { label: "in the library", text } });
}

export async function beginNew(store, kind) {
  if (kind === "case") {
    await newCase(store);
    return;
  }
  const s = await api.post("/api/section", { name: "my-molding", text: fresh[store.prefs.units || "in"] });
  const name = await pickProfile("A new molding", {
    first: { title: "Begin with a fillet", words: "One plumb flat on an empty sheet. Add member on member above it.", picture: s.ok ? thumb(s.outline, [0, 0, s.projection_mm, s.height_mm]) : null },
  });
  if (name === true) beginEmpty(store);
  else await copyOf(store, name);
}

export const way = (id, title, words, act) =>
  button([el("span", { class: "drawings" }), el("b", null, title), el("span", { class: "words" }, words)], act, { class: "way", id });

export function startPanel(store) {
  const openWay = way("start-open", "Open a file", "", () => openFile(store, "profile"));
  const node = el("div", { class: "start" },
    el("h2", null, "A molding to begin with"),
    el("div", { class: "ways" },
      way("start-empty", "Begin with a fillet", "One plumb flat on an empty sheet. Add member on member above it.", () => beginEmpty(store)),
      openWay,
      way("start-library", "Take one from the library", "Cornices, bases, waists, edges, with where they were published.", () => takeFromLibrary(store))));
  const update = () => countFiles(store, "profile", openWay);
  const draw = () => drawStarts(store, node).catch(() => {}); // the words do without
  return { node, update, draw };
}

// drawStarts draws what each way begins with: the fillet, files of the folder, moldings of the library.
async function drawStarts(store, node) {
  const put = (id, ...drawings) => node.querySelector(`#${id} .drawings`).replaceChildren(...drawings);
  const section = async (name, text) => {
    const s = await api.post("/api/section", { name, text });
    return s.ok ? [thumb(s.outline, [0, 0, s.projection_mm, s.height_mm])] : [];
  };
  put("start-empty", ...await section("my-molding", fresh[store.prefs.units || "in"]));
  const { entries } = await api.get("/api/library?kind=profile");
  const one = (family) => entries.find((e) => e.family === family && e.thumb);
  put("start-library", ...["cornice", "base", "waist"].map(one).filter(Boolean).map((e) => thumb(e.thumb, [0, 0, e.projection_mm, e.height_mm])));
  const mine = store.files.filter((f) => f.kind === "profile").slice(0, 3);
  const drawn = await Promise.all(mine.map(async (f) => section(f.name, (await api.file(f.path)).text)));
  put("start-open", ...drawn.flat());
}
