package trace

import (
	"math"

	"listel/profile/geom"
)

// A Mapping takes points of a plane to another as a photograph does: (x, y) goes to (M[0] x + M[1] y + M[2],
// M[3] x + M[4] y + M[5]) / (M[6] x + M[7] y + M[8]). The zero value maps nothing; start from affineMapping.
type Mapping struct{ M [9]float64 }

// affineMapping returns a as a Mapping.
func affineMapping(a geom.Affine) Mapping {
	return Mapping{[9]float64{a.A, a.C, a.E, a.B, a.D, a.F, 0, 0, 1}}
}

// Apply returns the image of p. A point of the horizon goes to infinity.
func (m Mapping) Apply(p geom.Point) geom.Point {
	w := m.M[6]*p.X + m.M[7]*p.Y + m.M[8]
	return geom.Pt((m.M[0]*p.X+m.M[1]*p.Y+m.M[2])/w, (m.M[3]*p.X+m.M[4]*p.Y+m.M[5])/w)
}

// Then returns the map that does m first and next second.
func (m Mapping) Then(next Mapping) Mapping {
	var out Mapping
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				out.M[3*i+j] += next.M[3*i+k] * m.M[3*k+j]
			}
		}
	}
	return out
}

// Det returns the determinant of m's matrix; m has an inverse where it is not 0.
func (m Mapping) Det() float64 {
	a := m.M
	return a[0]*(a[4]*a[8]-a[5]*a[7]) - a[1]*(a[3]*a[8]-a[5]*a[6]) + a[2]*(a[3]*a[7]-a[4]*a[6])
}

// Inverse returns the map that undoes m, whose Det must not be 0.
func (m Mapping) Inverse() Mapping {
	a, k := m.M, 1/m.Det()
	return Mapping{[9]float64{
		(a[4]*a[8] - a[5]*a[7]) * k, (a[2]*a[7] - a[1]*a[8]) * k, (a[1]*a[5] - a[2]*a[4]) * k,
		(a[5]*a[6] - a[3]*a[8]) * k, (a[0]*a[8] - a[2]*a[6]) * k, (a[2]*a[3] - a[0]*a[5]) * k,
		(a[3]*a[7] - a[4]*a[6]) * k, (a[1]*a[6] - a[0]*a[7]) * k, (a[0]*a[4] - a[1]*a[3]) * k,
	}}
}

// Derivative returns how the image of p moves as p does: the columns of the Jacobian, for steps along x and along y.
func (m Mapping) Derivative(p geom.Point) (dx, dy geom.Point) {
	w := m.M[6]*p.X + m.M[7]*p.Y + m.M[8]
	q := m.Apply(p)
	dx = geom.Pt(m.M[0]-q.X*m.M[6], m.M[3]-q.Y*m.M[6]).Mul(1 / w)
	dy = geom.Pt(m.M[1]-q.X*m.M[7], m.M[4]-q.Y*m.M[7]).Mul(1 / w)
	return dx, dy
}

// Size returns the length of a unit step at p on the image, the root of the factor by which m changes areas there.
func (m Mapping) Size(p geom.Point) float64 {
	dx, dy := m.Derivative(p)
	return math.Sqrt(math.Abs(dx.Cross(dy)))
}

// shape returns by how much m changes the right angle between the steps across and up at p, and how many times as long as the shorter of the two it makes
// the longer.
func (m Mapping) shape(p geom.Point) (lean geom.Angle, stretch float64) {
	dx, dy := m.Derivative(p)
	a, b := dx.Norm(), dy.Norm()
	return geom.Angle(math.Abs(math.Asin(dx.Dot(dy) / (a * b)))), math.Max(a, b) / math.Min(a, b)
}
