package sheet

import "listel/profile/geom"

// Sizes of the small things on a dimension, mm.
const (
	arrowLength   = 2.4
	arrowHalf     = 0.42
	tickHalf      = 0.9 // half of an oblique tick, along x and y alike
	extensionGap  = 1.0 // between what is measured and its extension line
	extensionOver = 1.5 // of an extension line past the dimension line
	textGap       = 1.0 // between lettering and the line it stands in
	arrowTail     = 3.5 // of the line behind an arrow that points inward
	landing       = 3.0 // level end of a leader
)

// ArrowHead returns a small filled arrowhead with its tip at tip, pointing along dir.
func ArrowHead(tip, dir geom.Point) Fill {
	u := dir.Unit()
	back := tip.Sub(u.Mul(arrowLength))
	return FillPolygon(0, tip, back.Add(u.Left().Mul(arrowHalf)), back.Sub(u.Left().Mul(arrowHalf)))
}

// Tick returns the oblique tick of a dimension line that runs along dir through at.
func Tick(at, dir geom.Point) Stroke {
	u := dir.Unit()
	d := u.Add(u.Left()).Mul(tickHalf)
	return Line(at.Sub(d), at.Add(d), Pen{Width: 0.4})
}

// Dot returns a small filled circle.
func Dot(at geom.Point, radius float64) Fill {
	return Fill{Paths: []geom.Path{geom.Circle(at, radius)}, Rule: NonZero}
}

// Balloon returns a text, at most a few characters, in a circle round at, on white.
func Balloon(at geom.Point, s string, size float64) Drawing {
	t := Text{At: at, S: s, Size: size, Anchor: Middle, Weight: Bold}
	r := max(t.Width()/2+0.9, CapHeight(t.size())/2+1.3)
	ring := geom.Circle(at, r)
	return Drawing{Fill{Paths: []geom.Path{ring}, Rule: NonZero, Gray: 1}, Stroke{ring, PenThin}, t}
}

// WayUp returns an upright arrow, length mm long from its foot at at, with words beside it that run up with it: "this
// way up". Its width is about 7 mm.
func WayUp(at geom.Point, length float64, words string) Drawing {
	head, half := min(6, length/2), 2.2
	tip := at.Add(geom.Pt(0, length))
	return Drawing{
		Line(at, tip.Sub(geom.Pt(0, head/2)), PenOutline),
		FillPolygon(0, tip, tip.Add(geom.Pt(-half, -head)), tip.Add(geom.Pt(0, -head*0.75)), tip.Add(geom.Pt(half, -head))),
		Text{At: at.Add(geom.Pt(3, length/2)), S: words, Anchor: Top, Angle: 90 * geom.Degree},
	}
}
