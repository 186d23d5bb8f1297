package sheet

import "listel/profile/geom"

// A FillRule says which side of crossing outlines is inside.
type FillRule int

// The fill rules: a point is inside when a line from it to far away crosses the outlines an odd number of times,
// or when they wind round it.
const (
	EvenOdd FillRule = iota
	NonZero
)

// A Fill is a region filled with black, gray or white. Each path is one closed outline; an open one is closed
// with a straight line.
type Fill struct {
	Paths []geom.Path
	Rule  FillRule
	Gray  float64 // 0 black to 1 white
}

// FillBox returns a filled rectangle.
func FillBox(r geom.Rect, gray float64) Fill {
	return Fill{Paths: []geom.Path{rectPath(r)}, Rule: NonZero, Gray: gray}
}

// FillPolygon returns the filled polygon through the points.
func FillPolygon(gray float64, pts ...geom.Point) Fill {
	return Fill{Paths: []geom.Path{geom.Polygon(pts...)}, Rule: NonZero, Gray: gray}
}

// Bounds returns the bounds of the outlines.
func (f Fill) Bounds() geom.Rect { return pathsBounds(f.Paths) }

// Transform returns the region moved by m.
func (f Fill) Transform(m geom.Affine) Mark {
	f.Paths = transformPaths(f.Paths, m)
	return f
}

func (f Fill) clip(window geom.Rect) Drawing {
	f.Paths = clipRegion(f.Paths, window)
	if len(f.Paths) == 0 {
		return nil
	}
	return Drawing{f}
}

func (f Fill) render(r renderer) {
	if len(f.Paths) > 0 {
		r.fill(f.Paths, f.Rule, f.Gray)
	}
}
