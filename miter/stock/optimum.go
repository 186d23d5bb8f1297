package stock

// An answer is the best plan of a problem, a bound no plan goes below, and whether the two are known to be equal.
type answer struct {
	plan   *packing
	bound  int64
	proven bool
	duals  *duals // what proves the bound, or nil where the search was exhausted instead
	none   bool   // exhausted: there is no plan at all

	left       int64 // the longest single leftover, in exact units
	leftProven bool  // no plan of this cost has a longer one
}

// plainNodes and guidedNodes are how many nodes the depth-first search may take at one cost, without and with duals
// computed anew, before the stock counts are enumerated.
const (
	plainNodes  = 10_000
	guidedNodes = 3_000_000
)

// optimum finds the least cost of a problem.
func (p *problem) optimum(eff *effort, tune tuning) answer {
	s := p.start(0)
	var d *duals
	var known []filled
	var past []*duals
	var packers []*packer
	if tune.noLP {
		d = newDuals(p, byLength(p), s, eff, tune)
	} else {
		m := newMaster(p, s, eff, tune)
		d, known = m.solve(s), m.patterns()
	}
	a := answer{duals: d, plan: p.firstPlan(d, eff, tune)}
	top := p.dearest() + 1
	if a.plan != nil {
		top = a.plan.cost
	}
	r := newReach(p.items, top)
	a.bound = r.up(d.bound(p, s))
	if a.bound >= top {
		a.none = a.plan == nil
	} else if !tune.noSearch && p.try(&a, a.bound, d, eff, tune) {
		top = a.plan.cost
	}
	if a.bound < top && !eff.over() {
		c := newCounts(p, s, top, r, known, eff, tune)
		if !tune.noGreedy {
			c.dive(a.bound)
		}
		bound := c.run(a.bound)
		if c.lp != nil {
			known, past, packers = c.lp.patterns(), c.past, c.packers
		}
		if c.best != nil {
			a.plan, top = c.best, c.top
		}
		if bound > a.bound {
			a.bound, a.duals = bound, nil
		}
	}
	a.none = a.plan == nil && a.bound >= top
	a.proven = a.plan != nil && a.bound >= a.plan.cost
	if a.proven && a.duals != nil && !d.certificate(p, a.bound).check(p) {
		p.exhaust(&a, r, eff, tune)
	}
	if a.plan != nil {
		p.tidy(a.plan)
		p.lengthen(&a, d, known, past, packers, eff, tune)
	}
	return a
}

// exhaust proves a plan by search where its certificate was too long to follow: nothing cheaper is left.
func (p *problem) exhaust(a *answer, r reach, eff *effort, tune tuning) {
	a.duals = nil
	c := newCounts(p, p.start(0), a.plan.cost, r, nil, eff, tune)
	if a.bound = min(c.run(0), a.plan.cost); c.best != nil {
		a.plan = c.best // a bound that did not hold: a fault of ours, but the plan is right
	}
	a.proven = a.bound >= a.plan.cost
}

// firstPlan returns the cheaper of the plans made in one go.
func (p *problem) firstPlan(d *duals, eff *effort, tune tuning) *packing {
	if tune.noGreedy {
		return nil
	}
	best := p.made
	if best != nil { // sources were added since
		best.bought = append(best.bought, make([]int, len(p.sources)-len(best.bought))...)
	}
	for _, value := range [][]int64{d.pi, p.sizes()} {
		if k := p.greedy(p.start(p.dearest()), d, value, eff, tune); k != nil && (best == nil || k.cost < best.cost) {
			best = k
		}
	}
	v := d.values()
	if k := p.boardwise(p.start(0), make([]int, len(p.sources)), v, eff, tune); k != nil && p.check(k) {
		if best == nil || k.cost < best.cost {
			best = k
		}
	}
	return best
}

// try looks for a plan that costs no more than money, keeps it if it finds one, and raises the bound if there is none.
func (p *problem) try(a *answer, money int64, d *duals, eff *effort, tune tuning) bool {
	var found, exhausted bool
	for _, guided := range []bool{false, true} {
		if found || exhausted || eff.over() || guided && (tune.noRefresh || len(p.sources) > 1) {
			break
		}
		nodes := int64(plainNodes)
		if guided {
			nodes = guidedNodes
		}
		eff.within(nodes, func() {
			s := newSearch(p, p.start(money), d, eff, tune)
			if guided {
				s.lp = newMaster(p, s.s, eff, tune)
				s.lp.solve(s.s)
			}
			if found, exhausted = s.run(); found {
				a.plan = s.packing()
			}
		})
	}
	return found
}
