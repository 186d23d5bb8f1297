package trace

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// keyhole is a closed outline of lines and one arc: a square of 20 mm whose right side is a half circle.
func keyhole() geom.Path {
	return geom.Path{
		geom.Line{A: geom.Pt(0, 0), B: geom.Pt(20, 0)},
		geom.Arc{Center: geom.Pt(20, 10), Radius: 10, From: -90 * geom.Degree, Sweep: 180 * geom.Degree},
		geom.Line{A: geom.Pt(20, 20), B: geom.Pt(0, 20)},
		geom.Line{A: geom.Pt(0, 20), B: geom.Pt(0, 0)},
	}
}

// sampled returns points along a path at even steps with noise across it.
func sampled(p geom.Path, step, sigma float64, rng *rand.Rand) []geom.Point {
	var out []geom.Point
	for _, s := range p {
		n := int(math.Round(s.Length() / step))
		for i := range n {
			t := float64(i) / float64(n)
			out = append(out, s.At(t).Add(s.Tangent(t).Left().Mul(sigma*rng.NormFloat64())))
		}
	}
	return out
}

func TestSplit(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for _, sigma := range []float64{0, 0.02, 0.1} {
		pts := sampled(keyhole(), 0.1, sigma, rng)
		turned := append(append([]geom.Point{}, pts[137:]...), pts[:137]...) // the start is no corner
		for _, pts := range [][]geom.Point{pts, turned} {
			pieces, err := Split(pts, math.Max(sigma, 0.01), 0)
			require.NoError(t, err)
			require.Len(t, pieces, 4, "sigma %g", sigma)
			var path geom.Path
			arcs := 0
			for i, p := range pieces {
				path = append(path, p.Segment)
				assert.Equal(t, p.Last, pieces[(i+1)%4].First)
				if a, ok := p.Segment.(geom.Arc); ok {
					arcs++
					assert.InDelta(t, 10, a.Radius, 2*sigma+0.001)
				}
				assert.InDelta(t, sigma, p.RMS, 0.3*sigma+0.001)
			}
			assert.Equal(t, 1, arcs)
			assert.True(t, path.Closed(1e-9))
			assert.Less(t, geom.Hausdorff(path, keyhole(), 0.1), 2.5*sigma+0.001)
			corner := false
			for _, s := range path {
				corner = corner || s.Start().Near(geom.Pt(0, 0), sigma+0.001)
			}
			assert.True(t, corner, "a corner is where its sides cross")
		}
	}
}

// Clicked points are few: corners are corners, though an arc would pass through any three.
func TestSplitClicked(t *testing.T) {
	pts := points(0, 0, 30, 0, 30, 8, 20, 8, 20, 20, 0, 20)
	pieces, err := Split(pts, 0.1, 0)
	require.NoError(t, err)
	assert.Len(t, pieces, 6)
	for _, p := range pieces {
		assert.IsType(t, geom.Line{}, p.Segment)
	}
}

func TestSplitRefuses(t *testing.T) {
	for _, pts := range [][]geom.Point{nil, points(0, 0, 1, 1), points(0, 0, 1, 1, 2, 2, 3, 3), points(0, 0, 1, 0, math.NaN(), 1, 0, 1), points(0, 0, math.Inf(1), 0, 1, 1, 0, 1)} {
		_, err := Split(pts, 0.1, 0)
		require.ErrorIs(t, err, ErrNoOutline)
		_, err = Compose(t.Context(), Drawn{Points: pts, Noise: 0.1}, Wanted{})
		require.ErrorIs(t, err, ErrNoOutline)
	}
	// A disc is no molding; nothing panics.
	_, err := Compose(t.Context(), Drawn{Points: geom.Circle(geom.Pt(10, 10), 10).Flatten(0.001), Noise: 0.01}, Wanted{})
	require.ErrorIs(t, err, ErrNoMembers)
}

func BenchmarkSplit(b *testing.B) {
	pts := sampled(keyhole(), 0.02, 0.03, rand.New(rand.NewPCG(1, 2)))
	b.ReportMetric(float64(len(pts)), "points")
	for b.Loop() {
		if _, err := Split(pts, 0.03, 0.085); err != nil {
			b.Fatal(err)
		}
	}
}
