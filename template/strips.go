package template

import (
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/template/sheet"
)

// A tape is a long drawing at full size that runs up from the origin, cut into lengths that lie beside one another on as few sheets as they take:
// cut out and glued end to end they are whole again.
type tape struct {
	drawing sheet.Drawing
	from    float64      // of its lower end, mm
	to      float64      // of its upper end
	wide    float64      // mm, from 0 to the right
	words   [][2]float64 // from where to where words reach, which no cut may go through
	name    string       // a letter for its lengths: A1, A2, ...
}

// Sizes of a tape on a sheet, mm.
const (
	tapeFoot = 7.0 // under a length, for its name
	tapeTab  = 8.0 // over a length, which the next one is glued on
	tapeGap  = 5.0 // between two lengths
)

// A tapeLength is one length of a tape, ready for the sheet: its lower left corner at the origin.
type tapeLength struct {
	sheet.Drawing
	wide, high float64
}

// lengths cuts the tape into pieces that are at most high mm over all, between its words.
func (t tape) lengths(high float64) []tapeLength {
	cuts := t.cuts(high - tapeFoot - tapeTab)
	n := len(cuts) - 1
	var out []tapeLength
	for i := range n {
		lo, step, last := cuts[i], cuts[i+1]-cuts[i], i == n-1
		window := geom.Rect{Min: geom.Pt(-0.5, lo-0.3), Max: geom.Pt(t.wide+0.5, lo+step+0.3)}
		d := t.drawing.Clip(window).At(geom.Pt(0, tapeFoot-lo))
		d = d.Add(t.edges(step, i == 0, last)...)
		name := fmt.Sprintf("%s%d of %d", t.name, i+1, n)
		if n == 1 {
			name = t.name
		}
		d = d.Add(sheet.Text{At: geom.Pt(0, tapeFoot-2.2), S: name, Size: nameSize, Weight: sheet.Bold, Anchor: sheet.TopLeft})
		all := tapeFoot + step
		if !last {
			all += tapeTab
		}
		out = append(out, tapeLength{d, t.wide, all})
	}
	return out
}

// cuts returns where the tape is cut, both ends included, so that no length is over room and no words are cut: as even as can be.
func (t tape) cuts(room float64) []float64 {
	n := max(1, math.Ceil((t.to-t.from)/room-1e-9))
	cuts := []float64{t.from}
	for at := t.from; t.to-at > room+1e-9; {
		next := t.clear(at + min(room, max((t.to-t.from)/n, room/2)))
		if next <= at+room/4 {
			next = at + room // words taller than that: they lie over the cut
		}
		cuts = append(cuts, next)
		at = next
	}
	return append(cuts, t.to)
}

// clear returns the greatest place at or under y that is not in the middle of words.
func (t tape) clear(y float64) float64 {
	for range t.words {
		for _, w := range t.words {
			if y > w[0]-0.4 && y < w[1]+0.4 {
				y = w[0] - 0.4
			}
		}
	}
	return y
}

// edges returns the lines to cut along, and the tab over the length that the next one is glued on.
func (t tape) edges(step float64, first, last bool) sheet.Drawing {
	foot, top := tapeFoot, tapeFoot+step
	var d sheet.Drawing
	if !first {
		d = d.Add(sheet.Line(geom.Pt(0, foot), geom.Pt(t.wide, foot), sheet.PenCut))
	}
	if last {
		return d.Add(sheet.Line(geom.Pt(t.wide, foot), geom.Pt(t.wide, top), sheet.PenCut))
	}
	return d.Add(
		sheet.Line(geom.Pt(0, top), geom.Pt(t.wide, top), sheet.PenHidden),
		sheet.Line(geom.Pt(t.wide, foot), geom.Pt(t.wide, top+tapeTab), sheet.PenCut),
		sheet.Line(geom.Pt(0, top), geom.Pt(0, top+tapeTab), sheet.PenHair),
		sheet.Text{At: geom.Pt(t.wide/2, top+tapeTab/2), S: "glue the next here", Size: noteSize, Anchor: sheet.Middle},
	)
}

// tapePages lays tapes on sheets, their lengths beside one another from the left.
func tapePages(tapes []tape, f sheet.Frame, paper sheet.Paper) []sheet.Page {
	area := f.Area(paper)
	var pages []sheet.Page
	var d sheet.Drawing
	x := area.Min.X
	for _, t := range tapes {
		for _, l := range t.lengths(area.Height()) {
			if x > area.Min.X && x+l.wide > area.Max.X {
				pages = append(pages, sheet.Page{Paper: paper, Frame: f, Content: d})
				d, x = nil, area.Min.X
			}
			d = d.Add(l.At(geom.Pt(x, area.Min.Y))...)
			x += l.wide + tapeGap
		}
	}
	if len(d) > 0 {
		pages = append(pages, sheet.Page{Paper: paper, Frame: f, Content: d})
	}
	return pages
}
