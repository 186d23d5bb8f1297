package sheet

import (
	"errors"
	"fmt"
	"math"

	"listel/profile/geom"
)

// A Tiling lays a drawing that may be larger than the paper on several sheets that overlap.
type Tiling struct {
	Paper   Paper
	Frame   Frame
	Overlap float64 // mm that neighbors share; 0 is 10; from 4 to 40
	Turn    bool    // may turn the paper when that takes fewer sheets
}

// A Tile is one sheet of a drawing on several.
type Tile struct {
	Name   string     // A1, A2, B1, ...: a letter for the row from the top, a figure for the column from the left; "" when it is the only one
	Window geom.Rect  // the part of the drawing that it shows
	Move   geom.Point // what to add to a point of the drawing to find it on the page, before the printer's correction
	Page   Page
}

const (
	defaultOverlap = 10.0
	crossArm       = 3.5 // of a register cross, mm, at most
	crossRing      = 1.5 // radius of the ring round its middle
)

// ErrPaperTooSmall says that the frame leaves no room to draw on.
var ErrPaperTooSmall = errors.New("the paper is too small for the frame")

// A tileGrid is how the tiles lie over the drawing.
type tileGrid struct {
	cols, rows int
	origin     geom.Point // lower left corner of the lowest left window
	w, h       float64    // of a window
	overlap    float64
}

// window returns the part of the drawing that a tile shows, rows counted from the top.
func (g tileGrid) window(row, col int) geom.Rect {
	min := g.origin.Add(geom.Pt(float64(col)*(g.w-g.overlap), float64(g.rows-1-row)*(g.h-g.overlap)))
	return geom.Rect{Min: min, Max: min.Add(geom.Pt(g.w, g.h))}
}

// cell returns the tile's own part of the drawing: its window up to the middle of each overlap.
func (g tileGrid) cell(row, col int) geom.Rect {
	r := g.window(row, col)
	half := g.overlap / 2
	if col > 0 {
		r.Min.X += half
	}
	if col < g.cols-1 {
		r.Max.X -= half
	}
	if row < g.rows-1 {
		r.Min.Y += half
	}
	if row > 0 {
		r.Max.Y -= half
	}
	return r
}

// Tiles returns the sheets of the drawing in the order of their names; tiles with nothing on them are left out. Every
// line is cut exactly at the edge of its tile; a text stands whole on each tile that holds all of it, and one that no
// tile can hold is cut like the lines. The error says that the paper is too small, or the drawing too large.
func (t Tiling) Tiles(d Drawing) ([]Tile, error) {
	if t.Overlap == 0 {
		t.Overlap = defaultOverlap
	}
	if !(t.Overlap >= 4 && t.Overlap <= 40) {
		return nil, fmt.Errorf("overlap of the tiles is %s mm; it must be from 4 to 40 mm", num(t.Overlap, 1))
	}
	if err := d.check(); err != nil {
		return nil, err
	}
	bounds := d.Bounds()
	if bounds.Empty() {
		return nil, nil
	}
	best, err := t.lay(bounds)
	if t.Turn {
		turned := t
		turned.Paper.Width, turned.Paper.Height = t.Paper.Height, t.Paper.Width
		if g, e := turned.lay(bounds); e == nil && (err != nil || g.cols*g.rows < best.cols*best.rows) {
			best, err, t = g, nil, turned
		}
	}
	if err != nil {
		return nil, err
	}
	if best.cols*best.rows == 1 {
		return t.only(d, bounds), nil
	}
	return t.cut(d, best), nil
}

// lay returns the fewest tiles that hold the bounds.
func (t Tiling) lay(bounds geom.Rect) (tileGrid, error) {
	if a := t.Frame.Area(t.Paper); fits(bounds, a) {
		return tileGrid{cols: 1, rows: 1}, nil
	}
	t.Frame.tile = &tileMark{}
	a := t.Frame.Area(t.Paper)
	if a.Empty() || a.Width() < 2*t.Overlap || a.Height() < 2*t.Overlap {
		return tileGrid{}, ErrPaperTooSmall
	}
	g := tileGrid{w: a.Width(), h: a.Height(), overlap: t.Overlap}
	count := func(extent, window float64) float64 {
		return math.Max(1, math.Ceil((extent-t.Overlap)/(window-t.Overlap)-1e-9))
	}
	cols, rows := count(bounds.Width(), g.w), count(bounds.Height(), g.h)
	if !(cols*rows <= maxPages) {
		return tileGrid{}, fmt.Errorf("the drawing would take %s x %s sheets; the limit is %d", num(cols, 0), num(rows, 0), maxPages)
	}
	g.cols, g.rows = int(cols), int(rows)
	all := geom.Pt(cols*(g.w-g.overlap)+g.overlap, rows*(g.h-g.overlap)+g.overlap)
	g.origin = bounds.Center().Sub(all.Mul(0.5))
	return g, nil
}

func fits(inner, outer geom.Rect) bool {
	return !outer.Empty() && inner.Width() <= outer.Width()+1e-9 && inner.Height() <= outer.Height()+1e-9
}

// only returns the one page of a drawing that needs no tiles, in the middle of its area.
func (t Tiling) only(d Drawing, bounds geom.Rect) []Tile {
	area := t.Frame.Area(t.Paper)
	move := area.Center().Sub(bounds.Center())
	return []Tile{{Window: bounds, Move: move, Page: Page{Paper: t.Paper, Frame: t.Frame, Content: d.At(move)}}}
}

// cut returns the pages of a drawing over several tiles.
func (t Tiling) cut(d Drawing, g tileGrid) []Tile {
	d = d.mapTexts(func(text Text) Mark {
		for row := range g.rows {
			for col := range g.cols {
				if inside(text.Bounds(), g.window(row, col)) {
					return text
				}
			}
		}
		return text.Outlines()
	})
	used := make([]bool, g.cols*g.rows)
	for i := range used {
		used[i] = d.shows(g.cell(i/g.cols, i%g.cols))
	}
	var tiles []Tile
	for i, on := range used {
		if !on {
			continue
		}
		row, col := i/g.cols, i%g.cols
		name := rowName(row) + fmt.Sprint(col+1)
		f := t.Frame
		f.tile = &tileMark{name: name, col: col, row: row, cols: g.cols, rows: g.rows, used: used}
		window := g.window(row, col)
		move := f.Area(t.Paper).Min.Sub(window.Min)
		content := d.clip(window).Add(Group{"register", g.crosses(used).clip(window)})
		tiles = append(tiles, Tile{name, window, move, Page{Paper: t.Paper, Frame: f, Content: content.At(move)}})
	}
	return tiles
}

// crosses returns the register crosses: two on each overlap between neighbors that are both printed.
func (g tileGrid) crosses(used []bool) Drawing {
	var d Drawing
	arm := min(crossArm, g.overlap/2-0.5)
	put := func(at geom.Point) {
		d = append(d, CenterMark(at, arm)...)
		d = append(d, Ring(at, min(crossRing, arm/2), PenHair))
	}
	for i, on := range used {
		row, col := i/g.cols, i%g.cols
		cell := g.cell(row, col)
		if on && col+1 < g.cols && used[i+1] {
			for _, t := range [2]float64{0.15, 0.85} {
				put(geom.Pt(cell.Max.X, cell.Min.Y+t*cell.Height()))
			}
		}
		if on && row+1 < g.rows && used[i+g.cols] {
			for _, t := range [2]float64{0.15, 0.85} {
				put(geom.Pt(cell.Min.X+t*cell.Width(), cell.Min.Y))
			}
		}
	}
	return d
}

// shows reports whether a part of the drawing lies in the cell; a text lies where its middle does.
func (d Drawing) shows(cell geom.Rect) bool {
	for _, m := range d {
		b := m.Bounds()
		if b.Empty() || !b.Overlaps(cell) {
			continue
		}
		switch m := m.(type) {
		case Text:
			if m.S != "" && cell.Contains(b.Center()) {
				return true
			}
		case Group:
			if m.Drawing.shows(cell) {
				return true
			}
		case Drawing:
			if m.shows(cell) {
				return true
			}
		default:
			if len(m.clip(cell)) > 0 {
				return true
			}
		}
	}
	return false
}

// mapTexts returns the drawing with each text, in groups too, replaced by f of it.
func (d Drawing) mapTexts(f func(Text) Mark) Drawing {
	out := make(Drawing, len(d))
	for i, m := range d {
		switch m := m.(type) {
		case Text:
			out[i] = f(m)
		case Group:
			out[i] = Group{m.Name, m.Drawing.mapTexts(f)}
		case Drawing:
			out[i] = m.mapTexts(f)
		default:
			out[i] = m
		}
	}
	return out
}

// rowName returns A, B, ... Z, AA, AB, ... for row 0, 1, ...
func rowName(row int) string {
	s := ""
	for row++; row > 0; row = (row - 1) / 26 {
		s = string(rune('A'+(row-1)%26)) + s
	}
	return s
}

// Pages returns the tiles' pages.
func Pages(tiles []Tile) []Page {
	out := make([]Page, len(tiles))
	for i, t := range tiles {
		out[i] = t.Page
	}
	return out
}
