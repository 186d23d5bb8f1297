package cutter

import (
	"math"

	"listel/profile/geom"
)

// fineStep is the distance, in mm, between the points at which a plan is looked over for waste that it leaves.
const fineStep = 0.08

// fine returns the points of waste, closely spaced, that a solution does not clear with the first margin, with the level it clears each with.
func (s *search) fine(picked []int) (pts []geom.Point, levels []int) {
	b := s.t.blank.bounds
	nx, ny := int(math.Ceil(b.Width()/fineStep)), int(math.Ceil(b.Height()/fineStep))
	var ys, all []float64
	last, hint := -1, 0
	free, radius := geom.Point{}, 0.0 // within it nothing of the section is nearer than it has to be
	for i := range nx {
		x := b.Min.X + (float64(i)+0.5)*b.Width()/float64(nx)
		ys, all = s.t.poly.crossY(x, ys), s.t.blank.crossY(x, all)
		for j := range ny {
			p := geom.Pt(x, b.Min.Y+(float64(j)+0.5)*b.Height()/float64(ny))
			if insideRuns(ys, p.Y) || !insideRuns(all, p.Y) {
				continue
			}
			// What clears one point most often clears the next.
			level := len(marginLevels)
			if last >= 0 {
				level = s.clears(&s.cuts[last], p)
			}
			for _, k := range picked {
				if level == 0 {
					break
				}
				if l := s.clears(&s.cuts[k], p); l < level {
					level, last = l, k
				}
			}
			if level == 0 {
				continue
			}
			if !p.Near(free, radius) {
				if s.t.poly.within(p, s.t.near(), &hint) {
					continue
				}
				free, radius = p, s.t.poly.dist(p)-s.t.near()
			}
			pts, levels = append(pts, p), append(levels, level)
		}
	}
	return pts, levels
}

// insideRuns reports whether y lies between an odd and the next even of the sorted crossings.
func insideRuns(ys []float64, y float64) bool {
	in := false
	for _, v := range ys {
		if v > y {
			break
		}
		in = !in
	}
	return in
}

// lacking returns points of waste that a solution leaves although some cut would clear them, or clear them with more margin: spread out, and
// not those that were asked for before.
func (s *search) lacking(picked []int) []geom.Point {
	pts, levels := s.fine(picked)
	var out []geom.Point
	for i, p := range pts {
		if nearAny(out, p, 0.5) {
			continue
		}
		if levels[i] < len(marginLevels) && nearAny(s.t.hard, p, 0.3) {
			continue // its neighbor has the margin that can be had
		}
		if s.clearable(p) < levels[i] {
			out = append(out, p)
		}
	}
	return out
}

// clearable returns the best level with which any cut clears p.
func (s *search) clearable(p geom.Point) int {
	best := len(marginLevels)
	for k := range s.cuts {
		best = min(best, s.clears(&s.cuts[k], p))
		if best == 0 {
			break
		}
	}
	return best
}

func nearAny(pts []geom.Point, p geom.Point, d float64) bool {
	for _, q := range pts {
		if math.Abs(q.X-p.X) < d && math.Abs(q.Y-p.Y) < d && q.Near(p, d) {
			return true
		}
	}
	return false
}
