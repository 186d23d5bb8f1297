// main.js: starts the page: the views along the top, the file that is shown, the keys that hold everywhere.

import { folder } from "./api.js";
import { attr, button, el, fail, put, say } from "./dom.js";
import { openFile, saveDoc, showOutside } from "./files.js";
import { keysHelp } from "./help.js";
import { beginNew } from "./start.js";
import { Store } from "./store.js";

// The views in the order of the work; one whose module is not there is left out. A module exports mount(root, store), which
// returns {show, hide, doc, steps, begin, print, beforeprint}, of which it may leave out all but show, and may await: show(from) is told which file was shown
// before, doc() is the file that the view works on where that is not always the one of its kind, and steps is there only where the view has steps of undo
// that are not the file's. root is its <section>, empty and hidden until it is shown. The file is what Save and Undo in the head act on.
const views = [
  { id: "section", title: "Section", kind: "profile", load: () => import("./section.js") },
  { id: "case", title: "Case", kind: "case", load: () => import("./case.js") },
  { id: "setups", title: "Set-ups", kind: "profile", load: () => import("./setups.js") },
  { id: "scan", title: "Scan", kind: "profile", load: () => import("./scan.js") },
  { id: "sheets", title: "Sheets", kind: "case", load: () => import("./sheets.js") },
];

const $ = (id) => document.getElementById(id);
const store = new Store();
let shown = null;

async function mountViews() {
  const loaded = await Promise.allSettled(views.map((v) => v.load()));
  for (const [i, view] of views.entries()) {
    if (loaded[i].status === "rejected") {
      console.warn(`${view.title} is not there: ${loaded[i].reason}`);
      continue;
    }
    view.root = el("section", { id: `view-${view.id}`, class: "view", "aria-label": view.title, hidden: true });
    $("views").append(view.root);
    view.button = button(view.title, () => showView(view.id), { id: `to-${view.id}` });
    $("to-views").append(view.button);
    view.acts = await loaded[i].value.mount(view.root, store);
  }
}

/** Shows a view by its id; other modules do so with location.hash = "#case". */
function showView(id) {
  const view = views.find((v) => v.id === id && v.acts) ?? views.find((v) => v.acts);
  if (!view || view === shown) return;
  const from = doc();
  if (shown) {
    shown.root.hidden = true;
    shown.button.removeAttribute("aria-current");
    shown.acts.hide?.();
  }
  shown = view;
  view.root.hidden = false;
  view.button.setAttribute("aria-current", "page");
  if (location.hash.slice(1) !== view.id) history.replaceState(null, "", "#" + view.id);
  view.acts.show?.(from);
  head();
}

const doc = () => (shown?.acts.doc ? shown.acts.doc() : shown ? store.current(shown.kind) : null);

// steps is what Undo and Redo act on: the file, unless the view has steps of its own.
function steps() {
  const own = shown?.acts.steps?.();
  if (own) return own;
  const d = doc();
  return { undo: d?.past.at(-1)?.label ?? "", redo: d?.future.at(-1)?.label ?? "", back: () => d && store.undo(d), again: () => d && store.redo(d) };
}

// head shows which file is open, and whether it is saved.
function head() {
  const d = doc();
  const may = (id, can) => {
    if ($(id).disabled === can) $(id).disabled = !can;
  };
  const { undo, redo } = steps();
  may("undo", undo !== "");
  may("redo", redo !== "");
  attr($("undo"), "title", undo ? `Undo: ${undo} (Ctrl+Z)` : "Undo (Ctrl+Z)");
  attr($("redo"), "title", redo ? `Redo: ${redo} (Ctrl+Shift+Z)` : "Redo (Ctrl+Shift+Z)");
  may("save", Boolean(d && (d.dirty || d.path === "")));
  may("save-as", Boolean(d));
  put($("file-name"), d ? d.path.replace(/\.ya?ml$/i, "") || d.name : "");
  attr($("file-name"), "title", d?.path ?? "");
  put($("file-state"), !d ? "" : d.path === "" ? "not saved yet" : d.dirty ? "changed" : "saved");
  $("file").classList.toggle("changed", Boolean(d?.dirty));
  const title = d ? `${d.dirty ? "• " : ""}${d.name} · listel` : "listel";
  if (document.title !== title) document.title = title;
  showOutside(store, $("outside"), d);
}

function keys(e) {
  const command = e.ctrlKey || e.metaKey;
  if (!command || document.querySelector("dialog[open]")) return;
  const key = e.key.toLowerCase();
  const typing = e.target.matches?.("input, textarea") && e.target.value !== e.target.defaultValue;
  if (key === "s") act(e, () => doc() && save(e.shiftKey));
  else if (key === "o") act(e, () => open());
  else if (key === "p" && shown?.acts.print) act(e, print);
  else if (key === "z" && !e.shiftKey && !typing) act(e, () => steps().back());
  else if ((key === "y" || (key === "z" && e.shiftKey)) && !typing) act(e, () => steps().again());
}

// hint says at the foot of the page what the field with the focus is about.
function hint() {
  const at = document.activeElement;
  put($("hint"), at?.closest?.("[data-help]")?.dataset.help ?? (at?.matches?.("input, select, textarea") ? at.title : ""));
}

function act(e, fn) {
  e.preventDefault();
  fn();
}

const save = (as) => {
  document.activeElement?.blur?.(); // a number that is being typed counts
  return store.section.tail.catch(() => {}).then(() => saveDoc(store, doc(), { as })).catch(fail);
};
// A view that has to make its sheets ready prints by itself.
const print = () => Promise.resolve(shown?.acts.print ? shown.acts.print() : window.print()).catch(fail);
// A view may have a way of its own to begin a file.
const fresh = () => (shown?.acts.begin ? Promise.resolve(shown.acts.begin()) : begun(shown?.kind ?? "profile")).catch(fail);

// What was begun is shown where it is composed.
async function begun(kind) {
  const before = store.current(kind);
  await beginNew(store, kind);
  if (store.current(kind) !== before) showView(kind === "case" ? "case" : "section");
}

const open = () => openFile(store, shown?.kind ?? "profile").catch(fail);

function listen() {
  $("undo").addEventListener("click", () => steps().back());
  $("redo").addEventListener("click", () => steps().again());
  $("save").addEventListener("click", () => save(false));
  $("save-as").addEventListener("click", () => save(true));
  $("open").addEventListener("click", open);
  $("new").addEventListener("click", fresh);
  $("print").addEventListener("click", print);
  $("keys").addEventListener("click", keysHelp);
  document.addEventListener("keydown", keys);
  for (const type of ["focusin", "change"]) document.addEventListener(type, hint);
  document.addEventListener("focusout", () => put($("hint"), ""));
  window.addEventListener("hashchange", () => showView(location.hash.slice(1)));
  for (const type of ["current", "text", "saved", "outside", "steps"]) store.on(type, head);
  store.on("setups", (words) => {
    attr($("to-setups"), "title", words);
    attr($("to-setups"), "data-sign", words.split(" ").slice(0, 2).join(" "));
  });
  store.on("connection", (up) => {
    $("away").hidden = up;
    if (!up) say("listel is not running.");
  });
  window.addEventListener("afterprint", () => document.getElementById("print-sheet")?.remove());
  window.addEventListener("beforeprint", () => shown?.acts.beforeprint?.());
  guardLeaving();
}

// A reload keeps what is open; leaving does not, so it asks. Nothing tells the two apart but the keys.
function guardLeaving() {
  let reloading = 0;
  document.addEventListener("keydown", (e) => {
    if (e.key === "F5" || ((e.ctrlKey || e.metaKey) && e.key.toLowerCase() === "r")) reloading = Date.now();
  }, true);
  window.addEventListener("beforeunload", (e) => {
    store.keepNow();
    if (store.docs.some((d) => d.dirty) && Date.now() - reloading > 3000) e.preventDefault();
  });
  window.addEventListener("pagehide", () => store.keepNow());
}

async function start() {
  $("folder").textContent = folder;
  listen();
  await store.list().catch(fail);
  await mountViews();
  store.restore();
  showView(location.hash.slice(1) || "section");
  store.follow();
  document.documentElement.dataset.ready = "yes";
}

start();
