package trace

import (
	"fmt"
	"math"

	"listel/profile/geom"
)

// withBack returns p with a plumb back through a point of the picture: where a drawing is broken off, its outline ends in a break line,
// which is no back. What lies between the two is taken to go on level. The points along the back are spacing mm apart.
func (p placed) withBack(pixel geom.Point, spacing float64) (placed, error) {
	box := geom.Polygon(p.points...).Bounds()
	back := p.pixels.Inverse().Apply(pixel).X
	from := math.Max(back, breakEnd(p.points, box))
	if !(from < box.Max.X-0.05*box.Width()) {
		return p, fmt.Errorf("%w: the back at (%.0f, %.0f) leaves nothing of the section, whose face is on the other side of it", ErrNothing, pixel.X, pixel.Y)
	}
	var cut []geom.Point
	n := len(p.points)
	for i, a := range p.points {
		b := p.points[(i+1)%n]
		if a.X >= from {
			cut = append(cut, a)
		}
		if (a.X >= from) != (b.X >= from) {
			q := a.Lerp(b, (from-a.X)/(b.X-a.X))
			cut = append(cut, geom.Pt(back, q.Y))
		}
	}
	var out []geom.Point
	for i, a := range cut { // the new straight lines as close in points as the rest
		b := cut[(i+1)%len(cut)]
		steps := max(1, int(a.Dist(b)/spacing))
		for k := range steps {
			out = append(out, a.Lerp(b, float64(k)/float64(steps)).Sub(geom.Pt(back, 0)))
		}
	}
	return placed{points: out, pixels: affineMapping(geom.Translation(geom.Pt(back, 0))).Then(p.pixels), turn: p.turn}, nil
}

// breakEnd returns how far a ragged back reaches into the section: the greatest x of its left side, foot and top left out.
func breakEnd(points []geom.Point, box geom.Rect) float64 {
	const rows, margin = 200, 0.04
	end := box.Min.X
	n := len(points)
	for k := range rows {
		y := box.Min.Y + box.Height()*(margin+(1-2*margin)*(float64(k)+0.5)/rows)
		left := math.Inf(1)
		for i, a := range points {
			if b := points[(i+1)%n]; (a.Y > y) != (b.Y > y) {
				left = math.Min(left, a.Lerp(b, (y-a.Y)/(b.Y-a.Y)).X)
			}
		}
		if left < box.Max.X {
			end = math.Max(end, left)
		}
	}
	return end + 0.005*box.Width() // the tips between two rows
}
