package stock

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// everyPurchase lists the purchases of exactly a cost by counting, what costs nothing always taken.
func everyPurchase(p *problem, cost int64) []string {
	var out []string
	now := make([]int, len(p.sources))
	used := make([]int, len(p.items))
	var count func(s int, money int64)
	count = func(s int, money int64) {
		if s == len(p.sources) {
			for i, it := range p.items {
				if it.cost == 0 && used[i] != it.have {
					return
				}
			}
			if money == 0 {
				out = append(out, fmt.Sprint(now))
			}
			return
		}
		item := p.sources[s].item
		it := p.items[item]
		for n := 0; it.cost*int64(n) <= money && (it.have == unlimited || used[item]+n <= it.have); n++ {
			now[s] = n
			used[item] += n
			count(s+1, money-it.cost*int64(n))
			used[item] -= n
		}
		now[s] = 0
	}
	count(0, cost)
	slices.Sort(out)
	return out
}

// Without duals every purchase of a cost is listed; those that duals rule out cannot be cut, as a search without any linear program finds.
func TestPurchasesAreListedWhole(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 1))
	listed, ruledOut := 0, 0
	for i := range 800 {
		for _, p := range problems(t, rng) {
			eff := newEffort(context.Background(), 1e7)
			a := p.optimum(eff, tuning{})
			if a.plan == nil {
				continue
			}
			cost := a.plan.cost + rng.Int64N(300)/100*100
			all, whole := p.purchases(cost, nil, eff)
			require.True(t, whole)
			var got []string
			for _, b := range all {
				got = append(got, fmt.Sprint(b))
			}
			slices.Sort(got)
			require.Equal(t, everyPurchase(p, cost), got, "case %d", i)
			listed += len(all)
			d := newMaster(p, p.start(0), eff, tuning{}).solve(p.start(0))
			few, _ := p.purchases(cost, []*duals{d}, eff)
			for _, b := range all {
				if slices.ContainsFunc(few, func(f []int) bool { return slices.Equal(f, b) }) {
					continue
				}
				ruledOut++
				c := newCounts(p, p.start(0), cost+1, newReach(p.items, cost+1), nil, eff, tuning{noRefresh: true})
				k, none := c.cut(b, 1e6)
				require.True(t, none, "case %d: %v", i, b)
				require.Nil(t, k)
			}
		}
	}
	require.Greater(t, listed, 1000)
	require.Greater(t, ruledOut, 100)
}

// shortStrips returns the problem of a class in sixteenths of an inch and strips that are too short for it by a little.
func shortStrips(rng *rand.Rand) (*problem, []int) {
	p := &problem{}
	var need int64
	size := int64(700 + rng.IntN(80))
	for range 8 + rng.IntN(20) {
		u := unit{size: size, demand: 1 + rng.IntN(3)}
		need += u.size * int64(u.demand)
		p.units = append(p.units, u)
		if size -= 1 + rng.Int64N(40); size < 100 {
			break
		}
	}
	for _, feet := range rng.Perm(6) {
		p.sources = append(p.sources, source{item: len(p.items), gives: []give{{len(p.bins), 1}}})
		p.items = append(p.items, supply{int64(feet + 5), unlimited})
		p.bins = append(p.bins, bin{capacity: int64(feet+5) * 192})
	}
	p.index()
	avail := make([]int, len(p.bins))
	for b := 0; ; b = rng.IntN(len(p.bins)) {
		if need -= p.bins[b].capacity; need <= 0 {
			return p, avail
		}
		avail[b]++
	}
}

// Strips that are shorter in sum than what is to be cut from them are refused by what the linear program pays, without the worths that
// a packer starts with: those in proportion to the lengths.
func TestLinearProgramSeesThatStripsAreTooShort(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 2))
	for i := range 300 {
		p, avail := shortStrips(rng)
		k := newPacker(p, 0, nil, newEffort(context.Background(), 1e8), tuning{})
		k.worths = nil
		for n := range 4 {
			require.False(t, k.possible(avail, held{bin: -1}), "case %d.%d", i, n)
			from, to := rng.IntN(len(avail)), rng.IntN(len(avail))
			if p.bins[to].capacity <= p.bins[from].capacity && avail[from] > 0 {
				avail[from]--
				avail[to]++ // no longer than before
			}
			k.worths = nil
		}
	}
}

// A packer's answers for a strip held back are those of a search that tries every way, whatever it was asked before.
func TestPackerAgainstEveryWay(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 3))
	yes, no := 0, 0
	for i := range 600 {
		p, avail := randomPacking(rng)
		k := newPacker(p, 0, nil, newEffort(context.Background(), 1e8), tuning{})
		for range 6 {
			h := held{bin: rng.IntN(len(p.bins))}
			if avail[h.bin] == 0 {
				continue
			}
			h.room = rng.Int64N(p.bins[h.bin].capacity + 1)
			a := k.ask(avail, h, 1e6)
			want := packs(p, avail, h)
			require.Equal(t, want, a.found, "case %d: %+v from %v of %+v, %+v", i, p.units, avail, p.bins, h)
			require.True(t, a.found || a.exhausted)
			if want {
				yes++
				requirePacked(t, p, avail, h, a.strips)
			} else {
				no++
			}
		}
	}
	require.Greater(t, yes, 500)
	require.Greater(t, no, 500)
}

// randomPacking returns units of a class and strips that are about as long as they are in sum.
func randomPacking(rng *rand.Rand) (*problem, []int) {
	p := &problem{}
	size := 9 + rng.Int64N(4)
	for range 2 + rng.IntN(3) {
		p.units = append(p.units, unit{size: size, demand: 1 + rng.IntN(2)})
		if size -= 1 + rng.Int64N(4); size < 1 {
			break
		}
	}
	for i := range 2 {
		p.sources = append(p.sources, source{item: i, gives: []give{{i, 1}}})
		p.items = append(p.items, supply{1, unlimited})
		p.bins = append(p.bins, bin{capacity: 10 + rng.Int64N(14)})
	}
	p.index()
	return p, []int{1 + rng.IntN(2), rng.IntN(3)}
}

// packs tells whether the units fit the strips, by trying each unit on each.
func packs(p *problem, avail []int, h held) bool {
	var rooms, units []int64
	for b, n := range avail {
		for i := range n {
			if b == h.bin && i == 0 {
				rooms = append(rooms, h.room)
			} else {
				rooms = append(rooms, p.bins[b].capacity)
			}
		}
	}
	for _, u := range p.units {
		for range u.demand {
			units = append(units, u.size)
		}
	}
	var place func(i int) bool
	place = func(i int) bool {
		if i == len(units) {
			return true
		}
		for r := range rooms {
			if rooms[r] >= units[i] {
				rooms[r] -= units[i]
				ok := place(i + 1)
				rooms[r] += units[i]
				if ok {
					return true
				}
			}
		}
		return false
	}
	return place(0)
}

// requirePacked checks the strips of an answer: one of them within the room it is held to, none longer than it is.
func requirePacked(t *testing.T, p *problem, avail []int, h held, strips []filled) {
	t.Helper()
	used := make([]int, len(p.bins))
	cut := make([]int, len(p.units))
	least := p.bins[h.bin].capacity
	for _, f := range strips {
		used[f.bin]++
		require.LessOrEqual(t, p.sizeOf(f.pat), p.bins[f.bin].capacity)
		if f.bin == h.bin {
			least = min(least, p.sizeOf(f.pat))
		}
		for _, q := range f.pat {
			cut[q.unit] += int(q.n)
		}
	}
	if used[h.bin] < avail[h.bin] {
		least = 0
	}
	require.LessOrEqual(t, least, h.room)
	for b := range used {
		require.LessOrEqual(t, used[b], avail[b])
	}
	for u, n := range cut {
		require.GreaterOrEqual(t, n, p.units[u].demand)
	}
}
