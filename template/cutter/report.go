package cutter

import (
	"math"
	"sort"

	"listel/profile/geom"
)

// left measures what a plan leaves on the section, places that nothing reaches not counted.
func (s *search) left(r *Result, wood *block, unreached []geom.Point) {
	out := newBuckets(unreached, 0.5)
	wood.over(s.t.poly, func(q geom.Point, area float64) {
		r.Left.Total += area
		d := s.t.poly.dist(q)
		if d > s.opts.Allowance-0.02 && out.near(q) {
			return
		}
		r.Left.Max = math.Max(r.Left.Max, d)
		r.Left.Area += area
	})
	r.Left.Total = round(r.Left.Total, 100)
	r.Left.Max, r.Left.Area = round(r.Left.Max, 1e3), round(r.Left.Area, 100)
}

// unreachedPoints returns the points of waste over the allowance that no cut of a plan clears and that have not fallen off.
func (s *search) unreachedPoints(picked []int, wood *block) []geom.Point {
	pts, levels := s.fine(picked)
	return s.openPoints(pts, levels, wood)
}

// openPoints returns those of the finely spaced points that are not cleared and have not fallen off.
func (s *search) openPoints(pts []geom.Point, levels []int, wood *block) []geom.Point {
	var out []geom.Point
	hint := 0
	for i, q := range pts {
		if levels[i] == len(marginLevels) && wood.stands(q) && !s.t.poly.within(q, s.opts.Allowance-0.05, &hint) {
			out = append(out, q)
		}
	}
	return out
}

// writeUnreached names the places that no tool reaches: points closer than 0.4 mm belong together.
func (s *search) writeUnreached(r *Result, rest []geom.Point) {
	for _, group := range newBuckets(rest, 0.4).groups(rest) {
		r.Unreached = append(r.Unreached, s.place(group))
	}
	sort.SliceStable(r.Unreached, func(i, j int) bool { return r.Unreached[i].Y0 < r.Unreached[j].Y0 })
}

// place describes a group of points that no tool reaches.
func (s *search) place(group []geom.Point) Unreached {
	u := Unreached{Y0: math.Inf(1), Y1: math.Inf(-1)}
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
	u.Ball = s.largestBall(group)
	u.Why = u.Because(inMM)
	return u
}

// largestBall returns the greatest radius, in mm to a tenth and 20 at most, of a round-nosed tool of any reach that takes a group of points away
// from one of the blank's sides, 0 when none of 0.5 mm or more does. It may be too small by little, never too great.
func (s *search) largestBall(group []geom.Point) float64 {
	const least, most = 5, 200 // tenths
	best := least - 1
	for _, v := range s.views {
		if v.square < 0 {
			continue
		}
		for hi := most + 1; hi-best > 1; {
			if mid := (best + hi) / 2; s.ballClears(v, float64(mid)/10, group) {
				best = mid
			} else {
				hi = mid
			}
			if hi <= least {
				break
			}
		}
	}
	if best < least {
		return 0
	}
	return float64(best) / 10
}

// ballClears reports whether a round nose of radius r coming from v clears six points of the group.
func (s *search) ballClears(v *view, r float64, group []geom.Point) bool {
	ball := curve{arcPiece(geom.Pt(0, r), r, lowerHalf, -r, r)}
	at := critical(v.env, ball)
	for i := 0; i < len(group); i += max(1, len(group)/6) {
		if q := v.in(group[i]); !reaches(v.env, ball[0], at, q) {
			return false
		}
	}
	return true
}

// reaches reports whether a ball that clears the section takes the point q: at one of the offsets where contacts change, or one of thirty-three
// evenly spaced.
func reaches(env curve, ball piece, at []float64, q geom.Point) bool {
	takes := func(x float64) bool { return lowest(env, curve{ball}, x)+ball.at(q.X-x) <= q.Y }
	const parts = 32
	for k := range parts + 1 {
		if takes(q.X - ball.r + 2*ball.r*float64(k)/parts) {
			return true
		}
	}
	for i := sort.SearchFloat64s(at, q.X-ball.r); i < len(at) && at[i] < q.X+ball.r; i++ {
		if takes(at[i]) {
			return true
		}
	}
	return false
}

// writeFaces states what part of each line and arc a plan leaves clean.
func (s *search) writeFaces(r *Result, p plan) {
	steps := s.steps(p.picked)
	for _, f := range s.t.facets {
		st := FaceState{Element: f.element, Kind: string(f.kind), Points: points(geom.Path{f.seg}.Flatten(0.005))}
		if a, ok := f.seg.(geom.Arc); ok {
			st.Radius = round(a.Radius, 1e4)
		}
		st.Clean = round(s.cleanPart(f, steps), 1e3)
		r.unclean += (1 - st.Clean) * f.length
		r.Faces = append(r.Faces, st)
	}
}

// cleanPart returns the part of a facet, looked at every 0.05 mm, that some step leaves clean.
func (s *search) cleanPart(f facet, steps []step) float64 {
	tol := s.t.samples[f.first].n.Norm()
	n, clean := max(20, int(f.length/0.05)), 0
	for i := range n {
		at := (float64(i) + 0.5) / float64(n)
		p := f.seg.At(at).Sub(f.seg.Tangent(at).Left().Mul(tol))
		for k := range steps {
			c := steps[k].cut
			q := c.view.in(p)
			if e, ok := c.variant.cut.at(q.X - c.x); ok && q.Y >= c.h+e {
				clean++
				break
			}
		}
	}
	return float64(clean) / float64(n)
}
