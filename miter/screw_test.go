package miter_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
)

// Round a screw 3 mm of wood are left on all sides (common practice, no source), its body over the whole thickness. Worked by hand for two moldings of a
// tall clock.
func TestScrewHasWoodAllRound(t *testing.T) {
	const half, cover = miter.ScrewShank / 2, 3.0
	// A throat: its cove of radius 27 about (37, 13), 10 at the foot, a fillet at 39 from 40 to 48. The inner corner of the screw's end stops 3 before the cove:
	// at height 38 it is at 37 - sqrt(30^2 - (38 - half - 13)^2) = 17.4 out.
	cove, _ := geom.ArcRadius(geom.Pt(37, 40), geom.Pt(10, 13), 27, true)
	o := append(geom.Polyline(geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(10, 13)), cove.Reverse())
	o = append(o, geom.Polyline(geom.Pt(37, 40), geom.Pt(39, 40), geom.Pt(39, 48), geom.Pt(0, 48), geom.Pt(0, 0))...)
	throat := profile.Section{Name: "throat", Outline: o, Face: o[1:5], Height: 48, Projection: 39, Ground: 10}
	r, err := miter.Fit(moving(miter.Molding{Profile: "throat", At: 100}), with(throat), woods)
	require.NoError(t, err)
	s := r.Moldings[0].Movement.Screw
	require.Equal(t, 38.0, s.At, "48 less 10 to the edge: the thickest place")
	free := 37 - math.Sqrt(math.Pow(27+cover, 2)-math.Pow(38-half-13, 2))
	require.InDelta(t, 17.4, free, 0.05)
	require.Equal(t, math.Floor(free), s.Enters)

	// A waist that lies on its case, its back 61.5 inside: a rabbet 12 by 8 over a foot 71 wide, its upper fillet plumb at 32 from 41 to 46. From below a screw
	// toward the middle at 61.5/2 would leave 32 - 30.5 - half = -0.75 beside it where it goes past 41.
	o = geom.Polygon(geom.Pt(0, 0), geom.Pt(71, 0), geom.Pt(71, 12), geom.Pt(69, 15), geom.Pt(52, 28), geom.Pt(35, 41), geom.Pt(32, 41), geom.Pt(32, 46), geom.Pt(12, 46), geom.Pt(12, 38), geom.Pt(0, 38))
	w := profile.Section{Name: "waist", Outline: o, Face: o[1:7], Height: 46, Projection: 71, Ground: 71,
		Rabbet: &profile.SizedRabbet{At: profile.AtTop, Width: 12, Depth: 8}}
	c, _ := seated()
	c.Moldings[0].Inset, c.Moldings[0].Clearance = 61.5, 0.5
	c.Stages[1].Plan = miter.Plan{Width: 1000 - 2*61.5 + 2*11.5, Depth: 450 - 61.5 + 11.5}
	c.Wood, c.Side.Cut, c.Room = "black cherry", miter.FlatSawn, miter.Room{HumidityLow: 30, HumidityHigh: 65, BuiltAt: 45, Celsius: 21}
	r, err = miter.Fit(c, with(w), woods)
	require.NoError(t, err)
	s = r.Moldings[0].Movement.Screw
	require.True(t, s.Up)
	require.Equal(t, 46-cover, s.Enters)
	require.GreaterOrEqual(t, 32-s.At-half, cover, "beside the fillet")
	require.GreaterOrEqual(t, s.At-half-12, cover, "beside the rabbet")
	require.Equal(t, 26.5, s.At, "35 in from the face of the case: the last whole millimeter that leaves 3, 32 - 26.5 - 2.25 = 3.25")
}

// However a section is shaped, no point of its other faces comes nearer to a screw than 3 mm, and none would let it go a step farther.
func TestScrewAgainstPoints(t *testing.T) {
	const seed, half, cover = 7, miter.ScrewShank / 2, 3.0
	rng := rand.New(rand.NewPCG(seed, 1))
	held := 0
	for n := range 60 {
		x, y := 20+20*rng.Float64(), 30+20*rng.Float64()
		u, v := 8+(x-8)*rng.Float64(), y*(0.2+0.6*rng.Float64())
		o := geom.Polygon(geom.Pt(0, 0), geom.Pt(8+8*rng.Float64(), 0), geom.Pt(u, v), geom.Pt(x, y*(0.8+0.2*rng.Float64())), geom.Pt(x, y), geom.Pt(0, y))
		sec := profile.Section{Name: "any", Outline: o, Face: o[1:4], Height: y, Projection: x, Ground: 8}
		r, err := miter.Fit(moving(miter.Molding{Profile: "any", At: 100}), with(sec), woods)
		if err != nil {
			continue // it crosses itself
		}
		least := func(s miter.Screw, enters float64) float64 {
			d := math.Inf(1)
			for _, seg := range o[:len(o)-1] { // all but the back
				for i := range 2001 {
					p := seg.At(float64(i) / 2000)
					d = math.Min(d, math.Hypot(math.Max(0, p.X-enters), math.Max(0, math.Abs(p.Y-s.At)-half)))
				}
			}
			return d
		}
		if s := r.Moldings[0].Movement.Screw; s.Enters > 0 {
			held++
			require.GreaterOrEqual(t, least(s, s.Enters), cover-0.02, "seed %d case %d", seed, n)
			require.Less(t, least(s, s.Enters+1.02), cover, "seed %d case %d", seed, n)
		}
	}
	require.Greater(t, held, 20)
}

// A screw may go in until 3 mm of wood is left before the molded face, over its whole thickness (common practice, no source).
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
		face := geom.Pt(s.Enters+3-0.01, y)
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

// A molding that lies on its case is held from below: the screw stops under the top, and all the slots lie at least 12 mm before the mortise.
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
		require.LessOrEqual(t, last.FromFront+last.Length/2, front-12+1e-9)
		require.Greater(t, last.FromFront+last.Length/2, front-16, "no farther than it must be")
	}
	screw := m.Movement.Screw
	require.True(t, screw.Up)
	require.LessOrEqual(t, screw.Enters, s.Height-3)
	require.True(t, s.Outline.Contains(geom.Pt(screw.At, screw.Enters+3-0.01)))
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

	_, err = fitted(miter.Molding{At: 0, Inset: 14.5}, 20)
	require.ErrorContains(t, err, "leaves less than 6.0 mm of sides 20.0 mm thick; an inset of 14.0 mm at most would do, or a foot at 900.0 mm lies on top of stage")
	_, err = fitted(miter.Molding{Profile: "sprung", At: 850, Inset: 9}, 0)
	require.ErrorContains(t, err, "a sprung molding touches them with the flat of its back alone; leave inset out")
}
