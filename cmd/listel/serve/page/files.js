// files.js: opening and saving, and what to do when the disk and the page disagree.
//
//   await openFile(store, kind)          a dialog with the files of the folder; opens one
//   await saveDoc(store, doc, {as})      saves; asks for a name the first time or with as
//   showOutside(store, place, doc)       fills place with the choice that doc.outside asks for, or empties it

import * as api from "./api.js";
import { ask, el, note, svg } from "./dom.js";
import { stem } from "./store.js";

export async function openFile(store, kind) {
  await store.list();
  const files = store.files.filter((f) => f.kind === kind);
  const words = kind === "case" ? "case" : "molding";
  const path = await ask({
    title: `Open a ${words}`,
    className: "pick",
    body: [
      el("p", { class: "quiet" }, files.length ? `In ${api.folder}` : `There is no ${words} in ${api.folder} yet.`),
      el("ul", { class: "files" }),
    ],
    choices: [{ label: files.length ? "Leave" : "Close", value: null }],
    ready: (form, leave) => {
      const list = form.querySelector("ul");
      list.append(...files.map((f) => el("li", null, el("button", { type: "button", onclick: () => leave(f.path) },
        el("b", null, f.title || f.name || stem(f.path)), el("span", null, f.path)))));
      list.querySelector("button")?.focus();
    },
  });
  if (path) await store.open(path);
}

export async function saveDoc(store, doc, { as = false } = {}) {
  if (!as && doc.path) return store.save(doc);
  let words = "";
  let name = doc.path ? doc.path.replace(/\.ya?ml$/i, "") : doc.name;
  for (;;) {
    name = await askName(doc, name, words);
    if (name === null) return false;
    const path = name + ".yaml";
    try {
      await rename(store, doc, stem(path));
      if (await store.save(doc, path)) return true;
      return false;
    } catch (e) {
      words = e.status === 409 ? `There is a file ${path} already.` : e.message;
    }
  }
}

function askName(doc, name, words) {
  const input = el("input", { id: "save-name", value: name, autocomplete: "off", spellcheck: "false", required: true, "aria-describedby": "save-words" });
  return ask({
    title: doc.path ? "Save under another name" : "Save",
    body: [
      el("label", { for: "save-name" }, "Name of the file"),
      el("p", { class: "with-unit" }, input, el("span", null, ".yaml")),
      el("p", { id: "save-words", class: words ? "mistake" : "quiet", role: words ? "alert" : null }, words || `It is kept in ${api.folder}.`),
    ],
    choices: [{ label: "Leave", value: null }, { label: "Save", main: true, value: () => tidy(input.value) }],
    ready: () => input.select(),
  });
}

const tidy = (typed) => typed.trim().replace(/\.ya?ml$/i, "").replace(/\s+/g, "-") || "molding";

// rename writes the new name into a profile, by which cases will find it.
async function rename(store, doc, name) {
  if (doc.kind !== "profile" || doc !== store.profile || store.section.section?.name === name) return;
  try {
    await store.section.edit({ op: "set", path: "name", value: name }, { label: `naming it ${name}` });
  } catch {
    // A text that does not read is saved as it is.
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
      el("button", { type: "button", onclick: () => store.keepMine(doc) }, "Keep mine"),
      el("button", { type: "button", onclick: () => store.takeTheirs(doc) }, "Take theirs"),
      el("button", { type: "button", class: "main", onclick: () => lookAtBoth(store, doc).catch((e) => note(e.message, { bad: true })) }, "Look at both")),
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
