package miter_test

import (
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A corner that is off leaves the seated stage no exact place: its faces may then be off by half the clearance, which is told; beyond that the sizes that
// are offered fit.
func TestSeatWithMeasuredCorners(t *testing.T) {
	off := func(deg, clearance float64) miter.Case {
		c := twoStages()
		c.Corners = map[string]geom.Angle{"front-right": geom.Angle(deg) * geom.Degree}
		c.Moldings[0].Clearance = clearance
		c.Stages[1].Plan = miter.Plan{Width: 1000 - 2*(41-12+clearance), Depth: 450 - (41 - 12 + clearance)}
		return c
	}
	r := fit(t, off(89.9, 1), seating())
	// Moved in by 30 mm square to the front and to the side, the side face turns about a corner that lies 30 mm farther along it: 30 sin 0.1 degrees.
	want := 30 * math.Sin(0.1*math.Pi/180)
	s := r.Moldings[0].Seat
	require.InDelta(t, 1-want, s.Least, 1e-3)
	require.InDelta(t, 1, s.Most, 1e-3)
	require.Len(t, r.Moldings[0].Notes, 1)
	require.Contains(t, r.Moldings[0].Notes[0], "in the rabbet the face right of upper stands 0.05 mm too far out, which leaves it a clearance of 0.95 mm")
	fit(t, off(89.1, 1), seating())

	c := off(87, 1)
	got := faults(t, c, seating())
	require.Contains(t, got, "it is 1.6 mm too far out; what would fit: for upper ")
	c = mended(t, c, got, `width ([0-9.]+) mm`, func(s *miter.Stage, mm float64) { s.Plan.Width = mm })
	m := regexp.MustCompile(`offset \[([0-9.]+) mm, ([0-9.]+) mm\]`).FindStringSubmatch(got)
	require.NotNil(t, m, got)
	c.Stages[1].Offset = &geom.Point{X: number(t, m[1]), Y: number(t, m[2])}
	fit(t, c, seating())
}

// TestSeatedCantedPlan: of a canted stage the setback is offered too. Its faces lie 30 mm in: the setback is less by 30 (2 - sqrt 2).
func TestSeatedCantedPlan(t *testing.T) {
	c := twoStages()
	c.Stages[0].Plan.Canted = 80
	c.Stages[1].Plan = miter.Plan{Width: 950, Depth: 421, Canted: 80}
	got := faults(t, c, seating())
	require.Contains(t, got, "what would fit: for upper width 940.0 mm, depth 420.0 mm, setback 62.4 mm")
	require.InDelta(t, 62.4, 80-30*(2-math.Sqrt2), 0.05)
	c.Stages[1].Plan = miter.Plan{Width: 940, Depth: 420, Canted: 62.4}
	fit(t, c, seating())

	c.Corners = map[string]geom.Angle{"front-right/right": 134.5 * geom.Degree, "front/front-right": 135.5 * geom.Degree}
	fit(t, c, seating())
	c.Units = measure.Inches
	c.Stages[1].Plan.Canted = 80
	require.Regexp(t, `for upper .*setback 2 29/64`, faults(t, c, seating()))
}

// mended sets a size of the upper stage to what a fault offers under the pattern; the case is as it was without one.
func mended(t *testing.T, c miter.Case, fault, pattern string, set func(*miter.Stage, float64)) miter.Case {
	t.Helper()
	c.Stages = append([]miter.Stage(nil), c.Stages...)
	for _, line := range regexp.MustCompile(`what would fit: (.*)`).FindAllStringSubmatch(fault, -1) {
		if m := regexp.MustCompile(pattern).FindStringSubmatch(line[1]); m != nil {
			set(&c.Stages[1], number(t, m[1]))
		}
	}
	return c
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	mm, err := measure.ParseLength(s, measure.Millimeters)
	require.NoError(t, err)
	return mm
}
