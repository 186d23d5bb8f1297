package sheet

import (
	"math"

	"listel/profile/geom"
)

// bezierTolerance is how far a cubic curve may stray from the arc it stands for, mm.
const bezierTolerance = 0.0001

// A cubic is a Bezier curve from wherever the one before ended.
type cubic struct{ c1, c2, end geom.Point }

// cubics returns curves that follow a circular or elliptic arc within bezierTolerance.
func cubics(s geom.Segment) []cubic {
	switch s := s.(type) {
	case geom.Arc:
		return arcCubics(s.Center, geom.Pt(s.Radius, 0), geom.Pt(0, s.Radius), s.From, s.Sweep)
	case geom.EllipticArc:
		u := geom.Polar(1, s.Turn)
		return arcCubics(s.Center, u.Mul(s.RX), u.Left().Mul(s.RY), s.From, s.Sweep)
	}
	return nil
}

// arcCubics splits the arc center + p cos a + q sin a evenly. The usual cubic for a part of sweep w, with arms of
// 4/3 tan(w/4), strays by 2.73e-4 of the radius at 90 degrees, and by the sixth power of the sweep below that.
func arcCubics(center, p, q geom.Point, from, sweep geom.Angle) []cubic {
	radius := math.Max(p.Norm(), q.Norm())
	most := 90 * math.Pow(math.Max(bezierTolerance/(2.73e-4*radius), 1e-12), 1./6)
	n := max(1, int(math.Ceil(sweep.Abs().Degrees()/math.Min(most, 90)-1e-9)))
	step := sweep / geom.Angle(n)
	arm := 4. / 3 * math.Tan(step.Radians()/4)
	out := make([]cubic, n)
	for i := range out {
		a, b := from+step*geom.Angle(i), from+step*geom.Angle(i+1)
		sa, ca := math.Sincos(a.Radians())
		sb, cb := math.Sincos(b.Radians())
		at := func(x, y float64) geom.Point { return center.Add(p.Mul(x)).Add(q.Mul(y)) }
		out[i] = cubic{at(ca-arm*sa, sa+arm*ca), at(cb+arm*sb, sb-arm*cb), at(cb, sb)}
	}
	return out
}
