package measure_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/measure"
)

// The values are the inch count worked by hand times 25.4 (exact; NIST SP 811, from memory).
func TestParseLength(t *testing.T) {
	for _, tt := range []struct {
		text string
		bare measure.Units
		mm   float64
	}{
		{`3/4in`, measure.Millimeters, 19.05},
		{`3/4"`, measure.Millimeters, 19.05},
		{`1 1/8 in`, measure.Millimeters, 28.575},
		{`1-1/8"`, measure.Millimeters, 28.575},
		{`⅜"`, measure.Millimeters, 9.525},
		{`0.875in`, measure.Millimeters, 22.225},
		{`19mm`, measure.Inches, 19},
		{`1.9 cm`, measure.Inches, 19},
		{`2ft 3 1/2in`, measure.Millimeters, 698.5},
		{`2' 3-1/2"`, measure.Millimeters, 698.5},
		{`1 3/4`, measure.Inches, 44.45},
		{`1 3/4`, measure.Millimeters, 1.75},
	} {
		mm, err := measure.ParseLength(tt.text, tt.bare)
		require.NoError(t, err, tt.text)
		assert.Equal(t, tt.mm, mm, tt.text)
	}
}
