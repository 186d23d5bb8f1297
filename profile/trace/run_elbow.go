package trace

import (
	"math"

	"listel/profile/geom"
)

const (
	// leastAlike is the cosine within which an edge faces as a step does.
	leastAlike = 0.5
	// leastSeen is how many edges tell of a step at least.
	leastSeen = 2
	// sameLevel is how far a step that was seen may lie from where two lines come to when they go on, px, and be no other.
	sameLevel = 1.5
	// mostBend is by how much the straight run may turn on its way to the step, radians.
	mostBend = 0.2
	// levelWay is the sine within which a run goes as a step does.
	levelWay = 0.3
)

// elbow returns the step that a gap beside a corner hides in part, between a run that goes straight there and another: square to the straight one, as steps are, and as far along
// it as the ink goes that is left of the step or of the corner. What a break leaves is never more than there was, so that the outermost edges tell. plain is what the runs come to
// without it; it is kept where it does not differ.
func elbow(r, next run, p parting, line float64, plain meeting) meeting {
	if p.first == nil && p.last == nil || len(r.points) < 2 || len(next.points) < 2 {
		return plain
	}
	a, b := r.tip(r.length(), true).inward(line/2), next.tip(0, false).inward(line/2)
	var out meeting
	if p.first != nil {
		out.at, out.to, out.sharp = step{base: a, along: a.way, right: 1, bend: r.bend(true)}.corners(onward{b, next.steadyBend(false), -1}, p.lost, line)
	}
	if p.last != nil && !out.sharp {
		out.to, out.at, out.sharp = step{base: b, along: b.way.Mul(-1), right: -1, bend: next.bend(false)}.corners(onward{a, r.steadyBend(true), 1}, p.lost, line)
	}
	out.step = out.sharp && out.at != out.to
	if !out.sharp || plain.step || plain.sharp && (plain.at.Dist(out.at) < sameLevel || plain.at.Dist(out.to) < sameLevel) {
		return plain
	}
	return out
}

// A step goes off a straight run at its end.
type step struct {
	base  tip        // where the run ends, in the middle of the line
	along geom.Point // unit, the way from there into the gap
	right float64    // 1 where the outline goes along, -1 where it comes back
	bend  float64    // radians a px, by which the run turns there
}

// corners returns where the step leaves its run, and where it comes to the other, the same place where that is the step itself; false where no edges tell, or they lie elsewhere.
func (s step) corners(other onward, lost []edge, line float64) (at, to geom.Point, ok bool) {
	toward := other.at.Sub(s.base.at)
	aside := s.along.Cross(toward)
	across := geom.Pt(-s.along.Y, s.along.X) // to the right: y down
	if aside < 0 {
		across = across.Mul(-1)
	}
	face := 1.0 // along where the corner stands out
	if aside*s.right < 0 {
		face = -1
	}
	best, n := math.Inf(-1), 0
	var all []float64
	for _, e := range lost {
		if !e.seen || e.out.Dot(s.along)*face < leastAlike {
			continue
		}
		d := e.at.Sub(s.base.at)
		if side := d.Dot(across); side < -line || side > math.Abs(aside)+line {
			continue
		}
		all = append(all, d.Dot(s.along)*face)
		best = math.Max(best, all[len(all)-1])
	}
	for _, d := range all {
		if d > best-0.7 {
			n++
		}
	}
	far := toward.Norm() + line
	ahead := best*face - face*line/2
	if n < leastSeen || ahead < -2 || ahead > far || math.Abs(ahead*s.bend) > mostBend {
		return at, to, false
	}
	at = s.base.at.Add(s.along.Mul(ahead))
	if math.Abs(other.way.Dot(s.along)) < levelWay { // it goes the step's way itself: there is one corner
		return at, at, math.Abs(other.at.Sub(at).Dot(s.along)) < line/2
	}
	if to, ok = other.meets(tip{at, across}); !ok {
		return at, to, false
	}
	on := to.Sub(at).Dot(across)
	return at, to, on >= 1.5 && on <= far && to.Dist(other.at) <= far
}

// An onward is the end of a run, and how it goes on from there.
type onward struct {
	tip
	bend float64 // radians a px, along its way
	side float64 // 1 where it goes on along its way, -1 where it comes from
}

// chord returns the straight line from the run's end to where it comes to at a distance in px; false where it turns too far on its way.
func (o onward) chord(length float64) (tip, bool) {
	const most = 0.7 // radians: the chord of a longer arc tells nothing
	turn := o.bend * o.side * length
	return tip{o.at, geom.Polar(1, o.way.Angle()+geom.Angle(turn/2))}, math.Abs(turn) <= most
}

// meets returns where the run, bent as it is, comes to a straight line; false where it does not, or has to turn too far to.
func (o onward) meets(line tip) (geom.Point, bool) {
	at := o.at
	for range 3 { // the way of a chord depends on its length
		way, ok := o.chord(at.Dist(o.at))
		if !ok {
			return at, false
		}
		if at, ok = cross(way, line); !ok {
			return at, false
		}
	}
	return at, at.Sub(o.at).Dot(o.way)*o.side >= -2
}

// crosses returns where two runs, bent as they are, come to each other; where they would if they were straight, when they turn too far.
func (o onward) crosses(other onward) geom.Point {
	straight, _ := cross(o.tip, other.tip)
	at := straight
	for range 3 {
		a, okA := o.chord(at.Dist(o.at))
		b, okB := other.chord(at.Dist(other.at))
		next, ok := cross(a, b)
		if !okA || !okB || !ok {
			return straight
		}
		at = next
	}
	return at
}
