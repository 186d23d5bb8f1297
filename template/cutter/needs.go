package cutter

import (
	"math"

	"listel/profile/geom"
)

// clears returns the level of the margin with which a cut, or the two of a pair and their wedge, clears the point p.
func (s *search) clears(c *cut, p geom.Point) int {
	if c.freed != nil && c.freed.holds(p, marginLevels[0]) {
		return 0
	}
	if c.parts[0] >= 0 {
		return min(s.clears(&s.cuts[c.parts[0]], p), s.clears(&s.cuts[c.parts[1]], p))
	}
	q := c.view.in(p)
	if q.Y < c.h || q.Y > c.h+c.variant.bulk {
		return len(marginLevels)
	}
	return c.variant.level(q.X-c.x, q.Y-c.h)
}

// settle finds for each hard point from the first on the best margin that any cut clears it with, and counts those cuts as clearing it.
func (s *search) settle(first int) {
	for len(s.levels) < s.rows.hard {
		s.levels = append(s.levels, len(marginLevels))
	}
	for i := first; i < s.rows.hard; i++ {
		for k := range s.cuts {
			if s.cuts[k].rows.has(s.rows.point(i)) {
				s.levels[i] = 0
				break
			}
		}
	}
	for _, w := range s.weak {
		if l := &s.levels[w.point]; *l > int(w.level) {
			*l = int(w.level)
		}
	}
	for _, w := range s.weak {
		if s.levels[w.point] == int(w.level) {
			s.cuts[w.cut].rows.set(s.rows.point(int(w.point)))
		}
	}
	s.spreadWeak()
	s.weak = nil
}

// spreadWeak gives pairs what their parts clear.
func (s *search) spreadWeak() {
	for k := range s.cuts {
		c := &s.cuts[k]
		if c.parts[0] >= 0 {
			c.rows.or(s.cuts[c.parts[0]].rows)
			c.rows.or(s.cuts[c.parts[1]].rows)
		}
	}
}

// addPoints makes further points of waste hard.
func (s *search) addPoints(pts []geom.Point) {
	first := s.rows.hard
	s.t.hard = append(s.t.hard, pts...)
	s.rows.hard += len(pts)
	words := len(newBitset(s.rows.total()))
	for k := range s.cuts {
		c := &s.cuts[k]
		for len(c.rows) < words {
			c.rows = append(c.rows, 0)
		}
		for i, p := range pts {
			switch l := s.clears(c, p); {
			case l == 0:
				c.rows.set(s.rows.point(first + i))
			case l < len(marginLevels):
				s.weak = append(s.weak, weak{int32(k), int32(first + i), int8(l)})
			}
		}
	}
	s.settle(first)
	s.need()
	s.keepFor(first)
}

// keepFor adds the cuts that clear any of the hard points from first on to those that none dominates: what was dominated and clears none of them
// still is.
func (s *search) keepFor(first int) {
	if s.kept == nil {
		return
	}
	in := newBitset(len(s.cuts))
	for _, k := range s.kept {
		in.set(k)
	}
	for k := range s.cuts {
		if s.cuts[k].rows.countIn(s.rows.point(first), s.rows.total()) > 0 {
			in.set(k)
		}
	}
	s.kept = s.kept[:0]
	in.each(func(k int) { s.kept = append(s.kept, k) })
}

// need sets the rows that a plan must have: every hard point that something clears, every arc that one cut leaves clean, every
// straight facet that can be cut clean in runs.
func (s *search) need() {
	any := newBitset(s.rows.total())
	for k := range s.cuts {
		if !s.cuts[k].banned {
			any.or(s.cuts[k].rows)
		}
	}
	s.needed = newBitset(s.rows.total())
	for i := range s.rows.hard {
		if any.has(s.rows.point(i)) {
			s.needed.set(s.rows.point(i))
		}
	}
	runs := s.cleanRuns()
	for i, f := range s.t.facets {
		switch f.kind {
		case arcFacet:
			if any.has(s.rows.facet(i)) {
				s.needed.set(s.rows.facet(i))
			}
		case lineFacet:
			if n := s.cleanIn(runs, f); n*100 < f.count*95 {
				continue
			}
			for k := f.first; k < f.first+f.count; k++ {
				if runs.has(s.rows.sample(k)) {
					s.needed.set(s.rows.sample(k))
				}
			}
		}
	}
}

// cleanRuns returns the samples of straight facets that some cut leaves clean together with half of their facet or 4 mm of it: a round
// tool that only touches does not count.
func (s *search) cleanRuns() bitset {
	out := newBitset(s.rows.total())
	for k := range s.cuts {
		if s.cuts[k].banned {
			continue
		}
		r := s.cuts[k].rows
		for _, f := range s.t.facets {
			if f.kind != lineFacet {
				continue
			}
			n := s.cleanIn(r, f)
			if float64(n)*f.length/float64(f.count) < math.Min(4, f.length/2) {
				continue
			}
			for i := f.first; i < f.first+f.count; i++ {
				if r.has(s.rows.sample(i)) {
					out.set(s.rows.sample(i))
				}
			}
		}
	}
	return out
}

// unclean returns the length of face, in mm, that a set of cleaned rows leaves with wood on it.
func (s *search) unclean(r bitset) float64 {
	sum := 0.0
	for _, f := range s.t.facets {
		sum += f.length * float64(f.count-s.cleanIn(r, f)) / float64(f.count)
	}
	return sum
}
