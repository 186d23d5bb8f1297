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
		pages = append(pages, l.molding(m.Name, m.Pieces, m.Frame)...)
	}
	if len(r.Beads) > 0 {
		pages = append(pages, l.molding("beads", r.Beads, nil)...)
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

// molding returns the sheets of one molding: its pieces, then the settings of the saw.
func (l *cutList) molding(name string, pieces []miter.Piece, rail *miter.Frame) []sheet.Page {
	l.book.next()
	title := sentenceStart(name)
	f := l.st.sheetFrame(title+": pieces to cut", sentence(piecePurpose, l.st.unitNote()))
	area := f.Area(l.st.Paper)
	var strips []sheet.Drawing
	strips = append(strips, measureKey(pieces, area.Width()))
	for _, p := range pieces {
		d := pieceDrawing{stick: newStick(p, nil), st: l.st, width: area.Width(), settings: [2]int{l.book.add(p, 0), l.book.add(p, 1)}}
		if p.Ends[0].Tenon > 0 || p.Ends[1].Tenon > 0 {
			d.frame = rail
		}
		strips = append(strips, d.drawing())
	}
	if saws := l.settingStrips(area.Width(), false); !l.sprung() {
		f := l.st.sheetFrame(title+": pieces to cut, and the saw", sentence(piecePurpose, sawPurpose, l.st.unitNote()))
		if pages := stack(append(strips, saws...), f, l.st.Paper); len(pages) == 1 {
			return pages
		}
	}
	return append(stack(strips, f, l.st.Paper), l.settings(title)...)
}

const piecePurpose = "Ends drawn true, the middle broken out; boxed numbers are settings of the saw"

// settings returns the sheets with the settings of the molding at hand, the two ways that a sprung one lies apart from each other.
func (l *cutList) settings(title string) []sheet.Page {
	if !l.sprung() {
		return l.settingPages(title+": the saw", sawPurpose, false)
	}
	pages := l.settingPages(title+": the saw, the molding upside down", "Nested as on the case but turned over, against a stop; or lie it flat, by the next sheet. "+sawPurpose, false)
	return append(pages, l.settingPages(title+": the saw, the molding lying flat", "On its back, face up; the miter and the bevel together. "+sawPurpose, true)...)
}

const sawPurpose = "Set the saw by a test corner in scrap, not by its scale; keep its guards on and your hands away"

// sprung reports whether the molding at hand can lie flat on its back.
func (l *cutList) sprung() bool {
	return slices.ContainsFunc(l.book.molding(), func(s *sawSetting) bool { return s.flat != nil })
}

func (l *cutList) settingPages(title, purpose string, flat bool) []sheet.Page {
	f := l.st.sheetFrame(title, purpose)
	return stack(l.settingStrips(f.Area(l.st.Paper).Width(), flat), f, l.st.Paper)
}

// settingStrips returns a strip for each setting of the molding at hand.
func (l *cutList) settingStrips(width float64, flat bool) []sheet.Drawing {
	var strips []sheet.Drawing
	for _, s := range l.book.molding() {
		if !flat || s.flat != nil {
			strips = append(strips, s.strip(l.st, width, flat))
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

// stack puts drawings under one another, a line between each two, on as many sheets as they take.
func stack(strips []sheet.Drawing, f sheet.Frame, paper sheet.Paper) []sheet.Page {
	area := f.Area(paper)
	const gap = 10.0
	var pages []sheet.Page
	for from := 0; from < len(strips); {
		high, to := -gap, from
		for to < len(strips) && (to == from || high+gap+strips[to].Bounds().Height() <= area.Height()) {
			high += gap + strips[to].Bounds().Height()
			to++
		}
		room := min(14, gap+max(0, (area.Height()-high)/float64(to-from)))
		var d sheet.Drawing
		y := area.Max.Y
		for i := from; i < to; i++ {
			b := strips[i].Bounds()
			if i > from {
				d = d.Add(sheet.Line(geom.Pt(area.Min.X, y-room/2), geom.Pt(area.Max.X, y-room/2), sheet.PenHair.WithGray(0.5)))
				y -= room
			}
			d = d.Place(strips[i], geom.Translation(geom.Pt(area.Min.X, y-b.Max.Y)))
			y -= b.Height()
		}
		pages = append(pages, sheet.Page{Paper: paper, Frame: f, Content: d})
		from = to
	}
	return pages
}

// sheetFrame returns the frame of a sheet whose drawings are at scales of their own.
func (st Style) sheetFrame(title, purpose string) sheet.Frame {
	return sheet.Frame{Title: title, Purpose: purpose, Source: st.Source, Printer: st.Printer}
}
