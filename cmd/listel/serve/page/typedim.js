// typedim.js: a dimension on the drawing is typed where it stands.
//
//   typeDim(model, host, group)   puts a field over a <g class="dim">; Enter sets the size, Escape or leaving it changes nothing

import { el, fail } from "./dom.js";

const keys = { height: "height", projection: "projection", set: "set", ground: "ground" };
const names = { height: "Height", projection: "Run", set: "Set", ground: "Ground" };

/** The path of the size that a dimension shows, "" for none. */
function pathOf(group) {
  const key = keys[group.dataset.of];
  const index = Number(group.dataset.index);
  return !key ? "" : index < 0 ? key : `elements[${index}].${key}`;
}

export function typeDim(model, host, group) {
  const path = pathOf(group);
  const text = group.querySelector("text");
  if (!path || !text) return;
  const whole = Number(group.dataset.index) < 0;
  const size = whole ? model.section.head?.find((h) => h.path === path) : model.section.members?.[Number(group.dataset.index)]?.sizes?.find((s) => s.path === path);
  const input = el("input", { class: "typed-dim", "aria-label": whole && group.dataset.of === "projection" ? "Projection" : names[group.dataset.of] });
  input.value = size?.text && size.text !== "rest" ? size.text : size?.shown ?? "";
  const [r, h] = [text.getBoundingClientRect(), host.getBoundingClientRect()];
  host.append(input);
  input.style.left = `${Math.max(4, Math.min(h.width - 110, r.left - h.left + r.width / 2 - 52))}px`;
  input.style.top = `${Math.max(4, Math.min(h.height - 48, r.top - h.top + r.height / 2 - 20))}px`;
  const close = () => {
    input.onblur = null;
    input.remove();
  };
  input.onblur = close;
  input.addEventListener("keydown", (e) => {
    e.stopPropagation();
    if (e.key === "Escape") close();
    if (e.key !== "Enter") return;
    const value = input.value.trim();
    close();
    if (value) model.edit({ op: "set", path, value }).catch(fail);
  });
  input.select();
}
