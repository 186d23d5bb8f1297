package scraper

import (
	"math"

	"listel/profile/geom"
)

// An edgeEnd is how the edge of a blade goes on past the part of the face that it scrapes.
type edgeEnd struct {
	spot
	length float64 // mm, along the surface
	air    float64 // mm, straight on past a corner into the air
	wall   bool    // wood rises beyond the end
	lip    bool    // it lies on the foot or the top
	flat   int     // segment of the ring that it ends on, if a flat, else -1
}

// A spot is a point of a scene's ring: the parameter t on its segment k, counted on without a break past the ring's ends.
type spot struct {
	k int
	t float64
}

// spotAt returns the spot at s of the face, seen from the side that dir leads away from.
func spotAt(s, dir float64) spot {
	k := math.Floor(s)
	t := s - k
	if dir > 0 && t > 1-1e-9 {
		return spot{int(k) + 1, 0}
	}
	if dir < 0 && t < 1e-9 {
		return spot{int(k) - 1, 1}
	}
	return spot{int(k), t}
}

// lipLength is the length of the lip that runs along a foot or top, mm.
const lipLength = 6.0

// A reach says how far an end may go on.
type reach struct {
	overlap float64 // mm along the surface
	room    float64 // mm across
	lip     float64 // mm along foot or top
	curve   bool    // it starts in a curve, and may follow that as far as it is not too steep
}

// overlaps is how far from the plunge, in degrees, the normal of what a blade only runs over may be: on a steeper wall its end would be a
// point too thin to file.
const overlaps = 60.0

// runOn follows the surface from a place, upward for dir = 1 and downward for dir = -1, as far as the blade may: while it is no
// steep wall along the view's plunge.
func (w *view) runOn(from spot, dir float64, r reach) edgeEnd {
	e := edgeEnd{spot: from, flat: -1}
	start := w.seg(from.k).At(from.t).Dot(w.u)
	left, free := r.overlap, r.curve
	for range len(w.ring) {
		g := w.seg(e.k)
		_, isLine := g.(geom.Line)
		switch {
		case w.onBack(e.k) && !e.lip:
			left, free, e.lip = r.lip, false, true
		case free && (isLine || e.length > 0 && w.cornerBefore(e.spot, dir)):
			left, free = r.overlap, false
		}
		t0, length := e.t, g.Length()
		holds := func(t float64) bool {
			p := g.At(t)
			return (free || math.Abs(t-t0)*length <= left+1e-9) && math.Abs(p.Dot(w.u)-start) <= r.room &&
				off(normalAt(g, t), normalAt(g, t), w.plunge) <= overlaps+1e-9 && !w.blocked(p.Add(outward(g, t).Mul(1.5*flattening)))
		}
		end := math.Max(0, dir)
		t1 := farthest(holds, t0, end)
		part := math.Abs(t1-t0) * length
		if part < smallestFeature {
			break
		}
		e.length, e.t, left, e.flat = e.length+part, t1, left-part, -1
		if isLine {
			e.flat = e.k
		}
		if t1 != end || left <= 1e-9 && !free {
			return e.onSurface(w) // it has its length, or is too steep farther on
		}
		e.spot = spot{e.k + int(dir), 1 - end}
	}
	if e.spot != from { // back to the end of what was followed
		e.spot = spot{e.k - int(dir), math.Max(0, dir)}
	} else if e.t == 1-math.Max(0, dir) {
		e.spot = spot{e.k - int(dir), math.Max(0, dir)}
	}
	w.past(&e, dir, r.room-math.Abs(w.seg(e.k).At(e.t).Dot(w.u)-start))
	return e.onSurface(w)
}

// onSurface returns the end with its lip noted only when it came to lie on the foot or the top.
func (e edgeEnd) onSurface(w *view) edgeEnd {
	e.lip = e.lip && w.onBack(e.k)
	return e
}

// farthest returns the parameter farthest from t0, toward to, up to which what is asked holds, t0 when it does nowhere.
func farthest(holds func(t float64) bool, t0, to float64) float64 {
	const inside = 1e-6 // a joint itself belongs to the next segment as well
	if holds(to + (t0-to)*inside) {
		return to
	}
	if !holds(t0 + (to-t0)*inside) {
		return t0
	}
	yes, no := t0, to
	for range 40 {
		if mid := (yes + no) / 2; holds(mid) {
			yes = mid
		} else {
			no = mid
		}
	}
	return yes
}

// past lets an end go on straight into the air beyond a corner, at most 2 mm, or notes that wood rises there.
func (w *view) past(e *edgeEnd, dir, room float64) {
	g := w.seg(e.k)
	at, along, out := g.At(e.t), g.Tangent(e.t).Mul(dir), outward(g, e.t)
	clear := func(d float64) bool { return !w.blocked(at.Add(along.Mul(d)).Add(out.Mul(stand))) }
	next := w.seg(e.k + int(dir)).Tangent(1 - math.Max(0, dir)).Mul(dir)
	if e.t != math.Max(0, dir) || next.Dot(out) > -1e-9 || !clear(0.05) {
		e.wall = true
		return
	}
	air := math.Min(2, room)
	for air > 0.05 && !(clear(air) && clear(air/2)) {
		air *= 0.7
	}
	if air > 0.05 {
		e.air = air
	}
}

// outward returns the unit normal of a segment of the outline out of the wood.
func outward(g geom.Segment, t float64) geom.Point {
	d := g.Tangent(t)
	return geom.Pt(d.Y, -d.X)
}

// seg returns segment k of the ring, counted on without a break.
func (w *view) seg(k int) geom.Segment { return w.ring[w.index(k)] }

func (w *view) index(k int) int {
	n := len(w.ring)
	return ((k % n) + n) % n
}

// onBack reports whether a segment belongs to the back.
func (w *view) onBack(k int) bool { return w.index(k) >= w.faceLen }

// cornerBefore reports whether the ring has a corner at a place that is the start, in the direction dir, of its segment.
func (w *view) cornerBefore(p spot, dir float64) bool {
	a, b := w.seg(p.k-int(dir)), w.seg(p.k)
	return math.Abs(math.Remainder(normalAt(a, math.Max(0, dir))-normalAt(b, 1-math.Max(0, dir)), 360)) >= cornerTurn
}

// workLine returns the line in the section that an edge follows between two ends, from the foot upward.
func (w *view) workLine(lower, upper edgeEnd) geom.Path {
	s0, s1 := float64(w.index(lower.k))+lower.t, float64(w.index(upper.k))+upper.t
	p := w.ring.Trim(s0, s1).Simplify(1e-9)
	if lower.air > 0 {
		a := p.Start()
		p = append(geom.Path{geom.Line{A: a.Sub(p.Tangent(0).Mul(lower.air)), B: a}}, p...)
	}
	if upper.air > 0 {
		a := p.End()
		dir := p[len(p)-1].Tangent(1)
		p = append(p, geom.Line{A: a, B: a.Add(dir.Mul(upper.air))})
	}
	return p
}
