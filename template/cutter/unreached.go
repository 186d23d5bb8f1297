package cutter

import (
	"math"
	"sort"

	"listel/profile/geom"
)

// Unreached is a place where no tool at hand takes the waste down to the allowance: how much wood stays, how deep it lies, and the largest tool that
// would take it.
type Unreached struct {
	Y0    float64 `json:"y0_mm"`
	Y1    float64 `json:"y1_mm"`
	Depth float64 `json:"depth_mm"` // of what stays, from the nearest face of the section
	Area  float64 `json:"area_mm2"` // of what stays over the allowance

	From Face       `json:"from"`     // the side of the blank that what is said below is measured from: that the tool named would enter, else the nearest
	In   [2]float64 `json:"in"`       // unit vector from that side into the wood
	Deep float64    `json:"deep_mm"`  // the most wood that stays, straight in from that side
	Down float64    `json:"under_mm"` // how far the foot of the place lies under that side: what a tool has to reach

	Tool   string  `json:"tool,omitempty"`    // tool of the set that would take it if it reached so far, "" for none
	Flat   float64 `json:"flat_mm,omitempty"` // diameter of the largest straight bit that would, where that is larger than the ball
	Ball   float64 `json:"ball_mm"`           // radius of the largest round nose that would, 0 when none of 0.5 mm or more does
	ByHand bool    `json:"by_hand,omitempty"` // planes alone may be used
	Why    string  `json:"why"`
}

// writeUnreached names the places that no tool reaches: points closer than 0.4 mm belong together. wood is what the plan leaves.
func (s *search) writeUnreached(r *Result, rest []geom.Point, wood *block) {
	for _, group := range newBuckets(rest, 0.4).groups(rest) {
		r.Unreached = append(r.Unreached, s.place(group, wood))
	}
	sort.SliceStable(r.Unreached, func(i, j int) bool { return r.Unreached[i].Y0 < r.Unreached[j].Y0 })
}

// place describes a group of points that no tool reaches.
func (s *search) place(group []geom.Point, wood *block) Unreached {
	u := Unreached{Y0: math.Inf(1), Y1: math.Inf(-1), ByHand: s.byHand()}
	last, far := group[0], math.Inf(1)
	over, hint := 0, 0
	for _, q := range group {
		if !s.t.poly.within(q, s.opts.Allowance, &hint) {
			over++
		}
		u.Y0, u.Y1 = math.Min(u.Y0, q.Y), math.Max(u.Y1, q.Y)
		if far+q.Dist(last) > u.Depth { // else it cannot be deeper
			last, far = q, s.t.poly.dist(q)
			u.Depth = math.Max(u.Depth, far)
		}
	}
	u.Y0, u.Y1, u.Depth = round(u.Y0-fineStep, 100), round(u.Y1+fineStep, 100), round(u.Depth+fineStep, 100)
	u.Area = round(float64(over)*fineStep*fineStep, 100)
	s.wanted(&u, group, wood)
	u.Why = u.Because(inMM)
	return u
}

// wanted finds the largest tool that would take a group of points away, of whatever reach: one of the set before all others, and from the side where it
// has to reach least. It measures how deep the place lies from there.
func (s *search) wanted(u *Unreached, group []geom.Point, wood *block) {
	type way struct {
		bed  bed
		tool int // of the set, -1 for none
		flat float64
		ball float64
	}
	best, found := way{}, false
	better := func(w way) bool {
		had, has := best.tool >= 0, w.tool >= 0
		switch {
		case had != has:
			return has
		case !has && math.Max(w.flat/2, w.ball) != math.Max(best.flat/2, best.ball):
			return math.Max(w.flat/2, w.ball) > math.Max(best.flat/2, best.ball)
		}
		return w.bed.down < best.bed.down-fineStep
	}
	for _, v := range s.views {
		if v.square < 0 {
			continue
		}
		w := way{bed: s.bedOf(v, group, wood), tool: -1}
		if !u.ByHand {
			w.tool = s.longer(w.bed)
			w.ball = largest(0.1, 20, func(r float64) bool { return clearsAll(v, roundNose(r), w.bed.low) })
			w.flat = 2 * largest(0.025, 20, func(r float64) bool { return clearsAll(v, flat(r, 0), w.bed.low) })
		}
		if !found || better(w) {
			best, found = w, true
		}
	}
	side := s.t.sides[best.bed.view.square]
	u.From, u.In = side.name, point(side.n.Mul(-1))
	u.Deep, u.Down = round(best.bed.deep, 100), round(best.bed.down, 100)
	if best.tool >= 0 {
		u.Tool = s.tools[best.tool].Name
	}
	u.Ball = round(best.ball, 10)
	if best.flat/2 > best.ball+0.05 {
		u.Flat = round(best.flat, 100)
	}
}

// A bed is a group of points as a tool comes upon it from a side: of each column of it the lowest.
type bed struct {
	view *view
	low  []geom.Point // in the view's frame, from left to right
	deep float64      // mm of wood that stands on one of them, the most
	down float64      // mm, of the lowest under the side
}

// bedOf returns the bed of a group of points from a square view.
func (s *search) bedOf(v *view, group []geom.Point, wood *block) bed {
	const step = 0.02
	lowest, over, hint := map[int]geom.Point{}, map[int]bool{}, 0
	column := func(q geom.Point) int { return int(math.Floor(q.X / fineStep)) }
	for _, p := range group {
		q := v.in(p)
		k := column(q)
		if !s.t.poly.within(p, s.opts.Allowance, &hint) {
			over[k] = true
		}
		if l, ok := lowest[k]; !ok || q.Y < l.Y {
			lowest[k] = q
		}
	}
	b := bed{view: v}
	for _, q := range lowest {
		b.low = append(b.low, q)
	}
	sort.Slice(b.low, func(i, j int) bool { return b.low[i].X < b.low[j].X })
	for _, q := range b.low {
		if len(over) > 0 && !over[column(q)] {
			continue
		}
		foot, top := q.Y, q.Y
		for foot > v.lo.Y && !s.t.poly.contains(v.out(geom.Pt(q.X, foot))) {
			foot -= step
		}
		for y := q.Y; y < v.hi.Y; y += step {
			p := v.out(geom.Pt(q.X, y))
			if s.t.poly.contains(p) {
				break
			}
			if wood.stands(p) {
				top = y
			}
		}
		b.deep, b.down = math.Max(b.deep, top-foot), math.Max(b.down, s.t.sides[v.square].d-foot)
	}
	return b
}

// longer returns the first router bit of the set that would clear a bed if only it were long enough, and no thicker behind what cuts; -1 for none.
func (s *search) longer(b bed) int {
	for k, t := range s.tools {
		if t.Works() != Router || t.Kind == Dovetail || t.Kind == SlotCutter || t.Pilot > 0 {
			continue
		}
		if t.deepest() < b.down && clearsAll(b.view, s.variants[k][0].cut, b.low) {
			return k
		}
	}
	return -1
}

// largest returns the greatest multiple of step, up to most, that fits; 0 when none of 0.5 or more does.
func largest(step, most float64, fits func(r float64) bool) float64 {
	lo, hi := int(math.Ceil(0.5/step))-1, int(most/step)+1
	least := lo
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; fits(float64(mid) * step) {
			lo = mid
		} else {
			hi = mid
		}
		if hi == least+1 {
			return 0
		}
	}
	return float64(lo) * step
}

// roundNose returns the lower edge of a round nose.
func roundNose(r float64) curve { return curve{arcPiece(geom.Pt(0, r), r, lowerHalf, -r, r)} }

// clearsAll reports whether a tool with the lower edge t, coming from v as often as need be, takes the points of a bed: its ends and thirty between them.
func clearsAll(v *view, t curve, low []geom.Point) bool {
	at := critical(v.env, t)
	n := min(len(low), 32)
	for i := range n {
		if !reaches(v.env, t, at, low[i*(len(low)-1)/max(1, n-1)]) {
			return false
		}
	}
	return true
}

// reaches reports whether a tool that clears the section takes the point q: at one of the offsets where contacts change, or one of thirty-three
// evenly spaced.
func reaches(env, t curve, at []float64, q geom.Point) bool {
	takes := func(x float64) bool {
		e, ok := t.at(q.X - x)
		return ok && lowest(env, t, x)+e <= q.Y
	}
	a, b := t.span()
	const parts = 32
	for k := range parts + 1 {
		if takes(q.X - b + (b-a)*float64(k)/parts) {
			return true
		}
	}
	for i := sort.SearchFloat64s(at, q.X-b); i < len(at) && at[i] < q.X-a; i++ {
		if takes(at[i]) {
			return true
		}
	}
	return false
}
