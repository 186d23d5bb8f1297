package stock

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A brute solves a small job by trying everything: each piece on each strip, each strip from each board. It works on the
// job's own millimeters, which are small whole numbers here, and uses nothing of the package but the types of a job.
type brute struct {
	job    Job
	blocks []bruteBlock
	boards []bruteBoard
	used   []int
	cost   int
	best   int // least cost, -1 for none
	left   int // longest leftover at that cost
}

type bruteBlock struct {
	profile string
	lens    []int
}

type bruteBoard struct {
	item   int
	strips []bruteStrip
}

type bruteStrip struct {
	profile string
	lens    []int
}

// solve returns the least cost and the longest leftover of any plan of that cost; -1 when there is no plan.
func (b *brute) solve() (cost, left int) {
	b.best, b.left = -1, -1
	b.used = make([]int, len(b.job.Stock))
	b.place(0)
	return b.best, b.left
}

// place puts block i and those after it on strips.
func (b *brute) place(i int) {
	if b.best >= 0 && b.cost > b.best {
		return
	}
	if i == len(b.blocks) {
		b.settle()
		return
	}
	blk := b.blocks[i]
	for bi := range b.boards {
		var tried []string
		for si := range b.boards[bi].strips {
			s := &b.boards[bi].strips[si]
			if key := fmt.Sprint(*s); s.profile == blk.profile && !slices.Contains(tried, key) {
				tried = append(tried, key)
				b.cut(b.boards[bi].item, s, blk, i)
			}
		}
	}
	for it, item := range b.job.Stock {
		if item.Have != Unlimited && b.used[it] >= item.Have {
			continue
		}
		for _, strips := range b.rips(it) {
			at := slices.IndexFunc(strips, func(s bruteStrip) bool { return s.profile == blk.profile })
			if at < 0 {
				continue
			}
			b.boards = append(b.boards, bruteBoard{it, strips})
			b.used[it]++
			b.cost += int(item.Price)
			b.cut(it, &b.boards[len(b.boards)-1].strips[at], blk, i)
			b.cost -= int(item.Price)
			b.used[it]--
			b.boards = b.boards[:len(b.boards)-1]
		}
	}
}

// cut puts a block on a strip, if it fits, and goes on with the next.
func (b *brute) cut(item int, s *bruteStrip, blk bruteBlock, i int) {
	old := s.lens
	s.lens = append(slices.Clone(old), blk.lens...)
	if b.hold(item, s.lens) >= 0 {
		b.place(i + 1)
	}
	s.lens = old
}

// hold returns what is left of an item's strip when lens are cut from it, -1 if they do not fit.
func (b *brute) hold(item int, lens []int) int {
	k := int(b.job.Shop.Kerf)
	room := int(b.job.Stock[item].Length) - 2*int(b.job.Shop.Trim)
	sum := -k
	for _, l := range lens {
		sum += l + k
	}
	if sum > room {
		return -1
	}
	return max(0, room-sum-k)
}

// rips returns every way to rip an item, by numbers of strips for each profile.
func (b *brute) rips(item int) [][]bruteStrip {
	it := b.job.Stock[item]
	k := b.job.Shop.Kerf
	if it.Width == 0 {
		var out [][]bruteStrip
		for _, p := range b.job.Profiles {
			out = append(out, []bruteStrip{{profile: p.Key}})
		}
		return out
	}
	var out [][]bruteStrip
	var fill func(p int, now []bruteStrip, width float64)
	fill = func(p int, now []bruteStrip, width float64) {
		if p == len(b.job.Profiles) {
			for _, q := range b.job.Profiles { // what must be left of the board when the last strip is ripped off
				if slices.ContainsFunc(now, func(s bruteStrip) bool { return s.profile == q.Key }) {
					width -= math.Max(0, q.Board-q.Width)
				}
			}
			if len(now) > 0 && width >= -k {
				out = append(out, slices.Clone(now))
			}
			return
		}
		for width >= -k {
			fill(p+1, now, width)
			now = append(now, bruteStrip{profile: b.job.Profiles[p].Key})
			if width -= b.job.Profiles[p].Width + k; width < -k {
				return
			}
		}
	}
	fill(0, nil, it.Width)
	return out
}

// settle keeps the plan at hand if it is a plan and the best yet.
func (b *brute) settle() {
	left := 0
	for _, bd := range b.boards {
		for _, s := range bd.strips {
			if len(s.lens) == 0 {
				left = max(left, int(b.job.Stock[bd.item].Length)-2*int(b.job.Shop.Trim))
				continue
			}
			if !b.safe(bd.item, s.lens) {
				return
			}
			left = max(left, b.hold(bd.item, s.lens))
		}
	}
	if b.best < 0 || b.cost < b.best || left > b.left {
		b.best, b.left = b.cost, left
	}
}

// safe tells whether lens can be cut from an item's strip in some order, each short one while the strip is still safe.
func (b *brute) safe(item int, lens []int) bool {
	if b.job.Shop.Safe == 0 {
		return true
	}
	k := int(b.job.Shop.Kerf)
	var try func(hand int, rest []int) bool
	try = func(hand int, rest []int) bool {
		if len(rest) == 0 {
			return true
		}
		for i, l := range rest {
			if l < int(b.job.Shop.Safe) && hand < int(b.job.Shop.Safe) {
				continue
			}
			if try(hand-l-k, slices.Delete(slices.Clone(rest), i, i+1)) {
				return true
			}
		}
		return false
	}
	return try(int(b.job.Stock[item].Length)-2*int(b.job.Shop.Trim), lens)
}

// smallJob returns a random job with lengths of 1 to 10, so that exact fits are common.
func smallJob(rng *rand.Rand) Job {
	j := Job{Profiles: []Profile{{Key: "a", Width: 2}}}
	if rng.IntN(3) == 0 {
		j.Profiles = append(j.Profiles, Profile{Key: "b", Width: 3})
	}
	if rng.IntN(4) == 0 {
		j.Profiles[0].Board = float64(3 + rng.IntN(3))
	}
	j.Shop.Kerf = float64(rng.IntN(2))
	if rng.IntN(4) == 0 {
		j.Shop.Trim = 1
	}
	if rng.IntN(4) == 0 {
		j.Shop.Safe = float64(2 + rng.IntN(4))
	}
	boards := rng.IntN(3) == 0
	for i := range 1 + rng.IntN(3) {
		it := Item{Name: fmt.Sprint("item", i), Length: float64(10 + 2*int(j.Shop.Trim) + rng.IntN(8)), Price: float64(1 + rng.IntN(12)), Have: Unlimited}
		if i > 0 {
			it.Length = float64(3 + 2*int(j.Shop.Trim) + rng.IntN(14))
		}
		if rng.IntN(3) == 0 {
			it.Have = 1 + rng.IntN(2)
		}
		if boards && rng.IntN(2) == 0 {
			it.Width = float64(3 + rng.IntN(5))
		} else if rng.IntN(8) == 0 {
			it.Price, it.Offcut, it.Have = 0, true, 1
		}
		j.Stock = append(j.Stock, it)
	}
	n := 2 + rng.IntN(5)
	if len(j.Profiles) == 2 || boards {
		n = 2 + rng.IntN(3)
	}
	for i := range n {
		j.Pieces = append(j.Pieces, Piece{Mark: fmt.Sprint(i), Profile: j.Profiles[rng.IntN(len(j.Profiles))].Key, Length: float64(1 + rng.IntN(10))})
	}
	return j
}

func bruteOf(j Job) *brute {
	j.Profiles = slices.DeleteFunc(slices.Clone(j.Profiles), func(f Profile) bool {
		return !slices.ContainsFunc(j.Pieces, func(p Piece) bool { return p.Profile == f.Key })
	})
	b := &brute{job: j}
	for _, p := range j.Pieces {
		b.blocks = append(b.blocks, bruteBlock{p.Profile, []int{int(p.Length)}})
	}
	slices.SortStableFunc(b.blocks, func(x, y bruteBlock) int { return y.lens[0] - x.lens[0] })
	return b
}

// modes are the courses each random job is solved by: the usual one, and each fallback forced.
var modes = map[string]tuning{
	"usual":              {},
	"knapsack by lists":  {lists: true},
	"fractional":         {ceilings: true},
	"no linear program":  {noLP: true},
	"stock counts":       {noSearch: true, noGreedy: true},
	"nothing remembered": {noMemo: true, noGreedy: true},
	"boxes":              {noListing: true},
	"no worths":          {noWorths: true},
	"plain search":       {noRefresh: true, noGreedy: true},
}

func TestAgainstBruteForce(t *testing.T) {
	for name, tune := range modes {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			rng := rand.New(rand.NewPCG(4, 1500))
			plans := 0
			for i := range 1500 {
				j := smallJob(rng)
				cost, left := bruteOf(j).solve()
				p, err := j.solve(context.Background(), tune)
				if cost < 0 {
					require.Error(t, err, "job %d: %+v", i, j)
					continue
				}
				require.NoError(t, err, "job %d: %+v", i, j)
				require.True(t, p.Proven, "job %d: %+v", i, j)
				require.InDelta(t, cost, p.Cost, 1e-9, "job %d: %+v\n%+v", i, j, p)
				require.True(t, p.LeftProven, "job %d: %+v\n%+v", i, j, p)
				require.InDelta(t, left, p.LongestLeft, 1e-9, "job %d: %+v\n%+v", i, j, p)
				plans++
			}
			require.Greater(t, plans, 1000)
		})
	}
}
