package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// ellipseLengthByAGM returns the length of a whole ellipse by the arithmetic-geometric mean: 4 a E(m) with
// E/K = 1 - sum of 2^(n-1) c_n^2 and K = pi/(2 AGM), as in Abramowitz & Stegun 17.6 and DLMF 19.8 (from memory).
func ellipseLengthByAGM(a, b float64) float64 {
	x, y := 1.0, b/a
	c2 := 1 - y*y
	sum, power := c2/2, 1.0
	for range 40 {
		c := (x - y) / 2
		x, y = (x+y)/2, math.Sqrt(x*y)
		sum += power * c * c
		power *= 2
	}
	return 4 * a * math.Pi / (2 * x) * (1 - sum)
}

func TestEllipseLengthAgainstCompleteIntegral(t *testing.T) {
	for _, ratio := range []float64{1, 0.99, 0.7, 0.5, 0.3, 0.1, 0.02} {
		e := EllipticArc{Center: Pt(3, 4), RX: 40, RY: 40 * ratio, Turn: 0.3, From: 0.77, Sweep: -2 * math.Pi}
		assert.InEpsilon(t, ellipseLengthByAGM(40, 40*ratio), e.Length(), 1e-12, "ratio %v", ratio)
		e.RX, e.RY = e.RY, e.RX
		assert.InEpsilon(t, ellipseLengthByAGM(40, 40*ratio), e.Length(), 1e-12, "ratio %v, tall", ratio)
	}
	// E(m = 0.5) = 1.35064 38810, Abramowitz & Stegun table 17.1 (from memory): a quarter with b2 = a2/2.
	e := EllipticArc{RX: 1, RY: math.Sqrt(0.5), Sweep: 90 * Degree}
	assert.InDelta(t, 1.3506438810, e.Length(), 1e-10)
	// A needle is there and back.
	assert.InEpsilon(t, 400, EllipticArc{RX: 100, RY: 1e-7, Sweep: 2 * math.Pi}.Length(), 1e-9)
}

func TestEllipseLengthAddsUp(t *testing.T) {
	r := seeded(t, 21)
	for range 200 {
		e := randomEllipse(r)
		cut := r.Float64()
		assert.InEpsilon(t, e.Length(), e.Trim(0, cut).Length()+e.Trim(cut, 1).Length(), 1e-12, "%#v", e)
		assert.InEpsilon(t, e.Length(), e.Reverse().Length(), 1e-12)
		e.RY = e.RX
		assert.InEpsilon(t, Arc{e.Center, e.RX, e.From, e.Sweep}.Length(), e.Length(), 1e-13)
	}
}

func TestGaussIsExactToDegree19(t *testing.T) {
	for degree := range 20 {
		f := func(x float64) float64 { return math.Pow(x, float64(degree)) }
		assert.InEpsilon(t, 1/float64(degree+1), gauss(f, 0, 1), 1e-14, "degree %d", degree)
	}
	assert.Greater(t, math.Abs(1.0/41-gauss(func(x float64) float64 { return math.Pow(x, 40) }, 0, 1)), 1e-14)
}
