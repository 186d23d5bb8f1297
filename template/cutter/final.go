package cutter

import "listel/profile/geom"

// final orders a plan with care for what falls off, and drops cuts that have nothing left to do because what they were to take fell off before.
func (s *search) final(p plan) plan {
	for {
		o := s.newOrderer(p.picked)
		o.loose = true
		p.order, _ = o.best(s.finalBeam())
		if p.violations = violations(p.order); p.violations > 0 {
			p.order, _ = o.best(4 * s.finalBeam())
			p.violations = violations(p.order)
		}
		k := s.useless(p, o)
		if k < 0 {
			s.keepClear(&p, o)
			return p
		}
		p.picked = append(append([]int{}, p.picked[:k]...), p.picked[k+1:]...)
	}
}

// keepClear plays an ordered plan through on fine columns and, where an offcut would lie between blade and fence, turns the work so that it falls
// free; where that cannot be, the step says so.
func (s *search) keepClear(p *plan, o *orderer) {
	wood, keep, done := newBlock(s.t.blank), deepInside(s.t.poly), uint64(0)
	for i := range p.order {
		pl := &p.order[i]
		st := &o.steps[pl.step]
		wood.cut(newPolygon(silhouette(st.cut)))
		for _, off := range wood.drop(keep) {
			if off.area < 2 {
				continue
			}
			if s.tools[st.cut.tool].Works() != Saw {
				pl.notes |= comesLoose
				continue
			}
			s.turn(pl, st, o, done, off.at)
		}
		done |= 1 << pl.step
	}
	p.violations = violations(p.order)
}

// turn lays the work of a saw cut so that an offcut with its middle at mid lies on the side of the blade away from the fence.
func (s *search) turn(pl *placed, st *step, o *orderer, done uint64, mid geom.Point) {
	free := func(a int) bool { return s.beyond(st.cut, st.stands[a], mid) }
	if free(pl.stance) {
		pl.notes &^= trapped
		return
	}
	for a := range st.stands {
		if n, _ := o.judge(pl.step, a, done); free(a) && n&forbidden&^trapped == 0 {
			pl.stance, pl.notes = a, n&^trapped
			return
		}
	}
	pl.notes |= trapped
}

// beyond reports whether p lies on the side of a blade that is away from the fence.
func (s *search) beyond(c *cut, a stance, p geom.Point) bool {
	away := -s.t.sides[a.fence].n.Dot(c.view.right())
	return (c.view.in(p).X-c.x)*away > 0
}

// useless returns a picked single cut that takes nothing where it stands in the order and cleans nothing that the others do not, -1
// without one.
func (s *search) useless(p plan, o *orderer) int {
	wood, keep := newBlock(s.t.blank), deepInside(s.t.poly)
	for _, pl := range p.order {
		c := o.steps[pl.step].cut
		before := wood.area()
		wood.cut(newPolygon(silhouette(c)))
		wood.drop(keep)
		if before-wood.area() > 0.05 {
			continue
		}
		for i, k := range p.picked {
			if &s.cuts[k] != c {
				continue
			}
			rest := append(append([]int{}, p.picked[:i]...), p.picked[i+1:]...)
			m := s.missing(rest)
			if m.count() == 0 || m.first() >= s.rows.point(0) {
				return i
			}
		}
	}
	return -1
}
