package miter_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
)

// ogee returns an unsprung section: a fillet, a slope, a hollow and a fillet, 40 mm high and out.
func ogee() profile.Section {
	cove, _ := geom.ArcRadius(geom.Pt(24, 14), geom.Pt(36, 32), 30, false)
	o := append(geom.Polyline(geom.Pt(0, 0), geom.Pt(12, 0), geom.Pt(12, 6), geom.Pt(24, 14)), cove)
	o = append(o, geom.Polyline(geom.Pt(36, 32), geom.Pt(40, 32), geom.Pt(40, 40), geom.Pt(0, 40), geom.Pt(0, 0))...)
	return profile.Section{Name: "ogee", Outline: o, Height: 40, Projection: 40, Ground: 12}
}

// sprung returns a section whose back leans by spring from the wall.
func sprung(spring geom.Angle) profile.Section {
	const wall, h = 6.0, 50.0
	back := (h - wall) * spring.Tan()
	out := back + 8
	o := geom.Polygon(geom.Pt(0, 0), geom.Pt(6, 0), geom.Pt(8, 10), geom.Pt(math.Max(20, out-20), 24), geom.Pt(out, 44), geom.Pt(out, h), geom.Pt(back, h), geom.Pt(0, wall))
	return profile.Section{Name: "sprung", Outline: o, Height: h, Projection: math.Max(20, out), Ground: 6,
		Spring: &profile.SizedSpring{Angle: spring, Wall: wall, Top: 8}}
}

// with returns a look-up of the sections by their names.
func with(sections ...profile.Section) miter.Lookup {
	return func(name string) (profile.Section, error) {
		for _, s := range sections {
			if s.Name == name {
				return s, nil
			}
		}
		return profile.Section{}, fmt.Errorf("no profile %q", name)
	}
}

// box returns a case 1000 mm wide and 450 deep with one molding.
func box(m miter.Molding) miter.Case {
	return onPlan(miter.Plan{Width: 1000, Depth: 450}, m)
}

func onPlan(p miter.Plan, m miter.Molding) miter.Case {
	if m.Name == "" {
		m.Name = "cornice"
	}
	if m.Profile == "" {
		m.Profile = "ogee"
	}
	return miter.Case{Name: "test", Stages: []miter.Stage{{Name: "case", Plan: p, Height: 900}}, Moldings: []miter.Molding{m},
		Shop: miter.Shop{Rough: 25}}
}

// fit fits a case that must be right.
func fit(t *testing.T, c miter.Case, sections ...profile.Section) miter.Result {
	t.Helper()
	if sections == nil {
		sections = []profile.Section{ogee()}
	}
	r, err := miter.Fit(c, with(sections...), nil)
	require.NoError(t, err)
	return r
}

// faults returns the faults of a case that must be wrong, a line each.
func faults(t *testing.T, c miter.Case, sections ...profile.Section) string {
	t.Helper()
	if sections == nil {
		sections = []profile.Section{ogee()}
	}
	_, err := miter.Fit(c, with(sections...), nil)
	var errs miter.Errors
	require.ErrorAs(t, err, &errs)
	return err.Error()
}

// pieceOf returns the piece of a run.
func pieceOf(t *testing.T, m miter.MoldingResult, run string) miter.Piece {
	t.Helper()
	for _, p := range m.Pieces {
		for _, r := range p.Runs {
			if r == run {
				return p
			}
		}
	}
	require.Fail(t, "no such run", run)
	return miter.Piece{}
}

// table reads a published table: a line that names the source, a line of heads, then numbers.
func table(t *testing.T, name string) [][]float64 {
	t.Helper()
	data, err := os.ReadFile("../testdata/tables/" + name)
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(data), "# "))
	r := csv.NewReader(strings.NewReader(string(data)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	var out [][]float64
	for _, row := range rows[1:] {
		var nums []float64
		for _, cell := range row {
			v, err := strconv.ParseFloat(cell, 64)
			require.NoError(t, err)
			nums = append(nums, v)
		}
		out = append(out, nums)
	}
	return out
}
