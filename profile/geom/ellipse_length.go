package geom

import "math"

// gauss10 holds the abscissas and weights of Gauss-Legendre quadrature with ten points (Abramowitz & Stegun,
// table 25.4; from memory, and proven by the tests on polynomials of degree 19).
var gauss10 = [5][2]float64{
	{0.1488743389816312, 0.2955242247147529},
	{0.4333953941292472, 0.2692667193099963},
	{0.6794095682990244, 0.2190863625159820},
	{0.8650633666889845, 0.1494513491505806},
	{0.9739065285171717, 0.0666713443086881},
}

// gauss returns the integral of f from a to b by ten-point quadrature.
func gauss(f func(float64) float64, a, b float64) float64 {
	mid, half := (a+b)/2, (b-a)/2
	sum := 0.0
	for _, n := range gauss10 {
		sum += n[1] * (f(mid-half*n[0]) + f(mid+half*n[0]))
	}
	return sum * half
}

// integrate returns the integral of f from a to b, halving until two halves agree with the whole to 1e-13 of scale.
func integrate(f func(float64) float64, a, b, whole, scale float64, depth int) float64 {
	m := (a + b) / 2
	left, right := gauss(f, a, m), gauss(f, m, b)
	sum := left + right
	if depth == 0 || !(math.Abs(sum-whole) > 1e-13*scale) {
		return sum
	}
	return integrate(f, a, m, left, scale, depth-1) + integrate(f, m, b, right, scale, depth-1)
}

// Length returns the length of a in mm, to 1e-12 of itself. The integral is cut at the ends of the axes, where a flat
// ellipse turns sharply.
func (a EllipticArc) Length() float64 {
	speed := func(e float64) float64 {
		s, c := math.Sincos(e)
		return math.Hypot(a.RX*s, a.RY*c)
	}
	lo, hi := float64(a.From), float64(a.From+a.Sweep)
	if lo > hi {
		lo, hi = hi, lo
	}
	sum := 0.0
	for lo < hi {
		next := math.Min(hi, (math.Floor(lo/(math.Pi/2)+1e-12)+1)*(math.Pi/2))
		whole := gauss(speed, lo, next)
		sum += integrate(speed, lo, next, whole, whole, 40)
		lo = next
	}
	return sum
}
