package cutter

import "listel/profile/geom"

// grooves reports whether a cut runs in a closed groove: wood stands on both sides of it along more than half of the depth that it takes. before and after are the wood.
func (s *search) grooves(c *cut, before, after *block) bool {
	const (
		step   = 0.5 // mm
		beside = 0.4 // mm, from the edge of the tool to where wood is looked for
	)
	a, b := c.variant.cut.span()
	takes, closed := 0, 0
	at := func(u, v float64) geom.Point { return c.view.out(geom.Pt(c.x+u, v)) }
	for v := c.h + step/2; v < c.view.hi.Y; v += step {
		taken := false
		for u := a + step/2; u < b && !taken; u += step {
			taken = before.stands(at(u, v)) && !after.stands(at(u, v))
		}
		if !taken {
			continue
		}
		takes++
		if after.stands(at(a-beside, v)) && after.stands(at(b+beside, v)) {
			closed++
		}
	}
	return 2*closed > takes
}
