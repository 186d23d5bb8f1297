package library_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/profile/measure"
)

// TestRules divides a height of 100. Chippendale, Director (1754), pp. 1-3: pedestal a fifth; entablature a fifth of the rest, a sixth in the Ionic; column
// of 7, 8, 9, 10 diameters; base half a diameter, standing out by a third of its height (pl. VI). The numbers are worked from that. W. R. Ware, The
// American Vignola (1920), p. 9: Tuscan column 7 D, entablature 7/4 D, base D/2, cornice 3/4 D; p. 14: Doric entablature D/2 + 3/4 D + 3/4 D. Vignola,
// Canon (1572): 20 modules, of which base 1, trunk 14, capital 1, architrave 1, frieze 1 1/2, cornice 1 1/2.
func TestRules(t *testing.T) {
	cases := []struct {
		rule                                    string
		pedestal, entablature, column, diameter float64
		base, cornice, out                      float64
	}{
		{"chippendale-tuscan", 20, 16, 64, 9.142857, 4.571429, 6.857143, 1.523810},
		{"chippendale-doric", 20, 16, 64, 8, 4, 6, 4.0 / 3},
		{"chippendale-ionic", 20, 13.333333, 66.666667, 7.407407, 3.703704, 5.333333, 1.234568},
		{"chippendale-corinthian", 20, 16, 64, 6.4, 3.2, 6.4, 1.066667},
		{"ware-tuscan", 0, 20, 80, 11.428571, 5.714286, 8.571429, 0}, // D = 100 / 8.75
		{"vignola-doric", 0, 20, 80, 10, 5, 7.5, 0},                  // a module is 5
	}
	require.Len(t, library.Rules(), len(cases))
	for _, c := range cases {
		r, err := library.RuleNamed(c.rule)
		require.NoError(t, err)
		d := r.Divide(100)
		got := []float64{d.Pedestal, d.Entablature, d.Column, d.Diameter, d.Base, d.Cornice, d.BaseProjection}
		require.InDeltaSlice(t, []float64{c.pedestal, c.entablature, c.column, c.diameter, c.base, c.cornice, c.out}, got, 1e-6, c.rule)
		require.InDelta(t, 100, d.Pedestal+d.Column+d.Entablature, 1e-9, c.rule)
		require.InDelta(t, 2*d.Base, r.Divide(200).Base, 1e-9)
		require.NotEmpty(t, r.Source)
		require.NotEmpty(t, r.Ours)
	}
	// Ware's cornice is 3/4 of a diameter, in the Tuscan and the Doric.
	for _, name := range []string{"ware-tuscan", "vignola-doric"} {
		r, _ := library.RuleNamed(name)
		d := r.Divide(100)
		require.InDelta(t, 0.75, d.Cornice/d.Diameter, 1e-9, name)
	}
	_, err := library.RuleNamed("chippendale-doric-order")
	require.Error(t, err)
}

// TestProposedCasesFit: what each rule proposes loads and is fitted, and its moldings are as high as the rule has them and end where
// the stages do.
func TestProposedCasesFit(t *testing.T) {
	for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
		for _, r := range library.Rules() {
			const height = 1600.0
			text, profiles, err := library.Propose(library.Proposal{Name: "tall", Rule: r, Height: height, Units: units})
			require.NoError(t, err)
			require.Contains(t, string(text), "A starting point")
			require.Contains(t, strings.ReplaceAll(string(text), "\n# ", " "), r.Source)
			dir := t.TempDir()
			require.NoError(t, os.WriteFile(filepath.Join(dir, "tall.yaml"), text, 0o666))
			for _, p := range profiles {
				require.NoError(t, os.WriteFile(filepath.Join(dir, p.Name+".yaml"), p.Text, 0o666))
			}
			l := library.Open(dir, "")
			c, src, o, err := l.CaseSource("tall")
			require.NoError(t, err, r.Name)
			require.Equal(t, library.Project, o.Where)
			_, err = miter.Fit(c, l.SectionOf, l.Wood)
			require.NoError(t, src.Mistakes(err), r.Name)
			d := r.Divide(height)
			want := map[string]float64{"tall-base": d.Base, "tall-waist": d.Waist, "tall-cornice": d.Cornice}
			top := 0.0
			for _, s := range c.Stages {
				top += s.Height
			}
			require.InDelta(t, height, top, 1)
			for _, m := range c.Moldings {
				s, origin, err := l.Section(m.Profile)
				require.NoError(t, err)
				require.Equal(t, library.Project, origin.Where)
				require.InDelta(t, want[m.Profile], s.Height, 0.81, "%s %s, to 1/16 in", r.Name, m.Profile)
			}
			last := c.Moldings[len(c.Moldings)-1]
			s, _, err := l.Section(last.Profile)
			require.NoError(t, err)
			require.InDelta(t, top, last.At+s.Height, 1e-6)
			require.Equal(t, d.Pedestal > 0, len(c.Stages) == 2)
		}
	}
}

func TestProposalsRefused(t *testing.T) {
	r := library.Rules()[0]
	for _, p := range []library.Proposal{{Height: 100}, {Height: 30000}, {Height: 1000, Width: 5}, {Height: 1000, Depth: 1e9}} {
		p.Name, p.Rule = "x", r
		_, _, err := library.Propose(p)
		require.Error(t, err, "%+v", p)
	}
}
