package template

import (
	"math"

	"listel/profile/geom"
	"listel/template/scraper"
	"listel/template/sheet"
)

// labelRow is the height of the label of a blade, mm.
const labelRow = 13.0

// scraperView returns the section of a plan, drawn k times as large, with a bracket for each of some blades over the heights that it scrapes and beside
// it the blade's mark, an arrow along its plunge, and how it is held.
func (st Style) scraperView(p scraper.Plan, blades []scraper.Blade, k, width float64) sheet.Drawing {
	s := p.Section
	to := scaled(k)
	outline := s.Outline.Transform(to)
	d := sheet.Drawing{sheet.EndGrain(outline), sheet.Stroke{Path: outline, Pen: sheet.PenOutline}}
	box := outline.Bounds()
	const step = 4.0
	mid := func(i int) float64 { return k * (blades[i].Covers[0] + blades[i].Covers[1]) / 2 }
	var order []int
	for i := range blades {
		order = append(order, i)
	}
	order = sortedBy(order, mid)
	var want, half []float64
	for _, i := range order {
		want, half = append(want, mid(i)), append(half, labelRow/2)
	}
	at := sheet.Spread(want, half, 0)
	lanes := laneOf(blades)
	most := 0
	for _, l := range lanes {
		most = max(most, l)
	}
	labels := box.Max.X + 8 + step*float64(most+1) + 8
	for n, i := range order {
		b := blades[i]
		x := box.Max.X + 8 + step*float64(lanes[i])
		y0, y1 := k*b.Covers[0], k*b.Covers[1]
		if y1-y0 < 1 {
			y0, y1 = (y0+y1)/2-0.5, (y0+y1)/2+0.5
		}
		y := (y0 + y1) / 2
		d = append(d,
			sheet.Polyline(sheet.PenThin, geom.Pt(x-2, y0+0.3), geom.Pt(x, y0+0.3), geom.Pt(x, y1-0.3), geom.Pt(x-2, y1-0.3)),
			sheet.Polyline(sheet.PenHair, geom.Pt(x, y), geom.Pt(labels-6, at[n]), geom.Pt(labels-1, at[n])),
		)
		d = append(d, st.bladeLabel(b, geom.Pt(labels, at[n]), box.Min.X+width-labels)...)
	}
	d = d.Add(sheet.WayUp(geom.Pt(box.Min.X-9, box.Center().Y-8), 16, "up")...)
	return d.At(geom.Pt(-d.Bounds().Min.X, 0))
}

// bladeLabel returns the mark of a blade, the arrow along its plunge, and how it is held.
func (st Style) bladeLabel(b scraper.Blade, at geom.Point, width float64) sheet.Drawing {
	d := sheet.Balloon(at.Add(geom.Pt(3.5, 0)), b.Mark, figureSize)
	along := geom.Polar(5.5, b.Plunge)
	from, tip := at.Add(geom.Pt(15, 0)).Add(along), at.Add(geom.Pt(15, 0)).Sub(along)
	d = d.Add(sheet.Line(from, tip, sheet.PenThin), sheet.ArrowHead(tip, along.Mul(-1).Unit()))
	x := at.X + 24
	held := st.leanWords(b.Lean)
	if b.Knife != nil {
		held = "hook " + st.Lengths.Angle(b.Knife.Hook)
	}
	words := sheet.Paragraph{Text: sentence(st.plungeWords(b.Plunge), held), Width: width - 24, Size: nameSize}
	set, h := words.Set(geom.Pt(x, at.Y))
	return d.Add(set.At(geom.Pt(0, h/2))...)
}

// laneOf returns for each blade the lane of its bracket, counted outward: brackets that overlap stand in different lanes.
func laneOf(blades []scraper.Blade) []int {
	out := make([]int, len(blades))
	for i, b := range blades {
		for taken := true; taken; {
			taken = false
			for j := range i {
				o := blades[j]
				if out[j] == out[i] && math.Min(b.Covers[1], o.Covers[1])-math.Max(b.Covers[0], o.Covers[0]) > 1e-6 {
					out[i]++
					taken = true
				}
			}
		}
	}
	return out
}

// leanPicture returns a blade on the work seen from the side, leaning along the travel.
func (st Style) leanPicture(lean geom.Angle) sheet.Drawing {
	const length, high, steel = 46.0, 9.0, 26.0
	tip := geom.Pt(length*0.45, high)
	dir := geom.Polar(steel, 90*geom.Degree-lean)
	side := dir.Unit().Left().Mul(-0.8)
	blade := geom.Polygon(tip, tip.Add(side), tip.Add(side).Add(dir), tip.Add(dir))
	work := geom.Polygon(geom.Pt(0, 0), geom.Pt(length, 0), geom.Pt(length, high), geom.Pt(0, high))
	d := sheet.Drawing{
		sheet.Stroke{Path: work, Pen: sheet.PenThin},
		sheet.Fill{Paths: []geom.Path{blade}, Gray: 0.75},
		sheet.Stroke{Path: blade, Pen: sheet.PenThin},
		sheet.Line(tip, tip.Add(geom.Pt(0, steel+6)), sheet.PenCenter),
		sheet.Line(geom.Pt(length*0.45+20, high+4), geom.Pt(length*0.45+33, high+4), sheet.PenOutline),
		sheet.ArrowHead(geom.Pt(length*0.45+35, high+4), geom.Pt(1, 0)),
		sheet.Text{At: geom.Pt(length*0.45+20, high+6.5), S: "travel", Size: noteSize},
		sheet.Text{At: geom.Pt(length/2, high/2), S: "the work", Size: noteSize, Anchor: sheet.Middle},
	}
	if lean > 0 {
		d = d.Add(sheet.AngleDim{Vertex: tip, From: 90*geom.Degree - lean, Sweep: lean, Radius: steel + 3, Text: st.Lengths.Angle(lean), Size: figureSize}.Drawing()...)
	}
	words := "held square to the work"
	if lean > 0 {
		words = "its top leans the way it travels"
	}
	return d.Add(sheet.Text{At: geom.Pt(length/2, -6), S: words, Size: noteSize, Anchor: sheet.Bottom})
}
