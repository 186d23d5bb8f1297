package template

import (
	"fmt"
	"math"
	"strings"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// A Construction is one way in which an element is drawn: what its file says, how to strike it with compasses, and where that
// was published.
type Construction struct {
	Kind   profile.Kind         `json:"kind"`
	Curve  profile.Construction `json:"curve,omitempty"` // "" where the kind has one construction only
	Title  string               `json:"title"`
	Entry  string               `json:"entry"` // as it stands in a profile's file
	Steps  []string             `json:"steps"`
	Source string               `json:"source"`

	element profile.Element // in mm on paper
	set     float64         // mm, level step before it
	radii   []string        // what each arc's radius is, in the order of the arcs; "" leaves an arc bare
	lines   []geom.Line     // thin lines of the construction
	arcs    []geom.Arc      // arcs that find a center
	marks   []spot          // points with letters
	sizes   []sizeMark      // dimensions beside height and projection
	flat    bool            // has no projection of its own
	tall    [2]float64      // what its key height measures, when that is not all of it
	extra   sheet.Drawing   // what else shows it
}

// A spot is a lettered point of a construction.
type spot struct {
	at geom.Point
	s  string
	to geom.Point // direction of the letter from the point
}

// A sizeMark is a dimension of a construction.
type sizeMark struct {
	a, b  geom.Point
	along sheet.Direction
	at    float64
	text  string
}

// Sizes of a construction sheet, mm.
const (
	struckStub = 9.0  // plumb face below and above the member
	struckWood = 15.0 // wood behind the least x
	struckRoom = 92.0 // room across for a drawing
	struckGap  = 10.0 // between two constructions
	struckText = 78.0 // least room across for the words
)

// ConstructionSheets returns sheets that show how the elements of these kinds are constructed, with compass centers, radii and angles, and what
// stands for them in a profile's file. The drawings are figures, to no scale; A4 is taken in place of paper too small to write on. No kinds give
// no sheets.
func ConstructionSheets(kinds []profile.Kind, st Style) []sheet.Page {
	st = st.roomy()
	f := sheet.Frame{Title: "How members are drawn", Purpose: "To learn from: compass centers (+), radii and angles", Source: st.Source}
	if len(kinds) == 1 {
		f.Title, f.Purpose = "How it is drawn: "+kinds[0].Words(), "To learn from: "+KindWords(kinds[0])
	}
	var all []Construction
	for _, k := range kinds {
		all = append(all, Constructions(k)...)
	}
	area := f.Area(st.Paper)
	parts := constructionParts(all, len(kinds) > 1, area.Width())
	var pages []sheet.Page
	var d sheet.Drawing
	y := area.Max.Y
	for _, p := range parts {
		if y-p.h < area.Min.Y && len(d) > 0 {
			pages = append(pages, sheet.Page{Paper: st.Paper, Frame: f, Content: d})
			d, y = nil, area.Max.Y
		}
		d = d.Add(p.at(geom.Pt(area.Min.X, y-p.h))...)
		y -= p.h + struckGap
	}
	if len(d) > 0 {
		pages = append(pages, sheet.Page{Paper: st.Paper, Frame: f, Content: d})
	}
	return pages
}

// constructionParts draws constructions with their words in one column, or under the figures on narrow paper; named puts the kind before
// each title.
func constructionParts(all []Construction, named bool, width float64) []part {
	figures := make([]part, len(all))
	column := struckRoom
	for i, c := range all {
		figures[i] = newPart(c.figure())
		column = max(column, figures[i].w+8)
	}
	if width-column < struckText {
		column = 0
	}
	parts := make([]part, len(all))
	for i, c := range all {
		if named {
			name := c.Kind.Words()
			c.Title = strings.ToUpper(name[:1]) + name[1:] + ". " + c.Title
		}
		parts[i] = c.part(figures[i], column, width-column)
	}
	return parts
}

// part returns a figure with its words, which start at x = column and are so wide; under the figure when the column is 0.
func (c Construction) part(fig part, column, width float64) part {
	y := 0.0
	if column == 0 {
		y = -fig.h - 6
	}
	d := fig.at(geom.Pt(0, -fig.h))
	put := func(s string, size float64, w sheet.Weight, indent, after float64) {
		words, h := sheet.Paragraph{Text: s, Width: width - indent, Size: size, Weight: w}.Set(geom.Pt(column+indent, y))
		d = d.Add(words...)
		y -= h + after
	}
	put(c.Title, headingSize, sheet.Bold, 0, 1.5)
	put(c.Entry, nameSize, sheet.Regular, 0, 2.5)
	for i, s := range c.Steps {
		d = d.Add(sheet.Text{At: geom.Pt(column, y), S: fmt.Sprintf("%d", i+1), Size: nameSize, Weight: sheet.Bold, Anchor: sheet.TopLeft})
		put(s, nameSize, sheet.Regular, 5, 1)
	}
	y -= 1
	put(c.Source, noteSize, sheet.Regular, 0, 3)
	if over := newPart(c.turned()); over.w > 0 {
		d = d.Add(over.at(geom.Pt(column, y-over.h))...)
		words := "A negative projection turns it upside down, as in a base."
		if c.element.Outline(geom.Point{}).End().X < 0 {
			words = "A positive projection turns it upside down."
		}
		lines, _ := sheet.Paragraph{Text: words, Width: width - over.w - 5, Size: noteSize}.Set(geom.Pt(column+over.w+4, y-over.h/2+2))
		d = d.Add(lines...)
	}
	return newPart(d)
}

// turned returns a small picture of the member turned upside down; nil for one that has no run.
func (c Construction) turned() sheet.Drawing {
	path := c.element.Outline(geom.Point{})
	if c.flat || c.Kind == profile.KindStack || c.Kind == profile.KindCurve {
		return nil
	}
	over := path.MirrorY()
	if over.Start().Y > over.End().Y {
		over = over.Reverse()
	}
	over = over.Translate(geom.Point{}.Sub(over.Start()))
	b := over.Bounds()
	end := over.End()
	face := append(geom.Polyline(geom.Pt(0, -struckStub), geom.Point{}), over...)
	face = append(face, geom.Line{A: end, B: end.Add(geom.Pt(0, struckStub))})
	back := min(b.Min.X, 0) - struckWood
	wood := append(append(geom.Path{}, face...), geom.Polyline(face.End(), geom.Pt(back, face.End().Y), geom.Pt(back, -struckStub), face.Start())...)
	const small = 0.3
	return sheet.Drawing{sheet.Fill{Paths: []geom.Path{wood.Transform(scaled(small))}, Gray: 0.84}, sheet.Stroke{Path: face.Transform(scaled(small)), Pen: sheet.PenOutline}}
}

// figure draws the member with its construction. The end of the member before it, after its set, is the origin.
func (c Construction) figure() sheet.Drawing {
	path := c.element.Outline(geom.Point{})
	b := path.Bounds()
	end := path.End()
	left := b.Min.X
	for _, p := range []float64{-c.set, end.X, 0} {
		left = min(left, p)
	}
	back := left - struckWood
	face := geom.Polyline(geom.Pt(-c.set, -struckStub), geom.Pt(-c.set, 0))
	if c.set != 0 {
		face = append(face, geom.Line{A: face.End(), B: geom.Point{}})
	}
	face = append(append(face, path...), geom.Line{A: end, B: end.Add(geom.Pt(0, struckStub))})
	wood := append(append(geom.Path{}, face...), geom.Polyline(face.End(), geom.Pt(back, face.End().Y), geom.Pt(back, -struckStub), face.Start())...)
	d := sheet.Drawing{sheet.Stroke{Path: face, Pen: sheet.PenThin}}
	d = d.Add(sheet.Stroke{Path: path, Pen: sheet.Pen{Width: 0.7}})
	for _, l := range c.lines {
		d = d.Add(sheet.Line(l.A, l.B, sheet.PenHair))
	}
	for _, a := range c.arcs {
		d = d.Add(sheet.Stroke{Path: geom.Path{a}, Pen: sheet.PenHidden})
	}
	d = d.Add(c.compass(path)...).Add(c.extra...)
	for _, m := range c.marks {
		d = d.Add(sheet.Dot(m.at, 0.6), lettered(m.at, m.s, m.to))
	}
	right := b.Max.X
	for _, m := range d {
		right = max(right, m.Bounds().Max.X)
	}
	under := sheet.Drawing{sheet.Fill{Paths: []geom.Path{wood}, Gray: 0.93}} // dimensions too: their lines pass under the lettering
	return under.Add(c.dimensions(path, right)...).Add(d...)
}

// lettered returns a letter beside a point.
func lettered(at geom.Point, s string, to geom.Point) sheet.Mark {
	return sheet.Text{At: at.Add(to.Unit().Mul(3.2)), S: s, Size: nameSize, Weight: sheet.Bold, Anchor: sheet.Middle, Halo: true}
}

// dimensions returns height and projection, and the sizes of its own, clear of what reaches to x = right.
func (c Construction) dimensions(path geom.Path, right float64) sheet.Drawing {
	end := path.End()
	var d sheet.Drawing
	for _, s := range c.sizes {
		d = d.Add(sheet.Dim{A: s.a, B: s.b, Along: s.along, At: s.at, Text: s.text, Size: noteSize}.Drawing()...)
		right = max(right, d.Bounds().Max.X)
	}
	low, high := 0.0, end.Y
	if c.tall != [2]float64{} {
		low, high = c.tall[0], c.tall[1]
	}
	d = d.Add(sheet.Dim{A: geom.Pt(0, low), B: geom.Pt(end.X, high), Along: sheet.Up, At: right + 6, Size: noteSize}.Drawing()...)
	d = d.Add(sheet.Text{At: geom.Pt(right+8, (low+high)/2), S: "height", Size: nameSize, Anchor: sheet.Left})
	if c.flat || math.Abs(end.X) < 1e-9 {
		return d
	}
	below := -struckStub - 5
	d = d.Add(sheet.Dim{A: geom.Pt(0, -struckStub), B: geom.Pt(end.X, 0), Along: sheet.Across, At: below, Size: noteSize}.Drawing()...)
	return d.Add(sheet.Text{At: geom.Pt(end.X/2, below-1.6), S: "projection", Size: nameSize, Anchor: sheet.Top})
}

// compass returns the centers of the arcs, the radii to their ends, and the angles between those.
func (c Construction) compass(path geom.Path) sheet.Drawing {
	var d sheet.Drawing
	n := 0
	for _, seg := range path {
		switch a := seg.(type) {
		case geom.Arc:
			if n < len(c.radii) && c.radii[n] != "" {
				d = d.Add(struckArc(a, c.radii[n], n)...)
			}
			n++
		case geom.EllipticArc:
			if n < len(c.radii) && c.radii[n] != "" {
				d = d.Add(struckEllipse(a, c.radii[n])...)
			}
			n++
		}
	}
	return d
}

// struckArc returns an arc's center, its radii to both ends and the angle between them. Of two arcs in a row the one carries its words on the
// radius to its start, the other on that to its end, so that they do not meet.
func struckArc(a geom.Arc, radius string, n int) sheet.Drawing {
	from, to := a.Start(), a.End()
	carry := from
	if n%2 == 1 {
		carry = to
	}
	d := sheet.Drawing{sheet.Line(a.Center, from, sheet.PenHair), sheet.Line(a.Center, to, sheet.PenHair)}
	d = d.Add(sheet.CenterMark(a.Center, 1.8)...)
	d = d.Add(sheet.ArrowHead(carry, carry.Sub(a.Center)))
	d = d.Add(sheet.Text{At: a.Center.Lerp(carry, 0.56), S: radius, Size: noteSize, Anchor: sheet.Middle, Halo: true})
	mid := a.At(0.5).Sub(a.Center).Unit()
	reach := min(6.5, a.Radius*0.4)
	d = d.Add(sheet.Stroke{Path: geom.Path{geom.Arc{Center: a.Center, Radius: reach, From: a.From, Sweep: a.Sweep}}, Pen: sheet.PenHair})
	text := fmt.Sprintf("%.0f°", math.Abs(a.Sweep.Degrees()))
	return d.Add(sheet.Text{At: a.Center.Add(mid.Mul(reach + 3.4)), S: text, Size: noteSize, Anchor: sheet.Middle, Halo: true})
}

// struckEllipse returns the center and the half axes of a quarter ellipse; words are those of the upright axis and of the level one,
// parted by a bar.
func struckEllipse(a geom.EllipticArc, words string) sheet.Drawing {
	upright, across, _ := strings.Cut(words, "|")
	var d sheet.Drawing
	for _, end := range []geom.Point{a.Start(), a.End()} {
		label := upright
		if math.Abs(end.Y-a.Center.Y) < 1e-6 {
			label = across
		}
		d = d.Add(sheet.Line(a.Center, end, sheet.PenHair), sheet.ArrowHead(end, end.Sub(a.Center)),
			sheet.Text{At: a.Center.Lerp(end, 0.5), S: label, Size: nameSize, Anchor: sheet.Middle, Halo: true})
	}
	return d.Add(sheet.CenterMark(a.Center, 1.8)...)
}
