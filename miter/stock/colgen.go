package stock

import (
	"encoding/binary"
	"math"
	"slices"
)

// A master is the linear program of a problem, over the patterns known so far: a row for each unit (cut often enough), and
// further rows only where something holds a state back. Strips that come from one source alone, which gives nothing else,
// are paid for by their patterns, and have a row when some are at hand or their number is limited. Other strips have a row
// (no more cut than given), and their sources are columns.
type master struct {
	p     *problem
	eff   *effort
	tune  tuning
	lp    *simplex
	quick bool     // strips may be taken to be worth what the linear program pays for them, though they hold less
	lean  bool     // strips of which there are none are not priced: the duals hold only where there are none
	sig   []int64  // bin: the best knapsack of the last pricing
	of    []bought // column: what it stands for
	known map[string]bool
	lone  []int   // bin: the source that alone gives it and gives nothing else, -1 if there is none
	cols  []int   // source: its column, -1 where its patterns pay
	bins  []int   // bin: its row, -1 for none
	item  []int   // limited item: its row, -1 for none
	caps  []int   // source with a column: the row that holds it back, -1 for none
	dear  float64 // money of the dearest item, the linear program's unit of money
}

// A bought is what a column stands for: a source, or a strip cut where source is -1.
type bought struct {
	source int
	filled
}

// plenty is more of anything than 2,000 pieces could ever need.
const plenty = 1e6

func newMaster(p *problem, s *state, eff *effort, tune tuning, known ...filled) *master {
	m := &master{p: p, eff: eff, tune: tune, lp: newSimplex(bigM), sig: make([]int64, len(p.bins)), dear: 1, known: map[string]bool{}}
	for _, it := range p.items {
		m.dear = max(m.dear, float64(it.cost))
	}
	m.lone = p.lone()
	m.cols, m.caps = fillInts(len(p.sources), -1), fillInts(len(p.sources), -1)
	m.bins, m.item = fillInts(len(p.bins), -1), fillInts(len(p.items), -1)
	for range p.units {
		m.lp.addRow(0, math.Inf(1))
	}
	for b := range p.bins {
		if m.lone[b] < 0 {
			m.bins[b] = m.lp.m
			m.lp.addRow(0, plenty)
		}
	}
	for _, i := range p.limited {
		if !slices.ContainsFunc(m.lone, func(s int) bool { return s >= 0 && p.sources[s].item == i }) {
			m.item[i] = m.lp.m
			m.lp.addRow(0, plenty)
		}
	}
	for i := range p.sources {
		if !slices.Contains(m.lone, i) {
			m.cols[i] = len(m.lp.cols)
			m.addSource(i)
		}
	}
	for _, f := range known {
		m.addPattern(f.bin, f.pat)
	}
	m.hold(s)
	m.lp.restart()
	return m
}

func fillInts(n, v int) []int { return slices.Repeat([]int{v}, n) }

// lone returns, for each bin, the source that alone gives it, if that gives nothing else and is its item's only one; else -1.
func (p *problem) lone() []int {
	out := fillInts(len(p.bins), -1)
	for b, of := range p.givers {
		if len(of) != 1 {
			continue
		}
		s := of[0]
		if len(p.sources[s].gives) == 1 && len(p.sourcesOf[slices.IndexFunc(p.sourcesOf, func(l []int) bool { return slices.Contains(l, s) })]) == 1 {
			out[b] = s
		}
	}
	return out
}

// strips returns how many strips of a bin its lone source gives, 1 where it has none.
func (m *master) strips(b int) float64 {
	if s := m.lone[b]; s >= 0 {
		return float64(m.p.sources[s].gives[0].n)
	}
	return 1
}

// mayBuy returns how many of a source a state may still buy, plenty for any number.
func (m *master) mayBuy(s *state, source int) float64 {
	n := float64(plenty)
	if l := s.left[m.p.sources[source].item]; l != unlimited {
		n = float64(l)
	}
	if s.most != nil && s.most[source] != unlimited {
		n = min(n, float64(s.most[source]))
	}
	return n
}

// hold sets the bounds of the rows for a state, and adds those that it needs.
func (m *master) hold(s *state) {
	for u, n := range s.rem {
		m.lp.lo[u] = float64(n)
	}
	for b, n := range s.avail {
		i := m.lone[b]
		if i < 0 {
			m.lp.lo[m.bins[b]] = -float64(n)
			continue
		}
		has, more := float64(n)/m.strips(b), m.mayBuy(s, i)
		if m.bins[b] < 0 && (has > 0 || more < plenty) {
			m.addBin(b)
		}
		if r := m.bins[b]; r >= 0 {
			m.lp.lo[r], m.lp.hi[r] = has, has+more
		}
	}
	m.holdItems(s)
	if s.most == nil {
		return
	}
	for i, n := range s.most {
		if m.cols[i] < 0 || m.caps[i] < 0 && n == unlimited {
			continue
		}
		if m.caps[i] < 0 {
			m.caps[i] = m.lp.m
			c := &m.lp.cols[m.cols[i]]
			c.at = append(c.at, entry{int32(m.lp.m), 1})
			m.lp.addRow(0, plenty)
		}
		m.lp.hi[m.caps[i]] = m.mayBuy(s, i)
	}
}

// holdItems sets how many of each item may and must be bought.
func (m *master) holdItems(s *state) {
	for _, of := range m.p.sourcesOf {
		i := m.p.sources[of[0]].item
		need := 0
		if s.need != nil {
			need = s.need[i]
		}
		if m.item[i] < 0 && len(of) > 1 && (need > 0 || s.left[i] != unlimited) {
			m.item[i] = m.lp.m
			for _, source := range of {
				c := &m.lp.cols[m.cols[source]]
				c.at = append(c.at, entry{int32(m.lp.m), 1})
			}
			m.lp.addRow(0, plenty)
		}
		if r := m.item[i]; r >= 0 {
			m.lp.lo[r], m.lp.hi[r] = float64(need), plenty
			if s.left[i] != unlimited {
				m.lp.hi[r] = float64(s.left[i])
			}
		}
	}
}

// addBin adds the row of a bin with a lone source, and a column for a strip of which nothing is cut.
func (m *master) addBin(b int) {
	r := m.lp.m
	m.bins[b] = r
	part := 1 / m.strips(b)
	for j, o := range m.of {
		if o.source < 0 && o.bin == b {
			m.lp.cols[j].at = append(m.lp.cols[j].at, entry{int32(r), part})
		}
	}
	m.lp.addRow(0, plenty)
	m.lp.first[r] = int32(len(m.lp.cols))
	m.addPattern(b, nil)
}

func (m *master) addSource(i int) {
	s := m.p.sources[i]
	c := column{cost: float64(m.p.price(i)) / m.dear}
	for _, g := range s.gives {
		c.at = append(c.at, entry{int32(m.bins[g.bin]), float64(g.n)})
	}
	if r := m.item[s.item]; r >= 0 {
		c.at = append(c.at, entry{int32(r), 1})
	}
	m.of = append(m.of, bought{source: i})
	m.lp.add(c)
}

// grow adds the problem's sources that came later.
func (m *master) grow() {
	for i := len(m.cols); i < len(m.p.sources); i++ {
		m.cols, m.caps = append(m.cols, len(m.lp.cols)), append(m.caps, -1)
		m.addSource(i)
	}
}

// patKey returns what tells a strip cut from any other.
func patKey(b int, pat pattern) string {
	k := binary.AppendUvarint(nil, uint64(b))
	for _, q := range pat {
		k = binary.AppendUvarint(binary.AppendUvarint(k, uint64(q.unit)), uint64(q.n))
	}
	return string(k)
}

func (m *master) addPattern(b int, pat pattern) {
	k := patKey(b, pat)
	if m.known[k] {
		return
	}
	m.known[k] = true
	c := column{}
	for _, q := range pat {
		c.at = append(c.at, entry{q.unit, float64(q.n)})
	}
	if i := m.lone[b]; i >= 0 {
		c.cost = float64(m.p.price(i)) / m.dear / m.strips(b)
		if m.bins[b] >= 0 {
			c.at = append(c.at, entry{int32(m.bins[b]), 1 / m.strips(b)})
		}
	} else {
		c.at = append(c.at, entry{int32(m.bins[b]), -1})
	}
	m.of = append(m.of, bought{-1, filled{b, pat}})
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

// strip returns what the linear program pays for a strip of bin b.
func (m *master) strip(b int) int64 {
	f := m.dear * float64(int64(1)<<m.p.scale)
	i, r := m.lone[b], m.bins[b]
	switch {
	case i < 0:
		return int64(math.Ceil(m.lp.y[r] * f))
	case r < 0:
		return m.p.price(i) << m.p.scale / int64(m.p.sources[i].gives[0].n)
	}
	return max(0, int64(math.Ceil((float64(m.p.price(i))/m.dear-m.lp.y[r])/m.strips(b)*f)))
}

// pricedOut is how far, as a part of the dearest item's price, a pattern must be worth more than its strip to be added:
// below it the rounding of the linear program shows.
const pricedOut = 1e-8

// margin returns that, in money << scale.
func (m *master) margin() int64 {
	return int64(pricedOut*m.dear*float64(int64(1)<<m.p.scale)) + 1
}

// solve runs column generation for a state's units and returns the duals, completed and valid for that state.
func (m *master) solve(s *state) *duals {
	for {
		m.lp.primal(m.eff)
		pi := m.values()
		if !m.priceIn(pi, s.rem, m.margin()) || m.eff.over() {
			return pricedDuals(m.p, pi, m.sig, s, m.eff, m.tune)
		}
	}
}

// priceIn adds, for each bin, the best pattern if it is worth more than its strip; it tells whether it added any.
func (m *master) priceIn(pi []int64, rem []int, margin int64) bool {
	had := len(m.of)
	for c, bins := range m.p.binsOf {
		k := newKnapsack(m.p, c, pi, rem, m.eff, m.tune)
		for _, b := range bins {
			if r := m.bins[b]; m.lean && r >= 0 && m.lp.hi[r] == 0 {
				m.sig[b] = 0
				continue
			}
			strip := m.strip(b)
			if k.enough = 0; m.quick {
				k.enough = strip
			}
			var pat pattern
			m.sig[b], pat, _ = k.solve(m.p.bins[b].capacity, m.p.bins[b].ease)
			var v int64
			for _, q := range pat {
				v += int64(q.n) * pi[q.unit]
			}
			if v > strip+margin {
				m.addPattern(b, pat)
			}
		}
	}
	return len(m.of) > had
}

// again solves for another state of the same problem, from where the last one ended, or from a basis that is nearer.
func (m *master) again(s *state, from *basis) *duals {
	m.hold(s)
	if from != nil && !m.lp.stands(from) {
		m.lp.goTo(from)
	}
	m.lp.again(m.eff)
	return m.solve(s)
}

// likes returns how often the last solution cuts each pattern.
func (m *master) likes() []liked {
	var out []liked
	for i, v := range m.lp.basis {
		if v >= 0 && m.of[v].source < 0 && m.lp.x[i] > 1e-6 {
			out = append(out, liked{m.of[v].filled, m.lp.x[i]})
		}
	}
	return out
}

// buys returns how many of each source the last solution buys for a state.
func (m *master) buys(s *state) []float64 {
	y := make([]float64, len(m.p.sources))
	for i, v := range m.lp.basis {
		if v < 0 {
			continue
		}
		if o := m.of[v]; o.source >= 0 {
			y[o.source] += m.lp.x[i]
		} else if l := m.lone[o.bin]; l >= 0 {
			y[l] += m.lp.x[i] / m.strips(o.bin)
		}
	}
	for b, l := range m.lone {
		if l >= 0 {
			y[l] = max(0, y[l]-float64(s.avail[b])/m.strips(b))
		}
	}
	return y
}

// patterns returns the strips cut that the linear program knows.
func (m *master) patterns() []filled {
	var out []filled
	for _, o := range m.of {
		if o.source < 0 && len(o.pat) > 0 {
			out = append(out, o.filled)
		}
	}
	return out
}

// inUse returns the strips cut that are in the basis.
func (m *master) inUse() []filled {
	var out []filled
	for _, v := range m.lp.basis {
		if v >= 0 && m.of[v].source < 0 && len(m.of[v].pat) > 0 {
			out = append(out, m.of[v].filled)
		}
	}
	return out
}

// shut keeps the linear program from cutting what does not fit a bin whose capacity has changed.
func (m *master) shut(b int) {
	for j, o := range m.of {
		if o.source < 0 && o.bin == b {
			m.lp.off[j] = !m.p.fits(o.pat, m.p.bins[b])
		}
	}
}

// A liked is a strip that the linear program cuts x times.
type liked struct {
	filled
	x float64
}
