package trace_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/measure"
	"listel/profile/trace"
)

// A cyma of two arcs that are neither of 60 degrees nor quadrants comes back as one member of a radius, smooth in its middle: one whose ends are plumb or
// level, and one between. A flat one, which many radii come near, stays flat. (Drawn by the tests, not after a source.)
func TestCymaOfRadius(t *testing.T) {
	for i, c := range []struct {
		kind           profile.Kind
		height, run, r float64 // mm
	}{
		{profile.KindCymaReversa, 24, -16, 13}, {profile.KindCymaReversa, 24, -16, 20}, {profile.KindCymaRecta, 18, 26, 250.0 / 18},
		{profile.KindCymaRecta, 20, 20, 19}, {profile.KindCymaReversa, 22, 20, 0},
	} {
		p := profile.Profile{Name: "cyma", Units: measure.Millimeters, Ground: profile.MM(30), Elements: []profile.Entry{
			{Kind: profile.KindFascia, Height: profile.MM(20)}, {Kind: profile.KindFillet, Height: profile.MM(4), Set: profile.MM(-2)},
			{Kind: c.kind, Height: profile.MM(c.height), Projection: profile.MM(c.run)}, {Kind: profile.KindFillet, Height: profile.MM(5), Set: profile.MM(2)},
		}}
		if c.r > 0 {
			p.Elements[2].Radius = profile.MM(c.r)
		}
		section, err := p.Section(nil)
		require.NoError(t, err)
		style := []style{outlined, filled}[i%2]
		name := fmt.Sprintf("%s of %g by %g, radius %g, %v", c.kind, c.height, c.run, c.r, style)
		s := scan{dpi: 300, scale: 1, style: style, seed: 3}.in(worn)
		img, page := s.render(t, section.Outline)
		got, err := trace.Trace(t.Context(), img, trace.Plate{Scales: []trace.Scale{page.known()}, Sections: []trace.Wanted{{Name: "cyma", Units: measure.Millimeters}}}, trace.Options{})
		require.NoError(t, err, name)
		v := judge(got[0].Section, section, 1)
		require.True(t, v.right(1), "%s: %s", name, v.why)
		require.Len(t, got[0].Profile.Elements, 4, name)
		cyma := got[0].Profile.Elements[2]
		require.Equal(t, c.kind, cyma.Kind, name)
		require.InDelta(t, c.r, cyma.Radius.In(1), 0.4, name)
	}
}
