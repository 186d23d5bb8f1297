package scraper

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What is left of A, B and C without A is A and B, and a place that B and A scraped is A's.
func TestBladesLeftAreMarkedAnew(t *testing.T) {
	p := Plan{
		Blades: []Blade{{Mark: "A"}, {Mark: "B", Lean: 1, Rubs: []Place{{Element: 3, Given: []string{"C"}}}}, {Mark: "C", Lean: 2}},
		Missed: []Place{{Element: 1, Given: []string{"A", "B"}}, {Element: 2, Given: []string{"A"}}},
	}
	q := p.Without(func(b Blade) bool { return b.Mark == "A" })
	require.Equal(t, []Blade{{Mark: "A", Lean: 1, Rubs: []Place{{Element: 3, Given: []string{"B"}}}}, {Mark: "B", Lean: 2}}, q.Blades)
	require.Equal(t, []Place{{Element: 1, Given: []string{"A"}}, {Element: 2}}, q.Missed)
	require.Equal(t, "C", p.Blades[2].Mark, "the plan itself is as it was")
	require.Equal(t, []string{"C"}, p.Blades[1].Rubs[0].Given)
}
