package cutter

import (
	"math"

	"listel/profile/geom"
)

// fineStep is the distance, in mm, between the points at which a plan is looked over for waste that it leaves.
const fineStep = 0.08

// A column is the waste over one x: the numbers of its closely spaced points, as sorted pairs of the first and the one past the last.
type column struct {
	x    float64
	runs []int
}

// columns returns the blank's waste, found once.
func (s *search) columns() []column {
	if s.waste != nil {
		return s.waste
	}
	b := s.t.blank.bounds
	nx, ny := fineCells(b)
	var ys, all []float64
	for i := range nx {
		c := column{x: b.Min.X + (float64(i)+0.5)*b.Width()/float64(nx)}
		ys, all = s.t.poly.crossY(c.x, ys), s.t.blank.crossY(c.x, all)
		in := false
		for j := range ny + 1 {
			y := b.Min.Y + (float64(j)+0.5)*b.Height()/float64(ny)
			if is := j < ny && !insideRuns(ys, y) && insideRuns(all, y); is != in {
				c.runs, in = append(c.runs, j), is
			}
		}
		s.waste = append(s.waste, c)
	}
	return s.waste
}

// fineCells returns into how many columns and rows of closely spaced points a blank's bounds are divided.
func fineCells(b geom.Rect) (nx, ny int) {
	return int(math.Ceil(b.Width() / fineStep)), int(math.Ceil(b.Height() / fineStep))
}

// fine returns the points of waste, closely spaced, that a solution does not clear with the first margin, with the level it clears each with.
func (s *search) fine(picked []int) (pts []geom.Point, levels []int) {
	b := s.t.blank.bounds
	_, ny := fineCells(b)
	last, hint := -1, 0
	free, radius := geom.Point{}, 0.0 // within it nothing of the section is nearer than it has to be
	at := func(x float64, j int) {
		p := geom.Pt(x, b.Min.Y+(float64(j)+0.5)*b.Height()/float64(ny))
		// What clears one point most often clears the next.
		level := len(marginLevels)
		if last >= 0 {
			level = s.clears(&s.cuts[last], p)
		}
		for _, k := range picked {
			if level == 0 {
				return
			}
			if l := s.clears(&s.cuts[k], p); l < level {
				level, last = l, k
			}
		}
		if level == 0 {
			return
		}
		if !p.Near(free, radius) {
			if s.t.poly.within(p, s.t.near(), &hint) {
				return
			}
			free, radius = p, s.t.poly.dist(p)-s.t.near()
		}
		pts, levels = append(pts, p), append(levels, level)
	}
	for _, c := range s.columns() {
		for i := 0; i+1 < len(c.runs); i += 2 {
			for j := c.runs[i]; j < c.runs[i+1]; j++ {
				at(c.x, j)
			}
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
