package template

import (
	"fmt"
	"strings"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// SectionSheet returns the sheets that show a section to read and to measure from: the section at full size with its heights,
// an enlarged view with the members' names and the centers of their arcs, and the table of the members. What the paper
// cannot hold goes to a second sheet; a section larger than the paper is drawn at a scale, and A4 is taken in place of
// paper too small to write on. The pages are not yet numbered.
func SectionSheet(s profile.Section, p profile.Profile, st Style) []sheet.Page {
	title := sectionTitle(s)
	st = st.roomy()
	c := &sectionComposer{s: s, st: st, title: title, words: sectionFacts(s, p, st), table: memberTable(s, st), worked: workedPart(s)}
	return c.pages()
}

// sectionFacts returns what the table does not say: the blank, the spring, the source.
func sectionFacts(s profile.Section, p profile.Profile, st Style) string {
	b := s.Blank()
	facts := []string{
		fmt.Sprintf("Blank %s wide and %s thick", st.Lengths.Drawing(b.Width), st.Lengths.Drawing(b.Thickness)),
		fmt.Sprintf("face along its curves %s", st.Lengths.Drawing(s.FaceLength())),
	}
	switch {
	case s.Leans():
		facts[0] += ", the back planed to " + st.Lengths.Angle(s.Spring.Angle) + " from the wall"
	case s.Spring != nil:
		facts[0] += ", upright, the back sawn off at " + st.Lengths.Angle(s.Spring.Angle) + " from the wall"
	}
	out := sentence(facts...) + ". Run is how far a member carries the face outward from its foot to its top; set is the level step before it; x is measured from the back."
	if p.Source != "" {
		out += " Source: " + strings.TrimSuffix(strings.TrimSpace(p.Source), ".") + "."
	}
	return out
}

// A sectionComposer lays the parts of a section's sheets out on the paper.
type sectionComposer struct {
	s     profile.Section
	st    Style
	title string
	words string
	table sheet.Table

	worked geom.Rect // what an enlarged view shows, mm of wood
}

// Room between the parts of a sheet, mm.
const partGap = 9.0

// enlargements are the scales of the enlarged view, the largest first.
var enlargements = [...]float64{10, 8, 6, 5, 4, 3, 2.5, 2, 1.5}

// reductions are the scales of a section that the paper does not hold, in the order they are tried.
var reductions = [...]float64{1.0 / 2, 1.0 / 4, 1.0 / 5, 1.0 / 8, 1.0 / 10, 1.0 / 20, 1.0 / 50, 1.0 / 100}

// enlargements returns the scales that are worth trying: no view needs to be larger than a hand to be read, and none larger than the
// area will fit.
func (c *sectionComposer) enlargements(area geom.Rect) []float64 {
	w, h := c.worked.Width(), c.worked.Height()
	hand := max(100, 0.4*min(c.st.Paper.Width, c.st.Paper.Height))
	for i, k := range enlargements {
		if (k <= 3 || k*max(w, h) <= hand) && k*w < area.Width()-30 && k*h < area.Height()-30 {
			return enlargements[i:]
		}
	}
	return nil
}

// mayFit reports whether the enlarged view of that scale, its lettering taken to be as little as can be, would fit beside the others: it saves
// drawing what will not.
func (c *sectionComposer) mayFit(area geom.Rect, full, table part, k float64) bool {
	const names, head = 30.0, 7.0 // least room of the names and of the heading, mm
	w, h := k*c.worked.Width()+names, k*c.worked.Height()+head
	room := area.Height() - table.h - partGap
	return full.w+partGap+w <= area.Width() && max(full.h, h) <= room || full.h+partGap+h <= room ||
		max(full.w, w)+partGap+leastTable <= area.Width()
}

// leastTable is the narrowest room for a table beside the views, mm.
const leastTable = 75.0

// full returns the view at full size, with names when no enlarged view will carry them.
func (c *sectionComposer) full(k float64, names bool) part {
	v := sectionView{s: c.s, st: c.st, k: k, heights: true, hatched: true, names: names, centers: names}
	return headed(v.drawing(), scaleWords(k))
}

// enlarged returns the view with names and centers.
func (c *sectionComposer) enlarged(k float64) part {
	v := sectionView{s: c.s, st: c.st, k: k, names: true, centers: true, crop: c.worked}
	words := scaleWords(k)
	if c.worked != c.s.Outline.Bounds() {
		words += ", plain wood broken off"
	}
	return headed(v.drawing(), words)
}

// tablePart returns the table with the words under it, as wide as the room at most.
func (c *sectionComposer) tablePart(width float64) part {
	t := c.table
	t.Width = width
	laid := t.Set(geom.Point{})
	w := max(laid.Width, min(width, 120))
	words, _ := sheet.Paragraph{Text: sentenceCase(c.st.unitNote()) + c.words, Width: w, Size: nameSize}.Set(geom.Pt(0, -laid.Height-3))
	return newPart(laid.Drawing.Add(words...))
}

// sentenceCase makes a note the start of a paragraph.
func sentenceCase(note string) string {
	if note == "" {
		return ""
	}
	return strings.ToUpper(note[:1]) + note[1:] + ". "
}

const sectionPurpose = "To read and to measure from: section, members from the foot upward, compass centers (+)"

// pages lays the parts out.
func (c *sectionComposer) pages() []sheet.Page {
	frame := c.st.frame(c.title, sectionPurpose, "")
	area := frame.Area(c.st.Paper)
	full := c.full(1, false)
	if !full.fits(area) {
		return c.reduced(area)
	}
	page := func(content sheet.Drawing, scale string) sheet.Page {
		f := c.st.frame(c.title, sectionPurpose, scale)
		return sheet.Page{Paper: c.st.Paper, Frame: f, Content: content}
	}
	table := c.tablePart(area.Width())
	// All on one sheet, with the enlarged view if it is at least half as large again; failing that with the names at full size.
	scales := c.enlargements(area)
	for _, k := range scales {
		if !c.mayFit(area, full, table, k) {
			continue
		}
		enlarged := c.enlarged(k)
		if d := arrange(area, full, enlarged, table); d != nil {
			return []sheet.Page{page(d, "")}
		}
		if d := c.besideTable(area, full, enlarged); d != nil {
			return []sheet.Page{page(d, "")}
		}
	}
	named := c.full(1, true)
	if named.h > 60 {
		if d := arrange(area, named, part{}, table); d != nil {
			return []sheet.Page{page(d, "")}
		}
		if d := c.besideTable(area, named, part{}); d != nil {
			return []sheet.Page{page(d, "")}
		}
	}
	// The views on the first sheet, the table on the second.
	for _, k := range scales {
		if d := arrange(area, full, c.enlarged(k), part{}); d != nil {
			return append([]sheet.Page{page(d, "")}, c.tablePages()...)
		}
	}
	// A section so large that it needs no enlarging carries its names at full size.
	if named.fits(area) {
		if d := arrange(area, named, part{}, table); d != nil {
			return []sheet.Page{page(d, "")}
		}
		return append([]sheet.Page{page(arrange(area, named, part{}, part{}), "")}, c.tablePages()...)
	}
	second := c.full(1.0/2, true)
	pages := []sheet.Page{page(arrange(area, full, part{}, part{}), "")}
	if second.fits(area) {
		if d := arrange(area, second, part{}, table); d != nil {
			return append(pages, page(d, "1:2"))
		}
		pages = append(pages, page(arrange(area, second, part{}, part{}), "1:2"))
	}
	return append(pages, c.tablePages()...)
}

// besideTable is arrange with the table in a column of its own at the right.
func (c *sectionComposer) besideTable(area geom.Rect, full, enlarged part) sheet.Drawing {
	for _, column := range []float64{full.w + partGap + enlarged.w, max(full.w, enlarged.w)} {
		left := area.Width() - column - partGap
		if left < leastTable {
			continue
		}
		t := c.tablePart(left)
		if t.w > left || t.h > area.Height() {
			continue
		}
		views := geom.Rect{Min: area.Min, Max: geom.Pt(area.Min.X+column+0.01, area.Max.Y)}
		if d := arrange(views, full, enlarged, part{}); d != nil {
			return d.Add(t.at(geom.Pt(area.Max.X-t.w, area.Max.Y-t.h))...)
		}
	}
	return nil
}

// reduced lays out a section that the paper does not hold at full size with its dimensions: at the largest scale that fits, or, where the
// lettering of very many members would fit at none, without them.
func (c *sectionComposer) reduced(area geom.Rect) []sheet.Page {
	purpose := sentence(sectionPurpose, "too large for this paper at full size: its template is on sheets of its own")
	for _, k := range append([]float64{1}, reductions[:]...) {
		f := c.st.frame(c.title, purpose, scaleRatio(k))
		room := f.Area(c.st.Paper)
		if view := c.full(k, true); k < 1 && view.fits(room) {
			d := arrange(room, view, part{}, c.tablePart(room.Width()))
			if d == nil {
				d = c.besideTable(room, view, part{})
			}
			if d != nil {
				return []sheet.Page{{Paper: c.st.Paper, Frame: f, Content: d}}
			}
			return append([]sheet.Page{{Paper: c.st.Paper, Frame: f, Content: arrange(room, view, part{}, part{})}}, c.tablePages()...)
		}
		// Lettering alone may be what is in the way.
		bare := headed(sectionView{s: c.s, st: c.st, k: k, hatched: true}.drawing(), scaleWords(k))
		if !bare.fits(room) || len(c.table.Rows)*5 < int(area.Height()) {
			continue
		}
		f.Purpose = "To read: the section; its members are in the table"
		return append([]sheet.Page{{Paper: c.st.Paper, Frame: f, Content: arrange(room, bare, part{}, part{})}}, c.tablePages()...)
	}
	return c.tablePages()
}

// tablePages returns the table on sheets of its own, the words under its last part.
func (c *sectionComposer) tablePages() []sheet.Page {
	f := sheet.Frame{Title: c.title, Purpose: "Its members, the top one first", Source: c.st.Source}
	area := f.Area(c.st.Paper)
	t := c.table
	t.Width = area.Width()
	whole := c.tablePart(area.Width())
	if whole.h <= area.Height() {
		return []sheet.Page{{Paper: c.st.Paper, Frame: f, Content: whole.at(geom.Pt(area.Min.X, area.Max.Y-whole.h))}}
	}
	parts := t.Split(area.Height() - whole.h + t.Set(geom.Point{}).Height)
	var pages []sheet.Page
	for i, rows := range parts {
		laid := rows.Set(geom.Pt(area.Min.X, area.Max.Y))
		d := laid.Drawing
		if i == len(parts)-1 {
			words, _ := sheet.Paragraph{Text: sentenceCase(c.st.unitNote()) + c.words, Width: max(40, laid.Width), Size: nameSize}.
				Set(geom.Pt(area.Min.X, area.Max.Y-laid.Height-3))
			d = d.Add(words...)
		}
		pages = append(pages, sheet.Page{Paper: c.st.Paper, Frame: f, Content: d})
	}
	return pages
}

// arrange puts the full-size view, the enlarged view and the table in the area: the views side by side over the table, or all
// under one another. Parts without size are left out. It returns nil when they do not fit.
func arrange(area geom.Rect, full, enlarged, table part) sheet.Drawing {
	below := 0.0
	if table.h > 0 {
		below = table.h + partGap
	}
	room := area.Height() - below
	if table.w > area.Width()+1e-9 || room <= 0 {
		return nil
	}
	gap := partGap
	if enlarged.w == 0 {
		gap = 0
	}
	var views sheet.Drawing
	wide, high := full.w+gap+enlarged.w, max(full.h, enlarged.h)
	tall := full.h + gap + enlarged.h
	switch {
	case wide <= area.Width() && high <= room:
		slack := (area.Width() - wide) / 3
		if gap == 0 {
			slack = (area.Width() - wide) / 2
		}
		y := area.Max.Y - min((room-high)/2, 12)
		views = full.at(geom.Pt(area.Min.X+slack, y-full.h)).
			Add(enlarged.at(geom.Pt(area.Max.X-slack-enlarged.w, y-enlarged.h))...)
		if gap == 0 {
			views = full.at(geom.Pt(area.Min.X+slack, y-full.h))
		}
	case tall <= room && max(full.w, enlarged.w) <= area.Width():
		slack := min((room-tall)/3, 12)
		views = full.at(geom.Pt(area.Min.X+(area.Width()-full.w)/2, area.Max.Y-slack-full.h)).
			Add(enlarged.at(geom.Pt(area.Min.X+(area.Width()-enlarged.w)/2, area.Max.Y-2*slack-full.h-gap-enlarged.h))...)
	default:
		return nil
	}
	if table.h == 0 {
		return views
	}
	// The table stands under the views, with the room to spare divided over and under it.
	bottom := views.Bounds().Min.Y
	y := min(bottom-partGap, area.Min.Y+table.h+(bottom-area.Min.Y-table.h)/2)
	return views.Add(table.at(geom.Pt(area.Min.X+(area.Width()-table.w)/2, y-table.h))...)
}
