package stock

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// wrapJob returns a random small job with one or two wraps and some single pieces.
func wrapJob(rng *rand.Rand) Job {
	j := Job{Profiles: []Profile{{Key: "a"}}, Shop: Shop{Kerf: float64(rng.IntN(2))}}
	for i := range 1 + rng.IntN(2) {
		it := Item{Name: fmt.Sprint("item", i), Length: float64(10 + rng.IntN(8)), Price: float64(1 + rng.IntN(12)), Have: Unlimited}
		if i > 0 && rng.IntN(2) == 0 {
			it.Have = 1
		}
		j.Stock = append(j.Stock, it)
	}
	for w := range 1 + rng.IntN(2) {
		for i := range 2 + rng.IntN(2) {
			j.Pieces = append(j.Pieces, Piece{Mark: fmt.Sprint("w", w, i), Profile: "a", Wrap: fmt.Sprint("w", w), Length: float64(1 + rng.IntN(8))})
		}
	}
	for i := range rng.IntN(2) {
		j.Pieces = append(j.Pieces, Piece{Mark: fmt.Sprint(i), Profile: "a", Length: float64(1 + rng.IntN(10))})
	}
	return j
}

// bruteWraps tries every way to break the wraps at corners, the fewest breaks first, and within those every plan.
func bruteWraps(j Job) (cost, left, breaks int) {
	var corners []int
	for i := 1; i < len(j.Pieces); i++ {
		if j.Pieces[i].Wrap != "" && j.Pieces[i].Wrap == j.Pieces[i-1].Wrap {
			corners = append(corners, i)
		}
	}
	for breaks = 0; breaks <= len(corners); breaks++ {
		cost, left = -1, -1
		for set := range 1 << len(corners) {
			n := 0
			broken := map[int]bool{}
			for k, c := range corners {
				if set>>k&1 == 1 {
					n++
					broken[c] = true
				}
			}
			if n != breaks {
				continue
			}
			b := &brute{job: j}
			for i, p := range j.Pieces {
				if slices.Contains(corners, i) && !broken[i] {
					last := &b.blocks[len(b.blocks)-1]
					last.lens = append(last.lens, int(p.Length))
					continue
				}
				b.blocks = append(b.blocks, bruteBlock{"a", []int{int(p.Length)}})
			}
			if c, l := b.solve(); c >= 0 && (cost < 0 || c < cost || c == cost && l > left) {
				cost, left = c, l
			}
		}
		if cost >= 0 {
			return cost, left, breaks
		}
	}
	return -1, -1, -1
}

func TestWrapsAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 300))
	split := 0
	for i := range 300 {
		j := wrapJob(rng)
		cost, left, breaks := bruteWraps(j)
		p, err := Solve(context.Background(), j)
		if cost < 0 {
			require.Error(t, err)
			continue
		}
		require.NoError(t, err, "job %d: %+v", i, j)
		require.True(t, p.Proven)
		require.InDelta(t, cost, p.Cost, 1e-9, "job %d: %+v\n%+v", i, j, p)
		require.InDelta(t, left, p.LongestLeft, 1e-9, "job %d: %+v\n%+v", i, j, p)
		got := 0
		for _, s := range p.Splits {
			got += len(s.Runs) - 1
		}
		require.Equal(t, breaks, got)
		requireRuns(t, j, p)
		if breaks > 0 {
			split++
			require.NotEmpty(t, p.Messages)
		}
	}
	require.Greater(t, split, 30)
}

// requireRuns checks that each run of a wrap, as the plan says it is split, lies together and in order on one stick.
func requireRuns(t *testing.T, j Job, p Plan) {
	t.Helper()
	runs := map[string][][]string{}
	for _, q := range j.Pieces {
		if q.Wrap != "" {
			if runs[q.Wrap] == nil {
				runs[q.Wrap] = [][]string{{}}
			}
			runs[q.Wrap][0] = append(runs[q.Wrap][0], q.Mark)
		}
	}
	for _, s := range p.Splits {
		runs[s.Wrap] = s.Runs
	}
	for _, l := range runs {
		for _, run := range l {
			found := slices.ContainsFunc(p.Sticks, func(s Stick) bool {
				at := slices.IndexFunc(s.Cuts, func(c Cut) bool { return c.Mark == run[0] })
				if at < 0 || at+len(run) > len(s.Cuts) {
					return false
				}
				for k, m := range run {
					if s.Cuts[at+k].Mark != m {
						return false
					}
				}
				return true
			})
			require.True(t, found, "%v in %+v", run, p)
		}
	}
}
