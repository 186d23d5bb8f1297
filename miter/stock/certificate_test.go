package stock

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// problems returns the components of a random small job as problems.
func problems(t *testing.T, rng *rand.Rand) []*problem {
	t.Helper()
	j := smallJob(rng)
	classes, err := j.ready()
	if err != nil {
		return nil
	}
	costs, _ := j.costs()
	var out []*problem
	for _, g := range components(classes) {
		ch, _ := choices(g, 0, roundUp(j.Shop.Kerf), 1)
		out = append(out, newComponent(&j, g, ch[0], costs, tuning{}).prob)
	}
	return out
}

func TestCertificateIsCheckedWhole(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	met, refused := 0, 0
	for range 400 {
		for _, p := range problems(t, rng) {
			eff := newEffort(context.Background(), 1e6)
			s := p.start(0)
			d := newMaster(p, s, eff, tuning{}).solve(s)
			r := newReach(p.items, p.dearest())
			bound := r.up(d.bound(p, s))
			require.True(t, d.certificate(p, bound).check(p))
			a := p.optimum(eff, tuning{})
			if a.plan == nil {
				continue
			}
			require.LessOrEqual(t, bound, a.plan.cost)
			met++
			// the next payable cost is not proven by the same worths
			if next := r.up(bound + 1); next > bound {
				require.False(t, d.certificate(p, next).check(p))
			}
			// nor is anything with a strip, an item or a unit valued wrongly
			c := d.certificate(p, bound)
			b := rng.IntN(len(p.bins))
			if c.strip[b] > 0 {
				c.strip[b]--
				require.False(t, c.check(p))
				refused++
			}
			c = d.certificate(p, bound)
			for i, it := range p.items {
				if it.have != unlimited && c.extra[i] > 0 {
					c.extra[i]--
					require.False(t, c.check(p))
					refused++
					break
				}
			}
		}
	}
	require.Greater(t, met, 300)
	require.Greater(t, refused, 200)
}

// The two ways to look for a pattern worth too much agree.
func TestCertificateFollowsLongProofs(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 2))
	for range 300 {
		p := &problem{}
		for range 1 + rng.IntN(6) {
			p.units = append(p.units, unit{size: 1 + rng.Int64N(12), demand: 1 + rng.IntN(3)})
		}
		p.bins = []bin{{capacity: 5 + rng.Int64N(30)}}
		p.index()
		c := &certificate{strip: []int64{rng.Int64N(60)}}
		var units []int
		for u := range p.units {
			c.unit = append(c.unit, 1+rng.Int64N(15))
			units = append(units, u)
		}
		count := func(u int) int64 { return int64(p.units[u].demand) }
		nodes := certNodes
		require.Equal(t, c.covers(p, 0), c.follow(p, units, count, p.bins[0].capacity, c.strip[0], &nodes))
	}
}
