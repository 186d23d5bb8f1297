package template

import (
	"fmt"
	"strings"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/sheet"
)

// A Hung is a profile as a gallery shows it.
type Hung struct {
	Section profile.Section
	Family  profile.Family
	Name    string // what the library calls it
	Origin  string // where it was found, "" for what listel brings
}

// Sizes of a gallery, mm.
const (
	hungGap     = 7.0  // least gap between two neighbors
	hungGapMost = 16.0 // greatest, where a row has room to spare
	hungLabel   = 27.0 // least room across for the name
	hungRows    = 7.5  // between a row's lettering and the next row
	hungUnder   = 4.2  // from the feet to the top of the names
	familyHead  = 13.0 // a family's heading with its line
)

// Gallery returns the profiles in the order given, feet on one line in each row and all to one scale, under the headings of their families: to
// choose from by looking. The scale is the largest usual one at which the pages stay few. No profiles give no pages; A4 is taken in place of
// paper too small to write on.
func Gallery(all []Hung, title string, st Style) []sheet.Page {
	st = st.roomy()
	if len(all) == 0 {
		return nil
	}
	ratios := st.ratios()
	for i, n := range ratios {
		g := gallery{st: st, title: title, k: 1 / n}
		pages, ok := g.pages(all)
		if last := i == len(ratios)-1; ok && len(pages) <= 1+len(all)/14 || last {
			return pages
		}
	}
	return nil
}

// A gallery hangs profiles at one scale.
type gallery struct {
	st    Style
	title string
	k     float64
}

func (g gallery) frame() sheet.Frame {
	scale := ""
	if g.k < 1 {
		scale = scaleRatio(g.k)
	}
	words := "To choose from: height × projection to the nearest 1/16 in"
	if !g.st.inches() {
		words = "To choose from: height × projection to the nearest mm"
	}
	return g.st.frame(g.title, words, scale)
}

// A hung is one profile drawn: its foot's left corner at the origin, its label below.
type hung struct {
	drawing  sheet.Drawing
	w        float64 // mm, of section and label
	up, down float64 // mm, above and below the line of the feet
}

// hang draws a profile with its label.
func (g gallery) hang(h Hung) hung {
	outline := h.Section.Outline.Transform(scaled(g.k))
	b := outline.Bounds()
	d := sheet.Drawing{sheet.Fill{Paths: []geom.Path{outline}, Gray: 0.84}}
	if h.Section.Gap != nil {
		d = d.Add(sheet.Stroke{Path: h.Section.Gap.Transform(scaled(g.k)), Pen: sheet.PenHidden})
	}
	d = d.Add(sheet.Stroke{Path: outline, Pen: sheet.PenOutline})
	room := max(hungLabel, b.Width())
	w, y := b.Width(), -hungUnder
	put := func(s string, size float64, weight sheet.Weight) {
		t := sheet.Text{At: geom.Pt(0, y), S: s, Size: size, Weight: weight, Anchor: sheet.TopLeft}
		d = d.Add(t)
		w = max(w, t.Width())
		y -= sheet.LineHeight(size)
	}
	for _, line := range hyphened(h.Name, room, noteSize) {
		put(line, noteSize, sheet.Bold)
	}
	put(g.about(h.Section.Height)+" × "+g.about(h.Section.Projection), noteSize, sheet.Regular)
	if h.Origin != "" {
		put(h.Origin, 8, sheet.Regular)
	}
	return hung{d, w, b.Max.Y, -y}
}

// about returns a length as one compares it by eye: to the nearest 1/16 in, or mm, and without a mark for what is left.
func (g gallery) about(mm float64) string {
	if !g.st.inches() {
		return fmt.Sprintf("%.0f", mm)
	}
	return strings.TrimRight(measure.Format{Units: measure.Inches, Fraction: 16}.Drawing(mm), "+-−–")
}

// hyphened returns a name in lines no wider than the room, broken after its hyphens; a part that is wider stays whole.
func hyphened(name string, room, size float64) []string {
	var lines []string
	line := ""
	for _, part := range strings.SplitAfter(name, "-") {
		if line != "" && sheet.TextWidth(line+part, size, sheet.Bold) > room {
			lines, line = append(lines, line), ""
		}
		line += part
	}
	return append(lines, line)
}

// A hangRow is a row of a gallery, and the heading over it, if it is a family's first.
type hangRow struct {
	heading string
	hung    []hung
}

func (r hangRow) height() float64 {
	up, down := r.extent()
	if r.heading != "" {
		return up + down + familyHead
	}
	return up + down
}

func (r hangRow) extent() (up, down float64) {
	for _, h := range r.hung {
		up, down = max(up, h.up), max(down, h.down)
	}
	return up, down
}

// rows deals the profiles out into rows of a width, and reports whether each profile fits one.
func (g gallery) rows(all []Hung, width float64) ([]hangRow, bool) {
	var rows []hangRow
	used, ok := 0.0, true
	for i, h := range all {
		drawn := g.hang(h)
		ok = ok && drawn.w <= width
		head := ""
		if i == 0 || h.Family != all[i-1].Family {
			head = familyWords(h.Family)
		}
		if head != "" || used+hungGap+drawn.w > width {
			rows, used = append(rows, hangRow{heading: head}), -hungGap
		}
		last := &rows[len(rows)-1]
		last.hung = append(last.hung, drawn)
		used += hungGap + drawn.w
	}
	return rows, ok
}

// pages hangs the rows, and reports whether every profile fits the paper.
func (g gallery) pages(all []Hung) ([]sheet.Page, bool) {
	f := g.frame()
	area := f.Area(g.st.Paper)
	rows, ok := g.rows(all, area.Width())
	var pages []sheet.Page
	var d sheet.Drawing
	y := area.Max.Y
	flush := func() {
		if len(d) > 0 {
			pages = append(pages, sheet.Page{Paper: g.st.Paper, Frame: f, Content: d})
		}
		d, y = nil, area.Max.Y
	}
	for i, r := range rows {
		high := r.height()
		ok = ok && high <= area.Height()
		family := familyHeight(rows[i:])
		if y-high < area.Min.Y || r.heading != "" && y-family < area.Min.Y && family <= area.Height() {
			flush()
		}
		d = d.Add(g.row(r, geom.Pt(area.Min.X, y), area.Width())...)
		y -= high + hungRows
	}
	flush()
	return pages, ok
}

// familyHeight returns the height of the rows up to the next heading.
func familyHeight(rows []hangRow) float64 {
	sum := 0.0
	for i, r := range rows {
		if i > 0 && r.heading != "" {
			break
		}
		if i > 0 {
			sum += hungRows
		}
		sum += r.height()
	}
	return sum
}

// row draws a row with its top left corner at p.
func (g gallery) row(r hangRow, p geom.Point, width float64) sheet.Drawing {
	var d sheet.Drawing
	y := p.Y
	if r.heading != "" {
		d = d.Add(
			sheet.Text{At: geom.Pt(p.X, y-1), S: r.heading, Size: 14, Weight: sheet.Bold, Anchor: sheet.TopLeft},
			sheet.Line(geom.Pt(p.X, y-7), geom.Pt(p.X+width, y-7), sheet.PenThin))
		y -= familyHead
	}
	up, _ := r.extent()
	feet := y - up
	sum := 0.0
	for _, h := range r.hung {
		sum += h.w
	}
	gap := hungGap
	if n := len(r.hung); n > 1 {
		gap = min(hungGapMost, max(hungGap, (width-sum)/float64(n-1)))
	}
	x := p.X
	for _, h := range r.hung {
		d = d.Add(h.drawing.At(geom.Pt(x, feet))...)
		x += h.w + gap
	}
	return d.Add(sheet.Line(geom.Pt(p.X, feet-1.4), geom.Pt(x-gap, feet-1.4), sheet.PenHair))
}

// familyWords returns the heading of a family.
func familyWords(f profile.Family) string {
	switch f {
	case profile.FamilyCornice:
		return "Cornices, crowns and bed molds"
	case profile.FamilyWaist:
		return "Waists and surbases"
	case profile.FamilyBand:
		return "Architraves, friezes and bands"
	case profile.FamilyBase:
		return "Bases"
	case profile.FamilyPanel:
		return "Panel moldings"
	case profile.FamilyEdge:
		return "Beads and edges"
	case profile.FamilyMember:
		return "Single members, to study"
	}
	return fmt.Sprintf("Others: %s", f)
}
