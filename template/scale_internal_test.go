package template

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
)

func TestScaleFor(t *testing.T) {
	const roomW, roomH = 180.0, 240.0
	for _, c := range []struct {
		w, h  float64
		units measure.Units
		words string
	}{
		{180, 240, measure.Millimeters, "full size"}, {181, 10, measure.Millimeters, "1:2"}, {1067, 1727, measure.Inches, "1:8"},
		{1067, 1727, measure.Millimeters, "1:10"}, {1e6, 1, measure.Inches, "1:256"},
	} {
		k := Style{Lengths: measure.Format{Units: c.units}}.scaleFor(c.w, c.h, roomW, roomH)
		require.Equal(t, c.words, jointScale(k))
		if c.w < 1e6 {
			require.LessOrEqual(t, k*c.w, roomW+1e-6)
			require.LessOrEqual(t, k*c.h, roomH+1e-6)
		}
	}
}
