package geom

import "math"

// Start returns the point at the eccentric angle From.
func (a EllipticArc) Start() Point { return a.At(0) }

// End returns the point at the eccentric angle From + Sweep.
func (a EllipticArc) End() Point { return a.At(1) }

// At returns the point at t, in [0, 1], evenly in eccentric angle.
func (a EllipticArc) At(t float64) Point { return a.at(a.From + Angle(t)*a.Sweep) }

// at returns the point at the eccentric angle e.
func (a EllipticArc) at(e Angle) Point {
	s, c := math.Sincos(float64(e))
	return a.Center.Add(Point{a.RX * c, a.RY * s}.Rotate(a.Turn))
}

// velocity returns the derivative of at by e.
func (a EllipticArc) velocity(e Angle) Point {
	s, c := math.Sincos(float64(e))
	return Point{-a.RX * s, a.RY * c}.Rotate(a.Turn)
}

// Tangent returns the unit direction of travel at t.
func (a EllipticArc) Tangent(t float64) Point {
	return a.velocity(a.From + Angle(t)*a.Sweep).Unit().Mul(math.Copysign(1, float64(a.Sweep)))
}

// Bounds returns the smallest upright rectangle that holds a.
func (a EllipticArc) Bounds() Rect {
	r := EmptyRect().Include(a.Start()).Include(a.End())
	for _, n := range [2]Point{{1, 0}, {0, 1}} {
		for _, t := range a.turns(n) {
			r = r.Include(a.At(t))
		}
	}
	return r
}

// Area returns the area (mm2) swept by the ray from the origin to a point that travels along a.
func (a EllipticArc) Area() float64 { s, _ := a.sweptFrom(Point{}); return s }

// Moment returns the first moments (mm3) of what Area counts.
func (a EllipticArc) Moment() Point { _, m := a.sweptFrom(Point{}); return m }

// Reverse returns a travelled the other way.
func (a EllipticArc) Reverse() Segment {
	a.From, a.Sweep = a.From+a.Sweep, -a.Sweep
	return a
}

// Transform returns the image of a, an Arc when it is round. The axes come from the singular values of the
// map of the unit circle: it is a turn, a stretch along the axes and a turn. A map with Det 0 gives the line between
// the images of the ends.
func (a EllipticArc) Transform(m Affine) Segment {
	u := m.ApplyVector(Polar(a.RX, a.Turn))
	v := m.ApplyVector(Polar(a.RY, a.Turn).Left())
	det := u.Cross(v)
	if !(math.Abs(det) > 0) {
		return Line{m.Apply(a.Start()), m.Apply(a.End())}
	}
	p, q := Point{u.X + v.Y, u.Y - v.X}, Point{u.X - v.Y, u.Y + v.X}
	rx := (p.Norm() + q.Norm()) / 2
	ry := math.Abs(det) / rx
	first, turn := (p.Angle()-q.Angle())/2, (p.Angle()+q.Angle())/2
	from, sweep := a.From+first, a.Sweep
	if det < 0 {
		from, sweep = -from, -sweep
	}
	if rx-ry <= 1e-13*rx { // what rounding leaves of an exact circle
		return Arc{m.Apply(a.Center), rx, from + turn, sweep}
	}
	return EllipticArc{m.Apply(a.Center), rx, ry, turn, from, sweep}
}

// Trim returns the part of a between two parameters.
func (a EllipticArc) Trim(t0, t1 float64) Segment {
	a.From, a.Sweep = a.From+Angle(t0)*a.Sweep, a.Sweep*Angle(t1-t0)
	return a
}

// Flatten returns points on a, its ends among them, whose chords stay within tol mm of a. A tol under
// 1e-10 of the longer semi-axis counts as that.
func (a EllipticArc) Flatten(tol float64) []Point {
	return flattenEven(a, math.Max(a.RX, a.RY), a.Sweep, tol)
}

// sweptFrom adds the triangle under the chord and the cap between chord and curve. The cap is the image of a cap
// of the unit circle, of area h - sin h cos h and of moment (2/3) sin3 h about the center, h being half the sweep.
// Both are taken about the middle of the curve, so that a flat arc of great radius keeps its digits.
func (a EllipticArc) sweptFrom(o Point) (float64, Point) {
	area, moment := Line{a.Start(), a.End()}.sweptFrom(o)
	h := float64(a.Sweep) / 2
	det := a.RX * a.RY
	capArea, capMoment := unitCap(h)
	mid := a.At(0.5).Sub(a.Center)
	capCenter := a.At(0.5).Sub(o).Mul(capArea).Add(mid.Mul(capMoment))
	return area + det*capArea, moment.Add(capCenter.Mul(det))
}

// unitCap returns the area of the cap that a chord over the angle 2h cuts off the unit circle, and its moment about
// the middle of the arc, along the radius there.
func unitCap(h float64) (area, moment float64) {
	s, c := math.Sincos(h)
	if math.Abs(h) > 0.1 {
		area = h - s*c
		return area, 2.0/3*s*s*s - area
	}
	// The series of the same two: h - sin(2h)/2, and (2/3)sin3 h - h + sin(2h)/2.
	q := h * h
	area = h * q * (2.0/3 + q*(-2.0/15+q*(4.0/315+q*(-2.0/2835+q*4.0/155925))))
	moment = -h * q * q * (1.0/5 + q*(-5.0/84+q*(1.0/120+q*(-95.0/133056+q*10901.0/259459200))))
	return area, moment
}

// wave returns n.p along a as mid + amp cos(e - phase).
func (a EllipticArc) wave(n Point) (mid, amp float64, phase Angle) {
	n0 := n.Rotate(-a.Turn)
	w := Point{n0.X * a.RX, n0.Y * a.RY}
	return n.Dot(a.Center), w.Norm(), w.Angle()
}

func (a EllipticArc) levels(n Point, c float64) []float64 {
	mid, amp, phase := a.wave(n)
	if !(math.Abs(c-mid)-amp <= touch*n.Norm()) {
		return nil
	}
	k := (c - mid) / amp
	d := Angle(math.Acos(math.Max(-1, math.Min(1, k))))
	var ts []float64
	for _, e := range [2]Angle{phase - d, phase + d} {
		if t := turnParameter(a.From, a.Sweep, e); t <= 1 {
			ts = append(ts, t)
		}
	}
	return sortedParameters(ts)
}

func (a EllipticArc) turns(n Point) []float64 {
	_, _, phase := a.wave(n)
	var ts []float64
	for _, e := range [2]Angle{phase, phase + math.Pi} {
		if t := turnParameter(a.From, a.Sweep, e); t > 0 && t < 1 {
			ts = append(ts, t)
		}
	}
	return sortedParameters(ts)
}

func (a EllipticArc) clear(q Point) float64 {
	d := q.Dist(a.Center)
	return math.Max(0, math.Max(d-math.Max(a.RX, a.RY), math.Min(a.RX, a.RY)-d))
}

// sortedParameters sorts at most two parameters.
func sortedParameters(ts []float64) []float64 {
	if len(ts) == 2 && ts[0] > ts[1] {
		ts[0], ts[1] = ts[1], ts[0]
	}
	return ts
}
