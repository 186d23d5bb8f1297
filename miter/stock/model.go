package stock

import (
	"cmp"
	"slices"
)

// A component is classes that share stock, made into a problem in whole numbers.
type component struct {
	job     *Job
	classes []*class
	prob    *problem
	items   []int     // item of the problem: index in the job's stock
	blocks  [][]block // unit of the problem: what may be cut for it
	planks  []*plank  // items of which not all ways to rip them are in the problem
	low     int64     // no plan costs less, however planks are ripped
}

// A block is what is cut in one go: a piece, or a run of a wrap.
type block struct {
	cuts []cut
	size int64 // in units, kerf included
	tail int64
}

// components groups classes that share stock, in the order of the first class of each.
func components(classes []*class) [][]*class {
	group := make([]int, len(classes))
	for i := range group {
		group[i] = i
	}
	owner := map[int]int{}
	for i, c := range classes {
		for _, u := range c.uses {
			k, ok := owner[u.item]
			if !ok {
				owner[u.item] = i
				continue
			}
			from, to := max(group[i], group[k]), min(group[i], group[k])
			for n := range group {
				if group[n] == from {
					group[n] = to
				}
			}
		}
	}
	var out [][]*class
	for g := range classes {
		var l []*class
		for i, c := range classes {
			if group[i] == g {
				l = append(l, c)
			}
		}
		if len(l) > 0 {
			out = append(out, l)
		}
	}
	return out
}

// newComponent makes the problem of some classes with their wraps divided as ch says.
func newComponent(j *Job, classes []*class, ch choice, costs []int64, tune tuning) *component {
	c := &component{job: j, classes: classes, prob: &problem{steps: make([]int64, len(classes))}}
	for i := range classes {
		c.addUnits(i, ch[i])
	}
	c.addSources(costs, tune)
	c.prob.index()
	return c
}

// addUnits adds a class's pieces and runs, equal ones together, by falling size.
func (c *component) addUnits(i int, ch [][]cutting) {
	cl := c.classes[i]
	kerf, safe := roundUp(c.job.Shop.Kerf), roundUp(c.job.Shop.Safe)
	var all []block
	for _, p := range cl.pieces {
		all = append(all, newBlock([]cut{p}, kerf, safe))
	}
	for k, w := range cl.wraps {
		for _, copy := range ch[k] {
			for _, run := range w.runs(copy) {
				all = append(all, newBlock(run, kerf, safe))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b block) int {
		return cmp.Or(cmp.Compare(b.size, a.size), cmp.Compare(a.tail, b.tail))
	})
	var step int64
	for _, b := range all {
		step = gcd(gcd(step, b.size), b.tail)
	}
	c.prob.steps[i] = max(step, 1)
	for n, b := range all {
		if n > 0 && b.size == all[n-1].size && b.tail == all[n-1].tail {
			last := len(c.blocks) - 1
			c.blocks[last] = append(c.blocks[last], b)
			c.prob.units[last].demand++
			continue
		}
		c.blocks = append(c.blocks, []block{b})
		c.prob.units = append(c.prob.units, unit{class: i, size: b.size / step, tail: b.tail / step, demand: 1})
	}
}

// newBlock measures pieces cut in one go. Its tail is what must be left on a stick that holds nothing longer than safe: so much
// that the last of them is still cut off a safe length. A run of pieces that is cut apart at a corner has two of them in
// hand there.
func newBlock(cuts []cut, kerf, safe int64) block {
	b := block{cuts: cuts}
	best := cuts[len(cuts)-1].units
	for i, p := range cuts {
		b.size += p.units + kerf
		best = max(best, p.units)
		if i > 0 {
			best = max(best, cuts[i-1].units+kerf+p.units)
		}
	}
	if best < safe {
		b.tail = safe - cuts[len(cuts)-1].units
	}
	return b
}

// addSources adds the items that serve the classes, each with the ways to rip it.
func (c *component) addSources(costs []int64, tune tuning) {
	for item := range c.job.Stock {
		var of []int
		var uses []use
		for i, cl := range c.classes {
			for _, u := range cl.uses {
				if u.item == item {
					of, uses = append(of, i), append(uses, u)
				}
			}
		}
		if len(of) == 0 {
			continue
		}
		c.items = append(c.items, item)
		c.prob.items = append(c.prob.items, supply{cost: costs[item], have: c.job.Stock[item].Have})
		c.addWays(len(c.items)-1, of, uses, tune)
	}
}

// addWays adds the ways to use one item for the classes of.
func (c *component) addWays(item int, of []int, uses []use, tune tuning) {
	var classes, most []int // that share the boards
	var shared []use
	var each, rest []int64
	for k, u := range uses {
		if u.width == 0 {
			c.addSource(item, []ripped{{of[k], 1}}, uses[k:k+1])
			continue
		}
		classes, shared, each = append(classes, of[k]), append(shared, u), append(each, u.width)
		rest = append(rest, u.rest)
		most = append(most, c.strips(of[k], u.usable))
	}
	if len(shared) == 0 {
		return
	}
	alone := slices.Clone(each) // what a strip takes by itself
	for k := range alone {
		alone[k] += rest[k]
	}
	narrow, apart := slices.Index(each, slices.Min(each)), slices.Index(alone, slices.Min(alone))
	most[narrow]++ // a strip to be left over whole
	if apart != narrow {
		most[apart]++
	}
	ways, whole := rips(c.job.board(c.items[item]), each, rest, most, tune.ripCap(ripCap))
	if !whole {
		c.addPlank(item, classes, shared, most)
		return
	}
	for _, w := range ways {
		var r []ripped
		var us []use
		for i, n := range w {
			if n > 0 {
				r, us = append(r, ripped{classes[i], n}), append(us, shared[i])
			}
		}
		c.addSource(item, r, us)
	}
}

// strips returns how many strips of a usable length hold every unit of a class that fits one, the longest cut first: more of them on
// one board, but for one that may be left over whole, are of no use.
func (c *component) strips(class int, usable int64) int {
	b := bin{capacity: c.room(class, usable)}
	var open []pattern
	for i, u := range c.prob.units {
		one := pattern{{int32(i), 1}}
		if u.class != class || !c.prob.fits(one, b) {
			continue
		}
		for range u.demand {
			k := slices.IndexFunc(open, func(pat pattern) bool { return c.prob.fits(append(slices.Clip(pat), one...), b) })
			if k < 0 {
				open = append(open, one)
				continue
			}
			open[k] = append(slices.Clip(open[k]), one...)
		}
	}
	return len(open)
}

// room returns what a strip of a usable length holds, in steps of a class.
func (c *component) room(class int, usable int64) int64 {
	return (usable + roundUp(c.job.Shop.Kerf)) / c.prob.steps[class]
}

func (c *component) addSource(item int, r []ripped, uses []use) {
	s := source{item: item, rip: r}
	for k, q := range r {
		s.gives = append(s.gives, give{c.bin(q.class, uses[k].usable), q.n})
	}
	c.prob.sources = append(c.prob.sources, s)
}

// bin returns the bin of a class for strips of a usable length.
func (c *component) bin(class int, usable int64) int {
	for i, b := range c.prob.bins {
		if b.class == class && b.raw == usable {
			return i
		}
	}
	c.prob.bins = append(c.prob.bins, bin{class: class, capacity: c.room(class, usable), raw: usable})
	return len(c.prob.bins) - 1
}
