// picker.js: which member? Each is drawn by the server as it would stand in a small molding.
//
//   await pickKind(store, title)   the kind that was chosen, null when none was

import * as api from "./api.js";
import { ask, el } from "./dom.js";
import { thumb } from "./files.js";

let kinds = null;

export async function pickKind(store, title) {
  kinds ??= api.get("/api/kinds");
  let list;
  try {
    list = await kinds;
  } catch (e) {
    kinds = null;
    throw e;
  }
  return ask({
    title,
    className: "picker",
    body: el("ul", { class: "kinds" }),
    ready: (form, leave) => {
      const ul = form.querySelector("ul");
      ul.append(...list.map((k) => el("li", null, el("button", { "data-kind": k.kind, onclick: () => leave(k.kind) },
        thumb(k.thumb, k.box), el("b", null, k.title), el("span", null, k.draws)))));
      ul.addEventListener("keydown", (e) => walk(e, ul));
      ul.querySelector("button")?.focus();
    },
  });
}

/** Arrow keys in a grid of buttons. */
export function walk(e, ul) {
  const all = [...ul.querySelectorAll("button")];
  const at = all.indexOf(document.activeElement);
  if (at < 0) return;
  const top = all[at].getBoundingClientRect();
  const across = all.filter((b) => Math.abs(b.getBoundingClientRect().top - top.top) < 4).length;
  const to = { ArrowLeft: at - 1, ArrowRight: at + 1, ArrowUp: at - across, ArrowDown: at + across, Home: 0, End: all.length - 1 }[e.key];
  if (to === undefined || !all[to]) return;
  e.preventDefault();
  all[to].focus();
}
