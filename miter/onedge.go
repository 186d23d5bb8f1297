package miter

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// onEdge reports whether a section too thin for a loose stick can be molded on the edge of a board and be ripped off it: its back stands in one plane, or
// where it is thinner square to that its foot or its top is as wide as the blank. Else it is fixed to a carrier, which any board will do for.
func onEdge(s profile.Section) bool {
	blank := s.Blank()
	corners := blank.Polygon // foot and back, foot and front, top and front, top and back
	if blank.Width <= blank.Thickness {
		n, _ := flats(s.Outline, corners[3], corners[0])
		if n == 1 {
			return true
		}
	}
	for _, side := range [2][2]geom.Point{{corners[0], corners[1]}, {corners[2], corners[3]}} {
		if n, long := flats(s.Outline, side[0], side[1]); n == 1 && long > blank.Thickness-1e-3 && blank.Thickness <= blank.Width {
			return true
		}
	}
	return false
}

// flats returns along how many lines an outline lies on the line from a to b, and how long they are together.
func flats(outline geom.Path, a, b geom.Point) (n int, long float64) {
	dir := b.Sub(a).Unit()
	for _, seg := range outline.Simplify(1e-6) {
		l, ok := seg.(geom.Line)
		if ok && math.Abs(dir.Cross(l.A.Sub(a))) < 1e-6 && math.Abs(dir.Cross(l.B.Sub(a))) < 1e-6 {
			n, long = n+1, long+l.Length()
		}
	}
	return n, long
}
