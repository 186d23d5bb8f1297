package serve_test

import (
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"listel/library"
)

// cove is a molding to change: three members, a comment that must stay, and a height that hangs on them.
const cove = `kind: profile
name: shelf-edge # called for by the shelf
title: Edge of a shelf
units: in
ground: 1/2
elements:
  - fillet: {height: 1/4} # the foot
  - cove: {height: 5/8}
  - fillet: {height: 1/8}
`

const (
	outline = `document.querySelector(".board .outline")?.getAttribute("d")`
	heads   = `.members .member-name`
	rise    = `.members .chosen [data-path$=".height"] input`
)

// open opens a file of the folder by its button in the dialog.
func (b *tab) open(name string) {
	b.t.Helper()
	b.key("o", ctrl)
	b.until(`document.querySelector("dialog .files button")`)
	value[bool](b, fmt.Sprintf(`(() => { [...document.querySelectorAll("dialog .files button")].find((n) => n.textContent.endsWith(%s)).click(); return true; })()`, js(name)))
	b.until(fmt.Sprintf(`document.getElementById("file-name").textContent === %s && document.querySelector(".board .outline")`, js(name)))
}

// add adds a member on top through the picker.
func (b *tab) add(kind string) {
	b.t.Helper()
	n := len(b.all(heads))
	b.click(".rail .add")
	b.click(fmt.Sprintf("button[data-kind=%s]", kind))
	b.until(fmt.Sprintf(`document.querySelectorAll(%s).length > %d && !document.querySelector("dialog")`, js(heads), n))
	b.settle()
}

// TestComposeCornice composes a cornice from an empty sheet as its maker would, saves it, and finds in the file the sizes that were typed:
// 1/4 + 5/8 + 1/8 + 5/8 + 3/16 = 1 13/16 in high, and 1/2 + 5/8 + 1/2 = 1 5/8 in to its crown, worked by hand.
func TestComposeCornice(t *testing.T) {
	b := openTab(t, nil, desk)
	b.click("#start-empty")
	b.until(outline)
	b.add("cove")
	require.Equal(t, []string{"3 fillet", "2 cove", "1 fillet"}, b.all(heads), "a cove is crowned with its fillet, and the top stands first")
	b.add("cyma-recta")
	b.add("fillet")
	require.Equal(t, []string{"5 fillet", "4 cyma recta", "3 fillet", "2 cove", "1 fillet"}, b.all(heads))

	sizes := []map[string]string{{"height": "1/4"}, {"height": "5/8", "projection": "5/8"}, {"height": "1/8"}, {"height": "5/8", "projection": "1/2"}, {"height": "3/16"}}
	for i, keys := range sizes {
		b.choose(i)
		for _, key := range []string{"height", "projection"} {
			if text := keys[key]; text != "" {
				b.enter(fmt.Sprintf(`[data-path="elements[%d].%s"] input`, i, key), text)
				b.settle()
			}
		}
	}
	b.until(`[...document.querySelectorAll(".board [data-text]")].some((n) => n.dataset.text.startsWith("1 13/16"))`)

	b.click("#save")
	b.enter("#save-name", "press cornice")
	b.until(`document.getElementById("file-state").textContent === "saved"`)
	require.Contains(t, b.read("press-cornice.yaml"), "name: press-cornice")
	p, _, err := library.ReadProfile(filepath.Join(b.dir, "press-cornice.yaml"))
	require.NoError(t, err)
	s, err := p.Section(nil)
	require.NoError(t, err)
	require.InDelta(t, (1+13.0/16)*25.4, s.Height, 1e-9)
	require.InDelta(t, (1+5.0/8)*25.4, s.Projection, 1e-9)
	require.Len(t, s.Members, 5)
}

// choose selects a member, counted from the foot.
func (b *tab) choose(i int) {
	b.t.Helper()
	n := len(b.all(heads))
	row := fmt.Sprintf(".members li:nth-child(%d)", n-i)
	if !value[bool](b, fmt.Sprintf(`document.querySelector(%s).classList.contains("chosen")`, js(row))) {
		b.click(row + " button.member")
	}
	b.until(fmt.Sprintf(`document.querySelector(%s)`, js(row+".chosen .panel:not([hidden])")))
}

// settle waits until what was typed is drawn.
func (b *tab) settle() {
	b.t.Helper()
	b.until(`document.querySelector(".desk").getAttribute("aria-busy") !== "true"`)
}

// handle is the selector of the upper corner of a member.
func handle(title string) string {
	return fmt.Sprintf(`.handle.top[aria-label*="corner of %s"] .knob`, title)
}

// TestDragMember drags the corner of a cove out by an eighth and sees the number at the hand, in the field and in the text.
func TestDragMember(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
	x, y := b.middle(handle("2 cove"))
	k := value[float64](b, `Number(document.querySelector(".board .sheet").getAttribute("transform").match(/scale\(([\d.]+)/)[1])`)
	eighth := 25.4 / 8 * k
	b.drag(x, y, eighth+0.02*eighth, -eighth-0.02*eighth, func() {
		b.until(`document.querySelector(".tag text")?.dataset.text === "rise 3/4 in · run 3/4 in"`)
	})
	b.until(`!document.querySelector(".tag text")`)
	require.Equal(t, "3/4", value[string](b, fmt.Sprintf("document.querySelector(%s).value", js(rise))))

	b.key("z", ctrl)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "5/8" && document.getElementById("undo").disabled`, js(rise)))
	b.key("y", ctrl)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "3/4"`, js(rise)))
	b.key("s", ctrl)
	b.until(`document.getElementById("file-state").textContent === "saved"`)
	text := b.read("shelf-edge.yaml")
	require.Contains(t, text, "name: shelf-edge # called for by the shelf\n")
	require.Contains(t, text, "- fillet: {height: 1/4} # the foot\n")
	require.Contains(t, text, "3/4")
}

// TestDragByKeys moves a corner with the arrow keys, by a sixteenth each.
func TestDragByKeys(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
	b.choose(1)
	value[bool](b, `(() => { document.querySelector(".handle.top.chosen").focus(); return true; })()`)
	b.key(kb.ArrowUp)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "11/16"`, js(rise)))
	b.until(`document.getElementById("live").textContent.includes("11/16 in")`)
	b.key(kb.ArrowDown, kb.ModifierShift)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "7/16"`, js(rise)))
	b.key("z", ctrl)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "5/8"`, js(rise)))
}

// TestBadFraction types what is no fraction: it is said under the field in the words of check, the last good drawing stays, and undo takes it back.
func TestBadFraction(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
	b.choose(1)
	before := value[string](b, outline)
	b.enter(rise, "5/0")
	b.until(`document.querySelector('[data-path="elements[1].height"] .mistake')?.textContent.includes("the denominator is 0")`)
	require.Equal(t, "true", value[string](b, fmt.Sprintf("document.querySelector(%s).getAttribute('aria-invalid')", js(rise))))
	require.Equal(t, "5/0", value[string](b, fmt.Sprintf("document.querySelector(%s).value", js(rise))), "it stays as typed")
	require.Equal(t, before, value[string](b, outline))
	require.Contains(t, b.all(".stale")[0], "This is the last good drawing.")

	b.key("z", ctrl)
	b.until(`document.querySelector(".stale").hidden && !document.querySelector("[aria-invalid=true]")`)
	require.Equal(t, before, value[string](b, outline))
	b.enter(rise, "1/2")
	b.until(fmt.Sprintf("%s !== %s", outline, js(before)))
}

// TestMembersByKeys goes through the list, moves, adds and takes out members without a pointer.
func TestMembersByKeys(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
	value[bool](b, `(() => { document.querySelector(".members button.member").focus(); return true; })()`)
	b.key(kb.ArrowDown)
	b.until(`document.activeElement.closest("li")?.textContent.includes("3 fillet") || document.activeElement.closest("li")?.textContent.includes("2 cove")`)
	b.key(kb.End)
	b.until(`document.activeElement.closest("li.chosen")?.textContent.includes("1 fillet")`)
	b.key(kb.ArrowUp, kb.ModifierAlt)
	b.until(`document.querySelector(".members li:nth-child(3)").textContent.includes("1 cove")`)
	b.until(`document.activeElement.closest("li.chosen")?.textContent.includes("2 fillet")`)
	b.key(kb.Insert)
	b.until(`document.querySelector("dialog .kinds button") === document.activeElement`)
	b.key(kb.ArrowRight)
	b.key(kb.Enter)
	b.until(`document.querySelectorAll(".members li").length === 4 && document.activeElement.closest("li.chosen")?.textContent.includes("3 fascia")`)
	b.key(kb.Delete)
	b.until(`document.querySelectorAll(".members li").length === 3`)
	for range 3 {
		b.key("z", ctrl)
	}
	b.until(`document.querySelector(".members li:nth-child(2)").textContent.includes("2 cove") && document.getElementById("undo").disabled`)
}

// TestReloadKeeps reloads the page with unsaved work: it is there, and so is its undo.
func TestReloadKeeps(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
	b.choose(1)
	b.enter(rise, "7/8")
	b.until(`document.getElementById("file-state").textContent === "changed"`)
	drawn := value[string](b, outline)
	b.reload()
	b.until(fmt.Sprintf("%s === %s", outline, js(drawn)))
	require.Equal(t, []string{"changed"}, b.all("#file-state"))
	require.Equal(t, cove, b.read("shelf-edge.yaml"))
	b.key("z", ctrl)
	b.until(fmt.Sprintf("%s !== %s", outline, js(drawn)))
	b.until(`document.getElementById("file-state").textContent === "saved"`)
}

// TestChangedOutside follows a file that another program writes: at once while nothing is unsaved, else by the maker's choice.
func TestChangedOutside(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
	b.choose(1)
	first := value[string](b, outline)
	b.write("shelf-edge.yaml", strings.Replace(cove, "5/8", "1", 1))
	b.until(fmt.Sprintf("%s !== %s && document.querySelector(%s).value === '1'", outline, js(first), js(rise)))
	require.Equal(t, []string{"saved"}, b.all("#file-state"))

	b.enter(rise, "7/8")
	b.until(`document.getElementById("file-state").textContent === "changed"`)
	theirs := strings.Replace(cove, "5/8", "1/2", 1)
	b.write("shelf-edge.yaml", theirs)
	b.until(`document.querySelector("#outside button")`)
	require.Equal(t, "7/8", value[string](b, fmt.Sprintf("document.querySelector(%s).value", js(rise))), "mine stays until I choose")
	b.key("s", ctrl)
	b.until(`document.querySelector("#outside button")`)
	require.Equal(t, theirs, b.read("shelf-edge.yaml"), "nothing is overwritten before the choice")

	b.click("#outside button.main")
	b.until(`document.querySelectorAll("dialog .side .thumb").length === 2 && document.querySelectorAll("dialog .differs").length === 2`)
	b.click("dialog .choices button:nth-child(2)") // keep mine
	b.until(`!document.querySelector("#outside button")`)
	b.key("s", ctrl)
	b.until(`document.getElementById("file-state").textContent === "saved"`)
	require.Equal(t, strings.Replace(cove, "5/8", "7/8", 1), b.read("shelf-edge.yaml"))

	b.enter(rise, "3/4")
	b.until(`document.getElementById("file-state").textContent === "changed"`)
	b.write("shelf-edge.yaml", theirs)
	b.click("#outside button:nth-child(2)") // take theirs
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "1/2" && document.getElementById("file-state").textContent === "saved"`, js(rise)))
	b.key("z", ctrl)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "3/4"`, js(rise)))
}

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

// editTimes types a step up and a step down by turns and measures, in the browser, from each key to the new drawing on the screen, in ms.
const editTimes = `async (selector, n) => {
	const input = document.querySelector(selector);
	const sheet = document.querySelector(".board .sheet");
	const times = [];
	for (let i = 0; i < n; i++) {
		const drawn = new Promise((done) => {
			const before = sheet.querySelector(".outline").getAttribute("d");
			const look = new MutationObserver(() => {
				if (sheet.querySelector(".outline")?.getAttribute("d") === before) return;
				look.disconnect();
				done();
			});
			look.observe(sheet, { childList: true });
		});
		const from = performance.now();
		input.dispatchEvent(new KeyboardEvent("keydown", { key: i % 2 ? "ArrowDown" : "ArrowUp", bubbles: true }));
		await drawn;
		await new Promise((r) => requestAnimationFrame(() => setTimeout(r)));
		times.push(performance.now() - from);
	}
	return times;
}`

// TestEditToDrawing measures what the page is to reach: 95 of 100 edits drawn within 50 ms of the key. Other work on the machine can spoil a run,
// so the best of three counts, and a machine that has more to do than it has processors tells nothing.
func TestEditToDrawing(t *testing.T) {
	lib := library.Open("", "")
	text, _, err := lib.Text(library.KindProfile, "press-cornice")
	require.NoError(t, err)
	b := openTab(t, map[string]string{"press-cornice.yaml": string(text)}, desk)
	b.open("press-cornice.yaml")
	b.choose(0)
	const (
		figure = 50.0 // ms from the key to the drawing
		work   = 25.0 // ms that the page itself may work on an edit: it leaves as much for the server and the screen
		n      = 100
	)
	_, err = chromedp.Call(b.ctx, performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks})
	require.NoError(t, err)
	best := math.Inf(1)
	for range 3 {
		before := b.worked()
		times := value[[]float64](b, fmt.Sprintf("(%s)(%s, %d)", editTimes, js(rise), n))
		own := (b.worked() - before) / n
		slices.Sort(times)
		t.Logf("from a key to the drawing: half under %.1f ms, 95 of 100 under %.1f ms; of it the page works %.1f ms", times[n/2-1], times[n*95/100-1], own)
		if best = min(best, times[n*95/100-1]); best < figure && own < work {
			return
		}
	}
	if load, busy := busyMachine(); busy {
		t.Skipf("%.1f ms is not under %.0f ms, but the machine has other work: its load is %.1f", best, figure, load)
	}
	require.Less(t, best, figure)
}

// worked returns how long the page's thread has worked, in ms of its processor: other work on the machine does not count.
func (b *tab) worked() float64 {
	b.t.Helper()
	r, err := chromedp.Call(b.ctx, performance.GetMetrics, cdp.Empty{})
	require.NoError(b.t, err)
	for _, m := range r.Metrics {
		if m.Name == "TaskDuration" {
			return m.Value * 1000
		}
	}
	require.Fail(b.t, "the browser does not tell how long it worked")
	return 0
}

// busyMachine returns the work that waited over the last minute, and whether it is more than this machine and its browser make of it. Where
// nothing tells the load it is 0.
func busyMachine() (load float64, busy bool) {
	data, err := os.ReadFile("/proc/loadavg")
	if err == nil {
		_, err = fmt.Sscan(string(data), &load)
	}
	return load, err == nil && load > float64(runtime.NumCPU())+1
}

// TestPrintedFullSize holds that what the browser prints is full size: CSS has 96 pixels to the inch.
func TestPrintedFullSize(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
	value[bool](b, `(() => { window.dispatchEvent(new Event("beforeprint")); return true; })()`)
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
	require.False(t, value[bool](b, `[...document.querySelectorAll("body > :not(#print-sheet)")].some((n) => n.getClientRects().length)`), "nothing else is printed")
}

// TestFullSizeOnScreen checks the screen with a bank card, 85.60 x 53.98 mm (ISO/IEC 7810, ID-1), and finds an inch of the drawing as large as
// an inch of the card; the next page on this screen knows it.
func TestFullSizeOnScreen(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
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
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, look{width: 1024, height: 768, touch: true})
	b.open("shelf-edge.yaml")
	b.choose(1)
	small := value[[]string](b, `[...document.querySelectorAll("button, select, input, .handle .grip")].filter((n) => n.getClientRects().length).map((n) => [n, n.getBoundingClientRect()])
		.filter(([, r]) => r.height < 43.9 || r.width < 43.9).map(([n, r]) => n.outerHTML.slice(0, 80) + " " + r.width + " x " + r.height)`)
	require.Empty(t, small)
	require.False(t, value[bool](b, `document.documentElement.scrollWidth > innerWidth`))
}

// TestPageIsSmall holds the whole page under 300 KB.
func TestPageIsSmall(t *testing.T) {
	var size int64
	require.NoError(t, filepath.WalkDir("page", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		size += info.Size()
		return err
	}))
	t.Logf("the page is %d bytes", size)
	require.Less(t, size, int64(300_000))
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
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, look{width: 1024, height: 768, touch: true})
	b.open("shelf-edge.yaml")
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

	b.touch(input.DispatchTouchEventTypeTouchStart, [2]float64{600, 700})
	b.touch(input.DispatchTouchEventTypeTouchMove, [2]float64{580, 690})
	b.touch(input.DispatchTouchEventTypeTouchMove, [2]float64{560, 680})
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

// TestFileGone keeps what is open when its file is taken away, and writes it again.
func TestFileGone(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.open("shelf-edge.yaml")
	require.NoError(t, os.Remove(filepath.Join(b.dir, "shelf-edge.yaml")))
	b.until(`document.getElementById("file-state").textContent === "changed"`)
	b.key("s", ctrl)
	b.until(`document.getElementById("file-state").textContent === "saved"`)
	require.Equal(t, cove, b.read("shelf-edge.yaml"))
}

// TestNameTaken saves a new molding under a name that is taken: the file there stays, and another name is asked for.
func TestNameTaken(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	b.click("#start-empty")
	b.until(outline)
	b.click("#save")
	b.enter("#save-name", "shelf-edge")
	b.until(`document.getElementById("save-words")?.textContent.includes("There is a file shelf-edge.yaml already.")`)
	require.Equal(t, cove, b.read("shelf-edge.yaml"))
	b.enter("#save-name", "shelf-edge-2")
	b.until(`document.getElementById("file-state").textContent === "saved"`)
	require.Contains(t, b.read("shelf-edge-2.yaml"), "name: shelf-edge-2")
}

// TestLibraryAndBack takes a molding from the library, sees what it was behind what it is, and gives it a rabbet.
func TestLibraryAndBack(t *testing.T) {
	b := openTab(t, nil, desk)
	b.click("#start-library")
	b.until(`document.activeElement.id === "library-search"`)
	b.key("ovolo with fillets")
	b.until(`document.querySelectorAll("dialog .library li:not([hidden])").length < 5`)
	b.click("dialog [data-name=ovolo-with-fillets]")
	b.until(outline)
	was := value[string](b, outline)
	require.False(t, value[bool](b, `Boolean(document.querySelector(".board .ghost"))`))
	value[bool](b, `(() => { const s = document.getElementById("back-kind"); s.value = "rabbet"; s.dispatchEvent(new Event("change")); return true; })()`)
	b.until(`document.querySelector('[data-path="back.rabbet.width"] input')`)
	b.until(fmt.Sprintf(`document.querySelector(".board .ghost")?.getAttribute("d") === %s && %s !== %s`, js(was), outline, js(was)))
	b.key("z", ctrl)
	b.until(fmt.Sprintf(`!document.querySelector('[data-path="back.rabbet.width"]') && %s === %s`, outline, js(was)))
}

// TestNudge steps sizes as they are typed, by one fraction, worked by hand.
func TestNudge(t *testing.T) {
	b := openTab(t, nil, desk)
	cases := []struct {
		text  string
		ticks int
		units string
		mm    float64
		want  any
	}{
		{"3/4", 1, "in", 0, "13/16"}, {"1/16", -1, "in", 0, "0"}, {"0", -1, "in", 0, "-1/16"}, {"15/16", 1, "in", 0, "1"}, {"1 15/16", 2, "in", 0, "2 1/16"},
		{"1-1/8", 4, "in", 0, "1 3/8"}, {"-3/8", 1, "in", 0, "-5/16"}, {"0.3", 1, "in", 0, "5/16"}, {"0.3", -1, "in", 0, "1/4"}, {"2 1/2p", 1, "in", 0, "2 3/4p"},
		{"19mm", 1, "in", 0, "19.5mm"}, {"19", -1, "mm", 0, "18.5"}, {"1/2in", 1, "mm", 0, "9/16in"}, {"", 1, "in", 12.7, "9/16"}, {"rest", 1, "in", 0, nil}, {"3/0", 1, "in", 0, nil},
	}
	for _, c := range cases {
		got := value[any](b, fmt.Sprintf(`import("/page/nudge.js").then((m) => m.nudge(%s, %d, { units: %s, fraction: 16, mm: %g }))`, js(c.text), c.ticks, js(c.units), c.mm))
		require.Equal(t, c.want, got, "%s by %d", c.text, c.ticks)
	}
}
