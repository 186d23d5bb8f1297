package profile_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

const in = measure.MMPerInch

func inch(v float64) profile.Size { return profile.MM(v * in) }

// cornice is the example of the file format; its sizes are invented.
func cornice() profile.Profile {
	return profile.Profile{
		Name: "press-cornice", Title: "Cornice for a low press", Source: "invented", Units: measure.Inches,
		Height: 1.75 * in, Parts: 14, Ground: inch(5.0 / 8),
		Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: inch(0.25)},
			{Kind: profile.KindCove, Height: inch(5.0 / 8)},
			{Kind: profile.KindFillet, Height: profile.Parts(2), Set: inch(1.0 / 16)},
			{Kind: profile.KindCymaRecta, Height: profile.Rest(), Projection: inch(0.75), Curve: profile.CurveFlat},
		},
		Back: profile.Back{Rabbet: &profile.Rabbet{At: profile.AtTop, Width: inch(0.5), Depth: inch(3.0 / 8)}},
	}
}

func TestCorniceBuilds(t *testing.T) {
	s, err := cornice().Section(nil)
	require.NoError(t, err)
	require.InDelta(t, 1.75*in, s.Height, 1e-9)
	require.InDelta(t, (5.0/8+5.0/8+1.0/16+0.75)*in, s.Projection, 1e-9)
	require.True(t, s.Outline.Closed(1e-9))
	require.Positive(t, s.Area())
	require.Len(t, s.Members, 4)
}

func TestErrorsAreErrors(t *testing.T) {
	p := cornice()
	p.Elements[1].Height = inch(-0.25)
	_, err := p.Section(nil)
	var errs profile.Errors
	require.True(t, errors.As(err, &errs))
	require.EqualError(t, err, "element 2, cove: height is -1/4 in; it must be more than 0")
}

// geomArea returns the area of the flattened outline.
func geomArea(s profile.Section, tol float64) float64 {
	return geom.PolygonArea(s.Outline.Flatten(tol))
}
