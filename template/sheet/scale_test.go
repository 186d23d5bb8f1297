package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"listel/profile/geom"
	"listel/template/sheet"
)

func TestFitScale(t *testing.T) {
	room := geom.Rect{Max: geom.Pt(180, 240)}
	for _, c := range []struct {
		w, h   float64
		inches bool
		words  string
	}{
		{180, 240, false, "1:1"}, {181, 10, false, "1:2"}, {1067, 1727, true, "1:8"}, {1067, 1727, false, "1:10"}, {1e6, 1, true, "1:96"},
	} {
		k, words := sheet.FitScale(geom.Rect{Max: geom.Pt(c.w, c.h)}, room, c.inches)
		assert.Equal(t, c.words, words)
		if c.w < 1e6 {
			assert.LessOrEqual(t, k*c.w, 180.0)
			assert.LessOrEqual(t, k*c.h, 240.0)
		}
	}
}

func TestIn(t *testing.T) {
	room := geom.Rect{Min: geom.Pt(10, 20), Max: geom.Pt(110, 220)}
	d := sheet.Drawing{sheet.Dot(geom.Pt(-50, 7), 3)}
	assert.InDelta(t, 0, d.In(room).Bounds().Center().Dist(geom.Pt(60, 120)), 1e-9)
	assert.Empty(t, sheet.Drawing(nil).In(room))
}
