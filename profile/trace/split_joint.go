package trace

import (
	"math"

	"listel/profile/geom"
)

// foot returns the place on b nearest to p.
func (b bend) foot(p geom.Point) geom.Point {
	return p.Sub(b.normal(p).Mul(b.distance(p)))
}

// joint returns where a and b cross near p, or, where they do not within reach mm, the middle of the places on them nearest to it.
func joint(a, b bend, p geom.Point, reach float64) geom.Point {
	q := p
	for range 20 {
		// Newton on both distances; it fails, as it should, where the two are tangent.
		na, nb := a.normal(q), b.normal(q)
		det := na.Cross(nb)
		if math.Abs(det) < 0.05 { // three degrees: tangent, whatever a crossing far along would say
			return a.foot(p).Lerp(b.foot(p), 0.5)
		}
		da, db := a.distance(q), b.distance(q)
		step := geom.Pt(nb.Y*da-na.Y*db, na.X*db-nb.X*da).Mul(1 / det)
		q = q.Sub(step)
		if step.Norm() < 1e-10 {
			break
		}
	}
	if !(q.Dist(p) <= reach/math.Max(0.05, math.Abs(a.normal(q).Cross(b.normal(q))))) {
		return a.foot(p).Lerp(b.foot(p), 0.5)
	}
	return q
}

// segment returns the line or arc from p through about mid to q.
func (b bend) segment(p, mid, q geom.Point, arc bool) geom.Segment {
	if !arc {
		return geom.Line{A: p, B: q}
	}
	seg, err := geom.ArcThrough(p, b.foot(mid), q)
	if err != nil {
		return geom.Line{A: p, B: q}
	}
	return seg
}
