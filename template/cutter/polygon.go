package cutter

import (
	"math"

	"listel/profile/geom"
)

// A polygon is a flattened outline, counter-clockwise, with what speeds up its tests.
type polygon struct {
	pts    []geom.Point
	bounds geom.Rect
}

func newPolygon(pts []geom.Point) polygon {
	r := geom.EmptyRect()
	for _, p := range pts {
		r = r.Include(p)
	}
	return polygon{pts: pts, bounds: r}
}

// contains reports whether q lies inside.
func (p polygon) contains(q geom.Point) bool {
	if !p.bounds.Contains(q) {
		return false
	}
	in := false
	j := len(p.pts) - 1
	for i := range p.pts {
		a, b := p.pts[i], p.pts[j]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
		j = i
	}
	return in
}

// dist returns the distance of q from the boundary, in mm.
func (p polygon) dist(q geom.Point) float64 {
	best := math.Inf(1)
	j := len(p.pts) - 1
	for i := range p.pts {
		a, d := p.pts[j], p.pts[i].Sub(p.pts[j])
		t := 0.0
		if n := d.Dot(d); n > 0 {
			t = math.Max(0, math.Min(1, q.Sub(a).Dot(d)/n))
		}
		e := q.Sub(a.Add(d.Mul(t)))
		best = math.Min(best, e.Dot(e))
		j = i
	}
	return math.Sqrt(best)
}

// within reports whether q is nearer than d to the boundary. It looks first at the edge where hint points, and leaves there the edge that it
// found.
func (p polygon) within(q geom.Point, d float64, hint *int) bool {
	for k := range p.pts {
		i := *hint + k
		if i >= len(p.pts) {
			i -= len(p.pts)
		}
		a, b := p.pts[i], p.pts[0]
		if i+1 < len(p.pts) {
			b = p.pts[i+1]
		}
		v, w := b.Sub(a), q.Sub(a)
		t := 0.0
		if n := v.Dot(v); n > 0 {
			t = math.Max(0, math.Min(1, w.Dot(v)/n))
		}
		if e := w.Sub(v.Mul(t)); e.Dot(e) < d*d {
			*hint = i
			return true
		}
	}
	return false
}

// crossY returns, sorted, the y at which the vertical line at x crosses the boundary.
func (p polygon) crossY(x float64, into []float64) []float64 {
	into = into[:0]
	j := len(p.pts) - 1
	for i := range p.pts {
		a, b := p.pts[i], p.pts[j]
		if (a.X > x) != (b.X > x) {
			y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
			k := len(into)
			into = append(into, y)
			for k > 0 && into[k-1] > y {
				into[k], k = into[k-1], k-1
			}
			into[k] = y
		}
		j = i
	}
	return into
}
