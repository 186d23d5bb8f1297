package template

import (
	"slices"
	"unicode"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// CutList returns the sheets to cut the pieces of a case by: a table of rough lengths, then for each molding its pieces with
// their lengths and the settings of the saw for their ends. The pages are not yet numbered.
func CutList(c miter.Case, r miter.Result, st Style) []sheet.Page {
	l := &cutList{c: c, r: r, st: st}
	pages := l.roughPages()
	for _, m := range r.Moldings {
		pages = append(pages, l.molding(m.Name, m.Pieces, m.Frame, l.cornerWords(m.Stage))...)
	}
	if len(r.Beads) > 0 {
		pages = append(pages, l.molding("beads", r.Beads, nil, "")...)
	}
	return pages
}

// A cutList composes the sheets of one case.
type cutList struct {
	c    miter.Case
	r    miter.Result
	st   Style
	book settingBook
}

// cornerWords says which corners of a stage are off and what follows from it, "" when none is.
func (l *cutList) cornerWords(stage string) string {
	for _, s := range l.r.Stages {
		if words := s.CornerWords(l.st.Lengths); s.Name == stage && words != "" {
			return sentenceStart(words) + "."
		}
	}
	return ""
}

// molding returns the sheets of one molding: what is to be said of all its pieces, them, then the settings of the saw.
func (l *cutList) molding(name string, pieces []miter.Piece, rail *miter.Frame, said string) []sheet.Page {
	l.book.next()
	title := sentenceStart(name)
	f := l.st.sheetFrame(title+": pieces to cut", sentence(piecePurpose, l.st.unitNote()))
	area := f.Area(l.st.Paper)
	key := measureKey(pieces, area.Width())
	if said != "" {
		words, _ := sheet.Paragraph{Text: said, Width: area.Width(), Size: nameSize}.Set(geom.Pt(0, key.Bounds().Min.Y-4))
		key = key.Add(words...)
	}
	strips := []strip{newStrip(key)}
	for _, p := range pieces {
		d := pieceDrawing{stick: newStick(p, nil), st: l.st, width: area.Width(), rough: l.c.Shop.Rough, settings: [2]*sawSetting{l.book.add(p, 0), l.book.add(p, 1)}}
		if p.Ends[0].Tenon > 0 || p.Ends[1].Tenon > 0 {
			d.frame = rail
		}
		strips = append(strips, newStrip(d.drawing()))
	}
	saws := l.settingStrips(area.Width(), false)
	if l.sprung() {
		f.Purpose = sentence(piecePurpose+nestedOrFlat, l.st.unitNote())
		return append(stack(strips, f, l.st.Paper), l.sprungSettings(title, saws)...)
	}
	both := l.st.sheetFrame(title+": pieces to cut, and the saw", sentence(piecePurpose, l.st.unitNote())+". "+sawPurpose)
	if all := append(strips[:len(strips):len(strips)], saws...); fits(all, both.Area(l.st.Paper)) {
		return stack(all, both, l.st.Paper)
	}
	return append(stack(strips, f, l.st.Paper), stack(saws, l.st.sheetFrame(title+": the saw", sawPurpose), l.st.Paper)...)
}

const (
	piecePurpose = "Ends drawn true, the middle broken out; boxed numbers are settings of the saw"
	nestedOrFlat = ": with N the molding is nested upside down, with F it lies flat; either will do"
	sawPurpose   = "Set the saw by a test corner in scrap, not by its scale; keep its guards on and your hands away"
)

// sprung reports whether the molding at hand can lie flat on its back.
func (l *cutList) sprung() bool {
	return slices.ContainsFunc(l.book.molding(), func(s *sawSetting) bool { return s.flat != nil })
}

// sprungSettings returns the sheets with the settings of a sprung molding, the two ways that it lies apart from each other.
func (l *cutList) sprungSettings(title string, standing []strip) []sheet.Page {
	f := l.st.sheetFrame(title+": the saw, the molding upside down", "Nested as on the case but turned over, against a stop: settings with N. Those with F make the same cuts with the molding lying flat. "+sawPurpose)
	pages := stack(standing, f, l.st.Paper)
	f = l.st.sheetFrame(title+": the saw, the molding lying flat", "On its back, face up; the miter and the bevel together: settings with F. Those with N make the same cuts with the molding nested. "+sawPurpose)
	return append(pages, stack(l.settingStrips(f.Area(l.st.Paper).Width(), true), f, l.st.Paper)...)
}

// settingStrips returns a strip for each setting of the molding at hand.
func (l *cutList) settingStrips(width float64, flat bool) []strip {
	var strips []strip
	for _, s := range l.book.molding() {
		if !flat || s.flat != nil {
			strips = append(strips, newStrip(s.strip(l.st, width, flat)))
		}
	}
	return strips
}

func sentenceStart(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return string(unicode.ToUpper(r[0])) + string(r[1:])
}

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

// fits reports whether the strips stand on one sheet.
func fits(strips []strip, area geom.Rect) bool { return fitsBy(stripGap, strips, area) }

func fitsBy(gap float64, strips []strip, area geom.Rect) bool {
	high := -gap
	for _, s := range strips {
		high += gap + s.high
	}
	return high <= area.Height()
}

// stack puts strips under one another, a line between each two, on as many sheets as they take. Of full-size sheets, those with nothing at full
// size have no bars.
func stack(strips []strip, f sheet.Frame, paper sheet.Paper) []sheet.Page {
	return stackBy(stripGap, strips, f, paper)
}

// stackBy is stack with gap as the least room between two strips.
func stackBy(gap float64, strips []strip, f sheet.Frame, paper sheet.Paper) []sheet.Page {
	area := f.Area(paper)
	var pages []sheet.Page
	for len(strips) > 0 {
		n := 1
		for n < len(strips) && fitsBy(gap, strips[:n+1], area) {
			n++
		}
		own := f
		own.FullSize = f.FullSize && slices.ContainsFunc(strips[:n], func(s strip) bool { return s.full })
		pages = append(pages, sheet.Page{Paper: paper, Frame: own, Content: column(gap, strips[:n], own.Area(paper))})
		strips = strips[n:]
	}
	return pages
}

// column puts strips under one another in the area, with what room there is between them, at least that.
func column(least float64, strips []strip, area geom.Rect) sheet.Drawing {
	high := 0.0
	for _, s := range strips {
		high += s.high
	}
	gap := least
	if n := len(strips) - 1; n > 0 {
		gap = max(least, min(14, (area.Height()-high)/float64(n)))
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

// sheetFrame returns the frame of a sheet whose drawings are not to scale.
func (st Style) sheetFrame(title, purpose string) sheet.Frame {
	return sheet.Frame{Title: title, Purpose: purpose, Source: st.Source, Printer: st.Printer}
}

// asNoted says that the scale of each drawing stands beside it.
const asNoted = "as noted"

// mixedFrame returns the frame of a sheet for stack whose drawings have their scales beside them, full size among them.
func (st Style) mixedFrame(title, purpose string) sheet.Frame {
	f := st.frame(title, purpose, asNoted)
	f.FullSize = true
	return f
}
