package sheet_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/template/sheet"
)

// ISO 216 A series, mm, as seen in a copy of an encyclopedia's table of the standard. The rule beside it, that each next
// size halves the long side and drops the fraction, is from memory for the "drops" and fits every row.
func TestISO216(t *testing.T) {
	sizes := map[string][2]float64{
		"A0": {841, 1189}, "A1": {594, 841}, "A2": {420, 594}, "A3": {297, 420}, "A4": {210, 297}, "A5": {148, 210},
		"A6": {105, 148}, "A7": {74, 105}, "A8": {52, 74}, "A9": {37, 52}, "A10": {26, 37},
	}
	for name, want := range sizes {
		p := paper(t, name)
		assert.Equal(t, want, [2]float64{p.Width, p.Height}, name)
	}
	names := []string{"A0", "A1", "A2", "A3", "A4", "A5", "A6", "A7", "A8", "A9", "A10"}
	for i := 1; i < len(names); i++ {
		big, small := paper(t, names[i-1]), paper(t, names[i])
		assert.Equal(t, big.Width, small.Height)
		assert.Equal(t, math.Floor(big.Height/2), small.Width)
	}
	a0 := paper(t, "A0")
	assert.InDelta(t, 1e6, a0.Width*a0.Height, 1e3, "A0 is a square meter")
}

// ASME Y14.1 sizes A to F, in, from an encyclopedia's page on ANSI/ASME Y14.1; its rounded mm beside them. Arch A to E, in,
// from a page on drafting standards (northernarchitecture.us).
func TestInchPapers(t *testing.T) {
	for name, want := range map[string][2]float64{
		"ANSI A": {8.5, 11}, "ANSI B": {11, 17}, "ANSI C": {17, 22}, "ANSI D": {22, 34}, "ANSI E": {34, 44}, "ANSI F": {28, 40},
		"Arch A": {9, 12}, "Arch B": {12, 18}, "Arch C": {18, 24}, "Arch D": {24, 36}, "Arch E": {36, 48},
		"Letter": {8.5, 11},
	} {
		p := paper(t, name)
		assert.InDelta(t, want[0]*25.4, p.Width, 1e-9, name)
		assert.InDelta(t, want[1]*25.4, p.Height, 1e-9, name)
	}
	for name, want := range map[string][2]float64{
		"ANSI A": {216, 279}, "ANSI B": {279, 432}, "ANSI C": {432, 559}, "ANSI D": {559, 864}, "ANSI E": {864, 1118},
	} {
		p := paper(t, name)
		assert.Equal(t, want, [2]float64{math.Round(p.Width), math.Round(p.Height)}, name)
	}
}

func TestPaperNamed(t *testing.T) {
	for _, name := range []string{"a4", "A4 portrait", "A-4", " A4"} {
		assert.Equal(t, 210.0, paper(t, name).Width, name)
	}
	assert.Equal(t, 297.0, paper(t, "a4-landscape").Width)
	assert.Equal(t, "ANSI B", paper(t, "ansi-b").Name)
	_, err := sheet.PaperNamed("xyzzy")
	var e *sheet.PaperError
	require.ErrorAs(t, err, &e)
	assert.Equal(t, "xyzzy", e.Name)
	assert.ErrorContains(t, err, `unknown paper "xyzzy"; known are A0, A1`)
	assert.False(t, errors.Is(err, sheet.ErrPaperTooSmall))
}
