package stock

import "slices"

// A boarding makes a plan board by board: each time the board, ripped the way, that yields most for its price.
type boarding struct {
	p     *problem
	value []int64 // of a unit, > 0
	rem   []int
	left  []int
	eff   *effort
	tune  tuning
	k     *packing
	c     *component    // whose planks are ripped anew for each board, nil for none
	fills map[int]*fill // bin: what its next strips would hold
}

// A fill is what strips of one bin hold, one after the other, of the units still to be cut.
type fill struct {
	pats  []pattern
	worth []int64 // of so many strips together
}

// newBoarding returns a boarding that has bought what state s says, which it changes.
func newBoarding(p *problem, s *state, bought []int, value []int64, eff *effort, tune tuning) *boarding {
	return &boarding{p: p, value: value, rem: s.rem, left: s.left, eff: eff, tune: tune, fills: map[int]*fill{}, k: &packing{bought: bought}}
}

// boardwise completes a state in which sources have been bought board by board. It returns nil when the stock runs out.
func (p *problem) boardwise(from *state, bought []int, value []int64, eff *effort, tune tuning) *packing {
	s := from.clone()
	b := newBoarding(p, s, slices.Clone(bought), value, eff, tune)
	for bin, n := range s.avail {
		b.cut(give{bin, n})
	}
	return b.run()
}

// boardwise makes a plan board by board, and adds the ways in which it rips planks to the problem.
func (c *component) boardwise(value []int64, eff *effort, tune tuning) {
	b := newBoarding(c.prob, c.prob.start(0), nil, value, eff, tune)
	b.c = c
	k := b.run()
	c.prob.index()
	if k != nil && (c.prob.made == nil || k.cost < c.prob.made.cost) {
		c.prob.made = k
	}
}

// run buys and cuts until nothing is left to cut.
func (b *boarding) run() *packing {
	p, value := b.p, b.value
	for {
		var all int64
		for u, n := range b.rem {
			all += int64(n) * value[u]
		}
		if all == 0 {
			b.k.cost = p.costOf(b.k.bought)
			return b.k
		}
		if b.c != nil {
			for _, k := range b.c.planks {
				if b.left[k.item] != 0 {
					b.c.rip(k, b.rip(k))
				}
			}
		}
		i := b.best(all)
		if i < 0 {
			return nil
		}
		for len(b.k.bought) < len(p.sources) {
			b.k.bought = append(b.k.bought, 0)
		}
		b.k.bought[i]++
		if item := p.sources[i].item; b.left[item] > 0 {
			b.left[item]--
		}
		for _, g := range p.sources[i].gives {
			b.cut(g)
		}
	}
}

// cut cuts what so many strips of a bin hold.
func (b *boarding) cut(g give) {
	f := b.fill(g)
	for _, pat := range f.pats[:min(g.n, len(f.pats))] {
		b.k.strips = append(b.k.strips, filled{g.bin, pat})
		for _, q := range pat {
			b.rem[q.unit] -= int(q.n)
		}
	}
	clear(b.fills)
}

// rip returns the way to rip a plank that yields most. Each strip of a class is a unit of its own there, worth what it adds.
func (b *boarding) rip(k *plank) pattern {
	q := &problem{bins: k.rips.bins}
	var value []int64
	var class []int32
	for i, u := range k.rips.units {
		n := min(u.demand, int(q.bins[0].capacity/u.size))
		f := b.fill(give{k.bins[i], n})
		before := int64(0)
		for _, w := range f.worth[:min(n, len(f.worth))] {
			q.units = append(q.units, unit{size: u.size, demand: 1})
			value, class = append(value, w-before), append(class, int32(i))
			before = w
		}
	}
	q.index()
	_, picks, _ := newKnapsack(q, 0, value, q.start(0).rem, b.eff, b.tune).solve(q.bins[0].capacity, 0)
	var ways pattern
	for _, one := range picks {
		if last := len(ways) - 1; last >= 0 && ways[last].unit == class[one.unit] {
			ways[last].n++
		} else {
			ways = append(ways, part{class[one.unit], 1})
		}
	}
	return ways
}

// best returns the source that yields most for its price; of those that yield all there is to cut the cheapest. It is -1 when none
// yields anything.
func (b *boarding) best(all int64) int {
	best, done := -1, false
	var price, worth int64
	for i, s := range b.p.sources {
		if b.left[s.item] == 0 {
			continue
		}
		c, w := b.p.price(i)+1, b.worth(s)
		switch {
		case w == 0 || done && w < all:
		case w == all && (!done || c < price), !done && (best < 0 || lessRatio(worth, price, w, c)):
			best, price, worth, done = i, c, w, w == all
		}
	}
	return best
}

// worth returns what a source yields.
func (b *boarding) worth(s source) int64 {
	var w int64
	for _, g := range s.gives {
		if f := b.fill(g); len(f.pats) > 0 {
			w += f.worth[min(g.n, len(f.pats))-1]
		}
	}
	return w
}

// fill returns what so many strips hold at least, and more where more is known.
func (b *boarding) fill(g give) *fill {
	f := b.fills[g.bin]
	if f == nil {
		f = &fill{}
		b.fills[g.bin] = f
	}
	if len(f.pats) >= g.n {
		return f
	}
	rest := slices.Clone(b.rem) // what the strips so far leave to cut
	for _, pat := range f.pats {
		for _, q := range pat {
			rest[q.unit] -= int(q.n)
		}
	}
	var w int64
	if n := len(f.worth); n > 0 {
		w = f.worth[n-1]
	}
	in := b.p.bins[g.bin]
	for len(f.pats) < g.n {
		_, pat, _ := newKnapsack(b.p, in.class, b.value, rest, b.eff, b.tune).solve(in.capacity, in.ease)
		if len(pat) == 0 {
			break
		}
		for _, q := range pat {
			rest[q.unit] -= int(q.n)
			w += int64(q.n) * b.value[q.unit]
		}
		f.pats, f.worth = append(f.pats, pat), append(f.worth, w)
	}
	return f
}
