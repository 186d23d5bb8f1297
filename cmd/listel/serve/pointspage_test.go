package serve_test

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// bentEdge has a curve of an arc and a line; its sizes are invented.
const bentEdge = `kind: profile
name: bent-edge
units: in
ground: 1
elements:
  - fillet: {height: 1/4}
  - curve: {points: [{x: 3/8, y: 5/16, through: [1/4, 1/8]}, {x: 3/8, y: 1/2}]}
  - fillet: {height: 1/8}
`

// TestPointsByHand drags a point of a curve, moves its bend by keys, adds a point and takes it out, types one, makes a line of an arc; a wrong size is told
// where it stands, and undo goes back all the way.
func TestPointsByHand(t *testing.T) {
	b := openTab(t, map[string]string{"bent-edge.yaml": bentEdge}, desk)
	b.open("bent-edge.yaml")
	require.Empty(t, b.all(".handle.point"), "the points show when the curve is chosen")
	b.choose(1)
	b.until(`document.querySelectorAll(".handle.point").length === 2 && document.querySelectorAll(".handle.bend").length === 1`)
	const across, up = `document.querySelector('[data-path="elements[1].points[1].x"] input').value`, `document.querySelector('[data-path="elements[1].points[1].y"] input').value`

	x, y := b.middle(`.handle.point[aria-label^="Point 2"] .knob`)
	k := value[float64](b, `Number(document.querySelector(".board .sheet").getAttribute("transform").match(/scale\(([\d.]+)/)[1])`)
	b.drag(x, y, 25.4/8*k, -25.4/16*k, func() {
		b.until(`document.querySelector(".tag text")?.dataset.text === "across 1/2 in · up 9/16 in"`)
	})
	b.until(across + ` === "1/2" && ` + up + ` === "9/16"`)
	require.Contains(t, value[string](b, `document.getElementById("undo").title`), "moving point 2 of 2 curve")

	value[bool](b, `(() => { document.querySelector(".handle.bend").focus(); return true; })()`)
	b.key(kb.ArrowUp)
	b.until(`document.querySelector('[data-path="elements[1].points[0].through[1]"] input').value === "3/16"`)
	b.until(`document.getElementById("live").textContent.includes("up 3/16 in")`)

	value[bool](b, `(() => { document.querySelector('.handle.point[aria-label^="Point 2"]').focus(); return true; })()`)
	b.key(kb.Insert)
	b.until(`document.querySelectorAll(".handle.point").length === 3 && document.querySelectorAll(".points li").length === 3`)
	b.key(kb.Delete)
	b.until(`document.querySelectorAll(".handle.point").length === 2`)
	b.click(`[data-point="line 0"]`)
	b.until(`document.querySelectorAll(".handle.bend").length === 0 && document.querySelector('[data-point="arc 0"]')`)
	b.click(`[data-point="arc 1"]`)
	b.until(`document.querySelectorAll(".handle.bend").length === 1`)
	b.click(`[data-point="remove 0"]`)
	b.until(`document.querySelectorAll(".points li").length === 1 && !document.querySelector('[data-point^="remove"]')`)

	b.enter(`[data-path="elements[1].points[0].y"] input`, "5/0")
	b.until(`document.querySelector('[data-path="elements[1].points[0].y"] .mistake')?.textContent.includes("the denominator is 0")`)
	for range 8 {
		b.key("z", ctrl)
	}
	b.until(`document.getElementById("undo").disabled && document.querySelector(".stale").hidden && ` + across + ` === "3/8"`)
	b.key("s", ctrl)
	require.Equal(t, bentEdge, b.read("bent-edge.yaml"))
}

// The sheet that the browser prints has the points of a curve in figures, and the radius of its arc: through (0, 0), (1/4, 1/8) and (3/8, 5/16) in,
// 0.490 in (31/64 and 0.006), worked by hand from the lengths of the triangle's sides over four times its area.
func TestPointsArePrinted(t *testing.T) {
	b := openTab(t, map[string]string{"bent-edge.yaml": bentEdge}, desk)
	b.open("bent-edge.yaml")
	b.printing()
	rows := b.all("#print-sheet table tr")
	require.Len(t, rows, 3)
	require.Regexp(t, `^13/8 in5/16 inR 31/64″\+$`, rows[1])
	require.Regexp(t, `^23/8.*1/2.*line$`, rows[2])
}
