package measure_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/measure"
)

// The fixed points: water freezes at 32 F, 0 C and boils at 212 F, 100 C, and the scales meet at -40; 70 F is
// 21.1 C (NIST SP 811, appendix B, from memory).
func TestParseTemperature(t *testing.T) {
	for text, want := range map[string]float64{
		"32F": 0, "212F": 100, "-40F": -40, "-40C": -40, "\u221240 °C": -40, "0C": 0, "98.6F": 37, "21C": 21,
		"212 °F": 100, "212°F": 100, "212 deg F": 100, "212 degrees Fahrenheit": 100, "212℉": 100, "212 f": 100, "212degF": 100,
		"21 °C": 21, "21℃": 21, "21 celsius": 21, "21 1/2 C": 21.5, "20.5C": 20.5, "-148F": -100, "392F": 200,
	} {
		got, err := measure.ParseTemperature(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	got, err := measure.ParseTemperature("70F")
	require.NoError(t, err)
	assert.InDelta(t, 21.1, got, 0.05)
}

func TestParseTemperatureErrors(t *testing.T) {
	for text, reason := range map[string]string{
		"":           "it is empty",
		"70":         "it does not say Fahrenheit or Celsius",
		"70°":        "it does not say Fahrenheit or Celsius",
		"70K":        `the scale "k" is not known`,
		"F":          `a number should stand where "f" stands`,
		"NaN C":      "it is not a finite number",
		"70F C":      `"c" is left over`,
		"393F":       "it is outside the limits of -100 C and 200 C",
		"-101C":      "it is outside the limits of -100 C and 200 C",
		"70/0F":      "the denominator is 0",
		"70 degrees": "it does not say Fahrenheit or Celsius",
	} {
		_, err := measure.ParseTemperature(text)
		var ve *measure.ValueError
		require.ErrorAs(t, err, &ve, "%q", text)
		assert.Equal(t, reason, ve.Reason, "%q", text)
	}
	_, err := measure.ParseTemperature("70")
	require.EqualError(t, err, `"70" is not a temperature: it does not say Fahrenheit or Celsius; write it like 70F or 21C`)
}

func TestParsePercent(t *testing.T) {
	for text, want := range map[string]float64{
		"15%": 15, "15": 15, "15 %": 15, "12 1/2%": 12.5, "12½ per cent": 12.5, "7.5 percent": 7.5, "0": 0, "+5%": 5, "1000%": 1000,
	} {
		got, err := measure.ParsePercent(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for text, reason := range map[string]string{
		"-1%": "it must not be negative", "%": `a number should stand where "%" stands`, "15%%": `"%" is left over`, "1001": "it is over the limit of 1000%",
		"15 per mille": `the unit "permille" is not known`, "1,5%": "it has a comma; decimals take a point, thousands nothing", "": "it is empty", "inf": "it is not a finite number",
	} {
		_, err := measure.ParsePercent(text)
		var ve *measure.ValueError
		require.ErrorAs(t, err, &ve, "%q", text)
		assert.Equal(t, reason, ve.Reason, "%q", text)
	}
}

func TestParseNumber(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"3": big.NewRat(3, 1), "0.88": big.NewRat(88, 100), "7/8": big.NewRat(7, 8), "1 1/4": big.NewRat(5, 4), "-⅔": big.NewRat(-2, 3), "1-1/4": big.NewRat(5, 4),
		"-0": new(big.Rat),
	} {
		got, err := measure.ParseNumber(text)
		require.NoError(t, err, text)
		assert.Zero(t, want.Cmp(got), text)
	}
	for text, reason := range map[string]string{"3in": `"in" is left over`, "": "it is empty", "1e3": `"e3" is left over`, "1/0": "the denominator is 0", "nan": "it is not a finite number"} {
		_, err := measure.ParseNumber(text)
		var ve *measure.ValueError
		require.ErrorAs(t, err, &ve, "%q", text)
		assert.Equal(t, reason, ve.Reason, "%q", text)
	}
}
