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

// splineSearch looks for the place of a groove, in the coordinates of the profile.
type splineSearch struct {
	SplineSpec
	joints  []joint
	outline []geom.Point
	back    func(geom.Point) bool // whether a point of the outline belongs to the back, the top or the foot
	bounds  geom.Rect
	sweep   geom.Rect // what the groove moves by as it goes in, over all joints, 0 with it
	half    float64   // mm, half of its thickness across the section when it is upright, at most
	scale   float64   // the least by which a joint's section is larger than the profile
	level   bool      // the joints' sections are only narrowed: heights are the profile's
}

func (m *fitting) search(spec SplineSpec, js []joint) splineSearch {
	s := splineSearch{SplineSpec: spec, joints: js, outline: m.profile.Outline.Flatten(searchTol), back: m.unworked, bounds: m.profile.bounds, scale: 1, level: true}
	for _, j := range js {
		s.sweep = s.sweep.Include(j.shift(spec.Depth))
		s.half = max(s.half, spec.Thickness/2/j.stretch())
		s.scale = min(s.scale, j.least())
		s.level = s.level && j.from.B == 0 && j.from.D == 1
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
	js := m.joints()
	if len(js) == 0 && len(m.list) == before {
		m.add(path, "the molding has no miter between two runs for a spline to hold")
	}
	if len(m.list) > before {
		return nil
	}
	s := m.search(*spec, js)
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
	m.apart(path+".depth", "grooves", spec.Depth, geom.Pt(out.From[0], out.From[1]), geom.Pt(out.To[0], out.To[1]))
	return out
}

// leastApart is the least wood in mm between what is sunk into the two ends of a piece; common practice, no source.
const leastApart = 25.4 / 2

// apart refuses what goes so deep into the mitered ends of a piece at these places of the profile that it meets what comes from the other end, or
// comes near it or out of the other end.
func (m *fitting) apart(path, what string, depth float64, places ...geom.Point) {
	for _, r := range m.runs {
		n := 0.0 // mm along the piece for each mm square to its miters
		for _, e := range [2]runEnd{r.left, r.right} {
			if e.kind == CutMiter {
				n += 1 / math.Sqrt(1+e.cut.X*e.cut.X+e.cut.Y*e.cut.Y)
			}
		}
		if n == 0 || r.rail || r.ret {
			continue
		}
		l := between(r.left.cut, r.right.cut)
		length := math.Inf(1)
		for _, p := range places {
			length = min(length, l.At(r.section.from.Apply(p)))
		}
		if left := length - n*depth; left < leastApart {
			m.add(path, "%s %s deep come within %s of one another or of the far end in run %s, and %s must stay%s", what, m.mm(depth), m.mm(max(0, left)), r.name,
				m.mm(leastApart), m.atMost((length-leastApart)/n))
			return
		}
	}
}

// coverOf returns the least wood around a spline over its whole depth, not counting the ends where it runs out.
func (m *fitting) coverOf(s Spline) float64 {
	pts := m.profile.Outline.Flatten(coverTol)
	g, cover := s.line(), math.Inf(1)
	for _, j := range m.joints() {
		cover = min(cover, j.around(g, s, pts))
	}
	return cover
}

// around returns the least wood around a groove in the joint's section; pts is the profile.
func (j joint) around(g groove, s Spline, pts []geom.Point) float64 {
	half := geom.Pt(0, s.Thickness/2)
	a, b := geom.Pt(g.from, g.at), geom.Pt(g.to, g.at)
	if g.upright {
		half = geom.Pt(s.Thickness/2/j.stretch(), 0)
		a, b = geom.Pt(g.at, g.from), geom.Pt(g.at, g.to)
	}
	mouth := [4]geom.Point{a.Sub(half), b.Sub(half), b.Add(half), a.Add(half)}
	var edges [][2]geom.Point // of the mouth, of the bottom, and between them, in the joint's section
	for i, p := range mouth {
		u, v := j.from.Apply(p), j.from.Apply(mouth[(i+1)%4])
		deep := j.in.Mul(s.Depth)
		edges = append(edges, [2]geom.Point{u, v}, [2]geom.Point{u.Add(deep), v.Add(deep)}, [2]geom.Point{u, u.Add(deep)})
	}
	box := geom.EmptyRect()
	for _, e := range edges {
		box = box.Include(e[0])
	}
	least := math.Inf(1)
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		if g.beyond(p, q) {
			continue
		}
		p, q = j.from.Apply(p), j.from.Apply(q)
		if min(p.Y, q.Y)-box.Max.Y >= least || box.Min.Y-max(p.Y, q.Y) >= least || min(p.X, q.X)-box.Max.X >= least || box.Min.X-max(p.X, q.X) >= least {
			continue // farther than what is known
		}
		for _, e := range edges {
			least = min(least, lineLine(e[0], e[1], p, q))
		}
	}
	return least
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
	g := groove{upright: upright, at: at}
	x, y := s.room(r)
	lo, hi := s.strip(g)
	across, along, back, on := y, x, s.sweep.Min.X, s.sweep.Max.X
	if upright {
		across, along, back, on = x, y, s.sweep.Min.Y, s.sweep.Max.Y
	}
	g.from, g.to = s.gap(g, lo-across, hi+across, along)
	g.from, g.to = g.from-back, g.to-on
	if !(g.to > g.from) || s.Stopped && g.length() < need {
		return g, false
	}
	if !s.Stopped {
		s.open(&g, along)
	}
	return g, g.length() >= need
}

// strip returns between which lines of the profile the groove lies over its whole depth.
func (s splineSearch) strip(g groove) (lo, hi float64) {
	if g.upright {
		return g.at - s.half + s.sweep.Min.X, g.at + s.half + s.sweep.Max.X
	}
	return g.at - s.Thickness/2 + s.sweep.Min.Y, g.at + s.Thickness/2 + s.sweep.Max.Y
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
		if within(s.outline, mid) {
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
