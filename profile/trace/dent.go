package trace

import (
	"math"

	"listel/profile/geom"
)

const (
	// mostDent is the length of outline, px, that a dent takes up at most: a broken line's gap and the round ends of the line.
	mostDent = 12
	// leastDent is how deep a dent is at least, px: several times the scatter of a scan.
	leastDent = 0.6
	// besideDent is the length of outline on either side, px, that tells how it goes on.
	besideDent = 12
	// leastBeside is the same on one of the sides, where a corner lies near.
	leastBeside = 6
)

// undented returns the edges of a line of a thickness in px without those in small dents. A line of the hatching that runs right into a break fills it all but to the line's outer
// edge, and no gap is seen. A hollow of the section itself, drawn by such a line, would be broader or deeper.
func undented(edges []edge, line float64) []edge {
	n := len(edges)
	if n < 4*besideDent {
		return edges
	}
	drop := make([]bool, n)
	for i, e := range edges {
		a, b := stretchOf(edges, i, -1, mostDent/2), stretchOf(edges, i, 1, mostDent/2)
		from, to := a[len(a)-1], b[len(b)-1]
		if depth := e.at.Sub(from).Dot(e.out) + e.at.Sub(to).Dot(e.out); len(a) < 3 || len(b) < 3 || depth > -leastDent {
			continue
		}
		if d, ok := dentAt(edges, i, line); ok {
			for k := d.first; k <= d.last; k++ {
				drop[(k+n)%n] = true
			}
		}
	}
	out := make([]edge, 0, n)
	for i, e := range edges {
		if !drop[i] {
			out = append(out, e)
		}
	}
	return out
}

// A dent is a stretch of edges, by index; below 0 and beyond the last of them they go round.
type dent struct{ first, last int }

// dentAt returns the smallest dent round edge i, if there is one.
func dentAt(edges []edge, i int, line float64) (dent, bool) {
	for size := 4; size <= mostDent; size++ {
		for before := 1; before < size; before++ {
			d := dent{i - before, i + size - before}
			if d.inCurve(edges, besideDent, besideDent, line) ||
				d.inCurve(edges, besideDent, leastBeside, line) || d.inCurve(edges, leastBeside, besideDent, line) {
				return d, true
			}
		}
	}
	return dent{}, false
}

// sides returns the edges beside the dent, walking away from it, for so many px before it and after it.
func (d dent) sides(edges []edge, before, after float64) (in, out []geom.Point) {
	n := len(edges)
	return stretchOf(edges, (d.first-1+n)%n, -1, before), stretchOf(edges, (d.last+1)%n, 1, after)
}

// inCurve reports whether the edges of the dent, and none of those for so many px beside it, lie within the section off the curve that those beside it lie on.
func (d dent) inCurve(edges []edge, before, after, line float64) bool {
	const share = 0.7 // edges a px, at least, where none is missing
	in, out := d.sides(edges, before, after)
	if float64(len(in)) < share*before || float64(len(out)) < share*after || in[0].Dist(out[0]) > mostDent {
		return false
	}
	most := 0.9 // radians: a sharper turn tells too little of what lies within
	if before != after {
		most = 0.12 // beside a corner the line is straight, and not the nose of a small round
	}
	c, ok := bowThrough(in, out)
	if !ok || math.Abs(c.square)*2*(before+after) > most {
		return false
	}
	sum := 0.0
	for _, p := range append(in, out...) {
		off := c.within(p)
		if sum += off * off; math.Abs(off) > 0.5 {
			return false
		}
	}
	if math.Sqrt(sum/float64(len(in)+len(out))) > 0.2 { // px: the scatter of a scan
		return false
	}
	deepest := 0.0
	for k := d.first; k <= d.last; k++ {
		off := c.within(edges[(k+len(edges))%len(edges)].at)
		if off < -leastDent/2 {
			return false
		}
		deepest = math.Max(deepest, off)
	}
	return deepest > leastDent && deepest < 0.75*line
}

// A bow is a curve of the second degree over a straight line.
type bow struct {
	line                 tip
	level, slope, square float64 // px, how far to the right of the line it lies: level + slope x + square x^2
}

// bowThrough returns the bow nearest to the points on either side of a dent, which walk away from it.
func bowThrough(in, out []geom.Point) (bow, bool) {
	b := bow{line: tip{in[0], out[len(out)-1].Sub(in[len(in)-1]).Unit()}}
	var rows []equation
	for _, side := range [2][]geom.Point{in, out} {
		for _, p := range side {
			x, y := b.local(p)
			rows = append(rows, equation{[]float64{1, x, x * x}, y, 1})
		}
	}
	c, _, ok := leastSquares(rows, 3)
	if !ok {
		return bow{}, false
	}
	b.level, b.slope, b.square = c[0], c[1], c[2]
	return b, true
}

// local returns how far along the bow's line a point lies and how far to the right, px.
func (b bow) local(p geom.Point) (x, y float64) {
	d := p.Sub(b.line.at)
	return d.Dot(b.line.way), b.line.way.Cross(d)
}

// within returns how far to the right of the bow a point lies, px: y down, that is where the section is.
func (b bow) within(p geom.Point) float64 {
	x, y := b.local(p)
	return y - b.level - b.slope*x - b.square*x*x
}

// stretchOf returns the edges from i on, one way or the other, as far as a length in px goes without a gap.
func stretchOf(edges []edge, i, step int, length float64) []geom.Point {
	n := len(edges)
	out := []geom.Point{edges[i].at}
	for k, gone := 1, 0.0; k < n; k++ {
		p := edges[((i+k*step)%n+n)%n].at
		d := p.Dist(out[len(out)-1])
		if gone += d; d > 2.5 || gone > length {
			break
		}
		out = append(out, p)
	}
	return out
}
