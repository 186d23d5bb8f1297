package sheet

import "listel/profile/geom"

// A Stroke is a line drawn along a path. Ends are cut square at the path's ends and corners are rounded, so
// that the ink reaches half the pen's width from the path and no further.
type Stroke struct {
	Path geom.Path
	Pen  Pen
}

// Line returns the stroke of a straight line from a to b.
func Line(a, b geom.Point, pen Pen) Stroke {
	return Stroke{Path: geom.Path{geom.Line{A: a, B: b}}, Pen: pen}
}

// Polyline returns the stroke through the points in turn.
func Polyline(pen Pen, pts ...geom.Point) Stroke {
	return Stroke{Path: geom.Polyline(pts...), Pen: pen}
}

// Box returns the stroke round a rectangle.
func Box(r geom.Rect, pen Pen) Stroke {
	return Stroke{Path: rectPath(r), Pen: pen}
}

// Ring returns the stroke of a full circle of radius r mm, r > 0.
func Ring(center geom.Point, r float64, pen Pen) Stroke {
	return Stroke{Path: geom.Circle(center, r), Pen: pen}
}

// Bounds returns the bounds of the path grown by half the pen's width.
func (s Stroke) Bounds() geom.Rect {
	b := s.Path.Bounds()
	if b.Empty() {
		return b
	}
	return b.Expand(s.Pen.Width / 2)
}

// Transform returns the stroke along the moved path, with the same pen.
func (s Stroke) Transform(m geom.Affine) Mark {
	return Stroke{s.Path.Transform(m), s.Pen}
}

// clip cuts the path at the window less half the pen's width. A dashed line is cut into its dashes first,
// so that the dashes of neighboring windows fall on one another.
func (s Stroke) clip(window geom.Rect) Drawing {
	pen, path := s.Pen, s.Path
	if d := pen.dashes(); d != nil {
		path, pen = dashPath(path, d), pen.Solid()
	}
	path = clipPath(path, window.Expand(-pen.Width/2))
	if len(path) == 0 {
		return nil
	}
	return Drawing{Stroke{path, pen}}
}

func (s Stroke) render(r renderer) {
	if len(s.Path) > 0 && s.Pen.Width > 0 {
		r.stroke(s.Path, s.Pen)
	}
}
