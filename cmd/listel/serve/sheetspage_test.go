package serve_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	cdbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// openSheets opens the sheets of the press.
func openSheets(t *testing.T, l look) *tab {
	t.Helper()
	b := openCase(t, l)
	b.click("#case-to-sheets")
	b.until(`document.querySelectorAll(".sheet-list li").length > 40`)
	return b
}

// downloads has what the tab downloads come into a folder, which it returns.
func (b *tab) downloads() string {
	b.t.Helper()
	dir := b.t.TempDir()
	_, err := chromedp.CallBrowser(b.ctx, cdbrowser.SetDownloadBehavior, cdbrowser.SetDownloadBehaviorParams{Behavior: cdbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir,
		BrowserContextID: chromedp.FromContext(b.ctx).BrowserContextID})
	require.NoError(b.t, err)
	return dir
}

// downloaded waits for a file to have come whole.
func (b *tab) downloaded(dir, name string) []byte {
	b.t.Helper()
	var data []byte
	require.Eventually(b.t, func() bool {
		var err error
		data, err = os.ReadFile(filepath.Join(dir, name))
		return err == nil && len(data) > 0
	}, time.Minute, 50*time.Millisecond)
	return data
}

// The PDF that the page gives is byte for byte the file that the packet command writes beside the case.
func TestSheetsPDFIsTheCommands(t *testing.T) {
	b := openSheets(t, desk)
	dir := b.downloads()
	b.click("#sheets-pdf")
	got := b.downloaded(dir, "herb-press-packet.pdf")
	b.until(`document.querySelector(".sheet-state .kept")?.textContent === "herb-press-packet.pdf is in your downloads."`)
	b.writes(got, "herb-press.yaml", "--no-setups")
}

// built is the path of the command, built once for all tests.
var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "listel-serve-test-")
	if err != nil {
		return "", err
	}
	command := filepath.Join(dir, "listel")
	if out, err := exec.Command("go", "build", "-o", command, "listel/cmd/listel").CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return command, nil
})

// writes has the packet command write a PDF in the folder that the page is on, and compares it with what the page gave.
func (b *tab) writes(got []byte, args ...string) {
	b.t.Helper()
	dir := b.t.TempDir()
	command, err := built()
	require.NoError(b.t, err)
	packet := exec.Command(command, append([]string{"packet", "--out", filepath.Join(dir, "written.pdf")}, args...)...)
	packet.Dir = b.dir
	packet.Env = append(os.Environ(), "XDG_CONFIG_HOME="+dir, "XDG_CACHE_HOME="+dir, "HOME="+dir)
	out, err := packet.CombinedOutput()
	require.NoError(b.t, err, string(out))
	want, err := os.ReadFile(filepath.Join(dir, "written.pdf"))
	require.NoError(b.t, err)
	require.Equal(b.t, len(want), len(got))
	require.True(b.t, string(want) == string(got), "they differ, though both have %d bytes", len(got))
}

// A box with one small molding on its front: its set-ups are found at once.
var smallCase = map[string]string{
	"box.yaml":   "kind: case\nname: box\ntitle: Small box\nunits: in\nplan: {width: 12, depth: 8}\nheight: 10\nmoldings:\n  - {name: rim, profile: strip, at: 9, runs: [front], ends: open}\n",
	"strip.yaml": "kind: profile\nname: strip\nunits: in\nground: 1/2\nelements:\n  - fillet: {height: 1/4}\n  - cove: {height: 1/4}\n  - fillet: {height: 1/4}\n",
}

// openBox opens the sheets of the box.
func openBox(t *testing.T) *tab {
	t.Helper()
	b := openTab(t, smallCase, desk)
	b.click("#to-case")
	b.click("#case-start-open")
	b.click("dialog .files button")
	b.until(`document.querySelectorAll(".moldings .member").length === 1`)
	b.click("#case-to-sheets")
	b.until(`document.querySelectorAll(".sheet-list li").length > 5`)
	return b
}

// With the set-ups, the PDF from the page is still the command's, byte for byte; the sheets stand under the parts of the work.
func TestSheetsSetupsPDFIsTheCommands(t *testing.T) {
	b := openBox(t)
	require.Equal(t, []string{"Sections", "Scrapers and gauges"}, b.all(".sheet-list h3")[:2])
	require.True(t, value[bool](b, `document.querySelector("#sheets-shop").hidden`))
	b.click("#sheets-setups")
	const slow = 2 * time.Minute // a machine with much else to do
	planned := `[...document.querySelectorAll(".sheet-list h3")].some((n) => n.textContent === "Set-ups") && !document.querySelector("#sheets-stop")`
	require.Eventually(t, func() bool { return value[bool](b, planned) }, slow, 50*time.Millisecond)
	dir := b.downloads()
	b.click("#sheets-pdf")
	b.writes(b.downloaded(dir, "box-packet.pdf"), "box.yaml")
}

// Full size is that of the screen as it was checked in another view, or when listel was last started.
func TestSheetsKnowTheScreen(t *testing.T) {
	b := openBox(t)
	value[bool](b, `(() => { document.cookie = "listel-px-per-mm=5; path=/"; return true; })()`)
	b.click("#sheet-full")
	require.InDelta(t, 5*215.9, value[float64](b, `parseFloat(document.querySelector(".sheet-large").style.width)`), 0.01) // Letter is 215.9 mm wide
	b.until(`document.querySelector("#sheets-paper option").textContent === "Letter, as usual"`)
}

// The browser prints each sheet on a page of its own, as large as its paper: 8 1/2 by 11 in is 612 by 792 points.
func TestSheetsPrint(t *testing.T) {
	b := openBox(t)
	n := len(b.all(".sheet-list li"))
	b.printing()
	b.until(`[...document.querySelectorAll("#print-sheet img")].every((i) => i.complete)`)
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize(), chromedp.PDFPrintBackground()))
	require.NoError(t, err)
	require.Equal(t, n, strings.Count(string(pdf), "/MediaBox [0 0 612 792]"))
	require.Equal(t, n, strings.Count(string(pdf), "/Type /Page\n"))
}

// Sheets are turned by keys; another paper draws them anew on it, and the place in the work is kept.
func TestSheetsTurnAndPaper(t *testing.T) {
	b := openSheets(t, desk)
	require.Contains(t, b.all(".sheet-list b")[0], "1")
	value[bool](b, `(() => { document.querySelector(".sheet-list button").focus(); return true; })()`)
	b.key(kb.ArrowDown)
	b.key(kb.ArrowDown)
	title := value[string](b, `document.querySelector('.sheet-list [aria-current="true"]').title`)
	require.Contains(t, value[string](b, `document.querySelector(".sheet-large").alt`), "Sheet 3: Waist frame of the low press")
	require.Equal(t, 1, value[int](b, `[...document.querySelectorAll(".sheet-list button")].filter((n) => getComputedStyle(n).boxShadow !== "none").length`), "the one that is shown is marked")
	value[bool](b, `(() => { const s = document.querySelector("#sheets-paper"); s.value = "A3"; s.dispatchEvent(new Event("change")); return s.value === "A3"; })()`)
	b.until(`document.querySelector(".sheet-large").naturalWidth > 0 && Math.abs(document.querySelector(".sheet-large").clientWidth / document.querySelector(".sheet-large").clientHeight - 297 / 420) < 0.002`)
	require.Equal(t, title, value[string](b, `document.querySelector('.sheet-list [aria-current="true"]').title`))
}

// With set-ups the sheets without them stand meanwhile, and the search can be stopped: the page presses Stop as soon as it is there.
func TestSheetsSetupsStop(t *testing.T) {
	b := openSheets(t, desk)
	n := len(b.all(".sheet-list li"))
	value[bool](b, `(() => {
		const place = document.querySelector(".sheet-state");
		window.told = [];
		new MutationObserver(() => {
			window.told.push(place.textContent);
			document.querySelector("#sheets-stop")?.click();
		}).observe(place, { childList: true });
		return true;
	})()`)
	b.click("#sheets-setups")
	const slow = time.Minute // a machine with much else to do
	require.Eventually(t, func() bool { return value[bool](b, `window.told.at(-1)?.includes("Stopped") ?? false`) }, slow, 50*time.Millisecond)
	require.Contains(t, strings.Join(value[[]string](b, `window.told`), "\n"), "Planning the set-ups: 0 of 5 moldings")
	require.Len(t, b.all(".sheet-list li"), n)
}

// A profile by itself has its section, its template and its set-ups.
func TestSheetsOfProfile(t *testing.T) {
	b := openTab(t, map[string]string{"mine.yaml": "kind: profile\nname: mine\nunits: in\nground: 1/2\nelements:\n  - fillet: {height: 1/4}\n  - cove: {height: 1/2}\n  - fillet: {height: 1/4}\n"}, desk)
	b.click("#start-open")
	b.click("dialog .files button")
	b.click("#to-sheets")
	b.until(`document.querySelectorAll(".sheet-list li").length > 0`)
	require.Equal(t, []string{"mine: section", "mine: template", "mine: set-ups"}, b.all("#sheets-what option"))
}

// How the set-ups of a molding are searched for is chosen with their sheets as in their own view: each takes what the other chose.
func TestSheetsSearch(t *testing.T) {
	b := openSetups(t, "shelf-edge.yaml", cove, desk)
	b.option("setups-effort", "quick")
	b.click("#to-sheets")
	b.until(`document.querySelectorAll("#sheets-what option").length === 3 && document.getElementById("sheets-search").hidden`)
	b.option("sheets-what", "setups")
	b.until(`!document.getElementById("sheets-search").hidden && document.getElementById("sheets-effort").value === "quick"`)
	b.option("sheets-blank", "upright")
	b.option("sheets-effort", "usual")
	b.click("#to-setups")
	b.until(`document.getElementById("setups-effort").value === "usual" && document.getElementById("setups-blank").value === "upright"`)
}

// All that is chosen of the sheets stands in one row on a screen 1280 pixels wide.
func TestSheetsChoicesInARow(t *testing.T) {
	b := openSheets(t, desk)
	b.click("#sheets-setups")
	b.until(`document.querySelector("#sheets-tools").getClientRects().length`)
	require.Equal(t, 1, value[int](b, `new Set([...document.querySelectorAll(".sheet-choices > .set")].filter((n) => n.getClientRects().length).map((n) => Math.round(n.getBoundingClientRect().bottom))).size`))
}

// TestSheetsOfWhatCame goes to the sheets from a case and from a molding that was opened then: they are of what one came from, and the head names it. What is
// chosen there by hand stays when one comes back with nothing new.
func TestSheetsOfWhatCame(t *testing.T) {
	b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, desk)
	const of = `document.getElementById("sheets-what").value + " " + document.getElementById("file-name").textContent === `
	b.click("#to-case")
	b.click("#case-start-plain")
	b.until(`document.getElementById("file-name").textContent === "my-case"`)
	b.click("#to-sheets")
	b.until(of + `"packet my-case"`)
	b.click("#to-section")
	b.open("shelf-edge.yaml")
	b.click("#to-sheets")
	b.until(of + `"section shelf-edge"`)
	b.option("sheets-what", "packet")
	b.until(of + `"packet my-case"`)
	b.click("#to-section")
	b.click("#to-sheets")
	b.until(of + `"packet my-case"`)
}
