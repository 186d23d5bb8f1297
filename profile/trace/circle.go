package trace

import (
	"errors"
	"fmt"
	"math"

	"listel/profile/geom"
)

// ErrNoCircle reports points that no circle can be put through: fewer than three, or in one line.
var ErrNoCircle = errors.New("no circle fits")

// A Circle is a circle put through points.
type Circle struct {
	Center  geom.Point
	Radius  float64 // mm, > 0
	Squares float64 // mm2, the sum of the squares of the points' distances from it
}

// FitCircle returns the circle with the least sum of squared distances from the points (mm), the orthogonal or geometric
// fit; it does not shrink on short arcs as algebraic ones do. It starts from the algebraic fit of V. Pratt (1987) and goes on by
// Levenberg-Marquardt in the parameters of N. Chernov and C. Lesort (2005), in which a straight line is a circle like any other.
// Both papers from memory. The error is ErrNoCircle for fewer than three points, points that are no numbers, or points in one line.
func FitCircle(pts []geom.Point) (Circle, error) {
	b, ok := fitBend(pts, nil)
	if len(pts) < 3 || !ok {
		return Circle{}, fmt.Errorf("%w to %d points; three or more are needed, not all at one place", ErrNoCircle, len(pts))
	}
	// A sagitta under a hundred millionth of the points' spread is rounding, not curvature.
	if spread := b.spread; !(math.Abs(b.a)*spread > 1e-8) {
		return Circle{}, fmt.Errorf("%w: the points lie in a line", ErrNoCircle)
	}
	return Circle{Center: b.center(), Radius: b.radius(), Squares: b.squares}, nil
}

// A bend is a circle or a line, where a (x²+y²) + e (x cos t + y sin t) + d = 0 with e² = 1 + 4 a d, about the point o.
type bend struct {
	a, d, t float64
	o       geom.Point
	squares float64 // the weighted sum of squared distances
	spread  float64 // mm, root of the mean squared distance of the points from o
}

func (b bend) e() float64      { return math.Sqrt(math.Max(0, 1+4*b.a*b.d)) }
func (b bend) radius() float64 { return 1 / (2 * math.Abs(b.a)) }

func (b bend) center() geom.Point {
	return b.o.Add(geom.Polar(-b.e()/(2*b.a), geom.Angle(b.t)))
}

// distance returns the signed distance of p, positive outside when a > 0.
func (b bend) distance(p geom.Point) float64 {
	d, _, _ := b.at(p.Sub(b.o))
	return d
}

// normal returns the direction in which distance grows at p.
func (b bend) normal(p geom.Point) geom.Point {
	v := p.Sub(b.o)
	return v.Mul(2 * b.a).Add(geom.Polar(b.e(), geom.Angle(b.t))).Unit()
}

// at returns the signed distance of a point about o and the terms that its derivatives need.
func (b bend) at(p geom.Point) (dist, q, factor float64) {
	u := p.X*math.Cos(b.t) + p.Y*math.Sin(b.t)
	level := b.a*p.Dot(p) + b.e()*u + b.d
	q = math.Sqrt(math.Max(0, 1+4*b.a*level))
	dist = 2 * level / (1 + q)
	if q > 0 {
		factor = 2 * (1 - b.a*dist/q) / (q + 1)
	}
	return dist, q, factor
}

// sum returns the weighted sum of squared distances; weights nil count as 1.
func (b bend) sum(pts []geom.Point, weights []float64) float64 {
	s := 0.0
	for i, p := range pts {
		d := b.distance(p)
		s += weightAt(weights, i) * d * d
	}
	return s
}

func weightAt(w []float64, i int) float64 {
	if w == nil {
		return 1
	}
	return w[i]
}

// bendSteps is how often a fit is improved at most; from Pratt's start five or ten do.
const bendSteps = 100

// fitBend fits a circle or line to weighted points and reports whether there was one.
func fitBend(pts []geom.Point, weights []float64) (bend, bool) {
	var m moments
	for i, p := range pts {
		m = m.plus(p, weightAt(weights, i))
	}
	c := m.central()
	if !(c.w > 0) || !(c.z > 0) || math.IsInf(c.z, 0) {
		return bend{}, false
	}
	b := c.pratt()
	b.spread = math.Sqrt(c.z)
	b.squares = b.sum(pts, weights)
	damp := 1e-4
	for range bendSteps {
		next, ok := b.step(pts, weights, damp)
		if next.squares = next.sum(pts, weights); !ok || !(next.squares < b.squares) {
			if damp *= 10; damp > 1e9 {
				break
			}
			continue
		}
		done := b.squares-next.squares <= 1e-15*b.squares
		b, damp = next, damp/10
		if done {
			break
		}
	}
	return b, true
}

// step returns the bend after one damped Gauss-Newton step.
func (b bend) step(pts []geom.Point, weights []float64, damp float64) (bend, bool) {
	normal, right := newSquare(3), make([]float64, 3)
	sin, cos := math.Sincos(b.t)
	e := b.e()
	if !(e > 1e-12) {
		return b, false
	}
	for i, pt := range pts {
		p := pt.Sub(b.o)
		u, v := p.X*cos+p.Y*sin, p.Y*cos-p.X*sin
		d, q, f := b.at(p)
		if !(q > 1e-9) {
			continue // the center itself: its distance has no direction
		}
		w := weightAt(weights, i)
		row := [3]float64{(p.Dot(p)+2*b.d*u/e)*f - d*d/q, (2*b.a*u/e + 1) * f, e * v * f}
		for r := range 3 {
			right[r] -= w * row[r] * d
			for c := range 3 {
				normal[r][c] += w * row[r] * row[c]
			}
		}
	}
	for r := range 3 {
		normal[r][r] *= 1 + damp
	}
	by, ok := normal.solve(right)
	if !ok {
		return b, false
	}
	b.a, b.d, b.t = b.a+by[0], b.d+by[1], b.t+by[2]
	return b, 1+4*b.a*b.d > 0
}
