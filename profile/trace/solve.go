package trace

import "math"

// An equation is one row of a linear system, a . x = b, with the weight it has among the others.
type equation struct {
	a      []float64
	b      float64
	weight float64
}

// leastSquares returns the x that fits the weighted equations best and the inverse of their normal matrix, which is the
// covariance of x where the weights are one over the variances of b. It reports false when they leave x open.
func leastSquares(rows []equation, n int) (x []float64, inverse [][]float64, ok bool) {
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, 2*n+1)
		m[i][n+1+i] = 1
	}
	for _, r := range rows {
		for i := range n {
			for j := range n {
				m[i][j] += r.weight * r.a[i] * r.a[j]
			}
			m[i][n] += r.weight * r.a[i] * r.b
		}
	}
	if !eliminate(m, n) {
		return nil, nil, false
	}
	x, inverse = make([]float64, n), make([][]float64, n)
	for i := range m {
		x[i], inverse[i] = m[i][n], m[i][n+1:]
	}
	return x, inverse, true
}

// eliminate turns the left n columns of m into the identity, by rows. It reports false when they are singular to rounding.
func eliminate(m [][]float64, n int) bool {
	scale := make([]float64, n)
	for i := range n {
		scale[i] = math.Abs(m[i][i])
	}
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		if !(math.Abs(m[p][c]) > 1e-11*scale[c]) { // a diagonal that has lost eleven digits is rounding
			return false
		}
		m[c], m[p] = m[p], m[c]
		k := 1 / m[c][c]
		for j := c; j < len(m[c]); j++ {
			m[c][j] *= k
		}
		for r := range n {
			if f := m[r][c]; r != c && f != 0 {
				for j := c; j < len(m[c]); j++ {
					m[r][j] -= f * m[c][j]
				}
			}
		}
	}
	return true
}
