package stock_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
)

const (
	in = 25.4
	ft = 12 * in
)

func TestSurfacedFollowsTheTables(t *testing.T) {
	// woodbin.com and engineeringtoolbox.com lumber dimension tables, surfaced two sides; 7/4 in the second only, 10/4
	// there from memory
	rows := []struct{ rough, surfaced float64 }{
		{3.0 / 8, 3.0 / 16}, {1.0 / 2, 5.0 / 16}, {5.0 / 8, 7.0 / 16}, {3.0 / 4, 9.0 / 16}, {1, 13.0 / 16}, {1.25, 1 + 1.0/16},
		{1.5, 1 + 5.0/16}, {1.75, 1.5}, {2, 1.75}, {2.5, 2.25}, {3, 2.75}, {4, 3.75},
	}
	for _, r := range rows {
		require.InDelta(t, r.surfaced*in, stock.Surfaced(r.rough*in), 1e-9)
		require.InDelta(t, r.rough*in, stock.RoughFor(r.surfaced*in), 1e-9)
	}
	// the pattern between the rows: 3/16 in less up to 6/4, 1/4 in above
	require.InDelta(t, (9.0/8-3.0/16)*in, stock.Surfaced(9.0/8*in), 1e-9)
	require.InDelta(t, 3.25*in, stock.Surfaced(3.5*in), 1e-9)
	require.Zero(t, stock.RoughFor(4*in))
}

// tallied returns the board feet of a board of hardwood as a yard tallies it (American Hardwood Export Council): the length is taken down to a
// whole foot; the surface measure, the volume were the board 1 in thick, is rounded to a whole number, and multiplied by the thickness in inches.
func tallied(length, width, thickness float64) float64 {
	surface := math.Round(stock.BoardFeet(math.Floor(length/ft+1e-9)*ft, width, in))
	return surface * math.Max(thickness/in, 1)
}

// Board feet against published examples: rounded as the trade does where those are tallies.
func TestBoardFeet(t *testing.T) {
	// American Hardwood Export Council, measurement: 2 x 6-1/4 in x 8 ft is surface measure 4-1/6, rounded 4, so 8 board
	// feet; the plain volume is 8.33
	require.InDelta(t, 8, tallied(8*ft, 6.25*in, 2*in), 1e-9)
	require.InDelta(t, 25.0/3, stock.BoardFeet(8*ft, 6.25*in, 2*in), 1e-9)
	// gophuongdong.com, hardwood lumber measurement (NHLA method): surface measures
	require.InDelta(t, 4, tallied(8*ft, 6.5*in, in), 1e-9)
	require.InDelta(t, 8, tallied(12*ft, 8*in, in), 1e-9)
	require.InDelta(t, 11, tallied(13*ft, 10*in, in), 1e-9)
	// furnituremaking.us, ordering lumber by the board foot: 1 x 3, 8 ft, is 2 board feet
	require.InDelta(t, 2, stock.BoardFeet(8*ft, 3*in, in), 1e-9)
	// goodwoodcorp.com, hardwood terminology: under 1 in thick counts as 1 in
	require.InDelta(t, 2, stock.BoardFeet(8*ft, 3*in, in/2), 1e-9)
	// American Hardwood Export Council, tally: 5-1/4 in x 8-1/2 ft counts as 5 x 8, which is 40/12, rounded
	require.InDelta(t, 3, tallied(8.5*ft, math.Round(5.25)*in, in), 1e-9)
}

func TestStrips(t *testing.T) {
	require.Equal(t, 2, stock.Strips(6*in, 2*in, in/8, 0))        // 2 + 1/8 + 2 = 4-1/8; a third takes 6-1/4
	require.Equal(t, 3, stock.Strips(6.25*in, 2*in, in/8, 0))     // exactly
	require.Equal(t, 2, stock.Strips(6.25*in, 2*in, in/8, in/64)) // jointing takes the third
	require.Equal(t, 0, stock.Strips(1*in, 2*in, in/8, 0))
	require.Equal(t, 0, stock.Strips(1*in, 0, in/8, 0))
}
