package cutter

import "listel/profile/geom"

// pilotPoint returns the k-th of eight places, in the frame, just inside the wood that a pilot runs on.
func pilotPoint(c *cut, dir float64, k int) geom.Point {
	w := c.variant
	return geom.Pt(c.x+dir*(w.pilot+0.15), c.h+w.ph*(float64(k)+0.5)/8)
}

// costOf returns what speaks against a cut beside its being a set-up, in set-ups: form cutters are set with more care than straight
// ones, planes take longer than machines.
func (s *search) costOf(c *cut) float64 {
	t := s.tools[c.tool]
	cost := 0.02 * float64(s.passes(c))
	switch t.Works() {
	case Router:
		cost += 0.1
	case Plane:
		cost += 0.2
	}
	if t.IsForm() {
		cost += 0.1
	}
	if c.view.square < 0 {
		cost += 0.1 // tilted
	}
	return cost
}

// passes returns in how many passes a cut is made from the blank's surface down, at least 1.
func (s *search) passes(c *cut) int {
	depth := c.view.hi.Y - c.h
	n := int(depth/s.tools[c.tool].PerPass + 0.999)
	return max(1, n)
}
