package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
)

// The safe length of the shop rules the cautions of its sheets, in their units: 300 mm or 12 in where it has said nothing.
func TestSafeLengthOfTheShop(t *testing.T) {
	plan := keptPlan(t)
	in, mm := measure.Format{Units: measure.Inches}, measure.Format{}
	said := func(f measure.Format) string { return strings.Join(template.ViewSetups(plan, f).Caution, "\n") }
	require.Contains(t, said(mm), "nothing shorter than 300 mm without a fixture")
	require.Contains(t, said(in), "nothing shorter than 12 in without a fixture")
	plan.Safe = 450
	require.Contains(t, said(mm), "nothing shorter than 450 mm without a fixture")
	require.NotContains(t, said(mm), " in ")
}

// The wood of real plans, upright, sprung and by hand, comes away by what the planner says each set-up takes, so far as it reckons in columns.
func TestViewOfRealPlans(t *testing.T) {
	t.Parallel()
	plans := []template.SetupPlan{planOf(t, "press-cornice"), keptPlan(t), planOf(t, "press-waist", cutter.Plane)}
	for _, p := range plans {
		v := template.ViewSetups(p, measure.Format{Units: measure.Inches, Fraction: 64})
		area := func(n int) (sum float64) {
			for _, loop := range v.Wood[n] {
				sum += loop.Area()
			}
			return sum
		}
		for i, u := range p.Plan.Setups {
			require.InDelta(t, u.Removed, area(i)-area(i+1), 0.5+u.Removed*0.005, "%s, set-up %d", p.Section.Name, u.N)
		}
	}
}
