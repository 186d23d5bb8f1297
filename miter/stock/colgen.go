package stock

import (
	"math"
	"slices"
)

// A master is the linear program of a problem, over the patterns known so far: a row for each unit (cut often enough), for
// each bin (no more strips cut than given) and for each limited item.
type master struct {
	p    *problem
	eff  *effort
	tune tuning
	lp   *simplex
	sig  []int64  // bin: the best knapsack of the last pricing
	pats []filled // the pattern of column i is pats[i-len(sources)]
	row  []int    // limited item: its row
	caps int      // the row of source 0, if sources are held back one by one; else 0
	dear float64  // money of the dearest item, the linear program's unit of money
}

func newMaster(p *problem, s *state, eff *effort, tune tuning) *master {
	m := &master{p: p, eff: eff, tune: tune, row: make([]int, len(p.items)), sig: make([]int64, len(p.bins)), dear: 1}
	for _, it := range p.items {
		m.dear = max(m.dear, float64(it.cost))
	}
	rows := len(p.units) + len(p.bins)
	for _, i := range p.limited {
		m.row[i] = rows
		rows++
	}
	if s.most != nil {
		m.caps = rows
		rows += len(p.sources)
	}
	m.lp = newSimplex(m.rhs(s, rows), bigM)
	for i := range p.sources {
		m.lp.add(m.sourceColumn(i))
	}
	return m
}

// rhs returns the right-hand sides for a state.
func (m *master) rhs(s *state, rows int) []float64 {
	b := make([]float64, rows)
	for u, n := range s.rem {
		b[u] = float64(n)
	}
	for i, n := range s.avail {
		b[len(m.p.units)+i] = -float64(n)
	}
	for _, i := range m.p.limited {
		b[m.row[i]] = -float64(s.left[i])
	}
	if m.caps > 0 {
		for i, n := range s.most {
			b[m.caps+i] = -float64(n)
			if n == unlimited {
				b[m.caps+i] = -1e6 // more than 2,000 pieces could ever need
			}
		}
	}
	return b
}

func (m *master) sourceColumn(i int) column {
	s := m.p.sources[i]
	c := column{cost: float64(m.p.price(i)) / m.dear}
	for _, g := range s.gives {
		c.row = append(c.row, int32(len(m.p.units)+g.bin))
		c.val = append(c.val, float64(g.n))
	}
	if m.p.items[s.item].have != unlimited {
		c.row = append(c.row, int32(m.row[s.item]))
		c.val = append(c.val, -1)
	}
	if m.caps > 0 {
		c.row = append(c.row, int32(m.caps+i))
		c.val = append(c.val, -1)
	}
	return c
}

func (m *master) addPattern(b int, pat pattern) {
	c := column{}
	for _, q := range pat {
		c.row = append(c.row, q.unit)
		c.val = append(c.val, float64(q.n))
	}
	c.row = append(c.row, int32(len(m.p.units)+b))
	c.val = append(c.val, -1)
	m.pats = append(m.pats, filled{b, pat})
	m.lp.add(c)
}

// values returns the linear program's duals of the units, rounded down to whole numbers >= 0.
func (m *master) values() []int64 {
	f := m.dear * float64(int64(1)<<m.p.scale)
	pi := make([]int64, len(m.p.units))
	for u := range pi {
		pi[u] = min(max(0, int64(math.Floor(m.lp.y[u]*f))), m.p.topDual)
	}
	return pi
}

// pricedOut is how far, as a part of the dearest item's price, a pattern must be worth more than its strip to be added:
// below it the rounding of the linear program shows.
const pricedOut = 1e-8

// solve runs column generation for a state's units and returns the duals, completed and valid for that state.
func (m *master) solve(s *state) *duals {
	f := m.dear * float64(int64(1)<<m.p.scale)
	for {
		m.lp.primal(m.eff)
		pi := m.values()
		if !m.priceIn(pi, s.rem, int64(pricedOut*f)+1) || m.eff.over() {
			return pricedDuals(m.p, pi, m.sig, s, m.eff, m.tune)
		}
	}
}

// priceIn adds, for each bin, the best pattern if it is worth more than its strip; it tells whether it added any.
func (m *master) priceIn(pi []int64, rem []int, margin int64) bool {
	f := m.dear * float64(int64(1)<<m.p.scale)
	added := false
	for c, bins := range m.p.binsOf {
		k := newKnapsack(m.p, c, pi, rem, m.eff, m.tune)
		for _, b := range bins {
			strip := int64(math.Ceil(m.lp.y[len(m.p.units)+b] * f))
			var pat pattern
			m.sig[b], pat, _ = k.solve(m.p.bins[b].capacity, m.p.bins[b].ease)
			var v int64
			for _, q := range pat {
				v += int64(q.n) * pi[q.unit]
			}
			if v > strip+margin && !m.known(b, pat) {
				m.addPattern(b, pat)
				added = true
			}
		}
	}
	return added
}

// again solves for another state of the same problem, from where the last one ended.
func (m *master) again(s *state) *duals {
	m.lp.again(m.rhs(s, m.lp.m), m.eff)
	return m.solve(s)
}

// likes returns how often the last solution cuts each pattern that holds unit u.
func (m *master) likes(u int) []liked {
	var out []liked
	for i, v := range m.lp.basis {
		j := int(v) - len(m.p.sources)
		if j < 0 || m.lp.x[i] < 1e-6 {
			continue
		}
		for _, q := range m.pats[j].pat {
			if int(q.unit) == u {
				out = append(out, liked{m.pats[j], m.lp.x[i]})
			}
		}
	}
	return out
}

// buys returns how many of each source the last solution buys.
func (m *master) buys() []float64 {
	y := make([]float64, len(m.p.sources))
	for i, v := range m.lp.basis {
		if v >= 0 && int(v) < len(y) {
			y[v] = m.lp.x[i]
		}
	}
	return y
}

// A liked is a strip that the linear program cuts x times.
type liked struct {
	filled
	x float64
}

// known tells whether a pattern is already among the columns, which only rounding can bring about.
func (m *master) known(b int, pat pattern) bool {
	for i := len(m.pats) - 1; i >= 0; i-- {
		if m.pats[i].bin == b && slices.Equal(m.pats[i].pat, pat) {
			return true
		}
	}
	return false
}

// byLength returns values in proportion to the lengths, as dear as the cheapest source allows: duals without a linear
// program.
func byLength(p *problem) []int64 {
	pi := make([]int64, len(p.units))
	for c, bins := range p.binsOf {
		least := math.Inf(1) // money per length
		for _, b := range bins {
			for _, s := range p.givers[b] {
				var sum int64
				for _, g := range p.sources[s].gives {
					sum += int64(g.n) * p.bins[g.bin].capacity
				}
				if sum > 0 {
					least = min(least, float64(p.price(s)<<p.scale)/float64(sum))
				}
			}
		}
		for u := p.unitsOf[c][0]; u < p.unitsOf[c][1]; u++ {
			pi[u] = int64(min(least*float64(p.units[u].size), float64(p.topDual)))
		}
	}
	return pi
}
