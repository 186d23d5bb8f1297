package cutter

import "slices"

// Widths that must bear, in mm, before a cut, and under which a warning is due. Common practice, no source.
const (
	leastTable = 3
	leastFence = 2.5
	fairTable  = 10
	fairFence  = 5
)

// width returns the extent of wood along a face after the steps in done, without what has fallen off where that is looked at.
func (o *orderer) width(ps []probe, done uint64) float64 {
	key := bearer{&ps[0], done}
	w, ok := o.widths[key]
	if !ok {
		n, held := 0, bitset(nil)
		if o.loose {
			held = o.wood.held(done)
		}
		for _, f := range o.stretches(ps) {
			if p := f.first; p.stands(done) && (p.solid || held == nil || held.has(int(p.cell))) {
				n += f.n
			}
		}
		w = float64(n) * faceStep
		o.widths[key] = w
	}
	return w
}

// A stretch is probes of a face that stand and go together: the first, and their number.
type stretch struct {
	first *probe
	n     int
}

// stretches returns the stretches of a face.
func (o *orderer) stretches(ps []probe) []stretch {
	out, ok := o.faces[&ps[0]]
	if !ok {
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
		o.faces[&ps[0]] = out
	}
	return out
}

// A bearer is a face after some steps: the steps of a plan share the probes of a face.
type bearer struct {
	face *probe
	done uint64
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
