package serve_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/measure"
)

// openScan opens the view of the scan on the starter's plate, chosen in the folder.
func openScan(t *testing.T, l look) *tab {
	t.Helper()
	b := openTab(t, map[string]string{"plate.png": string(library.StarterPlate())}, l)
	b.click("#to-scan")
	b.click(`[data-path="plate.png"]`)
	b.until(`document.querySelector("#view-scan image")?.href.baseVal && document.querySelector(".scan-rail b").textContent === "plate.png"`)
	b.until(`document.querySelector("#scan-length").getAttribute("aria-pressed") === "true"`)
	return b
}

// onPlate is where a pixel of the plate is on the screen.
func (b *tab) onPlate(x, y float64) (float64, float64) {
	b.t.Helper()
	at := value[[]float64](b, fmt.Sprintf(`(() => { const g = document.querySelector("#view-scan .sheet").getCTM(); const r = document.querySelector("#view-scan svg.paper").getBoundingClientRect();
		return [r.x + g.a * %g + g.e, r.y - g.d * %g + g.f]; })()`, x, y))
	return at[0], at[1]
}

func (b *tab) press(x, y float64) {
	b.t.Helper()
	px, py := b.onPlate(x, y)
	b.do(chromedp.MouseClickXY(px, py))
}

// measure measures the full-size scale of the plate: 3 in from (634.5, 1032) to (1234.5, 1026), as its trace file has it.
func (b *tab) measure() {
	b.t.Helper()
	b.press(634.5, 1032)
	b.until(`document.querySelector(".scan-hint").textContent === "Now the other end."`)
	b.press(1234.5, 1026)
	b.until(`document.activeElement.id === "scan-length-0"`)
	b.enter("#scan-length-0", "3in")
}

// cropTo draws the crop.
func (b *tab) cropTo(left, top, right, foot float64) {
	b.t.Helper()
	b.click("#scan-crop")
	x0, y0 := b.onPlate(left, top)
	x1, y1 := b.onPlate(right, foot)
	b.drag(x0, y0, x1-x0, y1-y0, nil)
	b.until(`document.querySelector(".crop")`)
}

// TestScanTrace measures, crops and traces the cornice on the starter's plate, and opens it in the section: the members come with the sizes
// of the profile that the plate is drawn from, it is said how true they are, and the plate lies under them while one is dragged.
func TestScanTrace(t *testing.T) {
	b := openScan(t, desk)
	b.measure()
	b.cropTo(690, 250, 1240, 750)
	value[bool](b, `(() => { document.getElementById("scan-trace").click(); setTimeout(() => document.getElementById("scan-stop").click()); return true; })()`)
	b.until(`document.querySelector(".scan-state").textContent.includes("Stopped.") && !document.getElementById("scan-open")`)
	b.click("#scan-trace")
	b.until(`document.getElementById("scan-open")`)
	require.Equal(t, []string{"1 fillet", "2 cove", "3 fillet", "4 cyma recta", "5 fillet"}, b.all(".scan-members dt"))
	said := value[string](b, `document.querySelector(".scan-result").innerText`)
	require.Contains(t, said, "in the mean. It is within the")
	require.True(t, value[bool](b, `Boolean(document.querySelector("#view-scan .made") && document.querySelector("#view-scan .found") && document.querySelector(".worst"))`))
	b.click("#scan-worst")
	b.until(`(() => { const r = document.querySelector(".worst").getBoundingClientRect(), p = document.querySelector("#view-scan svg.paper").getBoundingClientRect();
		return Math.abs(r.x + r.width / 2 - p.x - p.width / 2) < 2 && Math.abs(r.y + r.height / 2 - p.y - p.height / 2) < 2; })()`)

	b.click("#scan-open")
	b.until(outline)
	require.Empty(t, b.all(".slip"), "no molding was open before")
	require.Equal(t, []string{"5 fillet", "4 cyma recta", "3 fillet", "2 cove", "1 fillet"}, b.all(heads))
	require.Equal(t, "plate-molding", value[string](b, `document.getElementById("file-name").textContent`))
	b.until(`document.querySelector("#view-section .under image") && !document.querySelector(".plate-set").hidden`)
	require.Greater(t, value[float64](b, underInk), 0.9, "the ink of the plate lies under the outline")
	b.choose(1)
	require.Equal(t, "5/8", value[string](b, `document.querySelector('[data-path="elements[1].height"] input').value`))
	x, y := b.middle(handle("2 cove"))
	b.drag(x, y, 20, -20, nil)
	b.until(`document.querySelector('[data-path="elements[1].height"] input').value !== "5/8"`)
	require.True(t, value[bool](b, `Boolean(document.querySelector("#view-section .under image"))`))
	b.click("#show-plate")
	b.until(`!document.querySelector("#view-section .under image")`)
	b.click("#show-plate")
	b.until(`document.querySelector("#view-section .under image")`)

	b.click("#to-scan")
	b.click("#scan-open")
	b.until(`document.querySelector(".slip")?.textContent === "plate-molding is kept as it stands, not saved: Open lists it."`)
	require.Equal(t, "plate-molding-2", value[string](b, `document.getElementById("file-name").textContent`))
	b.click("#save")
	b.enter("#save-name", "press cornice")
	b.state("saved")
	require.Contains(t, b.read("press-cornice.yaml"), "# Traced from plate.png")
}

// TestScanUnder lays the plate under a molding that is open: under the one that the plate is drawn from, its ink lies under the outline. Where
// nothing can be traced the crop lies there by its corner: by the scale of 200 px to the inch it is so many millimeters wide and high, its lower
// left corner stands at the drawing's zero, and three tenths of its greater side are kept round it. Both are said.
func TestScanUnder(t *testing.T) {
	cornice, err := library.Starter("profile", "press-cornice", measure.Inches)
	require.NoError(t, err)
	b := openTab(t, map[string]string{"plate.png": string(library.StarterPlate()), "press-cornice.yaml": string(cornice)}, desk)
	b.open("press-cornice.yaml")
	members := b.all(heads)
	b.click("#to-scan")
	b.click(`[data-path="plate.png"]`)
	b.until(`document.querySelector("#scan-length").getAttribute("aria-pressed") === "true"`)
	b.measure()
	b.cropTo(690, 250, 1240, 750)
	b.click("#scan-under")
	b.until(`!document.getElementById("view-section").hidden && document.querySelector("#view-section .under image")`)
	require.Equal(t, members, b.all(heads), "the molding stays as it is")
	require.Eventually(t, func() bool { return value[float64](b, underInk) > 0.9 }, time.Minute, 100*time.Millisecond, "the ink of the plate lies under the outline")
	require.Contains(t, value[string](b, `document.querySelector(".slip").textContent`), "lies as it was traced")

	b.click("#to-scan")
	for i, v := range []string{"20", "20", "90", "60"} {
		b.enter(fmt.Sprintf("#scan-crop-%d", i), v)
	}
	b.until(`document.getElementById("scan-crop-3").value === "60"`)
	b.click("#scan-under")
	b.until(`!document.getElementById("view-section").hidden && document.querySelector(".slip")?.textContent.startsWith("Nothing could be traced")`)
	box := value[[]float64](b, `(() => { const i = document.querySelector("#view-section .under image"); return ["x", "y", "width", "height"].map((k) => Number(i.getAttribute(k))); })()`)
	mm := 3 * 25.4 / math.Hypot(600, 6)
	w, h := 70*mm, 40*mm
	round := 0.3 * max(w, h)
	for i, want := range []float64{-round, -h - round, w + 2*round, h + 2*round} {
		require.InDelta(t, want, box[i], 0.5)
	}
}

// TestScanPressesNear presses corners a few pixels from one another, and a known place on one of them: each counts. A press on a corner's own mark
// takes hold of it; Delete takes the last corner back.
func TestScanPressesNear(t *testing.T) {
	b := openScan(t, desk)
	b.click("#scan-points")
	x, y := b.onPlate(700, 700)
	spots := func(kind string, n int) {
		b.until(fmt.Sprintf(`document.querySelectorAll('[data-key^="%s"]').length === %d`, kind, n))
	}
	for i, off := range []float64{0, 10, 19, 60} {
		b.do(chromedp.MouseClickXY(x+off, y))
		spots("point", i+1)
	}
	b.do(chromedp.MouseClickXY(x+60, y))
	b.until(`document.activeElement.dataset.key === "point 3"`)
	spots("point", 4)
	b.click("#scan-place")
	b.do(chromedp.MouseClickXY(x+60, y))
	spots("place", 1)
	b.click("#scan-points")
	value[bool](b, `(() => { document.querySelector("#view-scan svg.paper").focus(); return true; })()`)
	b.key(kb.Delete)
	spots("point", 3)
	b.key("z", ctrl)
	spots("point", 4)
}

// underInk is the part of the section's outline under which the plate has ink: of the picture as it lies in the drawing's millimeters.
const underInk = `(async () => { const image = document.querySelector("#view-section .under image"), path = document.querySelector("#view-section .sheet .outline");
	const picture = new Image(); picture.src = image.href.baseVal; await picture.decode();
	const canvas = document.createElement("canvas"); canvas.width = picture.naturalWidth; canvas.height = picture.naturalHeight;
	const pen = canvas.getContext("2d"); pen.drawImage(picture, 0, 0);
	const of = (name) => Number(image.getAttribute(name)), n = 400; let dark = 0;
	for (let i = 0; i < n; i++) { const p = path.getPointAtLength(path.getTotalLength() * i / n);
		const x = (p.x - of("x")) / of("width") * canvas.width, y = (-p.y - of("y")) / of("height") * canvas.height;
		dark += pen.getImageData(Math.round(x), Math.round(y), 1, 1).data[0] < 140 ? 1 : 0; }
	return dark / n; })()`

// A photograph that its camera took on its side is shown upright, as the tracer sees it: the half that was at the left stands above. The
// orientation is tag 274 of TIFF 6.0, 6 for a picture to be turned clockwise (from memory).
func TestScanPhotographUpright(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 400, 200))
	draw.Draw(img, img.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(0, 0, 200, 200), image.Black, image.Point{}, draw.Src)
	var data bytes.Buffer
	require.NoError(t, jpeg.Encode(&data, img, nil))
	segment := "\xff\xe1\x00\x22Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00\x00\x00\x00\x00"
	photograph := data.String()[:2] + segment + data.String()[2:]
	b := openTab(t, map[string]string{"photograph.jpg": photograph}, desk)
	b.click("#to-scan")
	b.click(`[data-path="photograph.jpg"]`)
	b.until(`document.querySelector(".scan-rail .quiet").textContent === "200 × 400 px"`)
	b.until(`document.querySelector("#scan-length").getAttribute("aria-pressed") === "true"`)
	shown, err := png.Decode(bytes.NewReader(b.picture()))
	require.NoError(t, err)
	gray := func(x, y float64) uint8 {
		px, py := b.onPlate(x, y)
		return color.GrayModel.Convert(shown.At(int(px), int(py))).(color.Gray).Y
	}
	require.Less(t, gray(50, 100), uint8(40))
	require.Less(t, gray(150, 100), uint8(40))
	require.Greater(t, gray(50, 300), uint8(200))
	require.Greater(t, gray(150, 300), uint8(200))
}

// TestScanByKeys does the same without a pointer: points are pressed in the middle of the board, moved by the pixel, and the crop is typed.
func TestScanByKeys(t *testing.T) {
	b := openScan(t, desk)
	b.until(`document.activeElement === document.querySelector("#view-scan svg.paper")`)
	b.key(kb.ArrowLeft)
	b.key(kb.Enter)
	b.until(`document.querySelector(".scan-hint").textContent === "Now the other end."`)
	for range 5 {
		b.key(kb.ArrowRight)
	}
	b.key(kb.Enter)
	b.until(`document.activeElement.id === "scan-length-0"`)
	spot := `document.querySelector('[data-key="from 0"]')`
	x := value[float64](b, fmt.Sprintf(`Number(%s.getAttribute("aria-label").match(/: ([\d.]+),/)[1])`, spot))
	value[bool](b, `(() => { document.querySelector('[data-key="from 0"]').focus(); return true; })()`)
	b.key(kb.ArrowRight)
	b.key(kb.ArrowRight, kb.ModifierShift)
	b.until(fmt.Sprintf(`Math.abs(Number(%s.getAttribute("aria-label").match(/: ([\d.]+),/)[1]) - %g) < 1e-6`, spot, x+11))
	b.until(`document.activeElement === ` + spot)
	b.until(`document.querySelector(".loupe").style.display === ""`)
	b.key(kb.Delete)
	b.until(`!` + spot)

	b.click("#scan-length")
	b.measure()
	for i, v := range []string{"690", "250", "1240", "750"} {
		b.enter(fmt.Sprintf("#scan-crop-%d", i), v)
	}
	value[bool](b, `(() => { document.getElementById("scan-trace").focus(); return true; })()`)
	b.key(kb.Enter)
	b.until(`document.getElementById("scan-open") && document.activeElement.id === "scan-open"`)
	b.key(kb.Enter)
	b.until(outline)
}

// TestScanFaults: a length that is none is said at its row; a crop with several sections offers each of them; corners are clicked in place of
// ink; a picture that is none is refused in words.
func TestScanFaults(t *testing.T) {
	b := openScan(t, desk)
	b.measure()
	b.enter("#scan-length-0", "three")
	b.cropTo(690, 250, 1240, 750)
	b.click("#scan-trace")
	b.until(`document.querySelector(".scan-rows .mistake:not([hidden])")?.textContent.includes("three") && document.getElementById("scan-length-0").getAttribute("aria-invalid") === "true"`)
	b.enter("#scan-length-0", "3in")
	b.cropTo(120, 180, 1240, 960)
	b.click("#scan-trace")
	b.until(`document.querySelectorAll(".one-of").length > 1`)
	b.click(".one-of")
	b.until(`document.querySelectorAll(".one-of").length === 0`)
	b.click("#scan-trace")
	b.until(`document.getElementById("scan-open")`)

	b.click("#scan-points")
	for _, p := range [][2]float64{{700, 900}, {900, 900}, {900, 700}, {700, 700}} {
		b.press(p[0], p[1])
	}
	b.until(`document.querySelectorAll('[data-key^="point"]').length === 4`)
	b.click("#scan-trace")
	b.until(`document.querySelector(".scan-members").children.length && document.querySelector(".scan-state").textContent === "Trace it anew"`)
	require.Contains(t, b.all(".scan-members dd")[0], "height 1 ")

	value[bool](b, `(() => { const d = new DataTransfer(); d.items.add(new File(["no picture"], "x.png", { type: "image/png" }));
		document.getElementById("view-scan").dispatchEvent(new DragEvent("drop", { dataTransfer: d, bubbles: true, cancelable: true })); return true; })()`)
	b.until(`document.querySelector(".slip.bad")?.textContent.includes("no picture that can be read")`)
	require.Equal(t, "plate.png", value[string](b, `document.querySelector(".scan-rail b").textContent`), "the plate stays")
}

// TestScanDrop drops a picture on the page: it is shown and traced though it is in no folder.
func TestScanDrop(t *testing.T) {
	b := openTab(t, map[string]string{"plate.png": string(library.StarterPlate())}, desk)
	value[bool](b, `fetch("/api/scan/picture", { method: "POST", headers: { "X-Token": document.querySelector('meta[name="token"]').content }, body: '{"path":"plate.png"}\n' })
		.then((r) => r.blob()).then((bytes) => { const d = new DataTransfer(); d.items.add(new File([bytes], "dropped.png", { type: "image/png" }));
		document.getElementById("view-section").dispatchEvent(new DragEvent("drop", { dataTransfer: d, bubbles: true, cancelable: true })); return true; })`)
	b.until(`document.querySelector(".scan-rail b").textContent === "dropped.png"`)
	b.until(`document.querySelector("#scan-length").getAttribute("aria-pressed") === "true"`)
	b.measure()
	b.cropTo(690, 250, 1240, 750)
	b.click("#scan-trace")
	b.until(`document.getElementById("scan-open")`)
}

// TestScanAxe: the view has no serious fault, empty, with a plate and with what was traced.
func TestScanAxe(t *testing.T) {
	script := axe(t)
	b := openTab(t, map[string]string{"plate.png": string(library.StarterPlate())}, desk)
	b.click("#to-scan")
	require.Empty(t, b.judge(script), "before a plate")
	b.click(`[data-path="plate.png"]`)
	b.until(`document.querySelector("#scan-length").getAttribute("aria-pressed") === "true"`)
	b.measure()
	b.cropTo(690, 250, 1240, 750)
	require.Empty(t, b.judge(script), "measured")
	b.click("#scan-trace")
	b.until(`document.getElementById("scan-open")`)
	b.look(look{width: 1024, height: 768, dark: true, touch: true})
	require.Empty(t, b.judge(script), "traced, dark, on a tablet")
	b.click("#scan-open")
	b.until(outline)
	require.Empty(t, b.judge(script), "in the section, over the plate")
}

// TestScanPictures leaves screenshots in the folder that LISTEL_PICTURES names, to be looked at.
func TestScanPictures(t *testing.T) {
	dir := os.Getenv("LISTEL_PICTURES")
	if dir == "" {
		t.Skip("LISTEL_PICTURES names no folder")
	}
	for _, l := range []look{desk, {width: 1024, height: 768, dark: true, touch: true}} {
		b := openTab(t, map[string]string{"plate.png": string(library.StarterPlate())}, l)
		shot := func(name string) {
			require.NoError(t, os.WriteFile(fmt.Sprintf("%s/scan-%d-%s.png", dir, l.width, name), b.picture(), 0o666))
		}
		b.click("#to-scan")
		b.until(`document.querySelector("[data-path]")`)
		shot("start")
		b.click(`[data-path="plate.png"]`)
		b.until(`document.querySelector("#scan-length").getAttribute("aria-pressed") === "true"`)
		b.press(634.5, 1032)
		x, y := b.onPlate(1234.5, 1026)
		b.do(chromedp.MouseEvent("mouseMoved", x, y))
		shot("measuring")
		b.press(1234.5, 1026)
		b.until(`document.activeElement.id === "scan-length-0"`)
		b.enter("#scan-length-0", "3in")
		b.cropTo(690, 250, 1240, 750)
		shot("cropped")
		b.click("#scan-trace")
		b.until(`document.getElementById("scan-open")`)
		shot("traced")
		b.click("#scan-worst")
		shot("worst")
		b.click("#scan-open")
		b.until(outline)
		b.choose(1)
		shot("section")
	}
}

// TestScanSteps: what is measured, cropped, said and pressed is undone step by step and done again, a drag as one step; the file that is open has no part in it.
func TestScanSteps(t *testing.T) {
	b := openScan(t, desk)
	b.measure()
	b.until(`document.querySelector(".scan-rows .reads")?.textContent === "3 in, 76.2 mm"`)
	b.enter("#scan-length-0", "76 ells")
	b.until(`document.querySelector(".scan-rows .mistake:not([hidden])")?.textContent.includes("76 ells")`)
	b.key("z", ctrl)
	b.until(`document.getElementById("scan-length-0").value === "3in" && !document.querySelector(".scan-rows .mistake:not([hidden])")`)
	b.cropTo(690, 250, 1240, 750)
	b.until(`document.getElementById("undo").title.startsWith("Undo: the crop")`)
	b.option("scan-parts", "yes")
	b.option("scan-back", "placed")
	b.until(`document.querySelector(".scan-hint").textContent.startsWith("Press on the back")`)
	b.press(700, 500)
	b.until(`document.querySelector('[data-key="back 0"]') && document.getElementById("scan-back").value === "placed"`)
	value[bool](b, `(() => { document.querySelector('[data-key="back 0"]').focus(); return true; })()`)
	at := value[string](b, `document.querySelector('[data-key="back 0"]').getAttribute("aria-label")`)
	b.key(kb.ArrowRight)
	b.key(kb.ArrowRight)
	b.until(fmt.Sprintf(`document.querySelector('[data-key="back 0"]').getAttribute("aria-label") !== %s`, js(at)))
	b.click("#undo")
	b.until(fmt.Sprintf(`document.querySelector('[data-key="back 0"]').getAttribute("aria-label") === %s`, js(at)))
	b.click("#undo")
	b.until(`!document.querySelector('[data-key="back 0"]') && document.getElementById("scan-back").value === ""`)
	b.click("#undo")
	b.until(`document.getElementById("scan-parts").value === ""`)
	b.click("#undo")
	b.until(`document.getElementById("scan-crop-0").value === "0" && !document.querySelector(".board .crop")`)
	for value[bool](b, `!document.getElementById("undo").disabled`) {
		b.click("#undo")
	}
	b.until(`!document.getElementById("scan-length-0")`)
	for value[bool](b, `!document.getElementById("redo").disabled`) {
		b.click("#redo")
	}
	b.until(`document.getElementById("scan-length-0").value === "3in" && document.getElementById("scan-parts").value === "yes" && document.querySelector('[data-key="back 0"]') && document.querySelector(".board .crop")`)
}

// TestScanNewGoesToTheSection: what is begun while the scan is shown is shown where it is composed.
func TestScanNewGoesToTheSection(t *testing.T) {
	b := openScan(t, desk)
	b.click("#new")
	b.click("dialog .first button, dialog button.first")
	b.until(`!document.getElementById("view-section").hidden && document.querySelector("#to-section").getAttribute("aria-current") === "page"`)
	b.until(outline)
}
