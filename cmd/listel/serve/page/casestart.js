// casestart.js: the cases that one begins from.
//
//   starts                        [{id, name, title, words}] in the order to show them
//   await textOf(store, start)    the text of one, in the maker's units
//   await beginCase(store, start) opens a copy of one that is not saved yet
//   await newCase(store)          a dialog with all of them
//   await caseFront(name, text)   a small picture of a case from the front, null where it cannot be drawn

import * as api from "./api.js";
import { frontPicture } from "./casedraw.js";
import { ask, el } from "./dom.js";
import { walk } from "./picker.js";

export const starts = [
  { id: "plain", name: "my-case", title: "A plain case", words: "One box with a base and a cornice. Give it your sizes and your moldings." },
  { id: "press", name: "herb-press", title: "A press", words: "A low press in two stages: base, waist, cornice, drawers with beads. Change its sizes to yours." },
  { id: "cabinet", name: "seed-cabinet", title: "A breakfront", words: "A cabinet with canted corners, its middle standing forward under a broken pediment." },
];

// plainCase is the text of one box with a base and a cornice whose top is level with its own.
const plainCase = (units, width, depth, height, cornice, kerf) => `kind: case
name: my-case
title: My case
units: ${units}

stages:
  - {name: body, plan: {width: ${width}, depth: ${depth}}, height: ${height}}

wood: black cherry
side: {build: solid, cut: flat}

moldings:
  - name: base
    on: body
    profile: press-base
    at: 0
    ends: wall

  - name: cornice
    on: body
    profile: press-cornice
    at: ${cornice}
    ends: wall

shop: {kerf: ${kerf}}
`;

const plain = { in: plainCase("in", 36, 16, 48, "45 1/2", "1/8"), mm: plainCase("mm", 900, 400, 1200, 1136.5, 3) };

export async function textOf(store, { id, name }) {
  return id === "plain" ? plain[store.prefs.units || "in"] : (await api.entry("example", name)).text;
}

export async function beginCase(store, start) {
  const text = await textOf(store, start);
  const { name } = start;
  const own = store.free(name);
  store.start("case", own === name ? text : text.replace(`name: ${name}`, `name: ${own}`), { name: own, origin: { label: "as begun", text } });
}

export async function caseFront(name, text) {
  const answer = await api.post("/api/case", { name, text });
  return answer.ok ? frontPicture(answer) : null;
}

export async function newCase(store) {
  const start = await ask({
    title: "A new case",
    className: "picker",
    body: [el("p", { class: "quiet" }, "Begin with one of these and change its sizes to yours."), el("ul", { class: "kinds cases" })],
    ready: (form, leave) => {
      const list = form.querySelector("ul");
      for (const s of starts) {
        const place = el("span", { class: "drawings" });
        list.append(el("li", null, el("button", { "data-name": s.name, onclick: () => leave(s) }, place, el("b", null, s.title), el("span", null, s.words))));
        textOf(store, s).then((text) => caseFront(s.name, text)).then((picture) => picture && place.append(picture), () => {}); // the words stand without it
      }
      list.addEventListener("keydown", (e) => walk(e, list));
      list.querySelector("button")?.focus();
    },
  });
  if (start) await beginCase(store, start);
}
