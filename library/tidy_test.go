package library_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
)

// What arithmetic leaves behind the last figure of a size is not written, and a size in an inch file is in inches; the profile itself stays as it is.
func TestTidy(t *testing.T) {
	p := profile.Profile{Name: "dusty", Ground: profile.MM(25.273), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: profile.MM(9.524999999999999), Set: profile.MM(-4.762499999999999)},
		{Kind: profile.KindBead, Height: profile.Parts(2.9999999999999996), Quirk: &profile.BeadQuirk{Width: profile.MM(1.5875 + 1e-9), Depth: profile.MM(1.234567)}},
		{Kind: profile.KindCurve, Points: []profile.CurvePoint{{X: profile.MM(3.3), Y: profile.MM(6.35000001), Through: &[2]profile.Size{profile.MM(1), profile.Parts(1.0 / 3)}}}},
		{Kind: profile.KindFillet, Height: profile.Rest()},
	}, Parts: 6, Height: 76.2}
	for units, want := range map[measure.Units]string{
		measure.Inches: "ground: 0.995\nelements:\n" +
			"  - fillet: {height: 3/8, set: -3/16}\n" +
			"  - bead: {height: 3p, quirk: {width: 1/16, depth: 0.049}}\n" +
			"  - curve: {points: [{x: 0.13, y: 1/4, through: [0.039, 0.333p]}]}\n" +
			"  - fillet: {height: rest}\n",
		measure.Millimeters: "ground: 25.273\nelements:\n" +
			"  - fillet: {height: 9.525, set: -4.762}\n" +
			"  - bead: {height: 3p, quirk: {width: 1.588, depth: 1.235}}\n" +
			"  - curve: {points: [{x: 3.3, y: 6.35, through: [1, 0.333p]}]}\n" +
			"  - fillet: {height: rest}\n",
	} {
		p.Units = units
		text, err := library.MarshalProfile(library.Tidy(p))
		require.NoError(t, err)
		require.Contains(t, string(text), want)
	}
	require.Equal(t, profile.MM(9.524999999999999), p.Elements[0].Height)
	require.Equal(t, profile.MM(1.234567), p.Elements[1].Quirk.Depth)
	require.Equal(t, profile.MM(1), p.Elements[2].Points[0].Through[0])
}
