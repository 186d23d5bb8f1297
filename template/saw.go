package template

import (
	"fmt"
	"math"
	"strings"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Sizes of the pictures of a saw, mm.
const (
	sawDeep     = 13.0 // of the wood on the table, from the fence
	sawFence    = 4.5  // thickness of the fence
	sawPenWidth = 0.9
	keptGray    = 0.86 // of the wood that is kept
)

// bladePen draws the blade.
var bladePen = sheet.Pen{Width: sawPenWidth}

// handSign returns 1 for the left, -1 for the right and 0 for neither.
func handSign(h miter.Hand) float64 {
	switch h {
	case miter.LeftHand:
		return 1
	case miter.RightHand:
		return -1
	}
	return 0
}

// sawFromAbove draws the saw as the operator sees it from above, the fence at the far side: the blade swung, the wood on the side where it
// is kept, and the waste dashed; where ends are kept on either side, which end lies where. The foot of the blade's line at the fence is the origin; the picture is w wide and reaches h down from it.
func sawFromAbove(s miter.Saw, k sidesKept, other string, w, h float64) sheet.Drawing {
	reach := h - 9
	deep := reach * 0.86 // of the table
	if out := s.Miter.Sin(); reach*out > w/2+3 {
		reach = (w/2 + 3) / out
	}
	swing := handSign(s.Swing)
	dir := geom.Pt(-swing*s.Miter.Sin(), -s.Miter.Cos())
	half := w / 2
	table := geom.Rect{Min: geom.Pt(-half, -deep), Max: geom.Pt(half, 0)}
	d := sheet.Drawing{sheet.Box(table, sheet.PenHair)}
	d = d.Add(sawFenceBars(half)...)
	d = d.Add(sheet.Line(geom.Point{}, geom.Pt(0, -deep-2), sheet.PenCenter))
	d = d.Add(sawWood(s, k, other, half)...)
	tip := dir.Mul(reach)
	d = d.Add(sheet.Line(dir.Mul(-sawFence*0.9), tip, bladePen), sheet.Dot(tip, 1.7))
	if swing != 0 {
		d = d.Add(swingArc(geom.Point{}, reach*0.74, -90*geom.Degree, geom.Angle(-swing)*s.Miter)...)
	}
	return d
}

// sawFenceBars returns the two halves of the fence with the gap for the blade.
func sawFenceBars(half float64) sheet.Drawing {
	const gap = 5.5
	var d sheet.Drawing
	for _, x := range [2][2]float64{{-half, -gap}, {gap, half}} {
		r := geom.Rect{Min: geom.Pt(x[0], 0), Max: geom.Pt(x[1], sawFence)}
		d = d.Add(sheet.FillBox(r, 0.72), sheet.Box(r, sheet.PenThin))
	}
	return d.Add(sheet.Text{At: geom.Pt(half, sawFence+1.3), S: "fence", Size: noteSize, Anchor: sheet.BottomRight})
}

// sawWood returns the kept wood and along the fence, beyond the line of the blade, the other: waste, or a tenon.
func sawWood(s miter.Saw, k sidesKept, other string, half float64) sheet.Drawing {
	deep := sawDeep
	if t := s.Miter.Tan(); deep*t > half*0.6 {
		deep = half * 0.6 / t
	}
	lean := -handSign(s.Swing) * deep * s.Miter.Tan()
	var d sheet.Drawing
	for i, side := range [2]float64{-1, 1} {
		end := side * (half - 1.5)
		pts := []geom.Point{{}, {X: lean, Y: -deep}, {X: end, Y: -deep}, {X: end}}
		t := sheet.Text{Anchor: sheet.Middle, Size: nameSize}
		if k.kept(i) {
			d = d.Add(sheet.FillPolygon(keptGray, pts...), sheet.Stroke{Path: geom.Polygon(pts...), Pen: sheet.PenOutline})
			t.S, t.Weight = "keep", sheet.Bold
		} else {
			d = d.Add(sheet.FillPolygon(1, pts...), sheet.Stroke{Path: geom.Polygon(pts...), Pen: sheet.PenHidden})
			t.S = other
		}
		if k.both() {
			t.S = k.ends(i)
		}
		// The words stand clear of the blade over their whole height.
		tall := (sheet.CapHeight(t.Size)/2 + 1) / deep
		blade := side * max(side*lean*(0.5-tall), side*lean*(0.5+tall))
		if t.At = geom.Pt((end+blade)/2, -deep/2); side*(end-blade) > t.Width()+2 {
			d = d.Add(t)
		}
	}
	return d
}

// swingArc returns an arc with an arrowhead at its end, from a direction through sweep.
func swingArc(center geom.Point, radius float64, from, sweep geom.Angle) sheet.Drawing {
	arc := geom.Arc{Center: center, Radius: radius, From: from, Sweep: sweep}
	d := sheet.Drawing{sheet.Stroke{Path: geom.Path{arc}, Pen: sheet.PenThin}}
	if arc.Length() < 3 {
		return d
	}
	turn := geom.Angle(math.Copysign(math.Pi/2-1.2/radius, float64(sweep)))
	return d.Add(sheet.ArrowHead(arc.End(), geom.Polar(1, from+sweep+turn)))
}

// sawFromFront draws the blade as the operator sees it: tilted, over the table, with the wood and the waste before the fence. The
// middle of the table is the origin; the picture is w wide and h high.
func sawFromFront(s miter.Saw, k sidesKept, w, h float64) sheet.Drawing {
	tilt := handSign(s.Tilt)
	left, right := -w/2, w/2
	reach := h - 14
	if out := reach*s.Bevel.Sin() - w/2; tilt != 0 && out > 0 { // room for the blade's top
		shift := min(out, w*0.22)
		left, right = left-tilt*shift, right-tilt*shift
		reach = (w/2 + shift) / s.Bevel.Sin()
	}
	dir := geom.Pt(-tilt*s.Bevel.Sin(), s.Bevel.Cos())
	high := min(13, h*0.3)
	fence := geom.Rect{Min: geom.Pt(left, 0), Max: geom.Pt(right, high*1.35)}
	d := sheet.Drawing{sheet.Box(fence, sheet.PenHair)}
	lean := -tilt * high * s.Bevel.Tan()
	for i, side := range [2]float64{-1, 1} {
		end := left + 1.5
		if side > 0 {
			end = right - 1.5
		}
		pts := []geom.Point{{}, {X: end}, {X: end, Y: high}, {X: lean, Y: high}}
		if k.kept(i) {
			d = d.Add(sheet.FillPolygon(keptGray, pts...), sheet.Stroke{Path: geom.Polygon(pts...), Pen: sheet.PenOutline})
			d = d.Add(keptWords(k, i, geom.Pt((end+lean/2)/2, high/2))...)
		} else {
			d = d.Add(sheet.FillPolygon(1, pts...), sheet.Stroke{Path: geom.Polygon(pts...), Pen: sheet.PenHidden})
		}
	}
	table := geom.Rect{Min: geom.Pt(left, -3.5), Max: geom.Pt(right, 0)}
	d = d.Add(sheet.FillBox(table, 0.72), sheet.Box(table, sheet.PenThin))
	if tilt != 0 {
		d = d.Add(sheet.Line(geom.Pt(0, high*1.35), geom.Pt(0, reach), sheet.PenCenter))
		d = d.Add(swingArc(geom.Point{}, reach*0.88, 90*geom.Degree, geom.Angle(tilt)*s.Bevel)...)
	}
	d = d.Add(sheet.Line(dir.Mul(-2.5), dir.Mul(reach), bladePen))
	return d.At(geom.Pt(-(left+right)/2, 0))
}

// keptWords returns what stands on kept wood seen from the front: keep, or in two lines which end lies there.
func keptWords(k sidesKept, side int, at geom.Point) sheet.Drawing {
	t := sheet.Text{At: at, S: "keep", Size: nameSize, Weight: sheet.Bold, Anchor: sheet.Middle}
	if !k.both() {
		return sheet.Drawing{t}
	}
	up := geom.Pt(0, sheet.LineHeight(nameSize)/2)
	first, last, _ := strings.Cut(k.ends(side), " ")
	over, under := t, t
	over.S, over.At = first, at.Add(up)
	under.S, under.At = last, at.Sub(up)
	return sheet.Drawing{over, under}
}

// nested reports whether a sprung section stands upside down between table and fence, as it does between the case and its top.
func nested(s miter.Saw, section profile.Section) bool {
	return section.Spring != nil && s.Table == miter.TopFace
}

// nestWords says how high a fence and how far out a stop a nested section needs, so that it lies at its spring angle and cannot slide; "" for
// one that is not nested.
func nestWords(st Style, s miter.Saw, section profile.Section) string {
	if !nested(s, section) {
		return ""
	}
	b := section.Outline.Bounds()
	return fmt.Sprintf("Fence %s high or more; a stop %s out from it.",
		st.Lengths.Drawing(b.Max.Y), st.Lengths.Drawing(b.Max.X))
}

// sawStop draws the stop that keeps a nested section, as laid on the saw, from sliding out: it touches where that stands out farthest.
func sawStop(laid geom.Path, box geom.Rect) sheet.Drawing {
	const wide = 3.5
	high := 0.0
	for _, q := range laid.Flatten(0.05) {
		if q.X > box.Max.X-1e-6 {
			high = max(high, q.Y)
		}
	}
	r := geom.Rect{Min: geom.Pt(box.Max.X, 0), Max: geom.Pt(box.Max.X+wide, max(high, 4))}
	return sheet.Drawing{sheet.FillBox(r, 0.72), sheet.Box(r, sheet.PenThin)}
}

// sawFromLeft draws how the section lies on the saw, seen from the operator's left: the fence at the left, the operator at the right. The
// fence reaches as high as a nested section touches it, and a stop holds that. The foot of the fence is the origin; the picture is w wide
// and h high.
func sawFromLeft(s miter.Saw, section profile.Section, w, h float64) sheet.Drawing {
	lay := bedOf(s, section).lay(section)
	box := section.Outline.Transform(lay).Bounds()
	const table = 3.5
	room := w - sawFence - 4
	if nested(s, section) {
		room -= 4 // for the stop
	}
	k := min(room/box.Width(), (h-table-3)/box.Height())
	outline := section.Outline.Transform(lay.Then(scaled(k)))
	high := max(box.Height()*k*0.72, 12)
	if nested(s, section) {
		high = box.Height() * k
	}
	fence := geom.Rect{Min: geom.Pt(-sawFence, 0), Max: geom.Pt(0, high)}
	bed := geom.Rect{Min: geom.Pt(-sawFence, -table), Max: geom.Pt(w-sawFence, 0)}
	d := sheet.Drawing{sheet.FillBox(fence, 0.72), sheet.Box(fence, sheet.PenThin), sheet.FillBox(bed, 0.72), sheet.Box(bed, sheet.PenThin)}
	d = d.Add(sheet.EndGrain(outline), sheet.Stroke{Path: outline, Pen: sheet.PenOutline})
	if nested(s, section) {
		d = d.Add(sawStop(outline, outline.Bounds())...)
	}
	return d.Add(
		sheet.Text{At: geom.Pt(-sawFence, -table-1.5), S: "fence", Size: noteSize, Anchor: sheet.TopLeft},
		sheet.Text{At: geom.Pt(w-sawFence, -table-1.5), S: "you stand here", Size: noteSize, Anchor: sheet.TopRight},
	)
}
