package stock

import "math"

// A column of the linear program: its cost and its entries.
type column struct {
	cost float64
	row  []int32
	val  []float64
}

// A simplex solves min c x, A x >= b, x >= 0 by the revised simplex method with a dense inverse. Rows with b > 0 start
// with an artificial variable of cost bigM, the others with their surplus. Its numbers are floats and prove nothing:
// whatever it returns is rounded to whole duals and checked (see duals).
type simplex struct {
	m     int
	cols  []column
	rhs   []float64
	bigM  float64
	basis []int32   // j >= 0: column j; -1-r: surplus of row r; -1-m-r: artificial of row r
	inv   []float64 // m by m, row by row
	x     []float64
	y     []float64
	w     []float64
	in    []bool // column is in the basis
	turns int    // pivots since the inverse was computed anew
}

// bigM is what it costs, in the dearest item's price, not to cut a unit.
const bigM = 30

// lpEps is the reduced cost, relative to the dearest item, below which a column does not enter; pivotEps the least pivot.
const (
	lpEps    = 1e-9
	pivotEps = 1e-9
)

func newSimplex(rhs []float64, bigM float64) *simplex {
	m := len(rhs)
	s := &simplex{m: m, rhs: rhs, bigM: bigM, basis: make([]int32, m), inv: make([]float64, m*m),
		x: make([]float64, m), y: make([]float64, m), w: make([]float64, m)}
	for r, b := range rhs {
		if b > 0 {
			s.basis[r], s.inv[r*m+r], s.x[r] = int32(-1-m-r), 1, b
		} else {
			s.basis[r], s.inv[r*m+r], s.x[r] = int32(-1-r), -1, -b
		}
	}
	return s
}

func (s *simplex) add(c column) {
	s.cols = append(s.cols, c)
	s.in = append(s.in, false)
}

func (s *simplex) costOf(v int32) float64 {
	switch {
	case v >= 0:
		return s.cols[v].cost
	case int(v) >= -s.m:
		return 0
	}
	return s.bigM
}

// duals fills y with c_B B^-1.
func (s *simplex) duals() {
	clear(s.y)
	for i, v := range s.basis {
		c := s.costOf(v)
		if c == 0 {
			continue
		}
		for k, a := range s.inv[i*s.m : (i+1)*s.m] {
			s.y[k] += c * a
		}
	}
}

// reduced returns column j's reduced cost.
func (s *simplex) reduced(j int) float64 {
	c := &s.cols[j]
	d := c.cost
	for k, r := range c.row {
		d -= s.y[r] * c.val[k]
	}
	return d
}

// entering returns the variable to enter, false if there is none; first takes the first instead of the best (Bland).
func (s *simplex) entering(first bool) (int32, bool) {
	best, at, ok := -lpEps, int32(0), false
	for j := range s.cols {
		if s.in[j] {
			continue
		}
		if d := s.reduced(j); d < best {
			best, at, ok = d, int32(j), true
			if first {
				return at, true
			}
		}
	}
	for r, d := range s.y {
		if d < best {
			best, at, ok = d, int32(-1-r), true
			if first {
				return at, true
			}
		}
	}
	return at, ok
}

// direction fills w with B^-1 times the variable's column.
func (s *simplex) direction(v int32) {
	m := s.m
	if v < 0 {
		r, sign := int(-1-v), -1.0
		if r >= m {
			r, sign = r-m, 1
		}
		for i := range m {
			s.w[i] = sign * s.inv[i*m+r]
		}
		return
	}
	c := &s.cols[v]
	for i := range m {
		var t float64
		row := s.inv[i*m : (i+1)*m]
		for k, r := range c.row {
			t += row[r] * c.val[k]
		}
		s.w[i] = t
	}
}

// leaving returns the row that limits the step, -1 if none does; among equals the greatest pivot.
func (s *simplex) leaving() int {
	at, best := -1, math.Inf(1)
	for i, w := range s.w {
		if w <= pivotEps {
			continue
		}
		t := max(s.x[i], 0) / w
		if t < best-1e-12 || t < best+1e-12 && (at < 0 || w > s.w[at]) {
			at, best = i, min(t, best)
		}
	}
	return at
}

// pivot brings variable v, whose direction is in w, into row r.
func (s *simplex) pivot(r int, v int32) {
	m := s.m
	pr := s.inv[r*m : (r+1)*m]
	f := 1 / s.w[r]
	for k := range pr {
		pr[k] *= f
	}
	s.x[r] *= f
	for i := range m {
		w := s.w[i]
		if i == r || w == 0 {
			continue
		}
		row := s.inv[i*m : (i+1)*m]
		for k, a := range pr {
			row[k] -= w * a
		}
		s.x[i] -= w * s.x[r]
	}
	if old := s.basis[r]; old >= 0 {
		s.in[old] = false
	}
	if v >= 0 {
		s.in[v] = true
	}
	s.basis[r] = v
	s.turns++
}

// primal runs the primal method from a basis that is feasible and leaves the duals in y. It gives up, harmlessly, after a
// number of pivots no ordinary run comes near.
func (s *simplex) primal(e *effort) {
	still := 0
	for n := 0; n < 200+40*s.m; n++ {
		s.duals()
		if !e.spend(1 + int64(s.m*s.m/64)) {
			return
		}
		v, ok := s.entering(still > 60)
		if !ok {
			return
		}
		s.direction(v)
		r := s.leaving()
		if r < 0 {
			return
		}
		if s.x[r] > 1e-10 {
			still = 0
		} else {
			still++
		}
		s.pivot(r, v)
		if s.turns > 250 {
			s.refactor()
		}
	}
}

// again sets new right-hand sides and runs the dual method from the last basis, whose duals are still right since costs
// and columns have not changed.
func (s *simplex) again(rhs []float64, e *effort) {
	s.rhs = rhs
	s.solveX()
	for n := 0; n < 100+10*s.m; n++ {
		r := -1
		for i, x := range s.x {
			if x < -1e-9 && (r < 0 || x < s.x[r]) {
				r = i
			}
		}
		if r < 0 {
			break
		}
		s.duals()
		v, ok := s.dualEntering(r)
		if !ok || !e.spend(1+int64(s.m*s.m/64)) {
			break
		}
		s.direction(v)
		s.pivot(r, v)
		if s.turns > 250 {
			s.refactor()
		}
	}
	if !s.feasible() {
		s.restart()
	}
}

// feasible tells whether no basic variable is below 0.
func (s *simplex) feasible() bool {
	for _, x := range s.x {
		if x < -1e-7 {
			return false
		}
	}
	return true
}

// restart goes back to the basis of artificials and surpluses, keeping the columns.
func (s *simplex) restart() {
	fresh := newSimplex(s.rhs, s.bigM)
	s.basis, s.inv, s.x, s.turns = fresh.basis, fresh.inv, fresh.x, 0
	clear(s.in)
}

// dualEntering returns the variable that enters when row r leaves: of those with a negative entry in the row, the one whose
// reduced cost is least against it.
func (s *simplex) dualEntering(r int) (at int32, ok bool) {
	row := s.inv[r*s.m : (r+1)*s.m]
	best, pivot := math.Inf(1), 0.0
	try := func(v int32, a, d float64) {
		t := max(d, 0) / -a
		if t < best-1e-12 || t < best+1e-12 && a < pivot {
			best, pivot, at, ok = min(t, best), a, v, true
		}
	}
	for j := range s.cols {
		if s.in[j] {
			continue
		}
		c := &s.cols[j]
		var a float64
		for k, q := range c.row {
			a += row[q] * c.val[k]
		}
		if a < -1e-7 {
			try(int32(j), a, s.reduced(j))
		}
	}
	for q, a := range row {
		if a > 1e-7 {
			try(int32(-1-q), -a, s.y[q])
		} else if a < -1e-7 {
			try(int32(-1-s.m-q), a, s.bigM-s.y[q])
		}
	}
	return at, ok
}

// refactor computes the inverse and x anew from the basis, by Gauss and Jordan with row pivots; a basis that has become
// singular is left as it is.
func (s *simplex) refactor() {
	m := s.m
	a := make([]float64, m*m)
	inv := make([]float64, m*m)
	for i, v := range s.basis {
		inv[i*m+i] = 1
		switch {
		case v >= 0:
			c := &s.cols[v]
			for k, r := range c.row {
				a[int(r)*m+i] = c.val[k]
			}
		case int(v) >= -m:
			a[int(-1-v)*m+i] = -1
		default:
			a[(int(-1-v)-m)*m+i] = 1
		}
	}
	for c := range m {
		p := c
		for i := c + 1; i < m; i++ {
			if math.Abs(a[i*m+c]) > math.Abs(a[p*m+c]) {
				p = i
			}
		}
		if math.Abs(a[p*m+c]) < pivotEps {
			s.turns = 0
			return
		}
		swapRows(a, m, p, c)
		swapRows(inv, m, p, c)
		f := 1 / a[c*m+c]
		scaleRow(a, m, c, f)
		scaleRow(inv, m, c, f)
		for i := range m {
			if w := a[i*m+c]; i != c && w != 0 {
				subRow(a, m, i, c, w)
				subRow(inv, m, i, c, w)
			}
		}
	}
	s.inv, s.turns = inv, 0
	s.solveX()
}

// solveX fills x with B^-1 b.
func (s *simplex) solveX() {
	for i := range s.m {
		var t float64
		for k, b := range s.rhs {
			t += s.inv[i*s.m+k] * b
		}
		s.x[i] = t
	}
}

func swapRows(a []float64, m, i, j int) {
	if i == j {
		return
	}
	for k := range m {
		a[i*m+k], a[j*m+k] = a[j*m+k], a[i*m+k]
	}
}

func scaleRow(a []float64, m, i int, f float64) {
	for k := range m {
		a[i*m+k] *= f
	}
}

func subRow(a []float64, m, i, j int, w float64) {
	ri, rj := a[i*m:(i+1)*m], a[j*m:(j+1)*m]
	for k, v := range rj {
		ri[k] -= w * v
	}
}
