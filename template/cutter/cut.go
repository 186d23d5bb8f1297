package cutter

import (
	"math"
	"sort"

	"listel/profile/geom"
)

// A cut is a candidate: one tool, from one direction, at one offset, as deep as section and tool let it; or two saw cuts that
// free an offcut between them.
type cut struct {
	tool    int
	variant *variant
	view    *view
	x, h    float64 // of the axis and of the tip in the view's frame
	rows    bitset  // what it clears and cleans
	weight  int     // set-ups: 1 or 2
	parts   [2]int  // of a pair: the two cuts, else -1
	freed   *wedge
	banned  bool    // has no safe place
	cost    float64 // what a woodworker would rather not do, in set-ups
}

// A variant is a tool's shape as it is held: end for end for one that is not its own mirror.
type variant struct {
	shape
	margins
	mirror bool
}

// rows numbers what a plan must do: first one row a facet (an arc clean from one cut), then the samples of the face, then the hard points,
// which may grow in number.
type rows struct{ facets, samples, hard int }

func (r rows) facet(i int) int  { return i }
func (r rows) sample(i int) int { return r.facets + i }
func (r rows) point(i int) int  { return r.facets + r.samples + i }
func (r rows) total() int       { return r.facets + r.samples + r.hard }

// A search holds what the planner works on.
type search struct {
	t        *target
	tools    []Tool
	variants [][]*variant
	views    []*view
	rows     rows
	cuts     []cut
	levels   []int      // of the margin that each hard point is cleared with, len(marginLevels) when nothing clears it
	scratch  bitset     // of as many rows as there are before points are added
	weak     []weak     // what is cleared with less than the first margin
	needed   bitset     // rows that the cover must have
	kept     []int      // cuts that none dominates in what is needed, nil before that is known
	center   geom.Point // of the section
	least    int        // set-ups of the lightest cover found
	bare     *lattice   // the blank as cells, made once
	spots    map[spot][]probe
	takers   map[taker]bitset
	waste    []column // nil before it is asked for
	nodes    int      // left for exact searches
	effort   int      // left for orders that are tried
	tick     func() error
	stage    string // for progress
	opts     Options
	most     int  // set-ups that a plan may have to be of use, 0 for any number
	rip      *rip // the last set-up of a piece on the edge of a board, nil without it
}

// A weak is a hard point that a cut clears with a lesser margin than the first.
type weak struct {
	cut, point int32
	level      int8
}

// makeCuts fills s.cuts with the candidates of every tool from every direction.
func (s *search) makeCuts() error {
	for _, v := range s.views {
		for i, tool := range s.tools {
			if !s.enters(v, tool, s.variants[i][0].shape) {
				continue
			}
			if err := s.tick(); err != nil {
				return err
			}
			for _, w := range s.variants[i] {
				for _, x := range s.offsets(v, w) {
					s.try(i, w, v, x)
				}
			}
		}
	}
	return nil
}

// enters reports whether a tool can come at the blank from v.
func (s *search) enters(v *view, t Tool, sh shape) bool {
	switch t.Works() {
	case Router:
		return v.square >= 0
	case Saw:
		return len(s.tilts(v, t)) > 0
	}
	return true // a plane is leaned as its user likes
}

// tilts returns the sides that a saw blade can come through to arrive from v.
func (s *search) tilts(v *view, t Tool) []int {
	var out []int
	for _, i := range v.over {
		if math.Acos(min(1, s.t.sides[i].n.Dot(v.up))) <= t.MaxTilt.Radians()+1e-9 {
			out = append(out, i)
		}
	}
	return out
}

// offsets returns the places of the axis that are worth a look: where contacts change, the dips between them, and a grid for
// waste in bulk.
func (s *search) offsets(v *view, w *variant) []float64 {
	xs := critical(v.env, w.all)
	for _, u := range edgesOf(w.all) { // the blank's edges: a pilot runs on them
		xs = append(xs, v.lo.X-u, v.hi.X-u)
	}
	step := math.Max(1.2, math.Min(5, w.width/3))
	if s.opts.Effort == Quick {
		step *= 1.6
	}
	a, b := w.cut.span()
	n := int((v.hi.X-v.lo.X+b-a)/step) + 1
	for i := range n {
		xs = append(xs, v.lo.X-b+(float64(i)+0.5)*step)
	}
	if !w.plain {
		xs = append(xs, dips(v.env, w.all, xs)...)
	}
	xs = distinct(xs, vertical)
	i := sort.SearchFloat64s(xs, v.lo.X-b)
	j := sort.SearchFloat64s(xs, v.hi.X-a)
	return xs[i:j]
}

// dips returns the offsets between the given ones at which the tool comes to lie lower than at both its neighbors.
func dips(env, t curve, xs []float64) []float64 {
	at := distinct(append([]float64{}, xs...), 0.05)
	hs := make([]float64, len(at))
	for i, x := range at {
		hs[i] = lowest(env, t, x)
	}
	var out []float64
	for i := 1; i+1 < len(at); i++ {
		if !(hs[i] < hs[i-1]-1e-9 && hs[i] < hs[i+1]-1e-9) {
			continue
		}
		lo, hi := at[i-1], at[i+1]
		for hi-lo > 1e-8 {
			m0, m1 := lo+(hi-lo)/3, hi-(hi-lo)/3
			if lowest(env, t, m0) <= lowest(env, t, m1) {
				hi = m1
			} else {
				lo = m0
			}
		}
		if x := (lo + hi) / 2; lowest(env, t, x) < hs[i]-1e-6 {
			out = append(out, x)
		}
	}
	return out
}

// try adds the cut of a tool at x if it does anything.
func (s *search) try(tool int, w *variant, v *view, x float64) {
	h := math.Max(lowest(v.env, w.all, x), s.floor(s.tools[tool], v, x))
	if h >= v.hi.Y-0.05 {
		return
	}
	c := cut{tool: tool, variant: w, view: v, x: x, h: h, rows: s.scratch, weight: 1, parts: [2]int{-1, -1}}
	if w.pilot > 0 && !s.pilotRuns(&c) || w.oneWay() && s.tipHeight(&c) > s.tools[tool].Reach {
		return
	}
	clear(s.scratch)
	s.cover(&c)
	if c.rows.empty() {
		return
	}
	c.rows = c.rows.clone()
	c.cost = s.costOf(&c)
	s.cuts = append(s.cuts, c)
}

// oneWay reports whether a tool that comes from the side has a tip that points away from the table.
func (w *variant) oneWay() bool { return w.side && !w.symmetric() }

// tipHeight returns the height over the table of the tip of a cut that comes from the side one way up.
func (s *search) tipHeight(c *cut) float64 {
	if c.variant.mirror {
		return c.x - c.view.lo.X
	}
	return c.view.hi.X - c.x
}

// floor returns the least height that a tool's reach and the blank allow.
func (s *search) floor(t Tool, v *view, x float64) float64 {
	h := v.lo.Y - 1
	switch t.Works() {
	case Router:
		if t.Kind == Dovetail {
			break // its reach is upward; its shank bounds how far it comes in
		}
		h = math.Max(h, s.t.sides[v.square].d-t.Reach)
	case Saw:
		deepest := math.Inf(1)
		for _, i := range s.tilts(v, t) {
			deepest = math.Min(deepest, v.table(s.t.sides[i], x)-t.Reach)
		}
		h = math.Max(h, deepest)
	}
	return h
}

// cover sets the rows that a cut clears or cleans and notes those that it clears with a lesser margin.
func (s *search) cover(c *cut) {
	v, w := c.view, c.variant
	a, b := w.cut.span()
	i := sort.SearchFloat64s(v.hardU, c.x+a)
	for ; i < len(v.hardU) && v.hardU[i] <= c.x+b; i++ {
		if v.hardV[i] < c.h {
			continue
		}
		if v.hardV[i] > c.h+w.bulk {
			continue
		}
		switch l := w.level(v.hardU[i]-c.x, v.hardV[i]-c.h); l {
		case 0:
			c.rows.set(s.rows.point(v.hardIdx[i]))
		case len(marginLevels):
		default:
			s.weak = append(s.weak, weak{int32(len(s.cuts)), int32(v.hardIdx[i]), int8(l)})
		}
	}
	i = sort.SearchFloat64s(v.sampleU, c.x+a)
	for ; i < len(v.sampleU) && v.sampleU[i] <= c.x+b; i++ {
		if v.sampleV[i] < c.h {
			continue
		}
		if e, ok := w.cut.at(v.sampleU[i] - c.x); ok && v.sampleV[i] >= c.h+e {
			c.rows.set(s.rows.sample(v.sampleAt[i]))
		}
	}
	s.markClean(c)
}

// markClean sets the row of each arc that the cut leaves 95 parts in 100 clean.
func (s *search) markClean(c *cut) {
	for i, f := range s.t.facets {
		if f.kind != arcFacet {
			continue
		}
		if n := s.cleanIn(c.rows, f); n*100 >= f.count*95 {
			c.rows.set(s.rows.facet(i))
		}
	}
}

// cleanIn counts the samples of a facet in a set of rows.
func (s *search) cleanIn(r bitset, f facet) int {
	return r.countIn(s.rows.sample(f.first), s.rows.sample(f.first+f.count))
}

// pilotRuns reports whether wood, of the section or still waste, can stand beside the pilot and touch it.
func (s *search) pilotRuns(c *cut) bool {
	left, right := s.pilotWood(c, -1), s.pilotWood(c, 1)
	return left || right
}

// pilotWood looks along the pilot on one side: there must be blank for most of its height.
func (s *search) pilotWood(c *cut, dir float64) bool {
	n := 0
	for k := range 8 {
		q := c.view.out(pilotPoint(c, dir, k))
		if s.t.blank.contains(q) {
			n++
		}
	}
	return n >= 6
}
