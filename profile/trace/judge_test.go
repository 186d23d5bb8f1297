package trace

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// A square of 20 mm against one whose right side stands 0.2 mm out: the greatest distance is that, the mean less than a third of it, since
// one of four sides is off and the corners beside it a little.
func TestJudge(t *testing.T) {
	square := func(w float64) geom.Path {
		return geom.Polygon(geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, 20), geom.Pt(0, 20))
	}
	c := comparison{traced: square(20.2).Flatten(1), section: square(20), pixels: affineMapping(geom.Scaling(10, -10)), blind: 0.5}
	got, hidden := c.judge(0.15)
	require.InDelta(t, 0.2, got.Greatest, 1e-9)
	require.InDelta(t, 2, got.GreatestPx, 1e-8)
	require.InDelta(t, 0.2/4, got.Mean, 0.03)
	require.Zero(t, hidden)
	require.False(t, got.Within)
	got, _ = c.judge(0.21)
	require.True(t, got.Within)
}

// A saw cut 0.3 mm wide and 5 deep that the pen has filled is no fault of the tracing; one 0.8 mm wide is.
func TestJudgeCrevice(t *testing.T) {
	block := []geom.Point{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 20), geom.Pt(0, 20)}
	for _, width := range []float64{0.3, 0.8} {
		cut := geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 10), geom.Pt(15, 10), geom.Pt(15, 10+width), geom.Pt(20, 10+width), geom.Pt(20, 20), geom.Pt(0, 20))
		got, hidden := comparison{block, cut, affineMapping(geom.Identity()), 0.5}.judge(0.3)
		if width < 0.5 {
			require.True(t, got.Within, "greatest %g at %v", got.Greatest, got.Worst)
			require.InDelta(t, 10.3, hidden, 0.8)
		} else {
			require.InDelta(t, 5, got.Greatest, 0.1)
			require.Zero(t, hidden)
		}
	}
}
