package miter_test

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A molding is at its stage or refused, with the range that would do.
func TestMoldingIsAtItsStage(t *testing.T) {
	for _, at := range []float64{0, 450, 860, 880, 900} { // on the floor, on the face, over the top, standing on top
		fit(t, box(miter.Molding{At: at}))
		fit(t, box(miter.Molding{At: at, Inset: 20}))
	}
	for _, at := range []float64{3000, 900.1, -0.1, -60} {
		c := box(miter.Molding{At: at})
		c.Units = measure.Millimeters
		got := faults(t, c)
		require.Contains(t, got, "moldings[0].at: ")
		require.Contains(t, got, "a foot from 0.0 mm to 900.0 mm over the floor would do")
	}
	// On an upper stage a molding may hang over the joint, but not lie wholly under it.
	c := twoStages(miter.Molding{Name: "joint", On: "upper", Profile: "ogee", At: 870})
	c.Moldings = c.Moldings[1:]
	fit(t, c, ogee())
	c.Moldings[0].At = 850
	require.Contains(t, faults(t, c, ogee()), "a foot from 860.0 mm to 1500.0 mm over the floor would do")
}

// seating returns a section 30 mm high with a rabbet at its top, 12 mm wide and 9 deep.
func seating() profile.Section {
	o := geom.Polygon(geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(60, 30), geom.Pt(12, 30), geom.Pt(12, 21), geom.Pt(0, 21))
	s := profile.Section{Name: "waist", Outline: o, Height: 30, Projection: 60, Ground: 50, Rabbet: &profile.SizedRabbet{At: profile.AtTop, Width: 12, Depth: 9}}
	s.Face = geom.Polyline(geom.Pt(50, 0), geom.Pt(60, 30))
	return s
}

// twoStages returns a case whose upper stage stands in the rabbet of a waist on top of the lower one, its face 30 mm behind the lower's.
func twoStages(more ...miter.Molding) miter.Case {
	return miter.Case{Name: "two", Units: measure.Millimeters, Stages: []miter.Stage{
		{Name: "lower", Plan: miter.Plan{Width: 1000, Depth: 450}, Height: 900},
		{Name: "upper", Plan: miter.Plan{Width: 940, Depth: 420}, Height: 600},
	}, Moldings: append([]miter.Molding{{Name: "waist", On: "lower", Profile: "waist", At: 900, Inset: 41, Seats: "upper", Clearance: 1}}, more...)}
}

// The upper stage stands on the rabbet's floor, and not where that is under the lower stage's top or has nothing under it.
func TestSeatStandsOnWhatIsBelow(t *testing.T) {
	r := fit(t, twoStages(), seating(), ogee())
	require.InDelta(t, 921, r.Moldings[0].Seat.Foot, 1e-9)
	require.InDelta(t, 21, r.Moldings[0].Seat.Lift, 1e-9)
	require.InDelta(t, 1521, r.Stages[1].Top, 1e-9)

	cornice := miter.Molding{Name: "cornice", On: "upper", Profile: "ogee", At: 1480}
	c := twoStages(cornice)
	c.Moldings[0].At = 600
	got := faults(t, c, seating(), ogee())
	require.Contains(t, got, "moldings[0].at: stage upper would stand in the rabbet at 621.0 mm, under the top of stage lower at 900.0 mm; a foot from 879.0 mm to 900.0 mm would do")
	require.NotContains(t, got, "moldings[1]", "the cornice is not at fault")
	c.Moldings[0].At = 3000
	got = faults(t, c, seating(), ogee())
	require.Contains(t, got, "moldings[0].at: its foot at 3000.0 mm is over the top of stage lower")
	require.NotContains(t, got, "moldings[1]")
	c.Moldings[0].At = 879 // flush with the lower stage's top
	require.InDelta(t, 0, fit(t, c, seating(), ogee()).Moldings[0].Seat.Lift, 1e-9)

	c = twoStages()
	c.Moldings[0].Seats = "lower"
	c.Moldings[0].On = "upper"
	require.Contains(t, faults(t, c, seating()), "lower stands on the floor")
}

// A stage that does not stand in its rabbet is refused with a size or an inset that would do: each that is offered does.
func TestSeatSaysWhatWouldFit(t *testing.T) {
	for _, tt := range []struct{ width, depth float64 }{{938, 419}, {944, 422}, {930, 420}, {940, 425}, {941, 417}} {
		c := twoStages()
		c.Stages[1].Plan.Width, c.Stages[1].Plan.Depth = tt.width, tt.depth
		got := faults(t, c, seating())
		num := func(key string) (float64, bool) {
			m := regexp.MustCompile(key + ` ([0-9.]+) mm`).FindStringSubmatch(got[regexp.MustCompile("what would fit").FindStringIndex(got)[0]:])
			if m == nil {
				return 0, false
			}
			var v float64
			_, err := fmt.Sscan(m[1], &v)
			require.NoError(t, err)
			return v, true
		}
		if v, ok := num("inset"); ok {
			fixed := c
			fixed.Moldings = append([]miter.Molding(nil), c.Moldings...)
			fixed.Moldings[0].Inset = v
			fit(t, fixed, seating())
		}
		fixed := c
		fixed.Stages = append([]miter.Stage(nil), c.Stages...)
		if v, ok := num("width"); ok {
			fixed.Stages[1].Plan.Width = v
		}
		if v, ok := num("depth"); ok {
			fixed.Stages[1].Plan.Depth = v
		}
		fit(t, fixed, seating())
	}
	c := twoStages()
	c.Stages[1].Offset = &geom.Point{X: 33, Y: 28}
	require.Contains(t, faults(t, c, seating()), "for upper depth 418.0 mm, offset [30.0 mm, 30.0 mm]")
}

// A corner that no measuring explains is refused by itself, with what would do, and nothing else is said of what follows from it.
func TestNoSuchCorner(t *testing.T) {
	for _, deg := range []float64{189, 20, 170, 350} {
		c := box(miter.Molding{})
		c.Corners = map[string]geom.Angle{"front-left": geom.Angle(deg) * geom.Degree}
		got := faults(t, c)
		require.Contains(t, got, fmt.Sprintf("corners.front-left: a corner of %g degrees cannot be that of a plan drawn with 90", deg))
		require.Contains(t, got, "from 30 to 150 would do")
		require.NotContains(t, got, "project")
		require.NotContains(t, got, "cross")
	}
	c := box(miter.Molding{})
	c.Corners = map[string]geom.Angle{"front-left": 95 * geom.Degree}
	fit(t, c)
}
