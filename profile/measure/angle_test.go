package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
)

func TestParseAngle(t *testing.T) {
	for text, want := range map[string]geom.Angle{
		"38deg": 38 * geom.Degree, "38°": 38 * geom.Degree, "38": 38 * geom.Degree, " 38 degrees ": 38 * geom.Degree,
		"38 deg.": 38 * geom.Degree, "1 degree": 1 * geom.Degree, "38º": 38 * geom.Degree, "38-deg": 38 * geom.Degree,
		"38.5": 38.5 * geom.Degree, "38 1/2°": 38.5 * geom.Degree, "38½°": 38.5 * geom.Degree, "22 1/2": 22.5 * geom.Degree,
		"38° 30'": 38.5 * geom.Degree, "38°30′": 38.5 * geom.Degree, "38deg 30min": 38.5 * geom.Degree, "38° 30.5'": (38 + 30.5/60) * geom.Degree,
		"38° 30' 36\"": 38.51 * geom.Degree, "38°30′36″": 38.51 * geom.Degree, "38° 30' 36''": 38.51 * geom.Degree, "0° 0' 1/2\"": 0.5 / 3600 * geom.Degree,
		"-38°": -38 * geom.Degree, "\u221238° 30'": -38.5 * geom.Degree, "-0": 0,
		"360": 360 * geom.Degree, "270": 270 * geom.Degree,
		"1 in 1": 45 * geom.Degree, "12:12": 45 * geom.Degree, "0 in 12": 0,
	} {
		got, err := measure.ParseAngle(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want.Radians(), got.Radians(), 1e-15, text)
		assert.False(t, got == 0 && math.Signbit(float64(got)), "%s gives -0", text)
	}
}

// The slope 1 in 12, the steepest of a ramp, is 4.76 degrees; a roof of 8 in 12 is 33.69 degrees (tables of roof
// pitches; from memory).
func TestParseAngleSlope(t *testing.T) {
	for text, want := range map[string]float64{"1 in 12": 4.7636, "1:12": 4.7636, "8 in 12": 33.6901, "-8 in 12": -33.6901, "1/2 in 6": 4.7636} {
		got, err := measure.ParseAngle(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got.Degrees(), 5e-5, text)
	}
}

// Whole degrees that are read equal the constants of code to the last bit.
func TestParseAngleLastBit(t *testing.T) {
	for text, want := range map[string]geom.Angle{"45": 45 * geom.Degree, "90": 90 * geom.Degree, "135": 135 * geom.Degree, "270": 270 * geom.Degree, "38.5": 38.5 * geom.Degree, "20": 20 * geom.Degree} {
		got, err := measure.ParseAngle(text)
		require.NoError(t, err)
		assert.Equal(t, want, got, text)
	}
}

func TestParseAngleErrors(t *testing.T) {
	for text, reason := range map[string]string{
		"":              "it is empty",
		"deg":           `a number should stand where "deg" stands`,
		"NaN":           "it is not a finite number",
		"38 grad":       `the unit "grad" is not known`,
		"38'":           `the unit "'" is not known`,
		"38 30'":        `"30'" is left over`,
		"38° 30":        "the sign for minutes is missing",
		"38° 30\"":      "the sign for minutes is missing",
		"38° 30' 15":    "the sign for seconds is missing",
		"38° 60'":       "it has 60 or more minutes",
		"38° 5' 60\"":   "it has 60 or more seconds",
		"38.5° 30'":     "only the last of degrees, minutes and seconds may have a fraction",
		"38° 1/2' 3\"":  "only the last of degrees, minutes and seconds may have a fraction",
		"38° x":         `a number should stand where "x" stands`,
		"38° 1' 2\" 3":  `"3" is left over`,
		"361":           "it is over the limit of 360 degrees",
		"360° 0' 1\"":   "it is over the limit of 360 degrees",
		"1 in 0":        "the run of the slope is 0",
		"1 in":          "the number is missing",
		"1 in 12 in 12": `"in 12" is left over`,
		"1/0":           "the denominator is 0",
	} {
		_, err := measure.ParseAngle(text)
		var ve *measure.ValueError
		require.ErrorAs(t, err, &ve, "%q", text)
		assert.Equal(t, text, ve.Text)
		assert.Equal(t, reason, ve.Reason, "%q", text)
	}
	_, err := measure.ParseAngle("400")
	require.EqualError(t, err, `"400" is not an angle: it is over the limit of 360 degrees; write it like 38deg, 38°, 38, 38° 30' or, as a slope, 1 in 12`)
}
