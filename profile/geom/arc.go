package geom

import "math"

// ellipse returns a as an elliptic arc with the same parameter.
func (a Arc) ellipse() EllipticArc {
	return EllipticArc{Center: a.Center, RX: a.Radius, RY: a.Radius, From: a.From, Sweep: a.Sweep}
}

// Start returns the point at the angle From.
func (a Arc) Start() Point { return a.At(0) }

// End returns the point at the angle From + Sweep.
func (a Arc) End() Point { return a.At(1) }

// At returns the point at t, in [0, 1], evenly along the arc.
func (a Arc) At(t float64) Point {
	return a.Center.Add(Polar(a.Radius, a.From+Angle(t)*a.Sweep))
}

// Tangent returns the unit direction of travel at t.
func (a Arc) Tangent(t float64) Point {
	return Polar(math.Copysign(1, float64(a.Sweep)), a.From+Angle(t)*a.Sweep).Left()
}

// Length returns the length of a, in mm.
func (a Arc) Length() float64 { return a.Radius * math.Abs(float64(a.Sweep)) }

// Bounds returns the smallest upright rectangle that holds a.
func (a Arc) Bounds() Rect { return a.ellipse().Bounds() }

// Area returns the area (mm2) swept by the ray from the origin to a point that travels along a.
func (a Arc) Area() float64 { s, _ := a.sweptFrom(Point{}); return s }

// Moment returns the first moments (mm3) of what Area counts.
func (a Arc) Moment() Point { _, m := a.sweptFrom(Point{}); return m }

// Nearest returns the parameter of the point of a nearest to p; 0 when p is the center.
func (a Arc) Nearest(p Point) float64 {
	v := p.Sub(a.Center)
	if v == (Point{}) {
		return 0
	}
	t := turnParameter(a.From, a.Sweep, v.Angle())
	if t <= 1 {
		return t
	}
	if p.Dist(a.Start()) <= p.Dist(a.End()) {
		return 0
	}
	return 1
}

// Reverse returns a travelled the other way.
func (a Arc) Reverse() Segment {
	a.From, a.Sweep = a.From+a.Sweep, -a.Sweep
	return a
}

// Transform returns the image of a: an Arc when m is a similarity, else an EllipticArc. A map with Det 0 gives
// the line between the images of the ends.
func (a Arc) Transform(m Affine) Segment {
	x, y := Point{m.A, m.B}, Point{m.C, m.D}
	nx, ny := x.Norm(), y.Norm()
	// 1e-13 is what a few multiplications of sines leave of an exact similarity.
	if nx == 0 || math.Abs(nx-ny) > 1e-13*nx || math.Abs(x.Dot(y)) > 1e-13*nx*ny {
		return a.ellipse().Transform(m)
	}
	from := a.From + x.Angle()
	if m.Det() < 0 {
		from, a.Sweep = x.Angle()-a.From, -a.Sweep
	}
	return Arc{m.Apply(a.Center), a.Radius * nx, from, a.Sweep}
}

// Trim returns the part of a between two parameters.
func (a Arc) Trim(t0, t1 float64) Segment {
	a.From, a.Sweep = a.From+Angle(t0)*a.Sweep, a.Sweep*Angle(t1-t0)
	return a
}

// Flatten returns points on a, its ends among them, whose chords stay within tol mm of a. A tol under
// 1e-10 of the radius counts as that.
func (a Arc) Flatten(tol float64) []Point { return flattenEven(a, a.Radius, a.Sweep, tol) }

// flattenEven returns points at even steps of the angle, close enough that a circle of radius r stays within tol
// of its chords. The sagitta of a chord over the angle d is 2 r sin2(d/4).
func flattenEven(s Segment, r float64, sweep Angle, tol float64) []Point {
	k := math.Max(tol/(2*r), 0.5e-10)
	if !(k > 0) {
		k = 0.5e-10
	}
	step := math.Min(4*math.Asin(math.Min(1, math.Sqrt(k))), 2*math.Pi/3)
	n := int(math.Ceil(math.Abs(float64(sweep)) / step))
	n = max(n, 1)
	pts := make([]Point, n+1)
	for i := range pts {
		pts[i] = s.At(float64(i) / float64(n))
	}
	return pts
}

func (a Arc) sweptFrom(o Point) (float64, Point) { return a.ellipse().sweptFrom(o) }

func (a Arc) levels(n Point, c float64) []float64 { return a.ellipse().levels(n, c) }

func (a Arc) turns(n Point) []float64 { return a.ellipse().turns(n) }

func (a Arc) clear(q Point) float64 { return math.Abs(q.Dist(a.Center) - a.Radius) }

// turnParameter returns how far the angle a lies along a turn of sweep that starts at from, as a part of sweep:
// in [0, 1] when the turn reaches a, above 1 when not. An angle short of from by less than rounding counts as from.
func turnParameter(from, sweep, a Angle) float64 {
	d := float64(a - from)
	if sweep < 0 {
		d = -d
	}
	w := math.Abs(float64(sweep))
	d = math.Mod(d, 2*math.Pi)
	if d < 0 {
		d += 2 * math.Pi
	}
	const slack = 1e-12 // radians
	if d > w && 2*math.Pi-d < slack {
		return 0
	}
	if d > w && d-w < slack {
		return 1
	}
	if w == 0 {
		return 2
	}
	return d / w
}
