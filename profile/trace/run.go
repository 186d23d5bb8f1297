package trace

import (
	"math"

	"listel/profile/geom"
)

// A run is a smooth part of a boundary, between two corners.
type run struct {
	points  []geom.Point // px, as found
	normals []geom.Point // unit, outward
	along   []float64    // px, how far along the run each point is
}

// length returns the length of the run, px.
func (r run) length() float64 {
	if len(r.along) == 0 {
		return 0
	}
	return r.along[len(r.along)-1]
}

// measure sets along.
func (r *run) measure() {
	r.along = make([]float64, len(r.points))
	for i := 1; i < len(r.points); i++ {
		r.along[i] = r.along[i-1] + r.points[i].Dist(r.points[i-1])
	}
}

// fair sets the normals from curves of the second degree through the points around each, drops points that lie far off theirs,
// and returns the distances of the others, px.
func (r *run) fair() []float64 {
	r.measure()
	off := r.fairOnce()
	const stray = 1.0 // px: the scatter of a scan is a fifth of it, what something else left standing more
	kept := run{}
	for i, d := range off {
		if d < stray {
			kept.points, kept.normals = append(kept.points, r.points[i]), append(kept.normals, r.normals[i])
		}
	}
	if len(kept.points) < len(r.points) && len(kept.points) > 2 {
		*r = kept
		r.measure()
		off = r.fairOnce()
	}
	return off
}

// fairOnce sets the normals and returns how far each point lies off the curve through those around it.
func (r *run) fairOnce() []float64 {
	const half = 6 // points to either side
	n := len(r.points)
	off := make([]float64, n)
	if n < 5 {
		return off
	}
	lo, hi := r.inner()
	for i := range n {
		a, b := i-half, i+half
		if a < lo {
			a, b = lo, min(lo+2*half, hi)
		}
		if b > hi {
			a, b = max(lo, hi-2*half), hi
		}
		c := fitCurve(r.points[a:b+1], r.along[a:b+1], r.along[i])
		normal := geom.Pt(c.way.Y, -c.way.X)
		r.normals[i] = normal
		off[i] = math.Abs(r.points[i].Sub(c.at).Dot(normal)) * 1.14 // thirteen points less three numbers found
	}
	return off
}

// inner returns the indexes between which the run is clear of the blur of its corners, all of it when it is short.
func (r run) inner() (lo, hi int) {
	lo, hi = 0, len(r.points)-1
	for lo < hi && r.along[lo] < min(cornerBlur, r.length()/4) {
		lo++
	}
	for hi > lo && r.length()-r.along[hi] < min(cornerBlur, r.length()/4) {
		hi--
	}
	if hi-lo < 4 {
		return 0, len(r.points) - 1
	}
	return lo, hi
}

// A tip is a point of a run and the unit way there.
type tip struct{ at, way geom.Point }

// fitCurve fits a curve of the second degree in the length along it, a straight line to fewer than six points, and returns the point and
// the way at a length.
func fitCurve(points []geom.Point, along []float64, at float64) tip {
	n := 3
	if len(points) < 6 {
		n = 2
	}
	xs, ys := make([]equation, len(points)), make([]equation, len(points))
	for i, p := range points {
		t := along[i] - at
		a := []float64{1, t, t * t}[:n]
		xs[i], ys[i] = equation{a, p.X, 1}, equation{a, p.Y, 1}
	}
	x, _, okX := leastSquares(xs, n)
	y, _, okY := leastSquares(ys, n)
	if !okX || !okY {
		return tip{points[0], points[len(points)-1].Sub(points[0]).Unit()}
	}
	return tip{geom.Pt(x[0], y[0]), geom.Pt(x[1], y[1]).Unit()}
}

// tip returns where the run is at a length from its start, judged by the points within span px of there that lie on the far side of it
// from the end that is near.
func (r run) tip(at float64, back bool) tip {
	const span = 14 // px
	lo, hi := at, math.Min(at+span, r.length())
	if back {
		lo, hi = math.Max(0, at-span), at
	}
	a, b := 0, len(r.points)-1
	for a < b && r.along[a] < lo-1e-9 {
		a++
	}
	for b > a && r.along[b] > hi+1e-9 {
		b--
	}
	if b-a < 1 {
		a, b = max(0, a-1), min(len(r.points)-1, b+1)
	}
	return fitCurve(r.points[a:b+1], r.along[a:b+1], at)
}

// moved returns the points between two lengths from the start, moved inward by half the line.
func (r run) moved(from, to, line float64) []geom.Point {
	var out []geom.Point
	for i, p := range r.points {
		if r.along[i] >= from && r.along[i] <= to {
			out = append(out, p.Sub(r.normals[i].Mul(line/2)))
		}
	}
	return out
}

// A meeting is where a run ends and the next starts.
type meeting struct {
	sharp         bool
	at            geom.Point // the corner, moved inward, where sharp
	before, after float64    // px of the runs that the corner stands for
	step          bool       // a step from the corner to another
	to            geom.Point // that one
}

// meet returns the corner of r and next: where they come to when they go on as they do clear of its blur. It is not sharp when what
// was found there is not what a sharp corner leaves: a small round is none.
func meet(r, next run, line float64) meeting {
	if len(r.points) < 2 || len(next.points) < 2 {
		return meeting{}
	}
	corner := r.points[len(r.points)-1]
	convex := r.tip(r.length(), true).way.Cross(next.tip(0, false).way) > 0 // y down, the section on the right
	clear, round := float64(cornerBlur), convex == (line > 0)               // a round pen's corner is as round as its line is thick: that which stands out
	if round {
		clear += math.Abs(line) / 2
	}
	j := meeting{sharp: true, before: math.Min(clear, r.length()/3), after: math.Min(clear, next.length()/3)}
	a, b := r.tip(r.length()-j.before, true), next.tip(j.after, false)
	if !convex || line < 0 {
		behind := line / 2
		if convex {
			behind = -behind
		}
		if end := groove(r, next, a, b, line, behind); end.sharp {
			end.before, end.after = j.before, j.after
			return end
		}
	}
	turn := math.Atan2(a.way.Cross(b.way), a.way.Dot(b.way))
	outer, ok := cross(a, b)
	if !ok || math.Abs(turn) < 20*math.Pi/180 {
		return meeting{}
	}
	half := math.Cos(turn / 2) // the sine of half the angle within
	most := 1.9 / math.Max(half, 0.2)
	if round {
		most += math.Abs(line) / 2 * (1/math.Max(half, 0.2) - 1) * 1.2
	}
	n := len(r.points)
	if gap := math.Max(corner.Dist(r.points[n-2]), corner.Dist(next.points[1])); gap > 2 {
		most += gap // something lies over the corner
	}
	if outer.Dist(corner) > most {
		return meeting{}
	}
	j.at, _ = cross(a.inward(line/2), b.inward(line/2))
	return j
}

// bridge returns the corner that a gap between r and next hides: where they come to when they go on, if that lies within the gap and not
// straight ahead, and the runs do not turn that way by themselves.
func bridge(r, next run, line float64) meeting {
	if len(r.points) < 2 || len(next.points) < 2 {
		return meeting{}
	}
	a, b := r.tip(r.length(), true), next.tip(0, false)
	turn := math.Atan2(a.way.Cross(b.way), a.way.Dot(b.way))
	outer, ok := cross(a, b)
	if !ok || math.Abs(turn) < 20*math.Pi/180 {
		return meeting{}
	}
	far := a.at.Dist(b.at)
	if bend := (r.bend(true) + next.bend(false)) / 2 * far; bend/turn > 0.4 {
		return meeting{} // a curve goes on through the gap
	}
	ahead, behind := outer.Sub(a.at).Dot(a.way), b.at.Sub(outer).Dot(b.way)
	if ahead < -2 || behind < -2 || ahead > far+2 || behind > far+2 {
		return meeting{}
	}
	return meeting{sharp: true, at: onward{a.inward(line / 2), r.steadyBend(true), 1}.crosses(onward{b.inward(line / 2), next.steadyBend(false), -1})}
}

// bend returns by how much the run turns for each px near its start, or its end.
func (r run) bend(end bool) float64 { return r.bendOver(20, end) }

// steadyBend returns the bend that the run has right at its start, or its end, and further on too: 0 where a straight part follows a round.
func (r run) steadyBend(end bool) float64 {
	far, near := r.bendOver(20, end), r.bendOver(10, end)
	switch {
	case far*near <= 0:
		return 0
	case math.Abs(near) < math.Abs(far):
		return near
	}
	return far
}

// bendOver returns by how much the run turns for each px over a length in px, half of the run at most, from its start or up to its end.
func (r run) bendOver(length float64, end bool) float64 {
	length = math.Min(length, r.length()/2)
	if length < 6 {
		return 0
	}
	from, to := 0.0, length
	if end {
		from, to = r.length()-length, r.length()
	}
	a, b := r.tip(from, false).way, r.tip(to, true).way
	return math.Atan2(a.Cross(b), a.Dot(b)) / length
}

// inward returns the tip moved to the right of its way, which is where the section is.
func (t tip) inward(d float64) tip { return tip{t.at.Add(geom.Pt(-t.way.Y, t.way.X).Mul(d)), t.way} }

// cross returns where the straight lines through two tips cross. It reports false when they are parallel.
func cross(a, b tip) (geom.Point, bool) {
	d := a.way.Cross(b.way)
	if math.Abs(d) < 1e-6 {
		return geom.Point{}, false
	}
	return a.at.Add(a.way.Mul(b.at.Sub(a.at).Cross(b.way) / d)), true
}
