package trace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// winding returns a closed outline of n points that goes in and out all the way round, as one in a margin of noise does.
func winding(n int) []geom.Point {
	out := make([]geom.Point, n)
	for i := range out {
		a := 2 * math.Pi * float64(i) / float64(n)
		r := float64(n) / 8 * (1 + 0.3*math.Sin(a*float64(n)/40) + 0.02*math.Sin(a*float64(n)/3))
		out[i] = geom.Pt(r*math.Cos(a), r*math.Sin(a))
	}
	return out
}

// The chords that go round with their starts are those that are measured each for itself.
func TestChords(t *testing.T) {
	for _, n := range []int{4, 50, 800} {
		points := winding(n)
		for _, parts := range []float64{150, 15, 0.9} {
			length := perimeter(points) / parts
			got := chords(points, length)
			for i := range n {
				j, sum := i, 0.0
				for ; sum < length && j < i+n; j++ {
					sum += points[j%n].Dist(points[(j+1)%n])
				}
				d := points[j%n].Sub(points[i])
				off := math.Remainder(float64(d.Angle()), math.Pi/2)
				if d.Norm() < 0.98*sum || math.Abs(off) > float64(mostTurn) {
					continue
				}
				require.NotEmpty(t, got)
				require.InDelta(t, off, got[0].off, 1e-9)
				require.InDelta(t, d.Norm()/float64(max(1, j-i)), got[0].length, 1e-9)
				got = got[1:]
			}
			require.Empty(t, got, "%d points, %v parts", n, parts)
		}
	}
}

// Each corner looks at the gaps beside it, however many there are: those that lie no further along the boundary, both ways, also over its start.
func TestGapsNear(t *testing.T) {
	for _, n := range []int{1000, 16000} {
		var open []parting
		for i := 3; i < n; i += 10 {
			open = append(open, parting{end: i, start: i + 1, gap: true})
		}
		looked := 0
		for c := 5; c < n; c += 10 {
			looked += len(gapsNear(open, c, n))
		}
		require.LessOrEqual(t, looked, (2*edgesNear/10+1)*n/10, n)
		require.ElementsMatch(t, []int{0, 1, 2, len(open) - 1}, gapsNear(open, 5, n))
		require.ElementsMatch(t, []int{0, 1}, gapsNear(open[:2], 5, n))
		require.Empty(t, gapsNear(open[:1], 500, n))
		require.Empty(t, gapsNear(nil, 5, n))
	}
}
