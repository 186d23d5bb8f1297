package cutter

import (
	"math"

	"listel/profile/geom"
)

// final orders a plan with care for what falls off, and drops cuts that have nothing left to do because what they were to take fell off before.
func (s *search) final(p plan) plan {
	var last []*cut // the order before a cut was dropped: the others may keep it
	for {
		o := s.newOrderer(p.picked)
		o.loose = true
		p.order = s.safest(o, last)
		p.violations = violations(p.order)
		c := s.idle(p, o)
		if c == nil {
			s.keepClear(&p, o)
			return p
		}
		last = last[:0]
		for _, pl := range p.order {
			last = append(last, o.steps[pl.step].cut)
		}
		p.picked = s.without(p, c)
	}
}

// safest returns the order of the cuts before, where there was one and it is safe without what was dropped; else the order with the fewest
// violations of that, the one that a beam finds and the one that a wider beam finds.
func (s *search) safest(o *orderer, before []*cut) []placed {
	kept, _, ok := o.follow(before)
	if ok && violations(kept) == 0 {
		return kept
	}
	best, _ := o.best(s.finalBeam())
	if violations(best) > 0 {
		if order, _ := o.best(4 * s.finalBeam()); violations(order) < violations(best) {
			best = order
		}
	}
	if ok && violations(kept) < violations(best) {
		return kept
	}
	return best
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
		} else if s.tools[st.cut.tool].Works() == Plane {
			s.turnToStop(pl, st, before, wood)
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

// turnToStop lays the work of a plane against the stop with the face that needs the lower one, where that tells.
func (s *search) turnToStop(pl *placed, st *step, before, after *block) {
	high := func(a int) float64 {
		if h := s.fenceHigh(st.stands[a], Plane, before, after); h > 0 {
			return h
		}
		return math.Inf(1)
	}
	for a := range st.stands {
		if high(a) < high(pl.stance)-stopGrip {
			pl.stance = a
		}
	}
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

// Areas in mm2 of what a step takes where it stands in the order. Common practice, no source.
const (
	leastTaken = 0.1 // no one sets a machine for less
	scraped    = 0.6 // less goes with a place beside it that no tool reaches, which is for the scraper anyhow
)

// idle returns the first cut of a plan that takes nothing where it stands in the order, or so little that without it only a place grows which no cut
// reaches; nil without one. What such a cut was to take fell off before, or its neighbors take it with a smaller margin.
func (s *search) idle(p plan, o *orderer) *cut {
	var none, little []*cut
	wood := s.played(p, o, nil, func(c *cut, taken float64) {
		switch {
		case taken < leastTaken:
			none = append(none, c)
		case taken < scraped:
			little = append(little, c)
		}
	})
	if len(none) > 0 {
		return none[0]
	}
	if len(little) == 0 {
		return nil
	}
	open := newBuckets(s.unreachedPoints(p.picked, wood), 0.6)
	for _, c := range little {
		more := false
		s.played(p, o, c, nil).over(s.t.poly, func(q geom.Point, _ float64) {
			more = more || !open.near(q) && s.t.poly.dist(q) > s.opts.Allowance
		})
		if !more {
			return c
		}
	}
	return nil
}

// played returns the wood that an ordered plan leaves without the cut skip, and tells what area each of the others takes, in mm2.
func (s *search) played(p plan, o *orderer, skip *cut, tell func(c *cut, taken float64)) *block {
	wood, keep := newBlock(s.t.blank), deepInside(s.t.poly)
	for _, pl := range p.order {
		c := o.steps[pl.step].cut
		if c == skip {
			continue
		}
		before := wood.area()
		wood.cut(newPolygon(silhouette(c)))
		wood.drop(keep)
		if tell != nil {
			tell(c, before-wood.area())
		}
	}
	return wood
}

// without returns the cuts of a plan but c; of a pair the other kerf stays. Where another cut in the place of one of them regains the margin that is
// lost with c, and the plan stays as safe, it is taken.
func (s *search) without(p plan, c *cut) []int {
	var rest []int
	for _, k := range p.picked {
		d := &s.cuts[k]
		switch {
		case d == c:
		case d.parts[0] >= 0 && &s.cuts[d.parts[0]] == c:
			rest = append(rest, d.parts[1])
		case d.parts[0] >= 0 && &s.cuts[d.parts[1]] == c:
			rest = append(rest, d.parts[0])
		default:
			rest = append(rest, k)
		}
	}
	if s.missing(rest).within(s.missing(p.picked)) {
		return rest
	}
	q := s.rate(rest, s.beam())
	q.score = math.Inf(1) // any that has all is better
	for i, k := range rest {
		others := append(append([]int{}, rest[:i]...), rest[i+1:]...)
		m := s.missing(others)
		m.andNot(s.missing(p.picked))
		if next, ok := s.bestWith(q, others, m, s.cuts[k].weight, k); ok {
			return next.picked
		}
	}
	return rest
}
