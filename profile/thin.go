package profile

import (
	"math"

	"listel/profile/geom"
)

// wedge is the angle from which on two faces that meet at a corner count as a corner, not as a thin place. A flat cyma may end against a
// level top at less than 10 degrees and still be cut, as common practice has it (no source); a cove that ends level there leaves a feather.
const wedge = 5 * geom.Degree

// A boundary is a closed outline, counter-clockwise, made ready for asking how thick the section is.
type boundary struct {
	exact   []link // the outline itself
	links   []link // the outline with elliptic arcs as chains of circular ones
	from    []int  // which of exact each of links is part of
	boxes   []geom.Rect
	ways    []fan
	lengths []float64
}

func newBoundary(outline []link) boundary {
	links, from := rounded(outline)
	n := len(links)
	b := boundary{exact: outline, links: links, from: from, boxes: make([]geom.Rect, n), ways: make([]fan, n), lengths: make([]float64, n)}
	for i, l := range links {
		b.boxes[i], b.lengths[i], b.ways[i] = l.seg.Bounds(), l.seg.Length(), fanOf(l.seg)
	}
	// At an inner corner a circle touches the corner itself, from any direction between those of its sides.
	for i := range links {
		j := (i + 1) % len(links)
		if turn := turnAt(links[i].seg, links[j].seg); turn < 0 {
			corner := fan{links[i].seg.Tangent(1).Angle() + turn/2, -turn / 2}
			b.ways[i], b.ways[j] = b.ways[i].with(corner), b.ways[j].with(corner)
		}
	}
	return b
}

// rounded returns the links with elliptic arcs replaced by circular ones through their points every 15 degrees: within a thousandth of the
// axes of them, which is plenty for a thickness, and far quicker.
func rounded(links []link) (out []link, from []int) {
	out = make([]link, 0, len(links)+8)
	for k, l := range links {
		e, ok := l.seg.(geom.EllipticArc)
		if !ok {
			out, from = append(out, l), append(from, k)
			continue
		}
		n := int(math.Ceil(e.Sweep.Abs().Degrees() / 15))
		for i := range n {
			t0, t1 := float64(i)/float64(n), float64(i+1)/float64(n)
			seg, err := geom.ArcThrough(e.At(t0), e.At((t0+t1)/2), e.At(t1))
			if err != nil { // so small that its points fall together
				seg = geom.Line{A: e.At(t0), B: e.At(t1)}
			}
			out, from = append(out, link{seg, l.owner}), append(from, k)
		}
	}
	return out, from
}

// turnAt returns the angle turned from the end of one segment to the start of the next, positive to the left.
func turnAt(arrives, leaves geom.Segment) geom.Angle {
	in, out := arrives.Tangent(1), leaves.Tangent(0)
	return geom.Angle(math.Atan2(in.Cross(out), in.Dot(out)))
}

// A fan is a range of directions: those within half of mid.
type fan struct{ mid, half geom.Angle }

// fanOf returns the directions in which a segment is travelled.
func fanOf(seg geom.Segment) fan {
	from := seg.Tangent(0).Angle()
	if a, ok := seg.(geom.Arc); ok {
		return fan{from + a.Sweep/2, a.Sweep.Abs() / 2}
	}
	return fan{mid: from}
}

// with returns a fan that holds both.
func (f fan) with(g fan) fan {
	d := geom.Angle(math.Remainder(float64(g.mid-f.mid), 2*math.Pi))
	lo, hi := min(-f.half, d-g.half), max(f.half, d+g.half)
	return fan{f.mid + (lo+hi)/2, min((hi-lo)/2, 180*geom.Degree)}
}

// faces reports whether a direction of f is opposite to one of g, to within wedge.
func (f fan) faces(g fan) bool {
	d := geom.Angle(math.Remainder(float64(f.mid-g.mid-math.Pi), 2*math.Pi)).Abs()
	return d <= f.half+g.half+wedge
}

// A ball is the largest circle inside the section that touches the boundary at a point; thick is its diameter.
type ball struct {
	thick  float64
	at, to geom.Point // the two contacts
	seg    int        // the segment that the second lies on
}

// thinnest returns the thinnest place under limit mm, and whether there is one. Thickness is the diameter of the largest circle inside
// that touches the boundary at two places that face each other. A corner under 5 degrees is 0 thick.
func (b boundary) thinnest(limit float64) (Thin, bool) {
	if len(b.links) == 0 {
		return Thin{}, false
	}
	if t, found := b.feather(); found {
		return t, true
	}
	best, found := ball{thick: limit}, false
	bestSeg := 0
	for i := range b.links {
		near := b.near(i, limit)
		if len(near) == 0 {
			continue
		}
		if at, ok := b.thinnestOn(i, near, best.thick); ok {
			best, bestSeg, found = at, i, true
		}
	}
	if neck, i, ok := b.neck(best.thick); ok {
		best, bestSeg, found = neck, i, true
	}
	return Thin{Thickness: best.thick, At: best.at.Lerp(best.to, 0.5), Member: b.links[bestSeg].owner, ends: [2]int{bestSeg, best.seg}}, found
}

// feather finds a corner of wood sharper than wedge.
func (b boundary) feather() (Thin, bool) {
	for i := range b.links {
		j := (i + 1) % len(b.links)
		if b.from[i] == b.from[j] {
			continue
		}
		l, next := b.exact[b.from[i]], b.exact[b.from[j]]
		turn := float64(turnAt(l.seg, next.seg))
		// Left turns are corners of wood; a turn right back is one when the wood lies between, on the left of both.
		sharp := turn > math.Pi-float64(wedge)+1e-9
		if math.Abs(turn) > math.Pi-1e-6 {
			sharp = b.cuspOfWood(l.seg, next.seg)
		}
		if sharp {
			return Thin{At: l.seg.End(), Member: max(l.owner, next.owner), ends: [2]int{i, j}}, true
		}
	}
	return Thin{}, false
}

// cuspOfWood reports whether a corner of no angle between two segments is wood: going back from it, the one that arrives lies to the right of
// the one that leaves.
func (b boundary) cuspOfWood(arrives, leaves geom.Segment) bool {
	step := math.Min(arrives.Length(), leaves.Length()) * 1e-3
	tip := arrives.End()
	p := arrives.At(1 - step/arrives.Length()).Sub(tip)
	q := leaves.At(step / leaves.Length()).Sub(tip)
	return q.Cross(p) >= 0
}

// behind returns the thinnest place under limit mm with a segment that cut picks on its one side and one of a member on the other, and whether
// there is one.
func (b boundary) behind(cut func(link) bool, limit float64) (Thin, bool) {
	best, bestSeg, found := ball{thick: limit}, 0, false
	for i, l := range b.links {
		if !cut(l) {
			continue
		}
		if at, ok := b.thinnestOn(i, b.near(i, limit), best.thick); ok && b.links[at.seg].owner > 0 {
			best, bestSeg, found = at, i, true
		}
	}
	return Thin{Thickness: best.thick, At: best.at.Lerp(best.to, 0.5), Member: b.links[best.seg].owner, ends: [2]int{bestSeg, best.seg}}, found
}

// near returns the segments within limit of segment i, itself left out; nil when none of them can face it.
func (b boundary) near(i int, limit float64) []int {
	box := b.boxes[i].Expand(b.most(i, limit))
	facing := false
	for j := range b.links {
		if facing = j != i && box.Overlaps(b.boxes[j]) && b.ways[i].faces(b.ways[j]); facing {
			break
		}
	}
	if !facing {
		return nil
	}
	var out []int
	for j := range b.links {
		if j != i && box.Overlaps(b.boxes[j]) {
			out = append(out, j)
		}
	}
	return out
}

// thinnestOn returns the thinnest place under limit that touches segment i: at sampled places, then closer about the best of them.
func (b boundary) thinnestOn(i int, near []int, limit float64) (ball, bool) {
	seg := b.links[i].seg
	best, bestT, found := ball{thick: limit}, 0.0, false
	try := func(t float64) {
		if at, ok := b.ballAt(i, t, near, best.thick); ok {
			best, bestT, found = at, t, true
		}
	}
	for _, j := range near {
		if !b.ways[i].faces(b.ways[j]) || !b.boxes[i].Expand(b.most(i, best.thick)).Overlaps(b.boxes[j]) {
			continue
		}
		other := b.links[j].seg
		t0, t1 := seg.Nearest(other.Start()), seg.Nearest(other.End())
		if t0 > t1 {
			t0, t1 = t1, t0
		}
		for k := range 5 {
			try(t0 + (t1-t0)*float64(k)/4)
		}
		// At a blunt end a circle pokes out; half its size further in it fits.
		for _, end := range [...]struct{ t, way float64 }{{t0, 1}, {t1, -1}} {
			p := seg.At(end.t)
			wide := p.Dist(other.At(other.Nearest(p)))
			for _, k := range [...]float64{0.501, 0.52, 0.6, 0.8, 1.2, 2} {
				try(end.t + end.way*k*wide/b.lengths[i])
			}
		}
		near, at := 0.5, t0
		for range 8 { // to and fro ends at the shortest distance
			at = seg.Nearest(other.At(near))
			near = other.Nearest(seg.At(at))
		}
		try(at)
	}
	for step := 0.1; found && step > 1e-4; step /= 2 {
		t := bestT
		try(t - step)
		try(t + step)
	}
	return best, found
}

// most returns how thick a ball can be that touches segment i, limit at most. A round limits it by its own curve, which
// makes no thin place.
func (b boundary) most(i int, limit float64) float64 {
	if a, ok := b.links[i].seg.(geom.Arc); ok && a.Sweep > 0 {
		return math.Min(limit, 2*a.Radius)
	}
	return limit
}

// ballAt returns the largest circle that touches segment i at t from the inside, when it is under limit and its second contact faces the
// first. It starts from a circle of that size and shrinks it onto what it holds.
func (b boundary) ballAt(i int, t float64, near []int, limit float64) (ball, bool) {
	seg := b.links[i].seg
	if !(t >= 0 && t <= 1) {
		return ball{}, false
	}
	// At a joint itself the neighbor leaves no room for a circle at all.
	off := math.Min(0.1, 0.01/b.lengths[i])
	t = math.Max(off, math.Min(1-off, t))
	p, n := seg.At(t), seg.Tangent(t).Left()
	r, found := b.most(i, limit)/2*(1-1e-9), ball{seg: -1}
	for _, j := range near {
		q, ok := b.contact(j, p, n, &r)
		if ok {
			found = ball{at: p, to: q, seg: j}
		}
	}
	if found.seg < 0 {
		return ball{}, false
	}
	found.thick = 2 * r
	facing := p.Add(n.Mul(r)).Sub(found.to).Unit().Dot(n)
	return found, facing <= -wedge.Cos()
}

// contact shrinks the circle of radius r that touches p, its center along n, until segment j does not reach into it, and returns where j touches it;
// false when j never did.
func (b boundary) contact(j int, p, n geom.Point, r *float64) (geom.Point, bool) {
	seg, touched, was := b.links[j].seg, false, geom.Point{}
	for range 60 {
		c := p.Add(n.Mul(*r))
		box := b.boxes[j]
		if c.X+*r < box.Min.X || c.X-*r > box.Max.X || c.Y+*r < box.Min.Y || c.Y-*r > box.Max.Y {
			break
		}
		q := seg.At(seg.Nearest(c))
		v := q.Sub(p)
		depth := v.Dot(n)
		if q.Dist(c) >= *r*(1-1e-9) || depth <= 1e-9 || v.Norm() < 1e-9 {
			break
		}
		*r, touched, was = v.Dot(v)/(2*depth), true, q
	}
	return was, touched
}

// neck finds two inner corners under limit apart with nothing in the circle between them: neither lies on a
// straight part that faces the other.
func (b boundary) neck(limit float64) (ball, int, bool) {
	var inner []int // the segments that end at an inner corner
	for i, l := range b.links {
		if next := b.links[(i+1)%len(b.links)]; l.seg.Tangent(1).Cross(next.seg.Tangent(0)) < -0.01 {
			inner = append(inner, i)
		}
	}
	best, bestSeg, found := ball{thick: limit}, 0, false
	for k, i := range inner {
		for _, j := range inner[k+1:] {
			p, q := b.links[i].seg.End(), b.links[j].seg.End()
			d := p.Dist(q)
			oneSegment := j == i+1 || i == 0 && j == len(b.links)-1
			if d >= best.thick || oneSegment || !b.inside(i, j) || !b.clear(p.Lerp(q, 0.5), d/2) {
				continue
			}
			best, bestSeg, found = ball{thick: d, at: p, to: q, seg: j}, i, true
		}
	}
	return best, bestSeg, found
}

// inside reports whether the line between the inner corners after segments i and j leaves both into the wood.
func (b boundary) inside(i, j int) bool {
	into := func(i, j int) bool {
		d := b.links[j].seg.End().Sub(b.links[i].seg.End())
		return b.links[i].seg.Tangent(1).Cross(d) > 0 || b.links[(i+1)%len(b.links)].seg.Tangent(0).Cross(d) > 0
	}
	return into(i, j) && into(j, i)
}

// clear reports whether no part of the boundary lies within r of c.
func (b boundary) clear(c geom.Point, r float64) bool {
	for j, l := range b.links {
		box := b.boxes[j]
		if c.X+r < box.Min.X || c.X-r > box.Max.X || c.Y+r < box.Min.Y || c.Y-r > box.Max.Y {
			continue
		}
		if l.seg.At(l.seg.Nearest(c)).Dist(c) < r*(1-1e-6) {
			return false
		}
	}
	return true
}
