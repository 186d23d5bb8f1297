package template

import (
	"fmt"
	"math"
	"slices"

	"listel/profile/geom"
	"listel/template/sheet"
)

// A tape is a long drawing at full size that runs up from the origin, cut into lengths that lie beside one another on as few sheets as they take:
// cut out and glued end to end they are whole again. Each bears its name and where it begins, so that one that is out of the row is still of use.
type tape struct {
	drawing sheet.Drawing
	from    float64                 // of its lower end, mm
	to      float64                 // of its upper end
	wide    float64                 // mm, from 0 to the right
	words   [][2]float64            // from where to where words reach, which no cut may go through
	name    string                  // a letter for its lengths: A1, A2, ...
	blanks  []blank                 // stretches that are not printed, in their order
	step    float64                 // mm: a length begins at a whole number of them, 0 for anywhere
	begins  func(at float64) string // says where a length begins
	across  bool                    // it is used, and so printed, lying: turned so that its lower end is at the left, its edge uppermost
}

// A blank is a stretch of a tape with nothing on it, too long to be worth the paper. What comes after it is laid on by measure.
type blank struct{ from, to float64 }

// Sizes of a tape on a sheet, mm.
const (
	tapeTab   = 8.0  // over a length, which the next one is glued on
	tapeGap   = 5.0  // between two lengths
	tapeLeast = 30.0 // of a length, so that its name stands on it

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
		lo, hi float64
		last   bool // of a stretch without a blank
	}
	var parts []part
	from := t.from
	for _, b := range append(slices.Clone(t.blanks), blank{from: t.to}) {
		stretch := t
		stretch.from, stretch.to = from, b.from
		cuts := stretch.cuts(high - tapeTab)
		for i := 1; i < len(cuts); i++ {
			parts = append(parts, part{cuts[i-1], cuts[i], i == len(cuts)-1})
		}
		from = b.to
	}
	names, deepest := make([]sheet.Paragraph, len(parts)), 0.0
	for i, p := range parts {
		text := fmt.Sprintf("%s%d of %d", t.name, i+1, len(parts))
		if len(parts) == 1 {
			text = t.name
		}
		names[i] = sheet.Paragraph{Text: text + ", " + t.begins(p.lo), Size: figureSize, Weight: sheet.Bold, Width: p.hi - p.lo - 3}
		deepest = max(deepest, names[i].Height())
	}
	whole := t
	whole.wide += deepest + 2
	var out []tapeLength
	for i, p := range parts {
		window := geom.Rect{Min: geom.Pt(-0.5, p.lo-0.3), Max: geom.Pt(t.wide+0.5, p.hi+0.3)}
		words, _ := names[i].Set(geom.Pt(1.5, -t.wide))
		d := t.drawing.Clip(window).At(geom.Pt(0, -p.lo)).Add(words.Quarter()...).Add(whole.edges(p.hi-p.lo, p.last)...)
		l := tapeLength{d, whole.wide, p.hi - p.lo}
		if !p.last {
			l.high += tapeTab
		}
		if t.across {
			l = tapeLength{d.Moved(geom.Affine{B: -1, C: 1, F: whole.wide}), l.high, l.wide}
		}
		out = append(out, l)
	}
	return out
}

// cuts returns where the tape is cut, both ends included, so that no length is over room and no words are cut: as even as can be.
func (t tape) cuts(room float64) []float64 {
	n := max(1, math.Ceil((t.to-t.from)/room-1e-9))
	cuts := []float64{t.from}
	for at := t.from; t.to-at > room+1e-9; {
		next := t.whole(at + min(room, max((t.to-t.from)/n, room/2)))
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

// whole returns the greatest place at or under y that is a whole number of steps and not in the middle of words; one that is only the latter where no step is
// clear.
func (t tape) whole(y float64) float64 {
	free := t.clear(y)
	if t.step == 0 {
		return free
	}
	for at := free; at > t.from; at = t.clear(at) {
		if at = math.Floor(at/t.step+1e-9) * t.step; t.clear(at) == at {
			return at
		}
	}
	return free
}

// edges returns the lines to cut along, and the tab over the length that the next one is glued on.
func (t tape) edges(long float64, last bool) sheet.Drawing {
	if last {
		return sheet.Drawing{sheet.Box(geom.Rect{Max: geom.Pt(t.wide, long)}, sheet.PenCut)}
	}
	glue := sheet.Text{At: geom.Pt(t.wide/2, long+tapeTab/2), S: "glue the next here", Size: noteSize, Anchor: sheet.Middle}
	if t.across && glue.Width() > t.wide-2 {
		glue.S = "glue here"
	}
	return sheet.Drawing{sheet.Box(geom.Rect{Max: geom.Pt(t.wide, long+tapeTab)}, sheet.PenCut), sheet.Line(geom.Pt(0, long), geom.Pt(t.wide, long), sheet.PenHidden), glue}
}

// without returns the tape with its blanks left out: stretches between words that are longer than least. Each ends at a whole step over the zero of the tape.
func (t tape) without(least float64) tape {
	const room = 3.0 // mm, past the last words before a blank
	begun := t.from
	for i := 1; i < len(t.words); i++ {
		lo := t.words[i-1][1]
		for _, w := range t.words[:i] {
			lo = max(lo, w[1])
		}
		b := blank{from: max(lo+room, begun+tapeLeast), to: math.Floor(min(t.words[i][0]-room, t.to-tapeLeast)/t.step) * t.step}
		if b.to-b.from > least {
			t.blanks = append(t.blanks, b)
			begun = b.to
		}
	}
	return t
}

// tapePages lays tapes on sheets, their lengths beside one another from the left; those that lie in rows from the top, over the ones that stand where there is room.
func tapePages(tapes []tape, f sheet.Frame, paper sheet.Paper) []sheet.Page {
	area := f.Area(paper)
	p := tapeSheet{page: sheet.Page{Paper: paper, Frame: f}, area: area}
	p.begin()
	for _, t := range tapes {
		if t.across {
			for _, l := range t.lengths(area.Width()) {
				p.lay(l)
			}
			continue
		}
		for _, l := range t.lengths(area.Height()) {
			p.stand(l)
		}
	}
	return p.whole()
}

// A tapeSheet is the sheet that lengths of tapes are being laid on, with those before it.
type tapeSheet struct {
	page  sheet.Page
	area  geom.Rect
	pages []sheet.Page
	next  float64    // x of the next length that stands
	high  float64    // y over those
	row   geom.Point // the upper left corner of the next length that lies
	under float64    // y under those of its row
}

// begin begins a new sheet.
func (p *tapeSheet) begin() {
	if len(p.page.Content) > 0 {
		p.pages = append(p.pages, p.page)
	}
	p.page.Content = nil
	p.next, p.high = p.area.Min.X, p.area.Min.Y
	p.row, p.under = geom.Pt(p.area.Min.X, p.area.Max.Y), p.area.Max.Y
}

// stand puts a length at the foot of the sheet.
func (p *tapeSheet) stand(l tapeLength) {
	if p.next > p.area.Min.X && p.next+l.wide > p.area.Max.X || p.under < p.area.Max.Y {
		p.begin()
	}
	p.page.Content = p.page.Content.Add(l.At(geom.Pt(p.next, p.area.Min.Y))...)
	p.next, p.high = p.next+l.wide+tapeGap, max(p.high, p.area.Min.Y+l.high+tapeGap)
}

// lay puts a length into a row.
func (p *tapeSheet) lay(l tapeLength) {
	if p.row.X > p.area.Min.X && p.row.X+l.wide > p.area.Max.X+1e-9 {
		p.row = geom.Pt(p.area.Min.X, p.under-tapeGap)
	}
	if p.row.Y-l.high < p.high && len(p.page.Content) > 0 {
		p.begin()
	}
	p.page.Content = p.page.Content.Add(l.At(geom.Pt(p.row.X, p.row.Y-l.high))...)
	p.row.X, p.under = p.row.X+l.wide+tapeGap, p.row.Y-l.high
}

// whole returns all the sheets.
func (p *tapeSheet) whole() []sheet.Page {
	p.begin()
	return p.pages
}
