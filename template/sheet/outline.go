package sheet

import (
	"github.com/tdewolff/font"

	"listel/profile/geom"
)

// outlineSteps is the number of chords that stand for one curve of a letter: at the largest sizes of a sheet they stay
// within 0.01 mm of it.
const outlineSteps = 8

// Outlines returns the text as filled shapes, its halo under them, for lettering that must be cut or that belongs to the
// drawing itself.
func (t Text) Outlines() Mark {
	f := t.Weight.face()
	k := t.size() * mmPerPoint / f.em
	origin := t.baseline()
	place := geom.Scaling(k, k).Then(geom.Rotation(t.Angle)).Then(geom.Translation(origin))
	var shape letterPath
	x := 0.0
	for _, r := range t.printed() {
		id := f.font.SFNT.GlyphIndex(r)
		if err := f.font.SFNT.GlyphPath(&shape, id, 0, x, 0, 1, font.NoHinting); err != nil {
			panic("sheet: built-in font: " + err.Error())
		}
		x += float64(f.font.SFNT.GlyphAdvance(id))
	}
	shape.Close()
	fill := Fill{Paths: transformPaths(shape.paths, place), Rule: NonZero, Gray: t.Gray}
	if !t.Halo {
		return fill
	}
	box := t.box(haloWidth)
	return Drawing{FillPolygon(1, box[:]...), fill}
}

// A letterPath collects letters as polygons in font units.
type letterPath struct {
	paths []geom.Path
	pts   []geom.Point
}

func (l *letterPath) MoveTo(x, y float64) {
	l.Close()
	l.pts = []geom.Point{{X: x, Y: y}}
}

func (l *letterPath) LineTo(x, y float64) { l.pts = append(l.pts, geom.Pt(x, y)) }

func (l *letterPath) QuadTo(cx, cy, x, y float64) {
	a, c, b := l.pts[len(l.pts)-1], geom.Pt(cx, cy), geom.Pt(x, y)
	for i := 1; i <= outlineSteps; i++ {
		t := float64(i) / outlineSteps
		l.pts = append(l.pts, a.Lerp(c, t).Lerp(c.Lerp(b, t), t))
	}
}

func (l *letterPath) CubeTo(ax, ay, bx, by, x, y float64) {
	p, a, b, q := l.pts[len(l.pts)-1], geom.Pt(ax, ay), geom.Pt(bx, by), geom.Pt(x, y)
	for i := 1; i <= outlineSteps; i++ {
		t := float64(i) / outlineSteps
		ab := a.Lerp(b, t)
		l.pts = append(l.pts, p.Lerp(a, t).Lerp(ab, t).Lerp(ab.Lerp(b.Lerp(q, t), t), t))
	}
}

func (l *letterPath) Close() {
	if n := len(l.pts); n > 1 && l.pts[0].Near(l.pts[n-1], 1e-9) {
		l.pts = l.pts[:n-1]
	}
	if len(l.pts) > 2 {
		l.paths = append(l.paths, geom.Polygon(l.pts...))
	}
	l.pts = nil
}
