package geom

import "math"

// Contains reports whether q lies inside the closed path p: whether p winds round it. Points within 1e-9 mm of p
// count as inside. It is exact on arcs.
func (p Path) Contains(q Point) bool {
	if !p.Bounds().Expand(touch).Contains(q) {
		return false
	}
	if _, _, d := p.Nearest(q); d <= touch {
		return true
	}
	return p.winding(q) != 0
}

// winding returns how often p, closed by a line when open, goes round q counter-clockwise; q is not on p. It counts where p
// crosses the ray from q to the right. Every piece between two joints or turns of y owns its lower end and
// not its upper; the height of a joint is that of the next start, so that rounding cannot tear neighbors apart.
func (p Path) winding(q Point) int {
	n := 0
	for i, s := range p {
		next := p[(i+1)%len(p)].Start()
		if i == len(p)-1 && !s.End().Near(next, joined) {
			n += crossesRay(Line{s.End(), next}, q, s.End().Y, next.Y, 0, 1)
			next = s.End()
		}
		t0, y0 := 0.0, s.Start().Y
		for _, t := range s.turns(Point{0, 1}) {
			y := s.At(t).Y
			n += crossesRay(s, q, y0, y, t0, t)
			t0, y0 = t, y
		}
		n += crossesRay(s, q, y0, next.Y, t0, 1)
	}
	return n
}

// crossesRay returns 1 when the part of s between the parameters t0 and t1, where y runs one way from y0 to y1,
// crosses the ray from q to the right upward, -1 when downward, else 0.
func crossesRay(s Segment, q Point, y0, y1, t0, t1 float64) int {
	if (y0 <= q.Y) == (y1 <= q.Y) {
		return 0
	}
	t := math.NaN()
	for _, c := range s.levels(Point{0, 1}, q.Y) {
		// The level may be met at a joint, a little outside the piece.
		if d := clampTo(c, t0, t1); math.IsNaN(t) || math.Abs(c-d) < math.Abs(t-clampTo(t, t0, t1)) {
			t = c
		}
	}
	if math.IsNaN(t) { // missed by rounding: the end nearer in height
		t = t0
		if math.Abs(y1-q.Y) < math.Abs(y0-q.Y) {
			t = t1
		}
	}
	if s.At(clampTo(t, t0, t1)).X < q.X {
		return 0
	}
	if y0 <= q.Y {
		return 1
	}
	return -1
}

func clampTo(t, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, t)) }
