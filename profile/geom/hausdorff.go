package geom

import "math"

// Hausdorff returns the greatest distance, in mm, from the points of a, taken at most step mm apart, to b, or from those of b to
// a, whichever is greater: by how much two shapes differ. It is infinite when one path is empty, 0 when both are; step must be more than 0. It is what
// the tests of all packages compare shapes by.
func Hausdorff(a, b Path, step float64) float64 {
	if len(a) == 0 && len(b) == 0 {
		return 0
	}
	return math.Max(a.farthestFrom(b, step), b.farthestFrom(a, step))
}

func (p Path) farthestFrom(q Path, step float64) float64 {
	if len(p) == 0 {
		return math.Inf(1)
	}
	worst := 0.0
	for _, s := range p {
		reach := s.Length()
		if e, ok := s.(EllipticArc); ok { // the parameter is even in angle, not in length
			reach = math.Max(e.RX, e.RY) * math.Abs(float64(e.Sweep))
		}
		n := int(math.Ceil(math.Min(reach/step, 1e6))) // 20 m at 0.02 mm; a finer step is this one
		n = max(n, 1)
		for i := range n + 1 {
			_, _, d := q.Nearest(s.At(float64(i) / float64(n)))
			worst = math.Max(worst, d)
		}
	}
	return worst
}
