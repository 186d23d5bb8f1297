package miter

import (
	"math"

	"listel/profile/geom"
)

// A Plane is the plane of one end of a piece: the points s = S + X x + Y y, s along the piece from the left end of its back, x out
// from the back of its section and y up from the foot. S is in mm.
type Plane struct{ S, X, Y float64 }

// At returns where along the piece the cut meets the section point p, in mm.
func (c Plane) At(p geom.Point) float64 { return c.S + c.X*p.X + c.Y*p.Y }

// Square reports whether c is square to the length.
func (c Plane) Square() bool { return math.Abs(c.X) < 1e-12 && math.Abs(c.Y) < 1e-12 }

// between returns the length left between two cuts as a cut: its At is L.
func between(left, right Plane) Plane {
	return Plane{right.S - left.S, right.X - left.X, right.Y - left.Y}
}

// A bed is how a piece lies on the saw: the faces on the table and against the fence, and the directions in the section that
// point into the fence and up from the table.
type bed struct {
	table, fence Face
	toFence, up  geom.Point
}

// The beds of a piece that stands as it does on the case, of one upside down against the fence, and of one lying on its back.
var (
	standingBed = bed{FootFace, BackFace, geom.Pt(-1, 0), geom.Pt(0, 1)}
	nestedBed   = bed{TopFace, BackFace, geom.Pt(-1, 0), geom.Pt(0, -1)}
	lyingBed    = bed{BackFace, FootFace, geom.Pt(0, -1), geom.Pt(1, 0)}
)

// flatBed returns the bed of a sprung molding lying on its back, which leans from the wall by spring, with its foot or its top
// against the fence.
func flatBed(spring geom.Angle, fence Face) bed {
	along := geom.Pt(spring.Sin(), spring.Cos()) // up the back
	if fence == FootFace {
		along = along.Mul(-1)
	}
	return bed{BackFace, fence, along, geom.Pt(spring.Cos(), -spring.Sin())}
}

// snap is the angle below which a saw is set square: rounding leaves less.
const snap = 1e-9 * geom.Degree

// saw returns the settings that cut the plane c at one end of a piece lying on b.
//
// In the machine u runs to the operator's right along the fence, v into the fence and w up, and u = v x w tells which way
// along the fence the piece points. The blade's plane, its normal turned to the right, is then swung by the slope of the normal along
// v and tilted by its slope along w. A blade swung left has its front to the left, one tilted left its top.
func (b bed) saw(c Plane, end Hand) Saw {
	n := [3]float64{1, -c.X, -c.Y} // out of the piece at its right end: along, out, up
	if end == LeftHand {
		n = [3]float64{-1, c.X, c.Y}
	}
	section := geom.Pt(n[1], n[2])
	u := -b.toFence.Cross(b.up) * n[0]
	v, w := section.Dot(b.toFence), section.Dot(b.up)
	s := Saw{Table: b.table, Fence: b.fence, Keep: LeftHand, Swing: NoHand, Tilt: NoHand}
	if u < 0 {
		s.Keep = RightHand
		u, v, w = -u, -v, -w
	}
	miter, bevel := geom.Angle(math.Atan2(-v, u)), geom.Angle(math.Atan2(w, math.Hypot(u, v)))
	s.Miter, s.Swing = side(miter)
	s.Bevel, s.Tilt = side(bevel)
	return s
}

// side splits an angle, positive to the left, into its size and its side.
func side(a geom.Angle) (geom.Angle, Hand) {
	switch {
	case a > snap:
		return a, LeftHand
	case a < -snap:
		return -a, RightHand
	}
	return 0, NoHand
}

// flatSaw returns the settings for a sprung molding lying on its back, with that side against the fence which tilts the blade
// left; the top where it does not tilt.
func flatSaw(spring geom.Angle, c Plane, end Hand) Saw {
	s := flatBed(spring, TopFace).saw(c, end)
	if s.Tilt == RightHand {
		s = flatBed(spring, FootFace).saw(c, end)
	}
	return s
}
