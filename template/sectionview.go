package template

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// A sectionView draws a section at one scale. The drawing's origin is that of the section.
type sectionView struct {
	s       profile.Section
	st      Style
	k       float64   // mm on paper for a mm of wood
	hatched bool      // as cut wood; otherwise a light tone
	heights bool      // with its dimensions
	names   bool      // with the members' names at the right
	centers bool      // with the centers of the arcs
	crop    geom.Rect // the part to draw, in mm of wood; the zero Rect for all of it. Only for views without heights
}

// Room in a view, mm.
const (
	firstRow  = 8.0  // from the section to the first level dimension line
	nextRow   = 7.5  // from one to the next
	caseWords = 2.4  // from the back to the words along it
	nameRoom  = 9.0  // from the section to the column of names
	nameRun   = 2.5  // level end of a name's leader
	wallOver  = 5.0  // of the wall's line past the section
	spread    = 1.25 // row of names, in line heights
)

// drawing returns the view.
func (v sectionView) drawing() sheet.Drawing {
	m := scaled(v.k)
	outline := v.s.Outline.Transform(m)
	var d sheet.Drawing
	if v.hatched {
		h := sheet.EndGrain(outline)
		b := outline.Bounds()
		h.Spacing = min(2.5, max(1.2, min(b.Width(), b.Height())/7))
		d = d.Add(h)
	} else {
		d = d.Add(sheet.Fill{Paths: []geom.Path{outline}, Gray: 0.92})
	}
	if v.s.Gap != nil {
		d = d.Add(sheet.Group{Name: "gap", Drawing: sheet.Drawing{sheet.Stroke{Path: v.s.Gap.Transform(m), Pen: sheet.PenHidden}}})
	}
	d = d.Add(sheet.Group{Name: "section", Drawing: sheet.Drawing{sheet.Stroke{Path: outline, Pen: sheet.PenOutline}}})
	d = v.cropped(d)
	right := outline.Bounds().Max.X
	if v.centers {
		marks, reach := v.compass()
		d, right = d.Add(marks...), max(right, reach)
	}
	if v.heights {
		d = d.Add(v.levels()...).Add(v.backSide()...)
	}
	return d.Add(v.column(right)...)
}

// outermost returns the greatest x of the section at height y, in mm of wood.
func (v sectionView) outermost(y float64) float64 {
	x := 0.0
	for _, seg := range v.s.Outline {
		b := seg.Bounds()
		if y < b.Min.Y-1e-7 || y > b.Max.Y+1e-7 || b.Max.X <= x {
			continue
		}
		for _, p := range [2]geom.Point{seg.Start(), seg.End()} {
			if math.Abs(p.Y-y) < 1e-7 {
				x = max(x, p.X)
			}
		}
		level := geom.Line{A: geom.Pt(b.Min.X-1, y), B: geom.Pt(b.Max.X+1, y)}
		for _, c := range geom.Crossings(seg, level) {
			x = max(x, c.At.X)
		}
	}
	return x
}

// levels returns the dimensions across: ground and projection below, and what the back takes of the top.
func (v sectionView) levels() sheet.Drawing {
	s, k := v.s, v.k
	var d sheet.Drawing
	row := -firstRow
	across := func(x0, x1, from, at float64) {
		d = d.Add(sheet.Dim{A: geom.Pt(x0*k, from*k), B: geom.Pt(x1*k, from*k), Along: sheet.Across, At: at,
			Text: v.st.figure(x1 - x0), Size: figureSize}.Drawing()...)
	}
	if r := s.Rabbet; r != nil {
		if r.At == profile.AtTop {
			across(0, r.Width, s.Height, s.Height*k+firstRow)
		} else {
			across(0, r.Width, 0, row)
			row -= nextRow
		}
	}
	if sp := s.Spring; sp != nil && sp.Top > 0 {
		end := s.Back.Start().X
		across(end-sp.Top, end, s.Height, s.Height*k+firstRow)
	}
	if s.Ground > 0.01 && math.Abs(s.Ground-s.Projection) > 0.01 {
		across(0, s.Ground, 0, row)
		row -= nextRow
	}
	foremost := s.Outline.Bounds().Max.X
	y := v.heightOf(foremost)
	d = d.Add(sheet.Dim{A: geom.Pt(0, 0), B: geom.Pt(foremost*k, y*k), Along: sheet.Across, At: row,
		Text: v.st.figure(foremost), Size: figureSize}.Drawing()...)
	return d
}

// heightOf returns the least y at which the section reaches the given greatest x.
func (v sectionView) heightOf(x float64) float64 {
	y := math.Inf(1)
	for _, seg := range v.s.Outline {
		b := seg.Bounds()
		if b.Max.X < x-1e-6 {
			continue
		}
		for _, t := range [...]float64{0, seg.Nearest(geom.Pt(x+1e6, (b.Min.Y+b.Max.Y)/2)), 1} {
			if p := seg.At(t); p.X > x-1e-3 {
				y = min(y, p.Y)
			}
		}
	}
	if math.IsInf(y, 1) {
		return 0
	}
	return y
}

// backSide returns what stands left of the section: the words that say which side goes to the case, the depth of a rabbet, the
// flat and the angle of a spring, and the overall height.
func (v sectionView) backSide() sheet.Drawing {
	s, k := v.s, v.k
	h := s.Height * k
	d, left := v.caseSide(h)
	up := func(y0, y1 float64) {
		text := v.st.figure(y1 - y0)
		w := sheet.TextWidth(text, figureSize, sheet.Regular)
		x := left - 2.5 - w/2
		dim := sheet.Dim{A: geom.Pt(0, y0*k), B: geom.Pt(0, y1*k), Along: sheet.Up, At: x, Text: text, Size: figureSize}.Drawing()
		d = d.Add(dim...)
		left = x - w/2
	}
	if r := s.Rabbet; r != nil {
		if r.At == profile.AtTop {
			up(s.Height-r.Depth, s.Height)
		} else {
			up(0, r.Depth)
		}
	}
	if sp := s.Spring; sp != nil {
		slope := s.Height - sp.Wall
		d = d.Add(sheet.AngleDim{Vertex: geom.Pt(0, sp.Wall*k), From: 90 * geom.Degree, Sweep: -sp.Angle,
			Radius: max(9, min(0.62*slope*k, 22)), Text: v.st.Lengths.Angle(sp.Angle), Size: figureSize}.Drawing()...)
		if sp.Wall > 0.01 {
			up(0, sp.Wall)
		}
	}
	up(0, s.Height)
	return d
}

// caseSide returns the line of the case with words along it, and the least x that they take.
func (v sectionView) caseSide(h float64) (sheet.Drawing, float64) {
	var d sheet.Drawing
	if v.s.Spring != nil {
		d = d.Add(sheet.Line(geom.Pt(0, -2), geom.Pt(0, h+wallOver), sheet.PenCenter))
	}
	for _, words := range []string{"this side to the case", "case side", "case"} {
		t := sheet.Text{S: words, Size: noteSize, Angle: 90 * geom.Degree, Anchor: sheet.Bottom, At: geom.Pt(-caseWords, h/2)}
		if t.Width()+2 <= h {
			return d.Add(t), -caseWords - sheet.CapHeight(noteSize)
		}
	}
	l := sheet.Leader{Tip: geom.Pt(-0.4, h/2), Elbow: geom.Pt(-4, h/2), Text: "case", Size: noteSize}.Drawing()
	return d.Add(l...), l.Bounds().Min.X
}
