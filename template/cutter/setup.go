package cutter

import (
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
)

// result writes a plan out.
func (s *search) result(p plan, bound int, stopped bool) Result {
	outline := s.t.piece.Outline
	if s.rip != nil {
		outline = s.rip.strip.Outline
		bound++
	}
	r := Result{
		Profile: s.t.piece.Name, Allowance: s.opts.Allowance, LowerBound: bound, Effort: s.opts.Effort.String(),
		Stopped: stopped, Outline: points(outline.Flatten(0.005)), Candidates: len(s.cuts), unsafe: p.violations,
		Setups: []Setup{}, Unreached: []Unreached{}, Advice: []string{}, Hints: []Hint{},
	}
	for i, q := range s.t.piece.Blank {
		r.Blank.Polygon[i] = point(q)
	}
	a, b := s.t.piece.Blank[0].Dist(s.t.piece.Blank[1]), s.t.piece.Blank[1].Dist(s.t.piece.Blank[2])
	r.Blank.Board, r.Blank.Way = round(s.t.piece.Board, 1e4), s.t.piece.Way
	r.Blank.RunsOut = s.rip == nil && s.t.piece.RunsOut()
	r.Blank.Width, r.Blank.Thickness = round(math.Max(a, b), 1e4), round(math.Min(a, b), 1e4)
	s.writeSetups(&r, p)
	r.Proven = len(r.Setups) == bound
	// Fewer than the bound do where one step leaves another nothing to take: then what is known of the least number is no more than that.
	r.LowerBound = min(bound, len(r.Setups))
	s.writeFaces(&r, p)
	r.Speeds, r.Cautions = speedsFor(s.usedTools(p)), r.CautionWords(measure.Format{}, 0)
	return r
}

// writeSetups plays the plan through and writes each set-up.
func (s *search) writeSetups(r *Result, p plan) {
	o := s.newOrderer(p.picked)
	o.loose = true
	wood, keep := newBlock(s.t.blank), deepInside(s.t.poly)
	cleaned, done := newBitset(s.rows.total()), uint64(0)
	for i, pl := range p.order {
		st := &o.steps[pl.step]
		st.cut = s.noHigher(st.cut, wood, cleaned)
		set := s.setup(st, st.stands[pl.stance], pl.notes)
		set.N = i + 1
		set.Passes = o.passes(pl.step, done)
		before, whole := wood.area(), wood.clone()
		wood.cut(newPolygon(silhouette(st.cut)))
		w := &st.stands[pl.stance]
		set.Engages = round(s.engages(whole, wood, *w, s.tools[st.cut.tool], set.Height), 100)
		for _, off := range wood.drop(keep) {
			if off.area > 1 {
				set.Frees = true
			}
		}
		set.Grooves = set.Work == Plane && s.grooves(st.cut, whole, wood)
		set.Removed = round(before-wood.area(), 100)
		set.Cleans = s.newlyClean(cleaned, st.cut.rows)
		done |= 1 << pl.step
		set.TableStrip, set.FenceStrip = round(s.strip(wood, w.table), 100), round(s.strip(wood, w.fence), 100)
		set.OnTableWidth, set.FenceWidth = round(o.width(w.table, w.feed.table, done), 10), round(o.width(w.fence, w.feed.fence, done), 10)
		set.FenceHigh = s.fenceHigh(*w, set.Work, whole, wood)
		set.Short = shortOf(set.Engages, s.tools[st.cut.tool])
		set.Warning = set.Words(measure.Format{})
		r.Setups = append(r.Setups, set)
	}
	pts, levels := s.fine(p.picked)
	r.weak = len(pts)
	unreached := s.openPoints(pts, levels, wood)
	s.left(r, wood, unreached)
	s.writeUnreached(r, unreached, wood)
	if s.rip != nil {
		r.Setups = append(r.Setups, s.rip.setup(s, wood, len(r.Setups)+1))
	}
}

// passes returns in how many passes step k goes through what stands.
func (o *orderer) passes(k int, done uint64) int {
	c, deep := o.steps[k].cut, 0.0
	held := o.wood.held(done)
	for i := range o.wood.cells {
		q := &o.wood.cells[i]
		if q.mask&(1<<k) != 0 && held.has(i) {
			w := c.view.in(q.p)
			e, _ := c.variant.cut.at(w.X - c.x)
			deep = math.Max(deep, w.Y-c.h-e)
		}
	}
	return max(1, int(math.Ceil(deep/o.s.tools[c.tool].PerPass-0.05)))
}

// newlyClean adds the rows that a cut cleans and returns the elements that are 95 parts in 100 clean by it and were not before.
func (s *search) newlyClean(cleaned bitset, r bitset) []int {
	part := func() map[int][2]float64 {
		m := map[int][2]float64{}
		for _, f := range s.t.facets {
			v := m[f.element]
			v[0] += f.length * float64(s.cleanIn(cleaned, f)) / float64(f.count)
			v[1] += f.length
			m[f.element] = v
		}
		return m
	}
	before := part()
	cleaned.or(r)
	after := part()
	out := []int{}
	for _, m := range s.t.piece.Members {
		b, a := before[m.Index], after[m.Index]
		if a[1] > 0 && a[0] >= 0.95*a[1] && b[0] < 0.95*b[1] {
			out = append(out, m.Index)
		}
	}
	return out
}

// setup returns a step as it is done in a stance.
func (s *search) setup(st *step, a stance, n note) Setup {
	c := st.cut
	t := s.tools[c.tool]
	g, b := s.t.sides[a.fence], s.t.sides[a.table]
	near, far, high := s.extent(c, a)
	axis := s.machine(a, c.view.out(geom.Pt(c.x, c.h))).X
	top := c.view.hi.Y + beyondBlank
	switch {
	case t.Kind == SawBlade:
		edge := func(u float64) float64 {
			return s.machine(a, c.view.out(geom.Pt(u, c.view.table(b, u)))).X
		}
		near, far = edge(c.x-t.Width/2), edge(c.x+t.Width/2)
		near, far = math.Min(near, far), math.Max(near, far)
		axis = edge(c.x)
		top = math.Max(top, math.Max(c.view.table(b, c.x-t.Width/2), c.view.table(b, c.x+t.Width/2))+bladeUnder)
	case c.variant.side && t.Diameter > 0:
		near, axis = far-t.Diameter, far-t.Diameter/2
	case t.Works() == Plane:
		high = s.lowestOf(c, a)
	}
	e := g.n.Mul(g.d).Add(b.n.Mul(b.d))
	set := Setup{
		Tool: t.Name, Work: t.Works(), OnTable: b.name, AgainstFence: g.name, EndForEnd: a.endForEnd,
		Tilt: round(a.tilt.Degrees(), 1e4), Fence: round(near, 1e4), Far: round(far, 1e4), Axis: round(axis, 1e4), Height: round(high, 1e4),
		Silhouette: points(sweep(c, top)), Body: points(bodyOf(c, t)),
		Transform:     [6]float64{-g.n.X + 0, -g.n.Y + 0, -b.n.X + 0, -b.n.Y + 0, e.X, e.Y},
		BottomContact: s.spoils(c, 0.3),
		Watch:         n.names(), Enters: "table",
	}
	switch {
	case c.variant.side:
		set.Enters = "fence"
	case t.Works() == Plane:
		set.Enters = "above"
	}
	return set
}

// bladeUnder is how far, in mm, the silhouette of a blade goes on under the table, so that it is seen where it passes it.
const bladeUnder = 6

// spoils reports whether a cut made d mm deeper goes more than a third of that into the section.
func (s *search) spoils(c *cut, d float64) bool {
	for _, p := range c.variant.cut {
		n := max(2, int((p.b-p.a)/0.05))
		for k := range n {
			u := p.a + (p.b-p.a)*(float64(k)+0.5)/float64(n)
			q := c.view.out(geom.Pt(c.x+u, c.h+p.at(u)-d))
			if s.t.poly.contains(q) && s.t.poly.dist(q) > d/3 {
				return true
			}
		}
	}
	return false
}

// lowestOf returns the least height over the bench of what a plane cuts.
func (s *search) lowestOf(c *cut, a stance) float64 {
	lo := math.Inf(1)
	for _, p := range c.variant.cut {
		for k := range 9 {
			u := p.a + (p.b-p.a)*float64(k)/8
			lo = math.Min(lo, s.machine(a, c.view.out(geom.Pt(c.x+u, c.h+p.at(u)))).Y)
		}
	}
	return lo
}

// usedTools returns the tools of a plan in the order of their first use.
func (s *search) usedTools(p plan) []Tool {
	o := s.steps(p.picked)
	var out []Tool
	seen := map[int]bool{}
	for _, pl := range p.order {
		if k := o[pl.step].cut.tool; !seen[k] {
			seen[k] = true
			out = append(out, s.tools[k])
		}
	}
	return out
}
