package stock

import (
	"slices"
)

// A hope is a strip of a purchase that could be the one with the longest leftover.
type hope struct {
	bought      []int
	avail       []int // strips by bin
	source, bin int
	least       int64 // what it must hold at least, as far as is known
	most        int64 // what it may hold at most to leave more than the plan does
	dead        bool
}

// purchases asks the question for every purchase of least cost: which of its strips can be left longest? It tells whether it could list
// the purchases at all, and if so whether it is sure of the answer.
func (l *lengthening) purchases() (listed, sure bool) {
	if l.tune.noListing {
		return false, false
	}
	ds := append([]*duals{l.d}, l.past...)
	all, whole := l.p.purchases(l.a.plan.cost, ds, l.eff)
	if !whole {
		return false, false
	}
	if l.packers == nil {
		l.packers = l.p.packers(l.known, l.eff, l.tune)
	}
	hopes := l.hopes(all)
	for i := range hopes {
		h := &hopes[i]
		h.dead = h.dead || !l.packer(h).possible(h.avail, held{h.bin, h.most})
	}
	sure = true
	for !l.eff.over() && l.eff.spend(1) {
		h := l.best(hopes)
		if h == nil {
			return true, sure
		}
		sure = l.try(h) && sure
	}
	return true, false
}

func (l *lengthening) packer(h *hope) *packer { return l.packers[l.p.bins[h.bin].class] }

// hopes lists the strips that could leave more than the plan does, of every purchase one of each kind.
func (l *lengthening) hopes(all [][]int) []hope {
	var out []hope
	for _, bought := range all {
		avail := make([]int, len(l.p.bins))
		for s, n := range bought {
			for _, g := range l.p.sources[s].gives {
				avail[g.bin] += n * g.n
			}
		}
		for s, n := range bought {
			if n == 0 {
				continue
			}
			for _, g := range l.p.sources[s].gives {
				h := hope{bought: bought, avail: avail, source: s, bin: g.bin, least: l.sums(g.bin).up(l.smallest(s, g.bin))}
				if l.limit(&h); !h.dead {
					out = append(out, h)
				}
			}
		}
	}
	return out
}

// sums returns what strips of a bin can hold.
func (l *lengthening) sums(b int) sums {
	if s, ok := l.sumsOf[b]; ok {
		return s
	}
	s := l.p.sums(b)
	l.sumsOf[b] = s
	return s
}

// limit sees to it that the strip would leave more than the plan does.
func (l *lengthening) limit(h *hope) {
	h.most = l.sums(h.bin).down(l.most(h.bin))
	h.dead = h.dead || h.least > h.most
}

// best returns the strip with the longest leftover in prospect, nil when none would leave more than the plan does.
func (l *lengthening) best(hopes []hope) *hope {
	var best *hope
	var left int64
	for i := range hopes {
		h := &hopes[i]
		if h.dead {
			continue
		}
		if l.limit(h); h.dead {
			continue
		}
		if v := l.p.leftOf(h.bin, h.least); best == nil || v > left {
			best, left = h, v
		}
	}
	return best
}

// try asks whether the strip can hold as little as is hoped, and raises the hope or keeps the plan. It tells whether it is sure.
func (l *lengthening) try(h *hope) bool {
	k := l.packer(h)
	was := h.least
	h.least = l.sums(h.bin).up(k.room(h.avail, held{h.bin, h.least}, h.most))
	if h.least != was {
		return true
	}
	if !k.possible(h.avail, held{h.bin, h.least}) {
		return true // and room knows it the next time
	}
	plan, exhausted := l.pack(h)
	switch {
	case plan != nil:
		l.a.plan, l.a.left = plan, l.p.longestLeft(plan)
		return true
	case exhausted:
		h.least = l.sums(h.bin).up(h.least + 1)
		return true
	}
	h.least = l.sums(h.bin).up(h.least + max(1, (h.most-h.least)/2))
	return false
}

// pack looks for the plan that is hoped for.
func (l *lengthening) pack(h *hope) (k *packing, exhausted bool) {
	k = &packing{bought: slices.Clone(h.bought)}
	own := l.p.bins[h.bin].class
	for class, q := range l.packers {
		a := q.ask(h.avail, held{bin: -1}, hopeNodes)
		if class == own {
			a = q.ask(h.avail, held{h.bin, h.least}, hopeNodes)
		}
		if !a.found {
			h.dead = h.dead || a.exhausted && class != own
			return nil, a.exhausted
		}
		for _, f := range a.strips {
			k.strips = append(k.strips, filled{f.bin, slices.Clone(f.pat)})
		}
	}
	k.cost = l.p.costOf(k.bought)
	if l.p.price(h.source) == 0 {
		l.useFree(k, spot{source: h.source, bin: h.bin}, h.least)
	}
	l.p.tidy(k)
	if l.p.longestLeft(k) <= l.a.left || k.cost > l.a.plan.cost || !l.p.check(k) {
		return nil, false
	}
	return k, true
}

// hopeNodes is how many nodes one such question may take.
const hopeNodes = 300_000
