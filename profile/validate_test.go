package profile_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// Elements can be used by themselves, and then say by themselves what is wrong.
func TestValidate(t *testing.T) {
	far, nan := 2.0*measure.Limit, math.NaN()
	at := func(x, y float64) profile.SizedPoint { return profile.SizedPoint{At: geom.Pt(x, y)} }
	through := geom.Pt(far, 0)
	for _, c := range []struct {
		e    profile.Element
		key  string
		text string
	}{
		{profile.Fillet{}, "height", "height is 0.0 mm; it must be more than 0"},
		{profile.Fillet{Height: nan}, "height", "height is not a number; it must be a length"},
		{profile.Fillet{Height: far}, "height", "height is 40000.0 mm; the limit is 20 m"},
		{profile.Fillet{Height: 1e-7}, "height", "height is 1e-07 mm; it must be 0.001 mm at least"},
		{profile.Chamfer{Height: 1, Projection: nan}, "projection", "projection is not a number; it must be a length"},
		{profile.Chamfer{Height: 1, Projection: -far}, "projection", "projection is -40000.0 mm; the limit is 20 m"},
		{profile.Chamfer{Height: 1, Projection: -1e-5}, "projection", "projection is -1e-05 mm; it must be 0.001 mm at least, and for none a fillet would do"},
		{profile.Conge{Height: 1}, "projection", "projection is 0; a fillet would do"},
		{profile.Corona{Height: 1, Set: nan}, "set", "set is not a number; it must be a length"},
		{profile.Corona{Height: 1, Set: far}, "set", "set is 40000.0 mm; the limit is 20 m"},
		{profile.Corona{Height: 9, Set: 9, Drip: &profile.SizedDrip{Width: 1, Depth: 1}}, "drip.inset", "drip.inset is 0.0 mm; it must be more than 0"},
		{profile.Bead{Height: 2, Quirk: &profile.SizedQuirk{Width: -1, Depth: 1}}, "quirk.width", "quirk.width is -1.0 mm; it must be more than 0"},
		{profile.Quirk{Height: 2}, "depth", "depth is 0.0 mm; it must be more than 0"},
		{profile.Reeds{}, "height", "height is 0.0 mm; it must be more than 0"},
		{profile.Reeds{Height: 3, Count: 501}, "count", "count is 501; the limit is 500"},
		{profile.Reeds{Height: 3, Count: 2, Gap: nan}, "gap", "gap is not a number; it must be 0 or more"},
		{profile.Flutes{Height: 3}, "count", "count is 0; it must be 1 at least"},
		{profile.Thumb{Height: 3, Projection: 2, Fillet: -1}, "fillet", "fillet is -1.0 mm; it must be 0 or more"},
		{profile.Thumb{Height: 3}, "projection", "projection is 0; a fillet would do"},
		{profile.Dentils{Height: 3, Block: 2, Gap: 1}, "depth", "depth is 0.0 mm; it must be more than 0"},
		{profile.Curve{}, "points", "points are missing; one at least is needed"},
		{profile.Curve{Points: make([]profile.SizedPoint, 501)}, "points", "there are 501 points; the limit is 500"},
		{profile.Curve{Points: []profile.SizedPoint{at(0, 3), at(0, 3)}}, "points.2", "point 2 is where the one before it is"},
		{profile.Curve{Points: []profile.SizedPoint{at(0, nan)}}, "points.1", "point 1 is out of range; the limit is 20 m"},
		{profile.Curve{Points: []profile.SizedPoint{{At: geom.Pt(0, 3), Through: &through}}}, "points.1", "point 1 is out of range; the limit is 20 m"},
		{profile.Scotia{Height: 3, Projection: -1, Curve: "fifths"}, "curve", `curve "fifths" is not known here; it must be thirds or sevenths`},
		{profile.Stack{}, "profile", "the profile has no face"},
	} {
		err := c.e.Validate()
		require.EqualError(t, err, c.text, "%+v", c.e)
		var size *profile.SizeError
		require.True(t, errors.As(err, &size))
		require.Equal(t, c.key, size.Key)
	}
	err := profile.Fillet{Height: -6.35}.Validate()
	var size *profile.SizeError
	require.True(t, errors.As(err, &size))
	require.Equal(t, "height is -1/4 in; it must be more than 0", size.In(measure.Format{Units: measure.Inches}))
}

// A fault says where it is, so that a loader can say the line.
func TestFaultsHavePlaces(t *testing.T) {
	p := one(kind(fillet, -1, 0), profile.Entry{Kind: profile.KindQuirk, Height: inch(0.5)})
	p.Ground = inch(-1)
	_, err := p.Section(nil)
	var errs profile.Errors
	require.True(t, errors.As(err, &errs))
	require.Len(t, errs, 3)
	for i, want := range []profile.ElementError{
		{Index: 0, Key: "ground", Reason: "ground is -1 in; it must be 0 or more"},
		{Index: 1, Kind: fillet, Key: "height", Reason: "height is -1 in; it must be more than 0"},
		{Index: 2, Kind: profile.KindQuirk, Key: "depth", Reason: "depth is missing"},
	} {
		require.Equal(t, want, *errs[i])
	}
}

// Worked by hand: the point of a vee groove, half a millimeter from the back, faces it though neither of its sides does.
func TestThinAtAPoint(t *testing.T) {
	_, err := mm(sized(fillet, 10, 0, 0), sized(profile.KindChamfer, 10, 0, -19.5), sized(profile.KindChamfer, 10, 0, 19.5), sized(fillet, 10, 0, 0)).Section(nil)
	require.EqualError(t, err, "element 2, chamfer: the section is 0.5 mm thick between it and the back; it must be 1 mm at least")
}

// Worked by hand: the blunt foot of a reversa that starts plumb, a quarter of a millimeter from the back. The circle that fits there
// touches foot, back and curve.
func TestThinAtABluntEnd(t *testing.T) {
	p := mm(curved(reversa, 6/in, 6/in, profile.CurveBold))
	p.Ground = profile.MM(0.25)
	_, err := p.Section(nil)
	require.EqualError(t, err, "element 1, cyma-reversa: the section is 0.2526 mm thick between it and the back; it must be 1 mm at least")
}

// What a curve draws: the points, and the arc through a point of its circle.
func TestCurve(t *testing.T) {
	through := geom.Pt(5, 5)
	c := profile.Curve{Points: []profile.SizedPoint{{At: geom.Pt(0, 4)}, {At: geom.Pt(5, 9)}, {At: geom.Pt(10, 14), Through: nil}}}
	p := drawn(t, c)
	require.Len(t, p, 3)
	near(t, foot.Add(geom.Pt(10, 14)), p.End())
	c = profile.Curve{Points: []profile.SizedPoint{{At: geom.Pt(0, 10), Through: &through}}}
	a := arcs(t, drawn(t, c))[0]
	require.InDelta(t, 5, a.Radius, 1e-9, "a half circle")
	near(t, foot.Add(geom.Pt(0, 5)), a.Center)
	require.InDelta(t, 10, c.Height(), 0)
	require.InDelta(t, 0, c.Projection(), 0)
}
