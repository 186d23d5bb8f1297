package sheet

// Spread returns places for labels along a line: as near as can be, by least squares, to where each should be,
// in the same order, and no two nearer than half of each plus the gap between. want must be in rising order;
// half are the half sizes, mm. It is the method of pooling neighbors: labels that would meet move as one.
func Spread(want, half []float64, gap float64) []float64 {
	type pool struct {
		sum  float64 // of the places that its members want for the first of them
		n    int
		from int
	}
	offset := make([]float64, len(want)) // of each label from the first, were all to touch
	for i := 1; i < len(want); i++ {
		offset[i] = offset[i-1] + half[i-1] + gap + half[i]
	}
	var pools []pool
	for i := range want {
		pools = append(pools, pool{want[i] - offset[i], 1, i})
		for n := len(pools); n > 1; n-- {
			a, b := pools[n-2], pools[n-1]
			if a.sum/float64(a.n) <= b.sum/float64(b.n) {
				break
			}
			pools = append(pools[:n-2], pool{a.sum + b.sum, a.n + b.n, a.from})
		}
	}
	out := make([]float64, len(want))
	for _, p := range pools {
		for i := p.from; i < p.from+p.n; i++ {
			out[i] = p.sum/float64(p.n) + offset[i]
		}
	}
	return out
}
