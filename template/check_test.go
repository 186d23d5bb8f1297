package template_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// The square measures 100 mm each way; for a printer that prints 1 % short across, it is drawn 1 % long so that it comes out true.
func TestPrinterCheckMeasures(t *testing.T) {
	st := style(t, "A4", measure.Millimeters)
	require.InDelta(t, template.CheckBar, span(t, st, true), figure)
	require.InDelta(t, template.CheckBar, span(t, st, false), figure)
	st.Printer = sheet.Correction{Name: "shop", Across: 0.99}
	require.InDelta(t, template.CheckBar/0.99, span(t, st, true), figure)
	require.InDelta(t, template.CheckBar, span(t, st, false), figure)
}

// span returns how far apart the two long fine lines are that bound the square, across or up.
func span(t *testing.T, st template.Style, across bool) float64 {
	f := readBack(t, template.PrinterCheck(st))
	var at []float64
	for _, p := range f.Pages[0].Paths {
		if !isWidth(p, sheet.PenHair.Width) || len(p.Dashes) > 0 || len(p.Runs) != 1 {
			continue
		}
		pts := p.Points(1)
		b := boundsOf(pts)
		switch {
		case across && b.Width() < 1e-6 && b.Height() > template.CheckBar:
			at = append(at, pts[0].X)
		case !across && b.Height() < 1e-6 && b.Width() > template.CheckBar:
			at = append(at, pts[0].Y)
		}
	}
	require.Len(t, at, 2)
	return math.Abs(at[0] - at[1])
}

// On a lying sheet across and up change places, as the paper goes through the printer the same way; the words say so.
func TestPrinterCheckNamesTheSides(t *testing.T) {
	for _, paper := range []string{"A4", "A4 landscape"} {
		texts, _ := marksOf(template.PrinterCheck(style(t, paper, measure.Inches))[0].Content)
		level := slices.IndexFunc(texts, func(x sheet.Text) bool { return x.Angle == 0 && x.S == "ACROSS (short side of the sheet)" })
		require.Equal(t, paper == "A4", level >= 0, paper)
	}
	require.Contains(t, pageWords(template.PrinterCheck(style(t, "A4", measure.Inches))), "choose the name under Sheets, Printer on the page")
}

func TestPrinterCheckIsClear(t *testing.T) {
	for _, paper := range []string{"A4", "A4 landscape", "Letter", "ANSI B", "A5"} {
		for _, p := range template.PrinterCheck(style(t, paper, measure.Inches)) {
			require.Empty(t, clashes(p), paper)
		}
	}
}

// On paper too small for the square, larger paper is taken, and said so.
func TestPaperTooSmall(t *testing.T) {
	_, s := libraryProfile(t, "press-waist", 1)
	for _, p := range template.FullSize(s, style(t, "A10", measure.Millimeters)) {
		require.Greater(t, p.Paper.Width, 100.0)
		require.Contains(t, p.Frame.Purpose, "A10")
		require.False(t, p.Frame.Area(p.Paper).Empty())
		require.True(t, geom.Rect{Max: geom.Pt(p.Paper.Width, p.Paper.Height)}.Contains(p.Content.Bounds().Max))
	}
}
