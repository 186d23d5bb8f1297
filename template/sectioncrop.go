package template

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// workedPart returns the window, in mm of wood, that an enlarged view of the section needs to show: a broad plain flat at the foot or the
// top, and the wood behind the face, are broken off. It is the bounds of the section when nothing is worth breaking.
func workedPart(s profile.Section) geom.Rect {
	b := s.Outline.Bounds()
	out := b
	ms := leaves(numberedMembers(s))
	if len(ms) > 1 {
		first, last := ms[0], ms[len(ms)-1]
		if first.plain() {
			rest := b.Max.Y - first.top
			out.Min.Y = breakAt(b.Min.Y, first.top, rest)
		}
		if last.plain() {
			rest := last.Foot - b.Min.Y
			out.Max.Y = -breakAt(-b.Max.Y, -last.Foot, rest)
		}
		if !(out.Height() > 0.25*b.Height() || out.Height() > 3) {
			out = b
		}
	}
	if face := s.Face.Bounds(); s.Spring == nil && !face.Empty() {
		out.Min.X = breakAt(b.Min.X, face.Min.X, face.Width())
	}
	return out
}

// plain reports whether the member is one plumb flat.
func (n numbered) plain() bool {
	return (n.Kind == profile.KindFillet || n.Kind == profile.KindFascia) && n.Set > -1e-9 && n.Set < 1e-9 || n.Kind == profile.KindFascia
}

// breakAt returns where to break wood that reaches from edge up to worked, beyond which rest is worked: edge itself when
// breaking would save too little.
func breakAt(edge, worked, rest float64) float64 {
	keep := max(2, 0.3*rest)
	if plain := worked - edge; plain > 1.6*keep && plain > 0.3*rest && plain-keep > 4 {
		return worked - keep
	}
	return edge
}

// cuts reports whether the view shows only a part of the section.
func (v sectionView) cuts() bool { return v.crop != geom.Rect{} && v.crop != v.s.Outline.Bounds() }

// cropped returns the drawing cut to the view's window, with break lines where that cuts the section.
func (v sectionView) cropped(d sheet.Drawing) sheet.Drawing {
	if !v.cuts() {
		return d
	}
	b := v.s.Outline.Bounds()
	window := geom.Rect{Min: v.crop.Min.Mul(v.k), Max: v.crop.Max.Mul(v.k)}
	const pen = 0.5 // room for the pen on the sides that are not cut, mm
	d = d.Clip(window.Expand(pen))
	cut := window.Expand(pen)
	if v.crop.Min.X > b.Min.X {
		cut.Min.X = window.Min.X
	}
	if v.crop.Min.Y > b.Min.Y {
		cut.Min.Y = window.Min.Y
	}
	if v.crop.Max.Y < b.Max.Y {
		cut.Max.Y = window.Max.Y
	}
	d = d.Clip(cut)
	if v.crop.Min.X > b.Min.X {
		d = d.Add(v.breakLine(geom.Line{A: geom.Pt(v.crop.Min.X, b.Min.Y-1), B: geom.Pt(v.crop.Min.X, b.Max.Y+1)}))
	}
	for _, y := range [2]float64{v.crop.Min.Y, v.crop.Max.Y} {
		if y > b.Min.Y && y < b.Max.Y {
			d = d.Add(v.breakLine(geom.Line{A: geom.Pt(b.Min.X-1, y), B: geom.Pt(b.Max.X+1, y)}))
		}
	}
	return d
}

// breakLine returns the line that shows where the section is broken off: along the cut, with a zigzag in its middle.
func (v sectionView) breakLine(cut geom.Line) sheet.Mark {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, seg := range v.s.Outline {
		for _, c := range geom.Crossings(seg, cut) {
			lo, hi = min(lo, c.TB), max(hi, c.TB)
		}
	}
	// A cut stops where another one meets it.
	along, from, to := cut.B.X-cut.A.X, v.crop.Min.X-cut.A.X, v.crop.Max.X-cut.A.X
	if cut.A.X == cut.B.X {
		along, from, to = cut.B.Y-cut.A.Y, v.crop.Min.Y-cut.A.Y, v.crop.Max.Y-cut.A.Y
	}
	lo, hi = max(lo, from/along), min(hi, to/along)
	return zigzag(cut.At(lo).Mul(v.k), cut.At(hi).Mul(v.k))
}
