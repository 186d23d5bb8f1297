package serve_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// lettersClear lays out a section at several sizes and returns where a text meets another text, or a line that is not its own.
const lettersClear = `async (name, text) => {
	const [api, draw] = await Promise.all([import("/page/api.js"), import("/page/sectiondraw.js")]);
	const section = await api.post("/api/section", { name, text });
	if (!section.ok) return [name + " cannot be built"];
	const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
	svg.setAttribute("width", 4000);
	svg.setAttribute("height", 4000);
	document.body.append(svg);
	const faults = [];
	for (const k of [2, 3.78, 9]) for (const selected of [-1, 1]) {
		const g = document.createElementNS(svg.namespaceURI, "g");
		svg.replaceChildren(g);
		const view = { k, toScreen: ([x, y]) => [1500 + x * k, 2500 - y * k] };
		draw.drawOver(g, view, section, { selected, centers: true });
		const box = svg.getBoundingClientRect();
		const rect = (n) => { const r = n.getBoundingClientRect(); return { x0: r.left - box.left, y0: r.top - box.top + 2, x1: r.right - box.left, y1: r.bottom - box.top - 3 }; };
		const texts = [...g.querySelectorAll("text")].map((n) => ({ n, own: n.closest(".dim, .center"), r: rect(n) }));
		const meets = (a, b) => a.x0 < b.x1 - 0.5 && b.x0 < a.x1 - 0.5 && a.y0 < b.y1 - 0.5 && b.y0 < a.y1 - 0.5;
		for (const { n } of texts) {
			if (getComputedStyle(n).stroke !== "none") faults.push(name + ": the halo of a piece eats the letters before it: " + n.textContent);
		}
		texts.forEach((a, i) => texts.slice(i + 1).forEach((b) => {
			if (meets(a.r, b.r)) faults.push(name + " at " + k + ": " + a.n.textContent + " on " + b.n.textContent);
		}));
		for (const p of g.querySelectorAll(".dim path.thin")) {
			let at = [0, 0];
			for (const [, c, v] of p.getAttribute("d").matchAll(/([MHV])([-\d. ]+)/g)) {
				const n = v.trim().split(" ").map(Number);
				const to = c === "M" ? n : c === "H" ? [n[0], at[1]] : [at[0], n[0]];
				const line = { x0: Math.min(at[0], to[0]) - 0.5, x1: Math.max(at[0], to[0]) + 1, y0: Math.min(at[1], to[1]) - 0.5, y1: Math.max(at[1], to[1]) + 1 };
				if (c !== "M") for (const t of texts) {
					if (t.own !== p.parentNode && meets(t.r, line)) faults.push(name + " at " + k + ": a line through " + t.n.textContent);
				}
				at = to;
			}
		}
	}
	svg.remove();
	return faults;
}`

// TestLettersClear lays out the dimensions of every profile of the library at three sizes: no text meets a text, or another's line.
func TestLettersClear(t *testing.T) {
	b := openTab(t, nil, desk)
	lib := library.Open("", "")
	tried := 0
	for _, l := range lib.List(library.KindProfile) {
		text, _, err := lib.Text(library.KindProfile, l.Name)
		require.NoError(t, err)
		faults := value[[]string](b, fmt.Sprintf("(%s)(%s, %s)", lettersClear, js(l.Name), js(string(text))))
		require.Empty(t, faults)
		tried++
	}
	require.Greater(t, tried, 20)
}
