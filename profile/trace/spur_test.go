package trace

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// A way along the top of a bar, the section below (y down), and one within that leaves it at x = 100, goes 20 px deep and comes back at another place: what lies
// between the two places gives way to it. A line that goes in and comes back at one place is no spur, and nor is a dent a pixel deep.
func TestJoinedSpurs(t *testing.T) {
	var way []geom.Point
	for x := range 301 {
		way = append(way, geom.Pt(float64(x), 0))
	}
	way = append(way, geom.Pt(300, 100), geom.Pt(0, 100))
	for _, c := range []struct {
		name string
		back float64 // x where the way within comes back
		deep float64 // px
		want bool
	}{{"spur", 112, 20, true}, {"line", 100.5, 20, false}, {"dent", 112, 1.5, false}} {
		var within []geom.Point
		for x := range 101 {
			within = append(within, geom.Pt(float64(x), 0.1))
		}
		tip := geom.Pt(90, c.deep)
		for i := range 20 {
			within = append(within, geom.Pt(100, 0.1).Lerp(tip, float64(i+1)/20))
		}
		for i := range 20 {
			within = append(within, tip.Lerp(geom.Pt(c.back, 0.1), float64(i+1)/20))
		}
		for x := int(c.back) + 1; x <= 300; x++ {
			within = append(within, geom.Pt(float64(x), 0.1))
		}
		within = append(within, geom.Pt(300, 99.9), geom.Pt(0, 99.9))
		got := joinedSpurs(way, within, 6, func(p geom.Point) bool { return true })
		_, _, off := geom.Polygon(got...).Nearest(tip)
		if !c.want {
			require.True(t, slices.Equal(way, got), c.name)
			continue
		}
		require.Less(t, off, 1e-9, c.name)
		for _, p := range got {
			require.False(t, p.Y == 0 && p.X > 101 && p.X < 111, "%s: %v stays", c.name, p)
		}
	}
}
