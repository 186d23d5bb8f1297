package template

import (
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/sheet"
)

// An overlayView draws the parts of an overlay.
type overlayView struct {
	o     Overlaid
	st    Style
	blank bool // white in place of the scan
}

// plain returns v with white in place of the scan, to see how much room it takes.
func (v overlayView) plain() overlayView {
	v.blank = true
	return v
}

// Sizes of an overlay, mm.
const (
	overlayPaper = 4.0  // of the scan round the section, on the sheet
	overlayRing  = 2.2  // radius of the ring round the worst place
	overlayMore  = 0.06 // at least so much of the section's size, so that what the outline missed shows
	overlayInset = 38.0 // side of the enlarged worst place
	outlineDot   = 0.32 // radius of a dot of the traced outline
	outlineStep  = 2.2  // from dot to dot
)

// sectionPen draws the section over the scan.
var sectionPen = sheet.Pen{Width: 0.3}

// drawing returns the scan with the traced outline as dots and the section as a line, the worst place in a ring with its distance, and
// with names, unless not asked for, the members. The origin is that of the section.
func (v overlayView) drawing(k float64, names bool) sheet.Drawing {
	o, to := v.o, scaled(k)
	outline := o.Section.Outline.Transform(to)
	bounds := o.Section.Outline.Bounds().Union(o.Outline.Bounds())
	window := bounds.Expand(max(overlayPaper/k, overlayMore*max(bounds.Width(), bounds.Height())))
	d := sheet.Drawing{sheet.FillBox(geom.Rect{Min: window.Min.Mul(k), Max: window.Max.Mul(k)}, 1)}
	if !v.blank {
		d = scanUnder(o.Picture, o.Pixels, window, k)
	}
	d = d.Add(sheet.Group{Name: "section", Drawing: sheet.Drawing{sheet.Stroke{Path: outline, Pen: sectionPen}}})
	d = d.Add(sheet.Group{Name: "traced", Drawing: dotted(o.Outline.Transform(to), outlineStep)})
	d = d.Add(v.worst(k, bounds)...)
	if !names {
		return d
	}
	section := sectionView{s: o.Section, st: v.st, k: k, names: true}
	return d.Add(section.column(max(bounds.Max.X*k+overlayPaper, d.Bounds().Max.X))...)
}

// dotted returns dots along a path, about step mm apart.
func dotted(p geom.Path, step float64) sheet.Drawing {
	var d sheet.Drawing
	left := 0.0
	for _, seg := range p {
		length := seg.Length()
		for ; left <= length && length > 0; left += step {
			d = d.Add(sheet.Dot(seg.At(left/length), outlineDot))
		}
		left -= length
	}
	return d
}

// worst returns the ring round the place where outline and section are furthest apart, with its distance over or under the view.
func (v overlayView) worst(k float64, bounds geom.Rect) sheet.Drawing {
	t := v.o.Truth
	at := t.Worst.Mul(k)
	text := "furthest apart: " + v.distance(t.Greatest, t.GreatestPx)
	half := sheet.TextWidth(text, noteSize, sheet.Regular) / 2
	paper := max(overlayPaper, overlayMore*max(bounds.Width(), bounds.Height())*k)
	elbow := geom.Pt(at.X, bounds.Max.Y*k+paper+5)
	if t.Worst.Y < bounds.Center().Y {
		elbow.Y = bounds.Min.Y*k - paper - 5
	}
	elbow.X = max(bounds.Min.X*k+half, min(at.X, bounds.Max.X*k-half)) // words over the view, clear of the names
	way := elbow.Sub(at).Unit()
	anchor := sheet.Bottom
	line := elbow
	if elbow.Y < at.Y {
		anchor = sheet.Top
	}
	return sheet.Drawing{
		sheet.Ring(at, overlayRing, sheet.Pen{Width: 0.7, Gray: 1}), sheet.Ring(at, overlayRing, sheet.PenThin),
		sheet.Line(at.Add(way.Mul(overlayRing)), line, sheet.PenThin),
		sheet.Text{At: elbow.Add(geom.Pt(0, math.Copysign(1.2, elbow.Y-at.Y))), S: text, Size: noteSize, Anchor: anchor},
	}
}

// enlarged returns the worst place so large that the distance can be seen.
func (v overlayView) enlarged() sheet.Drawing {
	t := v.o.Truth
	const least, most = 2.0, 60.0 // on the sheet, mm that the distance should take; the largest scale
	k := 1.0
	for _, s := range []float64{2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, most} {
		if k = s; t.Greatest*s >= least {
			break
		}
	}
	half := overlayInset / 2
	window := geom.Rect{Min: t.Worst.Sub(geom.Pt(half/k, half/k)), Max: t.Worst.Add(geom.Pt(half/k, half/k))}
	to := geom.Translation(geom.Point{}.Sub(window.Min)).Then(scaled(k))
	box := geom.Rect{Max: geom.Pt(overlayInset, overlayInset)}
	var d sheet.Drawing
	if scan := scanUnder(v.o.Picture, v.o.Pixels, window, k); scan != nil {
		d = d.Add(scan.At(geom.Point{}.Sub(window.Min.Mul(k)))...)
	}
	lines := sheet.Drawing{sheet.Stroke{Path: v.o.Section.Outline.Transform(to), Pen: sectionPen}}
	lines = lines.Add(sheet.Group{Name: "traced", Drawing: dotted(v.o.Outline.Transform(to), 1.6)})
	d = d.Add(lines.Clip(box)...)
	d = d.Add(sheet.Ring(to.Apply(t.Worst), overlayRing+1, sheet.PenThin), sheet.Box(box, sheet.PenThin))
	return headed(d, fmt.Sprintf("The worst place, %g:1", k)).Drawing
}

// key says what the lines of an overlay are.
func (v overlayView) key() sheet.Drawing {
	var d sheet.Drawing
	put := func(y float64, mark sheet.Drawing, words string) {
		d = d.Add(mark...).Add(sheet.Text{At: geom.Pt(13, y), S: words, Size: noteSize, Anchor: sheet.Left})
	}
	line := func(y float64) geom.Path { return geom.Polyline(geom.Pt(0, y), geom.Pt(10, y)) }
	put(0, sheet.Drawing{sheet.Stroke{Path: line(0), Pen: sectionPen}}, "the section")
	put(-5, dotted(line(-5), outlineStep), "the outline as traced")
	put(-10, sheet.Drawing{sheet.Stroke{Path: line(-10), Pen: sheet.Pen{Width: 1.4, Gray: 0.6}}}, "the scan")
	return d
}

// summary returns how true the trace is, in a few lines from the origin down.
func (v overlayView) summary() sheet.Drawing {
	t := v.o.Truth
	kept := "kept"
	if !t.Within {
		kept = "NOT KEPT"
	}
	scale := "The scale, within"
	if v.o.Scale != "" {
		scale = "Scale " + fitted(v.o.Scale, noteSize, 16) + ", within"
	}
	rows := [][]string{
		{"Furthest apart", v.distance(t.Greatest, t.GreatestPx)},
		{"In the mean", fmt.Sprintf("%s (%.2f px)", v.st.fine(t.Mean), t.MeanPx)},
		{"Allowed", v.st.fine(t.Tolerance) + ": " + kept},
		{scale, fmt.Sprintf("%.2f %%", 100*t.ScaleError)},
		{"Height, by that", v.off(v.o.Section.Height * t.ScaleError)},
	}
	return sheet.Table{Columns: []sheet.Column{{Head: "How true it is"}, {}}, Rows: rows, Size: noteSize}.Set(geom.Point{}).Drawing
}

// off returns what a length may be off by, in the units of the sheet; what is less than their last figure counts as that.
func (v overlayView) off(mm float64) string {
	if v.st.inches() {
		return fmt.Sprintf("%.3f in", max(0.001, mm/measure.MMPerInch))
	}
	return fmt.Sprintf("%.2f mm", max(0.01, mm))
}

// offSize returns what a size may be off by; one that may be off by more than itself is not known.
func (v overlayView) offSize(mm, off float64) string {
	if off > math.Abs(mm) {
		return "not known"
	}
	return v.off(off)
}

// sizes returns the table of sizes; nil when there are none.
func (v overlayView) sizes() sheet.Drawing {
	t := v.sizeTable()
	if len(t.Rows) == 0 {
		return nil
	}
	return t.Set(geom.Point{}).Drawing
}

// sizeTable returns the sizes with what each may be off by, the top member first.
func (v overlayView) sizeTable() sheet.Table {
	t := sheet.Table{Size: noteSize, Columns: []sheet.Column{{Head: "Member"}, {Head: "Size"}, {Head: "is", Align: sheet.AlignRight}, {Head: "may be off by", Align: sheet.AlignRight}}}
	all := v.o.Truth.Sizes
	for i := len(v.o.Profile.Elements); i >= 0; i-- {
		name := "The whole"
		if i > 0 {
			name = fmt.Sprintf("(%d) %s", i, v.o.Profile.Elements[i-1].Kind.Words())
		}
		for _, s := range all {
			if s.Element != i {
				continue
			}
			t.Rows = append(t.Rows, []string{name, s.Words(), v.st.figure(s.MM), v.offSize(s.MM, s.Error)})
			name = ""
		}
	}
	return t
}
