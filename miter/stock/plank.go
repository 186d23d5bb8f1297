package stock

import "slices"

// A plank is an item whose boards can be ripped in more ways than are listed. The ways that matter are found as the patterns of a strip are:
// by a knapsack, over what the strips of each class are worth. A strip that must leave a rest of the board beside it is counted with that rest here, so that
// nothing is proven of plans with several of them on one board.
type plank struct {
	item  int      // of the problem
	of    []int    // classes
	uses  []use    // of the item, class by class
	bins  []int    // what each class's strips are
	rips  *problem // its units are the strips, class by class; its one bin is the width
	known map[string]bool
}

func (c *component) addPlank(item int, of []int, uses []use, most []int) {
	k := &plank{item: item, of: of, uses: uses, known: map[string]bool{}, rips: &problem{bins: []bin{{capacity: c.job.board(c.items[item])}}}}
	for i, u := range uses {
		k.bins = append(k.bins, c.bin(of[i], u.usable))
		k.rips.units = append(k.rips.units, unit{size: u.width + u.rest, demand: most[i]})
	}
	k.rips.index()
	c.planks = append(c.planks, k)
	for i, u := range uses { // to start with, boards ripped for one class
		n := min(k.rips.bins[0].capacity/(u.width+u.rest), int64(most[i]))
		if n > 0 {
			c.rip(k, pattern{{int32(i), int32(n)}})
		}
	}
}

// rip adds a way to rip a plank if it is new.
func (c *component) rip(k *plank, ways pattern) {
	key := patKey(0, ways)
	if len(ways) == 0 || k.known[key] {
		return
	}
	k.known[key] = true
	var r []ripped
	var uses []use
	for _, q := range ways {
		r, uses = append(r, ripped{k.of[q.unit], int(q.n)}), append(uses, k.uses[q.unit])
	}
	c.addSource(k.item, r, uses)
}

// best returns what a plank's board is worth at most when strips are worth sig, and the way to rip it for that.
func (k *plank) best(sig []int64, eff *effort, tune tuning) (worth int64, ways pattern) {
	worth, ways, _ = newKnapsack(k.rips, 0, k.values(sig), k.rips.start(0).rem, eff, tune).solve(k.rips.bins[0].capacity, 0)
	return worth, ways
}

// values returns what strips of each class are worth.
func (k *plank) values(sig []int64) []int64 {
	v := make([]int64, len(k.bins))
	for i, b := range k.bins {
		v[i] = sig[b]
	}
	return v
}

// plankNodes is how many nodes the linear program may take to find the ways to rip planks.
const plankNodes = 5_000_000

// ripPlanks finds the ways to rip planks that the linear program wants, a plan made with them, and the bound proven for all ways there are.
func (c *component) ripPlanks(eff *effort, tune tuning) {
	if len(c.planks) == 0 {
		return
	}
	p := c.prob
	s := p.start(0)
	area := newDuals(p, c.byArea(), s, eff, tune)
	c.boardwise(area.values(), eff, tune)
	d := area
	eff.within(plankNodes, func() { d = c.wanted(s, eff, tune) })
	c.boardwise(d.values(), eff, tune)
	c.low = max(c.certified(d, s, eff, tune), c.certified(area, s, eff, tune))
}

// wanted adds the ways to rip planks that the linear program wants, and returns its duals.
func (c *component) wanted(s *state, eff *effort, tune tuning) *duals {
	p := c.prob
	m := newMaster(p, s, eff, tune)
	m.quick = true
	d := m.solve(s)
	for eff.spend(1) {
		had := len(p.sources)
		for _, k := range c.planks {
			worth, ways := k.best(d.sig, eff, tune)
			if worth > p.items[k.item].cost<<p.scale+d.extra[k.item]+m.margin() {
				c.rip(k, ways)
			}
		}
		if len(p.sources) == had {
			break
		}
		p.index()
		m.grow()
		d = m.solve(s)
	}
	return d
}

// byArea returns values in proportion to the wood that each unit takes of planks, and by length where it is cut from others.
func (c *component) byArea() []int64 {
	value := byLength(c.prob)
	said := make([]bool, len(value))
	for _, k := range c.planks {
		if c.prob.items[k.item].have != unlimited {
			continue // what is scarce sets no price
		}
		for i, class := range k.of {
			for u := c.prob.unitsOf[class][0]; u < c.prob.unitsOf[class][1]; u++ {
				whole := float64(k.rips.bins[0].capacity) * float64(c.prob.bins[k.bins[i]].capacity)
				part := float64(k.uses[i].width) * float64(c.prob.units[u].size) / whole
				v := 1 + int64(part*float64(c.prob.items[k.item].cost<<c.prob.scale))
				if !said[u] || v < value[u] {
					value[u], said[u] = v, true
				}
			}
		}
	}
	return value
}

// certified returns the cost that no plan goes below by duals d, however planks are ripped: scaled down until no plank of which there are
// as many as one likes is worth more than its price. It is 0 where separate code cannot follow the proof.
func (c *component) certified(d *duals, s *state, eff *effort, tune tuning) int64 {
	p := c.prob
	if slices.ContainsFunc(c.planks, func(k *plank) bool { return slices.ContainsFunc(k.uses, func(u use) bool { return u.rest > 0 }) }) {
		return 0
	}
	for range 8 {
		cert := d.certificate(p, 0)
		num, den := int64(1), int64(1) // what the values are to be scaled by
		for _, k := range c.planks {
			worth, _ := k.best(d.sig, eff, tune)
			price := p.items[k.item].cost << p.scale
			if p.items[k.item].have != unlimited {
				cert.extra[k.item] = max(cert.extra[k.item], worth-price)
			} else if worth > price && lessRatio(price, worth, num, den) {
				num, den = price, worth
			}
		}
		if num == den {
			return cert.proves(c)
		}
		pi := slices.Clone(d.pi)
		for i, v := range pi {
			pi[i] = mulDiv(v, num, den)
		}
		d = newDuals(p, pi, s, eff, tune)
	}
	return 0
}
