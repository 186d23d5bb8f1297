package trace

import (
	"image"

	"listel/profile/geom"
)

// An inkMap tells how far a place lies from the edge of a drawn section, whatever was made of that edge: what the outline missed of the ink is
// seen by it. It knows places to a pixel or two.
type inkMap struct {
	finder  *finder
	within  field       // how far each pixel lies from the outside, in chamfer steps
	without field       // how far from what is not outside
	corner  image.Point // of the crop
	line    float64     // px of the picture, 0 for a filled section
}

// ink returns the map of the drawing, whose outline is a line of a thickness in px.
func (f *finder) ink(corner image.Point, line float64) *inkMap {
	return &inkMap{f, f.distances(has(isOutside), false), f.distances(lacks(isOutside), false), corner, line}
}

// off returns how far the point (px) lies from the middle of the outline, or from the edge of what is filled, in px; 0 within what the map cannot tell from
// it, its own coarseness and the wedges that other lines make with the outline.
func (m *inkMap) off(p geom.Point) float64 {
	k := float64(m.finder.k)
	x := int((p.X-float64(m.corner.X))/k) - m.finder.x0
	y := int((p.Y-float64(m.corner.Y))/k) - m.finder.y0
	if x < 0 || y < 0 || x >= m.finder.w || y >= m.finder.h {
		return 0
	}
	i := y*m.finder.w + x
	d := float64(m.within.pix[i])/stepBeside*k - m.line/2
	if m.within.pix[i] == 0 {
		d = float64(m.without.pix[i])/stepBeside*k + m.line/2
	}
	if d < 3*k+m.line {
		return 0
	}
	return d
}
