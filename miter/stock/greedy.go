package stock

import "slices"

// greedy completes a state, which it uses up, in one go: for the first unit still to be cut, the strip and the pattern with it that waste
// least by the duals d, where value says what makes a pattern good. It returns nil when it runs out of stock or money.
func (p *problem) greedy(from *state, d *duals, value []int64, eff *effort, tune tuning) *packing {
	s := newSearch(p, from, d, eff, tune)
	for {
		u := slices.IndexFunc(s.s.rem, func(n int) bool { return n > 0 })
		if u < 0 {
			return s.packing()
		}
		t, ok := s.greediest(u, value)
		if !ok {
			return nil
		}
		s.take(&t)
	}
}

// sizes returns the units' sizes.
func (p *problem) sizes() []int64 {
	out := make([]int64, len(p.units))
	for i, u := range p.units {
		out[i] = u.size
	}
	return out
}

// dearest returns a cost no sensible plan exceeds: every unit from a stick of its own, and the whole rack.
func (p *problem) dearest() int64 {
	var top, sum int64
	for _, it := range p.items {
		top = max(top, it.cost)
		if it.have != unlimited {
			sum += int64(it.have) * it.cost
		}
	}
	for _, u := range p.units {
		sum += int64(u.demand) * top
	}
	return sum
}

// greediest returns the step for unit u that wastes least.
func (s *search) greediest(u int, value []int64) (best step, ok bool) {
	d := s.d[len(s.d)-1]
	const far = int64(1) << 60
	least := far
	class := s.p.units[u].class
	s.s.rem[u]--
	k := newKnapsack(s.p, class, value, s.s.rem, s.eff, s.tune)
	for _, b := range s.p.binsOf[class] {
		left := s.p.bins[b].capacity - s.p.units[u].size
		ways := s.ways(b, far)
		if left < 0 || len(ways) == 0 {
			continue
		}
		_, rest, _ := k.solve(left, s.p.bins[b].ease)
		pat := withUnit(rest, u)
		if !s.p.fits(pat, s.p.bins[b]) {
			if pat = (pattern{{int32(u), 1}}); !s.p.fits(pat, s.p.bins[b]) {
				continue
			}
		}
		waste := d.sig[b]
		for _, q := range pat {
			waste -= int64(q.n) * d.pi[q.unit]
		}
		for _, w := range ways {
			if t := waste + far - w.slack; t < least {
				least, best, ok = t, step{w.source, filled{b, pat}}, true
			}
		}
	}
	s.s.rem[u]++
	return best, ok
}

// withUnit returns the pattern with one more of unit u.
func withUnit(pat pattern, u int) pattern {
	pat = slices.Clone(pat)
	i := slices.IndexFunc(pat, func(q part) bool { return int(q.unit) >= u })
	switch {
	case i < 0:
		return append(pat, part{int32(u), 1})
	case int(pat[i].unit) == u:
		pat[i].n++
		return pat
	}
	return slices.Insert(pat, i, part{int32(u), 1})
}
