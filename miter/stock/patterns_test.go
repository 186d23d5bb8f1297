package stock

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// randomClass returns a problem of one class and one bin with tiny sizes, and how many of each unit are still to be cut.
func randomClass(rng *rand.Rand) (*problem, []int) {
	p := &problem{bins: []bin{{capacity: 4 + rng.Int64N(16), ease: rng.Int64N(2)}}}
	tails := rng.IntN(2) == 0
	size := 12 + rng.Int64N(4)
	var rem []int
	for range 2 + rng.IntN(4) {
		u := unit{size: size, demand: 3}
		if tails && size < 6 {
			u.tail = 6 - size
		}
		p.units = append(p.units, u)
		rem = append(rem, rng.IntN(4))
		if size -= 1 + rng.Int64N(4); size < 1 {
			break
		}
	}
	p.index()
	return p, rem
}

// allMaximal lists the maximal patterns that hold the first unit with something left, by trying every number of each.
func allMaximal(p *problem, rem []int, first int, need, floor int64, pi []int64) []string {
	b := p.bins[0]
	var out []string
	n := make([]int, len(rem))
	pattern := func() (pat pattern) {
		for u, k := range n {
			if k > 0 {
				pat = append(pat, part{int32(u), int32(k)})
			}
		}
		return pat
	}
	var try func(u int)
	try = func(u int) {
		if u < len(rem) {
			for n[u] = 0; n[u] <= rem[u]; n[u]++ {
				try(u + 1)
			}
			n[u] = 0
			return
		}
		pat := pattern()
		var worth int64
		for _, q := range pat {
			worth += int64(q.n) * pi[q.unit]
		}
		if n[first] == 0 || !p.fits(pat, b) || worth < need || p.fits(pat, bin{capacity: floor}) {
			return
		}
		for u := range n {
			if n[u] < rem[u] {
				n[u]++
				more := p.fits(pattern(), b)
				n[u]--
				if more {
					return
				}
			}
		}
		out = append(out, fmt.Sprint(pat))
	}
	try(0)
	slices.Sort(out)
	return out
}

func TestMaximalPatterns(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 5))
	seen := 0
	for i := range 6000 {
		p, rem := randomClass(rng)
		first := slices.IndexFunc(rem, func(n int) bool { return n > 0 })
		if first < 0 {
			continue
		}
		pi := make([]int64, len(rem))
		for u := range pi {
			pi[u] = rng.Int64N(10)
		}
		e := &patterns{p: p, rem: rem, d: &duals{pi: pi}, eff: newEffort(context.Background(), 1e9),
			need: rng.Int64N(12), floor: rng.Int64N(8) - 1}
		var got []string
		e.yield = func(pat pattern, worth, _ int64) bool {
			got = append(got, fmt.Sprint(pat))
			return true
		}
		e.prepare(first, len(rem))
		require.True(t, e.run(p.bins[0]))
		slices.Sort(got)
		want := allMaximal(p, rem, first, e.need, e.floor, pi)
		require.Equal(t, want, got, "case %d: %+v, to cut %v", i, p.units, rem)
		seen += len(want)
	}
	require.Greater(t, seen, 1000)
}
