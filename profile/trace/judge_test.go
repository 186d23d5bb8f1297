package trace

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// A square of 20 mm against one whose right side stands 0.2 mm out: the greatest distance is that, the mean less than a third of it, since
// one of four sides is off and the corners beside it a little.
func TestJudge(t *testing.T) {
	square := func(w float64) geom.Path {
		return geom.Polygon(geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, 20), geom.Pt(0, 20))
	}
	c := comparison{traced: square(20.2).Flatten(1), section: square(20), pixels: affineMapping(geom.Scaling(10, -10)), blind: 0.5}
	got, hidden := c.judge(0.15)
	require.InDelta(t, 0.2, got.Greatest, 1e-9)
	require.InDelta(t, 2, got.GreatestPx, 1e-8)
	require.InDelta(t, 0.2/4, got.Mean, 0.03)
	require.Zero(t, hidden)
	require.False(t, got.Within)
	got, _ = c.judge(0.21)
	require.True(t, got.Within)
}

// A saw cut 0.3 mm wide and 5 deep that the pen has filled is no fault of the tracing; one 0.8 mm wide is.
func TestJudgeCrevice(t *testing.T) {
	block := []geom.Point{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 20), geom.Pt(0, 20)}
	for _, width := range []float64{0.3, 0.8} {
		cut := geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 10), geom.Pt(15, 10), geom.Pt(15, 10+width), geom.Pt(20, 10+width), geom.Pt(20, 20), geom.Pt(0, 20))
		got, hidden := comparison{block, cut, affineMapping(geom.Identity()), 0.5, nil}.judge(0.3)
		if width < 0.5 {
			require.True(t, got.Within, "greatest %g at %v", got.Greatest, got.Worst)
			require.InDelta(t, 10.3, hidden, 0.8)
		} else {
			require.InDelta(t, 5, got.Greatest, 0.1)
			require.Zero(t, hidden)
		}
	}
}

// What the traced outline missed of the ink counts: where outline and section have both lost a corner of a black square of 200 px by 30 px either way, the middle of
// the cut lies 15 px from the square's sides, to the map's pixel.
func TestJudgeByInk(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 300, 300))
	for i := range img.Pix {
		img.Pix[i] = 230
		if x, y := i%300, i/300; x >= 50 && x < 250 && y >= 50 && y < 250 {
			img.Pix[i] = 30
		}
	}
	tone, err := toneOf(grayOf(img, img.Rect))
	require.NoError(t, err)
	f := newFinder(tone)
	_, err = f.only(AnyInk, tone.box)
	require.NoError(t, err)
	cut := []geom.Point{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 17), geom.Pt(17, 20), geom.Pt(0, 20)} // mm, 10 px each
	c := comparison{traced: cut, section: geom.Polygon(cut...), pixels: affineMapping(geom.Scaling(10, -10).Then(geom.Translation(geom.Pt(50, 250)))), blind: 0.3}
	got, _ := c.judge(0.2)
	require.True(t, got.Within)
	c.ink = f.ink(tone.box.Min, 0)
	got, _ = c.judge(0.2)
	require.False(t, got.Within)
	require.InDelta(t, 1.5, got.Greatest, 0.15)
	require.Less(t, got.Worst.Dist(geom.Pt(18.5, 18.5)), 0.5)
}

// What sizes may be off by adds up as independent errors do; the sizes that were given stay as they are.
func TestWidened(t *testing.T) {
	sizes := []Uncertain{{Key: "height", MM: 10, Error: 0.3}}
	require.InDelta(t, 0.5, widened(sizes, 0.4)[0].Error, 1e-12)
	require.Equal(t, 0.3, sizes[0].Error)
}
