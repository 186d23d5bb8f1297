package stock

import (
	"encoding/binary"
	"slices"
)

// A search looks for a way to cut all units of a state with its money. It takes the first unit still to be cut and tries
// every maximal pattern that holds it, on every kind of strip at hand or to be bought, the least waste first. What it
// exhausts holds nothing: then it says so.
type search struct {
	p    *problem
	eff  *effort
	tune tuning
	s    *state
	d    []*duals // bounds in force; the last one is the sharpest
	lp   *master  // for duals computed anew within the search, or nil

	path   []step
	bought []int
	memo   map[string]int64
	memory int
	key    []byte
}

// A step is one strip cut; source is -1 when it was at hand.
type step struct {
	source int
	filled filled
}

// memoCap bounds what a search remembers, in bytes (keys and 48 bytes each for the map).
const memoCap = 12 << 20

func newSearch(p *problem, s *state, d *duals, eff *effort, tune tuning) *search {
	return &search{p: p, eff: eff, tune: tune, s: s, d: []*duals{d}, bought: make([]int, len(p.sources)), memo: map[string]int64{}}
}

// run searches. found tells whether there is a way, then in packing; if not, exhausted tells whether there is none.
func (s *search) run() (found, exhausted bool) {
	return s.visit(nil, false)
}

// packing returns what was found.
func (s *search) packing() *packing {
	k := &packing{bought: slices.Clone(s.bought)}
	for _, t := range s.path {
		k.strips = append(k.strips, t.filled)
	}
	k.cost = s.p.costOf(k.bought)
	return k
}

// visit searches from where the search stands; likes is the linear program's solution for it, if it is known.
func (s *search) visit(likes []liked, known bool) (found, exhausted bool) {
	if !s.eff.spend(1) {
		return false, false
	}
	u := slices.IndexFunc(s.s.rem, func(n int) bool { return n > 0 })
	if u < 0 {
		return true, true
	}
	for _, d := range s.d {
		if d.slack(s.p, s.s) < 0 {
			return false, true
		}
	}
	key := s.known()
	if key == "" {
		return false, true
	}
	if s.lp != nil && !known {
		d := s.lp.again(s.s, nil)
		if d.slack(s.p, s.s) < 0 {
			s.remember(key)
			return false, true
		}
		s.d = append(s.d, d)
		defer func() { s.d = s.d[:len(s.d)-1] }()
		likes = s.lp.likes()
	}
	whole := true
	for t := s.newTranche(u, likes); t.next(); {
		ok, all := s.descend(t.kids, likes)
		if ok {
			return true, true
		}
		whole = whole && all && !t.cut
		if !s.eff.spend(0) {
			return false, false
		}
	}
	if whole {
		s.remember(key)
	}
	return false, whole
}

// descend visits the children one after the other. What the linear program takes whole leaves the rest of its solution as good as it was.
func (s *search) descend(kids []child, likes []liked) (found, exhausted bool) {
	exhausted = true
	for i := range kids {
		c := &kids[i]
		s.take(&c.step)
		var ok, all bool
		if c.liked > 1-wholeSlop && s.alone(c.step) {
			ok, all = s.visit(without(likes, c.filled), true)
		} else {
			ok, all = s.visit(nil, false)
		}
		if ok {
			return true, true
		}
		s.untake(&c.step)
		exhausted = exhausted && all
		if !all && !s.eff.spend(0) {
			return false, false
		}
	}
	return false, exhausted
}

// alone tells whether a step is one column of the linear program and nothing else.
func (s *search) alone(t step) bool {
	return t.source < 0 || s.lp.lone[t.filled.bin] == t.source && s.lp.strips(t.filled.bin) == 1
}

// without returns a solution that cuts f one time less.
func without(likes []liked, f filled) []liked {
	out := slices.Clone(likes)
	for i := range out {
		if out[i].bin == f.bin && slices.Equal(out[i].pat, f.pat) {
			out[i].x--
		}
	}
	return out
}

// known returns the state's key, or "" if the state was exhausted before with no less money.
func (s *search) known() string {
	k := s.key[:0]
	for _, n := range s.s.rem {
		k = binary.AppendUvarint(k, uint64(n))
	}
	for _, n := range s.s.avail {
		k = binary.AppendUvarint(k, uint64(n))
	}
	for _, i := range s.p.limited {
		k = binary.AppendUvarint(k, uint64(s.s.left[i]))
	}
	s.key = k
	if m, ok := s.memo[string(k)]; ok && s.s.money <= m {
		return ""
	}
	return string(k)
}

func (s *search) remember(key string) {
	if s.tune.noMemo || s.memory > memoCap {
		return
	}
	if _, ok := s.memo[key]; !ok {
		s.memory += len(key) + 48
	}
	s.memo[key] = s.s.money
}

// A way is a way to come by a strip: a source, -1 for one at hand, and the slack left after buying it.
type way struct {
	source int
	slack  int64
}

// ways returns the ways to come by a strip of bin b. One at hand is as good as any that could be bought.
func (s *search) ways(b int, slack int64) []way {
	if s.s.avail[b] > 0 {
		return []way{{-1, slack}}
	}
	var ways []way
	d := s.d[len(s.d)-1]
	for _, i := range s.p.givers[b] {
		item := s.p.sources[i].item
		if s.s.left[item] == 0 || s.p.items[item].cost > s.s.money {
			continue
		}
		if left := slack + d.over[i] - d.extra[item]; left >= 0 {
			ways = append(ways, way{i, left})
		}
	}
	return ways
}

// floor returns the length of the longest plain stick shorter than b's that costs no more than any of the ways: what it
// holds need not be cut from b.
func (s *search) floor(b int, ways []way) int64 {
	floor := int64(-1)
	cheapest := int64(1 << 62)
	for _, w := range ways {
		if w.source < 0 || !s.p.plain[w.source] {
			return floor
		}
		cheapest = min(cheapest, s.p.price(w.source))
	}
	own := s.p.bins[b].capacity
	for _, o := range s.p.binsOf[s.p.bins[b].class] {
		if c := s.p.bins[o].capacity; c < own && c > floor {
			for _, g := range s.p.givers[o] {
				if s.p.plain[g] && s.p.price(g) <= cheapest {
					floor = c
				}
			}
		}
	}
	return floor
}

func (s *search) take(t *step) {
	s.path = append(s.path, *t)
	if t.source >= 0 {
		src := &s.p.sources[t.source]
		s.bought[t.source]++
		s.s.money -= s.p.price(t.source)
		if s.s.left[src.item] > 0 {
			s.s.left[src.item]--
		}
		for _, g := range src.gives {
			s.s.avail[g.bin] += g.n
		}
	}
	s.s.avail[t.filled.bin]--
	for _, q := range t.filled.pat {
		s.s.rem[q.unit] -= int(q.n)
	}
}

func (s *search) untake(t *step) {
	s.path = s.path[:len(s.path)-1]
	for _, q := range t.filled.pat {
		s.s.rem[q.unit] += int(q.n)
	}
	s.s.avail[t.filled.bin]++
	if t.source >= 0 {
		src := &s.p.sources[t.source]
		s.bought[t.source]--
		s.s.money += s.p.price(t.source)
		if s.p.items[src.item].have != unlimited {
			s.s.left[src.item]++
		}
		for _, g := range src.gives {
			s.s.avail[g.bin] -= g.n
		}
	}
}
