package template

import (
	"math"
	"slices"

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
	} else if at := (sectionView{s: v.s, st: v.st, k: 1}); v.s.Spring != nil && at.springAngle() == nil {
		d = d.Add(v.wallLine()).Add(v.springAngle()...)
	}
	return d.Add(v.column(right)...)
}

// outermost returns the greatest x of the section at each of the heights, in mm of wood. They are in rising order, so that each segment is only asked
// at those within it.
func (v sectionView) outermost(heights []float64) []float64 {
	const near = 1e-7 // mm, from an end to a height that counts as its own
	out := make([]float64, len(heights))
	for _, seg := range v.s.Outline {
		b := seg.Bounds()
		first, _ := slices.BinarySearch(heights, b.Min.Y-near)
		for i := first; i < len(heights) && heights[i] <= b.Max.Y+near; i++ {
			if b.Max.X > out[i] {
				out[i] = max(out[i], reachAt(seg, b, heights[i], near))
			}
		}
	}
	return out
}

// reachAt returns the greatest x at which a segment with those bounds meets a height, 0 where it does not.
func reachAt(seg geom.Segment, b geom.Rect, y, near float64) float64 {
	x := 0.0
	for _, p := range [2]geom.Point{seg.Start(), seg.End()} {
		if math.Abs(p.Y-y) < near {
			x = max(x, p.X)
		}
	}
	level := geom.Line{A: geom.Pt(b.Min.X-1, y), B: geom.Pt(b.Max.X+1, y)}
	for _, c := range geom.Crossings(seg, level) {
		x = max(x, c.At.X)
	}
	return x
}

// levels returns the dimensions across: ground and projection below, and what the back takes of the top.
func (v sectionView) levels() sheet.Drawing {
	s, k := v.s, v.k
	var d sheet.Drawing
	row := -firstRow
	across := func(x0, x1, at float64) {
		d = d.Add(dimAcross(geom.Pt(x0*k, 0), geom.Pt(x1*k, 0), at, v.st.figure(x1-x0))...)
	}
	over := func(x0, x1 float64) {
		d = d.Add(sheet.Dim{A: geom.Pt(x0, s.Height).Mul(k), B: geom.Pt(x1, s.Height).Mul(k), Along: sheet.Across, At: s.Height*k + firstRow,
			Text: v.st.figure(x1 - x0), Size: figureSize}.Drawing()...)
	}
	if r := s.Rabbet; r != nil {
		if r.At == profile.AtTop {
			over(0, r.Width)
		} else {
			across(0, r.Width, row)
			row -= nextRow
		}
	}
	if sp := s.Spring; sp != nil && sp.Top > 0 {
		end := s.Back.Start().X
		over(end-sp.Top, end)
	}
	if s.Ground > 0.01 && math.Abs(s.Ground-s.Projection) > 0.01 {
		across(0, s.Ground, row)
		row -= nextRow
	}
	foremost := s.Outline.Bounds().Max.X
	y := v.heightOf(foremost)
	return d.Add(dimAcross(geom.Pt(0, 0), geom.Pt(foremost*k, y*k), row, v.st.figure(foremost))...)
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
	lo, hi := s.BackSpan() // no extension line crosses it
	if s.Spring != nil {
		lo, hi = hi, s.Height // nor the wall beside the slope
	}
	d, left := v.caseSide(lo*k, hi*k)
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
			up(hi, s.Height)
		} else {
			up(0, lo)
		}
	}
	if sp := s.Spring; sp != nil && sp.Wall > 0.01 {
		up(0, sp.Wall)
	}
	up(0, s.Height)
	return d
}

// dimAcross returns a level dimension from a to the right to b, its line at y = at. A text that does not fit stands at the left, where
// no extension line of the rows below it runs.
func dimAcross(a, b geom.Point, at float64, text string) sheet.Drawing {
	const arrows, tail, gap = 8.0, 6.0, 1.0 // mm that two arrowheads take, of a tail, before a text
	dim := sheet.Dim{A: a, B: b, Along: sheet.Across, At: at, Text: text, Size: figureSize}
	if b.X-a.X >= sheet.TextWidth(text, figureSize, sheet.Regular)+arrows {
		return dim.Drawing()
	}
	dim.Text = ""
	end := geom.Pt(a.X-tail, at)
	return dim.Drawing().Add(sheet.Line(geom.Pt(a.X, at), end, sheet.PenThin),
		sheet.Text{At: end.Sub(geom.Pt(gap, 0)), S: text, Size: figureSize, Anchor: sheet.Right})
}

// springAngle returns the angle of a leaning back from the wall, in the wedge between the two; nil when the wedge has no room for it at
// this scale.
func (v sectionView) springAngle() sheet.Drawing {
	sp := v.s.Spring
	if sp == nil || sp.Angle > 70*geom.Degree {
		return nil
	}
	text := v.st.Lengths.Angle(sp.Angle)
	room := (sheet.TextWidth(text, figureSize, sheet.Regular) + 4) / (2 * (sp.Angle / 2).Tan()) // from the vertex to the text
	up := (v.s.Height - sp.Wall) * v.k
	if room+sheet.CapHeight(figureSize)+1 > up {
		return nil
	}
	at := min(max(room, 0.5*up), up-sheet.CapHeight(figureSize)-1)
	vertex := geom.Pt(0, sp.Wall*v.k)
	return sheet.AngleDim{Vertex: vertex, From: 90 * geom.Degree, Sweep: -sp.Angle, Radius: at - 1.5}.Drawing().
		Add(sheet.Text{At: vertex.Add(geom.Pt(at*(sp.Angle/2).Tan(), at)), S: text, Size: figureSize, Anchor: sheet.Bottom})
}

// wallLine returns the line of the wall that a leaning back stands against.
func (v sectionView) wallLine() sheet.Mark {
	return sheet.Line(geom.Pt(0, -2), geom.Pt(0, v.s.Height*v.k+wallOver), sheet.PenCenter)
}

// caseSide returns the line of the case with words along it between two heights on the paper, and the least x that they take.
func (v sectionView) caseSide(lo, hi float64) (sheet.Drawing, float64) {
	var d sheet.Drawing
	if v.s.Spring != nil {
		d = d.Add(v.wallLine()).Add(v.springAngle()...)
	}
	for _, words := range []string{"this side to the case", "case side", "case"} {
		t := sheet.Text{S: words, Size: noteSize, Angle: 90 * geom.Degree, Anchor: sheet.Bottom, At: geom.Pt(-caseWords, (lo+hi)/2)}
		if t.Width()+2 <= hi-lo {
			return d.Add(t), -caseWords - sheet.CapHeight(noteSize)
		}
	}
	mid := (lo + hi) / 2
	l := sheet.Leader{Tip: geom.Pt(-0.4, mid), Elbow: geom.Pt(-4, mid), Text: "case", Size: noteSize}.Drawing()
	return d.Add(l...), l.Bounds().Min.X
}
