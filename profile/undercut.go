package profile

import (
	"cmp"
	"math"
	"slices"

	"listel/profile/geom"
)

// Undercuts returns the parts of the face that cannot be seen from above, from the front or from below, from the foot upward for each view.
// What is seen edge-on counts as seen. Depth is measured across the view: how far a cutter would have to reach behind the edge that hides the part.
func (s Section) Undercuts() []Undercut {
	var out []Undercut
	for _, v := range []struct {
		from View
		ray  geom.Point
	}{{FromAbove, geom.Pt(0, 1)}, {FromFront, geom.Pt(1, 0)}, {FromBelow, geom.Pt(0, -1)}} {
		out = append(out, s.hidden(v.from, v.ray)...)
	}
	return out
}

// hidden returns the parts of the face from which a ray meets the section. Between two levels at which the outline has an end or turns, a
// part is hidden or seen as a whole: so the face is cut at those levels and the middle of each part asked.
func (s Section) hidden(from View, ray geom.Point) []Undercut {
	across := ray.Left()
	cuts := s.levels(across)
	boxes := make([]geom.Rect, len(s.Outline))
	for i, seg := range s.Outline {
		boxes[i] = seg.Bounds()
	}
	reach := s.Outline.Bounds().Width() + s.Outline.Bounds().Height()
	var out []Undercut
	var run geom.Path
	flush := func() {
		if b := run.Bounds(); len(run) > 0 {
			depth := b.Width()
			if ray.X != 0 {
				depth = b.Height()
			}
			if depth > seen {
				out = append(out, Undercut{From: from, Y0: math.Max(0, b.Min.Y), Y1: math.Min(s.Height, b.Max.Y), Depth: depth})
			}
		}
		run = nil
	}
	for _, seg := range s.Face {
		for _, part := range cutAt(seg, across, cuts) {
			// A step out into the air keeps the ray from running along the face itself.
			at := part.At(0.5).Sub(part.Tangent(0.5).Left().Mul(seen))
			if !s.meets(geom.Line{A: at, B: at.Add(ray.Mul(reach))}, boxes) {
				flush()
				continue
			}
			run = append(run, part)
		}
	}
	flush()
	slices.SortStableFunc(out, func(a, b Undercut) int { return cmp.Compare(a.Y0, b.Y0) })
	return out
}

// seen is the step in mm by which a ray keeps off the face it starts from: a depth no greater is not hidden.
const seen = 1e-6

// meets reports whether the ray meets the outline.
func (s Section) meets(ray geom.Line, boxes []geom.Rect) bool {
	box := ray.Bounds()
	for i, seg := range s.Outline {
		if box.Overlaps(boxes[i]) && len(geom.Crossings(ray, seg)) > 0 {
			return true
		}
	}
	return false
}

// levels returns, in order, the distances along the unit vector n at which the outline has a joint or turns round.
func (s Section) levels(n geom.Point) []float64 {
	var out []float64
	for _, seg := range s.Outline {
		out = append(out, seg.Start().Dot(n))
		b := seg.Bounds()
		for _, p := range []geom.Point{b.Min, b.Max} {
			out = append(out, p.Dot(n))
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, same)
}

// cutAt returns the parts of a segment between the levels along n.
func cutAt(seg geom.Segment, n geom.Point, levels []float64) []geom.Segment {
	b := seg.Bounds()
	lo, hi := math.Min(b.Min.Dot(n), b.Max.Dot(n)), math.Max(b.Min.Dot(n), b.Max.Dot(n))
	ts := []float64{0, 1}
	side := n.Left()
	for _, v := range levels {
		if v < lo-equalSizes || v > hi+equalSizes {
			continue
		}
		c := b.Center()
		mid := n.Mul(v).Add(side.Mul(c.Dot(side)))
		far := side.Mul(b.Width() + b.Height())
		for _, x := range geom.Crossings(seg, geom.Line{A: mid.Sub(far), B: mid.Add(far)}) {
			ts = append(ts, x.TA)
		}
	}
	slices.Sort(ts)
	var out []geom.Segment
	for i := 1; i < len(ts); i++ {
		if ts[i]-ts[i-1] > 1e-9 {
			out = append(out, seg.Trim(ts[i-1], ts[i]))
		}
	}
	return out
}
