package stock

import "math"

// wholeSlop is how far from a whole number a count may lie and still be taken for it: far more than the linear program's error.
const wholeSlop = 1e-5

// branch returns the source to branch on, given how many of each the last solution buys; -1 when all are whole.
func (m *master) branch(y []float64) int {
	at, most := -1, -1.0
	var d []float64
	for i, v := range y {
		if isWhole(v) {
			continue
		}
		if d == nil {
			d = m.reducedCosts()
		}
		if score := m.score(v, func(column int) float64 { return m.buysIn(i, column) }, d); score > most {
			at, most = i, score
		}
	}
	return at
}

// branchItem returns the item of several sources to branch on, and how many of it the last solution buys; -1 when that is whole of each.
func (m *master) branchItem(y []float64) (at int, bought float64) {
	at, most := -1, -1.0
	var d []float64
	for _, of := range m.p.sourcesOf {
		sum := 0.0
		for _, i := range of {
			sum += y[i]
		}
		if len(of) == 1 || isWhole(sum) {
			continue
		}
		if d == nil {
			d = m.reducedCosts()
		}
		item := m.p.sources[of[0]].item
		score := m.score(sum, func(column int) float64 {
			if o := m.of[column]; o.source >= 0 && m.p.sources[o.source].item == item {
				return 1
			}
			return 0
		}, d)
		if score > most {
			at, most, bought = item, score, sum
		}
	}
	return at, bought
}

func isWhole(v float64) bool { return math.Abs(v-math.Round(v)) < wholeSlop }

// score tells how good it is to branch on what buys counts in a column, of which the last solution buys v: best is that whose rounding, down
// and up, costs most as far as the first pivot tells, since a box that costs more is closed sooner.
func (m *master) score(v float64, buys func(column int) float64, d []float64) float64 {
	f := v - math.Floor(v)
	down, up := m.pull(buys, d)
	return max(f*down, 1e-7) * max((1-f)*up, 1e-7) * (1 + 0.01*min(f, 1-f))
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

// pull returns what it costs to buy one less and one more of what buys counts in a column, for the first step that the linear program
// takes; d are the columns' reduced costs. At most bigM.
func (m *master) pull(buys func(column int) float64, d []float64) (down, up float64) {
	lp := m.lp
	row := make([]float64, lp.m)
	for i, v := range lp.basis {
		if v < 0 {
			continue
		}
		if w := buys(int(v)); w > 0 {
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
		g := buys(j)
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
