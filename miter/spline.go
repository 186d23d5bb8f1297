package miter

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"listel/profile/geom"
)

// spline finds the groove with the most wood around it, in all miters of the molding that have room for it. It is nil and a fault when there is no place.
func (m *fitting) spline() *Spline {
	spec := m.Molding.Spline
	if spec == nil {
		return nil
	}
	path := m.path + ".joint.spline"
	before := len(m.list)
	positive(spec.Thickness, path+".thickness", &m.faults)
	positive(spec.Depth, path+".depth", &m.faults)
	if len(m.jointPlaces()) == 0 && len(m.list) == before {
		m.add(path, "the molding has no miter for a spline to hold")
	}
	if len(m.list) > before {
		return nil
	}
	var out *Spline
	var why *Error
	var without []jointPlace // the first that it has no place in, of all the miters: it is served to fewer where it does not fit in some
	served, left := m.serve(func(places []jointPlace) bool {
		g, ok := m.search(*spec, m.joints(places)).best()
		if !ok {
			if without == nil {
				without = places
			}
			return false
		}
		s := g.spline(*spec)
		if words := m.apart("grooves", spec.Depth, places, geom.Pt(s.From[0], s.From[1]), geom.Pt(s.To[0], s.To[1])); words != "" {
			why = &Error{Path: path + ".depth", Reason: words}
			return false
		}
		out = &s
		return true
	})
	if out == nil {
		if why == nil {
			why = m.tooLarge(*spec, without)
		}
		m.list = append(m.list, why)
		return nil
	}
	m.splined = served
	m.leftOut("spline", left)
	out.Cover = m.coverOf(*out)
	return out
}

// tooLarge says that the spline has no place in the miters at those places, and how deep or how thick it might be.
func (m *fitting) tooLarge(spec SplineSpec, places []jointPlace) *Error {
	js := m.joints(places)
	fits := func(s SplineSpec) bool {
		g, ok := m.search(s, js).best()
		if !ok {
			return false
		}
		of := g.spline(s)
		return m.apart("grooves", s.Depth, places, geom.Pt(of.From[0], of.From[1]), geom.Pt(of.To[0], of.To[1])) == ""
	}
	would := "make it thinner and less deep"
	depth, thickness := spec, spec
	deep, thick := m.most(spec.Depth, func(mm float64) bool { depth.Depth = mm; return fits(depth) }), m.most(spec.Thickness, func(mm float64) bool { thickness.Thickness = mm; return fits(thickness) })
	switch {
	case deep > 0 && thick > 0:
		would = fmt.Sprintf("a depth of %s at most would do, or a thickness of %s at most", m.mm(deep), m.mm(thick))
	case deep > 0:
		would = fmt.Sprintf("a depth of %s at most would do", m.mm(deep))
	case thick > 0:
		would = fmt.Sprintf("a thickness of %s at most would do", m.mm(thick))
	}
	return &Error{Path: m.path + ".joint.spline", Reason: fmt.Sprintf("a spline %s thick that enters %s comes within %s of the surface wherever it lies; %s",
		m.mm(spec.Thickness), m.mm(spec.Depth), m.mm(leastCover), would)}
}

// most returns the greatest size below mm, in half steps of a rule, that fits, 0 when none does. What fits must fit smaller too.
func (m *fitting) most(mm float64, fits func(mm float64) bool) float64 {
	step := m.usual.rule / 2
	steps := sort.Search(int(math.Ceil(mm/step)), func(k int) bool { return k > 0 && !fits(float64(k)*step) })
	return float64(max(0, steps-1)) * step
}

// spline returns the groove as the output has it, its cover not yet measured.
func (g groove) spline(spec SplineSpec) Spline {
	s := Spline{Thickness: spec.Thickness, Depth: spec.Depth, openFrom: g.openFrom, openTo: g.openTo}
	s.From, s.To = [2]float64{g.from, g.at}, [2]float64{g.to, g.at}
	if g.upright {
		s.From, s.To = [2]float64{g.at, g.from}, [2]float64{g.at, g.to}
	}
	return s
}

// leastApart is the least wood in mm between what is sunk into the two ends of a piece; common practice, no source.
const leastApart = 25.4 / 2

// apart says why what goes so deep into the miters at those places, at these points of the profile, cannot be: it meets what comes from the other end
// of a piece, or comes near it or out of the other end. It is empty where nothing speaks against it. Returns are left to the search for the place.
func (m *fitting) apart(what string, depth float64, at []jointPlace, points ...geom.Point) string {
	for _, r := range m.runs {
		n := 0.0 // mm along the piece for each mm square to its miters
		for _, h := range []Hand{LeftHand, RightHand} {
			if p, ok := placeOf(r, h); ok && slices.Contains(at, p) {
				e := r.end(h)
				n += 1 / math.Sqrt(1+e.cut.X*e.cut.X+e.cut.Y*e.cut.Y)
			}
		}
		if n == 0 || r.rail || r.ret {
			continue
		}
		l := between(r.left.cut, r.right.cut)
		length := math.Inf(1)
		for _, p := range points {
			length = min(length, l.At(r.section.from.Apply(p)))
		}
		if left := length - n*depth; left < leastApart {
			return fmt.Sprintf("%s %s deep come within %s of one another or of the far end in run %s, and %s must stay%s", what, m.mm(depth), m.mm(max(0, left)), r.name,
				m.mm(leastApart), m.atMost((length-leastApart)/n))
		}
	}
	return ""
}

// coverOf returns the least wood around a spline over its whole depth, not counting the ends where it runs out.
func (m *fitting) coverOf(s Spline) float64 {
	pts := m.profile.Outline.Flatten(coverTol)
	g, cover := s.line(), math.Inf(1)
	for _, j := range m.joints(m.splined) {
		cover = min(cover, j.around(g, s, pts))
	}
	return cover
}

// around returns the least wood around a groove in the joint's section; pts is the profile.
func (j joint) around(g groove, s Spline, pts []geom.Point) float64 {
	a, b := geom.Pt(g.from, g.at), geom.Pt(g.to, g.at)
	if g.upright {
		a, b = geom.Pt(g.at, g.from), geom.Pt(g.at, g.to)
	}
	a, b = j.from.Apply(a), j.from.Apply(b)
	half := j.across(b.Sub(a)).Mul(s.Thickness / 2)
	mouth := [4]geom.Point{a.Sub(half), b.Sub(half), b.Add(half), a.Add(half)}
	var edges [][2]geom.Point // of the mouth, of the bottom, and between them, in the joint's section
	for i, u := range mouth {
		v := mouth[(i+1)%4]
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
	if j.ret {
		least = min(least, j.behind(box.Min.X, s.Depth))
	}
	return least
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
