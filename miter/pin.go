package miter

import (
	"container/heap"
	"fmt"
	"math"
	"slices"

	"listel/profile/geom"
)

// A pin is put where no other place is better by more than pinTol of cover, and from there to the top of the rise it stands on, within
// pinStep. Sections have long ridges of equal cover: along them a finer search of everything would take long for nothing.
const (
	pinTol  = 0.25 // mm
	pinStep = 0.01 // mm
)

// pin finds the place of a pin across the miters with the most wood around it, in all miters of the molding that have room for it, and returns it with
// the spline, which is shortened when it left the pin no room. The pin is nil and a fault noted when there is none.
func (m *fitting) pin(s *Spline) (*Pin, *Spline) {
	spec := m.Molding.Pin
	if spec == nil {
		return nil, s
	}
	path := m.path + ".joint.pin"
	before := len(m.list)
	positive(spec.Diameter, path+".diameter", &m.faults)
	positive(spec.Depth, path+".depth", &m.faults)
	if len(m.jointPlaces()) == 0 && len(m.list) == before {
		m.add(path, "the molding has no miter for a pin to hold")
	}
	if len(m.list) > before {
		return nil, s
	}
	var out *Pin
	beside := s
	why := &Error{Path: path, Reason: fmt.Sprintf("a pin of %s that enters %s comes within %s of the surface or the spline wherever it lies; make it thinner or less deep",
		m.mm(spec.Diameter), m.mm(spec.Depth), m.mm(m.usual.cover))}
	served, left := m.serve(func(places []jointPlace) bool {
		js := m.joints(places)
		for _, t := range s.shortened() {
			p := m.pinBeside(*spec, js, t)
			if p.Cover < m.usual.cover {
				continue
			}
			words := m.apart("pins", spec.Depth, places, geom.Pt(p.At[0], p.At[1]))
			if words != "" {
				why = &Error{Path: path + ".depth", Reason: words}
				return false
			}
			out, beside = p, t
			return true
		}
		return false
	})
	if out == nil {
		m.list = append(m.list, why)
		return nil, s
	}
	m.pinned = served
	m.leftOut("pin", left)
	if beside != nil && beside != s {
		beside.Cover = m.coverOf(*beside)
	}
	return out, beside
}

// pinBeside returns the best pin beside the spline, which may be nil.
func (m *fitting) pinBeside(spec PinSpec, js []joint, s *Spline) *Pin {
	p := newPinSearch(spec, js, m.profile.Outline.Flatten(searchTol))
	if s != nil {
		groove := sunkIn(SplineSpec{Thickness: s.Thickness, Depth: s.Depth}, js).block(s.line())
		p.groove = &groove
	}
	at, _ := p.best(m.profile.bounds)
	fine := newPinSearch(spec, js, m.profile.Outline.Flatten(coverTol))
	fine.groove = p.groove
	return &Pin{Diameter: spec.Diameter, Depth: spec.Depth, At: [2]float64{at.X, at.Y}, Cover: fine.cover(at)}
}

// shortened returns the spline, then shorter ones to leave room for a pin, first at its far end and then at its near one.
func (s *Spline) shortened() []*Spline {
	out := []*Spline{s}
	if s == nil {
		return out
	}
	a, b := geom.Pt(s.From[0], s.From[1]), geom.Pt(s.To[0], s.To[1])
	for part := 0.9; part > 0.35; part -= 0.1 {
		if a.Dist(b)*part < grooveLeast*s.Thickness {
			break
		}
		for _, far := range []bool{true, false} {
			t := *s
			if q := a.Lerp(b, part); far {
				t.To, t.openTo = [2]float64{q.X, q.Y}, false
			} else {
				q = b.Lerp(a, part)
				t.From, t.openFrom = [2]float64{q.X, q.Y}, false
			}
			out = append(out, &t)
		}
	}
	return out
}

// pinSearch looks for the place of a pin, in the coordinates of the profile.
type pinSearch struct {
	PinSpec
	sides  []*pinSide
	groove *block  // nil without a spline
	most   float64 // the most by which a joint's section is larger than the profile
}

// A pinSide is one section's sides of the miters, with their outline. What the pin sweeps there as it goes in at all of them is a line: a miter that
// leans the other way sinks it toward the other side of the section.
type pinSide struct {
	from    geom.Affine // from the profile to the section
	outline []geom.Point
	near    *int          // the line of the outline that was nearest at the last place asked for: likely so again, and then no other need be measured
	ends    [2]geom.Point // of the line, from the pin's center on the miter face, in the section
	moved   [2]geom.Point // the same in the profile
	scale   float64       // the least by which the section is larger than the profile
	sunk    float64       // how far from its center into a return the pin goes, 0 where none is one
}

func newPinSearch(spec PinSpec, js []joint, profile []geom.Point) pinSearch {
	s := pinSearch{PinSpec: spec, most: 1}
	for _, j := range js {
		s.most = max(s.most, j.most())
		if !slices.ContainsFunc(s.sides, func(o *pinSide) bool { return o.takes(j, spec.Depth) }) {
			side := &pinSide{from: j.from, scale: j.least(), outline: make([]geom.Point, len(profile)), near: new(int)}
			for i, p := range profile {
				side.outline[i] = j.from.Apply(p)
			}
			side.takes(j, spec.Depth)
			s.sides = append(s.sides, side)
		}
	}
	for _, side := range s.sides {
		back := side.from.Inverse()
		side.moved = [2]geom.Point{back.ApplyVector(side.ends[0]), back.ApplyVector(side.ends[1])}
	}
	return s
}

// takes lengthens the line by what the pin sweeps at a joint, and reports false where that is another section's or does not lie in line.
func (s *pinSide) takes(j joint, depth float64) bool {
	const same = 1e-9
	end := j.in.Mul(depth)
	along := s.ends[1].Sub(s.ends[0])
	if !alikeMaps(s.from, j.from) || math.Abs(along.Cross(end)) > same {
		return false
	}
	switch {
	case along.Dot(along) == 0:
		s.ends[1] = end
	case end.Dot(along) > s.ends[1].Dot(along):
		s.ends[1] = end
	case end.Dot(along) < s.ends[0].Dot(along):
		s.ends[0] = end
	}
	if j.ret {
		s.sunk = max(s.sunk, depth/j.stretch())
	}
	return true
}

// cover returns the least wood around a pin whose center on the miter face lies at p of the profile, negative when that is
// outside. The pin leans in the section, where it is less wide than its diameter across; the whole diameter counts here, on the safe side.
func (s pinSearch) cover(p geom.Point) float64 { return s.atLeast(p, math.Inf(-1)) }

// atLeast returns the cover at p, or any value below limit when it is below that.
func (s pinSearch) atLeast(p geom.Point, limit float64) float64 {
	least := math.Inf(1)
	for i, j := range s.sides {
		a := j.from.Apply(p)
		d := clearOf(j.outline, a.Add(j.ends[0]), a.Add(j.ends[1]), j.near, limit+s.Diameter/2)
		if d >= limit+s.Diameter/2 && !geom.PolygonContains(j.outline, a) {
			d = -d
		}
		if j.sunk > 0 {
			d = min(d, a.X-j.sunk)
		}
		if q, r := p.Add(j.moved[0]), p.Add(j.moved[1]); s.groove != nil && j.scale*apartBy(*s.groove, q, r) < d {
			d = min(d, j.scale*rectDistance(*s.groove, q, r))
		}
		if least = min(least, d); least-s.Diameter/2 < limit {
			s.sides[0], s.sides[i] = j, s.sides[0] // likely so for the next place too, and then no other need be asked
			break
		}
	}
	return least - s.Diameter/2
}

// clearOf returns the distance from the line between a and b to the outline. It begins with the outline's line that ends at point near, and leaves
// there which was the nearest; below enough any distance that is no less will do.
func clearOf(outline []geom.Point, a, b geom.Point, near *int, enough float64) float64 {
	last := *near
	d := lineLine(a, b, outline[(last+len(outline)-1)%len(outline)], outline[last])
	if d < enough {
		return d
	}
	x0, x1, y0, y1 := min(a.X, b.X), max(a.X, b.X), min(a.Y, b.Y), max(a.Y, b.Y)
	u := outline[len(outline)-1]
	for i, v := range outline {
		p := u
		u = v
		if min(p.Y, v.Y)-y1 >= d || y0-max(p.Y, v.Y) >= d || min(p.X, v.X)-x1 >= d || x0-max(p.X, v.X) >= d {
			continue // farther than what is known
		}
		if l := lineLine(a, b, p, v); l < d {
			if d, *near = l, i; d < enough {
				break
			}
		}
	}
	return d
}

// lineLine returns the distance between the lines from a to b and from c to d, 0 when they share a point.
func lineLine(a, b, c, d geom.Point) float64 {
	if cross(a, b, c, d) {
		return 0
	}
	return math.Sqrt(min(pointLine2(a, c, d), pointLine2(b, c, d), pointLine2(c, a, b), pointLine2(d, a, b)))
}

// A cell is a square of places still in question.
type cell struct {
	center geom.Point
	half   float64
	most   float64 // no place in it has more cover
}

type cells []*cell

func (c cells) Len() int           { return len(c) }
func (c cells) Less(i, j int) bool { return c[i].most > c[j].most }
func (c cells) Swap(i, j int)      { c[i], c[j] = c[j], c[i] }
func (c *cells) Push(x any)        { *c = append(*c, x.(*cell)) }
func (c *cells) Pop() any {
	old := *c
	last := old[len(old)-1]
	*c = old[:len(old)-1]
	return last
}

// best returns the place with the most cover, within pinTol of the best there is, or any place when none has leastCover. Squares
// are halved, the most promising first, and cover changes by no more than the distance moved in a joint's section.
func (s pinSearch) best(r geom.Rect) (geom.Point, float64) {
	size := max(min(r.Width(), r.Height())/2, 1)
	at, most := r.Center(), s.cover(r.Center())
	var queue cells
	push := func(c geom.Point, half float64) {
		v := s.atLeast(c, max(most+pinTol, leastCover)-half*math.Sqrt2*s.most)
		if v > most {
			at, most = c, v
		}
		if limit := v + half*math.Sqrt2*s.most; limit > max(most+pinTol, leastCover) {
			heap.Push(&queue, &cell{c, half, limit})
		}
	}
	for x := r.Min.X; x < r.Max.X; x += size {
		for y := r.Min.Y; y < r.Max.Y; y += size {
			push(geom.Pt(x+size/2, y+size/2), size/2)
		}
	}
	for queue.Len() > 0 {
		c := heap.Pop(&queue).(*cell)
		if c.most <= most+pinTol {
			break
		}
		h := c.half / 2
		for _, d := range []geom.Point{{X: -h, Y: -h}, {X: h, Y: -h}, {X: -h, Y: h}, {X: h, Y: h}} {
			push(c.center.Add(d), h)
		}
	}
	return s.climb(at, most)
}

// climb returns the place with the most cover that is reached by steps uphill.
func (s pinSearch) climb(at geom.Point, most float64) (geom.Point, float64) {
	for step := pinTol; step > pinStep; {
		up := false
		for _, d := range [8]geom.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1}} {
			q := at.Add(d.Mul(step))
			if v := s.atLeast(q, most); v > most+1e-6 {
				at, most, up = q, v, true
			}
		}
		if !up {
			step /= 2
		}
	}
	return at, most
}
