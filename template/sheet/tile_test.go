package sheet_test

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
)

// large is a drawing of several sheets' size with every kind of mark, texts across the seams among them.
func large() sheet.Drawing {
	p := molding().Translate(geom.Pt(-20, -100)).Transform(geom.Scaling(7, 7))
	d := sheet.Drawing{
		sheet.EndGrain(p), sheet.Stroke{Path: p, Pen: sheet.PenOutline},
		sheet.Ring(geom.Pt(180, 160), 130, sheet.PenCut),
		sheet.Fill{Paths: []geom.Path{geom.Circle(geom.Pt(170, 250), 40), geom.Circle(geom.Pt(180, 250), 20)}, Gray: 0.5},
		sheet.Text{At: geom.Pt(20, 100), S: "this face to the case, and this line of words is longer than any sheet is wide, so that it must be cut", Size: 16},
		sheet.Group{Name: "note", Drawing: sheet.Drawing{sheet.Text{At: geom.Pt(182, 40), S: "joint", Anchor: sheet.Middle, Halo: true}}},
	}
	return d
}

func tiles(t testing.TB, overlap float64, d sheet.Drawing) []sheet.Tile {
	t.Helper()
	ts, err := sheet.Tiling{Paper: paper(t, "A4"), Frame: fullSize(), Overlap: overlap}.Tiles(d)
	require.NoError(t, err)
	return ts
}

// strokes returns the strokes of a drawing, groups opened.
func strokes(d sheet.Drawing) (out []sheet.Stroke) {
	for _, m := range d {
		switch m := m.(type) {
		case sheet.Stroke:
			out = append(out, m)
		case sheet.Group:
			if m.Name != "register" {
				out = append(out, strokes(m.Drawing)...)
			}
		case sheet.Drawing:
			out = append(out, strokes(m)...)
		}
	}
	return out
}

// Every point of the outline is on a tile, where it belongs, and every point on a tile is on the outline.
func TestTilesTogetherAreTheOutline(t *testing.T) {
	p := molding().Transform(geom.Scaling(7, 7))
	ts := tiles(t, 0, sheet.Drawing{sheet.Stroke{Path: p, Pen: sheet.PenOutline}})
	require.Greater(t, len(ts), 3)
	for _, tile := range ts {
		for _, s := range strokes(tile.Page.Content) {
			for i := 0.0; i < float64(len(s.Path)); i += 0.1 {
				_, _, d := p.Nearest(s.Path.At(i).Sub(tile.Move))
				require.Less(t, d, 1e-6)
			}
		}
	}
	for i := 0.0; i < float64(len(p)); i += 0.01 {
		q, best := p.At(i), math.Inf(1)
		for _, tile := range ts {
			for _, s := range strokes(tile.Page.Content) {
				_, _, d := s.Path.Nearest(q.Add(tile.Move))
				best = math.Min(best, d)
			}
		}
		require.Less(t, best, 1e-6, "point %v is on no tile", q)
	}
}

// raster draws at 4 dots to the mm with the given point at the lower left corner.
func raster(t testing.TB, d sheet.Drawing, origin geom.Point, w, h float64) *image.RGBA {
	t.Helper()
	var b bytes.Buffer
	page := bare(sheet.Paper{Width: w, Height: h}, d.At(geom.Point{}.Sub(origin)))
	require.NoError(t, sheet.WritePNG(&b, page, 4))
	img, err := png.Decode(&b)
	require.NoError(t, err)
	return img.(*image.RGBA)
}

// The tiles, each moved back to where it belongs and laid over one another, make the same picture as the drawing:
// hatching, dashes, fills and cut lettering too.
func TestTilesTogetherAreThePicture(t *testing.T) {
	d := large()
	ts := tiles(t, 0, d)
	b := d.Bounds().Expand(5)
	var together sheet.Drawing
	for _, tile := range ts {
		for _, m := range tile.Page.Content {
			if g, ok := m.(sheet.Group); ok && g.Name == "register" {
				continue
			}
			together = together.Place(sheet.Drawing{m}, geom.Translation(geom.Point{}.Sub(tile.Move)))
		}
	}
	want, got := raster(t, d, b.Min, b.Width(), b.Height()), raster(t, together, b.Min, b.Width(), b.Height())
	require.Equal(t, want.Rect, got.Rect)
	wrong, ink := 0, 0
	for i := 0; i < len(want.Pix); i += 4 {
		if want.Pix[i] < 128 {
			ink++
		}
		if d := int(want.Pix[i]) - int(got.Pix[i]); d > 110 || d < -110 {
			wrong++
		}
	}
	require.Greater(t, ink, 10000)
	assert.Less(t, wrong, ink/500, "of %d dots of ink", ink)
}

// Nothing of the content leaves the tile's area: the margins stay clean, as read back from the file.
func TestNothingOutsideTheMargins(t *testing.T) {
	frame := fullSize()
	for _, tile := range tiles(t, 0, large()) {
		page := tile.Page
		f := readBack(t, page)
		base := readBack(t, sheet.Page{Paper: page.Paper, Frame: page.Frame})
		area := page.Frame.Area(page.Paper).Expand(0.001)
		assert.Equal(t, area.Min.X, frame.Area(page.Paper).Expand(0.001).Min.X)
		// The first paths of the page are those of its frame.
		for _, p := range f.Pages[0].Paths[len(base.Pages[0].Paths):] {
			b := p.Bounds()
			require.True(t, area.Contains(b.Min) && area.Contains(b.Max), "%s: %v leaves %v", tile.Name, b, area)
		}
		assert.Subset(t, tileNames(page), []string{tile.Name})
	}
}

func tileNames(p sheet.Page) (out []string) {
	for _, t := range texts(p.Drawing()) {
		out = append(out, t.S)
	}
	return out
}

// Neighbors show the same register crosses at the same points of the drawing.
func TestRegisterCrosses(t *testing.T) {
	ts := tiles(t, 12, large())
	at := map[string][]geom.Point{}
	for _, tile := range ts {
		for _, m := range tile.Page.Content {
			if g, ok := m.(sheet.Group); ok && g.Name == "register" {
				for _, mark := range g.Drawing {
					if s, ok := mark.(sheet.Stroke); ok && s.Path.Closed(1e-6) {
						at[tile.Name] = append(at[tile.Name], s.Bounds().Center().Sub(tile.Move))
					}
				}
			}
		}
	}
	shared := func(a, b string) (n int) {
		for _, p := range at[a] {
			for _, q := range at[b] {
				if p.Near(q, 1e-9) {
					n++
				}
			}
		}
		return n
	}
	assert.Equal(t, 2, shared("A1", "A2"))
	assert.Equal(t, 2, shared("A1", "B1"))
	assert.Zero(t, shared("A1", "B2"))
}

func TestTileNamesAndOrder(t *testing.T) {
	ts := tiles(t, 0, sheet.Drawing{sheet.Box(geom.Rect{Max: geom.Pt(400, 600)}, sheet.PenThin)})
	var names []string
	for _, tile := range ts {
		names = append(names, tile.Name)
	}
	assert.Equal(t, []string{"A1", "A2", "A3", "B1", "B3", "C1", "C2", "C3"}, names, "the middle of the box has nothing on it")
	assert.Greater(t, ts[0].Window.Min.Y, ts[3].Window.Min.Y, "row A is the top one")
	assert.InDelta(t, 10, ts[0].Window.Max.X-ts[1].Window.Min.X, 1e-9, "they share 10 mm")
}

// A drawing that fits is one page without tiles, in the middle; turned paper is used when that saves sheets.
func TestSmallDrawingsAndTurning(t *testing.T) {
	box := func(w, h float64) sheet.Drawing {
		return sheet.Drawing{sheet.Box(geom.Rect{Max: geom.Pt(w, h)}, sheet.PenThin)}
	}
	ts := tiles(t, 0, box(100, 100))
	require.Len(t, ts, 1)
	assert.Empty(t, ts[0].Name)
	assert.InDelta(t, 0, ts[0].Page.Content.Bounds().Center().Dist(fullSize().Area(paper(t, "A4")).Center()), 1e-9)
	turn := sheet.Tiling{Paper: paper(t, "A4"), Frame: fullSize(), Turn: true}
	ts, err := turn.Tiles(box(250, 100))
	require.NoError(t, err)
	require.Len(t, ts, 1)
	assert.Greater(t, ts[0].Page.Paper.Width, ts[0].Page.Paper.Height)
	none, err := turn.Tiles(nil)
	assert.NoError(t, err)
	assert.Empty(t, none)
}

func TestTilingErrors(t *testing.T) {
	box := sheet.Drawing{sheet.Box(geom.Rect{Max: geom.Pt(2e4, 2e4)}, sheet.PenThin)}
	_, err := sheet.Tiling{Paper: paper(t, "A10"), Frame: fullSize()}.Tiles(box)
	assert.ErrorIs(t, err, sheet.ErrPaperTooSmall)
	_, err = sheet.Tiling{Paper: paper(t, "A4"), Frame: fullSize()}.Tiles(box)
	assert.ErrorContains(t, err, "400")
	_, err = sheet.Tiling{Paper: paper(t, "A4"), Frame: fullSize(), Overlap: math.NaN()}.Tiles(box)
	assert.ErrorContains(t, err, "overlap")
	lost := sheet.Drawing{sheet.Line(geom.Pt(0, 0), geom.Pt(math.NaN(), 0), sheet.PenThin)}
	_, err = sheet.Tiling{Paper: paper(t, "A4"), Frame: fullSize()}.Tiles(lost)
	assert.ErrorIs(t, err, sheet.ErrNotFinite)
}
