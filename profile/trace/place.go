package trace

import (
	"math"
	"slices"

	"listel/profile/geom"
)

// A placed outline stands in section coordinates.
type placed struct {
	points []geom.Point // closed, counter-clockwise, mm
	pixels Mapping      // section coordinates to pixels
	turn   geom.Angle   // by which the section was turned, counter-clockwise
}

// place brings an outline in pixels into section coordinates: to millimeters by the scale, upright, its face to the right, its
// back at x = 0 and its foot at y = 0.
func place(pixels []geom.Point, s solved, face Side) placed {
	m := s.toTrue
	points := mapped(pixels, m)
	var out placed
	if !s.turned {
		out.turn = s.turn
		if !s.known {
			out.turn = uprightTurn(points)
		}
		turn := affineMapping(geom.Rotation(out.turn))
		m, points = m.Then(turn), mapped(points, turn)
	}
	if face == FaceLeft {
		mirror := affineMapping(geom.Scaling(-1, 1))
		m, points = m.Then(mirror), mapped(points, mirror)
	}
	if geom.PolygonArea(points) < 0 {
		slices.Reverse(points)
	}
	move := affineMapping(geom.Translation(geom.Pt(-edgeOf(points, func(p geom.Point) (float64, float64) { return p.X, p.Y }),
		-edgeOf(points, func(p geom.Point) (float64, float64) { return p.Y, p.X }))))
	out.points, out.pixels = mapped(points, move), m.Then(move).Inverse()
	return out
}

// mapped returns the images of points.
func mapped(points []geom.Point, m Mapping) []geom.Point {
	out := make([]geom.Point, len(points))
	for i, p := range points {
		out[i] = m.Apply(p)
	}
	return out
}

// mostTurn is the most that a section is taken to be turned when nothing but its own lines tells: a plate lies on the glass by eye.
const mostTurn = 6 * geom.Degree

// uprightTurn returns by how much closed points are to be turned for most of their level and plumb lines to be so. Short chords tell
// roughly which lines those are, longer ones how they run: a line drawn by hand strays from its own direction for a while.
func uprightTurn(points []geom.Point) geom.Angle {
	around := perimeter(points)
	lines := chords(points, around/150)
	best, most := 0.0, 0.0
	for a := -float64(mostTurn); a <= float64(mostTurn); a += chordBreadth / 4 {
		if _, sum := meanLean(lines, a); sum > most {
			best, most = a, sum
		}
	}
	for _, parts := range []float64{150, 50, 15} {
		lines := chords(points, around/parts)
		for range 3 {
			if mean, sum := meanLean(lines, best); sum > around/10 {
				best = mean
			}
		}
	}
	return geom.Angle(-best)
}

// chordBreadth is that of the bell that a chord counts as, radians.
const chordBreadth = 0.4 * math.Pi / 180

// meanLean returns the mean lean of the chords near a lean, and the length that counts.
func meanLean(lines []leaning, near float64) (mean, weight float64) {
	sum := 0.0
	for _, l := range lines {
		if d := (l.off - near) / chordBreadth; math.Abs(d) < 3 {
			w := l.length * math.Exp(-d*d/2)
			sum, weight = sum+w*l.off, weight+w
		}
	}
	if weight == 0 {
		return near, 0
	}
	return sum / weight, weight
}

// A leaning chord is off level or plumb by off radians.
type leaning struct{ off, length float64 }

// chords returns the chords of closed points that lean no more than mostTurn from level or plumb, each about length long and
// straight. Their ends go round with their starts, once or twice in all.
func chords(points []geom.Point, length float64) []leaning {
	var out []leaning
	n := len(points)
	step := func(i int) float64 { return points[i%n].Dist(points[(i+1)%n]) }
	j, sum := 0, 0.0 // where the chord from i ends, and how long the way there is
	for i := range n {
		if i > 0 {
			sum -= step(i - 1)
		}
		if j <= i {
			j, sum = i, 0
		}
		for ; sum < length && j < i+n; j++ {
			sum += step(j)
		}
		d := points[j%n].Sub(points[i])
		if d.Norm() < 0.98*sum { // round a corner
			continue
		}
		off := math.Remainder(float64(d.Angle()), math.Pi/2)
		if math.Abs(off) <= float64(mostTurn) {
			out = append(out, leaning{off, d.Norm() / float64(max(1, j-i))})
		}
	}
	return out
}

// perimeter returns the length around closed points.
func perimeter(points []geom.Point) float64 {
	sum := 0.0
	for i, p := range points {
		sum += p.Dist(points[(i+1)%len(points)])
	}
	return sum
}

// edgeOf returns where closed points begin in one direction: the middle of the straight line that stands there, or the first of them
// where there is none. of gives the coordinate that is asked for and the other.
func edgeOf(points []geom.Point, of func(geom.Point) (float64, float64)) float64 {
	var us []float64
	for _, p := range points {
		u, _ := of(p)
		us = append(us, u)
	}
	slices.Sort(us)
	first := us[0]
	size := us[len(us)-1] - first
	near := slices.IndexFunc(us, func(u float64) bool { return u > first+0.01*size })
	if near < 0 {
		near = len(us)
	}
	mid := us[near/2]
	if mid-first < 0.004*size && near*12 > len(us) { // many lie close together: a line
		return mid
	}
	return first
}
