package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
)

// A section thinner than 1/2 in is molded on the edge of a board and ripped off, on its sheets and in words; common practice, no source.
func TestThinSectionIsMoldedOnABoard(t *testing.T) {
	st := style(t, "Letter", measure.Inches)
	pages := template.SetupSheets(planOf(t, "edge-bead"), st)
	words := pageWords(pages)
	require.Contains(t, words, "on the edge of a board at least 4 in wide, then rip it off")
	require.Contains(t, words, "Blade to edge 7⁄32″", "the last set-up rips it off, as the words say")
	require.Contains(t, words, "The molding comes free")
	require.Contains(t, pages[len(pages)-1].Frame.Purpose, "NOT AS A LOOSE STICK")
	pages = template.SetupSheets(planOf(t, "edge-bead", cutter.Plane), st)
	require.Contains(t, pageWords(pages), "on the edge of a board at least 4 in wide, then rip it off")
	require.Contains(t, pages[len(pages)-1].Frame.Purpose, "NOT AS A LOOSE STICK")
	pages = template.SetupSheets(keptPlan(t), st)
	require.NotContains(t, strings.ToLower(pageWords(pages)), "loose stick")
	require.NotContains(t, pages[len(pages)-1].Frame.Purpose, "LOOSE STICK")
	mm := measure.Format{}
	require.Empty(t, template.ThinSection(40, 12.7, mm))
	require.Empty(t, template.ThinSection(12.7, 40, mm))
	require.Contains(t, template.ThinSection(12.6, 40, mm)[0], "100 mm wide")
	require.Contains(t, template.ThinSection(40, 9, mm)[0], "LOOSE STICK", "either way")
}

// What runs out at foot and top goes on a carrier board, or by hand on a sticking board: nothing is said of a board behind it.
func TestRunningOutIsToldOfACarrier(t *testing.T) {
	st := style(t, "Letter", measure.Inches)
	mm := profile.MM
	s, err := profile.Profile{Name: "chamfered-strip", Ground: mm(3), Elements: []profile.Entry{
		{Kind: profile.KindChamfer, Height: mm(6), Projection: mm(6)}, {Kind: profile.KindFillet, Height: mm(20)}, {Kind: profile.KindChamfer, Height: mm(6), Projection: mm(-6)},
	}}.Section(nil)
	require.NoError(t, err)
	pages := template.SetupSheets(planSection(t, s), st)
	words := pageWords(pages)
	require.Contains(t, words, "it runs out at foot and top")
	require.Contains(t, words, "to a carrier board at least 4 in wide")
	require.NotContains(t, words, "on the edge of a board at least")
	require.Contains(t, pages[len(pages)-1].Frame.Purpose, "NOT AS A LOOSE STICK, on a carrier board")
	words = pageWords(template.SetupSheets(planSection(t, s, cutter.Plane), st))
	require.Contains(t, words, "on a sticking board")
	require.NotContains(t, words, "on the edge of a board")
}

// A fence that a cutter only touches is not opened, and no opening is said to be 0.
func TestNoOpeningOfNothing(t *testing.T) {
	plan := keptPlan(t)
	st := style(t, "Letter", measure.Inches)
	at := -1
	for i, u := range plan.Plan.Setups {
		if u.Work == cutter.Router {
			at = i
		}
	}
	require.GreaterOrEqual(t, at, 0)
	r := 0.0
	for _, tool := range plan.Tools {
		if tool.Name == plan.Plan.Setups[at].Tool {
			r = tool.Across() / 2
		}
	}
	plan.Plan.Setups = plan.Plan.Setups[at : at+1]
	for _, tt := range []struct {
		axis float64
		open bool
	}{{r, false}, {r - 1e-6, false}, {r - 0.05, true}, {r - 3, true}} {
		plan.Plan.Setups[0].Axis = tt.axis
		words := pageWords(template.SetupSheets(plan, st)[:1])
		require.Equal(t, tt.open, strings.Contains(words, "opened just over"), "axis %g", tt.axis)
		require.NotContains(t, words, " 0″ wide")
		require.NotContains(t, words, " 0″ deep")
	}
}
