package stock

import (
	"math"
	"slices"
)

// A basis is where a simplex stands, without its numbers.
type basis struct {
	in   []int32
	atHi []bool
}

// mark returns where the simplex stands.
func (s *simplex) mark() *basis { return &basis{slices.Clone(s.basis), slices.Clone(s.atHi)} }

// stands tells whether the simplex stands at b, rows added since then aside.
func (s *simplex) stands(b *basis) bool {
	return slices.Equal(b.in, s.basis[:len(b.in)]) && slices.Equal(b.atHi, s.atHi[:len(b.atHi)])
}

// goTo takes the simplex to a basis it had before; logicals of rows added since then are in the basis.
func (s *simplex) goTo(b *basis) {
	copy(s.basis, b.in)
	for r := len(b.in); r < s.m; r++ {
		s.basis[r] = int32(-1 - r)
	}
	clear(s.in)
	clear(s.inRow)
	clear(s.atHi)
	copy(s.atHi, b.atHi)
	for _, v := range s.basis {
		switch {
		case v >= 0:
			s.in[v] = true
		case v > artificial:
			s.inRow[-1-v] = true
		}
	}
	s.refactor()
}

// refactor computes the inverse, x and y anew from the basis, by Gauss and Jordan with row pivots; a basis that has become
// singular is given up for the first one.
func (s *simplex) refactor() {
	s.turns = 0
	m := s.m
	a := make([]float64, m*m)
	inv := make([]float64, m*m)
	for i, v := range s.basis {
		inv[i*m+i] = 1
		switch {
		case v >= 0:
			for _, e := range s.cols[v].at {
				a[int(e.row)*m+i] = e.val
			}
		case v > artificial:
			a[int(-1-v)*m+i] = -1
		default:
			a[int(artificial-v)*m+i] = 1
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
			s.restart()
			s.duals()
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
	s.inv = inv
	s.solveX()
	s.duals()
}

// solveX fills x with B^-1 times what the logicals outside the basis stand at.
func (s *simplex) solveX() {
	m := s.m
	clear(s.x)
	for r := range m {
		if s.inRow[r] {
			continue
		}
		b := s.stand(int32(-1 - r))
		if b == 0 {
			continue
		}
		for i := range m {
			s.x[i] += s.inv[i*m+r] * b
		}
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
	ri = ri[:len(rj)]
	for k, v := range rj {
		ri[k] -= w * v
	}
}
