package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
)

// A screw may go in until 1/8 in (3 mm) of wood is left before the molded face, over its whole thickness (common practice, no source).
func TestScrewEndsInTheWood(t *testing.T) {
	ogee := ogee()
	ogee.Face = ogee.Outline[2:5] // from the ground out to the cove's top
	r, err := miter.Fit(moving(miter.Molding{At: 100}), with(ogee), woods)
	require.NoError(t, err)
	s := r.Moldings[0].Movement.Screw
	require.False(t, s.Up)
	const shank = miter.ScrewShank
	for _, y := range []float64{s.At - shank/2, s.At, s.At + shank/2} {
		require.Positive(t, s.Enters)
		face := geom.Pt(s.Enters+25.4/8-0.01, y)
		require.True(t, ogee.Outline.Contains(face), "%v is not in the wood", face)
	}
	require.Greater(t, s.At, 9.0)
	require.Less(t, s.At, 31.0)

	thin := ogee // 8 mm thick at most: no screw holds
	thin.Outline, thin.Projection, thin.Ground = geom.Polygon(geom.Pt(0, 0), geom.Pt(8, 0), geom.Pt(8, 40), geom.Pt(0, 40)), 8, 8
	thin.Face, thin.Name = geom.Polyline(geom.Pt(8, 0), geom.Pt(8, 40)), "thin"
	r, err = miter.Fit(moving(miter.Molding{Profile: "thin", At: 100}), with(thin), woods)
	require.NoError(t, err)
	require.Empty(t, r.Moldings[0].Movement.Slots)
	require.Contains(t, r.Moldings[0].Notes[0], "no screw holds in the molding")
}

// A molding that lies on its case is held from below: the screw stops under the top, and all the slots lie at least 1/2 in before the mortise.
func TestSlotsClearOfTheMortise(t *testing.T) {
	c, s := seated()
	c.Wood, c.Side.Cut = "black cherry", miter.FlatSawn
	c.Room = miter.Room{HumidityLow: 30, HumidityHigh: 65, BuiltAt: 45, Celsius: 21}
	c.Moldings[0].Frame = &miter.FrameSpec{RailWidth: 70, Tenon: 25}
	r, err := miter.Fit(c, with(s), woods)
	require.NoError(t, err)
	m := r.Moldings[0]
	require.NotEmpty(t, m.Movement.Slots)
	last := m.Movement.Slots[len(m.Movement.Slots)-1]
	for _, mortise := range m.Frame.Mortises {
		front := m.Movement.Width - mortise.FromWall - mortise.Length
		require.LessOrEqual(t, last.FromFront+last.Length/2, front-12.7+1e-9)
		require.Greater(t, last.FromFront+last.Length/2, front-16, "no farther than it must be")
	}
	screw := m.Movement.Screw
	require.True(t, screw.Up)
	require.LessOrEqual(t, screw.Enters, s.Height-25.4/8)
	require.True(t, s.Outline.Contains(geom.Pt(screw.At, screw.Enters+25.4/8-0.01)))
}

// From as built the side moves to both ends of the room's air, whichever way they lie: built wetter than the wettest air it only shrinks.
func TestMovementSigns(t *testing.T) {
	at := func(built float64) *miter.Movement {
		c := moving(miter.Molding{})
		c.Room.BuiltAt = built
		r, err := miter.Fit(c, func(string) (profile.Section, error) { return ogee(), nil }, woods)
		require.NoError(t, err)
		return r.Moldings[0].Movement
	}
	wet, dry := at(75), at(22)
	require.Positive(t, wet.Shrinks)
	require.Negative(t, wet.Swells)
	require.Greater(t, wet.Shrinks, -wet.Swells)
	require.Negative(t, dry.Shrinks)
	require.Positive(t, dry.Swells)
	for _, m := range []*miter.Movement{wet, dry} { // each slot takes the farther of the two
		far := math.Max(math.Abs(m.Shrinks), math.Abs(m.Swells))
		for _, s := range m.Slots {
			require.InDelta(t, miter.ScrewShank+2*far*s.FromFront/m.Width, s.Length, 1e-9)
		}
	}
}

// A molding with an inset lies on top of its stage, or is let into the stage's faces: then its screws come from inside, through what is left of the side, and
// what cannot be let in is refused.
func TestLetIn(t *testing.T) {
	fitted := func(m miter.Molding, thick float64) (miter.MoldingResult, error) {
		c := moving(m)
		c.Side.Thickness = thick
		r, err := miter.Fit(c, with(ogee(), sprung(38*geom.Degree)), woods)
		if err != nil {
			return miter.MoldingResult{}, err
		}
		return r.Moldings[0], nil
	}
	in, err := fitted(miter.Molding{At: 0, Inset: 9}, 20)
	require.NoError(t, err)
	require.Equal(t, 9.0, in.LetIn)
	require.False(t, in.OnTop)
	require.False(t, in.Movement.Screw.Up)
	require.InDelta(t, 20-9+in.Movement.Screw.Enters, in.Movement.Screw.Long, 1e-9)

	on, err := fitted(miter.Molding{At: 900, Inset: 9}, 20)
	require.NoError(t, err)
	require.Zero(t, on.LetIn)
	require.True(t, on.OnTop)

	_, err = fitted(miter.Molding{At: 0, Inset: 14}, 20)
	require.ErrorContains(t, err, "leaves less than 6.4 mm of sides 20.0 mm thick; an inset of 13.7 mm at most would do, or a foot at 900.0 mm lies on top of stage")
	_, err = fitted(miter.Molding{Profile: "sprung", At: 850, Inset: 9}, 0)
	require.ErrorContains(t, err, "a sprung molding touches them with the flat of its back alone; leave inset out")
}
