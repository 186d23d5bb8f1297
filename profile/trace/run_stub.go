package trace

import (
	"math"
	"slices"

	"listel/profile/geom"
)

const (
	// mostStub is the length in px up to which a run does not tell for itself how it runs.
	mostStub = 18
	// stubLean is how far such a run may lean from level or plumb and still be meant so.
	stubLean = 12 * geom.Degree
)

// setStubs lays runs that are short, straight and nearly so level or plumb, as the section's long lines go: what a round pen, blur and the end of
// a gap leave of the edge of a small fillet does not tell how it runs.
func setStubs(runs []run, breaks []parting, line float64) {
	short := func(r run) bool { return len(r.points) >= 2 && r.length() <= mostStub }
	if !slices.ContainsFunc(runs, short) {
		return
	}
	var all []geom.Point
	for _, r := range runs {
		all = append(all, r.points...)
	}
	lean := -uprightTurn(all)
	for i := range runs {
		r := &runs[i]
		before, after := runs[(i+len(runs)-1)%len(runs)], runs[(i+1)%len(runs)]
		if !short(*r) || !breaks[i].gap && r.roundOn(before, false, line) || !breaks[(i+1)%len(breaks)].gap && r.roundOn(after, true, line) {
			continue
		}
		chord := r.points[len(r.points)-1].Sub(r.points[0])
		off := geom.Angle(math.Remainder(float64(chord.Angle()-lean), math.Pi/2))
		clear := [2]float64{cornerBlur, cornerBlur}
		for k, p := range [2]parting{breaks[i], breaks[(i+1)%len(breaks)]} {
			if p.gap {
				clear[k] = 0
			} else if r.convex(runs[(i+len(runs)-1+2*k)%len(runs)], k == 1) {
				clear[k] += line / 2
			}
		}
		// Where all of it is blur, the round of an outer corner leaves it leaning, and what stands out furthest tells where it is.
		hidden := r.length() < clear[0]+clear[1]+3
		if a := math.Abs(float64(off)); a <= float64(stubLean) || hidden && a <= 2.5*float64(stubLean) {
			r.lay(geom.Polar(1, chord.Angle()-off), clear, hidden && max(clear[0], clear[1]) > cornerBlur)
		}
	}
}

// roundOn reports whether the corner between a short run and the one beside it, after it or before it, is little more than what that one turns by on its way there: the short one
// is part of a round as small as pen and blur make a corner.
func (r run) roundOn(beside run, after bool, line float64) bool {
	if len(r.points) < 2 || len(beside.points) < 2 {
		return false
	}
	const share = 0.65 // of the turn
	clear := float64(cornerBlur)
	if r.convex(beside, after) {
		clear += line / 2
	}
	clear = math.Min(clear, beside.length()/3)
	in, out := r.points[len(r.points)-1].Sub(r.points[0]), beside.tip(clear, false).way
	if !after {
		in, out = beside.tip(beside.length()-clear, true).way, in
	}
	turn := math.Atan2(in.Cross(out), in.Dot(out))
	return beside.bend(!after)*(clear+r.length()/2)/turn > share
}

// convex reports whether the corner between r and the run beside it, after it or before it, is one of the section's outer ones: y down, the section on
// the right.
func (r run) convex(beside run, after bool) bool {
	way := func(r run) geom.Point { return r.points[len(r.points)-1].Sub(r.points[0]) }
	if after {
		return way(r).Cross(way(beside)) > 0
	}
	return way(beside).Cross(way(r)) > 0
}

// lay moves the run's points onto a straight line in a direction, if most of them lie near one: through their middle or, when outermost, through the one
// that stands out furthest. Those nearer to its ends than clear (px) count only where too few are left.
func (r *run) lay(way geom.Point, clear [2]float64, outermost bool) {
	n, from := geom.Pt(way.Y, -way.X), r.points[0]
	var off, all []float64
	for i, p := range r.points {
		d := p.Sub(from).Dot(n)
		if all = append(all, d); r.along[i] >= clear[0] && r.along[i] <= r.length()-clear[1] {
			off = append(off, d)
		}
	}
	if len(off) < 3 {
		off = all
	}
	slices.Sort(off)
	middle := off[len(off)/2]
	near := 0
	for _, d := range off {
		if math.Abs(d-middle) < 0.6 {
			near++
		}
	}
	if outermost {
		middle = off[len(off)-1]
	} else if near*10 < 7*len(off) {
		return
	}
	for i, p := range r.points {
		r.points[i], r.normals[i] = p.Sub(n.Mul(p.Sub(from).Dot(n)-middle)), n
	}
	r.measure()
}
