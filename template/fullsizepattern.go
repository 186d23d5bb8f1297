package template

import (
	"math"
	"strings"

	"listel/profile/geom"
	"listel/template/sheet"
)

// A pattern is one shape to cut out at full size, with what is marked on it.
type pattern struct {
	outline  geom.Path
	gap      geom.Path     // outline between dentils, nil without them
	marks    sheet.Drawing // on the wood within the outline: a groove, a pin
	name     string        // what it is
	note     string        // what it is for, "" for nothing
	hand     string        // which end, and where one stands to see it so
	short    string        // the same in two words, to stand on the pattern itself
	mirrored bool          // the back is at the right
	rail     bool          // the wall is behind the back, not the case
}

// A patternSet is patterns that belong together and stand side by side.
type patternSet struct {
	title    string
	patterns []pattern
}

// penUnder is the thin solid line under a cut line's dashes: it keeps corners sharp where a dash ends.
var penUnder = sheet.PenHair

// cutLine returns an outline to cut to: a fine solid line with heavy dashes on it, both with their middle on the path.
func cutLine(p geom.Path) sheet.Mark {
	return sheet.Group{Name: "cut", Drawing: sheet.Drawing{sheet.Stroke{Path: p, Pen: penUnder}, sheet.Stroke{Path: p, Pen: sheet.PenCut}}}
}

// drawing returns the pattern with its marks and words, its outline where it is.
func (p pattern) drawing() sheet.Drawing {
	var d sheet.Drawing
	if p.gap != nil {
		d = d.Add(sheet.Group{Name: "gap", Drawing: sheet.Drawing{sheet.Stroke{Path: p.gap, Pen: sheet.PenHidden}}})
	}
	d = d.Add(cutLine(p.outline)).Add(p.marks...)
	inside, named := p.inside()
	d = d.Add(inside...)
	if !named {
		name, ok := p.sloping(inside)
		if !ok {
			if name, ok = p.sloping(nil); ok {
				d, inside = d[:len(d)-len(inside)], nil // the arrow stands outside
			}
		}
		if !ok {
			name = p.leader(inside)
		}
		d = d.Add(name...)
	}
	d = d.Add(p.backWords(len(inside) == 0)...)
	return d.Add(p.caption()...)
}

// backWords returns the words along the back, outside the outline, and the arrow that says which way is up when the outline has
// no room for one.
func (p pattern) backWords(arrow bool) sheet.Drawing {
	b := p.outline.Bounds()
	x, side, anchor, lie := b.Min.X-2.2, -1.0, sheet.Bottom, sheet.Right
	if p.mirrored {
		x, side, anchor, lie = b.Max.X+2.2, 1, sheet.Top, sheet.Left
	}
	var d sheet.Drawing
	placed := false
	// On a long back the words are repeated, so that each tile has them.
	n := max(1, math.Floor(b.Height()/90))
	mid := b.Min.Y + b.Height()/2/n
	behind := []string{"this side to the case", "case side", "case"}
	if p.rail {
		behind = []string{"this side to the wall", "wall side", "wall"}
	}
	for _, words := range behind {
		t := sheet.Text{At: geom.Pt(x, mid), S: words, Size: nameSize, Angle: 90 * geom.Degree, Anchor: anchor}
		if t.Width() <= b.Height() {
			for range int(n) {
				d = d.Add(t)
				t.At.Y += b.Height() / n
			}
			placed = true
			break
		}
	}
	if !placed {
		d = d.Add(sheet.Text{At: geom.Pt(x, mid), S: behind[2], Size: nameSize, Anchor: lie})
	}
	if arrow {
		at := geom.Pt(d.Bounds().Min.X-9, mid-7)
		if side > 0 {
			at.X = d.Bounds().Max.X + 4
		}
		d = d.Add(sheet.WayUp(at, 14, "up")...)
	}
	return d
}

// caption returns the words under the outline.
func (p pattern) caption() sheet.Drawing {
	b := p.outline.Bounds()
	width := max(b.Width(), 62)
	var d sheet.Drawing
	y := b.Min.Y - 5
	for _, line := range []struct {
		s      string
		size   float64
		weight sheet.Weight
	}{{p.name, headingSize, sheet.Bold}, {p.hand, nameSize, sheet.Regular}, {p.note, nameSize, sheet.Regular}} {
		if line.s == "" {
			continue
		}
		words, h := sheet.Paragraph{Text: line.s, Width: width, Size: line.size, Weight: line.weight}.Set(geom.Pt(b.Min.X, y))
		d = d.Add(words...)
		y -= h + 1.2
	}
	return d
}

// smallName is the smallest lettering of a name on a template, points.
const smallName = 7.5

// inside returns the marks that stand on the pattern itself, so that it still carries them once it is cut out: its name where that has room, its
// end, and an arrow up; and whether the name is among them. It is nil when the outline has no room even for the arrow.
func (p pattern) inside() (d sheet.Drawing, hasName bool) {
	avoid, pts := p.marked(), p.wood()
	arrow := func(length float64) sheet.Drawing { return sheet.WayUp(geom.Point{}, length, "up") }
	word := func(at geom.Point, s string, turn geom.Angle) sheet.Text {
		return sheet.Text{At: at, S: s, Size: figureSize, Weight: sheet.Bold, Anchor: sheet.Left, Angle: turn}
	}
	beside := func(length float64, s string) sheet.Drawing { // the end at the right of the arrow
		d := arrow(length)
		return d.Add(word(geom.Pt(d.Bounds().Max.X+2.5, length/2), s, 0))
	}
	over := func(length float64) sheet.Drawing { // the end running up over the arrow
		return arrow(length).Add(word(geom.Pt(0, length+3), p.short, 90*geom.Degree))
	}
	named := func(size, length float64, turn geom.Angle) sheet.Drawing { // the name and the end beside the arrow, or running up beside it
		d := arrow(length)
		x, step := d.Bounds().Max.X+2, sheet.LineHeight(size)
		for i, s := range []string{p.name, p.short} {
			at := geom.Pt(x, length/2+step*(0.5-float64(i)))
			if turn != 0 {
				at = geom.Pt(x+step*(0.5+float64(i)), 0)
			}
			d = d.Add(sheet.Text{At: at, S: s, Size: size, Weight: sheet.Bold, Anchor: sheet.Left, Angle: turn})
		}
		return d
	}
	letter := strings.ToUpper(p.short[:1])
	for i, d := range []sheet.Drawing{
		named(figureSize, 11, 0), named(figureSize, 11, 90*geom.Degree), named(noteSize, 11, 0), named(noteSize, 11, 90*geom.Degree), named(smallName, 8, 0), named(smallName, 8, 90*geom.Degree),
		beside(16, p.short), over(16), beside(11, p.short), over(11), beside(11, letter), beside(8, letter), arrow(11), arrow(8),
	} {
		box := d.Bounds()
		if at, ok := roomIn(pts, p.outline.Bounds(), avoid, box.Width()+2.5, box.Height()+2.5); ok {
			return d.At(at.Sub(box.Center())), i < 6
		}
	}
	return nil, false
}

// marked returns the room that the pattern's own marks take, empty without any.
func (p pattern) marked() geom.Rect {
	if len(p.marks) == 0 {
		return geom.EmptyRect()
	}
	return p.marks.Bounds()
}

// wood returns the outline that marks must lie in.
func (p pattern) wood() []geom.Point {
	if p.gap != nil {
		return p.gap.Flatten(0.1) // which lies within the outline
	}
	return p.outline.Flatten(0.1)
}

// besides returns the room that the pattern's own marks and those inside take.
func (p pattern) besides(inside sheet.Drawing) geom.Rect {
	if len(inside) == 0 {
		return p.marked()
	}
	return p.marked().Union(inside.Bounds())
}

// sloping returns the name along the longest line of the outline, as on a slender sprung molding, clear of what is inside already; false where
// it has no room.
func (p pattern) sloping(inside sheet.Drawing) (sheet.Drawing, bool) {
	avoid, pts := p.besides(inside), p.wood()
	turn := longestLine(pts)
	turned := make([]geom.Point, len(pts))
	bounds, blocked := geom.EmptyRect(), geom.EmptyRect()
	for i, q := range pts {
		turned[i] = q.Rotate(-turn)
		bounds = bounds.Include(turned[i])
	}
	if !avoid.Empty() {
		for _, q := range [4]geom.Point{avoid.Min, {X: avoid.Max.X, Y: avoid.Min.Y}, avoid.Max, {X: avoid.Min.X, Y: avoid.Max.Y}} {
			blocked = blocked.Include(q.Rotate(-turn))
		}
	}
	for _, size := range []float64{figureSize, noteSize, smallName} {
		for _, words := range []string{p.name + ", " + p.short, p.name} {
			w := sheet.TextWidth(words, size, sheet.Bold)
			if at, ok := roomIn(turned, bounds, blocked, w+2.5, sheet.LineHeight(size)+1); ok {
				return sheet.Drawing{sheet.Text{At: at.Rotate(turn), S: words, Size: size, Weight: sheet.Bold, Anchor: sheet.Middle, Angle: turn}}, true
			}
		}
	}
	return nil, false
}

// longestLine returns the direction of the longest side of a polygon, as one reads along it: from -90 up to 90 degrees.
func longestLine(pts []geom.Point) geom.Angle {
	var best geom.Point
	for i, a := range pts {
		if d := pts[(i+1)%len(pts)].Sub(a); d.Norm() > best.Norm() {
			best = d
		}
	}
	if best.X < 0 || best.X == 0 && best.Y < 0 {
		best = best.Mul(-1)
	}
	return best.Angle()
}

// leader returns a line from the lowest place of the wood that has room for its dot, clear of what is inside, to the name under the outline.
func (p pattern) leader(inside sheet.Drawing) sheet.Drawing {
	const steps = 40
	avoid, pts, b := p.besides(inside), p.wood(), p.outline.Bounds()
	for _, room := range []float64{0.9, 0.4, 0} { // mm, about the dot
		for j := range steps {
			for i := range steps {
				c := geom.Pt(b.Min.X+(float64(i)+0.5)/steps*b.Width(), b.Min.Y+(float64(j)+0.5)/steps*b.Height())
				box := geom.Rect{Min: c, Max: c}.Expand(room)
				below := geom.Rect{Min: geom.Pt(c.X-room, b.Min.Y), Max: box.Max}
				if (avoid.Empty() || !below.Overlaps(avoid)) && boxInside(pts, box) {
					return sheet.Drawing{sheet.Dot(c, min(0.6, room+0.1)), sheet.Line(c, geom.Pt(c.X, b.Min.Y-4), sheet.PenHair)}
				}
			}
		}
	}
	return nil
}

// roomIn returns the place, near the middle of the bounds, where a box of that size lies within the polygon and clear of avoid; false
// when there is none. Places are tried on a grid.
func roomIn(polygon []geom.Point, bounds, avoid geom.Rect, w, h float64) (geom.Point, bool) {
	const steps = 24
	best, least, found := geom.Point{}, 0.0, false
	target := bounds.Center()
	for i := range steps {
		for j := range steps {
			c := geom.Pt(bounds.Min.X+(float64(i)+0.5)/steps*bounds.Width(), bounds.Min.Y+(float64(j)+0.5)/steps*bounds.Height())
			d := c.Dist(target)
			if found && d >= least {
				continue
			}
			box := geom.Rect{Min: c.Sub(geom.Pt(w/2, h/2)), Max: c.Add(geom.Pt(w/2, h/2))}
			if !avoid.Empty() && box.Overlaps(avoid) || !boxInside(polygon, box) {
				continue
			}
			best, least, found = c, d, true
		}
	}
	return best, found
}

// boxInside reports whether the box lies within the polygon: its middle does, and no side of the polygon enters it.
func boxInside(polygon []geom.Point, box geom.Rect) bool {
	for i, a := range polygon {
		if enters(a, polygon[(i+1)%len(polygon)], box) {
			return false
		}
	}
	return geom.PolygonContains(polygon, box.Center())
}

// enters reports whether the line from a to b has a part within the box.
func enters(a, b geom.Point, box geom.Rect) bool {
	if max(a.X, b.X) < box.Min.X || min(a.X, b.X) > box.Max.X || max(a.Y, b.Y) < box.Min.Y || min(a.Y, b.Y) > box.Max.Y {
		return false // as most do
	}
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	for _, s := range [4][2]float64{{-d.X, a.X - box.Min.X}, {d.X, box.Max.X - a.X}, {-d.Y, a.Y - box.Min.Y}, {d.Y, box.Max.Y - a.Y}} {
		switch {
		case s[0] == 0:
			if s[1] < 0 {
				return false
			}
		case s[0] < 0:
			t0 = max(t0, s[1]/s[0])
		default:
			t1 = min(t1, s[1]/s[0])
		}
	}
	return t0 <= t1
}
