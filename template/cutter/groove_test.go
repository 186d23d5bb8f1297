package cutter

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// A plane cut down between two walls runs in a groove, one at an edge of the blank does not, nor one beside wood that is gone already. Worked by hand.
func TestWhatIsAGroove(t *testing.T) {
	s, err := newSearch(context.Background(), grooved(8), []Tool{{Name: "rabbet", Kind: RabbetPlane, Width: 6, Reach: 60, PerPass: 1}}, Options{Effort: Quick, Works: []Work{Plane}})
	require.NoError(t, err)
	var down *view // the view from the foot, up
	for _, v := range s.views {
		if v.up.Near(geom.Pt(0, -1), 1e-9) {
			down = v
		}
	}
	require.NotNil(t, down)
	cutAt := func(x float64) *cut {
		u := down.in(geom.Pt(x, 16))
		return &cut{view: down, variant: s.variants[0][0], x: u.X, h: u.Y}
	}
	box := func(x0, x1 float64) polygon {
		return newPolygon([]geom.Point{geom.Pt(x0, -1), geom.Pt(x1, -1), geom.Pt(x1, 16), geom.Pt(x0, 16)})
	}
	grooves := func(c *cut, from float64, gone ...polygon) bool {
		before := newBlock(s.t.blank)
		for _, g := range gone {
			before.cut(g)
		}
		after := before.clone()
		after.cut(box(from, from+6))
		return s.grooves(c, before, after)
	}
	require.True(t, grooves(cutAt(19), 16))
	require.False(t, grooves(cutAt(27), 24), "at the front")
	require.False(t, grooves(cutAt(19), 16, box(22, 31)), "the front wall is gone")
}

// A stick is turned over where a plane would come lower than what lies down, and lies under it wherever it can.
func TestThePlaneStaysOverTheBench(t *testing.T) {
	r, err := Plan(context.Background(), overhung(), metricSet(), Options{Effort: Quick, Works: []Work{Plane}})
	require.NoError(t, err)
	for _, u := range r.Setups {
		require.Greater(t, u.Height, -0.2, "step %d, %s", u.N, u.Tool)
	}
}
