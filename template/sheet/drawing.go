package sheet

import (
	"errors"
	"math"

	"listel/profile/geom"
)

// A Drawing is a list of marks in mm, y up; later marks lie over earlier ones. A nil Drawing is empty. A
// Drawing is itself a Mark, so drawings nest.
type Drawing []Mark

// Add returns d with the marks put over it. It never changes d, even when d is shared.
func (d Drawing) Add(marks ...Mark) Drawing {
	return append(d[:len(d):len(d)], marks...)
}

// Place returns d with other put over it, moved by m.
func (d Drawing) Place(other Drawing, m geom.Affine) Drawing {
	return d.Add(other.Moved(m)...)
}

// Moved returns the drawing with every mark moved by m: Transform, as a Drawing.
func (d Drawing) Moved(m geom.Affine) Drawing {
	out := make(Drawing, 0, len(d))
	for _, mark := range d {
		out = append(out, mark.Transform(m))
	}
	return out
}

// At returns the drawing moved so that its origin lies at p.
func (d Drawing) At(p geom.Point) Drawing { return d.Moved(geom.Translation(p)) }

// In returns the drawing moved so that the middle of its bounds is the middle of the room.
func (d Drawing) In(room geom.Rect) Drawing {
	b := d.Bounds()
	if b.Empty() || room.Empty() {
		return d
	}
	return d.At(room.Center().Sub(b.Center()))
}

// Transform returns the drawing with every mark moved by m.
func (d Drawing) Transform(m geom.Affine) Mark { return d.Moved(m) }

// Bounds returns the smallest upright rectangle that holds every mark; it is empty when d is.
func (d Drawing) Bounds() geom.Rect {
	r := geom.EmptyRect()
	for _, mark := range d {
		r = r.Union(mark.Bounds())
	}
	return r
}

// Clip returns what of the drawing lies in the window. Lines and regions are cut exactly, half a pen's
// width inside the window's edge so that no ink leaves it; a text stays only if all of it fits.
func (d Drawing) Clip(window geom.Rect) Drawing { return d.clip(window) }

func (d Drawing) clip(window geom.Rect) Drawing {
	var out Drawing
	for _, mark := range d {
		b := mark.Bounds()
		switch {
		case b.Empty() || !b.Overlaps(window):
		case inside(b, window):
			out = append(out, mark)
		default:
			out = append(out, mark.clip(window)...)
		}
	}
	return out
}

// ErrNotFinite says that a drawing has a coordinate that is no number, or no finite one.
var ErrNotFinite = errors.New("the drawing has a coordinate that is not a finite number")

// check returns ErrNotFinite when a mark lies nowhere.
func (d Drawing) check() error {
	for _, mark := range d {
		ok := true
		switch m := mark.(type) {
		case Stroke:
			ok = finite(m.Path)
		case Fill:
			ok = finite(m.Paths...)
		case Hatch:
			ok = finite(m.Paths...)
		case Text:
			ok = finitePoint(m.At) && finitePoint(geom.Pt(m.Size, m.Angle.Radians()))
		case Picture:
			ok = finitePoint(m.Place.Apply(geom.Point{})) && finitePoint(m.Place.Apply(geom.Pt(1, 1)))
		case Group:
			ok = m.Drawing.check() == nil
		case Drawing:
			ok = m.check() == nil
		}
		if !ok {
			return ErrNotFinite
		}
	}
	return nil
}

// finite reports whether all segments of the paths lie somewhere.
func finite(paths ...geom.Path) bool {
	for _, p := range paths {
		for _, s := range p {
			if !finitePoint(s.Start()) || !finitePoint(s.At(0.5)) || !finitePoint(s.End()) {
				return false
			}
		}
	}
	return true
}

func finitePoint(p geom.Point) bool {
	return math.Abs(p.X) <= math.MaxFloat64 && math.Abs(p.Y) <= math.MaxFloat64
}

func (d Drawing) render(r renderer) {
	for _, mark := range d {
		mark.render(r)
	}
}

// inside reports whether inner lies wholly in outer.
func inside(inner, outer geom.Rect) bool {
	return outer.Contains(inner.Min) && outer.Contains(inner.Max)
}

// A Group is a drawing with a name, which an SVG file keeps as the group's class.
type Group struct {
	Name    string
	Drawing Drawing
}

// Bounds returns the bounds of the group's drawing.
func (g Group) Bounds() geom.Rect { return g.Drawing.Bounds() }

// Transform returns the group with every mark moved by m.
func (g Group) Transform(m geom.Affine) Mark { return Group{g.Name, g.Drawing.Moved(m)} }

func (g Group) clip(window geom.Rect) Drawing {
	d := g.Drawing.clip(window)
	if len(d) == 0 {
		return nil
	}
	return Drawing{Group{g.Name, d}}
}

func (g Group) render(r renderer) {
	r.open(g.Name)
	g.Drawing.render(r)
	r.close()
}
