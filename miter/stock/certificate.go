package stock

import "slices"

// A certificate is what proves a bound on the cost of a problem: whole worths of units, strips and items. It is checked by
// check, which shares no code with what made it.
type certificate struct {
	unit  []int64 // worth of a unit
	strip []int64 // no pattern of a bin is worth more
	extra []int64 // no source of an item gives strips worth more than its price and this
	shift uint    // worths are in money << shift
	bound int64   // no plan costs less
}

func (d *duals) certificate(p *problem, bound int64) *certificate {
	return &certificate{slices.Clone(d.pi), slices.Clone(d.sig), slices.Clone(d.extra), p.scale, bound}
}

// certTable bounds the table of the capacity by units that check fills, and certNodes the nodes it takes where the table would
// be too large.
const (
	certTable = 1 << 26
	certNodes = 4_000_000
)

// check tells whether the certificate proves its bound. It is wrong in one direction only: it may say no to a proof too long
// to follow.
func (c *certificate) check(p *problem) bool {
	for _, w := range c.unit {
		if w < 0 {
			return false
		}
	}
	for b := range p.bins {
		if !c.covers(p, b) {
			return false
		}
	}
	for _, s := range p.sources {
		it := p.items[s.item]
		w := -(it.cost << c.shift)
		for _, g := range s.gives {
			w += int64(g.n) * c.strip[g.bin]
		}
		if w > 0 && (it.have < 0 || w > c.extra[s.item]) {
			return false
		}
	}
	// every plan costs at least total >> shift, rounded up; from there to the bound no cost can be paid
	total := c.total(p)
	least := max(0, total>>c.shift)
	if least<<c.shift < total {
		least++
	}
	return c.unpayable(p, least)
}

// covers tells whether no pattern of a bin is worth more than its strip.
func (c *certificate) covers(p *problem, b int) bool {
	var units []int
	for u := range p.units {
		if p.units[u].class == p.bins[b].class && c.unit[u] > 0 {
			units = append(units, u)
		}
	}
	if !p.longTail {
		return c.holds(p, units, p.bins[b].capacity, c.strip[b], -1)
	}
	// the unit with the least tail decides how much must stay free: each in turn is it, and is in the pattern
	for _, first := range units {
		t := p.units[first].tail
		room := p.bins[b].capacity - t - p.units[first].size
		rest := slices.DeleteFunc(slices.Clone(units), func(u int) bool { return p.units[u].tail < t })
		if room >= 0 && !c.holds(p, rest, room, c.strip[b]-c.unit[first], first) {
			return false
		}
	}
	return true
}

// holds tells whether units that fit room are never worth more than most; one of unit taken is not there any more.
func (c *certificate) holds(p *problem, units []int, room, most int64, taken int) bool {
	count := func(u int) int64 {
		n := int64(p.units[u].demand)
		if u == taken {
			n--
		}
		return min(n, room/p.units[u].size)
	}
	var work int64
	for _, u := range units {
		work += count(u)
	}
	if work*room > certTable {
		nodes := certNodes
		return c.follow(p, units, count, room, most, &nodes)
	}
	best := make([]int64, room+1) // best worth that fits
	for _, u := range units {
		s, w := p.units[u].size, c.unit[u]
		for range count(u) {
			for r := room; r >= s; r-- {
				best[r] = max(best[r], best[r-s]+w)
			}
		}
	}
	return best[room] <= most
}

// follow tells the same by trying units one after the other, in the order given, as long as what is left could still be worth
// too much if all of it were the worthiest unit to come.
func (c *certificate) follow(p *problem, units []int, count func(int) int64, room, most int64, nodes *int) bool {
	if *nodes--; *nodes < 0 {
		return false
	}
	if most < 0 {
		return false
	}
	var dearest float64
	for _, u := range units {
		dearest = max(dearest, float64(c.unit[u])/float64(p.units[u].size))
	}
	if len(units) == 0 || dearest*float64(room)*(1+1e-9)+1 < float64(most) {
		return true
	}
	u := units[0]
	for n := min(count(u), room/p.units[u].size); n >= 0; n-- {
		if !c.follow(p, units[1:], count, room-n*p.units[u].size, most-n*c.unit[u], nodes) {
			return false
		}
	}
	return true
}

// total returns what all units are worth less what the limited items are worth beyond their prices.
func (c *certificate) total(p *problem) int64 {
	var total int64
	for u, w := range c.unit {
		total += w * int64(p.units[u].demand)
	}
	for i, it := range p.items {
		if it.have > 0 {
			total -= int64(it.have) * c.extra[i]
		}
	}
	return total
}

// proves returns the bound that the certificate proves of a component, also for the ways to rip its planks that are not listed; 0 if that
// cannot be followed.
func (c *certificate) proves(of *component) int64 {
	p := of.prob
	if total := c.total(p); total > 0 {
		c.bound = (total-1)>>c.shift + 1
	}
	for _, k := range of.planks {
		most := p.items[k.item].cost << c.shift
		if p.items[k.item].have > 0 {
			most += c.extra[k.item]
		}
		rips := certificate{}
		var all []int
		for i, b := range k.bins {
			rips.unit, all = append(rips.unit, c.strip[b]), append(all, i)
		}
		if !rips.holds(k.rips, all, k.rips.bins[0].capacity, most, -1) {
			return 0
		}
	}
	if !c.check(p) {
		return 0
	}
	return c.bound
}

// unpayable tells whether no sum of prices, as many of each as there are, is at least least and less than the bound.
func (c *certificate) unpayable(p *problem, least int64) bool {
	if least >= c.bound {
		return true
	}
	var step int64
	for _, it := range p.items {
		for a, b := step, it.cost; ; a, b = b, a%b {
			if b == 0 {
				step = a
				break
			}
		}
	}
	if step == 0 {
		return false
	}
	if (least+step-1)/step*step >= c.bound {
		return true
	}
	if c.bound/step >= certTable {
		return false
	}
	paid := map[int64]bool{0: true}
	for _, it := range p.items {
		if it.cost == 0 {
			continue
		}
		var sums []int64
		for s := range paid {
			for n := 1; (it.have < 0 || n <= it.have) && s+int64(n)*it.cost < c.bound; n++ {
				sums = append(sums, s+int64(n)*it.cost)
			}
		}
		for _, s := range sums {
			paid[s] = true
		}
	}
	for s := range paid {
		if s >= least && s < c.bound {
			return false
		}
	}
	return true
}
