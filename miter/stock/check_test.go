package stock_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
)

// checkPlan checks a plan against its job by the job's own numbers, with none of the package's code: every piece cut as often
// as asked, every stick long enough, the kerfs and leftovers as they must come out, no more of an item than there is, the
// cost as the prices say, the wraps in order, and no short piece cut off a short stick.
func checkPlan(t testing.TB, j stock.Job, p stock.Plan) {
	t.Helper()
	items := map[string]stock.Item{}
	for _, it := range j.Stock {
		items[it.Name] = it
	}
	want, got := map[string]int{}, map[string]int{}
	for _, q := range j.Pieces {
		want[fmt.Sprintf("%s %s %.4f", q.Profile, q.Mark, q.Length)] += max(q.Count, 1)
	}
	for _, s := range p.Sticks {
		require.NotEmpty(t, s.Cuts)
		var sum float64
		for _, c := range s.Cuts {
			sum += c.Length
			if c.Mark != stock.TestMark && c.Mark != stock.SpareMark {
				got[fmt.Sprintf("%s %s %.4f", s.Profile, c.Mark, c.Length)]++
			}
		}
		require.InDelta(t, items[s.Item].Length, s.Length, 1e-9)
		require.InDelta(t, s.Length, sum+s.Kerf+s.Trim+s.Left, 0.002*float64(len(s.Cuts)+2))
		need := sum + float64(len(s.Cuts)-1)*j.Shop.Kerf
		require.LessOrEqual(t, need, s.Length-2*j.Shop.Trim+1e-6)
		require.InDelta(t, math.Max(0, s.Length-2*j.Shop.Trim-need-j.Shop.Kerf), s.Left, 0.002*float64(len(s.Cuts)+2))
		checkSafe(t, j, s)
		checkTestLast(t, s)
		checkRuns(t, j, s)
	}
	require.Equal(t, want, got)
	var cost float64
	for _, b := range p.Buy {
		it := items[b.Item]
		if it.Have != stock.Unlimited {
			require.LessOrEqual(t, b.Count, it.Have)
		}
		if p.CostIn == stock.InPrice {
			cost += float64(b.Count) * math.Max(it.Price, 0)
		} else {
			cost += b.Cost
		}
	}
	require.InDelta(t, cost, p.Cost, 1e-6)
	require.LessOrEqual(t, p.LowerBound, p.Cost+1e-9)
	require.Equal(t, p.Proven, p.LowerBound == p.Cost)
	checkBoards(t, j, p, items)
}

// checkSafe follows the cuts from the left end: before each cut of a short piece the stick in hand is long enough, unless a
// piece of safe length, or a corner of a run, is still on it.
func checkSafe(t testing.TB, j stock.Job, s stock.Stick) {
	hand := s.Length - s.Trim
	for i, c := range s.Cuts {
		long := slices.ContainsFunc(s.Cuts, func(c stock.Cut) bool { return c.Length >= j.Shop.Safe || c.Run > 0 })
		if c.Length < j.Shop.Safe && !long {
			require.GreaterOrEqual(t, hand, j.Shop.Safe-0.002, "cut %d of %v", i, s)
		}
		hand -= c.Length + j.Shop.Kerf
	}
}

// checkTestLast checks that nothing lies to the right of a length for tests: it is cut off first.
func checkTestLast(t testing.TB, s stock.Stick) {
	for i := 1; i < len(s.Cuts); i++ {
		require.False(t, s.Cuts[i-1].Mark == stock.TestMark && s.Cuts[i].Mark != stock.TestMark, "%v", s)
	}
}

// checkRuns checks that what belongs to one run of grain lies together and in order.
func checkRuns(t testing.TB, j stock.Job, s stock.Stick) {
	at := map[string]int{}
	for i, q := range j.Pieces {
		at[q.Profile+" "+q.Mark] = q.Order*1000 + i
	}
	for i := 1; i < len(s.Cuts); i++ {
		a, b := s.Cuts[i-1], s.Cuts[i]
		if a.Run > 0 && a.Wrap == b.Wrap && a.Run == b.Run {
			require.Less(t, at[s.Profile+" "+a.Mark], at[s.Profile+" "+b.Mark])
		}
	}
}

// checkBoards checks that what is ripped from each board fits its width, and that sticks and boards agree.
func checkBoards(t testing.TB, j stock.Job, p stock.Plan, items map[string]stock.Item) {
	strips := map[int]map[string]int{}
	bought := map[string]int{}
	for _, s := range p.Sticks {
		if s.Board == 0 {
			bought[s.Item]++
			continue
		}
		if strips[s.Board] == nil {
			strips[s.Board] = map[string]int{}
		}
		strips[s.Board][s.Profile]++
	}
	for _, b := range p.Boards {
		bought[b.Item]++
		width := -j.Shop.Kerf
		for _, r := range b.Rips {
			require.Equal(t, strips[b.N][r.Profile], r.Count)
			width += float64(r.Count*max(r.Glued, 1)) * (r.Width + j.Shop.Joint + j.Shop.Kerf)
		}
		require.LessOrEqual(t, width, b.Width+0.01)
		require.Equal(t, items[b.Item].Width, b.Width)
	}
	for _, b := range p.Buy {
		require.Equal(t, bought[b.Item], b.Count, b.Item)
	}
}
