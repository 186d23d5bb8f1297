package sheet_test

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
)

// On every paper from A6 up, upright and lying, nothing of the frame comes nearer than 7 mm to the edge, meets the
// drawing's area, or prints over other words; the area is most of the page.
func TestFrameKeepsItsPlace(t *testing.T) {
	frames := []sheet.Frame{
		fullSize(),
		{Title: "Cover", Purpose: "The press in elevation and plan, and where each piece goes", Scale: "1:8", Source: "herb-press.yaml"},
		{Title: "A title so long that it must be set small or else in two lines on any paper", Purpose: strings.Repeat("purpose ", 20), FullSize: true, Source: "a-rather-long-name-of-a-file-in-a-folder/herb-press-second-try.yaml"},
		{Title: "Corrected", Purpose: "x", FullSize: true, Printer: sheet.Correction{Name: "shop laser", Across: 0.97, Up: 1.03}},
	}
	for _, name := range []string{"A6", "A5", "A4", "Letter", "A3", "ANSI D", "Arch E", "A0"} {
		for _, p := range []sheet.Paper{paper(t, name), paper(t, name).Landscape()} {
			for i, f := range frames {
				area := f.Area(p)
				if f.Sheet == 0 {
					f.Sheet, f.Of = 12, 34
				}
				require.Equal(t, area, f.Area(p), "numbering moves nothing")
				d := sheet.Page{Paper: p, Frame: f}.Drawing()
				safe := geom.Rect{Min: geom.Pt(6.99, 6.99), Max: geom.Pt(p.Width-6.99, p.Height-6.99)}
				b := d.Bounds()
				assert.True(t, safe.Contains(b.Min) && safe.Contains(b.Max), "%s, frame %d: %v", name, i, b)
				assert.Empty(t, overlapping(d), "%s, frame %d", name, i)
				for _, s := range texts(d) {
					assert.GreaterOrEqual(t, s.Size, 7.0)
				}
				if i == 3 {
					continue // its marks are moved by the correction
				}
				assert.Empty(t, d.Clip(area.Expand(-0.2)), "%s, frame %d", name, i)
				if name != "A6" && i < 2 {
					assert.Greater(t, area.Width()*area.Height(), 0.65*p.Width*p.Height, "%s, frame %d", name, i)
				}
			}
		}
	}
}

// A printer that prints 100 mm as 98.5 across and 101 up prints the corrected bars at 100 mm, on pages of either
// orientation: the paper goes through it the same way.
func TestCorrectedBarsMeasureTrue(t *testing.T) {
	c := sheet.Correction{Name: "shop laser", Across: 0.985, Up: 1.01}
	f := fullSize()
	f.Printer = c
	file := readBack(t,
		sheet.Page{Paper: paper(t, "A4"), Frame: f},
		sheet.Page{Paper: paper(t, "A4").Landscape(), Frame: f})
	upright, lying := file.Pages[0], file.Pages[1]
	assert.Equal(t, 1, straight(upright, 100/0.985, 0, 0.01))
	assert.Equal(t, 1, straight(upright, 0, 100/1.01, 0.01))
	assert.Equal(t, 1, straight(lying, 100/1.01, 0, 0.01))
	assert.Equal(t, 1, straight(lying, 0, 100/0.985, 0.01))
	words := strings.Join(strings.Fields(upright.Words()), " ")
	assert.Contains(t, words, "Corrected for the printer shop laser: +1.52% across, -0.99% up")
	assert.Contains(t, strings.Join(strings.Fields(lying.Words()), " "), "-0.99% across, +1.52% up")
	assert.Empty(t, sheet.Correction{}.Words(paper(t, "A4")))
	assert.NoError(t, sheet.Correction{}.Validate())
	assert.Error(t, sheet.Correction{Across: 1.2}.Validate())
	// The page's middle stays where it is.
	p := sheet.Page{Paper: paper(t, "A4"), Frame: sheet.Frame{Bare: true, Printer: c}, Content: sheet.Drawing{sheet.Dot(geom.Pt(105, 148.5), 1)}}
	assert.InDelta(t, 0, p.Drawing().Bounds().Center().Dist(geom.Pt(105, 148.5)), 1e-9)
}

// The frame without a title, and a bare one, draw nothing and leave the whole page.
func TestNoFrame(t *testing.T) {
	a4 := paper(t, "A4")
	for _, f := range []sheet.Frame{{}, {Title: "x", Bare: true}} {
		assert.Empty(t, sheet.Page{Paper: a4, Frame: f}.Drawing())
		assert.Equal(t, geom.Rect{Max: geom.Pt(210, 297)}, f.Area(a4))
	}
	assert.True(t, fullSize().Area(paper(t, "A10")).Empty(), "no room is an empty area")
	assert.ErrorIs(t, fullSize().Fits(paper(t, "A10")), sheet.ErrPaperTooSmall)
	assert.NoError(t, fullSize().Fits(paper(t, "A6")))
	assert.ErrorIs(t, sheet.WritePDF(io.Discard, sheet.Document{Pages: []sheet.Page{{Paper: paper(t, "A10"), Frame: fullSize()}}}), sheet.ErrPaperTooSmall)
}

// Pages get the numbers that they have not, and a document is not changed by it.
func TestNumbering(t *testing.T) {
	doc := sheet.Document{Pages: []sheet.Page{{Frame: sheet.Frame{Title: "a"}}, {Frame: sheet.Frame{Title: "b", Sheet: 7, Of: 9}}}}
	got := doc.Numbered()
	assert.Equal(t, 1, got.Pages[0].Frame.Sheet)
	assert.Equal(t, 2, got.Pages[0].Frame.Of)
	assert.Equal(t, 7, got.Pages[1].Frame.Sheet)
	assert.Zero(t, doc.Pages[0].Frame.Sheet)
}
