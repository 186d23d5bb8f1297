package stock

import (
	"cmp"
	"slices"
)

// leftNodes is how many nodes one question of the search for the longest leftover may take, leftAll all of them.
const (
	leftNodes = 120_000
	leftAll   = 3_000_000
)

// leftOf returns what is left of a strip of bin b when used of it is cut away, in exact units.
func (p *problem) leftOf(b int, used int64) int64 {
	return max(0, p.bins[b].raw-used*p.steps[p.bins[b].class])
}

// sizeOf returns the summed size of a pattern's units.
func (p *problem) sizeOf(pat pattern) int64 {
	var sum int64
	for _, q := range pat {
		sum += int64(q.n) * p.units[q.unit].size
	}
	return sum
}

// longestLeft returns the longest single leftover of a packing; a strip of a board from which nothing is cut is one.
func (p *problem) longestLeft(k *packing) int64 {
	strips := make([]int, len(p.bins))
	for s, n := range k.bought {
		for _, g := range p.sources[s].gives {
			strips[g.bin] += n * g.n
		}
	}
	var left int64
	for _, f := range k.strips {
		strips[f.bin]--
		left = max(left, p.leftOf(f.bin, p.sizeOf(f.pat)))
	}
	for b, n := range strips {
		if n > 0 {
			left = max(left, p.bins[b].raw)
		}
	}
	return left
}

// A lengthening is the search, among plans of least cost, for the one with the longest leftover: it asks, for each kind of strip,
// how little one strip of it can hold.
type lengthening struct {
	p       *problem
	a       *answer
	eff     *effort
	tune    tuning
	d       *duals
	known   []filled  // patterns for the linear programs to start with
	past    []*duals  // duals that proved something before
	packers []*packer // class: what cuts its units
	sumsOf  map[int]sums
}

// A spot is a strip that could be the one with the leftover.
type spot struct {
	source, bin int
	least       int64 // what it must hold at least, as far as the duals know
	left        int64 // what that leaves
}

// lengthen replaces a plan of least cost by one with the longest leftover.
func (p *problem) lengthen(a *answer, d *duals, known []filled, past []*duals, packers []*packer, eff *effort, tune tuning) {
	a.left = p.longestLeft(a.plan)
	l := &lengthening{p, a, eff, tune, d, known, past, packers, map[int]sums{}}
	a.leftProven = a.proven
	eff.within(leftAll, func() {
		if listed, sure := l.purchases(); listed {
			a.leftProven = a.proven && sure
			return
		}
		spots, whole := l.spots()
		a.leftProven = a.proven && whole
		for _, s := range spots {
			if s.left > a.left && !l.shrink(s) {
				a.leftProven = false
			}
		}
	})
}

// spots lists the strips that could have a longer leftover than the plan's, the most hopeful first; whole is false when the effort
// ran out on the way.
func (l *lengthening) spots() (out []spot, whole bool) {
	for i, src := range l.p.sources {
		if !l.eff.spend(1) {
			return out, false
		}
		if l.p.price(i) > l.a.plan.cost || l.p.items[src.item].have == 0 {
			continue
		}
		for _, g := range src.gives {
			if l.p.leftOf(g.bin, 0) <= l.a.left {
				continue
			}
			s := spot{source: i, bin: g.bin, least: l.least(i, g.bin)}
			if s.least > l.p.bins[g.bin].capacity {
				continue
			}
			if s.left = l.p.leftOf(g.bin, s.least); s.left > l.a.left {
				out = append(out, s)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b spot) int { return cmp.Compare(b.left, a.left) })
	return out, true
}

// least returns what a strip of a source must hold at least by the duals.
func (l *lengthening) least(source, bin int) int64 {
	s := l.state(source, bin)
	need := -l.d.slack(l.p, s)
	low := l.smallest(source, bin)
	if need <= 0 || low > l.p.bins[bin].capacity {
		return low
	}
	k := newKnapsack(l.p, l.p.bins[bin].class, l.d.pi, s.rem, l.eff, l.tune)
	high := l.p.bins[bin].capacity
	for low < high {
		mid := low + (high-low)/2
		if v, _, _ := k.solve(mid, l.p.bins[bin].capacity-mid); v >= need {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low
}

// smallest returns the least a strip can hold: nothing when other strips come with it or it is paid for, and so is needed;
// else the smallest unit that can be cut from it, and more than its capacity when none can.
func (l *lengthening) smallest(source, bin int) int64 {
	if l.p.price(source) > 0 || len(l.p.sources[source].gives) > 1 || l.p.sources[source].gives[0].n > 1 {
		return 0
	}
	least := l.p.bins[bin].capacity + 1
	for _, u := range l.p.units {
		if u.class == l.p.bins[bin].class && u.size+u.tail <= l.p.bins[bin].capacity {
			least = min(least, u.size)
		}
	}
	return least
}

// state returns the state with the source bought and the strip in question set aside.
func (l *lengthening) state(source, bin int) *state {
	s := l.p.start(l.a.plan.cost - l.p.price(source))
	if item := l.p.sources[source].item; s.left[item] != unlimited {
		s.left[item]--
	}
	for _, g := range l.p.sources[source].gives {
		s.avail[g.bin] += g.n
	}
	s.avail[bin]--
	return s
}

// shrink looks for the least that a strip need hold, as long as that makes the leftover longer; it tells whether it is sure.
func (l *lengthening) shrink(s spot) (sure bool) {
	sure = true
	sums := l.sums(s.bin)
	low := sums.up(s.least)
	high := sums.down(l.most(s.bin))
	mid := high // first of all: can it be better at all?
	for ; low <= high && !l.eff.over(); mid = sums.down(low + (high-low)/2) {
		k, exhausted := l.ask(s, mid)
		switch {
		case k != nil:
			l.a.plan, l.a.left = k, l.p.longestLeft(k)
			high = sums.down(min(mid-1, l.most(s.bin)))
		case exhausted:
			low = sums.up(mid + 1)
		default:
			sure = false
			low = sums.up(mid + 1)
		}
	}
	return sure && low > high
}

// most returns the most that a strip may hold to leave more than the plan does, -1 if it cannot.
func (l *lengthening) most(b int) int64 {
	room := l.p.bins[b].raw - l.a.left - 1
	if room < 0 {
		return -1
	}
	return min(room/l.p.steps[l.p.bins[b].class], l.p.bins[b].capacity)
}

// ask looks for a plan of least cost in which the strip holds no more than room.
func (l *lengthening) ask(s spot, room int64) (k *packing, exhausted bool) {
	q := *l.p
	own := len(q.bins)
	class := q.bins[s.bin].class
	q.bins = append(slices.Clone(q.bins), bin{class: class, capacity: room, ease: q.bins[s.bin].capacity - room})
	q.givers = append(slices.Clone(q.givers), nil)
	q.binsOf = slices.Clone(q.binsOf)
	q.binsOf[class] = append(slices.Clone(q.binsOf[class]), own)
	st := l.state(s.source, s.bin)
	st.avail = append(st.avail, 1)
	past := l.extended(q.bins[own])
	if slices.ContainsFunc(past, func(d *duals) bool { return d.holds(&q, st) && d.slack(&q, st) < 0 }) {
		return nil, true
	}
	m := newMaster(&q, st, l.eff, l.tune, l.known...)
	l.eff.within(leftNodes/32, func() { k, exhausted = q.complete(st, m.solve(st), m, l.eff, l.tune) })
	if k == nil && !exhausted {
		c := q.counts(st, m, past, l.eff, l.tune)
		l.eff.within(leftNodes, func() { k, exhausted = c.affordable(st.money) })
		l.past = nil
		for _, d := range c.past {
			l.past = append(l.past, &duals{d.pi, d.sig[:own], d.extra, d.over})
		}
	}
	if k == nil {
		return nil, exhausted
	}
	k.bought[s.source]++
	for i := range k.strips {
		if k.strips[i].bin == own {
			k.strips[i].bin = s.bin
		}
	}
	k.cost = l.p.costOf(k.bought)
	if l.p.price(s.source) == 0 {
		l.useFree(k, s, room)
	}
	l.p.tidy(k)
	if l.p.longestLeft(k) <= l.a.left || k.cost > l.a.plan.cost || !l.p.check(k) {
		return nil, false
	}
	return k, true
}

// extended returns the duals of before with the worth of a further kind of strip.
func (l *lengthening) extended(b bin) []*duals {
	var out []*duals
	for _, d := range l.past {
		k := newKnapsack(l.p, b.class, d.pi, l.p.start(0).rem, l.eff, l.tune)
		v, _, _ := k.solve(b.capacity, b.ease)
		out = append(out, &duals{d.pi, append(slices.Clip(d.sig), v), d.extra, d.over})
	}
	return out
}

// counts returns a search for a way to complete a state by what is bought. m is a linear program of the problem, past are duals
// that hold for the state.
func (p *problem) counts(s *state, m *master, past []*duals, eff *effort, tune tuning) *counts {
	broke := s.clone()
	broke.money = 0
	c := newCounts(p, broke, s.money+1, newReach(p.items, s.money+1), nil, eff, tune)
	c.lp, m.quick = m, true
	c.past = past
	return c
}

// affordable runs the search for a plan that costs no more than money.
func (c *counts) affordable(money int64) (k *packing, exhausted bool) {
	bound := c.run(0)
	return c.best, c.best == nil && bound > money
}

// useFree sees to it that a free source which was taken for its leftover is used at all: if its strips hold nothing, one unit
// is moved to it.
func (l *lengthening) useFree(k *packing, s spot, room int64) {
	t := &packing{bought: slices.Clone(k.bought), strips: k.strips}
	l.p.tidy(t)
	if t.bought[s.source] > 0 && l.p.longestLeft(t) > l.a.left {
		return
	}
	rest := slices.Clone(l.p.sources[s.source].gives)
	for i := range rest {
		if rest[i].bin == s.bin {
			rest[i].n--
		}
	}
	for _, g := range rest {
		if g.n > 0 && l.p.move(k, g.bin, l.p.bins[g.bin]) {
			return
		}
	}
	own := l.p.bins[s.bin]
	l.p.move(k, s.bin, bin{class: own.class, capacity: room, ease: own.capacity - room})
}

// move takes one unit that fits room from some strip and cuts it from a strip of bin b instead.
func (p *problem) move(k *packing, b int, room bin) bool {
	for i, f := range k.strips {
		for n, q := range f.pat {
			if p.units[q.unit].class != room.class || !p.fits(pattern{{q.unit, 1}}, room) {
				continue
			}
			pat := slices.Clone(f.pat)
			if pat[n].n--; pat[n].n == 0 {
				pat = slices.Delete(pat, n, n+1)
			}
			k.strips[i].pat = pat
			if len(pat) == 0 {
				k.strips = slices.Delete(k.strips, i, i+1)
			}
			k.strips = append(k.strips, filled{b, pattern{{q.unit, 1}}})
			return true
		}
	}
	return false
}
