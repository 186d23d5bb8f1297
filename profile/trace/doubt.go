package trace

import (
	"fmt"
	"image"
	"math"

	"listel/profile/geom"
)

// cutAt returns an EdgeError when an outline in pixels runs so close along the edge of its crop that the crop has cut it.
func (o foundOutline) cutAt(crop image.Rectangle) error {
	b := geom.Polygon(o.points...).Bounds()
	room := 1.5 + o.line/2
	var sides []string
	for _, s := range []struct {
		name string
		gap  float64
	}{{"left", b.Min.X - float64(crop.Min.X)}, {"top", b.Min.Y - float64(crop.Min.Y)}, {"right", float64(crop.Max.X) - b.Max.X}, {"bottom", float64(crop.Max.Y) - b.Max.Y}} {
		if s.gap < room {
			sides = append(sides, s.name)
		}
	}
	if len(sides) == 0 {
		return nil
	}
	return &EdgeError{image.Rect(int(b.Min.X), int(b.Min.Y), int(b.Max.X)+1, int(b.Max.Y)+1), sides}
}

// isBox reports whether an upright outline is a plain rectangle: the border of a plate, or of a table, rather than a molding.
func (p placed) isBox() bool {
	b := geom.Polygon(p.points...).Bounds()
	return math.Abs(geom.PolygonArea(p.points)) > 0.98*b.Width()*b.Height()
}

// looksTurned reports whether an upright outline is one straight plumb line on the side where its face should be, and none on the other: the face is
// on the other side, most likely.
func (p placed) looksTurned() bool {
	b := geom.Polygon(p.points...).Bounds()
	back, face := 0.0, 0.0
	for i, q := range p.points {
		r := p.points[(i+1)%len(p.points)]
		switch near := 0.01 * b.Width(); {
		case q.X < b.Min.X+near && r.X < b.Min.X+near:
			back += math.Abs(r.Y - q.Y)
		case q.X > b.Max.X-near && r.X > b.Max.X-near:
			face += math.Abs(r.Y - q.Y)
		}
	}
	return face > 0.9*b.Height() && back < 0.6*b.Height()
}

// otherSide says where the face seems to be.
func (w Wanted) otherSide() string {
	side := FaceLeft
	if w.Face == FaceLeft {
		side = FaceRight
	}
	return fmt.Sprintf("its %s side is one plumb line and its other is not; is the face on the %s?", w.Face, side)
}

// drawnElse returns the boxes of sections in t that are drawn another way than c, outlined beside a filled one or filled beside an outlined
// one, at least a third as large and clear of it.
func (f *finder) drawnElse(t tone, c patch) []image.Rectangle {
	if !f.hasElse(c) {
		return nil
	}
	kind := Filled
	if f.filled {
		kind = Outlined
	}
	other := newFinder(t)
	at := f.box(c, t.box)
	var out []image.Rectangle
	for _, d := range other.sections(kind) {
		if box := other.box(d, t.box); 3*d.area*other.k*other.k >= c.area*f.k*f.k && box.Intersect(at).Empty() {
			out = append(out, box)
		}
	}
	return out
}

// hasElse reports whether ink of a third of the area of c, box for box, lies clear of it; without that no other section can.
func (f *finder) hasElse(c patch) bool {
	inks, _ := f.patches(has(isInk), true)
	box := func(p patch) image.Rectangle { return image.Rect(p.x0, p.y0, p.x1, p.y1) }
	for _, p := range inks {
		if 3*p.size() >= c.area && box(p).Intersect(box(c)).Empty() {
			return true
		}
	}
	return false
}
