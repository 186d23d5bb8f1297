package cutter

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// A Piece is what is to be cut: a section and the blank that it comes out of, in section coordinates (mm).
type Piece struct {
	Name    string
	Outline geom.Path // closed, counter-clockwise
	Members []Member  // from the foot upward
	Blank   [4]geom.Point
	// Sprung says that the blank lies along a back that leans from the wall by Spring; its long face at the back is then
	// called the spring face.
	Sprung bool
	Spring geom.Angle
	// Way is the blank that a sprung molding is made from. Where nobody has said, a plan may take either, and Blank is the flat one.
	Way profile.BlankWay
	// Board is how far the blank goes on behind the back, in mm, where the molding is made on the edge of a board; 0 for a stick.
	Board float64
}

// Upright returns the piece with its blank upright: a sprung molding can be molded from it, and its back sawn off to the spring
// angle. It takes more wood; plumb and level members are then square to the faces.
func (p Piece) Upright() Piece {
	b := p.Outline.Bounds()
	p.Blank = [4]geom.Point{b.Min, geom.Pt(b.Max.X, b.Min.Y), b.Max, geom.Pt(b.Min.X, b.Max.Y)}
	p.Sprung, p.Spring, p.Way = false, 0, profile.BlankUpright
	return p
}

// flat returns the piece with its blank flat, nobody asked.
func (p Piece) flat() Piece {
	p.Way = profile.BlankFlat
	return p
}

// either reports whether a plan may take the one blank or the other.
func (p Piece) either() bool { return p.Sprung && p.Way == profile.BlankEither }

// A Member is one element of the section and its part of the outline.
type Member struct {
	Index int    // as the profile counts them, from 1
	Kind  string // "cove", ...
	Path  geom.Path
}

// A Face names a side of the blank.
type Face string

// The faces of a blank. A sprung blank has the spring face in place of the back.
const (
	Back   Face = "back"
	Front  Face = "front"
	Foot   Face = "foot"
	Top    Face = "top"
	Spring Face = "spring"
)

// Words returns the face as one speaks of it: back, front, foot, top, or sloping back.
func (f Face) Words() string {
	if f == Spring {
		return "sloping back"
	}
	return string(f)
}

// A side is one face of a blank where it lies.
type side struct {
	name Face
	n    geom.Point // unit normal, out of the wood
	d    float64    // mm, n·p for its points
	a, b geom.Point // ends
}

// sides returns the four faces of a blank, counter-clockwise.
func (p Piece) sides() []side {
	out := make([]side, 4)
	back := geom.Pt(-1, 0)
	if p.Sprung {
		back = geom.Pt(-p.Spring.Cos(), p.Spring.Sin())
	}
	for i := range 4 {
		a, b := p.Blank[i], p.Blank[(i+1)%4]
		n := b.Sub(a).Unit().Left().Mul(-1)
		out[i] = side{name: p.nameOf(n, back), n: n, d: n.Dot(a), a: a, b: b}
	}
	return out
}

func (p Piece) nameOf(n, back geom.Point) Face {
	switch c := n.Dot(back); {
	case c > 0.9 && p.Sprung:
		return Spring
	case c > 0.9:
		return Back
	case c < -0.9:
		return Front
	case n.Y > 0:
		return Top
	}
	return Foot
}

// contains reports whether q lies in the blank grown by tol.
func (p Piece) contains(q geom.Point, tol float64) bool {
	for _, s := range p.sides() {
		if s.n.Dot(q) > s.d+tol {
			return false
		}
	}
	return true
}

// onBlank reports whether a segment lies along a face of the blank: it needs no cut.
func onBlank(s geom.Segment, sides []side) bool {
	for _, f := range sides {
		if _, ok := s.(geom.Line); ok && math.Abs(f.n.Dot(s.Start())-f.d) < 1e-6 && math.Abs(f.n.Dot(s.End())-f.d) < 1e-6 {
			return true
		}
	}
	return false
}
