package trace

import (
	"fmt"
	"math"

	"listel/profile/geom"
)

const (
	// clickSpread is how well a corner of a section is clicked: one standard deviation either way, px. Common practice, no source: a steady
	// hand on a screen that shows the pixels.
	clickSpread = 0.8
	// clickStep is the distance between the points that stand for what lies between two clicks, px.
	clickStep = 2.0
	// clickShare is how far apart those points count as independent, in pixels as Drawn counts them: they hang on the clicks.
	clickShare = 3.0
	// leastClicked is how many chords in a row make a curve: a chamfer has one, a corner that was missed two.
	leastClicked = 3
	// mostClicked is the most that a curve turns at one of its clicks.
	mostClicked = 55 * geom.Degree
	// evenClicked is how many times as long as its neighbor a chord of a curve may be.
	evenClicked = 3.5
	// straightClicked is how far from level or plumb a chord may lie that is still taken for a straight line that a curve starts from.
	straightClicked = 2.5 * geom.Degree
)

// clicked returns what closed points that were clicked round an upright section stand for, closely spaced: straight lines from corner to
// corner, and curves where several were clicked in a row that turn little by little. pixel is in the points' unit.
func clicked(points []geom.Point, pixel float64) []geom.Point {
	n := len(points)
	curved := make([]bool, n) // the chord from i to i+1
	for i := range n {
		curved[i] = mayCurve(points, i)
	}
	keepRows(curved)
	var out []geom.Point
	for i, p := range points {
		q := points[(i+1)%n]
		bulge := 0.0
		if curved[i] {
			bulge = bulgeOf(points, curved, i)
		}
		steps := max(1, int(p.Dist(q)/(clickStep*pixel)))
		for k := range steps {
			t := float64(k) / float64(steps)
			out = append(out, p.Lerp(q, t).Add(q.Sub(p).Unit().Left().Mul(4*t*(1-t)*bulge)))
		}
	}
	return out
}

// chord returns the chord from point i, counted round.
func chord(points []geom.Point, i int) geom.Point {
	n := len(points)
	i = (i%n + n) % n
	return points[(i+1)%n].Sub(points[i])
}

// bendAt returns by how much the outline turns at point i, to the left.
func bendAt(points []geom.Point, i int) float64 {
	u, v := chord(points, i-1), chord(points, i)
	return math.Atan2(u.Cross(v), u.Dot(v))
}

// mayCurve reports whether chord i goes on in a chord of about its length by a small turn, at both of its ends or at one.
func mayCurve(points []geom.Point, i int) bool {
	soft := func(at, other int) bool {
		a, b := chord(points, i).Norm(), chord(points, other).Norm()
		return math.Abs(bendAt(points, at)) < float64(mostClicked) && a < evenClicked*b
	}
	before, after := soft(i, i-1), soft(i+1, i+1)
	if before != after { // the end of a row: a straight line that a curve starts from?
		d := chord(points, i)
		off := math.Abs(math.Remainder(math.Atan2(d.Y, d.X), math.Pi/2))
		return off > float64(straightClicked)
	}
	return before
}

// keepRows unsets the chords that are too few in a row to make a curve.
func keepRows(curved []bool) {
	n := len(curved)
	keep := make([]bool, n)
	for i := range n {
		row := 0
		for k := range leastClicked { // the rows of the least length that hold chord i
			all := true
			for j := i - k; j < i-k+leastClicked; j++ {
				all = all && curved[((j%n)+n)%n]
			}
			if all {
				row++
			}
		}
		keep[i] = row > 0
	}
	copy(curved, keep)
}

// bulgeOf returns the height of the arc over chord i of a curve, to its left: that of the circles through its ends and the clicks next to them, their
// mean where there are two.
func bulgeOf(points []geom.Point, curved []bool, i int) float64 {
	n := len(points)
	d := chord(points, i).Norm()
	sum, count := 0.0, 0.0
	add := func(at, other int) {
		turn := bendAt(points, at)
		if !curved[((other%n)+n)%n] || math.Abs(turn) >= float64(mostClicked) {
			return
		}
		e := chord(points, other).Norm()
		// A circle turns by half the sum of what two chords of it stand for; each stands for as much as it is long.
		sum, count = sum-d*math.Tan(turn*d/(d+e)/2)/2, count+1
	}
	add(i, i-1)
	add(i+1, i+1)
	if count == 0 {
		return 0
	}
	return sum / count
}

// crossing returns the first two lines of a closed outline that cross, from 0, and where.
func crossing(points []geom.Point) (i, j int, at geom.Point, ok bool) {
	n := len(points)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue // neighbors
			}
			p, u := points[i], chord(points, i)
			q, v := points[j], chord(points, j)
			det := u.Cross(v)
			if det == 0 {
				continue
			}
			s, t := q.Sub(p).Cross(v)/det, q.Sub(p).Cross(u)/det
			if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
				return i, j, p.Add(u.Mul(s)), true
			}
		}
	}
	return 0, 0, geom.Point{}, false
}

// checkClicks returns what is wrong with the clicked corners of a section.
func checkClicks(points []geom.Point) error {
	n := len(points)
	if n < 4 {
		return fmt.Errorf("%w: %d clicked points make no section; click all its corners, all the way round, four at least", ErrNothing, n)
	}
	for i, p := range points {
		if !(p.Dist(points[(i+1)%n]) > 0) {
			return fmt.Errorf("%w: clicked points %d and %d are the same, (%g, %g)", ErrCoincide, i+1, (i+1)%n+1, p.X, p.Y)
		}
	}
	if i, j, at, ok := crossing(points); ok {
		return fmt.Errorf("%w: the lines from clicked points %d to %d and from %d to %d cross at (%.0f, %.0f); click the corners in order, all the way round",
			ErrNothing, i+1, i+2, j+1, (j+1)%n+1, at.X, at.Y)
	}
	return nil
}
