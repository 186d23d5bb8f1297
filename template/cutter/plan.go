package cutter

import (
	"context"
	"errors"
	"fmt"
	"math"

	"listel/profile/geom"
)

// ErrNothing reports that no tool of the set can be used on the piece.
var ErrNothing = errors.New("no tool that may be used")

// Plan returns the set-ups that bring the piece out of its blank with the tools at hand. The same piece, tools and options give the same
// plan on any machine. The error is a *ToolError for a tool that is no tool, ErrNothing when none of them may be used, the context's when it
// ended, or says what is wrong with the piece.
func Plan(ctx context.Context, piece Piece, tools []Tool, opts Options) (Result, error) {
	s, err := newSearch(ctx, piece, tools, opts)
	if err != nil {
		return Result{}, err
	}
	if err := s.candidates(); err != nil {
		return Result{}, err
	}
	p, bound, stopped, err := s.solve()
	if err != nil {
		return Result{}, err
	}
	r := s.result(p, bound, stopped)
	if err := s.advise(ctx, &r, p); err != nil {
		return Result{}, err
	}
	return r, nil
}

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

// newSearch checks the input and prepares the search.
func newSearch(ctx context.Context, piece Piece, tools []Tool, opts Options) (*search, error) {
	if opts.Allowance == 0 {
		opts.Allowance = 0.5
	}
	if !(opts.Allowance >= 0.3 && opts.Allowance <= 5) {
		return nil, fmt.Errorf("allowance is %g mm; it must be from 0.3 to 5 mm", opts.Allowance)
	}
	if !piece.Outline.Closed(1e-6) || !(piece.Outline.Area() > 0) {
		return nil, fmt.Errorf("profile %s: its outline is not closed or runs clockwise", piece.Name)
	}
	if !(geom.Polygon(piece.Blank[:]...).Area() > 0) {
		return nil, fmt.Errorf("profile %s: its blank has no area or runs clockwise", piece.Name)
	}
	for _, p := range piece.Outline.Flatten(0.01) {
		if !piece.contains(p, 1e-3) {
			return nil, fmt.Errorf("profile %s: its outline leaves the blank at (%.3f, %.3f)", piece.Name, p.X, p.Y)
		}
	}
	works := map[Work]bool{}
	for _, w := range opts.Works {
		works[w] = true
	}
	if len(works) == 0 {
		works[Saw], works[Router] = true, true
	}
	s := &search{opts: opts, t: newTarget(piece, opts.Allowance)}
	s.center = piece.Outline.Centroid()
	s.tick = s.ticker(ctx)
	tilt := geom.Angle(0)
	for _, t := range tools {
		if err := t.Validate(); err != nil {
			return nil, err
		}
		if !works[t.Works()] {
			continue
		}
		s.tools = append(s.tools, t)
		s.variants = append(s.variants, variantsOf(t))
		tilt = max(tilt, t.MaxTilt)
	}
	if len(s.tools) == 0 {
		return nil, ErrNothing
	}
	s.views = s.t.views(works, tilt)
	s.rows = rows{facets: len(s.t.facets), samples: len(s.t.samples), hard: len(s.t.hard)}
	return s, nil
}

func variantsOf(t Tool) []*variant {
	sh := shapeOf(t)
	out := []*variant{{shape: sh, margins: newMargins(sh.cut)}}
	if !sh.symmetric() {
		m := sh.mirrored()
		out = append(out, &variant{shape: m, margins: newMargins(m.cut), mirror: true})
	}
	return out
}

// ticker returns the function that work calls now and then: it ends a search whose context has ended, and tells of progress.
func (s *search) ticker(ctx context.Context) func() error {
	n := 0
	return func() error {
		n++
		if s.opts.Progress != nil && n%8 == 0 {
			s.opts.Progress(Progress{Stage: s.stage, Done: len(s.cuts) + n})
		}
		return ctx.Err()
	}
}

// candidates makes the cuts and what a cover of them needs.
func (s *search) candidates() error {
	s.stage = "candidates"
	if err := s.makeCuts(); err != nil {
		return err
	}
	if err := s.addWedges(); err != nil {
		return err
	}
	s.settle(0)
	s.need()
	return nil
}

// budget is the nodes that an effort may visit in one exact search.
func (s *search) budget() int {
	return map[Effort]int{Quick: 4000, Usual: 40000, Long: 600000}[s.opts.Effort]
}

func (s *search) finalBeam() int {
	return map[Effort]int{Quick: 24, Usual: 60, Long: 300}[s.opts.Effort]
}

// solve covers what is needed, looks the cover over for waste that slipped between the points, asks for that too, and so on; then it improves and
// orders the plan, and mends what the improving let slip. bound is the least number of set-ups that any plan of these cuts needs: fewer points
// asked for make it no more than it should be.
func (s *search) solve() (p plan, bound int, stopped bool, err error) {
	picked, bound, stopped, err := s.coverAll()
	if err != nil {
		return p, bound, stopped, err
	}
	if p, err = s.polish(picked, &bound, &stopped); err != nil {
		return p, bound, stopped, err
	}
	p = s.final(p)
	// No safe order: what stood in its way is not used again, and the search goes back.
	last := p
	for range 6 {
		if p.violations == 0 || !s.ban(last) {
			break
		}
		low, open := bound, stopped
		if picked, _, _, err = s.leastCover(); err != nil {
			return p, bound, stopped, err
		}
		q, err := s.polish(s.mend(picked), &low, &open)
		if err != nil {
			return p, bound, stopped, err
		}
		if last = s.final(q); last.better(p) {
			p = last
		}
	}
	return p, bound, stopped, nil
}

// ban puts aside the cuts of a plan that have no safe place in its order, as far as others clear what they clear. It reports whether there was
// one.
func (s *search) ban(p plan) bool {
	o, found := s.steps(p.picked), false
	for _, pl := range p.order {
		if pl.notes&forbidden == 0 {
			continue
		}
		c := o[pl.step].cut
		if s.setAside(func(d *cut) bool { return d.tool == c.tool && d.view == c.view }) || s.setAside(func(d *cut) bool { return d == c }) {
			found = true
		}
	}
	if found {
		s.need()
	}
	return found
}

// setAside bans the cuts that match, and pairs with them, unless some waste is then cleared by none; face that only these would leave clean is for
// the scraper. It reports whether it did.
func (s *search) setAside(match func(*cut) bool) bool {
	var now []int
	rest := s.needed.clone()
	for i := range s.rows.point(0) {
		rest.clear(i)
	}
	for k := range s.cuts {
		c := &s.cuts[k]
		hit := match(c) || c.parts[0] >= 0 && (match(&s.cuts[c.parts[0]]) || match(&s.cuts[c.parts[1]]))
		switch {
		case c.banned:
		case hit:
			now = append(now, k)
		default:
			rest.andNot(c.rows)
		}
	}
	if len(now) == 0 {
		return false
	}
	for _, k := range now {
		s.cuts[k].banned = true
	}
	if s.settleFor(rest) {
		return true
	}
	for _, k := range now {
		s.cuts[k].banned = false
	}
	return false
}

// settleFor lets the cuts that are left clear the given hard points with what margin they have. It reports whether they can.
func (s *search) settleFor(rows bitset) bool {
	type grant struct{ cut, row int }
	var grants []grant
	ok := true
	rows.each(func(r int) {
		p, best := s.t.hard[r-s.rows.point(0)], len(marginLevels)
		var with []int
		for k := range s.cuts {
			if s.cuts[k].banned {
				continue
			}
			switch l := s.clears(&s.cuts[k], p); {
			case l < best:
				best, with = l, []int{k}
			case l == best && l < len(marginLevels):
				with = append(with, k)
			}
		}
		ok = ok && len(with) > 0
		for _, k := range with {
			grants = append(grants, grant{k, r})
		}
	})
	if !ok {
		return false
	}
	for _, g := range grants {
		s.cuts[g.cut].rows.set(g.row)
	}
	return true
}

// polish improves and orders a cover, and mends what the improving let slip.
func (s *search) polish(picked []int, bound *int, stopped *bool) (p plan, err error) {
	s.stage = "order"
	s.effort = map[Effort]int{Quick: 100_000, Usual: 500_000, Long: 6_000_000}[s.opts.Effort]
	for range 6 {
		if p, err = s.improve(picked, max(s.weightOf(picked), *bound+1)); err != nil {
			return p, err
		}
		more := s.lacking(p.picked)
		if len(more) == 0 {
			break
		}
		s.addPoints(more)
		if picked = s.mend(p.picked); s.weightOf(picked) <= max(p.weight, *bound) {
			continue
		}
		var low int
		if picked, low, *stopped, err = s.leastCover(); err != nil {
			return p, err
		}
		*bound = max(*bound, low)
	}
	return p, nil
}

// coverAll returns a least cover that leaves nothing over the allowance which some cut would clear.
func (s *search) coverAll() (picked []int, bound int, stopped bool, err error) {
	s.stage = "cover"
	for range 6 {
		var low int
		if picked, low, stopped, err = s.leastCover(); err != nil {
			return nil, bound, stopped, err
		}
		bound = max(bound, low)
		more := s.lacking(picked)
		if len(more) == 0 {
			break
		}
		s.addPoints(more)
	}
	picked = s.mend(picked)
	s.least = s.weightOf(picked)
	return picked, bound, stopped, nil
}

// leastCover returns a cover of the needed rows, the bound, and whether the budget ended before it was proven.
func (s *search) leastCover() (picked []int, bound int, stopped bool, err error) {
	p := problem{rows: s.rows.total()}
	for k := range s.cuts {
		c := &s.cuts[k]
		r := c.rows.clone()
		r.and(s.needed)
		if c.banned {
			r = newBitset(s.rows.total())
		}
		p.cols, p.weights, p.cost = append(p.cols, r), append(p.weights, c.weight), append(p.cost, c.cost)
	}
	c := p.reduce()
	sv := newSolver(c, s.budget(), s.tick)
	cover, bound, err := sv.solve()
	if err != nil {
		return nil, 0, false, err
	}
	if cover == nil {
		stopped = true
		cover = c.destroyAndRepair(c.greedy(), s.budget()/16, bound)
	}
	for _, k := range cover {
		picked = append(picked, c.ids[k])
	}
	return picked, bound, stopped, nil
}

// result writes a plan out.
func (s *search) result(p plan, bound int, stopped bool) Result {
	r := Result{
		Profile: s.t.piece.Name, Allowance: s.opts.Allowance, LowerBound: bound, Effort: s.opts.Effort.String(),
		Stopped: stopped, Outline: points(s.t.piece.Outline.Flatten(0.005)), Candidates: len(s.cuts),
		Setups: []Setup{}, Unreached: []Unreached{}, Advice: []string{},
	}
	for i, q := range s.t.piece.Blank {
		r.Blank.Polygon[i] = point(q)
	}
	a, b := s.t.piece.Blank[0].Dist(s.t.piece.Blank[1]), s.t.piece.Blank[1].Dist(s.t.piece.Blank[2])
	r.Blank.Width, r.Blank.Thickness = round(math.Max(a, b), 1e4), round(math.Min(a, b), 1e4)
	s.writeSetups(&r, p)
	r.Proven = len(r.Setups) <= bound
	s.writeUnreached(&r, p)
	s.writeFaces(&r, p)
	r.Speeds, r.Cautions = speedsFor(s.usedTools(p)), cautionsFor(r)
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
		set := s.setup(st, st.stands[pl.stance], pl.notes)
		set.N = i + 1
		set.Passes = o.passes(pl.step, done)
		before := wood.area()
		wood.cut(newPolygon(silhouette(st.cut)))
		for _, off := range wood.drop(keep) {
			if off.area > 1 {
				set.Frees = true
			}
		}
		set.Removed = round(before-wood.area(), 100)
		set.Cleans = s.newlyClean(cleaned, st.cut.rows)
		done |= 1 << pl.step
		feed := &st.stands[pl.stance].feed
		set.OnTableWidth, set.FenceWidth = round(o.width(feed.table, done), 10), round(o.width(feed.fence, done), 10)
		r.Setups = append(r.Setups, set)
	}
	s.left(r, wood, p)
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
	switch {
	case t.Kind == SawBlade:
		edge := func(u float64) float64 {
			return s.machine(a, c.view.out(geom.Pt(u, c.view.table(b, u)))).X
		}
		near, far = edge(c.x-t.Width/2), edge(c.x+t.Width/2)
		near, far = math.Min(near, far), math.Max(near, far)
		axis = edge(c.x)
	case c.variant.side && t.Diameter > 0:
		near, axis = far-t.Diameter, far-t.Diameter/2
	case t.Works() == Plane:
		high = s.lowestOf(c, a)
	}
	e := g.n.Mul(g.d).Add(b.n.Mul(b.d))
	set := Setup{
		Tool: t.Name, Work: t.Works(), OnTable: b.name, AgainstFence: g.name, EndForEnd: a.endForEnd,
		Tilt: round(a.tilt.Degrees(), 1e4), Fence: round(near, 1e4), Far: round(far, 1e4), Axis: round(axis, 1e4), Height: round(high, 1e4),
		Silhouette: points(silhouette(c)), Body: points(bodyOf(c, t)),
		Transform:     [6]float64{-g.n.X + 0, -g.n.Y + 0, -b.n.X + 0, -b.n.Y + 0, e.X, e.Y},
		BottomContact: s.spoils(c, 0.3),
		Warning:       warning(n, t), Enters: "table",
	}
	switch {
	case c.variant.side:
		set.Enters = "fence"
	case t.Works() == Plane:
		set.Enters = "above"
	}
	return set
}

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
