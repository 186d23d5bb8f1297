package trace_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
)

// A face that starts at the back, at its foot, is read so: what noise leaves behind the back is no ground.
func TestGroundAtTheBack(t *testing.T) {
	for seed := range uint64(6) {
		p := profile.Profile{Name: "bed", Units: measure.Inches, Ground: profile.MM(0), Elements: []profile.Entry{
			{Kind: profile.KindChamfer, Height: profile.MM(12.7), Projection: profile.MM(12.7)},
			{Kind: profile.KindFillet, Height: profile.MM(6.35), Set: profile.MM(3.175)},
		}}
		s, err := p.Section(nil)
		require.NoError(t, err)
		got, err := trace.Compose(t.Context(), drawnAs(s.Outline, 25.4/300, 0.05, rand.New(rand.NewPCG(seed, 8))), trace.Wanted{Name: p.Name, Units: p.Units})
		require.NoError(t, err)
		require.GreaterOrEqual(t, got.Section.Ground, 0.0)
		require.Less(t, got.Section.Ground, 0.2)
	}
}

// Where a drawing is broken off at its back, the note says which key tells where the back goes; a plumb back has none.
func TestOpenBackNote(t *testing.T) {
	const note = "its back is neither plumb nor a rabbet nor a spring; it was taken for plumb; where the drawing is open or broken off there, back: says where it goes"
	face := []geom.Point{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 10), geom.Pt(30, 20), geom.Pt(30, 26), geom.Pt(0, 26)}
	for _, c := range []struct {
		back []geom.Point
		said bool
	}{{nil, false}, {[]geom.Point{geom.Pt(3, 20), geom.Pt(-2, 15), geom.Pt(4, 8)}, true}} {
		outline := geom.Polygon(append(slices.Clone(face), c.back...)...)
		got, err := trace.Compose(t.Context(), drawnAs(outline, 25.4/300, 0.03, rand.New(rand.NewPCG(3, 8))), trace.Wanted{Name: "open"})
		require.NoError(t, err)
		if c.said {
			require.Contains(t, got.Notes, note)
		} else {
			require.NotContains(t, got.Notes, note)
		}
	}
}
