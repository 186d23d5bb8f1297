package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
)

// Worked by hand: mm / 25.4 in sixty-fourths, marked when off by more than 1/256 in = 0.0039 in = 0.0992 mm.
func TestFormatInches(t *testing.T) {
	for _, tt := range []struct {
		mm            float64
		fraction      int
		length, drawn string
	}{
		{44.45, 0, "1 3/4 in", "1¾″"},
		{44.5, 0, "1 3/4 in", "1¾″"},        // 0.05 mm over
		{44.6, 0, "1 3/4+ in", "1¾″+"},      // 0.15 mm over
		{44.3, 0, "1 3/4- in", "1¾″\u2212"}, // 0.15 mm under
		{44.45 + 25.4/256, 0, "1 3/4 in", "1¾″"},
		{44.45 - 25.4/256, 0, "1 3/4 in", "1¾″"},
		{44.45 + 25.4/255, 0, "1 3/4+ in", "1¾″+"},
		{44.45 - 25.4/255, 0, "1 3/4- in", "1¾″\u2212"},
		{44.45 + 25.4/128, 0, "1 49/64- in", "1 49⁄64″\u2212"}, // half a sixty-fourth rounds up
		{19.05, 0, "3/4 in", "¾″"},
		{9.525, 0, "3/8 in", "⅜″"},
		{3.175, 0, "1/8 in", "⅛″"},
		{11.1125, 0, "7/16 in", "7⁄16″"},
		{61.9125, 0, "2 7/16 in", "2 7⁄16″"},
		{0.396875, 0, "1/64 in", "1⁄64″"},
		{1066.8, 0, "42 in", "42″"},
		{25.3, 0, "1- in", "1″\u2212"},
		{25.35, 0, "1 in", "1″"}, // carries into the whole inch
		{0, 0, "0 in", "0″"},
		{0.05, 0, "0 in", "0″"},
		{0.15, 0, "0+ in", "0″+"},
		{-0.05, 0, "0 in", "0″"},
		{-0.15, 0, "0- in", "0″\u2212"},
		{math.Copysign(0, -1), 0, "0 in", "0″"},
		{-44.45, 0, "-1 3/4 in", "\u22121¾″"},
		{-44.6, 0, "-1 3/4+ in", "\u22121¾″+"}, // the size is a little more
		{29.36875, 32, "1 5/32 in", "1 5⁄32″"},
		{29.36875, 16, "1 3/16- in", "1 3⁄16″\u2212"},
		{29.36875, 8, "1 1/8+ in", "1⅛″+"},
		{29.36875, 2, "1+ in", "1″+"},
		{8.4666666666666, 12, "1/3 in", "1⁄3″"},
		{29.36875, 1, "1 5/32 in", "1 5⁄32″"},   // out of range: 64
		{29.36875, 65, "1 5/32 in", "1 5⁄32″"},  // out of range: 64
		{29.36875, -16, "1 5/32 in", "1 5⁄32″"}, // out of range: 64
		{math.NaN(), 0, "? in", "?″"},
		{math.Inf(1), 0, "? in", "?″"},
		{math.Inf(-1), 0, "? in", "?″"},
		{1e300, 0, "? in", "?″"},
	} {
		f := measure.Format{Units: measure.Inches, Fraction: tt.fraction}
		assert.Equal(t, tt.length, f.Length(tt.mm), "%v mm to 1/%d", tt.mm, tt.fraction)
		assert.Equal(t, tt.length, f.Bare(tt.mm)+" in")
		assert.Equal(t, tt.drawn, f.Drawing(tt.mm), "%v mm to 1/%d", tt.mm, tt.fraction)
	}
}

func TestFormatFeet(t *testing.T) {
	f := measure.Format{Units: measure.Inches, Feet: true}
	for _, tt := range []struct {
		mm            float64
		length, drawn string
	}{
		{698.5, "2 ft 3 1/2 in", "2′ 3½″"},
		{609.6, "2 ft 0 in", "2′ 0″"},
		{609.6 + 0.15, "2 ft 0+ in", "2′ 0″+"},
		{609.6 - 0.05, "2 ft 0 in", "2′ 0″"},
		{609.6 - 0.15, "2 ft 0- in", "2′ 0″\u2212"},
		{304.7999, "1 ft 0 in", "1′ 0″"},
		{298.45, "11 3/4 in", "11¾″"},
		{-698.65, "-2 ft 3 1/2+ in", "\u22122′ 3½″+"},
		{math.NaN(), "? in", "?″"},
	} {
		assert.Equal(t, tt.length, f.Length(tt.mm), "%v", tt.mm)
		assert.Equal(t, tt.drawn, f.Drawing(tt.mm), "%v", tt.mm)
	}
	assert.Equal(t, "27 1/2", f.Bare(698.5))
	assert.Equal(t, "27 1/2 in (27.500)", f.Set(698.5))
	assert.Equal(t, "27½″ (27.500)", f.SetDrawing(698.5))
}

func TestFormatMillimeters(t *testing.T) {
	f := measure.Format{}
	for _, tt := range []struct {
		mm                                  float64
		length, drawn, set, setDrawn, entry string
	}{
		{44.45, "44.5 mm", "44.5 mm", "44.45 mm", "44.45 mm", "44.45"}, // halves away from 0
		{44.44, "44.4 mm", "44.4 mm", "44.44 mm", "44.44 mm", "44.44"},
		{19, "19.0 mm", "19.0 mm", "19.00 mm", "19.00 mm", "19"},
		{1.005, "1.0 mm", "1.0 mm", "1.01 mm", "1.01 mm", "1.005"}, // a half that binary holds as less
		{-0.04, "0.0 mm", "0.0 mm", "-0.04 mm", "\u22120.04 mm", "-0.04"},
		{-0.004, "0.0 mm", "0.0 mm", "0.00 mm", "0.00 mm", "-0.004"},
		{math.Copysign(0, -1), "0.0 mm", "0.0 mm", "0.00 mm", "0.00 mm", "0"},
		{-44.45, "-44.5 mm", "\u221244.5 mm", "-44.45 mm", "\u221244.45 mm", "-44.45"},
		{1e-9, "0.0 mm", "0.0 mm", "0.00 mm", "0.00 mm", "0"},
		{100, "100.0 mm", "100.0 mm", "100.00 mm", "100.00 mm", "100"},
		{math.NaN(), "? mm", "? mm", "? mm", "? mm", "?"},
		{math.Inf(-1), "? mm", "? mm", "? mm", "? mm", "?"},
	} {
		assert.Equal(t, tt.length, f.Length(tt.mm), "%v", tt.mm)
		assert.Equal(t, tt.length, f.Bare(tt.mm)+" mm", "%v", tt.mm)
		assert.Equal(t, tt.drawn, f.Drawing(tt.mm), "%v", tt.mm)
		assert.Equal(t, tt.set, f.Set(tt.mm), "%v", tt.mm)
		assert.Equal(t, tt.setDrawn, f.SetDrawing(tt.mm), "%v", tt.mm)
		assert.Equal(t, tt.entry, f.Entry(tt.mm), "%v", tt.mm)
	}
}

func TestFormatSetAndEntryInches(t *testing.T) {
	f := measure.Format{Units: measure.Inches, Fraction: 16}
	assert.Equal(t, "1 3/4 in (1.750)", f.Set(44.45))
	assert.Equal(t, "3/8+ in (0.396)", f.Set(10.0584))
	assert.Equal(t, "⅜″+ (0.396)", f.SetDrawing(10.0584))
	assert.Equal(t, "-1/16 in (-0.063)", f.Set(-1.5875)) // halves away from 0
	assert.Equal(t, "\u22121⁄16″ (\u22120.063)", f.SetDrawing(-1.5875))
	assert.Equal(t, "? in (?)", f.Set(math.NaN()))

	assert.Equal(t, "1 3/4", f.Entry(44.45))
	assert.Equal(t, "-1/64", f.Entry(-0.396875), "an entry is to 1/64 whatever is printed")
	assert.Equal(t, "0.396", f.Entry(10.0584))
	assert.Equal(t, "0.03937008", f.Entry(1))
	assert.Equal(t, "0", f.Entry(-1e-9))
	assert.Equal(t, "?", f.Entry(math.NaN()))
}

func TestFormatShown(t *testing.T) {
	in := measure.Format{Units: measure.Inches}
	assert.Equal(t, 44.45, in.Shown(44.6))
	assert.Equal(t, -44.45, in.Shown(-44.6))
	assert.Equal(t, 44.6, measure.Format{}.Shown(44.64))
	for _, f := range []measure.Format{in, {}} {
		assert.True(t, math.IsNaN(f.Shown(math.NaN())))
		assert.True(t, math.IsNaN(f.Shown(math.Inf(1))))
		assert.False(t, math.Signbit(f.Shown(-0.01)))
	}
}

func TestFormatAngle(t *testing.T) {
	f := measure.Format{}
	for _, tt := range []struct {
		a           geom.Angle
		text, entry string
	}{
		{31.633 * geom.Degree, "31.63°", "31.633deg"},
		{31.619 * geom.Degree, "31.6°", "31.619deg"},
		{45.25 * geom.Degree, "45.25°", "45.25deg"},
		{0.5 * geom.Degree, "0.5°", "0.5deg"},
		{44.98 * geom.Degree, "45.0°", "44.98deg"},
		{38 * geom.Degree, "38.0°", "38deg"},
		{31.65 * geom.Degree, "31.65°", "31.65deg"},
		{-0.02 * geom.Degree, "0.0°", "-0.02deg"},
		{0, "0.0°", "0deg"},
		{-22.5 * geom.Degree, "-22.5°", "-22.5deg"},
		{geom.Angle(math.NaN()), "?°", "?deg"},
	} {
		assert.Equal(t, tt.text, f.Angle(tt.a))
		assert.Equal(t, tt.entry, f.AngleEntry(tt.a))
	}
}

func TestFormatTemperature(t *testing.T) {
	c, err := measure.ParseTemperature("70F")
	require.NoError(t, err)
	assert.Equal(t, "70°F", measure.Format{Units: measure.Inches}.Temperature(c))
	assert.Equal(t, "21°C", measure.Format{}.Temperature(c))
	assert.Equal(t, "-40°F", measure.Format{Units: measure.Inches}.Temperature(-40))
}

func TestFormatValidate(t *testing.T) {
	for _, ok := range []int{0, 2, 10, 16, 32, 64} {
		require.NoError(t, measure.Format{Fraction: ok}.Validate())
	}
	for _, bad := range []int{-1, 1, 65, 128} {
		var ve *measure.ValueError
		require.ErrorAs(t, measure.Format{Fraction: bad}.Validate(), &ve)
	}
	require.EqualError(t, measure.Format{Fraction: 128}.Validate(),
		`"128" is not a fraction of an inch: the finest fraction printed is one of 1/2 to 1/64; write 16, 32 or 64`)
}

// Decimals and millimeters of the fractional sizes of twist drills (ASME B94.11M, from memory): they print as the
// fraction that they are sold by.
func TestFormatDrillSizes(t *testing.T) {
	f := measure.Format{Units: measure.Inches}
	for want, mm := range map[string]float64{
		"1/64": 0.397, "1/32": 0.794, "3/64": 1.191, "1/16": 1.588, "5/64": 1.984, "3/32": 2.381, "7/64": 2.778, "1/8": 3.175, "9/64": 3.572,
		"5/32": 3.969, "11/64": 4.366, "3/16": 4.762, "13/64": 5.159, "7/32": 5.556, "15/64": 5.953, "1/4": 6.350, "5/16": 7.938, "3/8": 9.525,
		"7/16": 11.112, "1/2": 12.700, "5/8": 15.875, "3/4": 19.050, "7/8": 22.225, "1": 25.400,
	} {
		assert.Equal(t, want, f.Bare(mm))
		got, err := measure.ParseLength(want, measure.Inches)
		require.NoError(t, err)
		assert.InDelta(t, mm, got, 0.00051)
	}
}

// A rough length is printed as no less than it is, without a mark; what a saw cannot tell is no more.
func TestFormatNoLess(t *testing.T) {
	const in = measure.MMPerInch
	for _, c := range []struct {
		f    measure.Format
		mm   float64
		want string
	}{
		{measure.Format{Units: measure.Inches}, 40 * in, "40"},
		{measure.Format{Units: measure.Inches}, 40.005 * in, "40 1/64"},
		{measure.Format{Units: measure.Inches}, (40 + 1.0/64 - 0.005) * in, "40 1/64"},
		{measure.Format{Units: measure.Inches}, 40*in + 0.001, "40"},
		{measure.Format{Units: measure.Inches, Fraction: 16}, 40.01 * in, "40 1/16"},
		{measure.Format{}, 1016.04, "1016.1"},
		{measure.Format{}, 1016, "1016.0"},
	} {
		require.Equal(t, c.want, c.f.Bare(c.f.NoLess(c.mm)), "%v", c)
		require.GreaterOrEqual(t, c.f.NoLess(c.mm), c.mm-0.002)
	}
	require.True(t, math.IsNaN(measure.Format{Units: measure.Inches}.NoLess(math.NaN())))
}

// Angles that stand beside one another have the same decimals.
func TestAnglesHaveTheSameDecimals(t *testing.T) {
	var f measure.Format
	require.Equal(t, []string{"44.75°", "0.00°"}, f.Angles(44.75*geom.Degree, 0))
	require.Equal(t, []string{"45.0°", "31.6°"}, f.Angles(45*geom.Degree, 31.61*geom.Degree))
	require.Equal(t, "45.0°", f.Angle(45*geom.Degree))
}
