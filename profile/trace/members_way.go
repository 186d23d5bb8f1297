package trace

import (
	"math"
	"slices"

	"listel/profile"
	"listel/profile/geom"
)

// What a reading costs beside its squared distances, in sigma²: each member, each size that the outline is free to choose, and what
// nothing names.
const (
	memberPrice = 4.0
	sizePrice   = 8.0
	freePrice   = 6.0
	linePrice   = 8.0 // of each line in what nothing names: by itself it would be a flat, a slope or a step
	junkPrice   = 10.0
	cuspPrice   = 12.0
	oddPrice    = 10.0
	arcPrice    = 5.0  // of a quarter struck with its height for radius, as Nicholson has it, and of a full cyma: rare beside quadrants and ellipses
	radiusPrice = 14.0 // of a cyma of any radius: rare beside the usual ones
	slightPrice = 60.0
)

// leastDrawn is the size in mm below which a member or a step is taken for a fault of the drawing: half of a usual line's thickness; half of the
// drawing's own line is more where that is thick, or the drawing small.
const leastDrawn = 0.25

// A way is how to read the bits from one joint of the face to a later one: as a member, as a level step with or without a drip, or as
// nothing, where a corner is ragged.
type way struct {
	from, to int
	step     bool
	junk     bool
	drip     *profile.SizedDrip
	shape    shape
	own      []float64
	at       geom.Point // where the shape starts
	lead     bool       // a level step lies before it that the outline does not show: ink has filled the cusp between the two
	tail     bool       // the same after it
	cost     float64
}

// longest is how many bits a member is made of at most; half an ellipse takes four arcs, and places where it is level or plumb cut them.
const longest = 8

// ways returns all ways to read any of the face's bits.
func (c *chain) ways() []way {
	face := c.bits[c.face:c.top]
	var out []way
	for a := range face {
		for b := a + 1; b <= min(len(face), a+longest); b++ {
			out = append(out, c.steps(a, b)...)
			out = append(out, c.members(a, b)...)
		}
		if face[a].length() < 0.5+6*c.sigma {
			out = append(out, way{from: a, to: a + 1, junk: true, cost: junkPrice})
		}
	}
	return out
}

// steps returns the bits from joint a to joint b as a level step.
func (c *chain) steps(a, b int) []way {
	face := c.bits[c.face:c.top]
	from, to := face[a].from, face[b-1].to
	if d := c.dripAtFillet(a, b); d != nil {
		cost := 0.0
		for _, p := range face[a:b] {
			cost += p.squares
		}
		return []way{{from: a, to: b, step: true, drip: d, cost: cost + 3*sizePrice}}
	}
	if math.Abs(to.Y-from.Y) > math.Max(0.25, 0.1*math.Abs(to.X-from.X))+3*c.sigma {
		return nil
	}
	if b-a <= 3 && math.Abs(to.X-from.X) > 0.2 {
		if cost := c.alongLevel(a, b); cost < 60+4*c.weight(face[a].first, face[b-1].last) {
			return []way{{from: a, to: b, step: true, cost: cost + sizePrice}}
		}
	}
	if d := c.drip(a, b); d != nil {
		cost := 0.0
		for _, p := range face[a:b] {
			cost += p.squares
		}
		return []way{{from: a, to: b, step: true, drip: d, cost: cost + 4*sizePrice}}
	}
	return nil
}

// weight returns the weight of the points i to j.
func (c *chain) weight(i, j int) float64 {
	sum := 0.0
	for _, w := range c.w[i : j+1] {
		sum += w
	}
	return sum
}

// alongLevel returns the cost of the points from joint a to joint b as a level line.
func (c *chain) alongLevel(a, b int) float64 {
	face := c.bits[c.face:c.top]
	sw, sy := 0.0, 0.0
	i0, i1 := face[a].first, face[b-1].last
	for i := i0; i <= i1; i++ {
		sw, sy = sw+c.w[i], sy+c.w[i]*c.pts[i].Y
	}
	cost := 0.0
	for i := i0; i <= i1; i++ {
		l, _ := loss((c.pts[i].Y - sy/sw) / c.sigma)
		cost += c.w[i] * l
	}
	return cost
}

// members returns the bits from joint a to joint b as a member, in every form that comes near.
func (c *chain) members(a, b int) []way {
	face := c.bits[c.face:c.top]
	from, to := face[a].from, face[b-1].to
	h, p := to.Y-from.Y, to.X-from.X
	if !(h > 0.15) {
		return nil
	}
	fit := c.newEdgeFit(a, b)
	var out []way
	straight, tilt := c.straight(a, b)
	for f := flat; f < free; f++ {
		if straight && f != flat && (f != slope || tilt < 0.03) || f == flat && tilt > 0.2 {
			continue
		}
		for _, sign := range []float64{1, -1} {
			k, tied := f.tie()
			if tied && k == 0 && sign < 0 || !(tied && k == 0) && p*sign < -0.3*h && math.Abs(p) > 0.5 {
				continue
			}
			s := shape{form: f, sign: sign}
			lead, tail := s.levels()
			for _, v := range [][2]bool{{false, false}, {true, false}, {false, true}, {true, true}} {
				if v[0] && !lead || v[1] && !tail {
					continue
				}
				if e, ok := fit.try(s, h, p, v[0], v[1]); ok {
					out = append(out, e)
				}
			}
		}
	}
	least := math.Inf(1)
	for _, e := range out {
		least = math.Min(least, e.cost)
	}
	out = slices.DeleteFunc(out, func(e way) bool { return e.cost > least+formsApart })
	if e, ok := c.freeEdge(a, b); ok && !straight {
		out = append(out, e)
	}
	return out
}

// formsApart is how much dearer than the cheapest a form may be for the bits it reads, and still be tried with all others.
const formsApart = 40

// straight reports whether the points from joint a to joint b lie in a line as far as their noise tells, and how far that leans from
// plumb, in radians.
func (c *chain) straight(a, b int) (bool, float64) {
	face := c.bits[c.face:c.top]
	var m moments
	for i := face[a].first; i <= face[b-1].last; i++ {
		m = m.plus(c.pts[i].Sub(face[a].from), c.w[i])
	}
	mean, dir := m.central().line()
	lean := math.Abs(math.Remainder(float64(dir)-math.Pi/2, math.Pi))
	return mean < 1.7*c.sigma*c.sigma, lean
}

// An edgeFit fits forms to the bits between two joints.
type edgeFit struct {
	c        *chain
	a, b     int
	sights   []sight
	few      []geom.Point // for a first look
	split    float64      // what the sights cost as split
	squares  float64      // what all points cost as split
	from, to geom.Point
}

// sightsPerEdge is how many of a member's points are looked at while members are told apart; all of them count at the end.
const sightsPerEdge = 40

func (c *chain) newEdgeFit(a, b int) *edgeFit {
	face := c.bits[c.face:c.top]
	f := &edgeFit{c: c, a: a, b: b, from: face[a].from, to: face[b-1].to}
	i0, i1 := face[a].first, face[b-1].last
	stride := max(1, (i1-i0)/sightsPerEdge)
	k := a
	for i := i0 + stride/2; i <= i1; i += stride {
		s := sight{c.pts[i], 0, 1, c.w[i] * float64(i1-i0+1) / float64((i1-i0)/stride+1)}
		f.sights = append(f.sights, s)
		for k+1 < b && i > face[k].last {
			k++
		}
		l, _ := loss(face[k].bend.distance(s.at) / c.sigma)
		f.split += s.w * l
	}
	for _, p := range face[a:b] {
		f.squares += p.squares
	}
	for i := 0; i < len(f.sights); i += max(1, len(f.sights)/10) {
		f.few = append(f.few, f.sights[i].at)
	}
	return f
}

// ends returns the holds that keep a member to the joints at its ends: tight where the outline has a corner, loose along it where the
// neighbors are tangent or double back.
func (f *edgeFit) ends(s shape, lead, tail bool) []hold {
	x, y, h := row{{0, 1}}, row{{1, 1}}, row{{2, 1}}
	endX, endY := x.plus(row{{3, 1}}, 1), y.plus(h, 1)
	if k, tied := s.form.tie(); tied {
		endX = x.plus(h, k*s.sign)
	}
	first, last := f.c.jointHolds(f.c.face+f.a, f.from, x, y), f.c.jointHolds(f.c.face+f.b, f.to, endX, endY)
	cusp := func(x, y row, at geom.Point) []hold {
		return []hold{{x, at.X, tangentSlack}, {y, at.Y, 0.12 + 2*f.c.sigma}}
	}
	if lead {
		first = cusp(x, y, f.from)
	}
	if tail {
		last = cusp(endX, endY, f.to)
	}
	return append(first, last...)
}

// jointHolds holds x and y to the joint before bit i.
func (c *chain) jointHolds(i int, at geom.Point, x, y row) []hold {
	tight := 2*c.sigma + 0.04
	across, along := tight, tight
	u := geom.Pt(1, 0)
	if i > 0 && i < len(c.bits) {
		in, out := c.bits[i-1].travel(true), c.bits[i].travel(false)
		turn := math.Abs(math.Atan2(in.Cross(out), in.Dot(out)))
		if c.smooth(i) {
			across, along = 0.12+2*c.sigma, tangentSlack
			if u = in.Add(out).Unit(); turn > doubled {
				u = in.Sub(out).Unit()
			}
		}
	}
	n := u.Left()
	dot := func(d geom.Point) row { return row(nil).plus(x, d.X).plus(y, d.Y) }
	return []hold{{dot(u), at.Dot(u), along}, {dot(n), at.Dot(n), across}}
}

// try fits a shape and reports whether it comes near at all.
func (f *edgeFit) try(s shape, h, p float64, lead, tail bool) (way, bool) {
	run := p
	if math.Abs(p) < 0.1 || p*s.sign < 0 {
		run = s.sign * 0.1
	}
	own := s.start(h, run)
	from := f.from
	if k, tied := s.form.tie(); tied && k == 0 {
		from.X = (f.from.X + f.to.X) / 2
	} else if tied { // half of what the ends leave goes to either
		from.X += (p - k*s.sign*h) / 2
	}
	if !f.near(s, from, own) {
		return way{}, false
	}
	rows := []row{{{0, 1}}, {{1, 1}}}
	for i := range own {
		rows = append(rows, row{{2 + i, 1}})
	}
	sys := &system{
		strands: []strand{{rows, func(v []float64) geom.Path { return s.draw(geom.Pt(v[0], v[1]), v[2:]) }}},
		sights:  f.sights, holds: f.ends(s, lead, tail), sigma: f.c.sigma, beyond: f.beyond(lead, tail),
	}
	theta, cost := sys.solve(append([]float64{from.X, from.Y}, own...), nil, 8)
	if !(cost < 2000) {
		return way{}, false
	}
	if k, tied := s.form.tie(); !(tied && k == 0) && s.form != slope && !s.round(theta[2:]) {
		return way{}, false
	}
	// A few points tell what a form costs more than the split, all of them what that costs.
	cost += f.squares - f.split + memberPrice + sizePrice*float64(s.own())
	if s.odd(theta[2:]) {
		cost += oddPrice
	}
	cost += s.price()
	start := geom.Pt(theta[0], theta[1])
	before, after := 0.0, 0.0
	if lead {
		cost, before = cost+sizePrice, start.X-f.from.X
	}
	if tail {
		cost, after = cost+sizePrice, f.to.X-start.X-s.run(theta[2:])
	}
	if s.undercut(before, after) {
		cost += cuspPrice
	}
	return way{from: f.a, to: f.b, shape: s, own: theta[2:], at: geom.Pt(theta[0], theta[1]), lead: lead, tail: tail, cost: cost}, true
}

// beyond returns how far the shape's ends may lie from the joints: where a neighbor is tangent, its line may be taken for the shape's.
func (f *edgeFit) beyond(lead, tail bool) [2]float64 {
	out := [2]float64{0.1 + 2*f.c.sigma, 0.1 + 2*f.c.sigma}
	slack := f.c.slack(f.from.Dist(f.to))
	if lead || f.c.smooth(f.c.face+f.a) {
		out[0] = slack
	}
	if tail || f.c.smooth(f.c.face+f.b) {
		out[1] = slack
	}
	return out
}

// tangentSlack is how far in mm the end of a member may lie from the joint that the split has put between two tangent pieces.
const tangentSlack = 1.5

// doubled is the turn from which an outline doubles back: a cusp that ink has filled.
const doubled = 2.4

// slack is the same for a member whose ends are so far apart: small ones would else be drawn from points that are not theirs.
func (c *chain) slack(chord float64) float64 {
	return math.Max(0.1+2*c.sigma, math.Min(tangentSlack, 0.3*chord))
}

// smooth reports whether the outline goes on without a corner at the joint before bit i, or doubles back there.
func (c *chain) smooth(i int) bool {
	if i <= 0 || i >= len(c.bits) {
		return false
	}
	in, out := c.bits[i-1].travel(true), c.bits[i].travel(false)
	turn := math.Abs(math.Atan2(in.Cross(out), in.Dot(out)))
	return turn < 0.45 || turn > doubled
}

// near reports whether a first look at a few points finds none of them far from the shape.
func (f *edgeFit) near(s shape, from geom.Point, own []float64) bool {
	path := s.draw(from, own)
	if path == nil {
		return false
	}
	far := 0.4 + 6*f.c.sigma + 0.12*f.from.Dist(f.to)
	for _, q := range f.few {
		if _, _, d := nearestOn(path, q); d > far {
			return false
		}
	}
	return true
}
