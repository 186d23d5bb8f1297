package stock

// fillNodes is how many nodes the search may take for one purchase at first.
const fillNodes = 500_000

// complete looks for a way to complete a state; m is its linear program, just solved, and d what it proved.
func (p *problem) complete(s *state, d *duals, m *master, eff *effort, tune tuning) (k *packing, exhausted bool) {
	if d.slack(p, s) < 0 {
		return nil, true
	}
	for _, value := range [][]int64{d.pi, p.sizes()} {
		if k := p.greedy(s.clone(), d, value, eff, tune); k != nil {
			return k, true
		}
	}
	w := newSearch(p, s, d, eff, tune)
	if !tune.noRefresh {
		w.lp = m
	}
	found, exhausted := w.run()
	if found {
		return w.packing(), true
	}
	return nil, exhausted
}
