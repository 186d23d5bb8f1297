package trace

import (
	"math"

	"listel/profile/geom"
)

// stepped returns the step that a gap hides between two runs that go the same way beside one another, or the bottom of a groove between two that go opposite
// ways, where an edge between a corner and the gap tells how far along it lies, or a step where the ends of both lines do: it is as square as steps are.
func stepped(r, next run, p parting, line float64) meeting {
	if p.first == nil && p.last == nil || len(r.points) < 2 || len(next.points) < 2 {
		return meeting{}
	}
	a, b := r.tip(r.length(), true), next.tip(0, false)
	aside, along := a.way.Cross(b.at.Sub(a.at)), a.way.Dot(b.way)
	if math.Abs(along) < 0.94 || math.Abs(aside) < 1.5 {
		return meeting{}
	}
	offFirst, offLast := off(a, p.first), off(b, p.last)
	// y down, the section on the right: where the outline turns right it turns out. What was seen lies on the step, the more surely the further off the run's own line; its edge
	// comes before the middle of the line where the outline turns in, and after it where it turns out.
	var mid tip
	var ahead float64
	switch {
	case p.first != nil && p.last != nil && along > 0 && max(offFirst, offLast) < leastOff: // the ends of both lines, one above the step and one below
		mid, ahead = a.inward(line/2), (p.first.Sub(a.at).Dot(a.way)+p.last.Sub(a.at).Dot(a.way))/2
	case offFirst >= offLast:
		mid, ahead = a.inward(line/2), p.first.Sub(a.at).Dot(a.way)+sided(line/2, aside <= 0)
	default:
		mid, ahead = b.inward(line/2), p.last.Sub(b.at).Dot(b.way)+sided(line/2, (aside > 0) == (along < 0))
	}
	corner := mid.at.Add(mid.way.Mul(ahead))
	m := meeting{sharp: true, at: a.inward(line / 2).foot(corner), step: true, to: b.inward(line / 2).foot(corner)}
	const most = 0.2 // radians by which a run may turn on its way to the step
	if math.Abs(r.bend(true))*a.at.Dist(m.at) > most || math.Abs(next.bend(false))*b.at.Dist(m.to) > most {
		return meeting{}
	}
	return m
}

// leastOff is how far an edge lies at least off the line of the run beside it, px, to be one of the step when there is another beyond the step.
const leastOff = 1.5

// sided returns a length, negative where it is not ahead.
func sided(length float64, ahead bool) float64 {
	if ahead {
		return length
	}
	return -length
}

// off returns how far a point lies off the straight line through the tip; -1 for none.
func off(t tip, p *geom.Point) float64 {
	if p == nil {
		return -1
	}
	return math.Abs(t.way.Cross(p.Sub(t.at)))
}

// foot returns where a point lies along the straight line through the tip.
func (t tip) foot(p geom.Point) geom.Point { return t.at.Add(t.way.Mul(p.Sub(t.at).Dot(t.way))) }

const (
	// leastGroove is how broad the paper in a groove is at least, px, that its end is told from the cusp of a round by.
	leastGroove = 2.5
	// grooveTurn is how far the outline turns at least at the end of a groove that is too narrow for two corners; that of a flute is rounder, its sides are shorter than it is broad.
	grooveTurn = 160 * geom.Degree
)

// groove returns the end of a groove so narrow that blur makes one corner of its two: as square as grooves are, so many px behind the edge of
// the ink there. r goes into the groove and next comes out of it; a and b are their tips clear of the corner.
func groove(r, next run, a, b tip, line, behind float64) meeting {
	broad := math.Abs(a.way.Cross(b.at.Sub(a.at)))
	turn := math.Abs(math.Atan2(a.way.Cross(b.way), a.way.Dot(b.way)))
	if broad < leastGroove || broad > 2*cornerChord || turn < float64(grooveTurn) || math.Min(r.length(), next.length()) < broad {
		return meeting{}
	}
	way, n := a.way.Sub(b.way).Unit(), len(r.points)
	deepest := math.Inf(-1)
	for _, p := range [...]geom.Point{r.points[n-2], r.points[n-1], next.points[1]} {
		deepest = math.Max(deepest, p.Dot(way))
	}
	deepest += behind
	end := func(t tip) geom.Point {
		t = t.inward(line / 2)
		return t.at.Add(t.way.Mul((deepest - t.at.Dot(way)) / t.way.Dot(way)))
	}
	return meeting{sharp: true, at: end(a), step: true, to: end(b)}
}
