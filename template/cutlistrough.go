package template

import (
	"fmt"
	"strconv"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// roughSizes are the sizes of lettering of the table of rough lengths, in points: the first at which it fits is taken.
var roughSizes = [...]float64{16, 14, 12.5, 11, 10}

// wrapSize is the lettering above which no cell of that table is broken into lines.
const wrapSize = 12.5

// roughPages returns the table of the rough lengths, and under it the usual cautions for the saw.
func (l *cutList) roughPages() []sheet.Page {
	f := l.st.sheetFrame("Pieces to cut: rough lengths", sentence("What to cut off the strips when they are molded, with wood to spare at both ends", l.st.unitNote()))
	area := f.Area(l.st.Paper)
	words := l.cautions(area.Width())
	var t sheet.Table
	for _, size := range roughSizes {
		t = l.roughTable(size, area.Width())
		laid := t.Set(geom.Point{})
		if size > wrapSize && !l.unbroken(size, area.Width()) {
			continue
		}
		if laid.Height+partGap+words.h+stackFoot <= area.Height() && laid.Width <= area.Width() {
			d := t.Set(geom.Pt(area.Min.X, area.Max.Y)).Drawing.Add(words.at(area.Min.Add(geom.Pt(0, stackFoot)))...)
			return []sheet.Page{{Paper: l.st.Paper, Frame: f, Content: d}}
		}
	}
	var pages []sheet.Page
	for _, part := range t.Split(area.Height()) {
		pages = append(pages, sheet.Page{Paper: l.st.Paper, Frame: f, Content: part.Set(geom.Pt(area.Min.X, area.Max.Y)).Drawing})
	}
	f.Title, f.Purpose = "At the saw", "Read it before the first cut"
	return append(pages, sheet.Page{Paper: l.st.Paper, Frame: f, Content: words.at(geom.Pt(area.Min.X, area.Max.Y-words.h))})
}

// unbroken reports whether the table has no cell in more than one line.
func (l *cutList) unbroken(size, width float64) bool {
	t := l.roughTable(size, 0)
	t.Stretch = false
	return t.Set(geom.Point{}).Width <= width
}

func (l *cutList) roughTable(size, width float64) sheet.Table {
	t := sheet.Table{Size: size, Width: width, Stretch: true, RowHeight: size * 0.62, Columns: []sheet.Column{
		{Head: "piece", Weight: sheet.Bold}, {Head: "cut", Align: sheet.AlignRight}, {Head: "rough length", Align: sheet.AlignRight, Weight: sheet.Bold},
		{Head: "section", Wrap: true}, {Head: "for", Wrap: true}, {Head: "hand"},
	}}
	for _, p := range l.pieces() {
		hand := string(p.Hand)
		if p.Hand == miter.NoHand {
			hand = ""
		}
		rough := l.st.rough(p.Stick(l.c.Shop.Rough))
		if l.short(p) {
			rough = "* " + rough
		}
		t.Rows = append(t.Rows, []string{p.Mark, strconv.Itoa(p.Count), rough, sectionTitle(*p.Section), strings.Join(p.Runs, ", "), hand})
	}
	return t
}

// pieces returns all pieces of the case in the order that they are cut.
func (l *cutList) pieces() []miter.Piece {
	var out []miter.Piece
	for _, m := range l.r.Moldings {
		out = append(out, m.Pieces...)
	}
	return append(out, l.r.Beads...)
}

// short reports whether a piece is too short to be held at the saw by itself.
func (l *cutList) short(p miter.Piece) bool { return p.Rough < l.c.Shop.Safe }

// cautions returns the usual cautions for a miter saw.
func (l *cutList) cautions(width float64) part {
	lines := []string{
		"The saw's manual, the rules of your shop, and a person who knows the saw come before this sheet.",
		"Guards on, eyes and ears covered, hands a hand's breadth and more from the blade. Unplug it to change its blade.",
		"Hold or clamp the piece to table and fence both. Let the blade stop before you lift it or reach for the waste.",
		"Cut a test corner in scrap of the same section, try it on the case, and correct the saw by what you see.",
		"Cut the first end, mark the length from it on the case itself where you can, then cut the second end a little long and shave it to the line.",
	}
	if l.c.Shop.Safe > 0 {
		line := fmt.Sprintf("Nothing shorter than %s is held at the saw by hand: cut short pieces off the end of a longer stick, the last cut last.", l.st.Lengths.Drawing(l.c.Shop.Safe))
		for _, p := range l.pieces() {
			if l.short(p) {
				line += " They are marked *."
				break
			}
		}
		lines = append(lines, line)
	}
	return newPart(advice("At the saw", lines, width))
}
