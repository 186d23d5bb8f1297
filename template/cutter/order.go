package cutter

import (
	"cmp"
	"math"
	"slices"

	"listel/profile/geom"
)

// A note is something to watch in a set-up.
type note uint16

const (
	noTable     note = 1 << iota // nothing bears on the table before the cut
	noFence                      // nothing bears on the fence before the cut
	trapped                      // wood or offcut caught between tool and fence
	bodyHits                     // shank or body runs into waste
	noPilot                      // the pilot has nothing to run on
	tableGoes                    // what bears on the table is cut away
	fenceGoes                    // what bears on the fence is cut away
	narrowTable                  // little bears on the table
	narrowFence                  // little bears on the fence
	tips                         // the weight lies beside what bears on the table
	hogs                         // a form cutter takes away much
	comesLoose                   // a router or plane frees an offcut
	idle                         // nothing is left to take
)

// forbidden are the notes that no step of a plan may have.
const forbidden = noTable | noFence | trapped | bodyHits | noPilot

// noteCost is what a note weighs against an order, in set-ups.
func noteCost(n note) float64 {
	costs := [...]float64{1000, 1000, 1000, 1000, 1000, 3, 1.5, 0.4, 0.2, 0.3, 0, 1, 2}
	sum := 0.0
	for i, c := range costs {
		if n&(1<<i) != 0 {
			sum += c
		}
	}
	return sum
}

// A placed step is a set-up with its place in the order and the way the blank lies.
type placed struct {
	step   int
	stance int
	notes  note
}

// A state is a beginning of an order.
type state struct {
	done uint64
	cost float64
	last placed
	prev *state // before the last step, nil at the beginning
}

// order returns the steps in their order.
func (st *state) order() []placed {
	var out []placed
	for ; st.prev != nil; st = st.prev {
		out = append(out, st.last)
	}
	slices.Reverse(out)
	return out
}

// An orderer looks for the order of a plan's steps.
type orderer struct {
	s      *search
	steps  []step
	wood   *lattice
	takes  [][]int32              // cells of waste that each step cuts
	fair   []float64              // mm2 that each step may well take: what lies within reach of its shape
	loose  bool                   // judge what falls off, too: dearer
	known  map[uint64][]judgment  // after the steps in a set: of each step, lying in each of its ways
	first  []int                  // of a step's judgments
	widths map[uint64]*[4]float64 // after the steps in a set: of wood on each side of the blank, negative where it is not known yet
	faces  [4][]stretch           // of each side, nil before they are asked for
	seen   sight
	manner manner // beyond safety; none while a plan is looked for
}

// A judgment is what is to be said of a step where it stands in an order.
type judgment struct {
	made bool
	n    note
	cost float64
}

func (s *search) newOrderer(solution []int) *orderer {
	o := &orderer{s: s, steps: s.steps(solution)}
	o.wood = s.newLattice(o.steps)
	o.known, o.widths = map[uint64][]judgment{}, map[uint64]*[4]float64{}
	ways := 0
	for k := range o.steps {
		o.first = append(o.first, ways)
		ways += len(o.steps[k].stands)
	}
	o.first = append(o.first, ways)
	for k := range o.steps {
		c := o.steps[k].cut
		var cells []int32
		fair := 0
		for i := range o.wood.cells {
			if q := &o.wood.cells[i]; q.mask&(1<<k) != 0 {
				cells = append(cells, int32(i))
				if c.view.in(q.p).Y <= c.h+c.variant.bulk {
					fair++
				}
			}
		}
		o.takes, o.fair = append(o.takes, cells), append(o.fair, float64(fair)*o.wood.cell)
	}
	return o
}

// best returns the cheapest order that a beam of the given width finds, and its cost. With a beam at least as wide as the number of
// sets of steps it is the cheapest of all.
func (o *orderer) best(beam int) ([]placed, float64) {
	states := []state{{}}
	for range o.steps {
		next := map[uint64]int{}
		var grown []state
		for i := range states {
			for k := range o.steps {
				if states[i].done&(1<<k) != 0 {
					continue
				}
				g := o.grow(&states[i], k)
				key := g.done*67 + uint64(k)
				if at, ok := next[key]; !ok {
					next[key] = len(grown)
					grown = append(grown, g)
				} else if g.cost < grown[at].cost-1e-12 {
					grown[at] = g
				}
			}
		}
		slices.SortStableFunc(grown, func(a, b state) int { return cmp.Compare(a.cost, b.cost) })
		states = slices.Clone(grown[:min(beam, len(grown))])
	}
	return states[0].order(), states[0].cost
}

// follow returns the steps in the order in which their cuts stand in a list, and its cost; ok is false when one of them does not.
func (o *orderer) follow(cuts []*cut) (order []placed, cost float64, ok bool) {
	st := &state{}
	for _, c := range cuts {
		for k := range o.steps {
			if o.steps[k].cut == c && st.done&(1<<k) == 0 {
				next := o.grow(st, k)
				st = &next
				break
			}
		}
	}
	order = st.order()
	return order, st.cost, len(order) == len(o.steps)
}

// grow returns the state with step k done next, lying the better of its ways.
func (o *orderer) grow(st *state, k int) state {
	best, cost, notes := 0, 0.0, note(0)
	lost := 0.0
	if ps := o.manner.back; ps != nil {
		if side := o.s.backSide(); o.width(side, ps, st.done) < o.width(side, ps, 0)/2 {
			lost = backCost
		}
	}
	for a := range o.steps[k].stands {
		n, c := o.judge(k, a, st.done)
		c += o.manner.notes * noteCost(n&^forbidden)
		if st.prev != nil {
			c += o.change(st.last, k, a)
		}
		if a == 0 || c < cost-1e-12 {
			best, cost, notes = a, c, n
		}
	}
	return state{done: st.done | 1<<k, cost: st.cost + cost + lost, last: placed{k, best, notes}, prev: st}
}

// change returns what it costs to go from one set-up to the next: another tool, another way to lie, a machine used again after the next
// one.
func (o *orderer) change(last placed, k, a int) float64 {
	p, q := &o.steps[last.step], &o.steps[k]
	cost := 0.0
	if p.cut.tool != q.cut.tool {
		cost += 0.2
	}
	l, m := p.stands[last.stance], q.stands[a]
	if l.table != m.table {
		cost += 0.1
	}
	if l.fence != m.fence {
		cost += 0.05
	}
	if o.s.tools[q.cut.tool].Works().rank() < o.s.tools[p.cut.tool].Works().rank() {
		cost += 0.5 + o.manner.again
	}
	return cost
}

// rank is the place of a work in a plan.
func (w Work) rank() int {
	switch w {
	case Saw:
		return 0
	case Router:
		return 1
	}
	return 2
}

// judge returns what is to be said of step k, lying as in its stance a, after the steps in done, and what that costs.
func (o *orderer) judge(k, a int, done uint64) (note, float64) {
	all, ok := o.known[done]
	if !ok {
		all = make([]judgment, o.first[len(o.steps)])
		o.known[done] = all
	}
	j := &all[o.first[k]+a]
	if !j.made {
		n, cost := o.examine(k, a, done)
		*j = judgment{true, n, cost}
	}
	return j.n, j.cost
}

// examine is judge without its memory.
func (o *orderer) examine(k, a int, done uint64) (note, float64) {
	st := &o.steps[k]
	f := &st.stands[a].feed
	t := o.s.tools[st.cut.tool]
	after := done | 1<<k
	var n note
	hand := t.Works() == Plane
	w := st.stands[a]
	n |= bearing(o.width(w.table, f.table, done), o.width(w.table, f.table, after), leastTable, fairTable, noTable, tableGoes, narrowTable)
	if !hand {
		n |= bearing(o.width(w.fence, f.fence, done), o.width(w.fence, f.fence, after), leastFence, fairFence, noFence, fenceGoes, narrowFence)
		if o.traps(st, k, a, done) {
			n |= trapped
		}
	}
	seen := o.look(k, done)
	if seen.body {
		n |= bodyHits
	}
	if st.cut.variant.pilot > 0 && standing(f.pilot[0], after) < 6 && standing(f.pilot[1], after) < 6 {
		n |= noPilot
	}
	if n&(noTable|tableGoes) == 0 && o.tipsOver(f, st.stands[a], after) {
		n |= tips
	}
	if o.loose {
		n |= o.falls(k, a, done)
	}
	cost := noteCost(n)
	if t.IsForm() {
		if removed := seen.removed - o.fair[k]; removed > 10 {
			n |= hogs
			cost += removed / 60
		}
	}
	return n, cost
}

// A sight is what a step finds where it stands in an order, however the work lies.
type sight struct {
	step       int
	done       uint64
	made       bool
	body       bool       // shank or body would run into waste
	removed    float64    // mm2 that it takes away, as far as no offcut fell off before
	cut, loose float64    // likewise in what hangs together, and what falls off with it: only where that is looked at
	mid        geom.Point // of what falls off
}

// look returns what step k finds after the steps in done: once for the ways in which the work may lie, which are judged one after the other.
func (o *orderer) look(k int, done uint64) *sight {
	if s := &o.seen; s.made && s.step == k && s.done == done {
		return s
	}
	st := &o.steps[k]
	o.seen = sight{step: k, done: done, made: true, body: anyStands(st.stands[0].feed.body, done|1<<k)}
	if o.s.tools[st.cut.tool].IsForm() {
		o.seen.removed = o.removed(k, done)
	}
	if o.loose {
		o.seen.cut, o.seen.loose, o.seen.mid = o.wood.taken(k, done)
	}
	return &o.seen
}

// traps reports whether the cut leaves the work, or an offcut, between tool and fence: wood must stand on the tool's far side, unless
// none stands on its near side either.
func (o *orderer) traps(st *step, k, a int, done uint64) bool {
	w := &st.stands[a]
	after := done | 1<<k
	if o.s.tools[st.cut.tool].Works() == Saw {
		if st.freed == nil || st.partner >= 0 && done&(1<<st.partner) == 0 {
			return false
		}
		return !o.s.beyond(st.cut, *w, st.freed.at)
	}
	if o.count(w.feed.outer, after) >= 2 {
		return false
	}
	near := math.Inf(1)
	for _, i := range o.takes[k] {
		if q := &o.wood.cells[i]; q.stands(done) {
			near = math.Min(near, o.s.machine(*w, q.p).X-latticePitch/2)
		}
	}
	for i := range w.feed.inner {
		p := &w.feed.inner[i]
		if p.stands(after) && o.s.machine(*w, p.p).X < near && (!o.loose || p.solid || o.wood.held(after).has(int(p.cell))) {
			return true
		}
	}
	return false
}

// falls judges what a step takes and frees: an offcut must not be caught between blade and fence, nor jump about a router bit, and a step
// that has nothing left to take is in the wrong place.
func (o *orderer) falls(k, a int, done uint64) note {
	st := &o.steps[k]
	seen := o.look(k, done)
	cut, loose, mid := seen.cut, seen.loose, seen.mid
	saw := o.s.tools[st.cut.tool].Works() == Saw
	n := note(0)
	switch w := st.stands[a]; {
	case loose < 4:
	case !saw:
		n |= comesLoose
	default:
		if !o.s.beyond(st.cut, w, mid) {
			n |= trapped
		}
	}
	if cut+loose == 0 && len(o.takes[k]) > 2 {
		n |= idle
	}
	return n
}

// tipsOver reports whether the middle of the section lies beside what bears on the table by more than a tenth of the blank.
func (o *orderer) tipsOver(f *feeler, a stance, after uint64) bool {
	mid := o.s.machine(a, o.s.center).X
	hi := -1e9
	for i := range f.table { // the face runs straight: its ends that stand decide
		if f.table[i].stands(after) {
			hi = o.s.machine(a, f.table[i].p).X
			break
		}
	}
	for i := len(f.table) - 1; i >= 0; i-- {
		if f.table[i].stands(after) {
			hi = max(hi, o.s.machine(a, f.table[i].p).X)
			break
		}
	}
	slack := faceStep * float64(len(f.table)) / 10
	return mid > hi+slack // the fence holds it on the other side
}

// removed returns the area, in mm2, that step k takes away after the steps in done, as far as no offcut fell off before.
func (o *orderer) removed(k int, done uint64) float64 {
	n := 0
	for _, i := range o.takes[k] {
		if o.wood.cells[i].stands(done) {
			n++
		}
	}
	return float64(n) * o.wood.cell
}

// violations counts the forbidden notes of an order.
func violations(order []placed) int {
	n := 0
	for _, p := range order {
		for b := note(1); b <= noPilot; b <<= 1 {
			if p.notes&b != 0 {
				n++
			}
		}
	}
	return n
}
