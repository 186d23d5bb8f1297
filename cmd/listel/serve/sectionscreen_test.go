package serve_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// TestPrintedFullSize holds that what the browser prints is full size: CSS has 96 pixels to the inch.
func TestPrintedFullSize(t *testing.T) {
	b := openShelf(t, desk)
	b.printing()
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	require.NoError(t, err)
	size := value[[]float64](b, `(() => { const r = document.querySelector("#print-sheet .outline").getBoundingClientRect(); return [r.width, r.height]; })()`)
	require.InDelta(t, (1.0/2+5.0/8)*96, size[0], 0.01)
	require.InDelta(t, (1.0/4+5.0/8+1.0/8)*96, size[1], 0.01)
	bars := value[[]float64](b, `[...document.querySelectorAll("#print-sheet .bars path")].map((p) => { const r = p.getBoundingClientRect(); return Math.max(r.width, r.height); })`)
	require.Len(t, bars, 4)
	for i, mm := range []float64{100, 101.6, 100, 101.6} {
		require.InDelta(t, mm*96/25.4, bars[i], 0.05)
	}
	require.Empty(t, value[[]string](b, `(() => {
		const bars = [...document.querySelectorAll("#print-sheet .bars")].map((n) => n.getBoundingClientRect());
		return [...document.querySelectorAll("#print-sheet .over text")].filter((n) => {
			const r = n.getBoundingClientRect();
			return bars.some((q) => r.left < q.right && q.left < r.right && r.top < q.bottom && q.top < r.bottom);
		}).map((n) => n.textContent); })()`), "the figures keep off the bars")
	require.False(t, value[bool](b, `[...document.querySelectorAll("body > :not(#print-sheet)")].some((n) => n.getClientRects().length)`), "nothing else is printed")
}

// TestFullSizeOnScreen checks the screen with a bank card, 85.60 x 53.98 mm (ISO/IEC 7810, ID-1), and finds an inch of the drawing as large as
// an inch of the card; the next page on this screen knows it.
func TestFullSizeOnScreen(t *testing.T) {
	b := openShelf(t, desk)
	b.click("#full-size")
	b.until(`document.querySelector("dialog .card")`)
	value[bool](b, `(() => { const s = document.getElementById("ruler-size"); s.value = "5"; s.dispatchEvent(new Event("input")); return true; })()`)
	card := value[[]float64](b, `["width", "height"].map((k) => Number(document.querySelector("dialog .card").getAttribute(k)))`)
	require.InDelta(t, 85.60*5, card[0], 1e-6)
	require.InDelta(t, 53.98*5, card[1], 1e-6)
	b.click("dialog button.main")
	b.until(`document.querySelector(".ratio").selectedOptions[0].textContent === "full size"`)
	high := `document.querySelector(".board .outline").getBoundingClientRect().height`
	require.InDelta(t, 25.4*card[0]/85.60, value[float64](b, high), 0.01, "the molding is 1 in high")
	b.reload()
	b.until(outline)
	b.click("#full-size")
	b.until(`document.querySelector(".ratio").selectedOptions[0].textContent === "full size" && !document.querySelector("dialog")`)
}

// TestTouchTargets holds that what a finger presses is 44 pixels high and wide on a tablet, and that all of it is on the screen.
func TestTouchTargets(t *testing.T) {
	b := openShelf(t, look{width: 1024, height: 768, touch: true})
	b.choose(1)
	small := value[[]string](b, `[...document.querySelectorAll("button, select, input, .handle .grip")].filter((n) => n.getClientRects().length).map((n) => [n, n.getBoundingClientRect()])
		.filter(([, r]) => r.height < 43.9 || r.width < 43.9).map(([n, r]) => n.outerHTML.slice(0, 80) + " " + r.width + " x " + r.height)`)
	require.Empty(t, small)
	require.False(t, value[bool](b, `document.documentElement.scrollWidth > innerWidth`))
}

// touch sends one event of one or two fingers.
func (b *tab) touch(kind input.DispatchTouchEventType, fingers ...[2]float64) {
	b.t.Helper()
	p := input.DispatchTouchEventParams{Type: kind, TouchPoints: []*input.TouchPoint{}}
	for i, f := range fingers {
		id := float64(i)
		p.TouchPoints = append(p.TouchPoints, &input.TouchPoint{X: f[0], Y: f[1], ID: &id})
	}
	_, err := chromedp.Call(b.ctx, input.DispatchTouchEvent, p)
	require.NoError(b.t, err)
}

// TestFingers magnifies with two fingers, moves the sheet with one, and drags a corner with one.
func TestFingers(t *testing.T) {
	b := openShelf(t, look{width: 1024, height: 768, touch: true})
	view := func() (k, x, y float64) {
		v := value[[]float64](b, `document.querySelector(".board .sheet").getAttribute("transform").match(/-?[\d.]+/g).map(Number)`)
		return v[2], v[0], v[1]
	}
	k0, _, _ := view()
	b.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{150, 400})
	b.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{150, 400}, [2]float64{250, 400})
	for d := 10.0; d <= 100; d += 10 {
		b.touch(input.DispatchTouchEventTypeTouchMove, [2]float64{150 - d/2, 400}, [2]float64{250 + d/2, 400})
	}
	b.touch(input.DispatchTouchEventTypeTouchEnd)
	k1, x1, y1 := view()
	require.InDelta(t, 2*k0, k1, 0.02*k0, "fingers twice as far apart show it twice as large")

	b.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{600, 620})
	b.touch(input.DispatchTouchEventTypeTouchMove, [2]float64{580, 610})
	b.touch(input.DispatchTouchEventTypeTouchMove, [2]float64{560, 600})
	b.touch(input.DispatchTouchEventTypeTouchEnd)
	k2, x2, y2 := view()
	require.Equal(t, k1, k2)
	require.InDelta(t, -40, x2-x1, 1)
	require.InDelta(t, -20, y2-y1, 1)

	b.click(".tools button[title^='Show all']")
	x, y := b.middle(handle("2 cove"))
	k, _, _ := view()
	move := 25.4 / 4 * k
	b.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{x, y})
	for f := 0.25; f <= 1; f += 0.25 {
		b.touch(input.DispatchTouchEventTypeTouchMove, [2]float64{x - f*move, y + f*move})
	}
	b.touch(input.DispatchTouchEventTypeTouchEnd)
	b.until(fmt.Sprintf(`document.querySelector(%s)?.value === "3/8"`, js(rise)))
}

// What is undone in another view is seen whole when the section is shown again.
func TestUndoneElsewhere(t *testing.T) {
	b := openShelf(t, desk)
	b.choose(0)
	b.enter(rise, "6")
	b.state("changed")
	b.click("#to-setups")
	b.until(`!document.getElementById("view-setups").hidden`)
	b.key("z", ctrl)
	b.state("saved")
	b.click("#to-section")
	b.until(`!document.getElementById("view-section").hidden`)
	b.until(`(() => { const r = document.querySelector(".board .outline").getBoundingClientRect(), h = document.querySelector(".board").getBoundingClientRect();
		return r.height > h.height / 4 && [...document.querySelectorAll(".board .outline, .board .dim")].map((n) => n.getBoundingClientRect())
			.every((q) => q.top >= h.top && q.bottom <= h.bottom && q.left >= h.left && q.right <= h.right); })()`)
}

// The radius of a far center stands on the board, and on no other lettering.
func TestRadiusOfFarCenter(t *testing.T) {
	const flat = "kind: profile\nname: flat\nunits: in\nground: 1\nelements:\n  - fillet: {height: 1/4}\n  - curve: {points: [{x: 1/4, y: 2, through: [1/16, 1]}]}\n  - fillet: {height: 1/4}\n"
	b := openTab(t, map[string]string{"flat.yaml": flat}, desk)
	b.open("flat.yaml")
	b.click(`[data-show="centers"]`)
	b.until(`document.querySelector(".center text")`)
	require.Empty(t, value[[]string](b, `(() => {
		const box = (n) => n.getBoundingClientRect(), board = box(document.querySelector(".board"));
		const meet = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
		const words = [...document.querySelectorAll(".board .dim text")];
		return [...document.querySelectorAll(".center text")].filter((n) => words.some((w) => meet(box(n), box(w))) || box(n).right > board.right || box(n).left < board.left).map((n) => n.textContent);
	})()`))
}

// A molding that Letter holds beside its words is printed on one page with the bars to check it by, in the figures of its sheets.
func TestPrintedOnOnePage(t *testing.T) {
	b := openTab(t, map[string]string{"plate.yaml": strings.Replace(cove, "1/4", "2 13/64", 1)}, desk)
	b.open("plate.yaml")
	b.printing()
	require.Contains(t, value[string](b, `document.querySelector("#print-sheet .over").textContent`), "213⁄64′′fillet", "as on the sheets, though the screen has sixteenths")
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperLetter)))
	require.NoError(t, err)
	require.Equal(t, 1, strings.Count(string(pdf), "/Type /Page\n"))
}
