package geom

import "math"

// Nearest returns the parameter of the point of a nearest to p, to rounding.
func (a EllipticArc) Nearest(p Point) float64 {
	best, dist := 0.0, p.Dist(a.Start())
	consider := func(t float64) {
		if d := p.Dist(a.At(t)); d < dist {
			best, dist = t, d
		}
	}
	consider(1)
	for _, e := range a.feet(p) {
		if t := turnParameter(a.From, a.Sweep, e); t <= 1 {
			consider(t)
		}
	}
	return best
}

// feet returns the eccentric angles at which the distance of the whole ellipse from p may be least. By symmetry p
// is moved to the first quadrant of axes with the longer one first; there the nearest point of all lies in that
// quadrant, and the only other minimum in the one below it, past the angle at which the derivative peaks.
func (a EllipticArc) feet(p Point) [2]Angle {
	q := p.Sub(a.Center).Rotate(-a.Turn)
	rx, ry, u, v := a.RX, a.RY, math.Abs(q.X), math.Abs(q.Y)
	swap := rx < ry
	if swap {
		rx, ry, u, v = ry, rx, v, u
	}
	c, ux, vy := (rx-ry)*(rx+ry), u*rx, v*ry
	slope := func(e float64) (f, df float64) {
		s, k := math.Sincos(e)
		return -c*s*k + ux*s - vy*k, c*(s*s-k*k) + ux*k + vy*s
	}
	near := risingRoot(slope, 0, math.Pi/2)
	peak := math.Atan2(math.Cbrt(vy), math.Cbrt(ux))
	far := risingRoot(slope, -math.Pi/2, -peak)
	return [2]Angle{unfold(near, swap, q), unfold(far, swap, q)}
}

// unfold takes an eccentric angle of the first-quadrant problem back to the quadrant of q.
func unfold(e float64, swap bool, q Point) Angle {
	s, c := math.Sincos(e)
	if swap {
		s, c = c, s
	}
	return Angle(math.Atan2(math.Copysign(1, q.Y)*s, math.Copysign(1, q.X)*c))
}

// risingRoot returns where f goes from not positive to positive between lo and hi: Newton's steps, kept in
// a bracket that is halved when they leave it. Where f does not change sign it returns an end.
func risingRoot(f func(float64) (v, dv float64), lo, hi float64) float64 {
	x := (lo + hi) / 2
	for range 100 {
		v, dv := f(x)
		if v <= 0 {
			lo = x
		} else {
			hi = x
		}
		next := x - v/dv
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-x) <= 1e-16*math.Abs(x) || hi-lo <= 1e-16 {
			return next
		}
		x = next
	}
	return x
}
