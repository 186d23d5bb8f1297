package miter

import (
	"cmp"
	"math"
	"slices"

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

// splineSearch looks for the place of a groove.
type splineSearch struct {
	SplineSpec
	joints []joint
	back   func(geom.Point) bool // whether a point of the outline belongs to the back, the top or the foot
	bounds geom.Rect
}

// spline finds the groove with the most wood around it. It is nil and a fault when there is no place.
func (m *fitting) spline() *Spline {
	spec := m.Molding.Spline
	if spec == nil {
		return nil
	}
	path := m.path + ".joint.spline"
	before := len(m.list)
	positive(spec.Thickness, path+".thickness", &m.faults)
	positive(spec.Depth, path+".depth", &m.faults)
	if m.Rake != nil {
		m.add(path, "a raking molding takes no spline: its miters are not square to the section")
	}
	js := m.joints(searchTol)
	if len(js) == 0 && len(m.list) == before {
		m.add(path, "the molding has no miter between two runs for a spline to hold")
	}
	if len(m.list) > before {
		return nil
	}
	s := splineSearch{SplineSpec: *spec, joints: js, back: m.unworked, bounds: m.profile.bounds}
	g, ok := s.best()
	if !ok {
		m.add(path, "a spline %s thick that enters %s comes within %s of the surface wherever it lies; make it thinner or less deep",
			m.mm(spec.Thickness), m.mm(spec.Depth), m.mm(leastCover))
		return nil
	}
	out := &Spline{Thickness: spec.Thickness, Depth: spec.Depth, openFrom: g.openFrom, openTo: g.openTo}
	out.From, out.To = [2]float64{g.from, g.at}, [2]float64{g.to, g.at}
	if g.upright {
		out.From, out.To = [2]float64{g.at, g.from}, [2]float64{g.at, g.to}
	}
	out.Cover = m.coverOf(*out)
	return out
}

// coverOf returns the least wood around a spline.
func (m *fitting) coverOf(s Spline) float64 {
	search := splineSearch{SplineSpec: SplineSpec{Thickness: s.Thickness, Depth: s.Depth}, joints: m.joints(coverTol), bounds: m.profile.bounds}
	return search.cover(s.line())
}

// line returns the groove of the spline.
func (s Spline) line() groove {
	g := groove{at: s.From[1], from: s.From[0], to: s.To[0], openFrom: s.openFrom, openTo: s.openTo}
	if s.From[0] == s.To[0] {
		g.upright, g.at, g.from, g.to = true, s.From[0], s.From[1], s.To[1]
	}
	return g
}

// runsOut says where a groove that is not stopped comes out of the wood.
func runsOut(g groove) string {
	names := []string{"the back", "the face"}
	if g.upright {
		names = []string{"the foot", "the top"}
	}
	switch {
	case g.openFrom && g.openTo:
		return names[0] + " and " + names[1]
	case g.openFrom:
		return names[0]
	}
	return names[1]
}

// unworked reports whether a point of the outline lies on the back, the top or the foot: not on the molded face.
func (m *fitting) unworked(p geom.Point) bool {
	if len(m.profile.Back) == 0 {
		return p.X < 0.05 || p.Y < 0.05 || p.Y > m.profile.Height-0.05
	}
	_, _, d := m.profile.Back.Nearest(p)
	return d < 0.03
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
	return best, true
}

// lines returns the lines of the section that a groove may lie on.
func (s splineSearch) lines() []groove {
	var out []groove
	for i := range grooveLines {
		t := (float64(i) + 0.5) / grooveLines
		out = append(out, groove{upright: true, at: s.bounds.Min.X + t*s.bounds.Width()}, groove{at: s.bounds.Min.Y + t*s.bounds.Height()})
	}
	return out
}

// longest returns the longest groove on the lines that is at least need long, with at least r mm of wood around it, and the
// lines that have one.
func (s splineSearch) longest(lines []groove, r, need float64) (best groove, left []groove, ok bool) {
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
	g := groove{upright: upright, at: at, from: math.Inf(-1), to: math.Inf(1)}
	for i, j := range s.joints {
		lo, hi := j.gap(s, g, r)
		if i == 0 || lo > g.from {
			g.from = lo
		}
		if i == 0 || hi < g.to {
			g.to = hi
		}
		if s.Stopped && g.length() < need {
			return g, false
		}
	}
	if !(g.to > g.from) || math.IsInf(g.length(), 0) {
		return g, false
	}
	if !s.Stopped {
		s.open(&g, r)
	}
	return g, true
}

// strip returns how wide the groove is across its line in the run's own section, over its whole depth.
func (j joint) strip(s splineSearch, g groove) (lo, hi float64) {
	if !g.upright {
		return g.at - s.Thickness/2, g.at + s.Thickness/2
	}
	half, shift := s.Thickness/2/j.stretch(), j.shift(s.Depth)
	return g.at*j.k - half + min(0, shift), g.at*j.k + half + max(0, shift)
}

// gap returns the longest stretch of the line of g, in the profile's coordinates, where the groove has r mm of wood around it in this
// run. It is empty, with lo > hi, when there is none.
func (j joint) gap(s splineSearch, g groove, r float64) (lo, hi float64) {
	a, b := j.strip(s, g)
	var room [64][2]float64 // on the stack
	blocked := j.blocked(room[:0], g, a-r, b+r, r)
	lo, hi = 1, 0
	for i := 1; i < len(blocked); i++ {
		from, to := blocked[i-1][1], blocked[i][0]
		if to-from <= hi-lo && hi > lo || to <= from {
			continue
		}
		mid := geom.Pt((from+to)/2, (a+b)/2)
		if g.upright {
			mid = geom.Pt(mid.Y, mid.X)
		}
		if within(j.outline, mid) {
			lo, hi = from, to
		}
	}
	if g.upright || hi < lo {
		return lo, hi
	}
	shift := j.shift(s.Depth)
	return (lo - min(0, shift)) / j.k, (hi - max(0, shift)) / j.k
}

// blocked returns the stretches along the line of g, in order and not touching, within r of an outline part that lies
// between lo and hi across it.
func (j joint) blocked(all [][2]float64, g groove, lo, hi, r float64) [][2]float64 {
	for i, p := range j.outline {
		q := j.outline[(i+1)%len(j.outline)]
		if g.upright {
			p, q = geom.Pt(p.Y, p.X), geom.Pt(q.Y, q.X) // X along the groove, Y across
		}
		if max(p.Y, q.Y) < lo || min(p.Y, q.Y) > hi {
			continue
		}
		a, b := p, q
		if p.Y != q.Y {
			a = p.Lerp(q, clamp((lo-p.Y)/(q.Y-p.Y)))
			b = p.Lerp(q, clamp((hi-p.Y)/(q.Y-p.Y)))
		}
		all = append(all, [2]float64{min(a.X, b.X) - r, max(a.X, b.X) + r})
	}
	slices.SortFunc(all, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
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
func (s splineSearch) open(g *groove, r float64) {
	j := s.joints[0]
	a, b := j.strip(s, *g)
	reach := 2 * r
	if !g.upright {
		reach += math.Abs(j.shift(s.Depth)) / j.k
	}
	for _, end := range []struct {
		at   *float64
		open *bool
		dir  float64
	}{{&g.from, &g.openFrom, -1}, {&g.to, &g.openTo, 1}} {
		exit, clean := *end.at, true
		for _, across := range []float64{a, (a + b) / 2, b} {
			hit, ok := j.exit(g.upright, across, *end.at*j.scaleAlong(*g), end.dir)
			clean = clean && ok && math.Abs(hit-*end.at*j.scaleAlong(*g)) <= reach && s.back(j.toProfile(g.upright, across, hit))
			if v := hit / j.scaleAlong(*g); v*end.dir > exit*end.dir {
				exit = v
			}
		}
		if clean {
			*end.at, *end.open = exit, true
		}
	}
}

func (j joint) scaleAlong(g groove) float64 {
	if g.upright {
		return 1
	}
	return j.k
}

func (j joint) toProfile(upright bool, across, along float64) geom.Point {
	if upright {
		return geom.Pt(across/j.k, along)
	}
	return geom.Pt(along/j.k, across)
}

// exit returns where a line across the section at that place leaves it, going from a point in it up (dir 1) or down.
func (j joint) exit(upright bool, across, from, dir float64) (float64, bool) {
	best, ok := 0.0, false
	for i, p := range j.outline {
		q := j.outline[(i+1)%len(j.outline)]
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

// cover returns the least wood around the groove over its whole depth, in mm, not counting the ends where it runs out.
func (s splineSearch) cover(g groove) float64 {
	least := math.Inf(1)
	for _, j := range s.joints {
		r := j.block(s, g)
		for i, p := range j.outline {
			q := j.outline[(i+1)%len(j.outline)]
			if s.beyond(g, r, p, q) {
				continue
			}
			least = min(least, rectDistance(r, p, q))
		}
	}
	return least
}

// block returns the room that the groove takes in the run's own section.
func (j joint) block(s splineSearch, g groove) block {
	a, b := j.strip(s, g)
	if g.upright {
		return block{Min: geom.Pt(a, g.from), Max: geom.Pt(b, g.to)}
	}
	shift := j.shift(s.Depth)
	return block{Min: geom.Pt(g.from*j.k+min(0, shift), a), Max: geom.Pt(g.to*j.k+max(0, shift), b)}
}

// beyond reports whether the line from p to q closes an end where the groove runs out.
func (s splineSearch) beyond(g groove, r block, p, q geom.Point) bool {
	const tol = 0.05
	lo, hi, a, b := r.Min.Y, r.Max.Y, p.Y, q.Y
	if !g.upright {
		lo, hi, a, b = r.Min.X, r.Max.X, p.X, q.X
	}
	return g.openFrom && max(a, b) <= lo+tol || g.openTo && min(a, b) >= hi-tol
}
