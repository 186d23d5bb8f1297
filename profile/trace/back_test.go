package trace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// A drawing that ends in a break line gets a plumb back where it is said to be, on either side of the line; foot, top and face stay where they are.
func TestBackOfABrokenDrawing(t *testing.T) {
	ragged := []geom.Point{geom.Pt(0, 0), geom.Pt(30, 0), geom.Pt(30, 10), geom.Pt(40, 20), geom.Pt(2, 20), geom.Pt(6, 12), geom.Pt(-3, 9)}
	p := placed{points: ragged, pixels: affineMapping(geom.Scaling(10, -10))}
	for _, back := range []float64{-5, 3, 8} {
		got, err := p.withBack(geom.Pt(back*10, -70), 0.5)
		require.NoError(t, err)
		b := geom.Polygon(got.points...).Bounds()
		require.InDelta(t, 0, b.Min.X, 1e-9)
		require.InDelta(t, 40-back, b.Max.X, 1e-9)
		require.InDelta(t, (30-back)*20+50, math.Abs(geom.PolygonArea(got.points)), 1e-6, "a rectangle and a triangle, by hand")
		require.InDelta(t, back*10, got.pixels.Apply(geom.Point{}).X, 1e-9, "the picture is where it was")
	}
	_, err := p.withBack(geom.Pt(390, -70), 0.5)
	require.ErrorIs(t, err, ErrNothing)
}
