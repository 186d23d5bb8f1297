package geom

import (
	"errors"
	"fmt"
	"math"
)

// A Join says how the sides of an offset path meet outside a corner.
type Join int

// The joins: Round keeps to the distance all along; Miter runs the sides on until they meet.
const (
	Round Join = iota
	Miter
)

// miterLimit is how far from the corner, in offsets, sides may run to meet; past it, at corners under 11.5
// degrees, the corner is cut straight across, one offset away from it.
const miterLimit = 10

// arcTolerance is how close, in mm, the arcs that stand for an ellipse keep to it.
const arcTolerance = 0.001

// ErrOffset reports an offset that cannot be asked for.
var ErrOffset = errors.New("no such offset")

// Offset returns the paths at the distance d (mm) to the left of p, or -d to its right: inward for d > 0 when p is
// closed and counter-clockwise. Loops are removed: with Round every point of the result is d away from the nearest point of p,
// with Miter it is so but at the corners, where it is farther; a corner that would stick out more than
// 10 d is cut straight across. One closed path may become several, turning the same way as p; a hole
// that closes off turns the other way. There are none when nothing is left. An open path gives open ones.
//
// Lines and arcs give lines and arcs; an elliptic arc is first replaced by circular ones within 0.001 mm.
// The error is ErrOffset: p is empty, d no number or infinite, or the join unknown.
func (p Path) Offset(d float64, join Join) ([]Path, error) {
	switch {
	case p.Length() <= joined:
		return nil, fmt.Errorf("%w: the path is empty", ErrOffset)
	case math.IsNaN(d) || math.IsInf(d, 0):
		return nil, fmt.Errorf("%w: distance %v", ErrOffset, d)
	case join != Round && join != Miter:
		return nil, fmt.Errorf("%w: join %d", ErrOffset, join)
	}
	round := p.rounded().Simplify(joined / 10)
	if math.Abs(d) <= joined {
		return []Path{round}, nil
	}
	closed := round.Closed(joined)
	if !closed || round.Area() > 0 {
		return round.offset(d, join, closed), nil
	}
	out := round.Reverse().offset(-d, join, closed)
	for i := range out {
		out[i] = out[i].Reverse()
	}
	return out, nil
}

// rounded returns p with its elliptic arcs replaced by circular ones.
func (p Path) rounded() Path {
	var out Path
	for _, s := range p {
		if e, ok := s.(EllipticArc); ok {
			out = append(out, e.arcs(arcTolerance)...)
		} else {
			out = append(out, s)
		}
	}
	return out
}

// offset returns the offset of a path of lines and arcs; a closed one is counter-clockwise.
func (p Path) offset(d float64, join Join, closed bool) []Path {
	raw := p.rawOffset(d, join, closed)
	t := newTrimmer(p, raw, d, closed)
	return t.chains(t.keep(t.pieces()))
}

// rawOffset returns the offsets of the segments of p, connected at each joint: outside a corner as join says, inside it
// through the corner, which leaves loops.
func (p Path) rawOffset(d float64, join Join, closed bool) Path {
	var out Path
	for i, s := range p {
		if side := offsetSegment(s, d); side != nil {
			out = append(out, side)
		}
		if i == len(p)-1 && !closed {
			break
		}
		next := p[(i+1)%len(p)]
		out = append(out, corner(s.End(), s.Tangent(1), next.Tangent(0), d, join)...)
	}
	return out
}

// offsetSegment returns s moved by d to its left. An arc that would shrink past its center comes out beyond it, to be
// removed as a loop; one that shrinks to its center is nil.
func offsetSegment(s Segment, d float64) Segment {
	a, ok := s.(Arc)
	if !ok {
		n := s.Tangent(0).Left().Mul(d)
		return Line{s.Start().Add(n), s.End().Add(n)}
	}
	r := a.Radius - math.Copysign(d, d*float64(a.Sweep))
	if math.Abs(r) <= touch {
		return nil
	}
	if r < 0 {
		r, a.From = -r, a.From+math.Pi
	}
	a.Radius = r
	return a
}

// corner returns what connects two offset sides at the corner q, where the direction of travel turns from u to v.
func corner(q, u, v Point, d float64, join Join) Path {
	a, b := q.Add(u.Left().Mul(d)), q.Add(v.Left().Mul(d))
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	switch {
	case a.Near(b, joined/10):
		if a == b {
			return nil
		}
		return Path{Line{a, b}}
	case turn*d > 0 && math.Abs(turn) < math.Pi-1e-9: // inside
		return Path{Line{a, q}, Line{q, b}}
	case join == Round:
		return Path{ArcBetween(a, b, q, d < 0)}
	}
	reach := math.Abs(d) * math.Tan(math.Abs(turn)/2)
	if !(math.Hypot(reach, d) <= miterLimit*math.Abs(d)) {
		k := math.Abs(d) * math.Tan(math.Abs(turn)/4) // where the tangent of the round join crosses the sides
		return Path{Line{a, a.Add(u.Mul(k))}, Line{a.Add(u.Mul(k)), b.Sub(v.Mul(k))}, Line{b.Sub(v.Mul(k)), b}}
	}
	tip := a.Add(u.Mul(reach))
	return Path{Line{a, tip}, Line{tip, b}}
}
