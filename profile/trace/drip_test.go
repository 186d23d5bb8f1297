package trace_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/measure"
	"listel/profile/trace"
)

// The groove under a corona is read as its drip, wherever in the soffit it lies and however deep it is; its sizes within 0.2 mm.
func TestComposeDrip(t *testing.T) {
	eighths := func(n float64) profile.Size { return profile.MM(n * 25.4 / 8) }
	for i, want := range [][3]float64{{1, 1, 1}, {2, 1, 1}, {1.5, 1.5, 2}} { // width, depth, inset
		p := profile.Profile{Name: "dripping", Units: measure.Inches, Ground: eighths(6), Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: eighths(3)},
			{Kind: profile.KindOvolo, Height: eighths(5)},
			{Kind: profile.KindCorona, Height: eighths(6), Set: eighths(6), Drip: &profile.Drip{Width: eighths(want[0]), Depth: eighths(want[1]), Inset: eighths(want[2])}},
			{Kind: profile.KindFillet, Height: eighths(2), Set: eighths(1)},
		}}
		s, err := p.Section(nil)
		require.NoError(t, err)
		got, err := trace.Compose(t.Context(), drawnAs(s.Outline, 25.4/300, 0.05, rand.New(rand.NewPCG(uint64(i), 8))), trace.Wanted{Name: p.Name, Units: p.Units})
		require.NoError(t, err)
		var drip *profile.SizedDrip
		for _, m := range got.Section.Members {
			if m.Drip != nil {
				drip = m.Drip
			}
		}
		require.NotNil(t, drip, "%v", want)
		require.InDelta(t, want[0]*25.4/8, drip.Width, 0.2)
		require.InDelta(t, want[1]*25.4/8, drip.Depth, 0.2)
		require.InDelta(t, want[2]*25.4/8, drip.Inset, 0.2)
	}
}
