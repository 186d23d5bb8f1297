package stock

// fillNodes is how many nodes the search may take for one purchase at first.
const fillNodes = 500_000

// fill looks for a way to cut one class's units from given numbers of strips. It is the same problem with the strips for
// stock: each costs what it holds, and all of them may be used, so that the slack of a search is the waste allowed.
func (p *problem) fill(class int, avail []int, nodes int64, eff *effort, tune tuning) (strips []filled, found, exhausted bool) {
	r := p.unitsOf[class]
	q := &problem{}
	for _, u := range p.units[r[0]:r[1]] {
		u.class = 0
		q.units = append(q.units, u)
	}
	var all int64
	var own []int
	for _, b := range p.binsOf[class] {
		if avail[b] == 0 {
			continue
		}
		c := p.bins[b].capacity
		q.sources = append(q.sources, source{item: len(q.items), gives: []give{{len(q.bins), 1}}})
		q.items = append(q.items, supply{cost: c, have: avail[b]})
		q.bins = append(q.bins, bin{capacity: c, ease: p.bins[b].ease})
		own = append(own, b)
		all += int64(avail[b]) * c
	}
	if len(q.bins) == 0 || len(q.units) == 0 {
		return nil, len(q.units) == 0, true
	}
	q.index()
	var k *packing
	eff.within(nodes, func() { k, exhausted = q.within(all, eff, tune) })
	if k == nil {
		return nil, false, exhausted
	}
	for _, f := range k.strips {
		for i := range f.pat {
			f.pat[i].unit += int32(r[0])
		}
		strips = append(strips, filled{own[f.bin], f.pat})
	}
	return strips, true, true
}

// within looks for a plan that costs no more than money.
func (p *problem) within(money int64, eff *effort, tune tuning) (k *packing, exhausted bool) {
	return p.complete(p.start(money), nil, eff, tune)
}

// complete looks for a way to complete a state.
func (p *problem) complete(s *state, known []filled, eff *effort, tune tuning) (k *packing, exhausted bool) {
	m := newMaster(p, s, eff, tune, known...)
	d := m.solve(s)
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
