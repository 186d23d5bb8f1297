package miter_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
)

// TestMappedSectionsHold: what a run that reaches less far, or a slope, makes of the profile must be no thinner than a profile may be.
func TestMappedSectionsHold(t *testing.T) {
	require.Contains(t, faults(t, box(miter.Molding{Reach: map[string]float64{"left": 0.254}})), "moldings[0].reach.left: the narrowed section does not hold: ")
	o := geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 38.5), geom.Pt(40, 38.5), geom.Pt(40, 40), geom.Pt(0, 40))
	lip := profile.Section{Name: "lip", Outline: o, Height: 40, Projection: 40, Ground: 20} // a lip of 1.5 mm
	steep := func(pitch geom.Angle) miter.Case {
		return box(miter.Molding{Profile: "lip", Rake: &miter.RakeSpec{Pitch: pitch, Plumb: true}})
	}
	fit(t, steep(15*geom.Degree), lip)
	require.Contains(t, faults(t, steep(60*geom.Degree), lip), "moldings[0].rake: the raking section does not hold: the section is 0.5")
}

// TestHandsOffSquare: corners that are off leave a piece across the middle with no hand, and one beside it with that of its side.
func TestHandsOffSquare(t *testing.T) {
	c := box(miter.Molding{Profile: "waist", Frame: &miter.FrameSpec{RailWidth: 50, Tenon: 25}})
	c.Corners = map[string]geom.Angle{"front-left": 91 * geom.Degree, "front-right": 90.5 * geom.Degree}
	m := fit(t, c, waist()).Moldings[0]
	for run, hand := range map[string]miter.Hand{"left": miter.LeftHand, "front": miter.NoHand, "right": miter.RightHand, "back-rail": miter.NoHand} {
		require.Equal(t, hand, pieceOf(t, m, run).Hand, run)
	}
	c = onPlan(miter.Plan{Width: 1400, Depth: 450, Breakfront: &miter.Breakfront{Width: 600, Step: 120}}, miter.Molding{})
	c.Corners = map[string]geom.Angle{"left/front-left": 85 * geom.Degree} // its back end lies 39 mm farther out
	m = fit(t, c).Moldings[0]
	for _, run := range []string{"left", "front-left", "step-left"} {
		require.Equal(t, miter.LeftHand, pieceOf(t, m, run).Hand, run)
	}
	for _, run := range []string{"step-right", "front-right", "right"} {
		require.Equal(t, miter.RightHand, pieceOf(t, m, run).Hand, run)
	}
}

// TestWallEndAwayFromTheWall: a run that does not reach the wall ends square there, however its neighbor without molding stands.
func TestWallEndAwayFromTheWall(t *testing.T) {
	canted := miter.Plan{Width: 1000, Depth: 450, Canted: 90}
	p := pieceOf(t, fit(t, onPlan(canted, miter.Molding{Runs: []string{"front"}})).Moldings[0], "front")
	for _, e := range p.Ends {
		require.Equal(t, miter.CutSquare, e.Kind)
		require.Zero(t, e.Standing.Miter)
	}
	require.InDeltaSlice(t, []float64{820, 820, 820}, []float64{p.Back, p.Long, p.Short}, 1e-9)

	c := box(miter.Molding{Runs: []string{"left"}})
	c.Corners = map[string]geom.Angle{"front-left": 93 * geom.Degree}
	p = pieceOf(t, fit(t, c).Moldings[0], "left")
	require.InDelta(t, 3, p.Ends[0].Standing.Miter.Degrees(), 1e-9, "at the wall it is cut along it")
	require.Zero(t, p.Ends[1].Standing.Miter, "at the front it is square")
}

// TestCaseTooHigh: stages that are each within 20 m must come to no more.
func TestCaseTooHigh(t *testing.T) {
	c := box(miter.Molding{})
	c.Stages[0].Height = 12000
	c.Stages = append(c.Stages, miter.Stage{Name: "upper", Plan: miter.Plan{Width: 900, Depth: 400}, Height: 9000})
	require.Contains(t, faults(t, c), "stages[1].height: the case is 21 m high up to here; at most 20 m")
}

// TestSeasonalIsTheSum: what the side moves over the year is what it shrinks and what it swells, from the width that it was built at.
func TestSeasonalIsTheSum(t *testing.T) {
	c := box(miter.Molding{})
	c.Wood, c.Side.Cut = "oak", miter.FlatSawn
	c.Room = miter.Room{HumidityLow: 20, HumidityHigh: 75, BuiltAt: 40, Celsius: 21} // two of the formulas
	oak := func(string) (miter.Wood, error) { return miter.Wood{Name: "oak", Radial: 5, Tangential: 10}, nil }
	r, err := miter.Fit(c, with(ogee()), oak)
	require.NoError(t, err)
	m := r.Moldings[0].Movement
	require.InDelta(t, m.Shrinks+m.Swells, m.Seasonal, 1e-9)
}
