package geom

import "math"

// Start returns A.
func (l Line) Start() Point { return l.A }

// End returns B.
func (l Line) End() Point { return l.B }

// At returns the point at t, in [0, 1], on the way from A to B; t = 1 gives B exactly.
func (l Line) At(t float64) Point {
	if t == 1 {
		return l.B
	}
	return l.A.Lerp(l.B, t)
}

// Tangent returns the unit direction from A to B, or the zero vector when they coincide.
func (l Line) Tangent(float64) Point { return l.B.Sub(l.A).Unit() }

// Length returns the distance from A to B, in mm.
func (l Line) Length() float64 { return l.A.Dist(l.B) }

// Bounds returns the smallest upright rectangle that holds l.
func (l Line) Bounds() Rect { return EmptyRect().Include(l.A).Include(l.B) }

// Area returns the area (mm2) of the triangle origin, A, B, positive when counter-clockwise.
func (l Line) Area() float64 { a, _ := l.sweptFrom(Point{}); return a }

// Moment returns the first moments (mm3) of the triangle that Area counts.
func (l Line) Moment() Point { _, m := l.sweptFrom(Point{}); return m }

// Nearest returns the parameter of the point of l nearest to p; 0 when l has no length.
func (l Line) Nearest(p Point) float64 {
	d := l.B.Sub(l.A)
	t := p.Sub(l.A).Dot(d) / d.Dot(d)
	if !(t > 0) {
		return 0
	}
	return math.Min(t, 1)
}

// Reverse returns the line from B to A.
func (l Line) Reverse() Segment { return Line{l.B, l.A} }

// Transform returns the image of l.
func (l Line) Transform(m Affine) Segment { return Line{m.Apply(l.A), m.Apply(l.B)} }

// Trim returns the part of l between two parameters.
func (l Line) Trim(t0, t1 float64) Segment { return Line{l.At(t0), l.At(t1)} }

// Flatten returns A and B.
func (l Line) Flatten(float64) []Point { return []Point{l.A, l.B} }

func (l Line) sweptFrom(o Point) (float64, Point) {
	a, b := l.A.Sub(o), l.B.Sub(o)
	area := a.Cross(b) / 2
	return area, a.Add(b).Mul(area / 3)
}

func (l Line) levels(n Point, c float64) []float64 {
	fa, fb := n.Dot(l.A)-c, n.Dot(l.B)-c
	switch {
	case fa == 0 && fb == 0:
		return []float64{0, 1}
	case fa == 0:
		return []float64{0}
	case fb == 0:
		return []float64{1}
	case (fa < 0) == (fb < 0):
		return nil
	}
	return []float64{fa / (fa - fb)}
}

func (l Line) turns(Point) []float64 { return nil }

func (l Line) clear(Point) float64 { return 0 }
