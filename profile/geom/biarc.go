package geom

import (
	"math"
	"slices"
)

// arcs returns circular arcs within tol mm of a whose tangents agree at every joint: a pair of arcs for every
// span, and spans halved until they fit. Spans end at the axes, so that the curvature runs one way in each.
func (a EllipticArc) arcs(tol float64) Path {
	var out Path
	from := 0.0
	for _, t := range a.quadrants() {
		out = append(out, a.fitArcs(from, t, tol, 20)...)
		from = t
	}
	return out
}

// quadrants returns the parameters at which a passes an axis, and then 1.
func (a EllipticArc) quadrants() []float64 {
	lo, hi := float64(a.From), float64(a.From+a.Sweep)
	if lo > hi {
		lo, hi = hi, lo
	}
	var ts []float64
	for k := math.Floor(lo / (math.Pi / 2)); k*math.Pi/2 < hi; k++ {
		t := (k*math.Pi/2 - float64(a.From)) / float64(a.Sweep)
		if t > 1e-9 && t < 1-1e-9 {
			ts = append(ts, t)
		}
	}
	if a.Sweep < 0 {
		slices.Reverse(ts)
	}
	return append(ts, 1)
}

func (a EllipticArc) fitArcs(t0, t1, tol float64, depth int) Path {
	fit := biarc(a.At(t0), a.At(t1), a.Tangent(t0), a.Tangent(t1))
	if depth == 0 || a.within(fit, t0, t1, tol) {
		return fit
	}
	m := (t0 + t1) / 2
	return append(a.fitArcs(t0, m, tol, depth-1), a.fitArcs(m, t1, tol, depth-1)...)
}

// within reports whether the points of a between two parameters lie within tol of p. A pair of arcs leaves the
// curve by one bow on each side of its joint, so that eight points meet nine tenths of the bow.
func (a EllipticArc) within(p Path, t0, t1, tol float64) bool {
	for i := 1; i < 8; i++ {
		if _, _, d := p.Nearest(a.At(t0 + (t1-t0)*float64(i)/8)); !(d <= 0.9*tol) {
			return false
		}
	}
	return true
}

// biarc returns two arcs from p to q that leave p along u and reach q along v (unit vectors), tangent to each other, with
// equal tangent lengths d: |q - p - d(u + v)| = 2d.
func biarc(p, q, u, v Point) Path {
	w, s := q.Sub(p), u.Add(v)
	a, b, c := s.Dot(s)-4, w.Dot(s), w.Dot(w)
	// a d2 - 2 b d + c = 0 has one positive root, since a <= 0.
	d := c / (b + math.Sqrt(math.Max(0, b*b-a*c)))
	if !(d > 0) || math.IsInf(d, 0) {
		return Path{Line{p, q}}
	}
	m := p.Add(u.Mul(d)).Lerp(q.Sub(v.Mul(d)), 0.5)
	second := arcAlong(q, m, v.Mul(-1)).Reverse()
	return Path{arcAlong(p, m, u), second}
}

// arcAlong returns the arc from p to q that leaves p along the unit vector u, or the line when it is flat.
func arcAlong(p, q, u Point) Segment {
	w := q.Sub(p)
	cross := u.Cross(w)
	if math.Abs(cross) <= flat*w.Norm() {
		return Line{p, q}
	}
	r := w.Dot(w) / (2 * cross) // negative to the right
	return ArcBetween(p, q, p.Add(u.Left().Mul(r)), r > 0)
}
