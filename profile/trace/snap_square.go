package trace

import "math"

// A square is a symmetric matrix, row by row.
type square [][]float64

func newSquare(n int) square {
	s, all := make(square, n), make([]float64, n*n)
	for i := range s {
		s[i] = all[i*n : (i+1)*n]
	}
	return s
}

// factor returns the lower triangle of Cholesky's decomposition; false when s is not positive definite.
func (s square) factor() (square, bool) {
	n := len(s)
	l := newSquare(n)
	for i := range n {
		for j := range i + 1 {
			sum := s[i][j]
			for k := range j {
				sum -= l[i][k] * l[j][k]
			}
			if i != j {
				l[i][j] = sum / l[j][j]
				continue
			}
			if !(sum > 1e-14*math.Abs(s[i][i])) {
				return nil, false
			}
			l[i][i] = math.Sqrt(sum)
		}
	}
	return l, true
}

// back returns x of L Lᵗ x = b, for a lower triangle s.
func (s square) back(b []float64) []float64 {
	n := len(s)
	x := append([]float64(nil), b...)
	for i := range n {
		for k := range i {
			x[i] -= s[i][k] * x[k]
		}
		x[i] /= s[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= s[k][i] * x[k]
		}
		x[i] /= s[i][i]
	}
	return x
}

// solve returns x of s x = b; false when s is not positive definite.
func (s square) solve(b []float64) ([]float64, bool) {
	l, ok := s.factor()
	if !ok {
		return nil, false
	}
	return l.back(b), true
}

// inverse returns the inverse of s; false when s is not positive definite.
func (s square) inverse() (square, bool) {
	l, ok := s.factor()
	if !ok {
		return nil, false
	}
	inv := newSquare(len(s))
	for i := range s {
		unit := make([]float64, len(s))
		unit[i] = 1
		copy(inv[i], l.back(unit))
	}
	return inv, true
}
