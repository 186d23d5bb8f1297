package stock

import (
	"cmp"
	"container/heap"
	"math"
	"slices"
)

// A counts looks for the least cost by what is bought: it branches on how many of each source that is, best bound first,
// and where the linear program buys whole sources it asks, class by class, whether the units can be cut from them.
type counts struct {
	p       *problem
	eff     *effort
	tune    tuning
	r       reach
	base    *state // what is at hand before anything is bought
	lp      *master
	known   []filled // patterns for the linear program to start with
	best    *packing // the best plan known, or nil
	top     int64    // no plan that costs this much or more is of use
	open    countHeap
	seq     int
	late    []purchase
	first   box       // that all others are split from
	packers []*packer // class: what cuts its units, nil before it is asked
	past    []*duals  // of earlier boxes
	oldest  int       // the first of them to give way
}

// A purchase is a whole purchase that was neither cut nor found impossible to cut in the nodes it was given.
type purchase struct {
	cost   int64
	bought []int
	nodes  int64 // to be given next
}

// A countNode is a box of purchases that is kept open. It says only in what source or item it differs from the box it was split from: where a board can be
// ripped in thousands of ways, there are as many sources.
type countNode struct {
	bound  int64
	depth  int
	seq    int
	from   *basis     // where the linear program stood for the node it was split from
	parent *countNode // nil for the first box
	source int        // of which at least bought and at most most more are bought, unlike in the parent; -1 for none
	item   int        // of which the same holds, whatever source it is; -1 for none
	bought int
	most   int
}

// A box is a node with all that it says: at least bought of each source, at most most more; and of each item, over all its
// sources, at least least and at most room more.
type box struct {
	*countNode
	bought, most []int // by source
	least, room  []int // by item; nil where no item is held back
}

// countNodesCap bounds the boxes kept open, some 100 bytes each.
const countNodesCap = 40_000

type countHeap []*countNode

func (h countHeap) Len() int { return len(h) }
func (h countHeap) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(h[i].bound, h[j].bound), cmp.Compare(h[j].depth, h[i].depth), cmp.Compare(h[i].seq, h[j].seq)) < 0
}
func (h countHeap) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *countHeap) Push(x any)   { *h = append(*h, x.(*countNode)) }
func (h *countHeap) Pop() any {
	old := *h
	n := old[len(old)-1]
	*h = old[:len(old)-1]
	return n
}

func newCounts(p *problem, base *state, top int64, r reach, known []filled, eff *effort, tune tuning) *counts {
	c := &counts{p: p, base: base, known: known, eff: eff, tune: tune, r: r, top: top}
	c.first = box{&countNode{source: -1, item: -1}, make([]int, len(p.sources)), slices.Repeat([]int{unlimited}, len(p.sources)),
		make([]int, len(p.items)), slices.Repeat([]int{unlimited}, len(p.items))}
	for i := range p.sources {
		switch item := p.sources[i].item; {
		case p.price(i) > 0:
		case p.items[item].have == unlimited:
			c.first.most[i] = p.demand() // a strip for each unit is enough
		case len(p.sourcesOf) == len(p.sources):
			// what costs nothing and can be used in one way only is taken at once
			c.first.bought[i], c.first.most[i] = base.left[item], 0
		}
	}
	return c
}

// run searches for plans that cost less than top, from a bound already known. It returns the bound reached: top when
// there is no better plan than the best found.
func (c *counts) run(bound int64) int64 {
	c.first.bound = bound
	heap.Push(&c.open, c.first.countNode)
	for len(c.open) > 0 {
		n := c.open[0]
		if n.bound >= c.top {
			break
		}
		if c.eff.over() || !c.eff.spend(1) || len(c.open) > countNodesCap {
			return min(n.bound, c.lateBound())
		}
		heap.Pop(&c.open)
		c.expand(n)
	}
	return c.settleLate()
}

// lateBound returns the least cost of the purchases put off, top when there is none cheaper.
func (c *counts) lateBound() int64 {
	bound := c.top
	for _, q := range c.late {
		bound = min(bound, q.cost)
	}
	return bound
}

// settleLate gives the purchases put off more and more nodes, the cheapest first, and returns the bound reached.
func (c *counts) settleLate() int64 {
	for c.lateBound() < c.top && !c.eff.over() {
		slices.SortStableFunc(c.late, func(a, b purchase) int { return cmp.Compare(a.nodes, b.nodes) })
		q := c.late[0]
		c.late = c.late[1:]
		if q.cost < c.top {
			c.cutOrDefer(q)
		}
	}
	return c.lateBound()
}

// cutOrDefer tries to cut a purchase, keeps the plan, or puts the purchase off.
func (c *counts) cutOrDefer(q purchase) *packing {
	k, exhausted := c.cut(q.bought, q.nodes)
	c.keep(k)
	if k == nil && !exhausted {
		q.nodes *= 4
		c.late = append(c.late, q)
	}
	return k
}

// box returns a node with all that it says.
func (c *counts) box(n *countNode) box {
	b := box{n, slices.Clone(c.first.bought), slices.Clone(c.first.most), slices.Clone(c.first.least), slices.Clone(c.first.room)}
	said, saidOf := make([]bool, len(b.bought)), make([]bool, len(b.least))
	for ; n != nil; n = n.parent { // the youngest word counts
		if i := n.source; i >= 0 && !said[i] {
			b.bought[i], b.most[i], said[i] = n.bought, n.most, true
		}
		if i := n.item; i >= 0 && !saidOf[i] {
			b.least[i], b.room[i], saidOf[i] = n.bought, n.most, true
		}
	}
	return b
}

// state returns the state in which a box's purchases are made, what it has cost by then, and whether there is as much of everything.
func (c *counts) state(n box) (s *state, cost int64, ok bool) {
	s = c.base.clone()
	s.most = n.most
	bought := make([]int, len(c.p.items))
	for i, k := range n.bought {
		src := c.p.sources[i]
		cost += int64(k) * c.p.price(i)
		bought[src.item] += k
		for _, g := range src.gives {
			s.avail[g.bin] += k * g.n
		}
	}
	if n.least != nil {
		s.need = make([]int, len(bought))
	}
	ok = true
	for i, k := range bought {
		if n.least != nil {
			s.need[i] = max(0, n.least[i]-k)
			if most := n.least[i] + n.room[i]; n.room[i] != unlimited && (s.left[i] == unlimited || most < s.left[i]) {
				s.left[i] = most
			}
		}
		if s.left[i] == unlimited {
			continue
		}
		s.left[i] -= k
		ok = ok && s.left[i] >= 0 && (s.need == nil || s.need[i] <= s.left[i])
	}
	return s, cost, ok
}

// expand solves a node's linear program and branches, or settles it.
func (c *counts) expand(node *countNode) {
	n := c.box(node)
	s, cost, ok := c.state(n)
	if !ok {
		return
	}
	if b := c.recalled(s, cost); b > n.bound {
		n.bound = b
		if len(c.open) > 0 && b < c.top {
			heap.Push(&c.open, node)
			return
		}
	}
	if n.bound >= c.top {
		return
	}
	d := c.solve(s, n.from)
	bound := max(n.bound, c.r.up(cost+d.bound(c.p, s)))
	if bound >= c.top {
		return
	}
	y := c.lp.buys(s)
	n.from = c.lp.lp.mark()
	if item, bought := c.lp.branchItem(y); item >= 0 {
		c.splitItem(n, bound, item, int(math.Floor(bought))+itemBought(c.p, n, item))
		return
	}
	if at := c.lp.branch(y); at >= 0 {
		c.split(n, bound, at, int(math.Floor(y[at])))
		return
	}
	whole := slices.Clone(n.bought)
	for i, v := range y {
		whole[i] += int(math.Round(v))
	}
	c.settle(n, bound, whole)
}

// solve solves the linear program for a state, from a basis that is near, and keeps the duals.
func (c *counts) solve(s *state, from *basis) *duals {
	var d *duals
	if c.lp == nil {
		c.lp = newMaster(c.p, s, c.eff, c.tune, c.known...)
		c.lp.quick = true
		d = c.lp.solve(s)
	} else {
		d = c.lp.again(s, from)
	}
	c.recall(d)
	return d
}

// recalledCap is how many duals of earlier boxes are tried on a new one before its linear program is solved.
const recalledCap = 128

// recall keeps duals for boxes to come, the last ones only.
func (c *counts) recall(d *duals) {
	if len(c.past) < recalledCap {
		c.past = append(c.past, d)
		return
	}
	c.past[c.oldest] = d
	c.oldest = (c.oldest + 1) % recalledCap
}

// recalled returns the best bound that the duals of earlier boxes prove for a state in which cost was spent.
func (c *counts) recalled(s *state, cost int64) int64 {
	var best int64
	for _, d := range c.past {
		if d.holds(c.p, s) {
			best = max(best, cost+d.bound(c.p, s))
		}
	}
	return c.r.up(best)
}

// split opens the boxes that buy at most k more of source i, and at least k+1 more.
func (c *counts) split(n box, bound int64, i, k int) {
	c.openMore(n, bound, i, k)
	if k >= 0 {
		heap.Push(&c.open, c.part(n, bound, i, n.bought[i], k))
	}
}

// itemBought returns how many of an item a box has bought.
func itemBought(p *problem, n box, item int) int {
	k := 0
	for i, b := range n.bought {
		if p.sources[i].item == item {
			k += b
		}
	}
	return k
}

// splitItem opens the boxes that buy at most k of an item, and at least k+1.
func (c *counts) splitItem(n box, bound int64, item, k int) {
	more := unlimited
	if n.room[item] != unlimited {
		more = n.least[item] + n.room[item] - k - 1
	}
	if more >= 0 || more == unlimited {
		heap.Push(&c.open, c.partItem(n, bound, item, k+1, more))
	}
	heap.Push(&c.open, c.partItem(n, bound, item, n.least[item], k-n.least[item]))
}

// partItem returns the part of a box in which at least bought and at most most more of an item are bought.
func (c *counts) partItem(n box, bound int64, item, bought, most int) *countNode {
	k := c.part(n, bound, -1, bought, most)
	k.item = item
	return k
}

// openMore opens the box that buys more than k more of source i, if it may.
func (c *counts) openMore(n box, bound int64, i, k int) {
	switch most := n.most[i]; {
	case most == unlimited:
		heap.Push(&c.open, c.part(n, bound, i, n.bought[i]+k+1, unlimited))
	case most > k:
		heap.Push(&c.open, c.part(n, bound, i, n.bought[i]+k+1, most-k-1))
	}
}

// part returns the part of a box in which at least bought and at most most more of source i are bought.
func (c *counts) part(n box, bound int64, i, bought, most int) *countNode {
	c.seq++
	return &countNode{bound: bound, depth: n.depth + 1, seq: c.seq, from: n.from, parent: n.countNode, source: i, item: -1, bought: bought, most: most}
}

// settle asks whether the units can be cut from what is bought, and if not opens boxes for everything else in the node.
func (c *counts) settle(n box, bound int64, whole []int) {
	k := c.cutOrDefer(purchase{c.p.costOf(whole), whole, fillNodes})
	if k != nil && k.cost <= bound {
		return
	}
	// all of the box but the one purchase: the first sources as bought, the next one less or more
	n.bought, n.most = slices.Clone(n.bought), slices.Clone(n.most) // the state of the box holds them
	for i, w := range whole {
		k := w - n.bought[i]
		if k > 0 {
			heap.Push(&c.open, c.part(n, bound, i, n.bought[i], k-1))
		}
		c.openMore(n, bound, i, k)
		n.countNode = c.part(n, bound, i, w, 0)
		n.bought[i], n.most[i] = w, 0
	}
}

// cut looks for a way to cut each class's units from what is bought.
func (c *counts) cut(whole []int, nodes int64) (k *packing, exhausted bool) {
	k = &packing{bought: whole, cost: c.p.costOf(whole)}
	s, _, ok := c.state(box{bought: whole})
	if !ok {
		return nil, true
	}
	if c.packers == nil {
		known := c.known
		if c.lp != nil {
			known = c.lp.patterns()
		}
		c.packers = c.p.packers(known, c.eff, c.tune)
	}
	for _, q := range c.packers {
		a := q.ask(s.avail, held{bin: -1}, nodes)
		if !a.found {
			return nil, a.exhausted
		}
		k.strips = append(k.strips, a.strips...)
	}
	return k, true
}
