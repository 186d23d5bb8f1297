package measure_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/measure"
)

func size(t *testing.T, text string) measure.Quantity {
	t.Helper()
	q, err := measure.ParseSize(text, measure.Inches)
	require.NoError(t, err, text)
	return q
}

func TestQuantityExact(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"1/3 in":    big.NewRat(254, 30),
		"⅓":         big.NewRat(254, 30),
		"1/3mm":     big.NewRat(1, 3),
		"0.1mm":     big.NewRat(1, 10),
		"1/7 cm":    big.NewRat(10, 7),
		"0.0001m":   big.NewRat(1, 10),
		"-1-1/8\"":  big.NewRat(-28575, 1000),
		"1/3ft":     big.NewRat(1016, 10),
		"2 1/2p":    big.NewRat(5, 2),
		"-14 parts": big.NewRat(-14, 1),
		"⅔P":        big.NewRat(2, 3),
		"1 part":    big.NewRat(1, 1),
	} {
		assert.Zero(t, want.Cmp(size(t, text).Rat()), "%s: %s", text, size(t, text).Rat())
	}
}

func TestQuantityParts(t *testing.T) {
	p := size(t, "2 1/2p")
	assert.True(t, p.IsParts())
	assert.Equal(t, 2.5, p.Parts())
	assert.True(t, math.IsNaN(p.MM()))
	assert.Equal(t, 10.0, p.Resolve(4))

	l := size(t, "2 1/2")
	assert.False(t, l.IsParts())
	assert.True(t, math.IsNaN(l.Parts()))
	assert.Equal(t, 63.5, l.MM())
	assert.Equal(t, 63.5, l.Resolve(4))
	assert.False(t, l.Equal(size(t, "63.5p")))
}

func TestQuantityZeroValue(t *testing.T) {
	var q measure.Quantity
	assert.Equal(t, "0mm", q.String())
	assert.Zero(t, q.MM())
	assert.Zero(t, q.Sign())
	assert.Zero(t, q.Neg().Sign())
	assert.True(t, q.Equal(size(t, "0 in")))
}

// A Quantity is a value: what it hands out may be changed without changing it.
func TestQuantityIsValue(t *testing.T) {
	for _, text := range []string{"3mm", "3in", "3p", "3m"} {
		q := size(t, text)
		q.Rat().SetInt64(77)
		q.Neg()
		assert.Equal(t, text, q.String())
		assert.Equal(t, "-"+text, q.Neg().String())
		assert.Equal(t, 1, q.Sign())
		assert.Equal(t, -1, q.Neg().Sign())
		assert.True(t, q.Equal(q.Neg().Neg()))
	}
}

func TestQuantityString(t *testing.T) {
	for text, want := range map[string]string{
		"1 1/8 in": "1 1/8in", "1-1/8\"": "1 1/8in", "⅜": "3/8in", "0.875\"": "0.875in", "2/4in": "1/2in", "8/4": "2in",
		"2' 3-1/2\"": "2ft 3 1/2in", "2.5ft": "2ft 6in", "8ft": "8ft", "1/2'": "0ft 6in", "-2' 3.5\"": "-2ft 3.5in", "1' 14\"": "2ft 2in",
		"19mm": "19mm", "1.90 cm": "1.9cm", "1.2 m": "1.2m", "2 1/2p": "2 1/2p", "14 parts": "14p", "2.5p": "2.5p", "-0": "0in",
		"1/3 mm": "1/3mm", "5.0": "5in",
	} {
		q := size(t, text)
		assert.Equal(t, want, q.String(), text)
		assert.True(t, q.Equal(size(t, q.String())), text)
	}
}

func TestMixed(t *testing.T) {
	for want, r := range map[string]*big.Rat{
		"0": big.NewRat(0, 1), "3": big.NewRat(3, 1), "-3": big.NewRat(-3, 1), "3/4": big.NewRat(6, 8), "-3/4": big.NewRat(-3, 4),
		"1 1/8": big.NewRat(9, 8), "-1 1/8": big.NewRat(-9, 8),
	} {
		before := new(big.Rat).Set(r)
		assert.Equal(t, want, measure.Mixed(r))
		assert.Zero(t, before.Cmp(r), "Mixed must not change its argument")
	}
}
