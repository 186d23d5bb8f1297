package stock

import "math"

// dive makes plans by rounding the linear program: it buys what that buys whole, else one of what it buys most of, and solves anew, until
// all that it buys is whole. On the way each purchase is completed board by board.
func (c *counts) dive(bound int64) {
	n := c.box(c.first.countNode)
	for range c.p.demand() {
		s, cost, ok := c.state(n)
		if !ok || c.eff.over() {
			return
		}
		d := c.solve(s, nil)
		if c.r.up(cost+d.bound(c.p, s)) >= c.top {
			return
		}
		c.keep(c.p.boardwise(s, n.bought, d.values(), c.eff, c.tune))
		y := c.lp.buys(s)
		more := false
		at, most := -1, 0.0
		for i, v := range y {
			k := int(math.Floor(v + wholeSlop))
			if rest := v - float64(k); rest > most && rest > wholeSlop {
				at, most = i, rest
			}
			n.bought[i] += k
			more = more || k > 0
		}
		switch {
		case at < 0:
			k, _ := c.cut(n.bought, fillNodes)
			c.keep(k)
			return
		case !more:
			n.bought[at]++
		}
		if c.top <= bound {
			return
		}
	}
}

// keep keeps a plan if it is the cheapest.
func (c *counts) keep(k *packing) {
	if k != nil && k.cost < c.top && c.p.check(k) {
		c.best, c.top = k, k.cost
	}
}
