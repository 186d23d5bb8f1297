package trace

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

func points(xy ...float64) []geom.Point {
	var out []geom.Point
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, geom.Pt(xy[i], xy[i+1]))
	}
	return out
}

// The published circles, each to the decimals that its source prints.
func TestFitCirclePublished(t *testing.T) {
	for _, c := range []struct {
		name                  string
		pts                   []geom.Point
		x, y, r, squares, tol float64
	}{
		// W. Gander, G. H. Golub, R. Strebel, Least-Squares Fitting of Circles and Ellipses, BIT 34 (1994) 558-578. The points and the
		// answers are from memory, not seen; the six decimals of an independent fit agree with all four that the paper is remembered to print.
		{"Gander, Golub, Strebel 1994", points(1, 7, 2, 6, 5, 8, 7, 7, 9, 5, 3, 7), 4.7398, 2.9835, 4.7142, 1.2276, 6e-5},
		// SciPy Cookbook, Least squares circle, data all round; seen. Squares from its residual, 7.711852.
		{"SciPy Cookbook, all round", points(9, 34, 35, 10, -13, 6, 10, -14, 23, 27, 0, -10), 10.50009, 9.65995, 23.33353, 7.711852, 6e-6},
		// The same, data on a short arc, where algebraic fits give radii of 20.8; seen. Residual 4.042522.
		{"SciPy Cookbook, short arc", points(36, 14, 36, 10, 19, 28, 18, 31, 33, 18, 26, 26), 9.88757, 3.68750, 27.35044, 4.042522, 6e-6},
		// L. Maisonobe, Finding the circle that best fits a set of points, in the unit tests of Apache Commons Math: answers seen, points seen in
		// a damaged copy. Squares from its root of the mean square times the root of five, 1.768262623567235.
		{"Maisonobe", points(30, 68, 50, -6, 110, -20, 35, 15, 45, 97), 96.07590211815305, 48.13516790438953, 69.96016176931406, 1.768262623567235 * 1.768262623567235, 1e-6},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := FitCircle(c.pts)
			require.NoError(t, err)
			assert.InDelta(t, c.x, got.Center.X, c.tol)
			assert.InDelta(t, c.y, got.Center.Y, c.tol)
			assert.InDelta(t, c.r, got.Radius, c.tol)
			assert.InDelta(t, c.squares, got.Squares, math.Max(c.tol, 1e-6))
		})
	}
}

// Points on a circle give it back, down to arcs of two degrees and radii of kilometers.
func TestFitCircleExact(t *testing.T) {
	for _, sweep := range []float64{360, 90, 20, 2} {
		for _, r := range []float64{0.5, 30, 2000} {
			var pts []geom.Point
			for i := range 25 {
				pts = append(pts, geom.Pt(7, -3).Add(geom.Polar(r, geom.Angle(i)*geom.Angle(sweep/25)*geom.Degree+40*geom.Degree)))
			}
			got, err := FitCircle(pts)
			require.NoError(t, err)
			assert.InDelta(t, r, got.Radius, 1e-7*r, "%g degrees of %g mm", sweep, r)
			assert.True(t, got.Center.Near(geom.Pt(7, -3), 1e-7*r))
		}
	}
	for _, pts := range [][]geom.Point{nil, points(1, 2, 3, 4), points(1, 1, 1, 1, 1, 1), points(0, 0, 1, 1, 2, 2, 5, 5), points(math.NaN(), 0, 1, 1, 2, 0)} {
		_, err := FitCircle(pts)
		require.ErrorIs(t, err, ErrNoCircle, "%v", pts)
	}
}

// With n points evenly round a circle and noise of one sigma across it, the center's variance is 2 sigma²/n a coordinate and the radius'
// sigma²/n: closed form, worked by hand from the normal equations, whose matrix is diag(n/2, n/2, n).
func TestFitCircleNoise(t *testing.T) {
	const n, sigma, rounds = 40, 0.05, 4000
	rng := rand.New(rand.NewPCG(12, 8))
	var x, r, xx, rr float64
	for range rounds {
		var pts []geom.Point
		for i := range n {
			pts = append(pts, geom.Polar(10+sigma*rng.NormFloat64(), geom.Angle(2*math.Pi*float64(i)/n)))
		}
		got, err := FitCircle(pts)
		require.NoError(t, err)
		x, xx = x+got.Center.X, xx+got.Center.X*got.Center.X
		r, rr = r+got.Radius-10, rr+(got.Radius-10)*(got.Radius-10)
	}
	assert.InDelta(t, 0, x/rounds, 4*sigma*math.Sqrt(2.0/n/rounds))
	assert.InDelta(t, 0, r/rounds, 4*sigma*math.Sqrt(1.0/n/rounds)+sigma*sigma/10)
	assert.InEpsilon(t, 2*sigma*sigma/n, xx/rounds, 0.1) // ten per cent is four standard errors of a variance of 4000
	assert.InEpsilon(t, sigma*sigma/n, rr/rounds, 0.1)
}

// No algebraic start may pull the answer in: on an arc of twenty degrees with noise the mean radius is right.
func TestFitCircleShortArc(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 8))
	sum := 0.0
	for range 500 {
		var pts []geom.Point
		for i := range 60 {
			pts = append(pts, geom.Polar(20+0.003*rng.NormFloat64(), geom.Angle(i)*20/59*geom.Degree))
		}
		got, err := FitCircle(pts)
		require.NoError(t, err)
		sum += 1 / got.Radius
	}
	assert.InEpsilon(t, 1.0/20, sum/500, 0.002)
}

func BenchmarkFitCircle(b *testing.B) {
	var pts []geom.Point
	rng := rand.New(rand.NewPCG(1, 1))
	for i := range 200 {
		pts = append(pts, geom.Polar(10+0.05*rng.NormFloat64(), geom.Angle(i)*geom.Degree/2))
	}
	for b.Loop() {
		if _, err := FitCircle(pts); err != nil {
			b.Fatal(err)
		}
	}
}
