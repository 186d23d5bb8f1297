package cutter

import (
	"math"
	"sort"

	"listel/profile/geom"
)

// A closing is the lowest surface that a tool can leave over a section, which the heights found by lowest are checked by: what stays after it has been lowered
// at every offset as far as the section lets it.
type closing struct {
	s, t    curve
	offsets []float64 // where contacts change
}

func newClosing(s, t curve) closing {
	return closing{s: s, t: t, offsets: critical(s, t)}
}

// at returns the closing's height at x: the least lowest(x') + t(x - x') over all offsets x' that bring the tool over x.
// It is exact at the offsets where contacts change and found to 1e-9 mm between them.
func (c closing) at(x float64) float64 {
	best := math.Inf(1)
	for _, p := range c.t {
		best = math.Min(best, c.under(p, x))
	}
	return best
}

// under returns the least height that the tool's piece p leaves at x.
func (c closing) under(p piece, x float64) float64 {
	lo, hi := x-p.b, x-p.a
	xs := []float64{lo, hi}
	i := sort.SearchFloat64s(c.offsets, lo)
	for ; i < len(c.offsets) && c.offsets[i] < hi; i++ {
		xs = append(xs, c.offsets[i])
	}
	sort.Float64s(xs)
	f := func(o float64) float64 { return lowest(c.s, c.t, o) + p.at(x-o) }
	best := math.Inf(1)
	for k, o := range xs {
		best = math.Min(best, f(o))
		if k > 0 && o-xs[k-1] > vertical {
			best = math.Min(best, leastBetween(f, xs[k-1]+vertical, o-vertical))
		}
	}
	return best
}

// leastBetween returns the least value of f in [a, b]: a scan of eight parts, then thirds about the best of them.
func leastBetween(f func(float64) float64, a, b float64) float64 {
	const parts = 8
	k, best := 0, math.Inf(1)
	for i := 0; i <= parts; i++ {
		if v := f(a + (b-a)*float64(i)/parts); v < best {
			k, best = i, v
		}
	}
	lo := a + (b-a)*math.Max(0, float64(k-1))/parts
	hi := a + (b-a)*math.Min(parts, float64(k+1))/parts
	for hi-lo > 1e-9 {
		m0, m1 := lo+(hi-lo)/3, hi-(hi-lo)/3
		v0, v1 := f(m0), f(m1)
		best = math.Min(best, math.Min(v0, v1))
		if v0 <= v1 {
			hi = m1
		} else {
			lo = m0
		}
	}
	return best
}

// moved returns the piece translated by d.
func (p piece) moved(d geom.Point) piece {
	p.a, p.b = p.a+d.X, p.b+d.X
	p.y += d.Y
	p.c = p.c.Add(d)
	return p
}
