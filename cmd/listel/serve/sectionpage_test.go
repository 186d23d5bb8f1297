package serve_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

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

// openShelf is openTab with one molding, cove, which is open in the section.
func openShelf(t *testing.T, l look) *tab {
	t.Helper()
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, l)
	b.open("shelf-edge.yaml")
	return b
}

// open opens a file of the folder by its button in the dialog.
func (b *tab) open(name string) {
	b.t.Helper()
	b.key("o", ctrl)
	b.until(`document.querySelector("dialog .files button")`)
	value[bool](b, fmt.Sprintf(`(() => { [...document.querySelectorAll("dialog .files button")].find((n) => n.textContent.endsWith(%s)).click(); return true; })()`, js(name)))
	b.until(fmt.Sprintf(`document.getElementById("file-name").textContent === %s && document.querySelector(".board .outline")`, js(strings.TrimSuffix(name, ".yaml"))))
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
	b.state("saved")
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
	b := openShelf(t, desk)
	x, y := b.middle(handle("2 cove"))
	k := value[float64](b, `Number(document.querySelector(".board .sheet").getAttribute("transform").match(/scale\(([\d.]+)/)[1])`)
	eighth := 25.4 / 8 * k
	b.drag(x, y, eighth+0.02*eighth, -eighth-0.02*eighth, func() {
		b.until(`document.querySelector(".tag text")?.dataset.text === "height 3/4 in · run 3/4 in"`)
	})
	b.until(`!document.querySelector(".tag text")`)
	require.Equal(t, "3/4", value[string](b, fmt.Sprintf("document.querySelector(%s).value", js(rise))))

	b.key("z", ctrl)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "5/8" && document.getElementById("undo").disabled`, js(rise)))
	b.key("y", ctrl)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "3/4"`, js(rise)))
	b.key("s", ctrl)
	b.state("saved")
	text := b.read("shelf-edge.yaml")
	require.Contains(t, text, "name: shelf-edge # called for by the shelf\n")
	require.Contains(t, text, "- fillet: {height: 1/4} # the foot\n")
	require.Contains(t, text, "3/4")
}

// TestDragByKeys moves a corner with the arrow keys, by a sixteenth each.
func TestDragByKeys(t *testing.T) {
	b := openShelf(t, desk)
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
	b := openShelf(t, desk)
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
	b := openShelf(t, desk)
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
	b := openShelf(t, desk)
	b.choose(1)
	b.enter(rise, "7/8")
	b.state("changed")
	drawn := value[string](b, outline)
	b.reload()
	b.until(fmt.Sprintf("%s === %s", outline, js(drawn)))
	require.Equal(t, []string{"changed"}, b.all("#file-state"))
	require.Equal(t, cove, b.read("shelf-edge.yaml"))
	b.key("z", ctrl)
	b.until(fmt.Sprintf("%s !== %s", outline, js(drawn)))
	b.state("saved")
}

// TestChangedOutside follows a file that another program writes: at once while nothing is unsaved, else by the maker's choice.
func TestChangedOutside(t *testing.T) {
	b := openShelf(t, desk)
	b.choose(1)
	first := value[string](b, outline)
	b.write("shelf-edge.yaml", strings.Replace(cove, "5/8", "1", 1))
	b.until(fmt.Sprintf("%s !== %s && document.querySelector(%s).value === '1'", outline, js(first), js(rise)))
	require.Equal(t, []string{"saved"}, b.all("#file-state"))

	b.enter(rise, "7/8")
	b.state("changed")
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
	b.state("saved")
	require.Equal(t, strings.Replace(cove, "5/8", "7/8", 1), b.read("shelf-edge.yaml"))

	b.enter(rise, "3/4")
	b.state("changed")
	b.write("shelf-edge.yaml", theirs)
	b.click("#outside button:nth-child(2)") // take theirs
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "1/2" && document.getElementById("file-state").textContent === "saved"`, js(rise)))
	b.key("z", ctrl)
	b.until(fmt.Sprintf(`document.querySelector(%s).value === "3/4"`, js(rise)))
}

// TestFileGone keeps what is open when its file is taken away, and writes it again.
func TestFileGone(t *testing.T) {
	b := openShelf(t, desk)
	require.NoError(t, os.Remove(filepath.Join(b.dir, "shelf-edge.yaml")))
	b.state("changed")
	b.key("s", ctrl)
	b.state("saved")
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
	b.state("saved")
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
	b.option("back-kind", "rabbet")
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
