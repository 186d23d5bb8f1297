package sheet_test

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
	"listel/template/sheet/sheettest"
)

func paper(t testing.TB, name string) sheet.Paper {
	t.Helper()
	p, err := sheet.PaperNamed(name)
	require.NoError(t, err)
	return p
}

func pdfBytes(t testing.TB, pages ...sheet.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, sheet.WritePDF(&b, sheet.Document{Title: "Low press", Pages: pages}))
	return b.Bytes()
}

func readBack(t testing.TB, pages ...sheet.Page) *sheettest.File {
	t.Helper()
	f, err := sheettest.ReadPDF(pdfBytes(t, pages...))
	require.NoError(t, err)
	require.Len(t, f.Pages, len(pages))
	return f
}

func fullSize() sheet.Frame {
	return sheet.Frame{
		Title: "Waist molding, section", Purpose: "Section at full size with its members.",
		FullSize: true, Source: "herb-press.yaml",
	}
}

// bare is a page with a drawing and no frame.
func bare(p sheet.Paper, d sheet.Drawing) sheet.Page {
	return sheet.Page{Paper: p, Frame: sheet.Frame{Bare: true}, Content: d}
}

// straight returns the lines of a page that run level (dx) or upright (dy) by the length, within tol mm.
func straight(p sheettest.Page, dx, dy, tol float64) int {
	n := 0
	for _, path := range p.Paths {
		for _, r := range path.Runs {
			d := r.Curves[len(r.Curves)-1].End.Sub(r.Start)
			if len(r.Curves) == 1 && math.Abs(math.Abs(d.X)-dx) <= tol && math.Abs(math.Abs(d.Y)-dy) <= tol {
				n++
			}
		}
	}
	return n
}

// The bars of a full-size page, read back from the file, are 100 mm and 4 in (101.6 mm) both across and up.
func TestBarsMeasureTrue(t *testing.T) {
	f := readBack(t,
		sheet.Page{Paper: paper(t, "A4"), Frame: fullSize()},
		sheet.Page{Paper: paper(t, "Letter landscape"), Frame: fullSize()})
	for _, p := range f.Pages {
		assert.Equal(t, 1, straight(p, 100, 0, 0.01))
		assert.Equal(t, 1, straight(p, 0, 100, 0.01))
		assert.Equal(t, 1, straight(p, 101.6, 0, 0.01))
		assert.Equal(t, 1, straight(p, 0, 101.6, 0.01))
	}
}

// Circular arcs stay within 0.001 mm of the circle, at a radius of 500 mm and at small ones.
func TestArcsInPDF(t *testing.T) {
	for _, r := range []float64{0.5, 3, 25, 500} {
		for _, sweep := range []geom.Angle{17, 90, 180, 360, -300} {
			c := geom.Pt(600, 600)
			arc := geom.Arc{Center: c, Radius: r, From: 33 * geom.Degree, Sweep: sweep * geom.Degree}
			f := readBack(t, bare(sheet.Paper{Width: 1200, Height: 1200}, sheet.Drawing{sheet.Stroke{Path: geom.Path{arc}, Pen: sheet.PenThin}}))
			require.Len(t, f.Pages[0].Paths, 1)
			pts := f.Pages[0].Paths[0].Points(64)
			for _, q := range pts {
				require.InDelta(t, r, q.Dist(c), 0.001, "r %v sweep %v", r, sweep)
			}
			assert.InDelta(t, 0, pts[0].Dist(arc.Start()), 0.001)
			assert.InDelta(t, 0, pts[len(pts)-1].Dist(arc.End()), 0.001)
			length := 0.0
			for i := 1; i < len(pts); i++ {
				length += pts[i].Dist(pts[i-1])
			}
			assert.InEpsilon(t, arc.Length(), length, 1e-3, "the whole arc is there")
		}
	}
}

// A molding-like outline of lines, arcs and an ellipse is drawn within 0.01 mm of the geometry, both ways.
func TestOutlineInPDF(t *testing.T) {
	p := molding()
	f := readBack(t, bare(paper(t, "A4"), sheet.Drawing{sheet.Stroke{Path: p, Pen: sheet.PenOutline}}))
	drawn := f.Pages[0].Paths[0]
	require.True(t, drawn.Runs[0].Closed)
	for _, q := range drawn.Points(40) {
		_, _, d := p.Nearest(q)
		require.Less(t, d, 0.01)
	}
	pts := drawn.Points(200)
	for s := 0.0; s < float64(len(p)); s += 0.05 {
		q, best := p.At(s), math.Inf(1)
		for _, d := range pts {
			best = math.Min(best, d.Dist(q))
		}
		require.Less(t, best, 0.3, "nothing of the outline is missing at %v", s)
	}
}

// molding is an outline with every kind of segment, off the grid that files are rounded to.
func molding() geom.Path {
	const e = 1. / 3
	return geom.Path{
		geom.Line{A: geom.Pt(20, 100), B: geom.Pt(36+e, 100)}, geom.Line{A: geom.Pt(36+e, 100), B: geom.Pt(36+e, 106)},
		geom.Arc{Center: geom.Pt(52+e, 106), Radius: 16, From: 180 * geom.Degree, Sweep: -90 * geom.Degree},
		geom.Line{A: geom.Pt(52+e, 122), B: geom.Pt(52+e, 128)},
		geom.EllipticArc{Center: geom.Pt(52+e, 140), RX: 20, RY: 12, From: -90 * geom.Degree, Sweep: 90 * geom.Degree},
		geom.Line{A: geom.Pt(72+e, 140), B: geom.Pt(72+e, 146)}, geom.Line{A: geom.Pt(72+e, 146), B: geom.Pt(20, 146)},
		geom.Line{A: geom.Pt(20, 146), B: geom.Pt(20, 100)},
	}
}

// Page boxes are the papers' sizes to 1e-4 mm, mixed in one file.
func TestPageBoxes(t *testing.T) {
	var pages []sheet.Page
	for _, name := range sheet.PaperNames() {
		p := paper(t, name)
		pages = append(pages, bare(p, nil), bare(p.Landscape(), nil))
	}
	f := readBack(t, pages...)
	for i, p := range pages {
		assert.InDelta(t, p.Paper.Width, f.Pages[i].Width, 1e-4, p.Paper.Name)
		assert.InDelta(t, p.Paper.Height, f.Pages[i].Height, 1e-4, p.Paper.Name)
	}
}

// The viewer is asked for no scaling (ISO 32000-1 Table 150, PrintScaling None), language and title are set, and no
// dates are in the file.
func TestPDFMetadata(t *testing.T) {
	data := pdfBytes(t, sheet.Page{Paper: paper(t, "A4"), Frame: fullSize()})
	f, err := sheettest.ReadPDF(data)
	require.NoError(t, err)
	assert.Equal(t, sheettest.Name("None"), f.Catalog()["ViewerPreferences"].(sheettest.Dict)["PrintScaling"])
	assert.Equal(t, "en-US", sheettest.TextString(f.Catalog()["Lang"]))
	assert.Equal(t, "Low press", f.Info("Title"))
	assert.NotContains(t, string(data), "Date")
	assert.NotNil(t, f.Trailer["ID"])
	assert.Contains(t, f.Pages[0].Words(), "sheet 1 of 1")
	assert.Contains(t, f.Pages[0].Words(), "herb-press.yaml")
	assert.Contains(t, f.Pages[0].Words(), "full size")
}

// A title outside ASCII comes back whole.
func TestPDFTitleInAnyScript(t *testing.T) {
	var b bytes.Buffer
	doc := sheet.Document{Title: `Käsebrett (½) \ 棚`, Lang: "de", Pages: []sheet.Page{bare(paper(t, "A5"), nil)}}
	require.NoError(t, sheet.WritePDF(&b, doc))
	f, err := sheettest.ReadPDF(b.Bytes())
	require.NoError(t, err)
	assert.Equal(t, doc.Title, f.Info("Title"))
	assert.Equal(t, "de", sheettest.TextString(f.Catalog()["Lang"]))
}

// everything is a page with each kind of mark on it.
func everything(t testing.TB) sheet.Page {
	img := image.NewGray(image.Rect(0, 0, 4, 3))
	for i := range img.Pix {
		img.Pix[i] = uint8(i * 20)
	}
	img.SetGray(0, 0, color.Gray{255})
	p := molding()
	return sheet.Page{Paper: paper(t, "A4"), Frame: fullSize(), Content: sheet.Drawing{
		sheet.Group{Name: "section", Drawing: sheet.Drawing{sheet.EndGrain(p), sheet.Stroke{Path: p, Pen: sheet.PenOutline}}},
		sheet.PictureIn(img, geom.Rect{Min: geom.Pt(100, 200), Max: geom.Pt(140, 230)}),
		sheet.Fill{Paths: []geom.Path{geom.Circle(geom.Pt(120, 170), 10), geom.Circle(geom.Pt(120, 170), 6)}, Gray: 0.5},
		sheet.Ring(geom.Pt(120, 120), 15, sheet.PenCut),
		sheet.Text{At: geom.Pt(60, 115), S: "1 3/4 in", Anchor: sheet.Middle, Halo: true},
		sheet.Text{At: geom.Pt(160, 115), S: "bold & up ½ 7⁄16", Angle: 90 * geom.Degree, Weight: sheet.Bold, Gray: 0.3},
	}}
}

// The same page gives the same bytes when it is written again a second later: no clock is in the file or its fonts.
func TestSameBytesLater(t *testing.T) {
	page := everything(t)
	write := func() [3][]byte {
		var svg, png bytes.Buffer
		require.NoError(t, sheet.WriteSVG(&svg, page))
		require.NoError(t, sheet.WritePNG(&png, page, 3))
		return [3][]byte{pdfBytes(t, page, page), svg.Bytes(), png.Bytes()}
	}
	first := write()
	time.Sleep(1100 * time.Millisecond) // dates in fonts and files count seconds
	for i, again := range write() {
		assert.True(t, bytes.Equal(first[i], again), "%s", [3]string{"PDF", "SVG", "PNG"}[i])
	}
}

// Dashes come out in mm, and the shade of each mark as it was asked for.
func TestPensInPDF(t *testing.T) {
	pens := []sheet.Pen{sheet.PenOutline, sheet.PenThin, sheet.PenHair.WithGray(0.6), sheet.PenCut, sheet.PenHidden, sheet.PenCenter}
	var d sheet.Drawing
	for i, p := range pens {
		d = d.Add(sheet.Line(geom.Pt(10, 10+float64(i)), geom.Pt(100, 10+float64(i)), p))
	}
	f := readBack(t, bare(paper(t, "A4"), d))
	for i, p := range pens {
		got := f.Pages[0].Paths[i]
		assert.InDelta(t, p.Width, got.Width, 1e-6)
		assert.InDelta(t, p.Gray, got.Gray, 0.01)
		want := p.Dash[:]
		switch {
		case p.Dash[0] == 0:
			want = nil
		case p.Dash[2] == 0:
			want = p.Dash[:2]
		}
		require.Len(t, got.Dashes, len(want))
		for k := range want {
			assert.InDelta(t, want[k], got.Dashes[k], 1e-6)
		}
	}
}

// Documents that cannot be printed are errors, never files.
func TestBadDocuments(t *testing.T) {
	var b bytes.Buffer
	a4 := paper(t, "A4")
	for name, doc := range map[string]sheet.Document{
		"no pages":     {},
		"tiny paper":   {Pages: []sheet.Page{bare(sheet.Paper{Name: "x", Width: 10, Height: 300}, nil)}},
		"huge paper":   {Pages: []sheet.Page{bare(sheet.Paper{Name: "x", Width: 6000, Height: 300}, nil)}},
		"no number":    {Pages: []sheet.Page{bare(sheet.Paper{Name: "x", Width: math.NaN(), Height: 300}, nil)}},
		"bad printer":  {Pages: []sheet.Page{{Paper: a4, Frame: sheet.Frame{Title: "x", Printer: sheet.Correction{Across: 0.8}}}}},
		"many sheets":  {Pages: make([]sheet.Page, 401)},
		"lost point":   {Pages: []sheet.Page{bare(a4, sheet.Drawing{sheet.Group{Name: "g", Drawing: sheet.Drawing{sheet.Line(geom.Pt(1, 2), geom.Pt(math.NaN(), 3), sheet.PenThin)}}})}},
		"far point":    {Pages: []sheet.Page{bare(a4, sheet.Drawing{sheet.Text{At: geom.Pt(math.Inf(1), 2), S: "x"}})}},
		"later sheets": {Pages: []sheet.Page{bare(a4, nil), {}}},
	} {
		assert.Error(t, sheet.WritePDF(&b, doc), name)
	}
	assert.Zero(t, b.Len())
	assert.Error(t, sheet.WriteSVG(&b, sheet.Page{}))
	assert.Error(t, sheet.WritePNG(&b, sheet.Page{}, 4))
	assert.Error(t, sheet.WritePNG(&b, bare(a4, nil), 0))
	assert.ErrorContains(t, sheet.WritePNG(&b, bare(a4, nil), 90), "100")
	assert.Zero(t, b.Len())
}

// Several goroutines may write at once: a server does.
func TestWritersMayRunTogether(t *testing.T) {
	page := everything(t)
	want := pdfBytes(t, page)
	for i := range 4 {
		t.Run("", func(t *testing.T) {
			t.Parallel()
			for range 3 {
				assert.True(t, bytes.Equal(want, pdfBytes(t, page)), "%d", i)
				var b bytes.Buffer
				assert.NoError(t, sheet.WritePNG(&b, page, 2))
			}
		})
	}
}
