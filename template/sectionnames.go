package template

import (
	"math"

	"listel/profile/geom"
	"listel/template/sheet"
)

// column returns what stands right of the section, whose marks reach to x = right on the paper: the chain of heights, with the
// names of the members if those are asked for too, or else the names on leaders.
func (v sectionView) column(right float64) sheet.Drawing {
	if !v.heights && !v.names {
		return nil
	}
	ms := leaves(numberedMembers(v.s))
	if v.heights {
		return v.chain(ms, right+firstRow)
	}
	return v.nameColumn(ms, right)
}

// chain returns the heights of the members along x = at on the paper.
func (v sectionView) chain(ms []numbered, at float64) sheet.Drawing {
	c := sheet.Chain{Along: sheet.Up, At: at, Size: figureSize}
	var heights []float64
	last := math.Inf(-1)
	for i, n := range ms {
		if n.top-n.Foot < 1e-6 || n.Foot < last || len(heights) > 0 && n.top < heights[len(heights)-1] {
			continue // a member without height of its own, as a level curve
		}
		last = n.Foot
		if len(heights) == 0 {
			heights = append(heights, n.Foot)
		}
		top := n.top
		if i == len(ms)-1 {
			top = v.s.Height
		}
		heights = append(heights, top)
		text := v.st.figure(top - n.Foot)
		if v.names {
			text += "   " + v.label(n)
		}
		c.Texts = append(c.Texts, text)
	}
	for i, x := range v.outermost(heights) {
		c.Points = append(c.Points, geom.Pt(x, heights[i]).Mul(v.k))
	}
	return c.Drawing()
}

// nameColumn returns the members' names on leaders, clear of all that reaches to x = right.
func (v sectionView) nameColumn(ms []numbered, right float64) sheet.Drawing {
	bounds := v.s.Outline.Bounds()
	level := bounds.Max.X*v.k + 1.5 // leaders run level to here, clear of the section
	x := right + nameRoom
	var want, half []float64
	var tips []geom.Point
	var words []string
	row := sheet.LineHeight(nameSize) * spread / 2
	for _, n := range ms {
		if len(n.Path) == 0 {
			continue
		}
		tip := v.visible(n, n.middle()).Mul(v.k)
		y := tip.Y
		if len(want) > 0 {
			y = max(y, want[len(want)-1])
		}
		tips, want, half = append(tips, tip), append(want, y), append(half, row)
		words = append(words, v.label(n))
	}
	var d sheet.Drawing
	for i, y := range sheet.Spread(want, half, 0) {
		bend := geom.Pt(max(level, tips[i].X+1), tips[i].Y)
		end := geom.Pt(x-1, y)
		d = d.Add(
			sheet.Dot(tips[i], 0.55),
			sheet.Polyline(sheet.PenHair, tips[i], bend, geom.Pt(x-nameRun-1, y), end),
			sheet.Text{At: geom.Pt(x, y), S: words[i], Size: nameSize, Anchor: sheet.Left},
		)
	}
	return d
}

// label returns the member's number, name and radii.
func (v sectionView) label(n numbered) string {
	s := "(" + n.number + ") " + n.name()
	if r := n.radii(v.st); r != "" {
		s += ", " + r
	}
	return s
}

// visible returns the point p of a member, moved along a flat that is partly broken off to the middle of what is seen.
func (v sectionView) visible(n numbered, p geom.Point) geom.Point {
	if v.cuts() && (n.Foot < v.crop.Min.Y || n.top > v.crop.Max.Y) {
		p.Y = (max(n.Foot, v.crop.Min.Y) + min(n.top, v.crop.Max.Y)) / 2
	}
	return p
}

// middle returns the point halfway along the member's part of the face.
func (n numbered) middle() geom.Point {
	half := n.Path.Length() / 2
	for _, s := range n.Path {
		l := s.Length()
		if half <= l && l > 0 {
			return s.At(half / l)
		}
		half -= l
	}
	return n.Path.End()
}

// compass returns a cross at the center of each arc with a thin line to the arc's middle, and the greatest x that they take. A
// center far from the section is left out: its radius is in the name.
func (v sectionView) compass() (sheet.Drawing, float64) {
	b := v.s.Outline.Bounds()
	if v.cuts() {
		b = v.crop
	}
	near := b.Expand(0.4 * max(b.Width(), b.Height()))
	var d sheet.Drawing
	reach := math.Inf(-1)
	for _, n := range leaves(numberedMembers(v.s)) {
		for _, seg := range n.Path {
			var center geom.Point
			switch a := seg.(type) {
			case geom.Arc:
				center = a.Center
			case geom.EllipticArc:
				center = a.Center
			default:
				continue
			}
			if !near.Contains(center) {
				continue
			}
			c, mid := center.Mul(v.k), seg.At(0.5).Mul(v.k)
			d = d.Add(sheet.CenterMark(c, 1.3)...)
			reach = max(reach, c.X+1.3)
			if _, round := seg.(geom.Arc); round && c.Dist(mid) > 3.2 {
				d = d.Add(sheet.Line(c, mid, sheet.PenHair), sheet.ArrowHead(mid, mid.Sub(c)))
			}
		}
	}
	return d, reach
}
