package trace

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// outlineWith returns the cracks along the top edge of a long bar, with a notch cut down into it from x = 100 to 106, so many px deep; slanted makes a
// cusp of it.
func outlineWith(depth int, slanted bool) []crack {
	var out []crack
	y := 0
	for x := range 300 {
		to := 0
		if x >= 100 && x <= 106 {
			if to = depth; slanted {
				to = depth * (4 - max(x-103, 103-x)) * (4 - max(x-103, 103-x)) / 16
			}
		}
		for ; y != to; y += map[bool]int{true: 1, false: -1}[to > y] {
			out = append(out, crack{at: geom.Pt(float64(x), float64(y))})
		}
		out = append(out, crack{at: geom.Pt(float64(x), float64(y))})
	}
	return out
}

// What lies in a square notch as deep as the line, or as blur has left of it, is open; in a deep groove, in a cusp and on a plain edge it is not.
func TestNotches(t *testing.T) {
	for _, c := range []struct {
		depth   int
		slanted bool
		want    bool
	}{{7, false, true}, {4, false, true}, {2, false, false}, {20, false, false}, {7, true, false}, {0, false, false}} {
		f := &finder{gap: 3, line: 6}
		cracks := outlineWith(c.depth, c.slanted)
		open := make([]bool, len(cracks))
		f.notches(cracks, open)
		for i, k := range cracks {
			if k.at.X == 103 && k.at.Y == float64(c.depth) {
				require.Equal(t, c.want, open[i], "depth %d, slanted %v, at %v", c.depth, c.slanted, k.at)
			}
			require.False(t, open[i] && (k.at.X < 90 || k.at.X > 116), "far away")
		}
	}
}
