package template

import (
	"math"
	"slices"

	"listel/profile/geom"
	"listel/template/sheet"
)

// A strip is a drawing that goes across a sheet, with its place up it.
type strip struct {
	sheet.Drawing
	top, high float64
	full      bool // something in it is drawn at full size
}

func newStrip(d sheet.Drawing) strip {
	b := d.Bounds()
	return strip{Drawing: d, top: b.Max.Y, high: b.Height()}
}

// drawnAt returns the strip, drawn at these scales: one of them may be full size.
func (s strip) drawnAt(scales ...float64) strip {
	s.full = s.full || slices.Contains(scales, 1)
	return s
}

// stripGap is the least room between two strips, mm.
const stripGap = 10.0

// closeGaps are least gaps between strips, mm, from the usual one down: closer ones keep all of them on one sheet.
var closeGaps = [...]float64{stripGap, 8, 6}

// stackFoot is the least room under the last of several strips, over the rule of the title, mm.
const stackFoot = 4.0

// fitsBy reports whether the strips stand on one sheet with a gap between them.
func fitsBy(gap float64, strips []strip, area geom.Rect) bool {
	high := -gap
	for _, s := range strips {
		high += gap + s.high
	}
	return high <= area.Height()-stackFoot
}

// stack puts strips under one another, a line between each two, on as few sheets as hold them with the closest of the gaps; where a sheet has more room, the
// gaps on it are wider. Of full-size sheets, those with nothing at full size have no bars.
func stack(strips []strip, f sheet.Frame, paper sheet.Paper) []sheet.Page {
	return stackBy(closeGaps[len(closeGaps)-1], strips, f, paper)
}

// stackBy is stack with gap as the least room between two strips.
func stackBy(gap float64, strips []strip, f sheet.Frame, paper sheet.Paper) []sheet.Page {
	var pages []sheet.Page
	for _, part := range evenly(gap, strips, f.Area(paper).Height()-stackFoot) {
		own := f
		own.FullSize = f.FullSize && slices.ContainsFunc(part, func(s strip) bool { return s.full })
		pages = append(pages, sheet.Page{Paper: paper, Frame: own, Content: column(gap, part, own.Area(paper))})
	}
	return pages
}

// evenly deals strips out in their order, on as few sheets of that height as hold them, each full before the next is begun; but no last strip stands
// alone on one where two could be half full. A strip that is higher than a sheet has one to itself.
func evenly(gap float64, strips []strip, room float64) [][]strip {
	type deal struct { // the best way to deal out the strips before one
		sheets int
		waste  float64 // the sum of the squares of what stays free, mm2; a last sheet with several strips has none
		from   int     // the first strip of the last sheet
	}
	best := make([]deal, len(strips)+1)
	for i := 1; i <= len(strips); i++ {
		best[i] = deal{sheets: math.MaxInt}
		high := -gap
		for from := i - 1; from >= 0; from-- {
			if high += gap + strips[from].high; high > room && from < i-1 {
				break
			}
			free := max(0, room-high)
			if i == len(strips) && from < i-1 {
				free = 0
			}
			d := deal{best[from].sheets + 1, best[from].waste + free*free, from}
			if d.sheets < best[i].sheets || d.sheets == best[i].sheets && d.waste < best[i].waste {
				best[i] = d
			}
		}
	}
	var out [][]strip
	for to := len(strips); to > 0; to = best[to].from {
		out = append(out, strips[best[to].from:to:to])
	}
	slices.Reverse(out)
	return out
}

// column puts strips under one another in the area, with what room there is between them, at least that, and stackFoot under the last.
func column(least float64, strips []strip, area geom.Rect) sheet.Drawing {
	high := 0.0
	for _, s := range strips {
		high += s.high
	}
	gap := least
	if n := len(strips) - 1; n > 0 {
		gap = max(least, min(14, (area.Height()-stackFoot-high)/float64(n)))
	}
	var d sheet.Drawing
	y := area.Max.Y
	for i, s := range strips {
		if i > 0 {
			d = append(d, sheet.Line(geom.Pt(area.Min.X, y-gap/2), geom.Pt(area.Max.X, y-gap/2), sheet.PenHair.WithGray(0.5)))
			y -= gap
		}
		d = append(d, s.At(geom.Pt(area.Min.X, y-s.top))...)
		y -= s.high
	}
	return d
}
