package stock

import (
	"cmp"
	"slices"
)

// purchasesCap is how many purchases of one cost are listed, and purchasesNodes how many nodes that may take.
const (
	purchasesCap   = 3000
	purchasesNodes = 300_000
)

// A shopping lists every purchase of a cost that the duals do not rule out: how many of each source.
type shopping struct {
	p     *problem
	ds    []*duals
	eff   *effort
	items [][]int   // the sources of an item, the dearest item first
	reach []reach   // item: what it and those after it can cost
	slack [][]int64 // item: of each of the duals, before the item is decided
	now   []int
	out   [][]int
	whole bool
	nodes int
}

// purchases lists the purchases of exactly that cost with which duals ds leave a plan possible; whole is false when
// there are more than can be listed. What costs nothing is always taken.
func (p *problem) purchases(cost int64, ds []*duals, eff *effort) (out [][]int, whole bool) {
	s := &shopping{p: p, eff: eff, now: make([]int, len(p.sources)), whole: true, items: slices.Clone(p.sourcesOf)}
	slices.SortStableFunc(s.items, func(a, b []int) int { return cmp.Compare(p.price(b[0]), p.price(a[0])) })
	for _, of := range s.items {
		if it := p.items[p.sources[of[0]].item]; it.cost == 0 && it.have == unlimited {
			return nil, false
		}
	}
	st := p.start(cost)
	var first []int64
	for _, d := range ds {
		if d.holds(p, st) {
			s.ds = append(s.ds, d)
			first = append(first, d.slack(p, st))
		}
	}
	s.slack = make([][]int64, len(s.items)+1)
	for i := range s.slack {
		s.slack[i] = make([]int64, len(first))
	}
	copy(s.slack[0], first)
	for i := range s.items {
		var rest []supply
		for _, of := range s.items[i:] {
			rest = append(rest, p.items[p.sources[of[0]].item])
		}
		s.reach = append(s.reach, newReach(rest, cost))
	}
	s.item(0, cost)
	return s.out, s.whole
}

// item decides how many of item i are bought with the money left.
func (s *shopping) item(i int, money int64) {
	s.nodes++
	if s.nodes > purchasesNodes || !s.eff.spend(int64(1+len(s.ds)/16)) {
		s.whole = false
		return
	}
	if money > 0 && (i == len(s.items) || s.reach[i].up(money) != money) {
		return
	}
	if i == len(s.items) {
		if money == 0 {
			if len(s.out) >= purchasesCap {
				s.whole = false
				return
			}
			s.out = append(s.out, slices.Clone(s.now))
		}
		return
	}
	it := s.p.items[s.p.sources[s.items[i][0]].item]
	s.source(i, 0, it.have, money)
}

// source decides how many of the k-th source of item i are bought, of which left there are.
func (s *shopping) source(i, k, left int, money int64) {
	of := s.items[i]
	it := s.p.items[s.p.sources[of[0]].item]
	if k == len(of) {
		if it.cost == 0 && left > 0 {
			return
		}
		s.pass(i, left, money)
		return
	}
	for n := 0; s.whole && (left == unlimited || n <= left) && money >= 0; n++ {
		s.now[of[k]] = n
		rest := left
		if left != unlimited {
			rest -= n
		}
		s.source(i, k+1, rest, money)
		money -= it.cost
	}
	s.now[of[k]] = 0
}

// pass goes on to the next item if none of the duals rules out what is bought of item i; left of it are not.
func (s *shopping) pass(i, left int, money int64) {
	item := s.p.sources[s.items[i][0]].item
	for j, d := range s.ds {
		v := s.slack[i][j]
		if left != unlimited {
			v -= int64(s.p.items[item].have) * d.extra[item]
		}
		for _, src := range s.items[i] {
			v += int64(s.now[src]) * d.over[src]
		}
		if v < 0 {
			return
		}
		s.slack[i+1][j] = v
	}
	s.item(i+1, money)
}
