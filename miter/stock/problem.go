package stock

import (
	"cmp"
	"slices"
)

// A unit is what is cut from a stick in one go: a piece, or a wrap's pieces in their order. Units of one class that are
// equal in size and tail are one unit with a demand.
type unit struct {
	class  int
	size   int64 // length and kerf, in the problem's units
	tail   int64 // what a stick must still hold beyond its units if no unit on it has a lesser tail (Shop.Safe); 0 mostly
	demand int
}

// A bin is a kind of strip: the class it is for and what it holds, in the problem's units, one kerf included.
type bin struct {
	class    int
	capacity int64
	ease     int64 // of a unit's tail so much may lie beyond capacity (see lengthening); 0 mostly
	raw      int64 // usable length of the strip, without the kerf, in exact units
}

// A source is one way to use an item: a stick, or a board ripped to strips.
type source struct {
	item  int
	gives []give
	rip   []ripped // what is ripped from the board, class by class
}

// A give is a number of strips of one kind.
type give struct{ bin, n int }

// ripped is a number of strips of one class.
type ripped struct{ class, n int }

// unlimited stands for as many items as are wanted.
const unlimited = -1

// A supply is an item as the search sees it.
type supply struct {
	cost int64 // in the problem's money, >= 0
	have int   // unlimited or >= 0
}

// A problem is a covering problem in whole numbers: buy sources, each of which gives strips, and cut units from the
// strips, so that each unit is cut demand times, at least cost. Units are sorted by class and falling size.
type problem struct {
	units   []unit
	bins    []bin
	sources []source
	items   []supply
	steps   []int64 // class: exact units in one of the problem's

	unitsOf   [][2]int // class: first unit and one past the last
	binsOf    [][]int  // class: its bins
	givers    [][]int  // bin: the sources that give it
	sourcesOf [][]int  // item with sources: them
	plain     []bool   // source: gives one strip of one kind, unlimited
	limited   []int    // items with a limited count
	longTail  bool     // some unit has a tail
	scale     uint     // duals are in money << scale
	made      *packing // a plan known beforehand, or nil
	topDual   int64    // greatest dual of a unit: far more than any source costs
}

// index fills the tables that follow, anew if sources were added, from units, bins, sources and items.
func (p *problem) index() {
	classes := 0
	for _, b := range p.bins {
		classes = max(classes, b.class+1)
	}
	for _, u := range p.units {
		classes = max(classes, u.class+1)
	}
	for len(p.steps) < classes {
		p.steps = append(p.steps, 1)
	}
	p.unitsOf = make([][2]int, classes)
	p.binsOf = make([][]int, classes)
	for i, u := range p.units {
		if r := &p.unitsOf[u.class]; r[1] == 0 {
			*r = [2]int{i, i + 1}
		} else {
			r[1] = i + 1
		}
		p.longTail = p.longTail || u.tail > 0
	}
	for i, b := range p.bins {
		p.binsOf[b.class] = append(p.binsOf[b.class], i)
	}
	p.givers = make([][]int, len(p.bins))
	of := make([][]int, len(p.items))
	for i, s := range p.sources {
		of[s.item] = append(of[s.item], i)
	}
	p.sourcesOf = slices.DeleteFunc(of, func(l []int) bool { return len(l) == 0 })
	p.plain = make([]bool, len(p.sources))
	for i, s := range p.sources {
		for _, g := range s.gives {
			p.givers[g.bin] = append(p.givers[g.bin], i)
		}
		p.plain[i] = len(s.gives) == 1 && s.gives[0].n == 1 && p.items[s.item].have == unlimited
	}
	p.limited = nil
	var dearest int64
	for i, it := range p.items {
		dearest = max(dearest, it.cost)
		if it.have != unlimited {
			p.limited = append(p.limited, i)
		}
	}
	// The dearest item comes to at least 2^26, so that rounding a dual down loses next to nothing of it, while a dual
	// times a length stays far from overflow.
	for dearest<<p.scale < 1<<26 && p.scale < 26 {
		p.scale++
	}
	p.topDual = bigM * max(dearest, 1) << p.scale
}

// price returns what a source costs.
func (p *problem) price(s int) int64 { return p.items[p.sources[s].item].cost }

// demand returns how many units there are to cut.
func (p *problem) demand() int {
	n := 0
	for _, u := range p.units {
		n += u.demand
	}
	return n
}

// A part is a number of one unit in a pattern.
type part struct {
	unit int32
	n    int32
}

// A pattern is what is cut from one strip, by rising unit index.
type pattern []part

// A filled is one strip of a plan and what is cut from it.
type filled struct {
	bin int
	pat pattern
}

// A packing is a whole answer: the sources bought and the strips cut.
type packing struct {
	bought []int // count for each source
	strips []filled
	cost   int64
}

// costOf returns the cost of what is bought.
func (p *problem) costOf(bought []int) int64 {
	var c int64
	for s, n := range bought {
		c += int64(n) * p.price(s)
	}
	return c
}

// fits tells whether pat can be cut from a strip of bin b.
func (p *problem) fits(pat pattern, b bin) bool {
	var sum int64
	tail := int64(-1)
	for _, q := range pat {
		u := p.units[q.unit]
		sum += u.size * int64(q.n)
		if tail < 0 || u.tail < tail {
			tail = u.tail
		}
	}
	return sum <= b.capacity && sum+tail <= b.capacity+b.ease
}

// check tells whether a packing is an answer: every unit cut often enough, from strips that were bought and hold it. It
// shares nothing with the searches but the problem, and every plan passes through it.
func (p *problem) check(k *packing) bool {
	cut := make([]int, len(p.units))
	strips := make([]int, len(p.bins))
	used := make([]int, len(p.items))
	for s, n := range k.bought {
		used[p.sources[s].item] += n
		for _, g := range p.sources[s].gives {
			strips[g.bin] += n * g.n
		}
	}
	for i, it := range p.items {
		if it.have != unlimited && used[i] > it.have {
			return false
		}
	}
	for _, f := range k.strips {
		strips[f.bin]--
		if !p.fits(f.pat, p.bins[f.bin]) {
			return false
		}
		for _, q := range f.pat {
			if p.units[q.unit].class != p.bins[f.bin].class {
				return false
			}
			cut[q.unit] += int(q.n)
		}
	}
	for i, u := range p.units {
		if cut[i] < u.demand {
			return false
		}
	}
	return !slices.ContainsFunc(strips, func(n int) bool { return n < 0 }) && k.cost == p.costOf(k.bought)
}

// tidy gives back what was bought and is not needed: sources whose strips can all be spared, the dearest first.
func (p *problem) tidy(k *packing) {
	spare := make([]int, len(p.bins))
	for s, n := range k.bought {
		for _, g := range p.sources[s].gives {
			spare[g.bin] += n * g.n
		}
	}
	for _, f := range k.strips {
		spare[f.bin]--
	}
	order := make([]int, len(p.sources))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p.price(b), p.price(a)) })
	for _, s := range order {
		for k.bought[s] > 0 && !slices.ContainsFunc(p.sources[s].gives, func(g give) bool { return spare[g.bin] < g.n }) {
			k.bought[s]--
			for _, g := range p.sources[s].gives {
				spare[g.bin] -= g.n
			}
		}
	}
	k.cost = p.costOf(k.bought)
}
