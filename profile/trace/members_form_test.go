package trace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// Rise 4 and run 3: the line that halves the chord squarely meets the level line through one end in the center, which is 25/6 away from
// both ends (R. G. Hatfield, The American House-Carpenter, para. 317). A run as great as the rise is a quadrant, and no such arc.
func TestShortQuarter(t *testing.T) {
	for form, center := range map[form]geom.Point{coveShort: geom.Pt(25.0/6, 0), ovoloShort: geom.Pt(3-25.0/6, 4)} {
		path := shape{form: form, sign: 1}.draw(geom.Point{}, []float64{4, 3})
		require.Len(t, path, 1)
		arc := path[0].(geom.Arc)
		require.InDelta(t, 25.0/6, arc.Radius, 1e-9)
		require.True(t, arc.Center.Near(center, 1e-9), "%v", arc.Center)
		require.True(t, arc.Start().Near(geom.Point{}, 1e-9))
		require.True(t, arc.End().Near(geom.Pt(3, 4), 1e-9))
		require.Less(t, math.Abs(float64(arc.Sweep)), math.Pi/2)

		// Going inward it is the same from the other end: turned upside down.
		down := shape{form: form, sign: -1}.draw(geom.Point{}, []float64{4, -3})
		require.True(t, down[0].(geom.Arc).Center.Near(geom.Pt(center.X-3, 4-center.Y), 1e-9), "%v", down[0])
		require.Nil(t, shape{form: form, sign: 1}.draw(geom.Point{}, []float64{3, 3}))
	}
}
