package cutter

import "listel/profile/geom"

// A frame turns the section so that a tool comes straight down on it: v grows toward the tool, u to the right of it.
type frame struct {
	up geom.Point // unit vector from the wood toward the tool, in section coordinates
}

func newFrame(up geom.Point) frame { return frame{up: up.Unit()} }

// right returns the direction of u in section coordinates.
func (f frame) right() geom.Point { return geom.Pt(f.up.Y, -f.up.X) }

// in returns a section point in the frame.
func (f frame) in(p geom.Point) geom.Point { return geom.Pt(p.Dot(f.right()), p.Dot(f.up)) }

// out returns a point of the frame in section coordinates.
func (f frame) out(q geom.Point) geom.Point { return f.right().Mul(q.X).Add(f.up.Mul(q.Y)) }

// arc returns a circular arc in the frame.
func (f frame) arc(a geom.Arc) geom.Arc {
	a.From -= f.right().Angle()
	a.Center = f.in(a.Center)
	return a
}
