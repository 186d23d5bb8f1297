package profile

import (
	"math"

	"listel/profile/geom"
)

// A Scotia is a hollow of two arcs tangent to each other, the smaller at the end with the lesser x.
type Scotia struct {
	Height     float64      // mm, > 0
	Projection float64      // mm: + or - Height / 3 for thirds, at least Height / 7 either way for sevenths
	Curve      Construction // thirds (also "") or sevenths
}

// Validate returns a *SizeError for a size out of range, or a construction that the run does not allow.
func (e Scotia) Validate() error {
	c := e.Curve.or(CurveThirds)
	if err := firstOf(positive("height", e.Height), run(e.Projection), construction(c, CurveThirds, CurveSevenths)); err != nil {
		return err
	}
	p := math.Abs(e.Projection)
	switch {
	case c == CurveThirds && !same(p, e.Height/3) && p >= e.Height/7:
		return sizeFault("projection", "a scotia of curve: thirds runs a third of its height, %s, but its projection is %s; curve: sevenths would do", e.Height/3, e.Projection)
	case c == CurveThirds && !same(p, e.Height/3):
		return sizeFault("projection", "a scotia of curve: thirds runs a third of its height, %s, but its projection is %s; curve: sevenths would do with %s or more",
			e.Height/3, e.Projection, e.Height/7)
	case c == CurveSevenths && !(p >= e.Height/7-equalSizes):
		return sizeFault("projection", "a scotia of curve: sevenths runs a seventh of its height, %s, at least, but its projection is %s; curve: thirds would do with %s",
			e.Height/7, e.Projection, e.Height/3)
	}
	return nil
}

// Outline returns the two arcs. Thirds (Nicholson): quadrants of 1/3 and 2/3 of the height, their centers on one level. Sevenths
// (Sheraton, Chippendale): the height in 7, the smaller arc of 3 parts about a point 4 parts from the end with the greater x, the
// larger with its center plumb over that end.
func (e Scotia) Outline(from geom.Point) geom.Path {
	p, h := math.Abs(e.Projection), e.Height
	r, big := h/3, 2*h/3
	if e.Curve == CurveSevenths {
		// The distance of the centers is the difference of the radii: p² + (R - 4h/7)² = (R - 3h/7)².
		r, big = 3*h/7, (7*p*p+h*h)/(2*h)
	}
	small, large := geom.Pt(0, r), geom.Pt(p, h-big)
	meet := 180 * geom.Degree
	if !same(small.Y, large.Y) {
		meet = small.Sub(large).Angle()
	}
	if meet < 0 {
		meet += 360 * geom.Degree
	}
	// From the foot, clockwise: the small arc starts level at its lowest point and the large one ends level at its highest.
	return upward(from, e.Projection, h, geom.Path{
		geom.Arc{Center: small, Radius: r, From: 270 * geom.Degree, Sweep: meet - 270*geom.Degree},
		geom.Arc{Center: large, Radius: big, From: meet, Sweep: 90*geom.Degree - meet},
	})
}
