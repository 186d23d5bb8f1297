package sheet

import (
	"math"

	"listel/profile/geom"
)

// A Direction is the way that a dimension measures.
type Direction int

// Across measures level, Up measures upright, and Slant from point to point.
const (
	Across Direction = iota
	Up
	Slant
)

// A Dim is the dimension between two points. Its line runs at At: the y of an Across one, the x of an Up one, and for a
// Slant one the distance to the left of the way from A to B. The text stands in a gap in the middle of the line, or
// outside when it does not fit.
type Dim struct {
	A, B  geom.Point
	Along Direction
	At    float64 // mm
	Text  string
	Size  float64 // points; 0 is DefaultSize
	Ticks bool    // oblique ticks in place of arrowheads
	Bare  bool    // without extension lines
}

// ends returns where the dimension line meets its extension lines, in order along u, and the points they come from.
func (d Dim) ends() (a, b, fromA, fromB, u geom.Point) {
	fromA, fromB = d.A, d.B
	switch d.Along {
	case Across:
		u, a, b = geom.Pt(1, 0), geom.Pt(d.A.X, d.At), geom.Pt(d.B.X, d.At)
	case Up:
		u, a, b = geom.Pt(0, 1), geom.Pt(d.At, d.A.Y), geom.Pt(d.At, d.B.Y)
	default:
		u = d.B.Sub(d.A).Unit()
		off := u.Left().Mul(d.At)
		a, b = d.A.Add(off), d.B.Add(off)
		if u.X < -1e-9 || (math.Abs(u.X) <= 1e-9 && u.Y < 0) {
			return b, a, fromB, fromA, u.Mul(-1)
		}
	}
	if b.Sub(a).Dot(u) < 0 {
		return b, a, fromB, fromA, u
	}
	return a, b, fromA, fromB, u
}

// Drawing returns the dimension.
func (d Dim) Drawing() Drawing {
	a, b, fromA, fromB, u := d.ends()
	var out Drawing
	if !d.Bare {
		out = out.Add(extension(fromA, a)...).Add(extension(fromB, b)...)
	}
	t := Text{S: d.Text, Size: d.Size, Anchor: Middle}
	along := t.Width() // room that the text takes along the line
	if d.Along == Up {
		along = CapHeight(t.size())
	} else {
		t.Angle = u.Angle()
	}
	if d.Text == "" {
		along = -2 * textGap
	}
	length, marks := b.Sub(a).Dot(u), 2*arrowLength+1
	if d.Ticks {
		marks = 2 * tickHalf
	}
	gap := along/2 + textGap
	switch {
	case length >= along+2*textGap+marks:
		t.At = a.Lerp(b, 0.5)
		if d.Text == "" {
			out = out.Add(Line(a, b, PenThin))
		} else {
			out = out.Add(Line(a, t.At.Sub(u.Mul(gap)), PenThin), Line(t.At.Add(u.Mul(gap)), b, PenThin))
		}
		out = out.Add(d.head(a, u.Mul(-1)), d.head(b, u))
	case length >= marks:
		t.At = b.Add(u.Mul(arrowTail + gap))
		out = out.Add(Line(a, b.Add(u.Mul(arrowTail)), PenThin), d.head(a, u.Mul(-1)), d.head(b, u))
	default:
		tail := arrowLength + arrowTail
		t.At = b.Add(u.Mul(tail + gap))
		out = out.Add(Line(a.Sub(u.Mul(tail)), b.Add(u.Mul(tail)), PenThin), d.head(a, u), d.head(b, u.Mul(-1)))
	}
	if d.Text == "" {
		return out
	}
	return out.Add(t)
}

func (d Dim) head(at, dir geom.Point) Mark {
	if d.Ticks {
		_, _, _, _, u := d.ends()
		return Tick(at, u)
	}
	return ArrowHead(at, dir)
}

// extension returns the line from beside a point to just past the dimension line, or nothing when the two are so near
// that it would be all gap.
func extension(from, to geom.Point) Drawing {
	way := to.Sub(from)
	if way.Norm() <= extensionGap {
		return nil
	}
	u := way.Unit()
	return Drawing{Line(from.Add(u.Mul(extensionGap)), to.Add(u.Mul(extensionOver)), PenHair)}
}
