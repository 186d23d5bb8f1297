package stock

import "math"

// wholeSlop is how far from a whole number a count may lie and still be taken for it: far more than the linear program's error.
const wholeSlop = 1e-5

// branch returns the source to branch on, given how many of each the last solution buys; -1 when all are whole. It is the one
// whose rounding, down and up, costs most as far as the first pivot tells: a box that costs more is closed sooner.
func (m *master) branch(y []float64) int {
	at, most := -1, -1.0
	var d []float64
	for i, v := range y {
		f := v - math.Floor(v)
		if f < wholeSlop || f > 1-wholeSlop {
			continue
		}
		if d == nil {
			d = m.reducedCosts()
		}
		down, up := m.pull(i, d)
		score := max(f*down, 1e-7) * max((1-f)*up, 1e-7) * (1 + 0.01*min(f, 1-f))
		if score > most {
			at, most = i, score
		}
	}
	return at
}

// reducedCosts returns the reduced costs of all columns.
func (m *master) reducedCosts() []float64 {
	d := make([]float64, len(m.of))
	for j := range d {
		if !m.lp.in[j] {
			d[j] = max(m.lp.reduced(j), 0)
		}
	}
	return d
}

// buysIn returns how many of a source one of a column buys.
func (m *master) buysIn(source, column int) float64 {
	switch o := m.of[column]; {
	case o.source == source:
		return 1
	case o.source < 0 && m.lone[o.bin] == source:
		return 1 / m.strips(o.bin)
	}
	return 0
}

// pull returns what it costs to buy one less and one more of a source, for the first step that the linear program takes; d are
// the columns' reduced costs. At most bigM.
func (m *master) pull(source int, d []float64) (down, up float64) {
	lp := m.lp
	row := make([]float64, lp.m)
	for i, v := range lp.basis {
		if v < 0 {
			continue
		}
		if w := m.buysIn(source, int(v)); w > 0 {
			for k, a := range lp.inv[i*lp.m : (i+1)*lp.m] {
				row[k] += w * a
			}
		}
	}
	down, up = bigM, bigM
	try := func(g, d float64) {
		if g > loose {
			up = min(up, d/g)
		} else if g < -loose {
			down = min(down, -d/g)
		}
	}
	for j := range d {
		if lp.in[j] {
			continue
		}
		g := m.buysIn(source, j)
		for _, e := range lp.cols[j].at {
			g -= row[e.row] * e.val
		}
		try(g, d[j])
	}
	for q, g := range row {
		if lp.inRow[q] || lp.hi[q] <= lp.lo[q] {
			continue
		}
		if lp.atHi[q] {
			try(-g, max(0, -lp.y[q]))
		} else {
			try(g, max(0, lp.y[q]))
		}
	}
	return down, up
}
