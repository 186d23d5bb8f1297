package trace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// drawnBar returns the shades of a bar of full ink, 6 px thick and 100 long, between y = 20 and 26, with a cut across it of a breadth at x = 60, so many px deep from its upper edge.
func drawnBar(broad, depth int) tone {
	g := gray{stride: 120, pix: make([]uint8, 120*60)}
	g.box.Max.X, g.box.Max.Y = 120, 60
	for i := range g.pix {
		g.pix[i] = 230
	}
	for y := 20; y < 26; y++ {
		for x := 10; x < 110; x++ {
			if x < 60 || x >= 60+broad || y >= 20+depth {
				g.pix[y*120+x] = 30
			}
		}
	}
	return tone{gray: g, block: 120, cols: 1, paper: []float32{230}, ink: 200}
}

// A cut that is not through is seen by the disc of the pen, which has no room behind it; a plain line is not broken, and neither is a long thin one.
func TestWorn(t *testing.T) {
	for _, c := range []struct {
		broad, depth int
		want         bool
	}{{3, 3, true}, {4, 2, true}, {3, 6, true}, {0, 0, false}, {40, 3, false}} {
		e := edger{tone: drawnBar(c.broad, c.depth), line: 6, k: 1}
		var edges []edge
		for x := 15.0; x < 105; x++ {
			y := 20.0
			if x >= 60 && x < 60+float64(c.broad) && c.depth < 6 {
				y += float64(c.depth)
			}
			edges = append(edges, e.across(geom.Pt(x+0.5, y), geom.Pt(0, -1)))
		}
		worn(edges, 6)
		for _, k := range edges {
			switch {
			case c.want && math.Abs(k.at.X-61) < 1:
				require.False(t, k.ok, "%+v at %v", c, k.at)
			case !c.want || math.Abs(k.at.X-61) > 8:
				require.True(t, k.ok, "%+v at %v", c, k.at)
			}
		}
	}
}
