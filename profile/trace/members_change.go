package trace

import "math"

// steps tells which level steps a change adds (1) or takes away (-1).
type steps struct{ before, after int }

// with appends the change that reads the parts lo to hi as one shape, if it can.
func (r *reading) with(out []change, lo, hi int, s shape, v steps) []change {
	first := r.parts[lo]
	hasAfter := hi+1 < len(r.parts) && r.parts[hi+1].step >= 0
	atFoot := lo == 0
	switch {
	case v.before > 0 && (first.step >= 0 || atFoot && hi == lo && s.form == r.parts[lo].shape.form):
		return out
	case v.before < 0 && (first.step < 0 || first.drip >= 0 || math.Abs(r.theta[first.step]) > 1.5):
		return out
	case v.after > 0 && (hasAfter || hi+1 >= len(r.parts)):
		return out
	case v.after < 0 && (!hasAfter || r.parts[hi+1].drip >= 0 || math.Abs(r.theta[r.parts[hi+1].step]) > 1.5):
		return out
	}
	n := r.copied()
	h, run := r.spread(lo, hi)
	if v.after < 0 { // the step goes to the shape
		run += r.theta[r.parts[hi+1].step]
		n.parts[hi+1].step = -1
	}
	p := part{shape: s, step: first.step, drip: first.drip}
	if v.before < 0 {
		run += r.theta[first.step]
		p.step = -1
	}
	var own []float64
	if s.form == free && len(s.arcs) == 0 { // the same as it was
		s = first.shape
		own = append(own, r.theta[first.at:first.at+s.own()]...)
		own[1], p.shape = run, s
	} else {
		own = n.startOwn(s, h, run)
	}
	rest := run - s.run(own)
	if v.before > 0 && !atFoot {
		p.step = n.unknowns([]float64{0})
	}
	if v.after > 0 {
		n.parts[hi+1].step = n.unknowns([]float64{0})
	}
	// What the shape does not run goes to the steps beside it.
	switch {
	case v.after > 0 || v.after == 0 && hasAfter && p.step < 0:
		n.theta[n.parts[hi+1].step] += rest
	case p.step >= 0:
		n.theta[p.step] += rest
	case atFoot:
		n.theta[unknownGround] += rest
	}
	p.at = n.unknowns(own)
	n.replace(lo, hi, []part{p}, []span{{r.spans[lo].first, r.spans[hi].last}})
	return append(out, change{n.packed(), lo, hi, 1})
}

// startOwn returns sizes of a shape of about this rise and run to start a fit from.
func (r *reading) startOwn(s shape, h, run float64) []float64 {
	if s.form == free {
		return []float64{h, run, 0.2 * s.sign * math.Hypot(h, run)}
	}
	if run*s.sign < 0.5 {
		run = s.sign * 0.5
	}
	return s.start(h, run)
}

// spread returns rise and run from the start of part lo to the end of part hi, a step before lo not counted.
func (r *reading) spread(lo, hi int) (h, run float64) {
	for k := lo; k <= hi; k++ {
		p := r.parts[k]
		own := r.theta[p.at : p.at+p.shape.own()]
		h, run = h+own[0], run+p.shape.run(own)
		if k > lo && p.step >= 0 {
			run += r.theta[p.step]
		}
	}
	return h, run
}

func (r *reading) copied() *reading {
	n := *r
	n.parts = append([]part(nil), r.parts...)
	n.spans = append([]span(nil), r.spans...)
	n.theta = append([]float64(nil), r.theta...)
	n.fixed, n.system, n.index = nil, nil, nil
	return &n
}

func (r *reading) unknowns(v []float64) int {
	at := len(r.theta)
	r.theta = append(r.theta, v...)
	return at
}

// replace puts other parts in the place of lo to hi.
func (r *reading) replace(lo, hi int, parts []part, spans []span) {
	r.parts = append(append(append([]part(nil), r.parts[:lo]...), parts...), r.parts[hi+1:]...)
	r.spans = append(append(append([]span(nil), r.spans[:lo]...), spans...), r.spans[hi+1:]...)
}

// packed drops the unknowns that no part uses any more.
func (r *reading) packed() *reading {
	old := r.theta
	r.theta = append([]float64(nil), old[:firstOwn]...)
	move := func(at *int, n int) {
		if *at >= 0 {
			*at = r.unknowns(old[*at : *at+n])
		}
	}
	for k := range r.parts {
		p := &r.parts[k]
		move(&p.step, 1)
		move(&p.drip, 3)
		move(&p.at, p.shape.own())
	}
	if r.back != plainBack {
		move(&r.backAt, 2)
	}
	return r
}
