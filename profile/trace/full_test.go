package trace_test

import (
	"image"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/trace"
)

// inkedPage returns a page of n by n px full of ink: hatching one way or both, or noise.
func inkedPage(n int, kind string) *image.Gray {
	img := image.NewGray(image.Rect(0, 0, n, n))
	seed := uint32(1)
	for i := range img.Pix {
		x, y := i%n, i/n
		seed = seed*1664525 + 1013904223 // Numerical Recipes, from memory
		dark := false
		switch kind {
		case "hatched":
			dark = (x+y)%20 < 4
		case "cross-hatched":
			dark = (x+y)%20 < 3 || (x-y+20*n)%20 < 3
		case "noise":
			dark = seed>>31 == 0
		}
		if img.Pix[i] = 230; dark {
			img.Pix[i] = 30
		}
	}
	return img
}

// What a page full of ink takes grows no faster than the page: sixteen times the pixels take sixteen times as long, and a step that goes over all pixels for
// every space between lines 256 times. The bound lies between, since a busy machine stretches either.
func TestPageFullOfInk(t *testing.T) {
	length := func(to geom.Point) trace.Length { return trace.Length{From: geom.Pt(1, 1), To: to, MM: 10} }
	plate := trace.Plate{Scales: []trace.Scale{{Name: "s", Lengths: []trace.Length{length(geom.Pt(101, 1)), length(geom.Pt(1, 101))}}}, Sections: []trace.Wanted{{Name: "full"}}}
	for _, kind := range []string{"hatched", "cross-hatched", "noise"} {
		taken := func(n int) (took time.Duration, bytes float64) {
			img := inkedPage(n, kind)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			at := time.Now()
			_, err := trace.Trace(t.Context(), img, plate, trace.Options{})
			took = time.Since(at)
			runtime.ReadMemStats(&after)
			require.ErrorContains(t, err, "of the crop", kind)
			return took, float64(after.TotalAlloc-before.TotalAlloc) / float64(n*n)
		}
		var small []time.Duration
		for range 5 {
			took, _ := taken(250)
			small = append(small, took)
		}
		slices.Sort(small)
		large, bytes := taken(1000)
		t.Logf("%s: %v and %v, %.0f bytes a pixel", kind, small[2], large, bytes)
		require.Less(t, large.Seconds(), 128*small[2].Seconds(), kind)
		require.Less(t, bytes, 250.0, "given out in all, %s", kind) // two kilobytes a space are more
	}
}
