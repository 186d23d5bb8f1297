package miter

import (
	"math"

	"listel/profile/geom"
)

// boreFlat is how far from a plane, in mm, what counts as lying in it may be.
const boreFlat = 0.05

// A bore is a section as a screw meets it: X across the screw, Y along it from the case, both in mm.
//
//	      Y
//	  ____|____
//	 /    |    \___      cover lies round the body on all sides, its corners with it
//	|   | | |      |
//	|___|_|_|______|     the face that it enters by
//	    | | |  case
type bore struct {
	outline []geom.Point
	sprung  bool // there is a strip between the case and the section
}

// boreInto returns the section before screws that enter its back, or up into its foot.
func boreInto(u *used, up bool) bore {
	b := bore{sprung: u.Spring != nil}
	for _, p := range u.Outline.Flatten(0.005) {
		if !up {
			p.X, p.Y = p.Y, p.X
		}
		b.outline = append(b.outline, p)
	}
	return b
}

// room returns how far a screw at X = at may stand out of the case, so that cover is left between its body, over the whole thickness, and every face but the
// one that it enters by; 0 or less where no screw would hold.
func (b bore) room(at, cover float64) float64 {
	const half = ScrewShank / 2
	entry, ok := b.first(at)
	if !ok || !b.sprung && b.foot(entry, at) > boreFlat {
		return 0
	}
	along := entry.Tangent(0)
	on := func(p geom.Point) bool { return math.Abs(along.Cross(p.Sub(entry.A))) <= boreFlat }
	for _, x := range [2]float64{at - half, at + half} {
		if l, ok := b.first(x); !ok || !on(geom.Pt(x, b.foot(l, x))) {
			return 0
		}
	}
	room := math.Inf(1)
	for i, p := range b.outline {
		q := b.outline[(i+1)%len(b.outline)]
		if on(p) && on(q) || p.Y <= boreFlat && q.Y <= boreFlat {
			continue
		}
		room = math.Min(room, roomBefore(p.Sub(geom.Pt(at, 0)), q.Sub(geom.Pt(at, 0)), half, cover))
	}
	return room
}

// first returns the line of the outline that comes first, out from the case, at x across; false where none does.
func (b bore) first(x float64) (geom.Line, bool) {
	var out geom.Line
	found := false
	for i, p := range b.outline {
		l := geom.Line{A: p, B: b.outline[(i+1)%len(b.outline)]}
		if x < math.Min(l.A.X, l.B.X) || x > math.Max(l.A.X, l.B.X) || l.A.X == l.B.X {
			continue
		}
		if !found || b.foot(l, x) < b.foot(out, x) {
			out, found = l, true
		}
	}
	return out, found
}

// foot returns the height of a line that is not upright at x across.
func (b bore) foot(l geom.Line, x float64) float64 {
	return l.At((x - l.A.X) / (l.B.X - l.A.X)).Y
}

// roomBefore returns how far along Y a body of half its thickness either side of X = 0 may go, so that cover is left between it and the line from p to q.
// What lies within its thickness stops it cover before; what lies beside it, at the place where the quarter circle of cover about its corner touches.
func roomBefore(p, q geom.Point, half, cover float64) float64 {
	room := math.Inf(1)
	at := func(x, y float64) {
		switch beside := math.Abs(x) - half; {
		case beside >= cover-1e-9:
		case beside <= 0:
			room = math.Min(room, y-cover)
		default:
			room = math.Min(room, y-math.Sqrt(cover*cover-beside*beside))
		}
	}
	at(p.X, p.Y)
	at(q.X, q.Y)
	if p.X == q.X {
		return room
	}
	slope := (q.Y - p.Y) / (q.X - p.X)
	touch := half + cover*math.Abs(slope)/math.Hypot(1, slope)
	for _, x := range [4]float64{-touch, -half, half, touch} {
		if x > math.Min(p.X, q.X) && x < math.Max(p.X, q.X) {
			at(x, p.Y+slope*(x-p.X))
		}
	}
	return room
}
