package measure_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/measure"
)

// The lengths are the inch count worked by hand times 25.4, the inch of NIST SP 811 appendix B (from memory).
func TestParseLength(t *testing.T) {
	const mm, in = measure.Millimeters, measure.Inches
	for _, tt := range []struct {
		text string
		bare measure.Units
		want float64 // mm
	}{
		{`3/4in`, mm, 19.05},
		{`3/4"`, mm, 19.05},
		{`1 1/8 in`, mm, 28.575},
		{`1-1/8"`, mm, 28.575},
		{`⅜"`, mm, 9.525},
		{`0.875in`, mm, 22.225},
		{`19mm`, in, 19},
		{`1.9 cm`, in, 19},
		{`2ft 3 1/2in`, mm, 698.5},
		{`2' 3-1/2"`, mm, 698.5},

		// bare
		{`1 3/4`, in, 44.45},
		{`1 3/4`, mm, 1.75},
		{`⅜`, in, 9.525},
		{`42`, in, 1066.8},
		{`0`, mm, 0},

		// units by other names
		{`3/4-in`, mm, 19.05}, {`3/4-inch`, mm, 19.05}, {`2 IN.`, mm, 50.8}, {`2 inches`, mm, 50.8},
		{`8ft`, mm, 2438.4}, {`8 ft.`, mm, 2438.4}, {`1 foot`, mm, 304.8}, {`8 feet`, mm, 2438.4}, {`8'`, mm, 2438.4},
		{`1.2 m`, in, 1200}, {`2 meters`, in, 2000}, {`5 Centimetres`, in, 50}, {`3 millimeters`, in, 3},

		// feet and inches
		{`2ft3in`, mm, 685.8}, {`2'3"`, mm, 685.8}, {`2'-3 1/2"`, mm, 698.5}, {`2' - 3½"`, mm, 698.5},
		{`2 ft. 3 in.`, mm, 685.8}, {`2' 3`, mm, 685.8}, {`2' 0"`, mm, 609.6}, {`0' 3"`, mm, 76.2},
		{`1/2'`, mm, 152.4}, {`2.5 ft`, mm, 762}, {`2' 0.5"`, mm, 622.3},

		// signs of all kinds
		{"3/4″", mm, 19.05}, {"3/4”", mm, 19.05}, {"3/4“", mm, 19.05}, {"3/4''", mm, 19.05}, {"3/4’’", mm, 19.05},
		{"2′ 3½″", mm, 698.5}, {"2’ 3½”", mm, 698.5}, {"2‘ 3½“", mm, 698.5}, {"2ʹ 3½ʺ", mm, 698.5},
		{"1 3⁄4 in", mm, 44.45}, {"1 7∕16 in", mm, 36.5125}, {"1‑1/8 in", mm, 28.575}, {"1–1/8 in", mm, 28.575},

		// spaces
		{"  3/4  in  ", mm, 19.05}, {"3 / 4 in", mm, 19.05}, {"1  1 / 8\tin", mm, 28.575}, {"1\u00a01/8\u2009in", mm, 28.575},
		{"1 ⅜ in", mm, 34.925}, {"1⅜in", mm, 34.925}, {"1-⅜in", mm, 34.925}, {" 19 mm\n", in, 19},

		// the sign negates all of it
		{`-1-1/8"`, mm, -28.575}, {"\u22121 1/8 in", mm, -28.575}, {`- 1/4`, in, -6.35}, {`+1/4`, in, 6.35},
		{`-2' 3-1/2"`, mm, -698.5}, {`-0`, in, 0}, {"–⅜", in, -9.525},

		// forms of numbers
		{`8/4`, in, 50.8}, {`.5in`, mm, 12.7}, {`2. in`, mm, 50.8}, {`00.50in`, mm, 12.7}, {`0/4 in`, mm, 0},
		{`⅟16 in`, mm, 1.5875}, {`1⅟8 in`, mm, 28.575}, {`44.449999999999996`, mm, 44.449999999999996},
		{`20m`, in, 20000}, {`-20000`, mm, -20000},
	} {
		got, err := measure.ParseLength(tt.text, tt.bare)
		require.NoError(t, err, tt.text)
		assert.Equal(t, tt.want, got, tt.text)
	}
}

// Every vulgar fraction character is read as what its Unicode name says.
func TestParseLengthFractionCharacters(t *testing.T) {
	for text, want := range map[string]string{
		"¼": "1/4", "½": "1/2", "¾": "3/4", "⅐": "1/7", "⅑": "1/9", "⅒": "1/10", "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5",
		"⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "↉": "0/3",
	} {
		got, err := measure.ParseSize("2"+text, measure.Inches)
		require.NoError(t, err, text)
		plain, err := measure.ParseSize("2 "+want, measure.Inches)
		require.NoError(t, err, want)
		assert.Zero(t, got.Rat().Cmp(plain.Rat()), text)
	}
}

func TestParseLengthErrors(t *testing.T) {
	for text, reason := range map[string]string{
		``:                             "it is empty",
		" \t ":                         "it is empty",
		`abc`:                          `a number should stand where "abc" stands`,
		`in`:                           `a number should stand where "in" stands`,
		`-`:                            "the number is missing",
		`NaN`:                          "it is not a finite number",
		`-Inf`:                         "it is not a finite number",
		`∞`:                            "it is not a finite number",
		`+infinity in`:                 "it is not a finite number",
		`3/0 in`:                       "the denominator is 0",
		`1 3/000`:                      "the denominator is 0",
		`3/`:                           "the fraction has no denominator",
		`3/in`:                         "the fraction has no denominator",
		`1 5/4 in`:                     "the fraction after a whole number must be less than 1",
		`1 8/8 in`:                     "the fraction after a whole number must be less than 1",
		`1.5/2`:                        "a fraction is made of whole numbers",
		`1/2.5`:                        "a fraction is made of whole numbers",
		`1.5 1/2`:                      `"1/2" is left over`,
		`1/2/3`:                        `"/3" is left over`,
		`1/2½`:                         `"½" is left over`,
		`1 2 in`:                       `"2 in" is left over`,
		`1 -1/8`:                       `"-1/8" is left over`,
		`2-3 in`:                       `"-3 in" is left over`,
		`3in 4`:                        `"4" is left over`,
		`19mm 3in`:                     `"3in" is left over`,
		`--1`:                          "it has two signs",
		`-+1`:                          "it has two signs",
		`1..5`:                         `".5" is left over`,
		`.`:                            "a decimal point needs digits",
		`.in`:                          "a decimal point needs digits",
		`1,5 cm`:                       "it has a comma; decimals take a point, thousands nothing",
		`1 3/4+ in`:                    "the + behind the number marks a rounded length; leave it out or give the length exactly",
		`1 3/4- in`:                    "the - behind the number marks a rounded length; leave it out or give the length exactly",
		`1¾″+`:                         "the + behind the number marks a rounded length; leave it out or give the length exactly",
		`1e3`:                          `the unit "e" is not known`,
		`0x10`:                         `the unit "x" is not known`,
		`127O`:                         `it ends in the letter O; the digit 0 may be meant`,
		`3 furlongs`:                   `the unit "furlongs" is not known`,
		`2ft 3mm`:                      "only inches may follow feet",
		`2ft 3ft`:                      "only inches may follow feet",
		`2.5ft 3in`:                    "feet that inches follow must be a whole number",
		`½' 3"`:                        "feet that inches follow must be a whole number",
		`2ft.5`:                        "inches behind feet need a digit before the point",
		`2ft in`:                       `a number should stand where "in" stands`,
		`2' 3" 4`:                      `"4" is left over`,
		`2 1/2p`:                       "parts have no meaning here",
		`14 parts`:                     "parts have no meaning here",
		"3/4\x00in":                    `"\x00in" is left over`,
		"3\xff":                        "it is not valid UTF-8 text",
		`1234567890/16`:                "it has too many digits",
		`1/1234567890`:                 "it has too many digits",
		strings.Repeat("1", 25):        "it has too many digits",
		"0." + strings.Repeat("1", 25): "it has too many digits",
		strings.Repeat("9", 41):        "it is longer than 40 characters",
	} {
		_, err := measure.ParseLength(text, measure.Inches)
		var le *measure.LengthError
		require.ErrorAs(t, err, &le, "%q", text)
		assert.Equal(t, text, le.Text)
		assert.Equal(t, reason+`; write it like 3/4 in, 1 1/8", 2ft 3 1/2in, 19mm or 1.9 cm`, le.Reason, "%q", text)
	}
}

func TestParseLengthLimit(t *testing.T) {
	for _, text := range []string{"20.000001m", "20001mm", "-20001mm", "65ft 7.5in", "788in", strings.Repeat("9", 24) + "ft"} {
		_, err := measure.ParseLength(text, measure.Millimeters)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), "is not a length: it is over the limit of 20 m", text)
	}
	_, err := measure.ParseSize("10000 1/2p", measure.Inches)
	require.EqualError(t, err, `"10000 1/2p" is not a length: it is more than 10000 parts`)
}

// An error shows the text as it was typed.
func TestLengthErrorQuotes(t *testing.T) {
	for text, want := range map[string]string{
		"3/0 in":                "\"3/0 in\" is not a length: ",
		`3/0"`:                  "`3/0\"` is not a length: ",
		"⅜x":                    "\"⅜x\" is not a length: ",
		"3\"\n`":                "\"3\\\"\\n`\" is not a length: ",
		strings.Repeat("9", 99): "\"" + strings.Repeat("9", 40) + "...\" is not a length: ",
	} {
		_, err := measure.ParseLength(text, measure.Inches)
		require.Error(t, err)
		assert.True(t, strings.HasPrefix(err.Error(), want), "%s", err)
	}
}

func TestParsePositive(t *testing.T) {
	mm, err := measure.ParsePositive("1/8", measure.Inches)
	require.NoError(t, err)
	assert.Equal(t, 3.175, mm)
	for _, text := range []string{"0", "-1/8", "0/3in", "-0"} {
		_, err = measure.ParsePositive(text, measure.Inches)
		require.EqualError(t, err, `"`+text+`" is not a length: it must be more than 0`)
	}
	_, err = measure.ParsePositive("x", measure.Inches)
	var le *measure.LengthError
	assert.True(t, errors.As(err, &le))
}

// The international foot is 0.3048 m, and 36 ft are 10.9728 m: NIST SP 811, B.7 (from memory).
func TestParseLengthPublished(t *testing.T) {
	for text, want := range map[string]float64{"1ft": 304.8, "36 ft": 10972.8, "1 in": 25.4} {
		mm, err := measure.ParseLength(text, measure.Millimeters)
		require.NoError(t, err)
		assert.Equal(t, want, mm, text)
	}
}

func TestParseUnits(t *testing.T) {
	for text, want := range map[string]measure.Units{
		"in": measure.Inches, " Inches ": measure.Inches, "inch": measure.Inches, "mm": measure.Millimeters, "MM": measure.Millimeters,
		"millimeters": measure.Millimeters, "millimetre": measure.Millimeters,
	} {
		u, err := measure.ParseUnits(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, u, text)
		again, err := measure.ParseUnits(u.String())
		require.NoError(t, err)
		assert.Equal(t, u, again)
	}
	_, err := measure.ParseUnits("cm")
	require.EqualError(t, err, `"cm" is not a unit: it is neither inches nor millimeters; write in or mm`)
}
