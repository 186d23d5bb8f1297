package profile

import (
	"math"

	"listel/profile/geom"
)

// An Ovolo is a convex quarter: going outward it starts level and ends plumb.
type Ovolo struct {
	Height     float64      // mm, > 0
	Projection float64      // mm, not 0; negative turns it upside down
	Curve      Construction // quadrant (also ""), arc or ellipse
}

// Validate returns a *SizeError for a size out of range, or a construction that the sizes do not allow.
func (e Ovolo) Validate() error { return validQuarter("an ovolo", e.Height, e.Projection, e.Curve) }

// Outline returns the curve: a quadrant, the arc of radius Height whose center is the crossing of two arcs of that radius struck
// from both ends (Nicholson), or a quarter ellipse.
func (e Ovolo) Outline(from geom.Point) geom.Path {
	p := math.Abs(e.Projection)
	if e.Curve == CurveArc {
		return upward(from, e.Projection, e.Height, nicholson(p, e.Height, true))
	}
	return upward(from, e.Projection, e.Height,
		geom.Path{quarter(geom.Pt(0, e.Height), p, e.Height, -90*geom.Degree, 90*geom.Degree)})
}

// A Cove is a concave quarter: going outward it starts plumb and ends level.
type Cove struct {
	Height     float64      // mm, > 0
	Projection float64      // mm, not 0; negative turns it upside down
	Curve      Construction // quadrant (also ""), arc or ellipse
}

// Validate returns a *SizeError for a size out of range, or a construction that the sizes do not allow.
func (e Cove) Validate() error { return validQuarter("a cove", e.Height, e.Projection, e.Curve) }

// Outline returns the curve, as Ovolo does, from the other side.
func (e Cove) Outline(from geom.Point) geom.Path {
	p := math.Abs(e.Projection)
	if e.Curve == CurveArc {
		return upward(from, e.Projection, e.Height, nicholson(p, e.Height, false))
	}
	return upward(from, e.Projection, e.Height,
		geom.Path{quarter(geom.Pt(p, 0), p, e.Height, 180*geom.Degree, -90*geom.Degree)})
}

// A Conge is a small cove, always a quadrant, that fairs a fillet into a face.
type Conge struct {
	Height     float64 // mm, > 0
	Projection float64 // mm, Height or -Height
}

// Validate returns a *SizeError for a height of 0 or less, or when rise and run differ.
func (e Conge) Validate() error {
	if err := firstOf(positive("height", e.Height), run(e.Projection)); err != nil {
		return err
	}
	if p := math.Abs(e.Projection); !same(p, e.Height) {
		return sizeFault("projection", "a conge is a quadrant, whose rise is its run, but its height is %s and its projection %s; a cove with curve: "+
			insteadOfQuadrant(e.Height, p)+" would do", e.Height, e.Projection)
	}
	return nil
}

// Outline returns the quadrant.
func (e Conge) Outline(from geom.Point) geom.Path {
	return Cove{Height: e.Height, Projection: e.Projection}.Outline(from)
}

// nicholson returns the arc of radius h from the origin to (p, h). Of the two crossings of the arcs struck from the ends the
// center is the one on the material's side of a round member, on the other side of a hollow one.
func nicholson(p, h float64, round bool) geom.Path {
	arc, err := geom.ArcRadius(geom.Point{}, geom.Pt(p, h), h, round)
	if err != nil { // Validate has seen to it that the chord is under 2 h
		panic("profile: " + err.Error())
	}
	return geom.Path{arc}
}

// insteadOfQuadrant names the constructions that draw a quarter of this rise and run.
func insteadOfQuadrant(h, p float64) string {
	if math.Hypot(p, h) < 2*h {
		return "arc or ellipse"
	}
	return "ellipse"
}

// validQuarter checks an ovolo or cove, whose name with its article is what.
func validQuarter(what string, h, p float64, c Construction) error {
	if err := firstOf(positive("height", h), run(p), construction(c.or(CurveQuadrant), CurveQuadrant, CurveArc, CurveEllipse)); err != nil {
		return err
	}
	size := math.Abs(p)
	switch {
	case c.or(CurveQuadrant) == CurveQuadrant && !same(size, h):
		return sizeFault("curve", what+" of curve: quadrant needs a rise that is its run, but its height is %s and its projection %s; curve: "+
			insteadOfQuadrant(h, size)+" would do", h, p)
	case c == CurveArc && !(math.Hypot(size, h) < 2*h*(1-1e-9)):
		return sizeFault("curve", what+" of curve: arc has its height for a radius and needs a projection under %s, but it is %s; curve: ellipse would do",
			math.Sqrt(3)*h, p)
	}
	return nil
}
