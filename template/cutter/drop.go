package cutter

import "math"

// lowest returns the least height at which a tool's curve t, moved sideways by x, clears the curve s: the greatest
// s(x+u) - t(u) over the open intervals where both are defined, in closed form piece against piece. It is minus infinity where
// they do not overlap.
func lowest(s, t curve, x float64) float64 {
	best := math.Inf(-1)
	if len(t) == 0 || len(s) == 0 {
		return best
	}
	a, _ := t.span()
	i0 := s.first(x + a)
	for _, p := range t {
		for i := i0; i < len(s) && s[i].a < x+p.b; i++ {
			if s[i].b > x+p.a {
				best = math.Max(best, gap(s[i], p, x))
			}
		}
	}
	return best
}

// gap returns the greatest s(x+u) - t(u) over the overlap of two pieces, minus infinity where they only touch.
func gap(s, t piece, x float64) float64 {
	lo, hi := math.Max(t.a, s.a-x), math.Min(t.b, s.b-x)
	if hi-lo <= vertical {
		return math.Inf(-1)
	}
	best := math.Max(s.at(x+lo)-t.at(lo), s.at(x+hi)-t.at(hi))
	if u, ok := stationary(s, t, x); ok && u > lo && u < hi {
		best = math.Max(best, s.at(x+u)-t.at(u))
	}
	return best
}
