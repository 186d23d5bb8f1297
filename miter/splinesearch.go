package miter

import (
	"math"

	"listel/profile/geom"
)

// A groove is a place for a spline in the coordinates of the profile: its center line from one end to the other, level or
// upright.
type groove struct {
	upright  bool
	at       float64 // x of an upright one, y of a level one
	from, to float64 // along it
	openFrom bool    // it runs out at that end
	openTo   bool
}

func (g groove) length() float64 { return g.to - g.from }

// How a groove is placed: common practice, no source.
const (
	grooveLines = 32   // places tried across the section
	grooveLeast = 2.0  // times its thickness, the shortest spline that holds
	grooveTol   = 0.05 // mm, how near to the most wood a groove is put
)

// A sinking is what a groove moves by and takes up over its whole depth, over all joints, in the coordinates of the profile.
type sinking struct {
	sweep geom.Rect  // what it moves by as it goes in, 0 with it
	half  geom.Point // mm, half of its thickness across the profile, at most: x of an upright one, y of a level one
	lean  geom.Point // mm, by how much its ends lean over: y of an upright one, x of a level one
}

func sunkIn(spec SplineSpec, js []joint) sinking {
	var s sinking
	for _, j := range js {
		s.sweep = s.sweep.Include(j.shift(spec.Depth))
		inverse := j.from.Inverse()
		upright := inverse.ApplyVector(j.across(j.from.ApplyVector(geom.Pt(0, 1)))).Mul(spec.Thickness / 2)
		level := inverse.ApplyVector(j.across(j.from.ApplyVector(geom.Pt(1, 0)))).Mul(spec.Thickness / 2)
		s.half = geom.Pt(max(s.half.X, math.Abs(upright.X)), max(s.half.Y, math.Abs(level.Y)))
		s.lean = geom.Pt(max(s.lean.X, math.Abs(level.X)), max(s.lean.Y, math.Abs(upright.Y)))
	}
	return s
}

// strip returns between which lines of the profile the groove lies over its whole depth.
func (s sinking) strip(g groove) (lo, hi float64) {
	if g.upright {
		return g.at - s.half.X + s.sweep.Min.X, g.at + s.half.X + s.sweep.Max.X
	}
	return g.at - s.half.Y + s.sweep.Min.Y, g.at + s.half.Y + s.sweep.Max.Y
}

// block returns the room that a groove takes over its whole depth.
func (s sinking) block(g groove) block {
	a, b := s.strip(g)
	if g.upright {
		return block{Min: geom.Pt(a, g.from+s.sweep.Min.Y-s.lean.Y), Max: geom.Pt(b, g.to+s.sweep.Max.Y+s.lean.Y)}
	}
	return block{Min: geom.Pt(g.from+s.sweep.Min.X-s.lean.X, a), Max: geom.Pt(g.to+s.sweep.Max.X+s.lean.X, b)}
}

// splineSearch looks for the place of a groove, in the coordinates of the profile.
type splineSearch struct {
	SplineSpec
	sinking
	outline []geom.Point
	back    func(geom.Point) bool // whether a point of the outline belongs to the back, the top or the foot
	bounds  geom.Rect
	scale   float64 // the least by which a joint's section is larger than the profile
	level   bool    // the joints' sections are only narrowed: heights are the profile's
	returns []joint // those whose piece is a return
}

func (m *fitting) search(spec SplineSpec, js []joint) splineSearch {
	s := splineSearch{SplineSpec: spec, sinking: sunkIn(spec, js), outline: m.profile.Outline.Flatten(searchTol), back: m.unworked, bounds: m.profile.bounds, scale: 1, level: true}
	for _, j := range js {
		s.scale = min(s.scale, j.least())
		s.level = s.level && j.from.B == 0 && j.from.D == 1
		if j.ret {
			s.returns = append(s.returns, j)
		}
	}
	return s
}

// room returns how much wood across and up the profile makes r mm in every joint's section.
func (s splineSearch) room(r float64) (x, y float64) {
	if s.level {
		return r / s.scale, r
	}
	return r / s.scale, r / s.scale
}

// beyond reports whether the line from p to q closes an end where the groove runs out.
func (g groove) beyond(p, q geom.Point) bool {
	const tol = 0.05 // the search's outline lies so near to the fine one
	a, b := p.X, q.X
	if g.upright {
		a, b = p.Y, q.Y
	}
	return g.openFrom && max(a, b) <= g.from+tol || g.openTo && min(a, b) >= g.to-tol
}

// unworked reports whether a point of the outline lies on the back, the top or the foot: not on the molded face.
func (m *fitting) unworked(p geom.Point) bool {
	if len(m.profile.Back) == 0 {
		return p.X < 0.05 || p.Y < 0.05 || p.Y > m.profile.Height-0.05
	}
	_, _, d := m.profile.Back.Nearest(p)
	return d < 0.03
}

// nearest returns how far out from the back a groove may come so that r mm of every return is left behind it: minus infinity without returns.
func (s splineSearch) nearest(r float64) float64 {
	x := math.Inf(-1)
	for _, j := range s.returns {
		x = max(x, (r-j.behind(0, s.Depth))/j.from.A)
	}
	return x
}

// best returns the groove with the most wood around it among those at least half as long as the longest that could be cut,
// lengthened where it lies as far as that wood stays.
func (s splineSearch) best() (groove, bool) {
	lines := s.lines()
	longest, _, ok := s.longest(lines, leastCover, 0)
	if !ok || longest.length() < grooveLeast*s.Thickness {
		return groove{}, false
	}
	need := max(longest.length()/2, grooveLeast*s.Thickness)
	lo, hi := leastCover, min(s.bounds.Width(), s.bounds.Height())/2 // the wood on both sides lies within the section
	best := longest
	for hi-lo > grooveTol {
		mid := (lo + hi) / 2
		// A line with no place at some cover has none at more: only those that still have one are tried again.
		if g, left, ok := s.longest(lines, mid, need); ok {
			best, lines, lo = g, left, mid
		} else {
			hi = mid
		}
	}
	return s.climb(best, lo, need), true
}

// climb moves the groove across to where it has the most wood around it, within grooveTol, by steps uphill from a place with that cover. Cover
// changes by no more than the distance moved.
func (s splineSearch) climb(g groove, cover, need float64) groove {
	step := s.bounds.Height() / grooveLines
	if g.upright {
		step = s.bounds.Width() / grooveLines
	}
	const gain = grooveTol / 5
	for step > gain {
		up := false
		for _, d := range []float64{-step, step} {
			if _, ok := s.line(g.upright, g.at+d, cover+gain, need); !ok {
				continue // nothing is gained there
			}
			for more := step; more >= gain && !up; more /= 2 {
				if h, ok := s.line(g.upright, g.at+d, cover+more, need); ok {
					g, cover, up = h, cover+more, true
				}
			}
		}
		if !up {
			step /= 2
		}
	}
	return g
}

// lines returns the lines of the section that a groove may lie on.
func (s splineSearch) lines() []groove {
	out := make([]groove, 0, 2*grooveLines)
	for i := range grooveLines {
		t := (float64(i) + 0.5) / grooveLines
		out = append(out, groove{upright: true, at: s.bounds.Min.X + t*s.bounds.Width()}, groove{at: s.bounds.Min.Y + t*s.bounds.Height()})
	}
	return out
}

// longest returns the longest groove on the lines that is at least need long, with at least r mm of wood around it, and the
// lines that have one.
func (s splineSearch) longest(lines []groove, r, need float64) (best groove, left []groove, ok bool) {
	left = make([]groove, 0, len(lines))
	for _, l := range lines {
		g, found := s.line(l.upright, l.at, r, need)
		if !found || g.length() < need {
			continue
		}
		left = append(left, l)
		if !ok || g.length() > best.length()+1e-9 {
			best, ok = g, true
		}
	}
	return best, left, ok
}

// line returns the longest groove on one line of the profile, false when it is shorter than need.
func (s splineSearch) line(upright bool, at, r, need float64) (groove, bool) {
	g := groove{upright: upright, at: at}
	x, y := s.room(r)
	lo, hi := s.strip(g)
	across, along, back, on := y, x, s.sweep.Min.X-s.lean.X, s.sweep.Max.X+s.lean.X
	if upright {
		across, along, back, on = x, y, s.sweep.Min.Y-s.lean.Y, s.sweep.Max.Y+s.lean.Y
	}
	g.from, g.to = s.gap(g, lo-across, hi+across, along)
	g.from, g.to = g.from-back, g.to-on
	if x := s.nearest(r); upright && at-s.half.X < x {
		return g, false
	} else if !upright {
		g.from = max(g.from, x+s.lean.X)
	}
	if !(g.to > g.from) || s.Stopped && g.length() < need {
		return g, false
	}
	if !s.Stopped {
		s.open(&g, along)
	}
	return g, g.length() >= need
}

// gap returns the longest stretch along the line of g that lies in the profile and clear by along of all parts of its outline between
// lo and hi across it. It is empty, with from > to, when there is none.
func (s splineSearch) gap(g groove, lo, hi, along float64) (from, to float64) {
	var room [64][2]float64 // on the stack
	blocked := s.blocked(room[:0], g, lo, hi, along)
	from, to = 1, 0
	for i := 1; i < len(blocked); i++ {
		a, b := blocked[i-1][1], blocked[i][0]
		if b-a <= max(0, to-from) {
			continue
		}
		mid := geom.Pt((a+b)/2, (lo+hi)/2)
		if g.upright {
			mid = geom.Pt(mid.Y, mid.X)
		}
		if geom.PolygonContains(s.outline, mid) {
			from, to = a, b
		}
	}
	return from, to
}

// blocked returns the stretches along the line of g, in order and not touching, within along of an outline part that lies
// between lo and hi across it.
func (s splineSearch) blocked(all [][2]float64, g groove, lo, hi, along float64) [][2]float64 {
	q := s.outline[len(s.outline)-1]
	for _, next := range s.outline {
		p := q
		q = next
		if g.upright {
			p, next = geom.Pt(p.Y, p.X), geom.Pt(q.Y, q.X) // X along the groove, Y across
		}
		if max(p.Y, next.Y) < lo || min(p.Y, next.Y) > hi {
			continue
		}
		a, b := p.X, next.X
		if p.Y != next.Y {
			k := (next.X - p.X) / (next.Y - p.Y)
			a, b = p.X+k*(max(lo, min(hi, p.Y))-p.Y), p.X+k*(max(lo, min(hi, next.Y))-p.Y)
		}
		all = append(all, [2]float64{min(a, b) - along, max(a, b) + along})
		for i := len(all) - 1; i > 0 && all[i][0] < all[i-1][0]; i-- { // they are few, and mostly in order
			all[i], all[i-1] = all[i-1], all[i]
		}
	}
	out := all[:0]
	for _, x := range all {
		if n := len(out); n > 0 && x[0] <= out[n-1][1] {
			out[n-1][1] = max(out[n-1][1], x[1])
		} else {
			out = append(out, x)
		}
	}
	return out
}

// open lengthens a groove through an end where only the back, the top or the foot lies before it.
func (s splineSearch) open(g *groove, along float64) {
	a, b := s.strip(*g)
	reach := 2*along + s.sweep.Width()
	if g.upright {
		reach = 2*along + s.sweep.Height()
	}
	for _, end := range []struct {
		at   *float64
		open *bool
		dir  float64
	}{{&g.from, &g.openFrom, -1}, {&g.to, &g.openTo, 1}} {
		if end.dir < 0 && !g.upright && len(s.returns) > 0 {
			continue // a return comes to nothing at its back
		}
		exit, clean := *end.at, true
		for _, across := range []float64{a, (a + b) / 2, b} {
			hit, ok := s.exit(g.upright, across, *end.at, end.dir)
			on := geom.Pt(hit, across)
			if g.upright {
				on = geom.Pt(across, hit)
			}
			clean = clean && ok && math.Abs(hit-*end.at) <= reach && s.back(on)
			if hit*end.dir > exit*end.dir {
				exit = hit
			}
		}
		if clean {
			*end.at, *end.open = exit, true
		}
	}
}

// exit returns where a line across the profile at that place leaves it, going from a point in it up (dir 1) or down.
func (s splineSearch) exit(upright bool, across, from, dir float64) (float64, bool) {
	best, ok := 0.0, false
	for i, p := range s.outline {
		q := s.outline[(i+1)%len(s.outline)]
		if upright {
			p, q = geom.Pt(p.Y, p.X), geom.Pt(q.Y, q.X)
		}
		if (p.Y > across) == (q.Y > across) {
			continue
		}
		x := p.X + (across-p.Y)/(q.Y-p.Y)*(q.X-p.X)
		if (x-from)*dir > 0 && (!ok || (x-best)*dir < 0) {
			best, ok = x, true
		}
	}
	return best, ok
}
