package cutter

import (
	"math"

	"listel/profile/geom"
)

// vertical is the width, in mm, under which a piece counts as plumb and is left out of a curve, and under which two
// intervals that meet do not overlap: a tool that touches a wall does not clash with it. Offsets are computed to about
// 1e-13 mm, so this is far above their noise and far below any wood.
const vertical = 1e-7

// A half tells what a piece of curve is: a straight line, or the upper or lower half of a circle.
type half int8

const (
	straightLine half = 0
	upperHalf    half = 1  // y = cy + sqrt(r² - (x-cx)²)
	lowerHalf    half = -1 // y = cy - sqrt(r² - (x-cx)²)
)

// A piece is a function of x over the interval [a, b], a < b: a line or part of a half circle.
type piece struct {
	a, b float64
	half half
	y, m float64 // a line: height at a, slope
	c    geom.Point
	r    float64
}

// linePiece returns the piece from p to q; p.X < q.X.
func linePiece(p, q geom.Point) piece {
	return piece{a: p.X, b: q.X, y: p.Y, m: (q.Y - p.Y) / (q.X - p.X)}
}

// arcPiece returns the upper or lower half of a circle between a and b.
func arcPiece(c geom.Point, r float64, h half, a, b float64) piece {
	return piece{a: math.Max(a, c.X-r), b: math.Min(b, c.X+r), half: h, c: c, r: r}
}

// at returns the height at x; beyond the ends of a half circle it stays at the height of its center.
func (p piece) at(x float64) float64 {
	if p.half == straightLine {
		return p.y + p.m*(x-p.a)
	}
	d := x - p.c.X
	return p.c.Y + float64(p.half)*math.Sqrt(math.Max(0, p.r*p.r-d*d))
}

// part returns the piece over [a, b] alone.
func (p piece) part(a, b float64) piece {
	if p.half == straightLine {
		p.y = p.at(a)
	}
	p.a, p.b = a, b
	return p
}

// mirrored returns the piece with x turned to -x.
func (p piece) mirrored() piece {
	q := p
	q.a, q.b = -p.b, -p.a
	if p.half == straightLine {
		q.y, q.m = p.at(p.b), -p.m
	}
	q.c.X = -p.c.X
	return q
}

// crossings returns the places where two pieces have the same height, not sorted; at most two.
func (p piece) crossings(q piece) []float64 {
	switch {
	case p.half == straightLine && q.half == straightLine:
		if p.m == q.m {
			return nil
		}
		return []float64{(q.y - q.m*q.a - p.y + p.m*p.a) / (p.m - q.m)}
	case p.half == straightLine:
		return q.crossings(p)
	case q.half == straightLine:
		// Square distance of the line's points from the center equals r².
		k := q.y + q.m*(p.c.X-q.a) - p.c.Y // height over the center at its x
		return roots(1+q.m*q.m, 2*q.m*k, k*k-p.r*p.r, p.c.X)
	}
	return circleCrossings(p, q)
}

// roots returns the real solutions of a t² + b t + c = 0, each moved by x0.
func roots(a, b, c, x0 float64) []float64 {
	disc := b*b - 4*a*c
	if disc < 0 {
		return nil
	}
	s := math.Sqrt(disc)
	return []float64{x0 + (-b-s)/(2*a), x0 + (-b+s)/(2*a)}
}

// circleCrossings returns the x of the common points of the circles of two arcs.
func circleCrossings(p, q piece) []float64 {
	d := q.c.Sub(p.c)
	n := d.Norm()
	if n < 1e-12 || n > p.r+q.r || n < math.Abs(p.r-q.r) {
		return nil
	}
	along := (n*n + p.r*p.r - q.r*q.r) / (2 * n)
	across := math.Sqrt(math.Max(0, p.r*p.r-along*along))
	e := d.Mul(1 / n)
	mid := p.c.X + e.X*along
	return []float64{mid - e.Y*across, mid + e.Y*across}
}

// stationary returns the u at which s(x+u) - t(u) has slope zero, and whether there is exactly one such u.
func stationary(s, t piece, x float64) (float64, bool) {
	switch {
	case s.half == straightLine && t.half == straightLine:
		return 0, false
	case s.half == straightLine:
		return t.c.X + t.r*slopePlace(t.half, s.m), true
	case t.half == straightLine:
		return s.c.X + s.r*slopePlace(s.half, t.m) - x, true
	}
	den := s.r - t.r*float64(s.half*t.half)
	if math.Abs(den) < 1e-9 {
		return 0, false // equal radii, one inside the other: concentric or without such a point
	}
	k := (x - s.c.X + t.c.X) / den
	if k < -1 || k > 1 {
		return 0, false
	}
	return s.c.X + s.r*k - x, true
}

// slopePlace returns (x - center) / radius where a half circle has the slope m.
func slopePlace(h half, m float64) float64 {
	return -float64(h) * m / math.Sqrt(1+m*m)
}
