package trace

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// The quick nearest place agrees with the exact one of the geometry.
func TestNearestOn(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 8))
	for range 5000 {
		p := geom.Pt(20*rng.Float64(), 20*rng.Float64())
		var seg geom.Segment
		switch rng.IntN(3) {
		case 0:
			seg = geom.Line{A: p, B: geom.Pt(20*rng.Float64(), 20*rng.Float64())}
		case 1:
			seg = geom.Arc{Center: p, Radius: 1 + 9*rng.Float64(), From: geom.Angle(7 * rng.Float64()), Sweep: geom.Angle(6*rng.Float64() - 3)}
		case 2:
			rx := 1 + 9*rng.Float64()
			seg = geom.EllipticArc{Center: p, RX: rx, RY: rx * (0.3 + 2*rng.Float64()), From: geom.Angle(rng.IntN(4)) * math.Pi / 2, Sweep: geom.Angle(math.Copysign(math.Pi/2, rng.Float64()-0.5))}
		}
		q := seg.At(rng.Float64()).Add(geom.Polar(0.5*rng.Float64(), geom.Angle(7*rng.Float64())))
		_, _, want := geom.Path{seg}.Nearest(q)
		_, at, got := nearestOn(geom.Path{seg}, q)
		require.InDelta(t, want, got, 0.002, "%#v %v", seg, q)
		require.InDelta(t, got, at.Dist(q), 1e-9)
	}
}
