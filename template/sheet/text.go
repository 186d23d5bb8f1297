package sheet

import (
	"math"

	"listel/profile/geom"
)

// An Anchor is the place of a text's box that its point holds. The box is as wide as the text and reaches from
// the baseline to the top of the capitals, so that figures look centered when they are.
type Anchor int

// The nine anchors. BottomLeft, the zero value, is the start of the baseline.
const (
	BottomLeft Anchor = iota
	Bottom
	BottomRight
	Left
	Middle
	Right
	TopLeft
	Top
	TopRight
)

// flipX returns the anchor on the other side, left for right.
func (a Anchor) flipX() Anchor { return a - a%3 + 2 - a%3 }

// flipY returns the anchor on the other side, top for bottom.
func (a Anchor) flipY() Anchor { return 6 - a + 2*(a%3) }

// A Text is one line of lettering. A line end in it prints as a space; Paragraph sets several lines.
type Text struct {
	At     geom.Point
	S      string
	Size   float64 // points; 0 is DefaultSize
	Anchor Anchor
	Angle  geom.Angle // of the baseline, counter-clockwise from the x axis
	Weight Weight
	Gray   float64 // 0 black to 1 white
	Halo   bool    // whether the paper shows white behind and close around it
}

// DefaultSize is the size in points of lettering that does not say its own.
const DefaultSize = 9

// haloWidth is how far the white behind a text reaches around it, mm.
const haloWidth = 0.5

func (t Text) size() float64 {
	if t.Size > 0 {
		return t.Size
	}
	return DefaultSize
}

// Width returns how wide the text is, in mm.
func (t Text) Width() float64 { return TextWidth(t.S, t.size(), t.Weight) }

// printed returns the text as it is printed: one line, in characters that the font has.
func (t Text) printed() string { return printable(t.S, t.Weight.face()) }

// local returns where the start of the baseline lies from At, before the text is turned.
func (t Text) local() geom.Point {
	return geom.Pt(-t.Width()*float64(t.Anchor%3)/2, -CapHeight(t.size())*float64(t.Anchor/3)/2)
}

// baseline returns the start of the baseline.
func (t Text) baseline() geom.Point { return t.At.Add(t.local().Rotate(t.Angle)) }

// box returns the corners of the text from below its descenders to above its capitals, grown by d mm.
func (t Text) box(d float64) [4]geom.Point {
	o, w, em := t.local(), t.Width(), t.size()*mmPerPoint
	x0, x1 := o.X-d, o.X+w+d
	y0, y1 := o.Y-descent*em-d, o.Y+(capHeight+0.04)*em+d
	c := [4]geom.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	for i := range c {
		c[i] = t.At.Add(c[i].Rotate(t.Angle))
	}
	return c
}

// Bounds returns the bounds of the lettering, descenders and halo included; it is empty for an empty text.
func (t Text) Bounds() geom.Rect {
	r := geom.EmptyRect()
	if t.S == "" {
		return r
	}
	d := 0.0
	if t.Halo {
		d = haloWidth
	}
	for _, c := range t.box(d) {
		r = r.Include(c)
	}
	return r
}

// Transform returns the text at the moved point, turned with the drawing but neither stretched nor mirrored:
// under a mirror it reads forward and hangs from the other side of its point.
func (t Text) Transform(m geom.Affine) Mark {
	dir := m.ApplyVector(geom.Polar(1, t.Angle))
	t.At = m.Apply(t.At)
	if m.Det() < 0 {
		if dir.X < -1e-9 || (math.Abs(dir.X) <= 1e-9 && dir.Y < 0) {
			dir = dir.Mul(-1)
			t.Anchor = t.Anchor.flipX()
		} else {
			t.Anchor = t.Anchor.flipY()
		}
	}
	t.Angle = dir.Angle()
	return t
}

// clip drops a text that does not fit wholly.
func (t Text) clip(window geom.Rect) Drawing {
	if !inside(t.Bounds(), window) {
		return nil
	}
	return Drawing{t}
}

func (t Text) render(r renderer) {
	if t.S == "" {
		return
	}
	if t.Halo {
		c := t.box(haloWidth)
		r.fill([]geom.Path{geom.Polygon(c[:]...)}, NonZero, 1)
	}
	r.text(t)
}
