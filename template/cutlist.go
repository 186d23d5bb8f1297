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
		if l.r.Layout != nil {
			d.meets = beadMeets(*l.r.Layout, p)
		}
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
	apart := append(stack(strips, f, l.st.Paper), stack(saws, l.st.sheetFrame(title+": the saw", sawPurpose), l.st.Paper)...)
	if together := stack(append(strips, saws...), both, l.st.Paper); len(together) < len(apart) {
		return together
	}
	return apart
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
