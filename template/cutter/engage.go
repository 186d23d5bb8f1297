package cutter

import (
	"math"

	"listel/profile/geom"
)

// engages returns the least cutting length, in mm, that a router bit needs for what a step takes: from its highest cutting point down to the lowest wood
// that it takes. It is 0 when it takes nothing, and for a disc, whose width is its own.
func (s *search) engages(before, after *block, a stance, t Tool, high float64) float64 {
	if t.Works() != Router || t.Kind == SlotCutter {
		return 0
	}
	low := high
	for i, r := range before.runs {
		for _, y := range subtract(r, after.runs[i]) {
			low = math.Min(low, s.machine(a, geom.Pt(before.x(i), y)).Y)
		}
	}
	return math.Max(0, high-math.Max(0, low))
}
