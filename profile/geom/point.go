package geom

import "math"

// A Point is a place or a vector in the plane, in mm.
type Point struct{ X, Y float64 }

// Pt returns the point (x, y), in mm.
func Pt(x, y float64) Point { return Point{X: x, Y: y} }

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q, the vector from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p with both coordinates multiplied by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot returns the scalar product of p and q.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z of the vector product of p and q: positive when q lies counter-clockwise of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Norm returns the length of the vector p.
func (p Point) Norm() float64 { return math.Hypot(p.X, p.Y) }

// Dist returns the distance between p and q.
func (p Point) Dist(q Point) float64 { return p.Sub(q).Norm() }

// Unit returns p scaled to length 1, or the zero vector when p is zero.
func (p Point) Unit() Point {
	n := p.Norm()
	if n == 0 {
		return Point{}
	}
	return p.Mul(1 / n)
}

// Left returns p turned a quarter turn counter-clockwise.
func (p Point) Left() Point { return Point{-p.Y, p.X} }

// Rotate returns p turned by a about the origin.
func (p Point) Rotate(a Angle) Point {
	s, c := math.Sincos(float64(a))
	return Point{p.X*c - p.Y*s, p.X*s + p.Y*c}
}

// Angle returns the direction of the vector p, in (-180, 180] degrees; 0 for the zero vector.
func (p Point) Angle() Angle { return Angle(math.Atan2(p.Y, p.X)) }

// Lerp returns the point at t on the way from p (t = 0) to q (t = 1).
func (p Point) Lerp(q Point, t float64) Point { return p.Add(q.Sub(p).Mul(t)) }

// Near reports whether p and q are at most tol mm apart.
func (p Point) Near(q Point, tol float64) bool { return p.Dist(q) <= tol }

// Polar returns the point at distance r (mm) from the origin in the direction a.
func Polar(r float64, a Angle) Point {
	s, c := math.Sincos(float64(a))
	return Point{r * c, r * s}
}
