package stock_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
)

// Spare wood is what is asked for, rounded up to the step of the pieces, and not more than a quarter over: of a single piece of 42 1/16 in 15 % is
// 6.309 in, 6 3/8 in to the next 1/8. Worked by hand.
func TestSpareIsRoundedUpSensibly(t *testing.T) {
	for _, tt := range []struct {
		pieces []float64 // in
		want   float64
	}{
		{[]float64{42 + 1.0/16}, 6 + 3.0/8},
		{[]float64{20}, 3},                  // a whole 1/8 already
		{[]float64{10, 11, 12, 13, 14}, 9},  // 15 % of 60 in, the step 1 in
		{[]float64{30, 45}, 11 + 1.0/4},     // a whole 1/8 already: a step of 15 in would be a third over
		{[]float64{30, 30, 30, 30, 45}, 30}, // 24 3/4, two steps of 15 in: under a quarter over
	} {
		job := stock.Job{Shop: stock.Shop{Spare: 0.15}, Stock: []stock.Item{{Name: "stick", Length: 96 * 25.4, Price: 1, Have: stock.Unlimited}}}
		for i, p := range tt.pieces {
			job.Pieces = append(job.Pieces, stock.Piece{Mark: string(rune('A' + i)), Length: p * 25.4, Count: 1})
		}
		plan, err := stock.Solve(context.Background(), job)
		require.NoError(t, err)
		got := 0.0
		for _, s := range plan.Sticks {
			for _, c := range s.Cuts {
				if c.Mark == stock.SpareMark {
					got += c.Length
				}
			}
		}
		require.InDelta(t, tt.want, got/25.4, 1e-6, "%v", tt.pieces)
	}
}
