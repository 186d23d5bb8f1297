package cutter

import "slices"

// Widths that must bear, in mm, before a cut, and under which a warning is due. Common practice, no source.
const (
	leastTable = 3
	leastFence = 2.5
	fairTable  = 10
	fairFence  = 5
)

// width returns the extent of wood along a side of the blank after the steps in done, without what has fallen off where that is looked at. ps are the
// probes of that side.
func (o *orderer) width(side int, ps []probe, done uint64) float64 {
	known, ok := o.widths[done]
	if !ok {
		known = &[4]float64{-1, -1, -1, -1}
		o.widths[done] = known
	}
	if known[side] < 0 {
		n, held := 0, bitset(nil)
		if o.loose {
			held = o.wood.held(done)
		}
		for _, f := range o.stretches(side, ps) {
			if p := f.first; p.stands(done) && (p.solid || held == nil || held.has(int(p.cell))) {
				n += f.n
			}
		}
		known[side] = float64(n) * faceStep
	}
	return known[side]
}

// A stretch is probes of a face that stand and go together: the first, and their number.
type stretch struct {
	first *probe
	n     int
}

// stretches returns the stretches of a side.
func (o *orderer) stretches(side int, ps []probe) []stretch {
	if o.faces[side] != nil {
		return o.faces[side]
	}
	var out []stretch
	for i := range ps {
		p := &ps[i]
		if n := len(out); n > 0 {
			q := out[n-1].first
			if p.solid && q.solid || p.solid == q.solid && p.mask == q.mask && (p.cell == q.cell || !o.loose) && slices.Equal(p.pairs, q.pairs) {
				out[n-1].n++
				continue
			}
		}
		out = append(out, stretch{p, 1})
	}
	o.faces[side] = out
	return out
}

// count returns how many of the probes are in wood, without what has fallen off where that is looked at.
func (o *orderer) count(ps []probe, done uint64) int {
	if !o.loose {
		return standing(ps, done)
	}
	n, held := 0, o.wood.held(done)
	for i := range ps {
		// A sliver that does not reach the middle of its cell does not count.
		if p := &ps[i]; p.stands(done) && (p.solid || held.has(int(p.cell))) {
			n++
		}
	}
	return n
}

// bearing judges the width of wood on a face before and after a cut.
func bearing(before, after, least, fair float64, none, goes, narrow note) note {
	switch {
	case before < least:
		return none
	case after < least:
		return goes
	case after < fair:
		return narrow
	}
	return 0
}
