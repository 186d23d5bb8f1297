package cutter

import (
	"math"
	"math/rand/v2"
)

// greedy returns a cover of the core that always takes the column with the most open rows for its weight, then drops what is not needed.
func (c core) greedy() []int {
	open := newBitset(len(c.rowIDs))
	for r := range c.rowIDs {
		open.set(r)
	}
	return c.repair(nil, open)
}

// repair completes picked to a cover of the open rows and drops what is not needed.
func (c core) repair(picked []int, open bitset) []int {
	open = open.clone()
	for _, k := range picked {
		open.andNot(c.cols[k])
	}
	for !open.empty() {
		best, score := -1, 0.0
		for k, col := range c.cols {
			if g := float64(col.commonCount(open)) / float64(c.weights[k]); g > score {
				best, score = k, g
			}
		}
		picked = append(picked, best)
		open.andNot(c.cols[best])
	}
	return c.prune(picked)
}

// prune drops columns whose rows the others have, the heaviest first.
func (c core) prune(picked []int) []int {
	for w := 2; w >= 1; w-- {
		for i := 0; i < len(picked); i++ {
			if c.weights[picked[i]] == w && c.covers(picked, i) {
				picked = append(picked[:i:i], picked[i+1:]...)
				i--
			}
		}
	}
	return picked
}

// covers reports whether the picked columns but the one at skip have every row.
func (c core) covers(picked []int, skip int) bool {
	all := newBitset(len(c.rowIDs))
	for i, k := range picked {
		if i != skip {
			all.or(c.cols[k])
		}
	}
	return all.count() == len(c.rowIDs)
}

func (c core) weight(picked []int) int {
	n := 0
	for _, k := range picked {
		n += c.weights[k]
	}
	return n
}

// destroyAndRepair improves a cover by taking out a few columns at random and completing it again with a random tilt; the seed is fixed.
func (c core) destroyAndRepair(picked []int, rounds, target int) []int {
	rng := rand.New(rand.NewPCG(31, 7))
	open := newBitset(len(c.rowIDs))
	for r := range c.rowIDs {
		open.set(r)
	}
	best := picked
	for range rounds {
		if c.weight(best) <= target {
			break
		}
		kept := []int{}
		out := 2 + rng.IntN(max(1, len(best)/2))
		for _, i := range rng.Perm(len(best))[min(out, len(best)):] {
			kept = append(kept, best[i])
		}
		next := c.randomRepair(kept, open, rng)
		if c.weight(next) <= c.weight(best) {
			best = next
		}
	}
	return best
}

// randomRepair completes a cover row by row: a row with few columns first, a column by its gain and chance.
func (c core) randomRepair(picked []int, open bitset, rng *rand.Rand) []int {
	open = open.clone()
	for _, k := range picked {
		open.andNot(c.cols[k])
	}
	for !open.empty() {
		row := -1
		open.each(func(r int) {
			if row < 0 || len(c.list[r]) < len(c.list[row]) {
				row = r
			}
		})
		best, score := -1, math.Inf(-1)
		for _, at := range c.list[row] {
			k := int(at)
			g := float64(c.cols[k].commonCount(open)) / float64(c.weights[k]) * (0.7 + 0.6*rng.Float64())
			if g > score {
				best, score = k, g
			}
		}
		picked = append(picked, best)
		open.andNot(c.cols[best])
	}
	return c.prune(picked)
}
