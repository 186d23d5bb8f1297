package template

import (
	"listel/profile/geom"
	"listel/template/sheet"
)

// A part is a drawing with its size.
type part struct {
	sheet.Drawing
	w, h float64
}

func newPart(d sheet.Drawing) part {
	b := d.Bounds()
	if b.Empty() {
		return part{}
	}
	return part{d.At(geom.Point{}.Sub(b.Min)), b.Width(), b.Height()}
}

// headed returns the drawing as a part, with words 3 mm over it that start at its left.
func headed(d sheet.Drawing, words string) part {
	b := d.Bounds()
	head := sheet.Text{At: geom.Pt(b.Min.X, b.Max.Y+3), S: words, Size: headingSize, Weight: sheet.Bold}
	b = b.Union(head.Bounds())
	return part{d.Add(head).At(geom.Point{}.Sub(b.Min)), b.Width(), b.Height()}
}

// at returns the part with its lower left corner at p.
func (p part) at(pt geom.Point) sheet.Drawing { return p.Drawing.At(pt) }

// fits reports whether the part stands in the area.
func (p part) fits(area geom.Rect) bool { return p.w <= area.Width() && p.h <= area.Height() }
