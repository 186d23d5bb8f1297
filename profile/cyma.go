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
}

// Validate returns a *SizeError for a size out of range, or a construction that the sizes do not allow.
func (e CymaRecta) Validate() error {
	return validCyma("a cyma-recta", e.Height, e.Projection, e.Curve)
}

// Outline returns the two arcs, tangent to each other at the middle of the chord: of 60 degrees and half the chord for a radius (flat;
// Nicholson, Sheraton), quadrants (bold), or quarters of ellipses.
func (e CymaRecta) Outline(from geom.Point) geom.Path {
	p, h := math.Abs(e.Projection), e.Height
	drawn := flatCyma(p, h, true)
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
}

// Validate returns a *SizeError for a size out of range, or a construction that the sizes do not allow.
func (e CymaReversa) Validate() error {
	return validCyma("a cyma-reversa", e.Height, e.Projection, e.Curve)
}

// Outline returns the two arcs as for a CymaRecta, hollow and round changed over.
func (e CymaReversa) Outline(from geom.Point) geom.Path {
	p, h := math.Abs(e.Projection), e.Height
	drawn := flatCyma(p, h, false)
	if e.Curve.or(CurveFlat) != CurveFlat {
		drawn = geom.Path{
			quarter(geom.Pt(p/2, 0), p/2, h/2, 180*geom.Degree, -90*geom.Degree),
			quarter(geom.Pt(p/2, h), p/2, h/2, -90*geom.Degree, 90*geom.Degree),
		}
	}
	return upward(from, e.Projection, h, drawn)
}

// flatCyma returns two 60 degree arcs from the origin to (p, h), the first of them round or hollow. The center of each is the
// summit of the equilateral triangle on half the chord.
func flatCyma(p, h float64, roundFirst bool) geom.Path {
	half := geom.Pt(p/2, h/2)
	turn := 60 * geom.Degree
	if !roundFirst {
		turn = -turn
	}
	r := half.Norm()
	first, second := half.Rotate(turn), half.Add(half.Rotate(-turn))
	return geom.Path{
		geom.Arc{Center: first, Radius: r, From: first.Mul(-1).Angle(), Sweep: turn},
		geom.Arc{Center: second, Radius: r, From: half.Sub(second).Angle(), Sweep: -turn},
	}
}

// validCyma checks a cyma, whose name with its article is what. A flat one would start below level or lean
// over itself when its chord lies outside 30 to 60 degrees.
func validCyma(what string, h, p float64, c Construction) error {
	if err := firstOf(positive("height", h), run(p), construction(c.or(CurveFlat), CurveFlat, CurveBold, CurveEllipse)); err != nil {
		return err
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
			degrees(chord)+"; curve: ellipse would do", h, p)
	}
	return nil
}
