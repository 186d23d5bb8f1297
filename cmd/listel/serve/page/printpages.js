// printpages.js: the sheets for the browser's own print command: each on a page of its own, just as large as its paper.

import { el } from "./dom.js";

let sizes;

/** Puts the sheets where print.css prints from; pages as SheetsModel has them. Resolves when all of them can be printed. */
export function printPages(pages) {
  document.getElementById("print-sheet")?.remove();
  sizes ??= new CSSStyleSheet();
  const names = new Map();
  for (const p of pages) {
    const size = `${p.width_mm}mm ${p.height_mm}mm`;
    if (!names.has(size)) names.set(size, `paper-${names.size + 1}`);
  }
  sizes.replaceSync([...names].map(([size, name]) => `@page ${name} { size: ${size}; margin: 0; }`).join("\n"));
  if (!document.adoptedStyleSheets.includes(sizes)) document.adoptedStyleSheets = [...document.adoptedStyleSheets, sizes];
  const images = [];
  document.body.append(el("div", { id: "print-sheet", class: "print-pages" }, pages.map((p) => {
    const image = el("img", { src: p.url, alt: "" });
    images.push(image);
    const page = el("div", { class: "print-page" }, image);
    page.style.page = names.get(`${p.width_mm}mm ${p.height_mm}mm`);
    page.style.width = `${p.width_mm}mm`;
    page.style.height = `${p.height_mm}mm`;
    return page;
  })));
  return Promise.all(images.map((i) => i.decode()));
}
