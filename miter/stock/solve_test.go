package stock_test

import (
	"context"
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
)

func TestFaultsAreReportedAtOnce(t *testing.T) {
	j := stock.Job{
		Shop: stock.Shop{Kerf: 3},
		Profiles: []stock.Profile{{Key: "cornice", Wood: "cherry", Width: 50, Thickness: 40}, {Key: "bead", Wood: "holly"},
			{Key: "base", Wood: "cherry", Thickness: 200}},
		Pieces: []stock.Piece{{Mark: "A", Profile: "cornice", Length: 2600}, {Mark: "B", Profile: "cornice", Length: 2},
			{Mark: "C", Profile: "bead", Length: 100}, {Mark: "D", Profile: "base", Length: 100}},
		Stock: []stock.Item{{Name: "8/4", Wood: "cherry", Length: 2438.4, Width: 152.4, Thickness: 50.8, Price: 54, Have: stock.Unlimited},
			{Name: "4/4", Wood: "cherry", Length: 2438.4, Width: 152.4, Thickness: 25.4, Price: stock.NoPrice, Have: 2}},
	}
	_, err := stock.Solve(context.Background(), j)
	var long *stock.TooLongError
	require.ErrorAs(t, err, &long)
	require.Equal(t, "A", long.Mark)
	require.InDelta(t, 161.6, long.Over, 1e-9)
	var kerf *stock.KerfError
	require.ErrorAs(t, err, &kerf)
	require.Equal(t, "B", kerf.Mark)
	var price *stock.PriceError
	require.ErrorAs(t, err, &price)
	require.Equal(t, []string{"4/4"}, price.Items)
	require.ErrorContains(t, err, "no stock of holly for profile bead")
	require.ErrorContains(t, err, "no stock thick enough for profile base")
}

func TestNumbersOutOfRange(t *testing.T) {
	ok := stock.Job{Pieces: []stock.Piece{{Mark: "A", Length: 100}}, Stock: []stock.Item{{Name: "s", Length: 1000, Have: 1}}}
	_, err := stock.Solve(context.Background(), ok)
	require.NoError(t, err)
	for name, spoil := range map[string]func(j *stock.Job){
		"no stock left":    func(j *stock.Job) { j.Stock[0].Have = 0 },
		"negative stock":   func(j *stock.Job) { j.Stock[0].Have = -2 },
		"zero stick":       func(j *stock.Job) { j.Stock[0].Length = 0 },
		"negative stick":   func(j *stock.Job) { j.Stock[0].Length = -1 },
		"all trim":         func(j *stock.Job) { j.Shop.Trim = 500 },
		"no length":        func(j *stock.Job) { j.Pieces[0].Length = math.NaN() },
		"too long for all": func(j *stock.Job) { j.Pieces[0].Length = 20001 },
		"negative count":   func(j *stock.Job) { j.Pieces[0].Count = -1 },
		"negative kerf":    func(j *stock.Job) { j.Shop.Kerf = -1 },
		"price":            func(j *stock.Job) { j.Stock[0].Price = -2 },
		"spare":            func(j *stock.Job) { j.Shop.Spare = math.NaN() },
	} {
		j := ok
		j.Pieces, j.Stock = append([]stock.Piece(nil), ok.Pieces...), append([]stock.Item(nil), ok.Stock...)
		spoil(&j)
		_, err := stock.Solve(context.Background(), j)
		var size *stock.SizeError
		require.ErrorAs(t, err, &size, name)
	}
	many := ok
	many.Pieces = []stock.Piece{{Mark: "A", Length: 1, Count: stock.MaxPieces + 1}}
	_, err = stock.Solve(context.Background(), many)
	var limit *stock.LimitError
	require.ErrorAs(t, err, &limit)
}

func TestScarceRack(t *testing.T) {
	j := stock.Job{Pieces: []stock.Piece{{Mark: "A", Length: 60, Count: 3}}, Stock: []stock.Item{{Name: "s", Length: 100, Have: 2, Price: 1}}}
	_, err := stock.Solve(context.Background(), j)
	var scarce *stock.ScarceError
	require.ErrorAs(t, err, &scarce)
	require.InDelta(t, 180, scarce.Needed, 1e-9)
	require.InDelta(t, 200, scarce.Rack, 1e-9) // enough in length, but not in any cutting
}

func TestClock(t *testing.T) {
	late, cancel := context.WithDeadline(context.Background(), time.Unix(0, 0))
	defer cancel()
	p, err := stock.Solve(late, yardJob(90, 1))
	require.NoError(t, err)
	require.False(t, p.Proven)
	require.Equal(t, "time", p.Stopped)
	require.Less(t, p.LowerBound, p.Cost)
	require.InDelta(t, p.Gap, p.Cost-p.LowerBound, 1e-9)
	checkPlan(t, yardJob(90, 1), p)
	gone, stop := context.WithCancel(context.Background())
	stop()
	_, err = stock.Solve(gone, yardJob(90, 1))
	require.True(t, errors.Is(err, context.Canceled))
}

func TestEffortLeavesAnHonestGap(t *testing.T) {
	j := yardJob(90, 1)
	j.Effort = 20_000
	p, err := stock.Solve(context.Background(), j)
	require.NoError(t, err)
	require.False(t, p.Proven)
	require.Equal(t, "effort", p.Stopped)
	checkPlan(t, j, p)
	j.Effort = 0
	best, err := stock.Solve(context.Background(), j)
	require.NoError(t, err)
	require.LessOrEqual(t, p.LowerBound, best.Cost)
}

func TestExactInInches(t *testing.T) {
	// 32 pieces of 2-63/64 in with a kerf of 1/64 in fill a stick of 96 in less one kerf, to the last 1/64
	j := stock.Job{Shop: stock.Shop{Kerf: in / 64}, Pieces: []stock.Piece{{Mark: "A", Length: (2 + 63.0/64) * in, Count: 32}},
		Stock: []stock.Item{{Name: "s", Length: (96 - 1.0/64) * in, Price: 1, Have: stock.Unlimited}}}
	p, err := stock.Solve(context.Background(), j)
	require.NoError(t, err)
	require.Len(t, p.Sticks, 1)
	require.Zero(t, p.Sticks[0].Left)
	j.Pieces[0].Length += 0.001
	p, err = stock.Solve(context.Background(), j)
	require.NoError(t, err)
	require.Len(t, p.Sticks, 2, "a piece never gets shorter")
}

func TestAllowances(t *testing.T) {
	j := stock.Job{Shop: stock.Shop{Test: 300, Spare: 0.1}, Profiles: []stock.Profile{{Key: "a"}, {Key: "b", Test: 200}, {Key: "c", NoTest: true}},
		Pieces: []stock.Piece{{Mark: "A", Profile: "a", Length: 500, Count: 4}, {Mark: "B", Profile: "b", Length: 500}, {Mark: "C", Profile: "c", Length: 500}},
		Stock:  []stock.Item{{Name: "s", Length: 1000, Price: 1, Have: stock.Unlimited}}}
	p, err := stock.Solve(context.Background(), j)
	require.NoError(t, err)
	got := map[string]float64{}
	for _, s := range p.Sticks {
		for _, c := range s.Cuts {
			got[s.Profile+" "+c.Mark] += c.Length
		}
	}
	require.InDelta(t, 300, got["a test"], 1e-9)
	require.InDelta(t, 200, got["b test"], 1e-9)
	require.Zero(t, got["c test"])
	require.GreaterOrEqual(t, got["a spare"], 200.0)
	require.GreaterOrEqual(t, got["c spare"], 50.0)
	checkPlan(t, j, p)
}

func TestGluedBlankIsMarked(t *testing.T) {
	j := stock.Job{Profiles: []stock.Profile{{Key: "base", Width: 60, Thickness: 60}}, Pieces: []stock.Piece{{Mark: "A", Profile: "base", Length: 900}},
		Stock: []stock.Item{{Name: "8/4", Length: 2438.4, Width: 152.4, Thickness: 50.8, Price: 54, Have: stock.Unlimited}}}
	p, err := stock.Solve(context.Background(), j)
	require.NoError(t, err)
	require.Equal(t, 2, p.Sticks[0].Layers)
	require.Equal(t, 2, p.Boards[0].Rips[0].Glued)
	require.Contains(t, p.Messages[0], "glued up")
	checkPlan(t, j, p)
}

// A blank 60 mm by 120 mm may lie either way. From boards 44.45 mm thick surfaced it takes two layers 120 mm wide, or three 60 mm wide; a board
// 200 mm wide holds the three and not the two. Worked by hand.
func TestGluedBlankMayBeTurned(t *testing.T) {
	for _, tt := range []struct {
		width, thickness, board, rip float64
		layers                       int
		turn                         bool
	}{
		{120, 60, 260, 120, 2, true}, {60, 120, 260, 120, 2, true}, {60, 120, 260, 60, 3, false}, {120, 60, 200, 60, 3, true}, {60, 120, 200, 60, 3, true},
	} {
		j := stock.Job{Profiles: []stock.Profile{{Key: "base", Width: tt.width, Thickness: tt.thickness, Turn: tt.turn}},
			Pieces: []stock.Piece{{Mark: "A", Profile: "base", Length: 900}},
			Stock:  []stock.Item{{Name: "8/4", Length: 2438.4, Width: tt.board, Thickness: 50.8, Price: 54, Have: stock.Unlimited}}}
		p, err := stock.Solve(context.Background(), j)
		require.NoError(t, err)
		require.Equal(t, tt.layers, p.Sticks[0].Layers, "%+v", tt)
		require.InDelta(t, tt.rip, p.Boards[0].Rips[0].Width, 1e-6, "%+v", tt)
		checkPlan(t, j, p)
	}
}

func TestOneBoardForSeveralProfiles(t *testing.T) {
	// one board holds a strip of each, where boards of their own would cost twice as much
	j := stock.Job{Shop: stock.Shop{Kerf: 3}, Profiles: []stock.Profile{{Key: "cornice", Width: 60, Thickness: 20}, {Key: "waist", Width: 80, Thickness: 18}},
		Pieces: []stock.Piece{{Mark: "A", Profile: "cornice", Length: 900}, {Mark: "B", Profile: "waist", Length: 1000}},
		Stock:  []stock.Item{{Name: "4/4", Length: 2438.4, Width: 152.4, Thickness: 25.4, Price: 20, Have: stock.Unlimited}}}
	p, err := stock.Solve(context.Background(), j)
	require.NoError(t, err)
	require.InDelta(t, 20, p.Cost, 1e-9)
	require.Len(t, p.Boards[0].Rips, 2)
	checkPlan(t, j, p)
}

func TestManySmallPieces(t *testing.T) {
	// dentil blocks: hundreds of small pieces from long sticks, which a knapsack by depth alone would be slow on
	j := stock.Job{Shop: stock.Shop{Kerf: 2.4}, Stock: []stock.Item{{Name: "2.4 m", Length: 2438.4, Price: 9, Have: stock.Unlimited},
		{Name: "3.6 m", Length: 3657.6, Price: 13, Have: stock.Unlimited}}}
	for i := range 12 {
		j.Pieces = append(j.Pieces, stock.Piece{Mark: string(rune('a' + i)), Length: 20 + 1.7*float64(i), Count: 20})
	}
	p, err := stock.Solve(context.Background(), j)
	require.NoError(t, err)
	require.True(t, p.Proven)
	checkPlan(t, j, p)
}
