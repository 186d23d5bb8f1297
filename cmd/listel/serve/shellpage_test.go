package serve_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"listel/library"
)

// ogee is another molding than cove, two members and 3/4 in high.
const ogee = `kind: profile
name: ogee
title: An ogee
units: in
ground: 1/2
elements:
  - cyma-recta: {height: 1/2, projection: 1/2}
  - fillet: {height: 1/4}
`

// TestNewFromTop begins another molding while one is open, from an empty sheet and from the library, and finds the first again, though it was
// never saved.
func TestNewFromTop(t *testing.T) {
	b := openShelf(t, desk)
	b.click("#new")
	b.click("dialog [data-first]")
	b.until(`document.getElementById("file-state").textContent === "not saved yet" && document.querySelectorAll(".members li").length === 1`)
	b.until(`document.activeElement.matches(".members .member")`) // the new fillet has the focus
	b.add("cyma-recta")
	own := value[string](b, outline)

	b.click("#new")
	b.click("dialog [data-name=ovolo-with-fillets]")
	b.until(fmt.Sprintf(`%s && %s !== %s`, outline, outline, js(own)))
	b.key("o", ctrl)
	b.until(`document.querySelectorAll("dialog .unsaved li").length === 2`)
	b.click("dialog .unsaved li:first-child button")
	b.until(fmt.Sprintf(`%s === %s`, outline, js(own)))

	b.key("o", ctrl)
	b.click("dialog .unsaved li:nth-child(2) button:nth-child(2)") // throw it away
	b.until(`document.querySelector("dialog h2")?.textContent.startsWith("Throw ovolo-with-fillets away")`)
	b.click("dialog .choices button:first-child")
	b.until(`document.querySelectorAll("dialog .unsaved li").length === 1`)
}

// TestStartKeepsFocus begins with a fillet by the keys: the fillet has the focus then.
func TestStartKeepsFocus(t *testing.T) {
	b := openTab(t, nil, desk)
	value[bool](b, `(() => { document.getElementById("start-empty").focus(); return true; })()`)
	b.key(kb.Enter)
	b.until(`document.activeElement.matches(".members .member")`)
}

// TestGhostIsItsOwn changes one molding, looks at another and comes back: what it was is drawn behind it, not the other. A copy saved under
// another name is its own from there on.
func TestGhostIsItsOwn(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove, "ogee.yaml": ogee}, desk)
	const ghost = `document.querySelector(".board .ghost")?.getAttribute("d")`
	b.open("shelf-edge.yaml")
	was := value[string](b, outline)
	b.choose(1)
	b.enter(rise, "7/8")
	b.until(fmt.Sprintf("%s === %s", ghost, js(was)))
	b.open("ogee.yaml")
	b.open("shelf-edge.yaml")
	b.until(fmt.Sprintf("%s === %s", ghost, js(was)))

	b.click("#save-as")
	b.enter("#save-name", "shelf-edge-tall")
	b.until(`document.getElementById("file-name").textContent === "shelf-edge-tall"`)
	saved := value[string](b, outline)
	b.choose(1)
	b.enter(rise, "1")
	b.until(fmt.Sprintf("%s === %s", ghost, js(saved)))
}

// TestRefusedIsNoStep types what is no length, then one that is: undo goes to what stood before both, and redo does not bring the first back.
func TestRefusedIsNoStep(t *testing.T) {
	b := openShelf(t, desk)
	b.choose(1)
	field := fmt.Sprintf("document.querySelector(%s).value", js(rise))
	b.enter(rise, "half inch")
	b.until(`!document.querySelector(".stale").hidden`)
	b.enter(rise, "1/2")
	b.until(`document.querySelector(".stale").hidden`)
	b.key("z", ctrl)
	b.until(field + ` === "5/8" && document.getElementById("undo").disabled && document.querySelector(".stale").hidden`)
	b.key("y", ctrl)
	b.until(field + ` === "1/2" && document.getElementById("redo").disabled`)
}

// TestHeightHelps types a height that the members do not come to, and takes each of the three ways out of it.
func TestHeightHelps(t *testing.T) {
	b := openShelf(t, desk)
	high := func() float64 {
		return value[float64](b, `Number((`+outline+`).match(/-?[\d.]+/g).length && document.querySelector(".board .outline").getBBox().height)`)
	}
	height := `.whole [data-path="height"] input`
	for i, want := range []float64{2 * 25.4, 2 * 25.4, 25.4} { // take the rest, scale, leave it open
		b.enter(height, "2")
		b.until(`document.querySelectorAll(".stale .helps button").length === 3`)
		require.Contains(t, b.all(".stale")[0], "the members come to 1 in")
		b.click(fmt.Sprintf(".stale .helps button:nth-child(%d)", i+1))
		b.until(`document.querySelector(".stale").hidden`)
		b.settle()
		require.InDelta(t, want, high(), 0.001)
		b.key("z", ctrl)
		if i == 0 { // what was typed is a step before that which was pressed
			b.until(`!document.querySelector(".stale").hidden`)
			b.key("z", ctrl)
		}
		b.until(`document.querySelector(".stale").hidden && document.getElementById("undo").disabled`)
	}
	b.enter(`.whole [data-path="parts"] input`, "10")
	b.until(`document.querySelector('.whole [data-path="height"] input').value === "1"`)
	b.enter(height, "2")
	b.until(`document.querySelectorAll(".stale .helps button").length === 3`)
	b.click(".stale .helps button:nth-child(3)") // no size is in parts: they go with the height
	b.until(`document.querySelector(".stale").hidden && document.querySelector('.whole [data-path="parts"] input').value === ""`)
	b.key("z", ctrl)
	b.until(`document.querySelector('.whole [data-path="parts"] input').value === "10"`)
	b.choose(0)
	b.enter(`[data-path="elements[0].height"] input`, "2p")
	b.enter(height, "2")
	b.until(`document.querySelectorAll(".stale .helps button").length === 2`)
	require.NotContains(t, b.all(".stale .helps button"), "Let the height follow its members", "parts divide it")
}

// TestErrorMovesNoField types what is no length into a field of the whole and into one of a member: each stays where it is and as wide, and so do the fields
// beside it and the list of members.
func TestErrorMovesNoField(t *testing.T) {
	b := openShelf(t, desk)
	b.choose(1)
	const places = `[...document.querySelectorAll("#view-section .rail :is(.whole input, .panel:not([hidden]) .field input, .member)")].map((n) => {
		const r = n.getBoundingClientRect(); return [r.x, r.y, r.width].map(Math.round).join(" "); }).slice(0, %d).join("; ")`
	for field, upTo := range map[string]int{`.whole [data-path="ground"] input`: 9, rise: 7} { // to the field itself: under it the words are told
		now := fmt.Sprintf(places, upTo)
		was := value[string](b, now)
		b.enter(field, "5/0")
		b.until(`document.querySelector("#view-section [aria-invalid=true]")`)
		require.Equal(t, was, value[string](b, now), field)
		b.key("z", ctrl)
		b.until(`!document.querySelector("#view-section [aria-invalid=true]")`)
	}
}

// TestFittedOnTablet opens a molding on a small screen: all of it and its dimensions are on the board at once.
func TestFittedOnTablet(t *testing.T) {
	b := openShelf(t, look{width: 1024, height: 768, touch: true})
	const out = `(() => { const q = document.querySelector(".board").getBoundingClientRect();
		return [...document.querySelectorAll(".board .dim text, .board .outline")].filter((n) => { const r = n.getBoundingClientRect(); return r.left < q.left || r.right > q.right || r.top < q.top || r.bottom > q.bottom; }).length; })()`
	b.until(out + " === 0")
	x, y := b.middle(handle("2 cove"))
	b.drag(x, y, 120, -120, nil)
	b.until(`!document.querySelector(".tag text")`)
	b.until(out + " === 0")
}

// TestHeightWithRest types a height far too large for a molding in which one member takes the rest and cannot: scaled it is, and one undo
// takes all of it back.
func TestHeightWithRest(t *testing.T) {
	text, _, err := library.Open("", "").Text(library.KindProfile, "press-cornice")
	require.NoError(t, err)
	b := openTab(t, map[string]string{"press-cornice.yaml": string(text)}, desk)
	b.open("press-cornice.yaml")
	b.enter(`.whole [data-path="height"] input`, "7")
	b.click(".stale .helps button")
	b.until(`document.querySelector(".stale").hidden`)
	b.until(`Math.abs(document.querySelector(".board .outline").getBBox().height - 7 * 25.4) < 0.001`)
	b.key("z", ctrl)
	b.until(`document.querySelector('.whole [data-path="height"] input').value === "2 1/2" && document.getElementById("undo").disabled`)
}

// TestPartsOnThePage gives parts to a molding whose height is left open: it is written down with them, and is no mistake.
func TestPartsOnThePage(t *testing.T) {
	b := openShelf(t, desk)
	b.enter(`.whole [data-path="parts"] input`, "8")
	b.until(`document.querySelector('.whole [data-path="height"] input').value === "1" && document.querySelector(".stale").hidden`)
	b.until(`document.getElementById("hint").textContent.includes("into how many parts the height is divided")`)
	b.key("z", ctrl)
	b.until(`document.querySelector('.whole [data-path="height"] input').value === "" && document.getElementById("undo").disabled`)
}

// TestTypeDimension types a dimension where it stands on the drawing, after two clicks on it.
func TestTypeDimension(t *testing.T) {
	b := openShelf(t, desk)
	dim := `.dim[data-index="2"][data-of="height"] text`
	b.click(dim)
	b.click(dim)
	b.until(`document.activeElement.matches(".typed-dim") && document.activeElement.value === "1/8"`)
	b.do(typed("3/8" + kb.Enter))
	b.until(`document.querySelector('[data-path="elements[2].height"] input').value === "3/8" && !document.querySelector(".typed-dim")`)
}

// TestScaleWhole doubles a molding: 1 in high becomes 2.
func TestScaleWhole(t *testing.T) {
	b := openShelf(t, desk)
	b.click("#scale-whole")
	b.enter("#scale-to", "2")
	b.until(`document.querySelector('.whole [data-path="ground"] input').value === "1"`)
	b.key("s", ctrl)
	b.state("saved")
	require.Contains(t, b.read("shelf-edge.yaml"), "- cove: {height: 1 1/4}")
}

// TestScaleKeptUnchecked chooses a scale on a screen that was not checked, and leaves the question: the scale holds all the same, and the
// list of scales has each once.
func TestScaleKeptUnchecked(t *testing.T) {
	b := openShelf(t, desk)
	value[bool](b, `(() => { const s = document.querySelector(".ratio"); s.value = "1/4"; s.dispatchEvent(new Event("change")); return true; })()`)
	b.until(`document.querySelector("dialog .card")`)
	b.key(kb.Escape)
	b.until(`!document.querySelector("dialog") && document.querySelector(".ratio").selectedOptions[0].textContent === "1 : 4"`)
	require.True(t, value[bool](b, `(() => { const all = [...document.querySelector(".ratio").options].filter((o) => !o.hidden).map((o) => o.textContent); return new Set(all).size === all.length; })()`))
}

// TestSaveName says what a name becomes that no file can have, keeps what was typed when the dialog is missed by a touch, and writes name
// and title.
func TestSaveName(t *testing.T) {
	b := openShelf(t, desk)
	b.click("#save-as")
	b.until(`document.activeElement.id === "save-name"`)
	b.do(typed("Shelf edge 1/2"))
	b.until(`document.getElementById("save-words").textContent.endsWith("it will be Shelf-edge-1-2.")`)
	b.do(clickAt(4, 400))
	require.Equal(t, "Shelf edge 1/2", value[string](b, `document.getElementById("save-name").value`))
	b.enter("#save-title", "Edge, half as thick")
	b.until(`document.getElementById("file-name").textContent === "Shelf-edge-1-2"`)
	text := b.read("Shelf-edge-1-2.yaml")
	require.Contains(t, text, "name: Shelf-edge-1-2 # called for by the shelf\n")
	require.Contains(t, text, "title: 'Edge, half as thick'\n")
	require.Equal(t, cove, b.read("shelf-edge.yaml"))
	require.Equal(t, strings.Count(cove, "\n"), strings.Count(text, "\n"))
}

// TestSaveNamedByTitle gives a new molding its title: the file is offered a name of it.
func TestSaveNamedByTitle(t *testing.T) {
	b := openTab(t, nil, desk)
	b.click("#start-empty")
	b.until(`document.activeElement.matches(".member")`)
	value[bool](b, `(() => { const n = document.querySelector(".rail .title textarea"); n.focus(); n.select(); return true; })()`)
	b.key("Bed rail, 2 in")
	b.key(kb.Tab)
	b.until(`document.getElementById("undo").title.includes("Bed rail, 2 in")`)
	b.click("#save")
	b.until(`document.getElementById("save-name")`)
	require.Equal(t, "bed-rail-2-in", value[string](b, `document.getElementById("save-name").value`))
}

// TestMistakeBesideDrawing holds that what is wrong stands in a strip of its own, and a notice in the line at the foot: neither lies on the drawing.
func TestMistakeBesideDrawing(t *testing.T) {
	b := openShelf(t, desk)
	b.choose(1)
	b.enter(rise, "5/0")
	b.until(`!document.querySelector(".stale").hidden`)
	const clear = `(() => { const [p, q] = [%s, ".board"].map((s) => document.querySelector(s).getBoundingClientRect());
		return p.height > 0 && (p.bottom <= q.top + 1 || p.top >= q.bottom - 1); })()`
	require.True(t, value[bool](b, fmt.Sprintf(clear, js(".stale"))))
	b.key("z", ctrl)
	b.click("#save-as")
	b.enter("#save-name", "again")
	b.until(`document.querySelector("#notes .slip")`)
	require.True(t, value[bool](b, fmt.Sprintf(clear, js("#notes .slip"))))
}

// TestCaseSavedAs begins a case from the head and saves it: the file says its own name and title, by which its sheets are called.
func TestCaseSavedAs(t *testing.T) {
	b := openTab(t, nil, desk)
	b.click("#to-case")
	b.click("#new")
	b.until(`document.querySelectorAll("dialog .case-thumb").length === 3 && document.querySelector("dialog [data-name=my-case]")`)
	b.click("dialog [data-name=herb-press]")
	b.state("not saved yet")
	b.click("#save-as")
	b.enter("#save-name", "small-cupboard")
	b.state("saved")
	require.Contains(t, b.read("small-cupboard.yaml"), "\nname: small-cupboard")
}
