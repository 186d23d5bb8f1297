package trace

import (
	"math"

	"listel/profile/geom"
)

// stepped returns the step that a gap hides between two runs that go the same way beside one another, or the bottom of a groove between two that go opposite
// ways, where an edge between a corner and the gap tells how far along it lies: it is as square as steps are.
func stepped(r, next run, p parting, line float64) meeting {
	if p.first == nil && p.last == nil || len(r.points) < 4 || len(next.points) < 4 {
		return meeting{}
	}
	a, b := r.tip(r.length(), true), next.tip(0, false)
	aside := a.way.Cross(b.at.Sub(a.at))
	straight := math.Max(math.Abs(r.bend(true)), math.Abs(next.bend(false))) < 0.01 // radians a px: a round of 100 px
	along := a.way.Dot(b.way)
	if !straight || math.Abs(along) < 0.94 || math.Abs(aside) < 1.5 {
		return meeting{}
	}
	// y down, the section on the right: where the outline turns right it turns out.
	seen, run, convex := p.first, a, aside > 0
	if seen == nil {
		seen, run, convex = p.last, b, (aside > 0) == (along < 0)
	}
	// What was seen lies on the step; its edge comes before the middle of the line where the outline turns in, and after it where it turns out.
	ahead := line / 2
	if convex == (p.first != nil) {
		ahead = -ahead
	}
	mid := run.inward(line / 2)
	corner := mid.at.Add(mid.way.Mul(seen.Sub(mid.at).Dot(mid.way) + ahead))
	return meeting{sharp: true, at: a.inward(line / 2).foot(corner), step: true, to: b.inward(line / 2).foot(corner)}
}

// foot returns where a point lies along the straight line through the tip.
func (t tip) foot(p geom.Point) geom.Point { return t.at.Add(t.way.Mul(p.Sub(t.at).Dot(t.way))) }

const (
	// leastGroove is how broad the paper in a groove is at least, px, that its end is told from the cusp of a round by.
	leastGroove = 2.5
	// grooveTurn is how far the outline turns at least at the end of a groove that is too narrow for two corners; that of a flute is rounder, its sides are shorter than it is broad.
	grooveTurn = 160 * geom.Degree
)

// groove returns the end of a groove so narrow that blur makes one corner of its two: as square as grooves are, half of the line's thickness behind the edge of
// the ink there. r goes into the groove and next comes out of it; a and b are their tips clear of the corner.
func groove(r, next run, a, b tip, line float64) meeting {
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
	deepest += line / 2
	end := func(t tip) geom.Point {
		t = t.inward(line / 2)
		return t.at.Add(t.way.Mul((deepest - t.at.Dot(way)) / t.way.Dot(way)))
	}
	return meeting{sharp: true, at: end(a), step: true, to: end(b)}
}
