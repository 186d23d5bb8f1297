// files.js: opening and saving, and what to do when the disk and the page disagree.
//
//   await openFile(store, kind)          a dialog with what is not saved yet and the files of the folder; opens one
//   await saveDoc(store, doc, {as})      saves; asks for a name the first time or with as
//   showOutside(store, place, doc)       fills place with the choice that doc.outside asks for, or empties it

import * as api from "./api.js";
import { ask, button, el, svg } from "./dom.js";
import { stem } from "./store.js";

const titleOf = (text) => text.match(/^title:[ \t]*(["']?)(.*?)\1[ \t]*(?:#.*)?$/m)?.[2] ?? "";

export async function openFile(store, kind) {
  await store.list();
  const files = store.files.filter((f) => f.kind === kind);
  const unsaved = store.docs.filter((d) => d.kind === kind && d.path === "");
  const words = kind === "case" ? "case" : "molding";
  const answer = await ask({
    title: `Open a ${words}`,
    className: "pick",
    body: [
      unsaved.length ? [el("h3", null, "Not saved yet"), el("ul", { class: "unsaved" })] : null,
      unsaved.length ? el("h3", null, `In ${api.folder}`) : el("p", { class: "quiet" }, files.length ? `In ${api.folder}` : `There is no ${words} in ${api.folder} yet.`),
      el("ul", { class: "files" }),
    ],
    ready: (form, leave) => {
      form.querySelector(".unsaved")?.append(...unsaved.map((doc) => el("li", null,
        el("button", { onclick: () => leave({ doc }) }, el("b", null, titleOf(doc.text) || doc.name), el("span", null, doc.name)),
        button("Throw away", () => leave({ drop: doc }), { "aria-label": `Throw ${doc.name} away` }))));
      form.querySelector(".files").append(...files.map((f) => el("li", null, el("button", { onclick: () => leave({ path: f.path }) },
        el("b", null, f.title || f.name || stem(f.path)),
        store.docs.some((d) => d.path === f.path && d.dirty) ? el("i", null, "changed") : null, el("span", null, f.path)))));
      form.querySelector("li button")?.focus();
    },
  });
  if (answer?.path) await store.open(answer.path);
  if (answer?.doc) store.show(answer.doc);
  if (answer?.drop) await throwAway(store, kind, answer.drop);
}

async function throwAway(store, kind, doc) {
  const sure = await ask({
    title: `Throw ${doc.name} away?`,
    body: el("p", null, "It was never saved: it cannot be brought back."),
    choices: [{ label: "Throw it away", value: true }, { label: "Keep it", main: true, value: false }],
  });
  if (sure) store.close(doc);
  await openFile(store, kind);
}

/** Says on a button that opens a file how many there are of a kind; without any it cannot be pressed. */
export function countFiles(store, kind, button) {
  const n = store.files.filter((f) => f.kind === kind).length;
  button.lastChild.textContent = n === 0 ? `There is none yet in ${api.folder}.` : n === 1 ? `There is one in ${api.folder}.` : `There are ${n} in ${api.folder}.`;
  button.disabled = n === 0;
}

export async function saveDoc(store, doc, { as = false } = {}) {
  if (!as && doc.path) return store.save(doc);
  let words = "";
  const title = titleOf(doc.text);
  const titled = /^my-(molding|case)(-\d+)?$/.test(doc.name) && title && !/^My /.test(title); // it is named by what its maker calls it
  let asked = { name: doc.path ? stem(doc.path) : titled ? tidy(title).toLowerCase() : doc.name, title };
  const folder = doc.path.includes("/") ? doc.path.replace(/[^/]*$/, "") : "";
  for (;;) {
    asked = await askName(doc, folder, asked, words);
    if (asked === null) return false;
    const path = folder + asked.name + ".yaml";
    if (path !== doc.path && store.files.some((f) => f.path === path)) {
      words = `There is a file ${path} already.`;
      continue;
    }
    try {
      await rename(store, doc, asked);
      return Boolean(await store.save(doc, path));
    } catch (e) {
      words = e.status === 409 ? `There is a file ${path} already.` : e.message;
    }
  }
}

function askName(doc, folder, { name, title }, words) {
  const said = () => {
    const to = tidy(input.value);
    return to === input.value.trim().replace(/\.ya?ml$/i, "") ? `It is kept in ${api.folder}.` : `A name takes letters, digits and hyphens: it will be ${to}.`;
  };
  const input = el("input", { id: "save-name", value: name, required: true, "aria-describedby": "save-words",
    oninput: () => {
      line.textContent = said();
      line.className = "quiet";
    } });
  const called = el("input", { id: "save-title", value: title });
  const line = el("p", { id: "save-words", class: words ? "mistake" : "quiet", role: "status" }, words || `It is kept in ${api.folder}.`);
  return ask({
    title: doc.path ? "Save under another name" : "Save",
    body: [
      el("label", { for: "save-name" }, "Name of the file"),
      el("p", { class: "with-unit" }, folder ? el("span", null, folder) : null, input, el("span", null, ".yaml")), line,
      el("label", { for: "save-title" }, "Title, as the sheets show it"), called,
    ],
    choices: [{ label: "Close", value: null }, { label: "Save", main: true, value: () => ({ name: tidy(input.value), title: called.value.trim() }) }],
    ready: () => input.select(),
  });
}

// tidy makes of what was typed a name that files and cases can use.
const tidy = (typed) => typed.trim().replace(/\.ya?ml$/i, "").normalize("NFKD").replace(/[\u0300-\u036f]/g, "").replace(/[^A-Za-z0-9_-]+/g, "-").replace(/^-+|-+$/g, "") || "molding";

// rename writes the new name, by which other files find it, and the title into the text.
async function rename(store, doc, { name, title }) {
  const wanted = [["name", name, doc.text.match(/^name:[ \t]*(\S+)/m)?.[1]], ["title", title, titleOf(doc.text)]].filter(([, value, was]) => value && value !== was);
  for (const [path, value] of wanted) {
    try {
      const { text } = doc.kind === "profile"
        ? await api.post("/api/edit", { name: doc.name, text: doc.text, change: { op: "set", path, value, words: true } })
        : await api.post("/api/case", { name: doc.name, text: doc.text, change: { path, value } });
      if (text) store.edit(doc, text, { label: `naming it ${value}` });
    } catch {
      // A text that does not read is saved as it is.
    }
  }
}

export function showOutside(store, place, doc) {
  if (!doc?.outside) {
    place.replaceChildren();
    place.dataset.version = "";
    return;
  }
  if (place.dataset.version === doc.path + doc.outside.hash) return;
  place.dataset.version = doc.path + doc.outside.hash;
  place.replaceChildren(
    el("p", null, el("b", null, doc.path), " was changed by another program, and you have changes that are not saved."),
    el("p", { class: "choices" },
      button("Keep mine", () => store.keepMine(doc)),
      button("Take theirs", () => store.takeTheirs(doc)),
      button("Look at both", () => lookAtBoth(store, doc), { class: "main" })),
  );
}

async function lookAtBoth(store, doc) {
  const { text } = doc.outside;
  const drawn = doc.kind === "profile"
    ? await Promise.all([doc.text, text].map((t) => api.post("/api/section", { name: doc.name, text: t }).catch(() => null)))
    : [null, null];
  const lines = compared(doc.text.split("\n"), text.split("\n"));
  const side = (title, section, which) => el("section", { class: "side" },
    el("h3", null, title), picture(section),
    el("pre", { tabindex: "0", "aria-label": `${title}, the text` },
      lines.filter((l) => l[which] !== null).map((l) => el("span", { class: l.same ? "" : "differs" }, l[which] + "\n"))));
  const choice = await ask({
    title: `Two versions of ${doc.path}`,
    className: "both",
    body: el("div", { class: "sides" }, side("Mine, not saved", drawn[0], "a"), side("Theirs, on the disk", drawn[1], "b")),
    choices: [{ label: "Decide later", value: null }, { label: "Keep mine", value: "mine" }, { label: "Take theirs", value: "theirs" }],
  });
  if (choice === "mine") store.keepMine(doc);
  if (choice === "theirs") store.takeTheirs(doc);
}

/** A small drawing of a section, or a word where it cannot be built. */
export function picture(section) {
  if (!section?.ok) return el("p", { class: "quiet" }, section ? "It cannot be built as it stands." : "");
  return thumb(section.outline, [0, 0, section.projection_mm, section.height_mm]);
}

/** An SVG of one outline, y up, within its box [x, y, w, h]. */
export function thumb(d, [x, y, w, h]) {
  const m = Math.max(w, h) * 0.06;
  return svg("svg", { class: "thumb", viewBox: `${x - m} ${-y - h - m} ${w + 2 * m} ${h + 2 * m}`, "aria-hidden": "true" },
    svg("path", { class: "wood line", transform: "scale(1 -1)", d }));
}

// compared lines up two texts: [{a, b, same}], null where a line has no like.
function compared(a, b) {
  const most = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      most[i][j] = a[i] === b[j] ? most[i + 1][j + 1] + 1 : Math.max(most[i + 1][j], most[i][j + 1]);
    }
  }
  const out = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) out.push({ a: a[i++], b: b[j++], same: true });
    else if (j >= b.length || (i < a.length && most[i + 1][j] >= most[i][j + 1])) out.push({ a: a[i++], b: null });
    else out.push({ a: null, b: b[j++] });
  }
  return out;
}
