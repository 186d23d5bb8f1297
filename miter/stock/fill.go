package stock

import "slices"

// fillNodes is how many nodes the search may take for one purchase at first.
const fillNodes = 500_000

// fill looks for a way to cut one class's units from given numbers of strips. It is the same problem with the strips for
// stock: each costs what it holds, and all of them may be used, so that the slack of a search is the waste allowed.
func (p *problem) fill(class int, avail []int, known []filled, nodes int64, eff *effort, tune tuning) (strips []filled, found, exhausted bool) {
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
	eff.within(nodes, func() {
		s := q.start(all)
		k, exhausted = q.complete(s, newMaster(q, s, eff, tune, p.part(class, own, known)...), eff, tune)
	})
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

// part returns the patterns of some of a class's bins, in the numbers of the class's own problem.
func (p *problem) part(class int, bins []int, known []filled) []filled {
	var out []filled
	first := int32(p.unitsOf[class][0])
	for _, f := range known {
		b := slices.Index(bins, f.bin)
		if b < 0 {
			continue
		}
		pat := slices.Clone(f.pat)
		for i := range pat {
			pat[i].unit -= first
		}
		out = append(out, filled{b, pat})
	}
	return out
}

// complete looks for a way to complete a state; m is its linear program, not yet solved.
func (p *problem) complete(s *state, m *master, eff *effort, tune tuning) (k *packing, exhausted bool) {
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
