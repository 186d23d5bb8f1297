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

	l := size(t, "2 1/2")
	assert.False(t, l.IsParts())
	assert.True(t, math.IsNaN(l.Parts()))
	assert.Equal(t, 63.5, l.MM())
}

func TestQuantityZeroValue(t *testing.T) {
	var q measure.Quantity
	assert.False(t, q.IsParts())
	assert.Zero(t, q.MM())
	assert.Zero(t, q.Sign())
	assert.Zero(t, q.Rat().Sign())
}

// A Quantity is a value: what it hands out may be changed without changing it.
func TestQuantityIsValue(t *testing.T) {
	for text, want := range map[string]*big.Rat{"3mm": big.NewRat(3, 1), "3in": big.NewRat(762, 10), "-3p": big.NewRat(-3, 1), "3m": big.NewRat(3000, 1)} {
		q := size(t, text)
		q.Rat().SetInt64(77)
		assert.Zero(t, want.Cmp(q.Rat()), text)
		assert.Equal(t, want.Sign(), q.Sign(), text)
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
