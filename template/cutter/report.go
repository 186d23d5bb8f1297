package cutter

import (
	"math"

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
