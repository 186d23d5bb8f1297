package trace

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
)

// Three rounds that are all 3 per cent wider than high look like a stretched scan; two do not, nor quadrants, nor rounds of different shapes, nor such as are
// much wider than high by design.
func TestStretchHint(t *testing.T) {
	round := func(h, p float64) profile.Member {
		return profile.Member{Kind: profile.KindOvolo, Height: h, Projection: p}
	}
	fillet := profile.Member{Kind: profile.KindFillet, Height: 5}
	for _, c := range []struct {
		members []profile.Member
		want    string
	}{
		{[]profile.Member{round(10, 10.3), fillet, round(8, -8.24), round(20, 20.64)}, "its 3 rounds and hollows are all wider than high by about 3 %; is the scan stretched?"},
		{[]profile.Member{round(10.3, 10), fillet, round(8.24, -8), round(20.64, 20)}, "its 3 rounds and hollows are all higher than wide by about 3 %; is the scan stretched?"},
		{[]profile.Member{round(10, 10.3), fillet, round(8, 8.24)}, ""},
		{[]profile.Member{round(10, 10), round(8, 8), round(20, 20)}, ""},
		{[]profile.Member{round(10, 10.3), round(8, 8), round(20, 20.6)}, ""},
		{[]profile.Member{round(10, 13), round(8, 10.4), round(20, 26)}, ""},
	} {
		if got := stretchHint(c.members); c.want == "" {
			require.Empty(t, got, "%v", c.members)
		} else {
			require.Contains(t, got, c.want)
		}
	}
}

// A scale knows whether it was measured in one direction alone.
func TestOneDirection(t *testing.T) {
	across, up := Length{geom.Pt(0, 0), geom.Pt(500, 3), 50}, Length{geom.Pt(0, 0), geom.Pt(2, 500), 50}
	one, err := Scale{Lengths: []Length{across}}.solve(nil)
	require.NoError(t, err)
	require.True(t, one.alike)
	both, err := Scale{Lengths: []Length{across, up}}.solve(nil)
	require.NoError(t, err)
	require.False(t, both.alike)
}
