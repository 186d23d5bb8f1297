package cutter

import (
	"math"
	"slices"

	"listel/profile/geom"
)

// A probe is a place in the blank and the cuts of a plan that take the wood there away.
type probe struct {
	p     geom.Point
	solid bool     // of the section: it always stands
	air   bool     // outside the blank
	mask  uint64   // steps that cut it
	pairs []uint64 // steps that together free it
	cell  int32    // of the lattice
}

// stands reports whether there is wood after the steps in done.
func (p *probe) stands(done uint64) bool {
	if p.solid {
		return true
	}
	if p.air || p.mask&done != 0 {
		return false
	}
	for _, m := range p.pairs {
		if done&m == m {
			return false
		}
	}
	return true
}

// A step is one set-up of a plan while its place in the order is still open.
type step struct {
	cut     *cut
	partner int // the other cut of a pair, -1 without one
	freed   *wedge
	stands  []stance
}

// A stance is one way to lay the blank for a cut.
type stance struct {
	table, fence int // sides
	tilt         geom.Angle
	endForEnd    bool
	feed         feeler
}

// A feeler holds the probes that decide whether a stance is safe.
type feeler struct {
	table, fence []probe
	outer, inner []probe // beside the tool, away from the fence and toward it
	body         []probe
	pilot        [2][]probe
}

// steps returns the set-ups of a solution: pairs count as two.
func (s *search) steps(solution []int) []step {
	var out []step
	for _, k := range solution {
		c := &s.cuts[k]
		if c.parts[0] < 0 {
			out = append(out, step{cut: c, partner: -1, freed: c.freed})
			continue
		}
		n := len(out)
		out = append(out, step{cut: &s.cuts[c.parts[0]], partner: n + 1, freed: c.freed}, step{cut: &s.cuts[c.parts[1]], partner: n, freed: c.freed})
	}
	s.bareLattice()
	var faces [4][]probe
	for i := range s.t.sides {
		faces[i] = s.along(i, out)
	}
	for i := range out {
		out[i].stands = s.stances(&out[i], out, faces)
	}
	return out
}

// probeAt returns the probe at p, before any step.
func (s *search) probeAt(p geom.Point) probe {
	q := probe{p: p}
	if !s.t.blank.contains(p) {
		q.air = true
		return q
	}
	if s.t.poly.contains(p) {
		q.solid = true
		return q
	}
	if s.bare != nil {
		q.cell = int32(s.bare.at(p, s.t.blank.bounds))
	}
	return q
}

// A taker is a cut, or the offcut that one frees, where it meets the probes of a spot.
type taker struct {
	at  spot
	cut *cut
	off *wedge
}

// mark notes which steps take the wood at the probes of a spot. What each takes there is found once: plans share most of their steps.
func (s *search) mark(at spot, ps []probe, steps []step) {
	for i := range steps {
		c, bit := steps[i].cut, uint64(1)<<i
		s.taken(taker{at: at, cut: c}, ps, func(p geom.Point) bool {
			w := c.view.in(p)
			e, ok := c.variant.cut.at(w.X - c.x)
			return ok && w.Y >= c.h+e
		}).each(func(k int) { ps[k].mask |= bit })
		f := steps[i].freed
		if f == nil || steps[i].partner >= 0 && steps[i].partner < i {
			continue
		}
		off := s.taken(taker{at: at, off: f}, ps, func(p geom.Point) bool { return f.holds(p, 0) })
		if j := steps[i].partner; j < 0 {
			off.each(func(k int) { ps[k].mask |= bit })
		} else {
			off.each(func(k int) { ps[k].pairs = append(ps[k].pairs, bit|1<<j) })
		}
	}
}

// taken returns the probes in waste that a taker takes.
func (s *search) taken(by taker, ps []probe, takes func(geom.Point) bool) bitset {
	if b, ok := s.takers[by]; ok {
		return b
	}
	b := newBitset(len(ps))
	for k := range ps {
		if q := &ps[k]; !q.solid && !q.air && takes(q.p) {
			b.set(k)
		}
	}
	if s.takers == nil {
		s.takers = map[taker]bitset{}
	}
	s.takers[by] = b
	return b
}

// A spot names a group of probes: what a cut asks of the wood about it, lying in one of its ways.
type spot struct {
	cut          *cut
	what         string
	table, fence int
}

// laid returns the probes of a spot for the steps of a plan: where they lie is found once, air left out.
func (s *search) laid(at spot, steps []step, lay func() []geom.Point) []probe {
	base, ok := s.spots[at]
	if !ok {
		for _, p := range lay() {
			if q := s.probeAt(p); !q.air {
				base = append(base, q)
			}
		}
		if s.spots == nil {
			s.spots = map[spot][]probe{}
		}
		s.spots[at] = base
	}
	out := append([]probe{}, base...)
	s.mark(at, out, steps)
	return out
}

// stances returns the ways to lay the blank for a step.
func (s *search) stances(st *step, steps []step, faces [4][]probe) []stance {
	c := st.cut
	t := s.tools[c.tool]
	var out []stance
	body := s.bodyProbes(c, steps)
	add := func(table, fence int) {
		if s.rip != nil && fence == s.rip.side {
			return // the board grows narrower with each molding: nothing is set from its other edge
		}
		a := stance{table: table, fence: fence}
		nt, ng := s.t.sides[table].n, s.t.sides[fence].n
		switch up := c.view.up; {
		case t.Works() == Plane: // comes from above
			a.tilt = geom.Angle(math.Atan2(up.Dot(ng), -up.Dot(nt)))
		case !c.variant.side:
			a.tilt = geom.Angle(math.Atan2(-up.Dot(ng), up.Dot(nt)))
		}
		if math.Abs(float64(a.tilt)) < 1e-9 {
			a.tilt = 0
		}
		a.endForEnd = ng.Cross(nt) > 0
		a.feed = s.feel(c, a, steps, body)
		a.feed.table, a.feed.fence = faces[table], faces[fence]
		out = append(out, a)
	}
	switch {
	case c.variant.side:
		for _, table := range []int{(c.view.square + 1) % 4, (c.view.square + 3) % 4} {
			down := c.view.right()
			if c.variant.mirror {
				down = down.Mul(-1)
			}
			if !c.variant.oneWay() || s.t.sides[table].n.Dot(down) > 0 {
				add(table, c.view.square)
			}
		}
	case t.Works() == Router:
		add(c.view.square, (c.view.square+1)%4)
		add(c.view.square, (c.view.square+3)%4)
	case t.Works() == Saw:
		for _, i := range s.tilts(c.view, t) {
			add(i, (i+1)%4)
			add(i, (i+3)%4)
		}
	default:
		bench := s.bench(c)
		add(bench, (bench+1)%4)
		add(bench, (bench+3)%4)
	}
	return out
}

// bench returns the side that lies on the bench for a plane's cut: the one that the plane leans least to, or one that it leans hardly more to, where it comes lower than the first,
// which would have to lie on a packing, but stays over this.
func (s *search) bench(c *cut) int {
	const (
		more  = 0.1 // of the cosines of both angles, some 8 degrees at 45: common practice, no source
		under = 0.2 // mm
	)
	down := func(i int) float64 { return -s.t.sides[i].n.Dot(c.view.up) }
	over := func(i int) bool { return s.lowestOf(c, stance{table: i, fence: (i + 1) % 4}) > -under }
	least := 0
	for i := range s.t.sides {
		if down(i) > down(least)+1e-9 {
			least = i
		}
	}
	if over(least) {
		return least
	}
	for i := range s.t.sides {
		if over(i) && down(i) > down(least)-more {
			return i
		}
	}
	return least
}

// machine returns the distance from the fence and the height over the table of a section point.
func (s *search) machine(a stance, p geom.Point) geom.Point {
	g, t := s.t.sides[a.fence], s.t.sides[a.table]
	return geom.Pt(g.d-g.n.Dot(p), t.d-t.n.Dot(p))
}

// fromMachine undoes machine.
func (s *search) fromMachine(a stance, q geom.Point) geom.Point {
	g, t := s.t.sides[a.fence], s.t.sides[a.table]
	return g.n.Mul(g.d - q.X).Add(t.n.Mul(t.d - q.Y))
}

// feel lays the probes of a stance.
func (s *search) feel(c *cut, a stance, steps []step, body []probe) feeler {
	f := feeler{body: body}
	lay := func(what string, points func() []geom.Point) []probe {
		return s.laid(spot{c, what, a.table, a.fence}, steps, points)
	}
	f.outer = lay("outer", func() []geom.Point {
		_, far, high := s.extent(c, a)
		end := s.farthest(a)
		var out []geom.Point
		for k := range 5 {
			for u := math.Min(far, end) + 0.5; u < end; u += 2.5 {
				out = append(out, s.fromMachine(a, geom.Pt(u, high*(float64(k)+0.5)/5)))
			}
		}
		return out
	})
	// What the cut takes itself never stands after it: up to the axis all that stands lies between tool and fence.
	f.inner = lay("inner", func() []geom.Point {
		near, _, high := s.extent(c, a)
		if !c.variant.side {
			near = s.machine(a, c.view.out(geom.Pt(c.x, c.h))).X
		}
		var out []geom.Point
		for k := range 5 {
			for u := math.Min(near, s.farthest(a)) - 0.5; u > 0; u -= 1.5 {
				out = append(out, s.fromMachine(a, geom.Pt(u, high*(float64(k)+0.5)/5)))
			}
		}
		return out
	})
	if c.variant.pilot > 0 {
		for i, dir := range []float64{-1, 1} {
			f.pilot[i] = s.laid(spot{c, "pilot", i, 0}, steps, func() []geom.Point {
				var out []geom.Point
				for k := range 8 {
					out = append(out, c.view.out(pilotPoint(c, dir, k)))
				}
				return out
			})
		}
	}
	return f
}

// farthest returns the blank's greatest distance from the fence.
func (s *search) farthest(a stance) float64 {
	far := 0.0
	for _, p := range s.t.piece.Blank {
		far = math.Max(far, s.machine(a, p).X)
	}
	return far
}

// along lays probes on a face of the blank, just inside it.
func (s *search) along(i int, steps []step) []probe {
	return s.laid(spot{nil, "face", i, 0}, steps, func() []geom.Point {
		f := s.t.sides[i]
		out := make([]geom.Point, max(8, int(math.Round(f.a.Dist(f.b)/faceStep))))
		for k := range out {
			out[k] = f.a.Lerp(f.b, (float64(k)+0.5)/float64(len(out))).Sub(f.n.Mul(0.03))
		}
		return out
	})
}

// faceStep is the distance, in mm, between probes on a face of the blank.
const faceStep = 0.5

// extent returns the nearest and farthest distance of what cuts from the fence and its greatest height over the table, inside the
// blank's height.
func (s *search) extent(c *cut, a stance) (near, far, high float64) {
	near, far, high = math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range c.variant.cut {
		for k := range 9 {
			u := p.a + (p.b-p.a)*float64(k)/8
			q := s.machine(a, c.view.out(geom.Pt(c.x+u, c.h+p.at(u))))
			near, far, high = math.Min(near, q.X), math.Max(far, q.X), math.Max(high, q.Y)
		}
	}
	return near, far, high
}

// bodyProbes lays probes over the part of the blank that shank, body or pilot sweep, leaving out the section, which they clear anyway.
// Of those that go with the same steps one is enough.
func (s *search) bodyProbes(c *cut, steps []step) []probe {
	all := s.laid(spot{c, "body", 0, 0}, steps, func() []geom.Point {
		const step, edge = 0.45, 0.06
		var out []geom.Point
		for _, p := range c.variant.body {
			// The columns begin and end just within both edges: a sliver beside either is in the way.
			from, to := math.Max(p.a, c.view.lo.X-c.x)+edge, math.Min(p.b, c.view.hi.X-c.x)-edge
			n := max(1, int(math.Ceil((to-from)/step)))
			for i := 0; i <= n && from <= to; i++ {
				u := from + (to-from)*float64(i)/float64(n)
				for v := c.h + p.at(u) + edge; v < c.view.hi.Y; v += step {
					if q := c.view.out(geom.Pt(c.x+u, v)); !s.t.poly.contains(q) {
						out = append(out, q)
					}
				}
			}
		}
		return out
	})
	var out []probe
	for i := range all {
		if q := &all[i]; !slices.ContainsFunc(out, func(o probe) bool { return o.mask == q.mask && o.solid == q.solid && slices.Equal(o.pairs, q.pairs) }) {
			out = append(out, *q)
		}
	}
	return out
}

func anyStands(ps []probe, done uint64) bool {
	for i := range ps {
		if ps[i].stands(done) {
			return true
		}
	}
	return false
}

func standing(ps []probe, done uint64) int {
	n := 0
	for i := range ps {
		if ps[i].stands(done) {
			n++
		}
	}
	return n
}
