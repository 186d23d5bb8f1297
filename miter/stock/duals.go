package stock

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// A duals is what each unit is worth, in whole numbers of money << scale, with what follows from it: no strip of a kind
// holds units worth more than sig, and no source gives strips worth more than its price and its item's extra. So, of any
// plan, cost + the extras of all limited items >= the worth of all units: a bound that holds whatever made the values.
type duals struct {
	pi    []int64 // worth of a unit, >= 0
	sig   []int64 // most that a strip of a bin can hold
	extra []int64 // what an item's best source is worth beyond its price; 0 for an unlimited one
	over  []int64 // what a source is worth beyond its price; often less than nothing
}

// A state is what is still to be done in a search: units to cut, strips bought and not yet cut, items left, money left.
type state struct {
	rem   []int
	avail []int // strips by bin
	left  []int // items by item; unlimited stays unlimited
	most  []int // how many of each source may still be bought, unlimited mostly; nil when no source is held back
	need  []int // how many of each item are still to be bought at least; nil when none is
	money int64
}

// start returns the state of a search that may spend money.
func (p *problem) start(money int64) *state {
	s := &state{rem: make([]int, len(p.units)), avail: make([]int, len(p.bins)), left: make([]int, len(p.items)), money: money}
	for i, u := range p.units {
		s.rem[i] = u.demand
	}
	for i, it := range p.items {
		s.left[i] = it.have
	}
	return s
}

// clone returns a copy that can be changed on its own.
func (s *state) clone() *state {
	c := *s
	c.rem, c.avail, c.left = slices.Clone(s.rem), slices.Clone(s.avail), slices.Clone(s.left)
	c.most, c.need = slices.Clone(s.most), slices.Clone(s.need)
	return &c
}

// newDuals completes the values pi to duals that hold for every state with no more units to cut than rem. Values that
// would make an unlimited item worth more than its price are scaled down first. pi is not kept.
func newDuals(p *problem, pi []int64, s *state, eff *effort, tune tuning) *duals {
	d := &duals{pi: make([]int64, len(pi)), sig: make([]int64, len(p.bins)), extra: make([]int64, len(p.items))}
	for i, v := range pi {
		d.pi[i] = min(max(v, 0), p.topDual) // whatever made it: bounded, so that no sum overflows
	}
	d.price(p, s.rem, eff, tune)
	return d.scaled(p, s, eff, tune)
}

// pricedDuals is newDuals where the knapsacks of the bins are known.
func pricedDuals(p *problem, pi, sig []int64, s *state, eff *effort, tune tuning) *duals {
	d := &duals{pi: slices.Clone(pi), sig: slices.Clone(sig), extra: make([]int64, len(p.items))}
	d.addExtra(p)
	return d.scaled(p, s, eff, tune)
}

// scaled scales the values down until no unlimited item is worth more than its price.
func (d *duals) scaled(p *problem, s *state, eff *effort, tune tuning) *duals {
	for range 8 {
		num, den := d.tooDear(p, s)
		if den == 0 {
			return d
		}
		for i, v := range d.pi {
			d.pi[i] = mulDiv(v, num, den)
		}
		d.price(p, s.rem, eff, tune)
	}
	clear(d.pi) // nothing is worth anything: a bound of 0 always holds
	d.price(p, s.rem, eff, tune)
	return d
}

// price computes sig and extra from pi.
func (d *duals) price(p *problem, rem []int, eff *effort, tune tuning) {
	for c, bins := range p.binsOf {
		k := newKnapsack(p, c, d.pi, rem, eff, tune)
		for _, b := range bins {
			d.sig[b], _, _ = k.solve(p.bins[b].capacity, p.bins[b].ease)
		}
	}
	d.addExtra(p)
}

// addExtra computes extra and over from sig.
func (d *duals) addExtra(p *problem) {
	clear(d.extra)
	d.over = make([]int64, len(p.sources))
	for i, s := range p.sources {
		d.over[i] = d.worth(p, i) - p.price(i)<<p.scale
		if p.items[s.item].have != unlimited {
			d.extra[s.item] = max(d.extra[s.item], d.over[i])
		}
	}
}

// worth returns what the strips of a source are worth.
func (d *duals) worth(p *problem, s int) int64 {
	var w int64
	for _, g := range p.sources[s].gives {
		w += int64(g.n) * d.sig[g.bin]
	}
	return w
}

// tooDear returns the price and the worth of the unlimited source that is worth most against its price, if any is worth
// more than that; else 0, 0.
func (d *duals) tooDear(p *problem, s *state) (price, worth int64) {
	for i, src := range p.sources {
		if s.left[src.item] != unlimited || s.most != nil && s.most[i] != unlimited {
			continue
		}
		w, c := d.worth(p, i), p.price(i)<<p.scale
		if w > c && (worth == 0 || lessRatio(c, w, price, worth)) {
			price, worth = c, w
		}
	}
	return price, worth
}

// slack returns how much a state can still waste: its money, and what its strips and items are worth, less the worth of
// the units to cut. A state with a slack below 0 cannot be completed.
func (d *duals) slack(p *problem, s *state) int64 {
	t := s.money << p.scale
	for b, n := range s.avail {
		t += int64(n) * d.sig[b]
	}
	if s.most != nil {
		t += d.gains(p, s)
		if t < noWay/2 {
			return t
		}
	} else {
		for _, i := range p.limited {
			t += int64(s.left[i]) * d.extra[i]
		}
	}
	for u, n := range s.rem {
		t -= int64(n) * d.pi[u]
	}
	return t
}

// gains returns the most that the sources which may still be bought are worth beyond their prices, where sources and items are held
// back one by one: of each item those worth most first, and as many as it needs at least even if they lose.
func (d *duals) gains(p *problem, s *state) int64 {
	var t int64
	for _, of := range p.sourcesOf {
		item := p.sources[of[0]].item
		left, need := s.left[item], 0
		if s.need != nil {
			need = s.need[item]
		}
		best := of
		if len(of) > 1 && (left != unlimited || need > 0) {
			best = slices.Clone(of)
			slices.SortFunc(best, func(a, b int) int { return cmp.Compare(d.over[b], d.over[a]) })
		}
		for _, i := range best {
			n := s.most[i]
			if left != unlimited && (n == unlimited || n > left) {
				n = left
			}
			g := d.over[i]
			if g <= 0 && (n == unlimited || n > need) {
				n = need // an unlimited source is never worth more than its price
			}
			t += int64(n) * g
			if need -= n; need < 0 {
				need = 0
			}
			if left != unlimited {
				left -= n
			}
		}
		if need > 0 {
			return noWay
		}
	}
	return t
}

// noWay is the slack of a state in which more of an item is to be bought than may be.
const noWay = -1 << 60

// holds tells whether the duals prove anything of a state, though they were made for another: no source of which as many
// may be bought as one likes is worth more than its price.
func (d *duals) holds(p *problem, s *state) bool {
	for i, over := range d.over {
		if over > 0 && (s.most == nil || s.most[i] == unlimited) && s.left[p.sources[i].item] == unlimited {
			return false
		}
	}
	return true
}

// values returns what each unit is worth, more than nothing.
func (d *duals) values() []int64 {
	v := slices.Clone(d.pi)
	for i := range v {
		v[i]++
	}
	return v
}

// bound returns the least cost, in whole money, of completing a state that owns nothing yet.
func (d *duals) bound(p *problem, s *state) int64 {
	broke := *s
	broke.money = 0
	return ceilDiv(-d.slack(p, &broke), 1<<p.scale)
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

// mulDiv returns v*num/den rounded down, exactly, for v, num >= 0 and num < den.
func mulDiv(v, num, den int64) int64 {
	hi, lo := bits.Mul64(uint64(v), uint64(num))
	q, _ := bits.Div64(hi, lo, uint64(den))
	return int64(q)
}

// lessRatio tells whether a/b < c/d, exactly, for numbers >= 0.
func lessRatio(a, b, c, d int64) bool {
	h1, l1 := bits.Mul64(uint64(a), uint64(d))
	h2, l2 := bits.Mul64(uint64(c), uint64(b))
	return h1 < h2 || h1 == h2 && l1 < l2
}
