package template_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
)

// A gauge is cut out and its caption is lost: it bears its title and its end, or, on a small plate, whether it is of the miter or of the section and its end;
// never the name of the profile's file.
func TestGaugesBearWhatTheyAre(t *testing.T) {
	_, r := example(t)
	st := style(t, "A4", measure.Millimeters)
	said := textsOf(template.GaugeSheets(template.CaseGauges(r, st), true, st))
	for _, want := range []string{"Base of the low press, left end", "Base of the low press: miter, right end", "section", "either end"} {
		require.Contains(t, said, want)
	}
	for _, s := range said {
		for _, m := range r.Moldings {
			require.NotContains(t, s, m.Profile)
		}
	}
}

// Miter faces bear that they are, so that they are told from the templates of the same section. Behind the back of a frame's rail stands the wall.
func TestTemplatesBearWhatTheyAre(t *testing.T) {
	_, r := example(t)
	st := style(t, "A4", measure.Millimeters)
	require.Contains(t, textsOf(template.MiterFaces(r, st)), "Base of the low press: miter")
	templates := textsOf(template.CaseTemplates(r, st))
	require.NotContains(t, templates, "Base of the low press: miter")
	require.Contains(t, templates, "wall side")
}
