package trace

import (
	"math"

	"listel/profile/geom"
)

// click is how well a point is taken to be clicked when nothing else tells: one standard deviation in either direction, in px.
// Common practice, no source.
const click = 0.5

// fitAffine returns the map from pixels to millimeters that fits three or more points best, and its residual: the root mean
// square distance in px, with one degree of freedom taken off for each number found; 0 for three points. It reports false when the
// points lie on one line.
func fitAffine(points []Fixed) (Mapping, float64, bool) {
	from, to := normalizer(points, Fixed.truth), normalizer(points, Fixed.pixel)
	rows := make([]equation, len(points))
	var m Mapping
	m.M[8] = 1
	for axis := range 2 {
		for i, p := range points {
			t, q := from.Apply(p.True), to.Apply(p.Pixel)
			rows[i] = equation{[]float64{t.X, t.Y, 1}, [2]float64{q.X, q.Y}[axis], 1}
		}
		x, _, ok := leastSquares(rows, 3)
		if !ok {
			return Mapping{}, 0, false
		}
		copy(m.M[3*axis:], x)
	}
	m = from.Then(m).Then(to.Inverse())
	if spread(points, Fixed.pixel) < 0.02 || spread(points, Fixed.truth) < 0.02 || m.Det() == 0 {
		return Mapping{}, 0, false
	}
	return m.Inverse(), residual(m, points, 6), true
}

// fitPerspective is fitAffine for four or more points of a plate photographed aslant: the direct linear transform in normalized
// coordinates (Hartley and Zisserman, Multiple View Geometry, ch. 4, from memory), refined until the distances in the picture are least.
func fitPerspective(points []Fixed) (Mapping, float64, bool) {
	from, to := normalizer(points, Fixed.truth), normalizer(points, Fixed.pixel)
	var rows []equation
	for _, p := range points {
		t, q := from.Apply(p.True), to.Apply(p.Pixel)
		rows = append(rows,
			equation{[]float64{t.X, t.Y, 1, 0, 0, 0, -q.X * t.X, -q.X * t.Y}, q.X, 1},
			equation{[]float64{0, 0, 0, t.X, t.Y, 1, -q.Y * t.X, -q.Y * t.Y}, q.Y, 1})
	}
	x, _, ok := leastSquares(rows, 8)
	if !ok {
		return Mapping{}, 0, false
	}
	m := Mapping{[9]float64{x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7], 1}}
	for range 20 { // quadratic convergence from a good start; five are common
		next, step, ok := m.refined(points, from, to)
		if !ok {
			return Mapping{}, 0, false
		}
		m = next
		if step < 1e-12 {
			break
		}
	}
	m = from.Then(m).Then(to.Inverse())
	if m.Det() == 0 || !sameSide(m, points) {
		return Mapping{}, 0, false
	}
	return m.Inverse(), residual(m, points, 8), true
}

// refined takes one Gauss-Newton step for m, which maps the normalized true places to the normalized pixels.
func (m Mapping) refined(points []Fixed, from, to Mapping) (Mapping, float64, bool) {
	var rows []equation
	for _, p := range points {
		t, q := from.Apply(p.True), to.Apply(p.Pixel)
		w := m.M[6]*t.X + m.M[7]*t.Y + m.M[8]
		at := m.Apply(t)
		rows = append(rows,
			equation{[]float64{t.X / w, t.Y / w, 1 / w, 0, 0, 0, -at.X * t.X / w, -at.X * t.Y / w}, q.X - at.X, 1},
			equation{[]float64{0, 0, 0, t.X / w, t.Y / w, 1 / w, -at.Y * t.X / w, -at.Y * t.Y / w}, q.Y - at.Y, 1})
	}
	x, _, ok := leastSquares(rows, 8)
	if !ok {
		return m, 0, false
	}
	step := 0.0
	for i, d := range x {
		m.M[i] += d
		step = math.Max(step, math.Abs(d))
	}
	return m, step, true
}

// sameSide reports whether all points lie on one side of the horizon of m, as all that a camera sees does.
func sameSide(m Mapping, points []Fixed) bool {
	ahead := 0
	for _, p := range points {
		if m.M[6]*p.True.X+m.M[7]*p.True.Y+m.M[8] > 0 {
			ahead++
		}
	}
	return ahead == 0 || ahead == len(points)
}

// residual returns how far m takes the true places from their pixels, as fitAffine states it for n numbers found.
func residual(m Mapping, points []Fixed, n int) float64 {
	free := 2*len(points) - n
	if free <= 0 {
		return 0
	}
	sum := 0.0
	for _, p := range points {
		d := m.Apply(p.True).Dist(p.Pixel)
		sum += d * d
	}
	return math.Sqrt(sum / float64(free))
}

func (f Fixed) pixel() geom.Point { return f.Pixel }
func (f Fixed) truth() geom.Point { return f.True }

// normalizer returns the map that takes the middle of the points to the origin and their mean distance from it to the root of 2.
func normalizer(points []Fixed, of func(Fixed) geom.Point) Mapping {
	var middle geom.Point
	for _, p := range points {
		middle = middle.Add(of(p).Mul(1 / float64(len(points))))
	}
	reach := 0.0
	for _, p := range points {
		reach += of(p).Dist(middle) / float64(len(points))
	}
	k := math.Sqrt2 / reach
	return affineMapping(geom.Translation(middle.Mul(-1)).Then(geom.Scaling(k, k)))
}

// spread returns the breadth of a cloud of points over its length, as standard deviations: 0 for points on one line.
func spread(points []Fixed, of func(Fixed) geom.Point) float64 {
	var middle geom.Point
	for _, p := range points {
		middle = middle.Add(of(p).Mul(1 / float64(len(points))))
	}
	var xx, xy, yy float64
	for _, p := range points {
		d := of(p).Sub(middle)
		xx, xy, yy = xx+d.X*d.X, xy+d.X*d.Y, yy+d.Y*d.Y
	}
	mean, half := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	if mean+half == 0 {
		return 0
	}
	return math.Sqrt(math.Max(0, mean-half) / (mean + half))
}
