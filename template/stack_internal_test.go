package template

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// Strips stand on as few sheets as they can, in their order, each full before the next is begun, and no last one alone where there is room for two on either of two sheets.
func TestStackedEvenly(t *testing.T) {
	strips := func(high ...float64) []strip {
		var out []strip
		for _, h := range high {
			out = append(out, strip{high: h})
		}
		return out
	}
	counts := func(all [][]strip) []int {
		var out []int
		for _, s := range all {
			out = append(out, len(s))
		}
		return out
	}
	require.Equal(t, []int{2, 2}, counts(evenly(10, strips(70, 70, 70, 70), 240)), "3 and 1 would do as well")
	require.Equal(t, []int{3, 2}, counts(evenly(10, strips(70, 70, 70, 40, 40), 240)), "no third one thrown to the next sheet")
	require.Equal(t, []int{3}, counts(evenly(10, strips(70, 70, 80), 240)), "just full")
	require.Equal(t, []int{1, 2}, counts(evenly(10, strips(300, 70, 80), 240)), "one higher than the sheet")
	require.Equal(t, []int{1, 1, 2}, counts(evenly(10, strips(230, 100, 110, 20), 240)), "the last with the one before it")
	require.Empty(t, evenly(10, nil, 240))

	random := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		var all []strip
		for range random.IntN(12) {
			all = append(all, strip{high: 5 + 200*random.Float64()})
		}
		sheets, at := 0, 0.0 // filled from the first on
		for i, s := range all {
			if at += 10 + s.high; i == 0 || at-10 > 240 {
				sheets, at = sheets+1, 10+s.high
			}
		}
		var again []strip
		parts := evenly(10, all, 240)
		for _, p := range parts {
			again = append(again, p...)
			high := -10.0
			for _, s := range p {
				high += 10 + s.high
			}
			require.LessOrEqual(t, high, 240.0)
		}
		require.Equal(t, all, again)
		require.Len(t, parts, sheets)
	}
}
