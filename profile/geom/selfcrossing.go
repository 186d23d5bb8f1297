package geom

// A SelfCrossing is a point that a path passes twice, at S0 and, later, at S1, counted as Path.At does.
type SelfCrossing struct {
	S0, S1 float64
	At     Point
}

// SelfCrossings returns the points that p passes or touches twice. The joints of neighbors, and what lies within
// tol mm of them on both, are left out, and so are segments no longer than 1e-6 mm.
func (p Path) SelfCrossings(tol float64) []SelfCrossing {
	tol = max(tol, joined)
	var kept []int
	boxes := make([]Rect, len(p))
	for i, s := range p {
		boxes[i] = s.Bounds().Expand(touch)
		if s.Length() > joined {
			kept = append(kept, i)
		}
	}
	closed := p.Closed(joined)
	var out []SelfCrossing
	for x, i := range kept {
		for y := x + 1; y < len(kept); y++ {
			j := kept[y]
			if !boxes[i].Overlaps(boxes[j]) {
				continue
			}
			follows, precedes := y == x+1, closed && x == 0 && y == len(kept)-1
			for _, c := range crossings(p[i], p[j]) {
				if follows && c.At.Near(p[i].End(), tol) || precedes && c.At.Near(p[i].Start(), tol) {
					continue
				}
				out = append(out, SelfCrossing{float64(i) + c.TA, float64(j) + c.TB, c.At})
			}
		}
	}
	return out
}
