// dom.js: elements, words for screen readers, and dialogs.
//
//   el("button", {class: "quiet", onclick: f, "aria-label": "..."}, "Save", child)   an HTML element
//   svg("path", {d: "..."})                                                          an SVG element
//   put(node, "words")       its text, written only when it differs
//   attr(node, name, value)  the same of an attribute
//   redraw(node, children)  its children made like those; nodes that are alike stay, so that only what changed is laid out and painted anew
//   say("words")            tells a change in the live region
//   note("words", {bad})    the same, and shows it for a while in the line at the foot of the page
//   unsay()                takes that away, when it no longer holds
//   fail(error)             notes what went wrong: for catch
//   ask({title, body, choices: [{label, value, main}], className})   a dialog; resolves to the value of the choice, null when left
//
// Attributes that are null or false are left out; on... are listeners. The page sets no style attribute: its security
// policy takes none. What has to move is set through element.style, which is allowed, or by SVG attributes.

const svgSpace = "http://www.w3.org/2000/svg";

function fill(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on") && typeof value === "function") node.addEventListener(name.slice(2), value);
    else if (name === "value" || name === "checked" || name === "disabled") node[name] = value;
    else node.setAttribute(name, value === true ? "" : value);
  }
  node.append(...children.flat(3).filter((c) => c !== null && c !== undefined && c !== false));
  return node;
}

export const el = (tag, attributes, ...children) => fill(document.createElement(tag), attributes, children);
export const svg = (tag, attributes, ...children) => fill(document.createElementNS(svgSpace, tag), attributes, children);

/** Puts a text into a node unless it is there already: what does not change need not be laid out anew. */
export function put(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

export function attr(node, name, value) {
  if (node.getAttribute(name) !== String(value)) node.setAttribute(name, value);
}

/** Makes the children of a node like others, of which some are taken over. Listeners do not go along: what has them is put, not redrawn. */
export function redraw(node, children) {
  const old = [...node.childNodes];
  for (const [i, child] of children.entries()) {
    if (!old[i]) node.append(child);
    else if (old[i].nodeName !== child.nodeName) old[i].replaceWith(child);
    else liken(old[i], child);
  }
  for (const left of old.slice(children.length)) left.remove();
}

function liken(node, like) {
  if (node.nodeType === Node.TEXT_NODE) {
    if (node.data !== like.data) node.data = like.data;
    return;
  }
  for (const { name, value } of like.attributes) attr(node, name, value);
  if (node.attributes.length > like.attributes.length) {
    for (const { name } of [...node.attributes]) if (!like.hasAttribute(name)) node.removeAttribute(name);
  }
  if (node.firstChild || like.firstChild) redraw(node, [...like.childNodes]);
}

let live;

export function say(words) {
  live ??= document.getElementById("live");
  live.textContent = live.textContent === words ? words + "\u00a0" : words;
}

let shown;

export function note(words, { bad = false } = {}) {
  say(words);
  const place = document.getElementById("notes");
  shown?.remove();
  const slip = el("p", { class: bad ? "slip bad" : "slip" }, words);
  shown = slip;
  place.append(slip);
  setTimeout(() => slip.remove(), bad ? 9000 : 4000);
}

/** Takes away what was noted last, when it is so no longer. */
export const unsay = () => shown?.remove();

export const fail = (e) => note(e.message, { bad: true });

let dialogs = 0;

export function ask({ title, body = [], choices = [], className = "", ready }) {
  return new Promise((resolve) => {
    let value = null;
    const id = `dialog-${++dialogs}`;
    const leave = (v) => {
      value = v;
      box.close();
    };
    const buttons = choices.map((c) =>
      el("button", { type: c.main ? "submit" : "button", class: c.main ? "main" : "", onclick: c.main ? null : () => leave(c.value) }, c.label));
    const form = el("form", {
      method: "dialog",
      onsubmit: (e) => {
        e.preventDefault();
        const main = choices.find((c) => c.main);
        if (main) leave(typeof main.value === "function" ? main.value() : main.value);
      },
    }, el("h2", { id }, title), body, choices.length ? el("p", { class: "choices" }, buttons) : null);
    const box = el("dialog", { class: className, "aria-labelledby": id }, form);
    box.addEventListener("close", () => {
      box.remove();
      resolve(value);
    });
    box.addEventListener("click", (e) => {
      // What was typed is not lost by a touch beside the dialog.
      if (e.target === box && ![...form.querySelectorAll("input, textarea")].some((n) => n.value !== n.defaultValue)) leave(null);
    });
    document.body.append(box);
    box.showModal();
    ready?.(form, leave);
  });
}
