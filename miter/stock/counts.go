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

// A countNode is a box of purchases that is kept open. It says only in what source it differs from the box it was split from: where a board can be
// ripped in thousands of ways, there are as many sources.
type countNode struct {
	bound  int64
	depth  int
	seq    int
	from   *basis     // where the linear program stood for the node it was split from
	parent *countNode // nil for the first box
	source int        // of which at least bought and at most most more are bought, unlike in the parent; -1 for none
	bought int
	most   int
}

// A box is a node with all that it says: at least bought of each source, at most most more.
type box struct {
	*countNode
	bought []int
	most   []int
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
	return &counts{p: p, base: base, known: known, eff: eff, tune: tune, r: r, top: top}
}

// run searches for plans that cost less than top, from a bound already known. It returns the bound reached: top when
// there is no better plan than the best found.
func (c *counts) run(bound int64) int64 {
	root := box{&countNode{bound: bound, source: -1}, make([]int, len(c.p.sources)), make([]int, len(c.p.sources))}
	for i := range root.most {
		root.most[i] = unlimited
		if c.p.price(i) == 0 && c.p.items[c.p.sources[i].item].have != unlimited && len(c.p.sourcesOf) == len(c.p.sources) {
			// what costs nothing and can be used in one way only is taken at once
			root.bought[i], root.most[i] = c.base.left[c.p.sources[i].item], 0
		} else if c.p.price(i) == 0 {
			root.most[i] = c.p.demand() // a strip for each unit is enough
		}
	}
	c.first = root
	heap.Push(&c.open, root.countNode)
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
	if k != nil && k.cost < c.top {
		c.best, c.top = k, k.cost
	}
	if k == nil && !exhausted {
		q.nodes *= 4
		c.late = append(c.late, q)
	}
	return k
}

// box returns a node with all that it says.
func (c *counts) box(n *countNode) box {
	b := box{n, slices.Clone(c.first.bought), slices.Clone(c.first.most)}
	said := make([]bool, len(b.bought))
	for ; n != nil; n = n.parent {
		if i := n.source; i >= 0 && !said[i] { // the youngest word counts
			b.bought[i], b.most[i], said[i] = n.bought, n.most, true
		}
	}
	return b
}

// state returns the state in which a box's purchases are made.
func (c *counts) state(n box) (*state, int64) {
	s := c.base.clone()
	s.most = n.most
	var cost int64
	for i, k := range n.bought {
		src := c.p.sources[i]
		cost += int64(k) * c.p.price(i)
		if s.left[src.item] != unlimited {
			s.left[src.item] -= k
		}
		for _, g := range src.gives {
			s.avail[g.bin] += k * g.n
		}
	}
	return s, cost
}

// expand solves a node's linear program and branches, or settles it.
func (c *counts) expand(node *countNode) {
	n := c.box(node)
	s, cost := c.state(n)
	if slices.ContainsFunc(s.left, func(l int) bool { return l < unlimited }) {
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
	var d *duals
	if c.lp == nil {
		c.lp = newMaster(c.p, s, c.eff, c.tune, c.known...)
		c.lp.quick = true
		d = c.lp.solve(s)
	} else {
		d = c.lp.again(s, n.from)
	}
	c.recall(d)
	bound := max(n.bound, c.r.up(cost+d.bound(c.p, s)))
	if bound >= c.top {
		return
	}
	y := c.lp.buys(s)
	n.from = c.lp.lp.mark()
	at := c.lp.branch(y)
	if at >= 0 {
		c.split(n, bound, at, int(math.Floor(y[at])))
		return
	}
	whole := slices.Clone(n.bought)
	for i, v := range y {
		whole[i] += int(math.Round(v))
	}
	c.settle(n, bound, whole)
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
	return &countNode{bound: bound, depth: n.depth + 1, seq: c.seq, from: n.from, parent: n.countNode, source: i, bought: bought, most: most}
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
	s, _ := c.state(box{bought: whole})
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
