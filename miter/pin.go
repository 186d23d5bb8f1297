package miter

import (
	"container/heap"
	"math"

	"listel/profile/geom"
)

// pinTol is how near to the best place a pin is put, in mm of cover.
const pinTol = 0.05

// pin finds the place of a pin across the miters with the most wood around it, and returns it with the spline, which is
// shortened when it left the pin no room. The pin is nil and a fault noted when there is none.
func (m *fitting) pin(s *Spline) (*Pin, *Spline) {
	spec := m.Molding.Pin
	if spec == nil {
		return nil, s
	}
	path := m.path + ".joint.pin"
	before := len(m.list)
	positive(spec.Diameter, path+".diameter", &m.faults)
	positive(spec.Depth, path+".depth", &m.faults)
	if m.Rake != nil {
		m.add(path, "a raking molding takes no pin: its miters are not square to the section")
	}
	js := m.joints(searchTol)
	if len(js) == 0 && len(m.list) == before {
		m.add(path, "the molding has no miter between two runs for a pin to hold")
	}
	if len(m.list) > before {
		return nil, s
	}
	for _, t := range s.shortened() {
		if p := m.pinBeside(*spec, js, t); p.Cover >= leastCover {
			if t != nil && t != s {
				t.Cover = m.coverOf(*t)
			}
			return p, t
		}
	}
	m.add(path, "a pin of %s that enters %s comes within %s of the surface wherever it lies; make it thinner or less deep",
		m.mm(spec.Diameter), m.mm(spec.Depth), m.mm(leastCover))
	return nil, s
}

// pinBeside returns the best pin beside the spline, which may be nil.
func (m *fitting) pinBeside(spec PinSpec, js []joint, s *Spline) *Pin {
	p := pinSearch{PinSpec: spec, joints: js}
	if s != nil {
		p.groove = s.grooves(js)
	}
	at, _ := p.best(m.profile.bounds)
	p.joints = m.joints(coverTol)
	if s != nil {
		p.groove = s.grooves(p.joints)
	}
	return &Pin{Diameter: spec.Diameter, Depth: spec.Depth, At: [2]float64{at.X, at.Y}, Cover: p.cover(at)}
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

// grooves returns the room that the spline takes in each run's section.
func (s *Spline) grooves(js []joint) []block {
	g := s.line()
	search := splineSearch{SplineSpec: SplineSpec{Thickness: s.Thickness, Depth: s.Depth}}
	out := make([]block, len(js))
	for i, j := range js {
		out[i] = j.block(search, g)
	}
	return out
}

// pinSearch looks for the place of a pin.
type pinSearch struct {
	PinSpec
	joints []joint
	groove []block // one for each joint, nil without a spline
}

// cover returns the least wood around a pin whose center on the miter face lies at p of the profile, negative when that is
// outside. The pin leans in the section, where it is less wide than its diameter across; the whole diameter counts here, on the safe side.
func (s pinSearch) cover(p geom.Point) float64 { return s.atLeast(p, math.Inf(-1)) }

// atLeast returns the cover at p, or any value below limit when it is below that.
func (s pinSearch) atLeast(p geom.Point, limit float64) float64 {
	least := math.Inf(1)
	for i, j := range s.joints {
		a := geom.Pt(p.X*j.k, p.Y)
		b := geom.Pt(a.X+j.shift(s.Depth), a.Y)
		d := j.clear(a, b)
		if !within(j.outline, a) {
			d = -d
		}
		if s.groove != nil {
			d = min(d, rectDistance(s.groove[i], a, b))
		}
		if least = min(least, d); least-s.Diameter/2 < limit {
			break
		}
	}
	return least - s.Diameter/2
}

// clear returns the distance from the level line between a and b to the outline.
func (j joint) clear(a, b geom.Point) float64 {
	d := math.Inf(1)
	x0, x1 := min(a.X, b.X), max(a.X, b.X)
	u := j.outline[len(j.outline)-1]
	for _, v := range j.outline {
		p := u
		u = v
		if p.Y-a.Y >= d && v.Y-a.Y >= d || a.Y-p.Y >= d && a.Y-v.Y >= d || p.X-x1 >= d && v.X-x1 >= d || x0-p.X >= d && x0-v.X >= d {
			continue // farther than what is known
		}
		d = min(d, lineLine(a, b, p, v))
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

type cells []cell

func (c cells) Len() int           { return len(c) }
func (c cells) Less(i, j int) bool { return c[i].most > c[j].most }
func (c cells) Swap(i, j int)      { c[i], c[j] = c[j], c[i] }
func (c *cells) Push(x any)        { *c = append(*c, x.(cell)) }
func (c *cells) Pop() any {
	old := *c
	last := old[len(old)-1]
	*c = old[:len(old)-1]
	return last
}

// best returns the place with the most cover, within pinTol of the best there is, or any place when none has leastCover. Squares
// are halved, the most promising first, and cover changes by no more than the distance moved.
func (s pinSearch) best(r geom.Rect) (geom.Point, float64) {
	size := max(min(r.Width(), r.Height())/2, 1)
	at, most := r.Center(), s.cover(r.Center())
	var queue cells
	push := func(c geom.Point, half float64) {
		v := s.atLeast(c, max(most+pinTol, leastCover)-half*math.Sqrt2)
		if v > most {
			at, most = c, v
		}
		if limit := v + half*math.Sqrt2; limit > max(most+pinTol, leastCover) {
			heap.Push(&queue, cell{c, half, limit})
		}
	}
	for x := r.Min.X; x < r.Max.X; x += size {
		for y := r.Min.Y; y < r.Max.Y; y += size {
			push(geom.Pt(x+size/2, y+size/2), size/2)
		}
	}
	for queue.Len() > 0 {
		c := heap.Pop(&queue).(cell)
		if c.most <= most+pinTol {
			break
		}
		h := c.half / 2
		for _, d := range []geom.Point{{X: -h, Y: -h}, {X: h, Y: -h}, {X: -h, Y: h}, {X: h, Y: h}} {
			push(c.center.Add(d), h)
		}
	}
	return at, most
}
