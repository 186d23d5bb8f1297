package cutter

import (
	"math"

	"listel/profile/geom"
)

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
		before := wood.clone()
		wood.cut(newPolygon(silhouette(st.cut)))
		cut := wood.clone()
		off := wood.drop(keep)
		if s.tools[st.cut.tool].Works() == Router {
			s.turnClear(pl, st, o, done, [3]*block{before, cut, wood})
		}
		for _, off := range off {
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

// turnClear lays the work of a router cut so that it is not caught between tool and fence: before the cut, after it, and without what fell off.
func (s *search) turnClear(pl *placed, st *step, o *orderer, done uint64, wood [3]*block) {
	caught := func(a int) bool {
		w := &st.stands[a]
		return o.count(w.feed.outer, done|1<<pl.step) < 2 && s.caught(wood, st.cut, *w)
	}
	if !caught(pl.stance) {
		pl.notes &^= trapped
		return
	}
	for a := range st.stands {
		if n, _ := o.judge(pl.step, a, done); n&forbidden&^trapped == 0 && !caught(a) {
			pl.stance, pl.notes = a, n&^trapped
			return
		}
	}
	pl.notes |= trapped
}

// leastGrip is the area in mm2 of a cut that can catch the work: a lighter shaving does not. Common practice, no source.
const leastGrip = 2.5

// caught reports whether a cut leaves wood, at the heights that it reaches, on its fence side alone.
func (s *search) caught(wood [3]*block, c *cut, a stance) bool {
	near, far := math.Inf(1), math.Inf(-1)
	_, _, high := s.extent(c, a)
	for i, r := range wood[0].runs {
		for _, y := range subtract(r, wood[1].runs[i]) {
			q := s.machine(a, geom.Pt(wood[0].x(i), y))
			near, far, high = math.Min(near, q.X), math.Max(far, q.X), math.Max(high, q.Y)
		}
	}
	if wood[0].area()-wood[2].area() < leastGrip {
		return false
	}
	inner, outer := false, false
	for i, r := range wood[2].runs {
		for k := 0; k+1 < len(r); k += 2 {
			for y := r[k] + pitch/2; y < r[k+1]; y += 2 * pitch {
				if q := s.machine(a, geom.Pt(wood[2].x(i), y)); q.Y < high {
					inner = inner || q.X < near-0.4
					outer = outer || q.X > far+0.4
				}
			}
		}
	}
	return inner && !outer
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
