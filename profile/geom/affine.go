package geom

import "math"

// An Affine maps the plane: x' = A x + C y + E, y' = B x + D y + F. The zero value maps all to the origin;
// start from Identity.
type Affine struct{ A, B, C, D, E, F float64 }

// Identity returns the map that changes nothing.
func Identity() Affine { return Affine{A: 1, D: 1} }

// Translation returns the map that moves by d (mm).
func Translation(d Point) Affine { return Affine{1, 0, 0, 1, d.X, d.Y} }

// Rotation returns the map that turns by a about the origin.
func Rotation(a Angle) Affine {
	s, c := math.Sincos(float64(a))
	return Affine{c, s, -s, c, 0, 0}
}

// Scaling returns the map that stretches by kx along x and ky along y; a negative factor mirrors.
func Scaling(kx, ky float64) Affine { return Affine{kx, 0, 0, ky, 0, 0} }

// Then returns the map that does m first and next second.
func (m Affine) Then(next Affine) Affine {
	return Affine{
		next.A*m.A + next.C*m.B, next.B*m.A + next.D*m.B,
		next.A*m.C + next.C*m.D, next.B*m.C + next.D*m.D,
		next.A*m.E + next.C*m.F + next.E, next.B*m.E + next.D*m.F + next.F,
	}
}

// Apply returns the image of p.
func (m Affine) Apply(p Point) Point {
	return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F}
}

// ApplyVector returns the image of the vector v: the map without its translation.
func (m Affine) ApplyVector(v Point) Point {
	return Point{m.A*v.X + m.C*v.Y, m.B*v.X + m.D*v.Y}
}

// Det returns the factor by which m changes areas, negative when it mirrors.
func (m Affine) Det() float64 { return m.A*m.D - m.B*m.C }

// Inverse returns the map that undoes m; m must have a Det other than 0.
func (m Affine) Inverse() Affine {
	k := 1 / m.Det()
	return Affine{
		m.D * k, -m.B * k, -m.C * k, m.A * k,
		(m.C*m.F - m.D*m.E) * k, (m.B*m.E - m.A*m.F) * k,
	}
}
