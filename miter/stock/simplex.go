package stock

import "math"

// A column of the linear program: its cost and its entries.
type column struct {
	cost float64
	at   []entry
}

// An entry of a column.
type entry struct {
	row int32
	val float64
}

// A simplex solves min c x, lo <= A x <= hi, x >= 0 by the revised simplex method with a dense inverse. Each row has a
// logical variable, A x - s = 0, which keeps the row's bounds; a row may be added at any time. Where nothing else meets a
// row's lower bound, an artificial variable of cost bigM does. Its numbers are floats and prove nothing: whatever it returns
// is rounded to whole duals and checked (see duals).
type simplex struct {
	m      int
	cols   []column
	lo, hi []float64
	first  []int32 // row: the column that meets its lower bound at the start, -1 for the artificial
	bigM   float64
	basis  []int32   // j >= 0: column j; -1-r: logical of row r; artificial-r: artificial of row r
	inv    []float64 // m by m, row by row
	x      []float64
	y      []float64
	w      []float64
	in     []bool // column is in the basis
	off    []bool // column must be 0
	inRow  []bool // logical is in the basis
	atHi   []bool // logical out of the basis stands at its upper bound
	turns  int    // pivots since the inverse was computed anew
}

// artificial is the number of row 0's artificial variable; those of other rows lie below.
const artificial = int32(-1 << 20)

// bigM is what it costs, in the dearest item's price, not to cut a unit.
const bigM = 30

// lpEps is the reduced cost, relative to the dearest item, below which a column does not enter, and backEps that of an artificial
// variable, which lies far above the error of one in the basis; pivotEps is the least pivot, and loose the one of the dual method.
const (
	lpEps    = 1e-9
	backEps  = 1e-6
	pivotEps = 1e-9
	loose    = 1e-7
)

func newSimplex(bigM float64) *simplex { return &simplex{bigM: bigM} }

func (s *simplex) add(c column) {
	s.cols = append(s.cols, c)
	s.in, s.off = append(s.in, false), append(s.off, false)
}

// addRow adds a row whose entries are already in the columns, its logical in the basis. There is no inverse to keep before the first
// restart.
func (s *simplex) addRow(lo, hi float64) {
	m := s.m
	var x float64
	if s.inv != nil {
		x = s.growInverse()
	}
	s.m = m + 1
	s.lo, s.hi = append(s.lo, lo), append(s.hi, hi)
	s.first = append(s.first, -1)
	s.basis, s.x = append(s.basis, int32(-1-m)), append(s.x, x)
	s.y, s.w = append(s.y, 0), append(s.w, 0)
	s.inRow, s.atHi = append(s.inRow, true), append(s.atHi, false)
}

// growInverse makes room in the inverse for one row more, and returns where the row stands.
func (s *simplex) growInverse() (x float64) {
	m := s.m
	inv := make([]float64, (m+1)*(m+1))
	for i := range m {
		copy(inv[i*(m+1):], s.inv[i*m:(i+1)*m])
	}
	last := inv[m*(m+1):]
	last[m] = -1
	for i, v := range s.basis {
		if v < 0 {
			continue
		}
		for _, e := range s.cols[v].at {
			if int(e.row) != m {
				continue
			}
			x += e.val * s.x[i]
			for k, a := range s.inv[i*m : (i+1)*m] {
				last[k] += e.val * a
			}
		}
	}
	s.inv = inv
	return x
}

// restart goes back to the basis of artificials and logicals, keeping the columns.
func (s *simplex) restart() {
	m := s.m
	if s.inv == nil {
		s.inv = make([]float64, m*m)
	}
	clear(s.inv)
	clear(s.in)
	clear(s.atHi)
	for r := range m {
		switch {
		case s.lo[r] <= 0:
			s.basis[r], s.inv[r*m+r], s.inRow[r] = int32(-1-r), -1, true
		case s.first[r] >= 0:
			j := s.first[r]
			s.basis[r], s.inv[r*m+r], s.inRow[r], s.in[j] = j, 1/s.cols[j].at[0].val, false, true
		default:
			s.basis[r], s.inv[r*m+r], s.inRow[r] = artificial-int32(r), 1, false
		}
	}
	s.turns = 0
	s.solveX()
}

func (s *simplex) costOf(v int32) float64 {
	switch {
	case v >= 0:
		return s.cols[v].cost
	case v > artificial:
		return 0
	}
	return s.bigM
}

// bounds returns the bounds of a variable.
func (s *simplex) bounds(v int32) (lo, hi float64) {
	if v < 0 && v > artificial {
		return s.lo[-1-v], s.hi[-1-v]
	}
	if v >= 0 && s.off[v] {
		return 0, 0
	}
	return 0, math.Inf(1)
}

// stand returns the value of a variable that is not in the basis.
func (s *simplex) stand(v int32) float64 {
	switch {
	case v >= 0 || v <= artificial:
		return 0
	case s.atHi[-1-v]:
		return s.hi[-1-v]
	}
	return s.lo[-1-v]
}

// duals fills y with c_B B^-1.
func (s *simplex) duals() {
	clear(s.y)
	for i, v := range s.basis {
		c := s.costOf(v)
		if c == 0 {
			continue
		}
		row := s.inv[i*s.m : (i+1)*s.m]
		y := s.y[:len(row)]
		for k, a := range row {
			y[k] += c * a
		}
	}
}

// reduced returns column j's reduced cost.
func (s *simplex) reduced(j int) float64 {
	c := &s.cols[j]
	d := c.cost
	for _, e := range c.at {
		d -= s.y[e.row] * e.val
	}
	return d
}

// entering returns the variable to enter and the way it goes, 0 if there is none; first takes the first instead of the best
// (Bland).
func (s *simplex) entering(first bool) (at int32, way float64) {
	best := -lpEps
	for j := range s.cols {
		if s.in[j] || s.off[j] {
			continue
		}
		if d := s.reduced(j); d < best {
			best, at, way = d, int32(j), 1
			if first {
				return at, way
			}
		}
	}
	for r, d := range s.y {
		if back := s.bigM - d; back < min(best, -backEps) {
			best, at, way = back, artificial-int32(r), 1 // no unit is worth more than what it costs not to cut it
			if first {
				return at, way
			}
		}
		if s.inRow[r] || s.hi[r] <= s.lo[r] {
			continue
		}
		dir := 1.0
		if s.atHi[r] {
			d, dir = -d, -1
		}
		if d < best {
			best, at, way = d, int32(-1-r), dir
			if first {
				return at, way
			}
		}
	}
	return at, way
}

// direction fills w with B^-1 times the variable's column.
func (s *simplex) direction(v int32) {
	m := s.m
	if v < 0 {
		r, sign := int(-1-v), -1.0
		if v <= artificial {
			r, sign = int(artificial-v), 1
		}
		for i := range m {
			s.w[i] = sign * s.inv[i*m+r]
		}
		return
	}
	at := s.cols[v].at
	for i := range m {
		var t float64
		row := s.inv[i*m : (i+1)*m]
		for _, e := range at {
			t += row[e.row] * e.val
		}
		s.w[i] = t
	}
}

// leaving returns the row that limits the step of a variable going way, how long the step is, and whether the row's variable
// then stands at its upper bound; -1 if none does. Among equals the greatest pivot.
func (s *simplex) leaving(way float64) (at int, step float64, up bool) {
	at, step = -1, math.Inf(1)
	var pivot float64
	for i, w := range s.w {
		w *= way
		if w <= pivotEps && w >= -pivotEps {
			continue
		}
		lo, hi := s.bounds(s.basis[i])
		room, high := s.x[i]-lo, false
		if w < 0 {
			if math.IsInf(hi, 1) {
				continue
			}
			room, high, w = hi-s.x[i], true, -w
		}
		t := max(room, 0) / w
		if t < step-1e-12 || t < step+1e-12 && w > pivot {
			at, step, up, pivot = i, min(t, step), high, w
		}
	}
	return at, step, up
}

// pivot brings variable v, whose direction is in w and reduced cost is d, into row r with a value; up tells where the
// variable that leaves then stands.
func (s *simplex) pivot(r int, v int32, value, d float64, up bool) {
	m := s.m
	pr := s.inv[r*m : (r+1)*m]
	f := 1 / s.w[r]
	for k := range pr {
		pr[k] *= f
	}
	for i := range m {
		w := s.w[i]
		if i == r || w == 0 {
			continue
		}
		row := s.inv[i*m : (i+1)*m][:len(pr)]
		for k, a := range pr {
			row[k] -= w * a
		}
	}
	for k, a := range pr {
		s.y[k] += d * a
	}
	switch old := s.basis[r]; {
	case old >= 0:
		s.in[old] = false
	case old > artificial:
		s.inRow[-1-old], s.atHi[-1-old] = false, up
	}
	switch {
	case v >= 0:
		s.in[v] = true
	case v > artificial:
		s.inRow[-1-v] = true
	}
	s.basis[r], s.x[r] = v, value
	s.turns++
	if s.turns > 250 {
		s.refactor()
	}
}

// reducedOf returns any variable's reduced cost.
func (s *simplex) reducedOf(v int32) float64 {
	switch {
	case v >= 0:
		return s.reduced(int(v))
	case v > artificial:
		return s.y[-1-v]
	}
	return s.bigM - s.y[artificial-v]
}

// shift moves the variables in the basis as far as a step along w takes them.
func (s *simplex) shift(step float64) {
	if step == 0 {
		return
	}
	for i, w := range s.w {
		s.x[i] -= w * step
	}
}

// nodes returns what one pivot spends.
func (s *simplex) nodes() int64 { return 1 + int64(s.m*s.m+4*len(s.cols))/64 }

// primal runs the primal method from a basis that is feasible and leaves the duals in y. It gives up, harmlessly, after a
// number of pivots no ordinary run comes near.
func (s *simplex) primal(e *effort) {
	s.duals()
	still := 0
	for n := 0; n < 200+40*s.m; n++ {
		if !e.spend(s.nodes()) {
			return
		}
		v, way := s.entering(still > 60)
		if way == 0 {
			return
		}
		s.direction(v)
		r, step, up := s.leaving(way)
		if lo, hi := s.bounds(v); hi-lo <= step {
			if math.IsInf(hi, 1) {
				return
			}
			s.shift(way * (hi - lo))
			s.atHi[-1-v] = way > 0
			continue
		}
		if step > 1e-10 {
			still = 0
		} else {
			still++
		}
		from, d := s.stand(v), s.reducedOf(v)
		s.shift(way * step)
		s.pivot(r, v, from+way*step, d, up)
	}
}
