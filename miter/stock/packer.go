package stock

import (
	"encoding/binary"
	"slices"
)

// A packer answers, for one class, whether its units can be cut from given numbers of strips, of which one may be held to less than it
// is long. The strips are the stock of a problem of its own: each costs what it holds, and all of them may be used, so that the
// slack of a search is the waste allowed. What it learns from one question serves the next: the linear program goes on from where it stood, and worths
// that proved once that strips do not do are tried first.
type packer struct {
	p      *problem
	class  int
	q      *problem
	m      *master // nil before the first question
	worths []*worths
	eff    *effort
	tune   tuning
	known  []filled // patterns for the linear program to start with, in the numbers of q
	said   map[string]packed
}

// A packed is an answer of a packer.
type packed struct {
	strips    []filled // in the numbers of the problem
	found     bool
	exhausted bool // if not found: there is no way
	nodes     int64
}

// A held is a strip of which no more than room may be used; bin -1 is none.
type held struct {
	bin  int
	room int64
}

// packerCols is how many patterns a packer's linear program may know before all but those in use are forgotten.
const packerCols = 1500

// packers returns a packer for each class; known are patterns for their linear programs to start with.
func (p *problem) packers(known []filled, eff *effort, tune tuning) []*packer {
	out := make([]*packer, len(p.unitsOf))
	for class := range out {
		out[class] = newPacker(p, class, known, eff, tune)
	}
	return out
}

func newPacker(p *problem, class int, known []filled, eff *effort, tune tuning) *packer {
	k := &packer{p: p, class: class, q: &problem{}, eff: eff, tune: tune, said: map[string]packed{}}
	r := p.unitsOf[class]
	size := make([]int64, 0, r[1]-r[0])
	for _, u := range p.units[r[0]:r[1]] {
		u.class = 0
		k.q.units = append(k.q.units, u)
		size = append(size, u.size)
	}
	add := func(b bin, cost int64, have int) {
		k.q.sources = append(k.q.sources, source{item: len(k.q.items), gives: []give{{len(k.q.bins), 1}}})
		k.q.items = append(k.q.items, supply{cost, have})
		k.q.bins = append(k.q.bins, b)
	}
	for _, b := range p.binsOf[class] {
		c := p.bins[b].capacity
		add(bin{capacity: c, ease: p.bins[b].ease}, c, k.q.demand())
	}
	add(bin{}, 0, 1) // the strip held back
	k.q.index()
	k.known = p.part(class, p.binsOf[class], known)
	k.worths = []*worths{newWorths(k.q, size, eff, tune)}
	return k
}

// part returns the patterns of some of a class's bins, in the numbers of the class's own problem.
func (p *problem) part(class int, bins []int, known []filled) []filled {
	var out []filled
	first := int32(p.unitsOf[class][0])
	for _, f := range known {
		b := slices.Index(bins, f.bin)
		if b < 0 {
			continue
		}
		pat := slices.Clone(f.pat)
		for i := range pat {
			pat[i].unit -= first
		}
		out = append(out, filled{b, pat})
	}
	return out
}

// key returns what tells one question from another.
func (k *packer) key(avail []int, h held) string {
	out := binary.AppendVarint(nil, int64(h.bin))
	if h.bin >= 0 {
		out = binary.AppendVarint(out, h.room)
	}
	for _, b := range k.p.binsOf[k.class] {
		out = binary.AppendUvarint(out, uint64(avail[b]))
	}
	return string(out)
}

// ask looks for a way to cut the units from avail strips of the problem's bins, one of them held back, within so many nodes.
func (k *packer) ask(avail []int, h held, nodes int64) packed {
	if len(k.q.units) == 0 {
		return packed{found: true, exhausted: true}
	}
	key := k.key(avail, h)
	if a, ok := k.said[key]; ok && (a.found || a.exhausted || a.nodes >= nodes) {
		return a
	}
	a := packed{nodes: nodes}
	if k.hopeless(avail, h) {
		a.exhausted = true
	} else {
		k.eff.within(nodes, func() { k.search(&a, avail, h) })
	}
	k.said[key] = a
	return a
}

// search answers by linear program, plans made in one go, and search.
func (k *packer) search(a *packed, avail []int, h held) {
	d, s := k.solve(avail, h)
	if k.learn(d, avail, h) || d.slack(k.q, s) < 0 {
		a.exhausted = true
		return
	}
	var plan *packing
	if plan, a.exhausted = k.q.complete(s, d, k.m, k.eff, k.tune); plan == nil {
		return
	}
	a.found = true
	first := int32(k.p.unitsOf[k.class][0])
	for _, f := range plan.strips {
		b := h.bin
		if f.bin < len(k.q.bins)-1 {
			b = k.p.binsOf[k.class][f.bin]
		}
		for i := range f.pat {
			f.pat[i].unit += first
		}
		a.strips = append(a.strips, filled{b, f.pat})
	}
}

// solve solves the linear program of a question.
func (k *packer) solve(avail []int, h held) (*duals, *state) {
	s := k.state(avail, h)
	if k.m != nil && len(k.m.of) > packerCols {
		k.known, k.m = k.m.inUse(), nil
	}
	if k.m == nil {
		k.m = newMaster(k.q, s, k.eff, k.tune, k.known...)
		k.m.lean, k.m.quick = true, true
		k.m.shut(len(k.q.bins) - 1)
		return k.m.solve(s), s
	}
	k.m.shut(len(k.q.bins) - 1)
	return k.m.again(s, nil), s
}

// state returns the state in which a question is asked, and sets the strip held back.
func (k *packer) state(avail []int, h held) *state {
	s := k.q.start(0)
	last := len(k.q.bins) - 1
	s.left[last] = 0
	for i, b := range k.p.binsOf[k.class] {
		s.left[i] = min(avail[b], k.q.items[i].have)
		if b == h.bin {
			s.left[i], s.left[last] = min(avail[b]-1, k.q.items[i].have), 1
		}
		s.money += int64(s.left[i]) * k.q.items[i].cost
	}
	k.q.bins[last].capacity, k.q.bins[last].ease = 0, 0
	if h.bin >= 0 {
		k.q.bins[last].capacity, k.q.bins[last].ease = h.room, k.p.bins[h.bin].capacity-h.room
	}
	return s
}

// possible tells whether the linear program allows a question's strips.
func (k *packer) possible(avail []int, h held) bool {
	if len(k.q.units) == 0 || k.tune.noWorths {
		return true
	}
	if k.hopeless(avail, h) {
		return false
	}
	d, s := k.solve(avail, h)
	return !k.learn(d, avail, h) && d.slack(k.q, s) >= 0
}

// worthsCap is how many worths a packer keeps.
const worthsCap = 200

// learn keeps worths if they prove that the strips do not do, and tells whether they do.
func (k *packer) learn(d *duals, avail []int, h held) bool {
	w := newWorths(k.q, d.pi, k.eff, k.tune)
	if !w.refuse(k, avail, h) {
		return false
	}
	if len(k.worths) < worthsCap {
		k.worths = append(k.worths, w)
	}
	return true
}

// hopeless tells whether worths known prove that the strips do not do.
func (k *packer) hopeless(avail []int, h held) bool {
	for i := len(k.worths) - 1; i >= 0; i-- {
		if k.worths[i].refuse(k, avail, h) {
			return true
		}
	}
	return false
}

// room returns the least room from h's own up to most with which no worths known refuse the strips; more than most if there is none.
func (k *packer) room(avail []int, h held, most int64) int64 {
	for _, w := range k.worths {
		if !w.refuse(k, avail, h) {
			continue
		}
		low, high := h.room+1, most+1
		for low < high {
			mid := low + (high-low)/2
			if w.refuse(k, avail, held{h.bin, mid}) {
				low = mid + 1
			} else {
				high = mid
			}
		}
		if h.room = low; low > most {
			break
		}
	}
	return h.room
}

// A worths is what each unit is worth and how much of that the strips can hold: where a purchase's strips hold less than all units are
// worth, they do not do, whatever made the worths.
type worths struct {
	pi    []int64
	total int64
	k     *knapsack
	most  map[[2]int64]int64 // capacity and ease: the most that such a strip holds
}

func newWorths(q *problem, pi []int64, eff *effort, tune tuning) *worths {
	w := &worths{pi: pi, most: map[[2]int64]int64{}}
	rem := q.start(0).rem
	for u, n := range rem {
		w.total += int64(n) * pi[u]
	}
	w.k = newKnapsack(q, 0, pi, rem, eff, tune)
	return w
}

// holds returns the most that a strip holds.
func (w *worths) holds(capacity, ease int64) int64 {
	key := [2]int64{capacity, ease}
	v, ok := w.most[key]
	if !ok {
		v, _, _ = w.k.solve(capacity, ease)
		w.most[key] = v
	}
	return v
}

// refuse tells whether the strips of a question hold less than all units are worth.
func (w *worths) refuse(k *packer, avail []int, h held) bool {
	if k.tune.noWorths {
		return false
	}
	need := w.total
	for _, b := range k.p.binsOf[k.class] {
		n := avail[b]
		if b == h.bin {
			n--
		}
		if n > 0 {
			need -= int64(n) * w.holds(k.p.bins[b].capacity, k.p.bins[b].ease)
		}
		if need <= 0 {
			return false
		}
	}
	if h.bin < 0 {
		return true
	}
	return w.holds(h.room, k.p.bins[h.bin].capacity-h.room) < need
}
