package profile

import (
	"math"

	"listel/profile/geom"
)

// A CymaRecta is a double curve, round at the end with the lesser x and hollow at the end with the greater x; its ends tend
// to level.
type CymaRecta struct {
	Height     float64      // mm, > 0
	Projection float64      // mm, not 0; negative turns it upside down
	Curve      Construction // flat (also ""), bold or ellipse
	Radius     float64      // mm, of both arcs; 0 leaves it to Curve, which is "" where it is not 0
}

// Validate returns a *SizeError for a size out of range, or a construction that the sizes do not allow.
func (e CymaRecta) Validate() error {
	return validCyma("a cyma-recta", e.Height, e.Projection, e.Radius, e.Curve)
}

// Outline returns the two arcs, tangent to each other at the middle of the chord: of 60 degrees and half the chord for a radius (flat;
// Nicholson, Sheraton), of a radius that is given (common practice, no source), quadrants (bold), or quarters of ellipses.
func (e CymaRecta) Outline(from geom.Point) geom.Path {
	p, h := math.Abs(e.Projection), e.Height
	drawn := arcsCyma(p, h, e.Radius, true)
	if e.Curve.or(CurveFlat) != CurveFlat {
		drawn = geom.Path{
			quarter(geom.Pt(0, h/2), p/2, h/2, -90*geom.Degree, 90*geom.Degree),
			quarter(geom.Pt(p, h/2), p/2, h/2, 180*geom.Degree, -90*geom.Degree),
		}
	}
	return upward(from, e.Projection, h, drawn)
}

// A CymaReversa is a double curve, hollow at the end with the lesser x and round at the end with the greater x; its ends
// tend to plumb.
type CymaReversa struct {
	Height     float64      // mm, > 0
	Projection float64      // mm, not 0; negative turns it upside down
	Curve      Construction // flat (also ""), bold or ellipse
	Radius     float64      // mm, of both arcs; 0 leaves it to Curve, which is "" where it is not 0
}

// Validate returns a *SizeError for a size out of range, or a construction that the sizes do not allow.
func (e CymaReversa) Validate() error {
	return validCyma("a cyma-reversa", e.Height, e.Projection, e.Radius, e.Curve)
}

// Outline returns the two arcs as for a CymaRecta, hollow and round changed over.
func (e CymaReversa) Outline(from geom.Point) geom.Path {
	p, h := math.Abs(e.Projection), e.Height
	drawn := arcsCyma(p, h, e.Radius, false)
	if e.Curve.or(CurveFlat) != CurveFlat {
		drawn = geom.Path{
			quarter(geom.Pt(p/2, 0), p/2, h/2, 180*geom.Degree, -90*geom.Degree),
			quarter(geom.Pt(p/2, h), p/2, h/2, -90*geom.Degree, 90*geom.Degree),
		}
	}
	return upward(from, e.Projection, h, drawn)
}

// arcsCyma returns two arcs of one radius from the origin to (p, h), tangent at the middle of the chord, the first of them round or hollow. Of radius 0
// they are of 60 degrees: the center of each is the summit of the equilateral triangle on half the chord.
func arcsCyma(p, h, r float64, roundFirst bool) geom.Path {
	half := geom.Pt(p/2, h/2)
	turn, sweep := 60*geom.Degree, 60*geom.Degree // from the half chord to the center, and that of an arc
	if r == 0 {
		r = half.Norm()
	} else {
		sweep = 2 * geom.Angle(math.Asin(half.Norm()/2/r))
		turn = 90*geom.Degree - sweep/2
	}
	if !roundFirst {
		turn, sweep = -turn, -sweep
	}
	first := half.Unit().Mul(r).Rotate(turn)
	second := half.Mul(2).Sub(first)
	return geom.Path{
		geom.Arc{Center: first, Radius: r, From: first.Mul(-1).Angle(), Sweep: sweep},
		geom.Arc{Center: second, Radius: r, From: half.Sub(second).Angle(), Sweep: -sweep},
	}
}

// validCyma checks a cyma, whose name with its article is what. One of arcs would start below level or lean
// over itself when its chord is nearer to level or to plumb than to the ends of its arcs: a flat one outside 30 to 60 degrees.
func validCyma(what string, h, p, r float64, c Construction) error {
	if err := firstOf(positive("height", h), run(p), construction(c.or(CurveFlat), CurveFlat, CurveBold, CurveEllipse)); err != nil {
		return err
	}
	if r != 0 {
		return validRadius(what, h, p, r, c)
	}
	size := math.Abs(p)
	slack := geom.Angle(1e-9) // a chord of exactly 30 degrees may be a rounding beyond it
	chord := geom.Pt(size, h).Angle()
	flat := chord >= 30*geom.Degree-slack && chord <= 60*geom.Degree+slack
	switch {
	case c == CurveBold && !same(size, h) && flat:
		return sizeFault("curve", what+" of curve: bold needs a rise that is its run, but its height is %s and its projection %s; curve: flat or ellipse would do", h, p)
	case c == CurveBold && !same(size, h):
		return sizeFault("curve", what+" of curve: bold needs a rise that is its run, but its height is %s and its projection %s; curve: ellipse would do", h, p)
	case c.or(CurveFlat) == CurveFlat && !flat:
		return sizeFault("curve", what+" of curve: flat needs a chord of 30 to 60 degrees, but a height of %s and a projection of %s make it "+
			degrees(chord)+"; curve: ellipse would do, or a radius of %s or more", h, p, LeastCymaRadius(h, p))
	}
	return nil
}

// validRadius checks a cyma of a given radius.
func validRadius(what string, h, p, r float64, c Construction) error {
	least := LeastCymaRadius(h, p)
	switch {
	case c != "":
		return sizeFault("radius", what+" takes a radius or a curve, not both; curve: "+string(c)+" has no need of a radius of %s", r)
	case !(r > 0):
		return sizeFault("radius", "radius is %s; it must be more than 0", r)
	case !(r >= least-equalSizes):
		return sizeFault("radius", "radius is %s; "+what+" with a height of %s and a projection of %s needs %s or more, or its ends would go past level or plumb", r, h, p, least)
	case !(r <= flattest*math.Hypot(h, p)):
		return sizeFault("radius", "radius is %s, which is next to a straight line; %s or less would do, or a chamfer", r, flattest*math.Hypot(h, p))
	}
	return nil
}

// flattest is the greatest radius of a cyma in chords: its arcs stand out from it by a 640th of the chord.
const flattest = 20

// LeastCymaRadius returns the least radius in mm that the arcs of a cyma of this height and projection may have: that of one which starts and ends
// level or plumb, whichever its chord is nearer to. It is infinite without a run.
func LeastCymaRadius(height, projection float64) float64 {
	p := math.Abs(projection)
	return (height*height + p*p) / 4 / math.Min(height, p)
}
