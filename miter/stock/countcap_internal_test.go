package stock

import "testing"

// The boxes kept open take at most so much memory, however many sources there are to buy from, and with few sources as many are kept as ever.
func TestCountCap(t *testing.T) {
	for _, sources := range []int{0, 1, 14, 100, 400, 5000} {
		n := countCap(sources)
		if bytes := n * 16 * sources; n < 1 || n > countNodesCap || bytes > countBytesCap {
			t.Errorf("%d sources: %d boxes", sources, n)
		}
	}
	if n := countCap(14); n != countNodesCap {
		t.Errorf("%d boxes where each is small", n)
	}
}
