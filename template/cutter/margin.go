package cutter

import "math"

// margins are tables of how high a tool's lower edge is once what it cuts has been worn in by a margin all round: a point above that
// line is cut with the margin to spare. The tables serve to count what is covered; what is gouged is never read from them.
type margins struct {
	from   float64 // u of the first entry
	levels [][]float64
}

const marginStep = 0.04 // mm between entries

// marginLevels are the margins, in mm, that waste is covered with: the first is twice what a fence or height may be off by
// (0.1 mm), so that an error leaves no whisker; the others serve for waste that no tool reaches with more.
var marginLevels = []float64{0.2, 0.1, 0.01}

func newMargins(c curve) margins {
	a, b := c.span()
	n := int(math.Ceil((b-a)/marginStep)) + 1
	m := margins{from: a}
	base := make([]float64, n)
	for i := range base {
		base[i] = c.edgeAt(a + float64(i)*marginStep)
	}
	for _, level := range marginLevels {
		m.levels = append(m.levels, worn(base, level))
	}
	return m
}

// edgeAt returns the height at x, plus infinity where nothing cuts.
func (c curve) edgeAt(x float64) float64 {
	v, ok := c.at(x)
	if !ok {
		return math.Inf(1)
	}
	return v
}

// worn returns the table raised by a disc of the given radius rolled along it.
func worn(base []float64, r float64) []float64 {
	k := int(math.Ceil(r / marginStep))
	out := make([]float64, len(base))
	for i := range base {
		best := math.Inf(-1)
		for j := i - k; j <= i+k; j++ {
			d := float64(j-i) * marginStep
			if math.Abs(d) > r {
				d = math.Copysign(r, d)
			}
			if j < 0 || j >= len(base) {
				best = math.Inf(1)
				break
			}
			best = math.Max(best, base[j]+math.Sqrt(r*r-d*d))
		}
		out[i] = best
	}
	return out
}

// level returns the least index of a margin with which a point u from the axis and v over the tip is cut; len(marginLevels) when it
// is not cut.
func (m margins) level(u, v float64) int {
	i := int((u-m.from)/marginStep + 0.5)
	if u < m.from || i < 0 || i >= len(m.levels[0]) {
		return len(m.levels)
	}
	for k, t := range m.levels {
		if v >= t[i] {
			return k
		}
	}
	return len(m.levels)
}
