package serve_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"listel/cmd/listel/serve"
)

// crown is a molding of a few members; its sizes are invented.
const crown = `kind: profile
name: crown
title: Small crown
units: in
ground: 1/2
elements:
  - fillet: {height: 1/4}
  - cove: {height: 5/8}
  - fillet: {height: 1/8, set: 1/16}
  - ovolo: {height: 3/8}
  - fillet: {height: 3/16}
`

// openSetups opens the view of the set-ups on a molding.
func openSetups(t *testing.T, file, text string, l look) *tab {
	t.Helper()
	b := openTab(t, map[string]string{file: text}, l)
	b.open(file)
	b.click("#to-setups")
	b.until(`!document.getElementById("view-setups").hidden`)
	return b
}

// plan has the set-ups planned.
func (b *tab) plan() {
	b.t.Helper()
	b.click("#setups-plan")
	b.until(`document.querySelectorAll(".setup-list li").length > 2`)
}

// wood is the area of the wood that stands in the picture, by its pixels' worth of the drawing: the fill of its path.
const wood = `(() => { const p = document.querySelector("#view-setups .stands"); if (!p) return 0; const b = p.getBBox(); let n = 0;
	for (let i = 0; i < 60; i++) for (let j = 0; j < 60; j++)
		n += p.isPointInFill(new DOMPoint(b.x + b.width * (i + 0.5) / 60, b.y + b.height * (j + 0.5) / 60)) ? 1 : 0;
	return n / 3600 * b.width * b.height; })()`

// TestSetupsStep plans the set-ups of a molding and steps through them, by buttons, the list and keys, forward and back: from picture to
// picture the wood grows less, and what is set stands beside it.
func TestSetupsStep(t *testing.T) {
	b := openSetups(t, "crown.yaml", crown, desk)
	b.plan()
	require.Equal(t, "before the first", value[string](b, `document.querySelector(".setup-count").textContent`))
	require.Contains(t, value[string](b, `document.querySelector(".setup-words").innerText`), "fewer are not possible")
	require.Contains(t, value[string](b, `document.querySelector(".cautions").textContent`), "qualified person")
	n := value[int](b, `document.querySelectorAll(".setup-list li").length`) - 2
	require.Greater(t, n, 1)
	last := 0.0
	for i := 1; i <= n; i++ {
		b.click("#setup-next")
		b.until(fmt.Sprintf(`document.querySelector(".setup-count").textContent === "set-up %d of %d"`, i, n))
		left := value[float64](b, wood)
		require.Greater(t, left, 10.0)
		if i > 1 {
			require.Less(t, left, last+0.5, "set-up %d takes wood", i)
		}
		last = left
		words := value[string](b, `document.querySelector(".setup-words").innerText`)
		require.Contains(t, words, "Fence")
		require.Contains(t, words, "Height")
		require.Contains(t, words, "on the table")
	}
	b.click("#setup-next")
	b.until(`document.querySelector(".setup-count").textContent === "after the last" && document.getElementById("setup-next").disabled`)
	b.click("#setup-before")
	b.until(fmt.Sprintf(`document.querySelector(".setup-count").textContent === "set-up %d of %d"`, n, n))
	require.InDelta(t, last, value[float64](b, wood), 1e-6, "back again it is the same wood")

	value[bool](b, `(() => { document.querySelector('.setup-list [aria-current="step"]').focus(); return true; })()`)
	b.key(kb.ArrowUp)
	b.until(fmt.Sprintf(`document.querySelector(".setup-count").textContent === "set-up %d of %d" && document.activeElement.dataset.step === "%d"`, n-1, n, n-1))
	b.key(kb.Home)
	b.until(`document.querySelector(".setup-count").textContent === "before the first"`)
	value[bool](b, `(() => { document.querySelector("#view-setups svg.paper").focus(); return true; })()`)
	b.key(kb.ArrowRight)
	b.until(fmt.Sprintf(`document.querySelector(".setup-count").textContent === "set-up 1 of %d"`, n))
	b.key(kb.ArrowLeft)
	b.until(`document.querySelector(".setup-count").textContent === "before the first"`)
	b.click(`.setup-list [data-step="2"]`)
	b.until(fmt.Sprintf(`document.querySelector(".setup-count").textContent === "set-up 2 of %d"`, n))
}

// TestSetupsGoOn: while a long search runs the molding is edited in the section and drawn; the search is stopped; and a plan of an older text
// says so, and is planned anew.
func TestSetupsGoOn(t *testing.T) {
	b := openSetups(t, "crown.yaml", serve.LongMolding, desk)
	b.option("setups-effort", "long")
	b.click("#setups-plan")
	b.until(`document.querySelector(".setup-state progress") && document.querySelector(".progress-words").textContent.includes("so far")`)

	b.click("#to-section")
	before := value[string](b, outline)
	b.choose(0)
	b.enter(`[data-path="elements[0].height"] input`, "3/16")
	b.until(fmt.Sprintf("%s !== %s", outline, js(before)))

	b.click("#to-setups")
	b.until(`document.querySelector(".setup-state progress")`)
	b.click("#setups-stop")
	b.until(`document.querySelector(".setup-state .mistake")?.textContent === "Stopped." && !document.querySelector(".setup-state progress")`)

	b.option("setups-effort", "quick")
	b.click("#to-section")
	b.key("z", ctrl)
	b.until(fmt.Sprintf("%s === %s", outline, js(before)))
	b.click("#to-setups")
	b.plan()
	b.until(`!document.querySelector(".setup-state").textContent`)
	b.click("#to-section")
	b.key("y", ctrl)
	b.until(fmt.Sprintf("%s !== %s", outline, js(before)))
	b.click("#to-setups")
	b.until(`document.querySelector(".setup-state").textContent.includes("The molding has changed since this was planned.")`)
	old := value[string](b, `document.querySelector(".setup-list small").textContent`)
	b.click("#setups-plan")
	b.until(fmt.Sprintf(`!document.querySelector(".setup-state").textContent && document.querySelector(".setup-list small").textContent !== %s`, js(old)))
}

// TestSetupsSpeakUnits: other units say the same plan in other words; planes have a plan of their own.
func TestSetupsSpeakUnits(t *testing.T) {
	b := openSetups(t, "shelf-edge.yaml", cove, desk)
	b.plan()
	require.Contains(t, b.all(".setup-list small")[0], "″")
	b.option("setups-work", "plane")
	b.until(`document.querySelector(".setup-state").textContent.includes("This was planned with other choices.")`)
	b.click("#setups-plan")
	b.until(`[...document.querySelectorAll(".setup-list b")].length && document.querySelector(".setup-list").textContent.includes("plane")`)
	b.click("#setup-next")
	b.until(`document.querySelector(".setup-words").innerText.includes("Over the bench")`)
	b.option("setups-work", "machine")
	b.click("#setups-plan")
	b.until(`document.querySelector(".setup-count").textContent === "before the first" && !document.querySelector(".setup-list").textContent.includes("plane")`) // a new plan begins with its blank
}

// TestSetupsByKeys plans, and goes to the first set-up, without a pointer.
func TestSetupsByKeys(t *testing.T) {
	b := openSetups(t, "shelf-edge.yaml", cove, desk)
	value[bool](b, `(() => { document.getElementById("setups-plan").focus(); return true; })()`)
	b.key(kb.Enter)
	b.until(`document.activeElement.id === "setup-next"`)
	b.key(kb.Enter)
	b.until(`document.querySelector(".setup-count").textContent.startsWith("set-up 1 of")`)
}

// TestSetupsToSheets: from the set-ups one comes to their sheets, of the same tools.
func TestSetupsToSheets(t *testing.T) {
	b := openSetups(t, "shelf-edge.yaml", cove, desk)
	b.option("setups-work", "plane")
	b.plan()
	steps := value[int](b, `document.querySelectorAll(".setup-list li").length`) - 2
	b.click("#setups-sheets")
	b.until(`document.querySelectorAll(".sheet-list li").length > 1`)
	b.until(fmt.Sprintf(`document.querySelector(".sheet-list").textContent.includes(%s)`, js(fmt.Sprintf("set-ups 1 to %d of %d", min(6, steps), steps))))
	require.Equal(t, "setups", value[string](b, `document.getElementById("sheets-what").value`))
}

// TestSetupsAxe: the view with a plan has no serious fault, blank and set-up, light and dark.
func TestSetupsAxe(t *testing.T) {
	script := axe(t)
	b := openSetups(t, "shelf-edge.yaml", cove, desk)
	require.Empty(t, b.judge(script), "before a plan")
	b.plan()
	require.Empty(t, b.judge(script), "the blank")
	b.click("#setup-next")
	require.Empty(t, b.judge(script), "a set-up")
	b.look(look{width: 1024, height: 768, dark: true, touch: true})
	require.Empty(t, b.judge(script), "dark, on a tablet")
}

// Beside the name of the view stands how far the set-ups are, in whatever view one is.
func TestSetupsSign(t *testing.T) {
	b := openSetups(t, "crown.yaml", crown, desk)
	b.plan()
	const sign = `document.getElementById("to-setups").title`
	b.click("#to-section")
	b.until(sign + ` === "planned"`)
	b.choose(0)
	b.enter(rise, "5/16")
	b.until(sign + ` === "planned before the last change"`)
	b.click("#undo")
	b.until(sign + ` === "planned"`)
}

// TestSetupsPictures leaves screenshots in the folder that LISTEL_PICTURES names, to be looked at.
func TestSetupsPictures(t *testing.T) {
	dir := os.Getenv("LISTEL_PICTURES")
	if dir == "" {
		t.Skip("LISTEL_PICTURES names no folder")
	}
	for _, l := range []look{desk, {width: 1024, height: 768, dark: true, touch: true}} {
		b := openSetups(t, "crown.yaml", serve.LongMolding, l)
		shot := func(name string) {
			require.NoError(t, os.WriteFile(fmt.Sprintf("%s/setups-%d-%s.png", dir, l.width, name), b.picture(), 0o666))
		}
		shot("start")
		b.option("setups-effort", "quick")
		b.click("#setups-plan")
		b.until(`document.querySelector(".setup-state progress")`)
		shot("busy")
		b.until(`document.querySelectorAll(".setup-list li").length > 2`)
		shot("blank")
		for i := 1; i < 6; i++ {
			b.click("#setup-next")
			b.until(`document.getAnimations().length === 0`)
			shot(fmt.Sprint(i))
		}
		b.click(".setup-list li:last-child button")
		shot("last")
	}
}
