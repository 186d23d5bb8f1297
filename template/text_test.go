package template_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// marksOf takes a drawing apart into its texts and its strokes.
func marksOf(d sheet.Drawing) (texts []sheet.Text, strokes []sheet.Stroke) {
	for _, m := range d {
		switch m := m.(type) {
		case sheet.Text:
			if m.S != "" {
				texts = append(texts, m)
			}
		case sheet.Stroke:
			strokes = append(strokes, m)
		case sheet.Group:
			t, s := marksOf(m.Drawing)
			texts, strokes = append(texts, t...), append(strokes, s...)
		case sheet.Drawing:
			t, s := marksOf(m)
			texts, strokes = append(texts, t...), append(strokes, s...)
		}
	}
	return texts, strokes
}

// upright returns the turn that sets a slanted text level, and the box that it then takes; what is level or plumb stays.
func upright(t sheet.Text) (geom.Affine, geom.Rect) {
	turns := t.Angle.Degrees() / 90
	if turns == math.Trunc(turns) {
		return geom.Identity(), t.Bounds().Expand(-0.25)
	}
	to := geom.Translation(t.At.Mul(-1)).Then(geom.Rotation(-t.Angle)).Then(geom.Translation(t.At))
	t.Angle = 0
	return to, t.Bounds().Expand(-0.25)
}

// meets reports whether the box of b reaches into that of a, with a set level.
func meets(a, b sheet.Text) bool {
	to, own := upright(a)
	back, r := upright(b)
	return own.Overlaps(geom.Polygon(r.Min, geom.Pt(r.Max.X, r.Min.Y), r.Max, geom.Pt(r.Min.X, r.Max.Y)).Transform(back.Inverse().Then(to)).Bounds())
}

// clashes returns what of a page is in the way of something else: a text over a text, a line through a text, a text off the paper
// or too small.
func clashes(p sheet.Page) []string {
	texts, strokes := marksOf(p.Drawing())
	paper := geom.Rect{Max: geom.Pt(p.Paper.Width, p.Paper.Height)}.Expand(-5)
	var out []string
	for i, a := range texts {
		box := a.Bounds()
		if !paper.Contains(box.Min) || !paper.Contains(box.Max) {
			out = append(out, fmt.Sprintf("%q is off the paper", a.S))
		}
		if a.Size != 0 && a.Size < 7 {
			out = append(out, fmt.Sprintf("%q is set in %g points", a.S, a.Size))
		}
		inner := box.Expand(-0.25)
		to, own := upright(a)
		for _, b := range texts[i+1:] {
			if inner.Overlaps(b.Bounds().Expand(-0.25)) && meets(a, b) && meets(b, a) {
				out = append(out, fmt.Sprintf("%q and %q overlap", a.S, b.S))
			}
		}
		if a.Halo {
			continue
		}
		for _, s := range strokes {
			if s.Bounds().Overlaps(inner) && len(sheet.Drawing{sheet.Stroke{Path: s.Path.Transform(to), Pen: sheet.Pen{Width: 1e-6}}}.Clip(own)) > 0 {
				out = append(out, fmt.Sprintf("a line runs through %q at %.1f", a.S, box.Center()))
			}
		}
	}
	return out
}

// Nothing clashes on the section sheet or the templates of any library profile, on any paper, in either unit.
func TestNothingClashes(t *testing.T) {
	t.Parallel()
	for _, paper := range []string{"A4", "A4 landscape", "Letter", "Letter landscape", "ANSI B"} {
		for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
			st := style(t, paper, units)
			for _, name := range libraryNames {
				p, s := libraryProfile(t, name, 1)
				pages := append(template.SectionSheet(s, p, st), template.FullSize(s, st)...)
				for i, page := range (sheet.Document{Pages: pages}).Numbered().Pages {
					require.Empty(t, clashes(page), "%s on %s in %s, page %d", name, paper, units, i+1)
				}
			}
		}
	}
}

// Larger and smaller ones keep clear as well, however many sheets they take.
func TestNothingClashesAtAnySize(t *testing.T) {
	t.Parallel()
	for _, k := range []float64{0.3, 0.6, 1.5, 2.5, 5} {
		st := style(t, "A4", measure.Inches)
		for _, name := range []string{"press-base", "press-cornice", "press-waist", "corinthian-cornice", "attic-base"} {
			if k < 0.5 && name == "corinthian-cornice" {
				continue // thinner than a millimeter between its dentils
			}
			p, s := libraryProfile(t, name, k)
			for i, page := range (sheet.Document{Pages: template.SectionSheet(s, p, st)}).Numbered().Pages {
				require.Empty(t, clashes(page), "%s at %g, page %d", name, k, i+1)
			}
		}
	}
}
