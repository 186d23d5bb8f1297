package template

import (
	"fmt"
	"math"
	"slices"

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
	blanks  []blank      // stretches that are not printed, in their order
}

// A blank is a stretch of a tape with nothing on it, too long to be worth the paper. What comes after it is laid on by measure.
type blank struct {
	from, to float64
	words    string // where the foot of the length after it lies
}

// Sizes of a tape on a sheet, mm.
const (
	tapeFoot = 7.0 // under a length, for its name
	tapeTab  = 8.0 // over a length, which the next one is glued on
	tapeGap  = 5.0 // between two lengths

	tapeClear = 1.2 // from words to a cut
)

// A tapeLength is one length of a tape, ready for the sheet: its lower left corner at the origin.
type tapeLength struct {
	sheet.Drawing
	wide, high float64
}

// lengths cuts the tape into pieces that are at most high mm over all, between its words, and leaves its blanks out.
func (t tape) lengths(high float64) []tapeLength {
	type part struct {
		lo, hi      float64
		first, last bool // of a stretch without a blank
		words       string
	}
	var parts []part
	from, words := t.from, ""
	for _, b := range append(slices.Clone(t.blanks), blank{from: t.to}) {
		stretch := t
		stretch.from, stretch.to = from, b.from
		cuts := stretch.cuts(high - tapeFoot - tapeTab)
		for i := 1; i < len(cuts); i++ {
			parts = append(parts, part{cuts[i-1], cuts[i], i == 1 && words == "", i == len(cuts)-1, words})
			words = ""
		}
		from, words = b.to, b.words
	}
	var out []tapeLength
	for i, p := range parts {
		step := p.hi - p.lo
		window := geom.Rect{Min: geom.Pt(-0.5, p.lo-0.3), Max: geom.Pt(t.wide+0.5, p.hi+0.3)}
		d := t.drawing.Clip(window).At(geom.Pt(0, tapeFoot-p.lo))
		d = d.Add(t.edges(step, p.first, p.last)...)
		name := fmt.Sprintf("%s%d of %d", t.name, i+1, len(parts))
		if len(parts) == 1 {
			name = t.name
		}
		if p.words != "" {
			name += ", " + p.words
		}
		d = d.Add(sheet.Text{At: geom.Pt(0, tapeFoot-2.2), S: name, Size: nameSize, Weight: sheet.Bold, Anchor: sheet.TopLeft})
		all := tapeFoot + step
		if !p.last {
			all += tapeTab
		}
		out = append(out, tapeLength{d, max(t.wide, sheet.TextWidth(name, nameSize, sheet.Bold)), all})
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
			if y > w[0]-tapeClear && y < w[1]+tapeClear {
				y = w[0] - tapeClear
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

// without returns the tape with its blanks left out: stretches between words that are longer than least. Each ends at a whole step over the zero of the tape, and
// words names that place.
func (t tape) without(least, step float64, words func(at float64) string) tape {
	const room = 3.0 // mm, past the last words before a blank
	for i := 1; i < len(t.words); i++ {
		lo := t.words[i-1][1]
		for _, w := range t.words[:i] {
			lo = max(lo, w[1])
		}
		b := blank{from: lo + room, to: math.Floor((t.words[i][0]-room)/step) * step}
		if b.to-b.from > least {
			b.words = words(b.to)
			t.blanks = append(t.blanks, b)
		}
	}
	return t
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
