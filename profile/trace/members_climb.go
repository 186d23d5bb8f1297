package trace

import (
	"context"
	"math"
)

// climb tries changes to a fitted reading, one member or two neighbors at a time, and keeps those that make it cheaper: another
// construction, a level step more or less, two members read as one, one read as two. Joints that the split could not see, a step in line
// with a hollow's end or a fillet that goes on from an arc, are found so. It stops when ctx ends.
func (r *reading) climb(ctx context.Context, c *chain) {
	for range 4 {
		better := false
		for k := 0; k < len(r.parts) && ctx.Err() == nil; k++ {
			if next := r.bestChange(c, k); next != nil {
				*r, better = *next, true
			}
		}
		if !better {
			return
		}
		r.fit(c, 15)
	}
}

// worth is how much cheaper a changed reading must be to be taken.
const worth = 1.0

// bestChange returns the reading with the best change at part k, nil when none is worth it.
func (r *reading) bestChange(c *chain, k int) *reading {
	var best *reading
	least := -worth
	was := map[span]float64{}
	for _, n := range r.changes(k) {
		if gain := r.try(c, n, was); gain < least {
			best, least = n.reading, gain
		}
	}
	return best
}

// A change is a reading in which the parts from lo on, so many of them, stand for the parts from lo to hi of another.
type change struct {
	reading *reading
	lo, hi  int
	parts   int
}

// window is how many parts beside those that change are fitted anew with them.
const window = 2

// try fits a change to the points near it, and returns by how much that changes the cost.
func (r *reading) try(c *chain, n change, known map[span]float64) float64 {
	lo, hi := max(0, n.lo-window), min(len(r.parts)-1, n.hi+window)
	was, ok := known[span{lo, hi}]
	if !ok {
		was = r.copied().local(c, lo, hi, r, hi)
		known[span{lo, hi}] = was
	}
	now := n.reading.local(c, lo, hi+n.parts-(n.hi-n.lo+1), r, hi)
	for _, p := range n.reading.parts[n.lo : n.lo+n.parts] {
		own := n.reading.theta[p.at : p.at+p.shape.own()]
		if k, tied := p.shape.form.tie(); !(tied && k == 0) && p.shape.form != free && !p.shape.round(own) {
			return math.Inf(1)
		}
	}
	return now + n.reading.price() - was - r.price()
}

// local fits the parts lo to hi to their points, all else fixed, the end of the last held to where it was in another reading; it returns the
// cost of those points.
func (r *reading) local(c *chain, lo, hi int, was *reading, wasHi int) float64 {
	r.build(c)
	s := r.system
	first, last := r.spans[lo].first, r.spans[hi].last
	var near []sight
	for i, sg := range s.sights {
		if at := r.index[i]; at >= first && at <= last {
			near = append(near, sg)
		}
	}
	all := s.sights
	s.sights = thinned(near, sightsPerWindow)
	fixed := make([]bool, len(r.theta))
	for i := range fixed {
		fixed[i] = true
	}
	for k := lo; k <= hi; k++ {
		p := r.parts[k]
		for i := range p.shape.own() {
			fixed[p.at+i] = false
		}
		if p.step >= 0 {
			fixed[p.step] = false
		}
	}
	if lo == 0 {
		fixed[unknownGround] = false
	}
	wx, wy := was.ends()
	xs, ys := r.ends()
	s.holds = []hold{
		{xs[hi], wx[wasHi].value(was.theta), 0.02},
		{ys[hi], wy[wasHi].value(was.theta), 0.02},
	}
	var cost float64
	r.theta, cost = s.solve(r.theta, fixed, 6)
	s.sights, s.holds = all, nil
	return cost
}

// sightsPerWindow is how many points a change is judged by; with and without it they are the same.
const sightsPerWindow = 160

// thinned returns about n of the sights, with the weight of all.
func thinned(all []sight, n int) []sight {
	stride := len(all) / n
	if stride < 2 {
		return all
	}
	var out []sight
	for i := stride / 2; i < len(all); i += stride {
		s := all[i]
		s.w *= float64(stride)
		out = append(out, s)
	}
	return out
}

// groups are forms that differ by their construction alone.
var groups = [][]form{
	{ovoloQuadrant, ovoloArc, ovoloEllipse, ovoloShort}, {coveQuadrant, coveArc, coveEllipse, coveShort}, {rectaFlat, rectaBold, rectaEllipse, rectaFull, rectaRadius},
	{reversaFlat, reversaBold, reversaEllipse, reversaFull, reversaRadius}, {scotiaThirds, scotiaSevenths},
}

func (f form) group() []form {
	for _, g := range groups {
		for _, h := range g {
			if f == h {
				return g
			}
		}
	}
	return []form{f}
}

// changes returns the readings that differ from r at part k.
func (r *reading) changes(k int) []change {
	var out []change
	p := r.parts[k]
	curved := p.shape.form != flat && p.shape.form != slope && p.shape.form != free
	for _, f := range p.shape.form.group() {
		for _, v := range []steps{{}, {before: 1}, {after: 1}, {before: -1}, {after: -1}} {
			if f == p.shape.form && v == (steps{}) {
				continue
			}
			out = r.with(out, k, k, shape{form: f, sign: p.shape.sign}, v)
		}
	}
	if h, _ := r.spread(k, k); (curved || p.shape.form == slope) && h < 4 { // mm: so small that a fillet between two rounded corners may pass for it
		out = r.with(out, k, k, shape{form: flat, sign: 1}, steps{before: 1})
		out = r.with(out, k, k, shape{form: flat, sign: 1}, steps{after: 1})
		out = r.with(out, k, k, shape{form: flat, sign: 1}, steps{before: 1, after: 1})
		out = r.with(out, k, k, shape{form: flat, sign: 1}, steps{})
	}
	if g := p.shape.form; g.round() || g.hollow() {
		for _, v := range []steps{{}, {before: 1}, {after: 1}} {
			bow := 1.0 // a round bulges to the right as one goes up, a hollow to the left
			if g.round() {
				bow = -1
			}
			out = r.with(out, k, k, shape{form: free, sign: bow, arcs: []bool{true}}, v)
		}
	}
	if p.shape.form == free {
		out = append(out, r.named(k, k)...)
		if k > 0 {
			out = append(out, r.named(k-1, k)...)
		}
	}
	if k+1 < len(r.parts) {
		out = append(out, r.merged(k)...)
	}
	if curved {
		out = append(out, r.parted(k)...)
	}
	return out
}

// named returns the parts lo to hi as any one form.
func (r *reading) named(lo, hi int) []change {
	var out []change
	_, run := r.spread(lo, hi)
	for f := flat; f < free; f++ {
		for _, v := range []steps{{}, {after: 1}, {before: 1}} {
			out = r.with(out, lo, hi, shape{form: f, sign: math.Copysign(1, run)}, v)
		}
		if f != flat && f != slope {
			out = append(out, r.beside(lo, hi, shape{form: f, sign: math.Copysign(1, run)})...)
		}
	}
	return out
}

// merged returns the part k and the next as one member.
func (r *reading) merged(k int) []change {
	var out []change
	a, b := r.parts[k], r.parts[k+1]
	small := r.small(k) || r.small(k+1)
	if b.drip >= 0 || b.step >= 0 && math.Abs(r.theta[b.step]) > 1 && !small {
		return nil
	}
	if a.shape.form == free || b.shape.form == free {
		return r.named(k, k+1)
	}
	if a.shape.form == flat && b.shape.form == flat {
		return r.with(nil, k, k+1, shape{form: flat}, steps{})
	}
	add := func(f form, sign float64) {
		for _, g := range f.group() {
			for _, v := range []steps{{}, {before: 1}, {after: 1}, {before: 1, after: 1}} {
				out = r.with(out, k, k+1, shape{form: g, sign: sign}, v)
			}
		}
	}
	if small { // it may be nothing but a bad corner of its neighbor
		if !r.small(k) {
			add(a.shape.form, a.shape.sign)
		}
		if !r.small(k + 1) {
			add(b.shape.form, b.shape.sign)
		}
	}
	switch sa, sb := a.shape, b.shape; {
	case sa.form.round() && sb.form.round() && sa.sign > 0 && sb.sign < 0:
		add(halfRound, 1)
	case sa.form.hollow() && sb.form.hollow() && sa.sign < 0 && sb.sign > 0:
		add(halfHollow, 1)
		_, run := r.spread(k, k+1)
		add(scotiaThirds, math.Copysign(1, run))
	case sa.form.round() && sb.form.hollow() && sa.sign == sb.sign:
		if sa.sign > 0 {
			add(rectaFlat, 1)
		} else {
			add(reversaFlat, -1)
		}
	case sa.form.hollow() && sb.form.round() && sa.sign == sb.sign:
		if sa.sign > 0 {
			add(reversaFlat, 1)
		} else {
			add(rectaFlat, -1)
		}
	case sa.form == flat:
		add(sb.form, sb.sign)
	case sb.form == flat:
		add(sa.form, sa.sign)
	case sa.form == sb.form && sa.sign == sb.sign:
		add(sa.form, sa.sign)
	}
	return out
}

// small reports whether part k is so small that ink or a gap may have made it.
func (r *reading) small(k int) bool {
	h, run := r.spread(k, k)
	return h < 1.5 && math.Abs(run) < 3
}

// parted returns a curved part with a flat before or after it.
func (r *reading) parted(k int) []change {
	var out []change
	for _, f := range r.parts[k].shape.form.group() {
		out = append(out, r.beside(k, k, shape{form: f, sign: r.parts[k].shape.sign})...)
	}
	return out
}

// beside returns the parts lo to hi as a shape with a flat before it, and with one after it.
func (r *reading) beside(lo, hi int, s shape) []change {
	var out []change
	const short = 0.8 // mm, of the flat to start from
	h, run := r.spread(lo, hi)
	if h < 3*short {
		return nil
	}
	for _, below := range []bool{true, false} {
		if below && lo > 0 && r.parts[lo-1].shape.form == flat || !below && hi+1 < len(r.parts) && r.parts[hi+1].shape.form == flat && r.parts[hi+1].step < 0 {
			continue
		}
		n := r.copied()
		curve := part{shape: s, step: -1, drip: -1, at: n.unknowns(n.startOwn(s, h-short, run))}
		plain := part{shape: shape{form: flat, sign: 1}, step: -1, drip: -1, at: n.unknowns([]float64{short})}
		first, last := r.spans[lo].first, r.spans[hi].last
		cut := first + int(float64(last-first)*short/h)
		both := []part{plain, curve}
		if !below {
			both, cut = []part{curve, plain}, last-int(float64(last-first)*short/h)
		}
		both[0].step, both[0].drip = r.parts[lo].step, r.parts[lo].drip
		n.replace(lo, hi, both, []span{{first, cut}, {cut, last}})
		out = append(out, change{n.packed(), lo, hi, 2})
	}
	return out
}
