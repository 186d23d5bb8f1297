package template

import (
	"fmt"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/sheet"
)

// CheckBar is the length in mm of the sides of the square that PrinterCheck draws to be measured.
const CheckBar = 100.0

// PrinterCheck returns the sheet that shows a printer's error: a square to measure, its sides CheckBar long, with its diagonals, and how to
// record what it measures. On a style with a correction the square is printed corrected, to prove it.
func PrinterCheck(st Style) []sheet.Page {
	purpose := "Print at 100 %, without fitting to the page; measure the square; record what it measures"
	if st.Printer != (sheet.Correction{}) {
		purpose = "Corrected: the square must now measure true; if it does not, record anew from a sheet that is not corrected"
	}
	frame := sheet.Frame{Title: "Printer check", Purpose: purpose, FullSize: true, Source: st.Source, Printer: st.Printer}
	d := checkSquare(st)
	b := d.Bounds()
	words := checkWords(st, geom.Pt(b.Min.X, b.Min.Y-7), max(b.Width(), 110))
	if area := frame.Area(st.Paper); st.Paper.Width > st.Paper.Height && b.Width()+100 <= area.Width() {
		words = checkWords(st, geom.Pt(b.Max.X+14, b.Max.Y-3), min(110, area.Width()-b.Width()-14))
	}
	all := d.Add(words...)
	if newPart(all).fits(frame.Area(st.Paper)) {
		return st.tiles(all, frame)
	}
	return append(st.tiles(d, frame), st.tiles(words, frame)...)
}

// checkSquare returns the square with its sides named by the way that they lie on the paper.
func checkSquare(st Style) sheet.Drawing {
	const side, over = CheckBar, 6.0
	var d sheet.Drawing
	for _, at := range [2]float64{0, side} {
		d = d.Add(
			sheet.Line(geom.Pt(-over, at), geom.Pt(side+over, at), sheet.PenHair),
			sheet.Line(geom.Pt(at, -over), geom.Pt(at, side+over), sheet.PenHair),
		)
	}
	d = d.Add(
		sheet.Line(geom.Point{}, geom.Pt(side, side), sheet.PenCenter),
		sheet.Line(geom.Pt(0, side), geom.Pt(side, 0), sheet.PenCenter),
	)
	level, upright := "ACROSS (short side of the sheet)", "UP (long side of the sheet)"
	if st.Paper.Width > st.Paper.Height {
		level, upright = upright, level
	}
	for _, t := range []sheet.Text{
		{At: geom.Pt(side/2, side-5), S: level, Anchor: sheet.Top, Weight: sheet.Bold},
		{At: geom.Pt(side/2, 5), S: level, Anchor: sheet.Bottom, Weight: sheet.Bold},
		{At: geom.Pt(5, side/2), S: upright, Anchor: sheet.Top, Angle: 90 * geom.Degree, Weight: sheet.Bold},
		{At: geom.Pt(side-5, side/2), S: upright, Anchor: sheet.Bottom, Angle: 90 * geom.Degree, Weight: sheet.Bold},
		{At: geom.Pt(side/2, side/2), S: bothUnits(side * 1.4142135623730951), Anchor: sheet.Middle, Halo: true},
		{At: geom.Pt(side/2, side/2+33), S: "square, each side", Anchor: sheet.Middle},
		{At: geom.Pt(side/2, side/2+26), S: bothUnits(side), Anchor: sheet.Middle, Weight: sheet.Bold},
	} {
		t.Size = figureSize
		d = d.Add(t)
	}
	return d
}

// bothUnits returns a length in mm and in decimal inches, as a rule of either kind reads it.
func bothUnits(mm float64) string {
	return fmt.Sprintf("%.1f mm = %.3f in", mm, mm/measure.MMPerInch)
}

// checkWords returns how to measure and record, from the top left corner p.
func checkWords(st Style, p geom.Point, width float64) sheet.Drawing {
	steps := []string{
		"1. Measure between the middles of the fine lines with a steel rule, to a fifth of a millimeter or a 1/128 in, and write it here:",
		"ACROSS  ____________     UP  ____________",
		"2. The two diagonals must be equal. If they are not, the paper was fed askew: print again.",
		"3. Record both under a name for this printer and this paper:",
		"listel printer record NAME --across 99.4mm --up 99.8mm",
		"4. Draw sheets with --printer NAME, or choose the name under Sheets, Printer on the page: they come out true, and say that they are corrected. Paper moves with the weather: check again when it counts.",
	}
	var d sheet.Drawing
	for i, s := range steps {
		g := sheet.Paragraph{Text: s, Width: width, Size: figureSize}
		if i == 1 || i == 4 {
			g.Weight = sheet.Bold
			p.Y -= 2
		}
		words, h := g.Set(p)
		d = d.Add(words...)
		p.Y -= h + 3.5
	}
	return d
}
