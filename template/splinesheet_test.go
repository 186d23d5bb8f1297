package template_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// The splines of the press: its waist asks for 1/8 in that enters 3/8 in, so each is 3/4 in across the joint; on a square corner's miter face
// a level groove is the root of 2 longer than in the section. One to each miter.
func TestSplineSheet(t *testing.T) {
	_, r := exampleNamed(t, "herb-press")
	st := style(t, "Letter", measure.Inches)
	pages := template.SplineSheets(r, st)
	require.Len(t, pages, 1)
	words := pageWords(pages)
	found := false
	for _, m := range r.Moldings {
		s := m.Spline
		if s == nil {
			continue
		}
		found = true
		require.Contains(t, words, m.Name)
		require.Contains(t, words, "¾″ across the joint")
		long := math.Hypot(math.Sqrt2*(s.To[0]-s.From[0]), s.To[1]-s.From[1])
		require.Contains(t, words, st.Lengths.Drawing(long))
	}
	require.True(t, found)
	for _, want := range []string{"The grain of a spline runs across the joint", "against a jig", "local rules"} {
		require.Contains(t, words, want)
	}
	for _, paper := range []string{"A4", "A5", "Letter landscape"} {
		for i, page := range (sheet.Document{Pages: template.SplineSheets(r, style(t, paper, measure.Millimeters))}).Numbered().Pages {
			require.Empty(t, clashes(page), "%s, page %d", paper, i+1)
		}
	}
	_, plain := exampleNamed(t, "seed-cabinet")
	for i := range plain.Moldings {
		plain.Moldings[i].Spline = nil
	}
	require.Empty(t, template.SplineSheets(plain, st))
}
