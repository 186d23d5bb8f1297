package template

import (
	"strconv"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/sheet"
)

// CutList returns the sheets to cut the pieces of a case by: a table of rough lengths, then for each molding its pieces with
// their lengths and the settings of the saw for their ends. The pages are not yet numbered.
func CutList(c miter.Case, r miter.Result, st Style) []sheet.Page {
	l := cutList{c: c, r: r, st: st}
	return l.roughPages()
}

// A cutList composes the sheets of one case.
type cutList struct {
	c  miter.Case
	r  miter.Result
	st Style
}

// pieces returns all pieces of the case in the order that they are cut.
func (l *cutList) pieces() []miter.Piece {
	var out []miter.Piece
	for _, m := range l.r.Moldings {
		out = append(out, m.Pieces...)
	}
	return append(out, l.r.Beads...)
}

// roughPages returns the table of the rough lengths.
func (l *cutList) roughPages() []sheet.Page {
	t := l.roughTable()
	f := l.st.sheetFrame("Rough lengths", "What to cut off the sticks before the ends are cut: one line a piece")
	area := f.Area(l.st.Paper)
	t.Width = area.Width()
	var pages []sheet.Page
	for _, part := range t.Split(area.Height()) {
		pages = append(pages, sheet.Page{Paper: l.st.Paper, Frame: f, Content: part.Set(geom.Pt(area.Min.X, area.Max.Y)).Drawing})
	}
	return pages
}

func (l *cutList) roughTable() sheet.Table {
	unit := ", mm"
	if l.st.Lengths.Units == measure.Inches {
		unit = ""
	}
	t := sheet.Table{Size: figureSize, Columns: []sheet.Column{
		{Head: "piece", Weight: sheet.Bold}, {Head: "cut", Align: sheet.AlignRight}, {Head: "rough" + unit, Align: sheet.AlignRight, Weight: sheet.Bold},
		{Head: "of", Wrap: true}, {Head: "for", Wrap: true}, {Head: "hand"},
	}}
	for _, p := range l.pieces() {
		t.Rows = append(t.Rows, []string{p.Mark, strconv.Itoa(p.Count), l.st.figure(p.Rough), p.Profile, strings.Join(p.Runs, ", "), handWord(p.Hand)})
	}
	return t
}

func handWord(h miter.Hand) string {
	if h == miter.NoHand {
		return ""
	}
	return string(h)
}

// sheetFrame returns the frame of a sheet whose drawings are at scales of their own.
func (st Style) sheetFrame(title, purpose string) sheet.Frame {
	return sheet.Frame{Title: title, Purpose: purpose, Source: st.Source, Printer: st.Printer}
}
