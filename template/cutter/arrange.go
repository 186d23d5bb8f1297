package cutter

import "slices"

// A manner is what an order is looked for by beyond the safety of its set-ups: what a woodworker would rather have of two that are as safe.
type manner struct {
	notes float64 // times the cost of a note to watch, over its own
	again float64 // set-ups, of going back to a machine that comes before in a plan
	back  []probe // of the blank's back: each set-up after one that takes half of it away costs backCost; nil where none does
}

// manners are those that orders of a finished plan are looked for by: less to watch, each machine used in one go, and both.
var manners = [...]manner{{notes: 1, again: 0.5}, {notes: 1}, {notes: 0.5, again: 1}}

// What an order is weighed by, in set-ups, besides the cost of its notes. Common practice, no source.
const (
	stripCost  = 0.4  // a strip that bears and may break
	shiftCost  = 0.3  // from one machine to another
	changeCost = 0.05 // of tools
	backCost   = 0.1  // each set-up after one that takes half of the back away: what bears best is kept as long as can be
)

// arrange returns a finished plan in the order that a woodworker would rather work in: the same cuts, as safe, each with something to take, less to
// watch and fewer ways between the machines.
func (s *search) arrange(p plan) plan {
	if len(p.order) < 3 {
		return p
	}
	o := s.newOrderer(p.picked)
	o.loose = true
	best, weight := p, s.weigh(p, o)
	back := s.along(s.backSide(), o.steps)
	for _, m := range manners {
		m.back = back
		o.manner = m
		q := p
		q.order, _ = o.best(s.finalBeam())
		q.violations = violations(q.order)
		if q.violations > p.violations || slices.Equal(q.order, best.order) {
			continue
		}
		o.manner = manner{}
		s.keepClear(&q, o)
		if q.violations > best.violations || s.idle(q, o) != nil {
			continue
		}
		if w := s.weigh(q, o); q.violations < best.violations || w < weight-1e-9 {
			best, weight = q, w
		}
	}
	return best
}

// weigh returns what speaks against the order of a plan, in set-ups.
func (s *search) weigh(p plan, o *orderer) float64 {
	wood, keep := newBlock(s.t.blank), deepInside(s.t.poly)
	back, sum := s.backSide(), 0.0
	whole := s.bears(wood, back)
	for i, pl := range p.order {
		st := &o.steps[pl.step]
		w, t := &st.stands[pl.stance], s.tools[st.cut.tool]
		if s.bears(wood, back) < whole/2 {
			sum += backCost
		}
		wood.cut(newPolygon(silhouette(st.cut)))
		wood.drop(keep)
		sum += noteCost(pl.notes)
		if s.strip(wood, w.table) > 0 || t.Works() != Plane && s.strip(wood, w.fence) > 0 {
			sum += stripCost
		}
		if i == 0 {
			continue
		}
		last := s.tools[o.steps[p.order[i-1].step].cut.tool]
		if last.Name != t.Name {
			sum += changeCost
		}
		if last.Works() != t.Works() {
			sum += shiftCost
		}
	}
	return sum
}

// backSide returns the side of the blank at the molding's back.
func (s *search) backSide() int {
	return slices.IndexFunc(s.t.sides, func(f side) bool { return f.name == Back || f.name == Spring })
}
