package template

import (
	"listel/profile/geom"
	"listel/template/sheet"
)

// middled returns a drawing as a strip for stack, in the middle of the width.
func middled(d sheet.Drawing, width float64) strip {
	b := d.Bounds()
	return newStrip(d.At(geom.Pt(max(0, (width-b.Width())/2)-b.Min.X, 0)))
}

// titled returns a strip with a heading over it at its left, the drawing in the middle of the width.
func titled(heading string, d sheet.Drawing, width float64) strip {
	out := middled(d, width)
	return newStrip(out.Add(sheet.Text{At: geom.Pt(0, out.top+4), S: heading, Size: headingSize, Weight: sheet.Bold}))
}

// beside returns the drawings in a row, gap mm apart, their tops level.
func beside(gap float64, all ...sheet.Drawing) sheet.Drawing {
	var out sheet.Drawing
	x := 0.0
	for _, d := range all {
		b := d.Bounds()
		if b.Empty() {
			continue
		}
		out = out.Add(d.At(geom.Pt(x-b.Min.X, -b.Max.Y))...)
		x += b.Width() + gap
	}
	return out
}

// bullets returns short lines, each behind a dot, the top left corner at the origin.
func bullets(lines []string, width, size float64) sheet.Drawing {
	var d sheet.Drawing
	y := 0.0
	for _, s := range lines {
		words, h := sheet.Paragraph{Text: s, Width: width - 5, Size: size}.Set(geom.Pt(5, y))
		d = d.Add(sheet.Dot(geom.Pt(1.2, y-sheet.CapHeight(size)/2), 0.7)).Add(words...)
		y -= h + 1.6
	}
	return d
}

// advice returns sentences under a heading, the top left corner at the origin.
func advice(heading string, lines []string, width float64) sheet.Drawing {
	d := sheet.Drawing{sheet.Text{S: heading, Size: headingSize, Weight: sheet.Bold, Anchor: sheet.TopLeft}}
	return d.Add(bullets(lines, width, figureSize).At(geom.Pt(0, -sheet.CapHeight(headingSize)-3))...)
}

// zigzag returns a break line from a to b, a little longer than that, with a zigzag in its middle.
func zigzag(a, b geom.Point) sheet.Mark {
	u := b.Sub(a).Unit()
	n, mid := u.Left(), a.Lerp(b, 0.5)
	const over, zig = 2.0, 1.6
	return sheet.Polyline(sheet.PenThin, a.Sub(u.Mul(over)), mid.Sub(u.Mul(zig)), mid.Sub(u.Mul(zig/2)).Add(n.Mul(2*zig)),
		mid.Add(u.Mul(zig/2)).Sub(n.Mul(2*zig)), mid.Add(u.Mul(zig)), b.Add(u.Mul(over)))
}

// pointed returns a mark in a balloon with a fine line from what it names; the line ends at the balloon's rim.
func pointed(tip, at geom.Point, mark string, size float64) sheet.Drawing {
	balloon := sheet.Balloon(at, mark, size)
	r := balloon.Bounds().Width() / 2
	if way := at.Sub(tip); way.Norm() > r {
		return sheet.Drawing{sheet.Line(tip, at.Sub(way.Unit().Mul(r)), sheet.PenHair)}.Add(balloon...)
	}
	return balloon
}
