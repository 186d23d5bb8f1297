package library_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
	"listel/template/scraper"
	"listel/template/sheet"
)

// TestEveryProfileGoesToTheBench draws the template of every embedded profile and finds its blades; of those with few members it plans the
// set-ups with the generic tools as well. The cutter's own tests plan all of them.
func TestEveryProfileGoesToTheBench(t *testing.T) {
	t.Parallel()
	l := library.Open("", "")
	set, _, err := l.Tools(library.InchTools)
	require.NoError(t, err)
	paper, err := sheet.PaperNamed("Letter")
	require.NoError(t, err)
	st := template.Style{Lengths: measure.Format{Units: measure.Inches}, Paper: paper}
	for _, e := range l.List(library.KindProfile) {
		t.Run(e.Name, func(t *testing.T) {
			s, _, err := l.Section(e.Name)
			require.NoError(t, err)
			require.NotEmpty(t, template.FullSize(s, st))
			blades, err := scraper.Make(s, scraper.Options{})
			require.NoError(t, err)
			require.NotEmpty(t, blades.Blades)
			if len(s.Members) > 3 {
				return
			}
			plan, err := cutter.Plan(t.Context(), cutter.FromSection(s), set.Tools, cutter.Options{Effort: cutter.Quick})
			require.NoError(t, err)
			require.NotEmpty(t, plan.Setups)
		})
	}
}
