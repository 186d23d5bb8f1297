// mend.js: what helps when the sizes of a molding do not go together, and the scaling of the whole.
//
//   helps(model)                 [{label, change, title, afresh}] for the first mistake: what can be done about it in one step
//   await scaleWhole(model)      asks for a height and scales every size to it

import { ask, el } from "./dom.js";

export function helps(model) {
  const { section, good } = model;
  const first = section?.mistakes?.[0];
  if (!first || section.ok) return [];
  const members = section.members ?? [];
  const height = section.head?.find((h) => h.key === "height")?.text;
  if (first.key === "height" && first.index < 0) {
    const taker = members[model.selected] ?? tallest(members);
    return [
      height && taker && !members.some((m) => sizeOf(m)?.text === "rest") && { label: `Let ${taker.title} take the rest`, title: "Its height becomes what the other members leave", change: { op: "set", path: `elements[${taker.index}].height`, value: "rest" } },
      height && scale(model, height),
      !members.some((m) => m.sizes?.some((s) => /\dp$/.test(s.text))) && { label: "Let the height follow its members", title: "The height is left open: it is what they come to", change: { op: "unset", path: "height" } },
    ].filter(Boolean);
  }
  if (first.index >= 0 && height && model.doc.amends("height")) return [scale(model, height)];
  if (first.index >= 0 && /\.height$/.test(first.key) && sizeOf(members[first.index] ?? {})?.text === "rest") {
    const was = sizeOf(good?.members?.[first.index] ?? {})?.shown;
    if (was && !/[-+]( |$)/.test(was)) return [{ label: `Make it ${was}`, title: "The height that it had", change: { op: "set", path: first.key, value: was } }];
  }
  return [];
}

const scale = (model, value) => ({ label: "Scale all members", title: "Every size is enlarged or reduced alike", change: { op: "scale", value }, afresh: model.doc.amends("height") });

const sizeOf = (m) => m.sizes?.find((s) => s.key === "height");

const tallest = (members) => members.filter((m) => sizeOf(m)).sort((a, b) => (sizeOf(b).mm ?? 0) - (sizeOf(a).mm ?? 0))[0];

export async function scaleWhole(model) {
  const now = model.good?.dims?.find((d) => d.index < 0 && d.of === "height")?.text ?? "";
  const input = el("input", { id: "scale-to", required: true });
  const value = await ask({
    title: "Scale the whole molding",
    body: [
      el("p", { class: "quiet" }, `It is ${now} high. Every height, run and step in it is enlarged or reduced alike; sizes then may fall between the fractions of your rule.`),
      el("label", { for: "scale-to" }, "New height"), input,
    ],
    choices: [{ label: "Close", value: null }, { label: "Scale it", main: true, value: () => input.value.trim() }],
    ready: () => input.focus(),
  });
  if (value) await model.edit({ op: "scale", value });
}
