package template

import (
	"slices"

	"listel/profile/geom"
	"listel/template/sheet"
)

// A cellGrid is how the set-ups of a plan stand on its sheets: in rows as high as they must be, their pictures to one scale, their words in one size.
type cellGrid struct {
	frame sheet.Frame
	k     float64 // mm of paper for a mm of wood
	cells []setupCell
	pages [][]cellRow
}

// A cellRow is set-ups beside each other.
type cellRow struct {
	from, to int     // set-ups, from 0, to before to
	h        float64 // mm
}

// Of a grid: the least width of a cell, mm, the most set-ups on a sheet, the scale under which fewer and larger pictures stand on a sheet, and the
// most that a row is let be higher than it must, mm.
const (
	cellWide     = 88.0
	mostCells    = 6
	smallPicture = 0.5
	rowSlack     = 25.0
)

// pictureScales are the scales of the pictures, the largest first, with their words.
var pictureScales = []struct {
	k     float64
	words string
}{{3, "3:1"}, {2, "2:1"}, {1.5, "3:2"}, {1, "1:1"}, {0.75, "3:4"}, {2.0 / 3, "2:3"}, {0.5, "1:2"}, {1.0 / 3, "1:3"}, {0.25, "1:4"}, {0.2, "1:5"}, {0.125, "1:8"}, {0.1, "1:10"}, {0.05, "1:20"}}

// grid returns the grid of a plan, on the fewest sheets that hold it with six set-ups to each; on more, down to two rows to a sheet, where the pictures would be small
// and these are larger. At full size the sheets carry the bars, where they leave the pictures the room.
func (c *setupComposer) grid(f sheet.Frame) cellGrid {
	cols := max(1, int(f.Area(c.st.Paper).Width()/cellWide))
	rows := (len(c.plan.Plan.Setups) + cols - 1) / cols
	most := max(1, mostCells/cols)
	var g cellGrid
	for sheets := (rows + most - 1) / most; sheets <= rows; sheets++ {
		if g.k > 0 && (g.k >= smallPicture || sheets > (rows+1)/2) {
			break
		}
		if larger, ok := c.gridOf(f, cols, sheets); ok && larger.k > g.k {
			g = larger
		}
	}
	if g.k == 0 { // nothing fits: each set-up by itself, as small as can be
		last := pictureScales[len(pictureScales)-1]
		g = cellGrid{frame: f, k: last.k}
		g.frame.Scale = last.words
		all, _ := c.rows(&g, 1, wordsBeside)
		for _, r := range all {
			g.pages = append(g.pages, []cellRow{r})
		}
	}
	if g.k == 1 {
		f.FullSize = true
		if full, ok := c.gridOf(f, cols, len(g.pages)); ok && full.k == 1 {
			g = full
			g.frame.Scale = ""
		}
	}
	return g
}

// gridOf returns the grid on so many sheets, at the largest scale at which they hold it with pictures and words in one of the ways; ok is false for none.
func (c *setupComposer) gridOf(f sheet.Frame, cols, sheets int) (g cellGrid, ok bool) {
	high := f.Area(c.st.Paper).Height()
	for _, s := range pictureScales {
		for _, way := range []cellWay{wordsBeside, wordsUnder} {
			g = cellGrid{frame: f, k: s.k}
			g.frame.Scale = s.words
			rows, fits := c.rows(&g, cols, way)
			if !fits {
				continue
			}
			if g.pages = paged(rows, sheets, max(1, mostCells/cols), high); g.pages != nil {
				return g, true
			}
		}
	}
	return g, false
}

// rows lays the cells of a grid out in rows; ok is false where one is not wide enough.
func (c *setupComposer) rows(g *cellGrid, cols int, way cellWay) (rows []cellRow, ok bool) {
	all := len(c.plan.Plan.Setups)
	ok = true
	wide := g.frame.Area(c.st.Paper).Width() / float64(cols)
	for from := 0; from < all; from += cols {
		r := cellRow{from: from, to: min(all, from+cols)}
		tall := 0.0
		for i := r.from; i < r.to; i++ {
			picture := setupPicture{plan: c.plan, stick: c.stick, i: i, k: g.k, st: c.st}
			box := picture.bounds()
			tall = max(tall, box.Height())
			g.cells = append(g.cells, setupCell{picture: picture, box: box, w: wide, way: way})
		}
		for i := r.from; i < r.to; i++ {
			g.cells[i].tall = tall
			h, fits := g.cells[i].needs()
			r.h, ok = max(r.h, h), ok && fits
		}
		rows = append(rows, r)
	}
	return rows, ok
}

// paged parts rows among so many sheets, no more than most and no higher than high on each, so that the sheets are filled as evenly as can be. It returns nil where they
// do not fit.
func paged(rows []cellRow, sheets, most int, high float64) [][]cellRow {
	type parting struct {
		uneven float64 // sum of the squares of the heights of the sheets
		pages  [][]cellRow
	}
	best := []parting{{}} // of the first k rows on the sheets so far; pages nil where they do not fit
	for n := range sheets {
		next := make([]parting, len(rows)+1)
		for k := 1; k <= len(rows); k++ {
			for from := max(0, k-most); from < k; from++ {
				h := height(rows[from:k])
				if h > high || n == 0 && from > 0 || n > 0 && best[from].pages == nil {
					continue
				}
				before := best[min(from, len(best)-1)]
				if sum := before.uneven + h*h; next[k].pages == nil || sum < next[k].uneven-1e-9 {
					next[k] = parting{sum, append(slices.Clone(before.pages), rows[from:k])}
				}
			}
		}
		best = next
	}
	return best[len(rows)].pages
}

func height(rows []cellRow) (h float64) {
	for _, r := range rows {
		h += r.h
	}
	return h
}

// drawing returns the rows of a sheet in its area, from the top.
func (g cellGrid) drawing(rows []cellRow, area geom.Rect) sheet.Drawing {
	slack := min(rowSlack, max(0, area.Height()-height(rows))/float64(len(rows)))
	var d sheet.Drawing
	y := area.Max.Y
	for n, r := range rows {
		if n > 0 {
			d = d.Add(sheet.Line(geom.Pt(area.Min.X, y), geom.Pt(area.Max.X, y), sheet.PenHair))
		}
		for i := r.from; i < r.to; i++ {
			d = d.Add(g.cells[i].drawing().At(geom.Pt(area.Min.X+float64(i-r.from)*g.cells[i].w, y))...)
		}
		y -= r.h + slack
	}
	return d
}
