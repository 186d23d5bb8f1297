package geom

import (
	"math"
	"slices"
)

// ellipses finds where two elliptic arcs meet. A map that makes the ellipse of a the unit circle leaves of b the
// question where its point is at distance 1 from the origin: the roots of a trigonometric polynomial of degree 2.
func (f *finder) ellipses(a, b EllipticArc) {
	frame := func(p Point) Point {
		p = p.Rotate(-a.Turn)
		return Point{p.X / a.RX, p.Y / a.RY}
	}
	c := frame(b.Center.Sub(a.Center))
	u := frame(Polar(b.RX, b.Turn))
	v := frame(Polar(b.RY, b.Turn).Left())
	w := newWave2(c, u, v)
	// What touch comes to in the frame: the square of the distance changes by twice the distance.
	w.near = 2.5 * touch / math.Min(a.RX, a.RY)
	if w.bend <= w.near { // one ellipse: the ends have been tried
		return
	}
	ends := len(f.found)
	for _, e := range w.roots() {
		known := func(x Crossing) bool { // an end near an osculation stands for it
			at := float64(b.From) + x.TB*float64(b.Sweep)
			return w.together(e, e+math.Remainder(at-e, 2*math.Pi))
		}
		if slices.ContainsFunc(f.found[:ends], known) {
			continue
		}
		s, k := math.Sincos(e)
		at := c.Add(u.Mul(k)).Add(v.Mul(s))
		ta := turnParameter(a.From, a.Sweep, at.Angle())
		tb := turnParameter(b.From, b.Sweep, Angle(e))
		if ta <= 1 && tb <= 1 {
			f.try(ta, tb)
		}
	}
}

// A wave2 is k + c1 cos e + s1 sin e + c2 cos 2e + s2 sin 2e.
type wave2 struct {
	k, c1, s1, c2, s2 float64
	bend              float64 // bound of the second derivative
	near              float64 // values up to this are as good as 0
}

// newWave2 returns |c + u cos e + v sin e|^2 - 1.
func newWave2(c, u, v Point) wave2 {
	uu, vv := u.Dot(u), v.Dot(v)
	w := wave2{
		k:  c.Dot(c) - 1 + (uu+vv)/2,
		c1: 2 * c.Dot(u), s1: 2 * c.Dot(v),
		c2: (uu - vv) / 2, s2: u.Dot(v),
	}
	w.bend = math.Hypot(w.c1, w.s1) + 4*math.Hypot(w.c2, w.s2)
	return w
}

// at returns the value and the first two derivatives.
func (w wave2) at(e float64) (v, d, dd float64) {
	s, c := math.Sincos(e)
	s2, c2 := 2*s*c, (c-s)*(c+s)
	v = w.k + w.c1*c + w.s1*s + w.c2*c2 + w.s2*s2
	d = -w.c1*s + w.s1*c + 2*(w.s2*c2-w.c2*s2)
	dd = -w.c1*c - w.s1*s - 4*(w.c2*c2+w.s2*s2)
	return v, d, dd
}

// roots returns the angles in about [0, 2 pi) at which w is 0 or comes as near to it as w.near without crossing.
func (w wave2) roots() []float64 {
	var all []float64
	const parts = 8
	h := math.Pi / parts
	for i := range parts {
		all = w.rootsIn(all, float64(2*i+1)*h, h)
	}
	if len(all) == 0 {
		return nil
	}
	slices.Sort(all)
	return w.apart(all)
}

// apart makes one of roots between which w stays near 0, as at an osculation: the one where w is flattest. The first and the
// last may be neighbors too, round the turn.
func (w wave2) apart(all []float64) []float64 {
	out := all[:1:1]
	for _, e := range all[1:] {
		if last := len(out) - 1; w.together(out[last], e) {
			out[last] = w.flatter(out[last], e)
		} else {
			out = append(out, e)
		}
	}
	if last := len(out) - 1; last > 0 && w.together(out[last], out[0]+2*math.Pi) {
		out[0] = w.flatter(out[0], out[last])
		out = out[:last]
	}
	return out
}

// together reports whether w stays near 0 from a to b.
func (w wave2) together(a, b float64) bool {
	for _, t := range [3]float64{0.25, 0.5, 0.75} {
		if v, _, _ := w.at(a + t*(b-a)); math.Abs(v) > w.near {
			return false
		}
	}
	return true
}

func (w wave2) flatter(a, b float64) float64 {
	_, da, _ := w.at(a)
	_, db, _ := w.at(b)
	if math.Abs(db) < math.Abs(da) {
		return b
	}
	return a
}

// rootsIn adds the roots within h of x. The bound of the second derivative tells when there is none and when
// w runs one way; else it halves. Within 1e-5 of a turning point w is a parabola to 1e-15.
func (w wave2) rootsIn(out []float64, x, h float64) []float64 {
	v, d, _ := w.at(x)
	switch {
	case math.Abs(v)-w.near > math.Abs(d)*h+w.bend*h*h/2:
		return out
	case math.Abs(d) > w.bend*h:
		return w.rootBetween(out, x-h, x+h, math.Copysign(1, d))
	case h < 1e-5:
		return w.rootsOfParabola(out, x, 2*h)
	}
	return w.rootsIn(w.rootsIn(out, x-h/2, h/2), x+h/2, h/2)
}

// rootBetween adds the root between lo and hi, where w runs one way; up tells which.
func (w wave2) rootBetween(out []float64, lo, hi, up float64) []float64 {
	f := func(e float64) (float64, float64) {
		v, d, _ := w.at(e)
		return up * v, up * d
	}
	if a, _ := f(lo); a > 0 {
		return w.ifNear(out, lo)
	}
	if b, _ := f(hi); b < 0 {
		return w.ifNear(out, hi)
	}
	return append(out, risingRoot(f, lo, hi))
}

// ifNear adds e when w touches 0 there.
func (w wave2) ifNear(out []float64, e float64) []float64 {
	if v, _, _ := w.at(e); math.Abs(v) <= w.near {
		return append(out, e)
	}
	return out
}

// rootsOfParabola adds the roots within h of x, or the turning point there when it only touches.
func (w wave2) rootsOfParabola(out []float64, x, h float64) []float64 {
	top := x
	for range 3 {
		if _, d, dd := w.at(top); dd != 0 {
			top = clampTo(top-d/dd, x-h, x+h)
		}
	}
	v, _, dd := w.at(top)
	if math.Abs(v) <= w.near {
		return append(out, top)
	}
	if r := math.Sqrt(-2 * v / dd); r <= 2*h {
		out = append(out, top-r, top+r)
	}
	return out
}
