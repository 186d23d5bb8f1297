// dom.js: elements, words for screen readers, and dialogs.
//
//   el("p", {class: "quiet", title: "..."}, "words", child)                          an HTML element; a button submits nothing, a text field
//                                                                                    is not filled in or corrected by the browser
//   button("Save", act, {id: "save"})                                                a button with words; what act promises and breaks is noted
//   tools("Board", "name", [a, b], c)                                                a toolbar: its sets stand apart
//   options([["in", "inches"], ...])                                                 what a select offers
//   svg("path", {d: "..."})                                                          an SVG element
//   put(node, "words")       its text, written only when it differs
//   tell(node, "words")      the same, and hides it while there are none
//   attr(node, name, value)  the same of an attribute
//   shape("path", {d: "..."})                                                        the same, not made yet: made(shape) makes it
//   redraw(node, shapes)     draws shapes into it; what did not change stays, so that only what changed is laid out and painted anew
//   say("words")            tells a change in the live region
//   note("words", {bad})    the same, and shows it for a while in the line at the foot of the page
//   unsay()                takes that away, when it no longer holds
//   fail(error)             notes what went wrong: for catch
//   ask({title, body, choices: [{label, value, main}], className})   a dialog; resolves to the value of the choice, null when left or closed
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

const typed = { autocomplete: "off", spellcheck: "false" };
const usual = { button: { type: "button" }, input: typed, textarea: typed };
export const el = (tag, attributes, ...children) => fill(document.createElement(tag), { ...usual[tag], ...attributes }, children);
export const button = (words, act, more) => el("button", { onclick: () => act()?.catch?.(fail), ...more }, words);
export const tools = (label, name, ...sets) =>
  el("div", { class: `tools ${name}`, role: "toolbar", "aria-label": label }, sets.map((s) => el("span", { class: "set" }, s)));
export const options = (list) => list.map(([value, words]) => el("option", { value }, words));
export const svg = (tag, attributes, ...children) => fill(document.createElementNS(svgSpace, tag), attributes, children);

/** Puts a text into a node unless it is there already: what does not change need not be laid out anew. */
export function put(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

/** Puts words into a node that is hidden while it has none. */
export function tell(node, words) {
  put(node, words);
  node.hidden = words === "";
}

export function attr(node, name, value) {
  if (node.getAttribute(name) !== String(value)) node.setAttribute(name, value);
}

/** A shape: what an element of a drawing is to be, before there is one. Its children are shapes and words. */
export const shape = (tag, attributes, ...children) => ({ tag, attributes: attributes ?? {}, children: children.flat(3).filter((c) => c !== null && c !== undefined && c !== false) });

/** The element that a shape is of. */
export const made = ({ tag, attributes, children }) => svg(tag, attributes, children.map((c) => (c.tag ? made(c) : c)));

const drawn = new WeakMap(); // the shapes that redraw last gave a node

/** Draws shapes into a node that nothing else draws into: what is as it was drawn last is left alone. */
export function redraw(node, shapes) {
  alter(node, drawn.get(node) ?? [], shapes);
  drawn.set(node, shapes);
}

function alter(node, before, now) {
  for (const [i, like] of now.entries()) {
    const was = before[i];
    if (was === undefined) node.append(like.tag ? made(like) : like);
    else if (was.tag !== like.tag) node.childNodes[i].replaceWith(like.tag ? made(like) : like);
    else if (like.tag) liken(node.childNodes[i], was, like);
    else if (was !== like) node.childNodes[i].data = like;
  }
  for (let i = before.length; i > now.length; i--) node.lastChild.remove();
}

function liken(node, was, like) {
  for (const name of new Set([...Object.keys(was.attributes), ...Object.keys(like.attributes)])) {
    const value = like.attributes[name] ?? null;
    if (value === (was.attributes[name] ?? null)) continue;
    if (value === null) node.removeAttribute(name);
    else node.setAttribute(name, value);
  }
  alter(node, was.children, like.children);
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

export function ask({ title, body = [], choices = [{ label: "Close", value: null }], className = "", ready }) {
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
    }, el("h2", { id }, title), body, el("p", { class: "choices" }, buttons));
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
