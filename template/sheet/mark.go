package sheet

import "listel/profile/geom"

// A Mark is one thing on a drawing: a Stroke, a Fill, a Hatch, a Text, a Picture, a Group, or a whole Drawing.
// Marks are values: a method never changes the mark it is called on.
type Mark interface {
	// Bounds returns the smallest upright rectangle that holds the mark, the width of its pen included.
	Bounds() geom.Rect
	// Transform returns the mark moved by m. Pens keep their width, text and hatching their size.
	Transform(m geom.Affine) Mark

	clip(window geom.Rect) Drawing // what of the mark lies in the window, its ink included
	render(r renderer)
}

// A renderer prints marks: one for each kind of file. Coordinates are mm from the lower left corner of the page.
type renderer interface {
	stroke(path geom.Path, pen Pen)
	fill(paths []geom.Path, rule FillRule, gray float64)
	text(t Text)
	picture(p Picture)
	open(name string) // begins a group; groups nest
	close()
}
