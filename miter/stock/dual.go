package stock

import "math"

// again runs the dual method from the last basis, whose duals are still right since costs and columns have not changed,
// once the bounds of rows have.
func (s *simplex) again(e *effort) {
	s.solveX()
	s.duals()
	for n := 0; n < 100+10*s.m; n++ {
		r, by, up := s.worst()
		if r < 0 {
			break
		}
		v, ok := s.dualEntering(r, up)
		if !ok || !e.spend(s.nodes()) {
			break
		}
		s.direction(v)
		if math.Abs(s.w[r]) < pivotEps {
			break
		}
		step := by / s.w[r]
		from, d := s.stand(v), s.reducedOf(v)
		s.shift(step)
		s.pivot(r, v, from+step, d, up)
	}
	if r, by, _ := s.worst(); r >= 0 && math.Abs(by) > loose {
		s.restart()
	}
}

// worst returns the row whose variable is farthest out of its bounds, how far, and which bound it is to go to; -1 if none is.
func (s *simplex) worst() (at int, by float64, up bool) {
	at = -1
	most := 1e-9
	for i, x := range s.x {
		lo, hi := s.bounds(s.basis[i])
		if lo-x > most {
			at, most, by, up = i, lo-x, x-lo, false
		}
		if x-hi > most {
			at, most, by, up = i, x-hi, x-hi, true
		}
	}
	return at, by, up
}

// dualEntering returns the variable that enters when the one of row r leaves for its lower or upper bound: of those
// that can take it there, the one whose reduced cost is least against its entry in the row.
func (s *simplex) dualEntering(r int, up bool) (at int32, ok bool) {
	row := s.inv[r*s.m : (r+1)*s.m]
	sign := 1.0
	if up {
		sign = -1
	}
	best, pivot := math.Inf(1), 0.0
	try := func(v int32, a, d float64) {
		t := max(d, 0) / -a
		if t < best-1e-12 || t < best+1e-12 && a < pivot {
			best, pivot, at, ok = min(t, best), a, v, true
		}
	}
	for j := range s.cols {
		if s.in[j] || s.off[j] {
			continue
		}
		var a float64
		for _, e := range s.cols[j].at {
			a += row[e.row] * e.val
		}
		if a *= sign; a < -loose {
			try(int32(j), a, s.reduced(j))
		}
	}
	for q, a := range row {
		a *= sign
		if s.hi[q] > s.lo[q] && !s.inRow[q] {
			if !s.atHi[q] && a > loose {
				try(int32(-1-q), -a, s.y[q])
			} else if s.atHi[q] && a < -loose {
				try(int32(-1-q), a, -s.y[q])
			}
		}
		if a < -loose && s.basis[r] != artificial-int32(q) {
			try(artificial-int32(q), a, s.bigM-s.y[q])
		}
	}
	return at, ok
}
