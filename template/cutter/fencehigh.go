package cutter

import (
	"math"
	"slices"
)

// How much, in mm, must bear on a fence or on a plane's stop for it to be high enough, where so much bears. Common practice, no source.
const (
	fenceGrip = 10.0
	stopGrip  = 3.0
)

// fenceHigh returns the height over the table, in mm, that a fence or stop must have for a way to lay the blank: up to where enough of the wood against it
// lies, or all where less does. It holds for each of the woods given: as it comes to the cutter, and as it leaves it. It is 0 where nothing bears.
//
//	_______________  fence
//	 wood          |    |
//	_______        |____|  what bears begins here: a lower fence would not be touched
//	       \__     .    |
//	__________\____.____|  table
func (s *search) fenceHigh(a stance, w Work, woods ...*block) float64 {
	grip := fenceGrip
	if w == Plane {
		grip = stopGrip
	}
	high := 0.0
	for _, wood := range woods {
		high = math.Max(high, s.gripped(a, wood, grip))
	}
	return round(high, 10)
}

// gripped returns the height over the table under which grip mm of the wood against the fence lie, or all of it where less does.
func (s *search) gripped(a stance, wood *block, grip float64) float64 {
	f := s.t.sides[a.fence]
	n := int(math.Ceil(f.a.Dist(f.b) / faceStep))
	step := f.a.Dist(f.b) / float64(n)
	var at []float64
	for k := range n {
		if p := f.a.Lerp(f.b, (float64(k)+0.5)/float64(n)); wood.stands(p.Sub(f.n.Mul(0.03))) {
			at = append(at, s.machine(a, p).Y)
		}
	}
	if len(at) == 0 {
		return 0
	}
	slices.Sort(at)
	return at[min(len(at), int(math.Ceil(grip/step)))-1] + step/2
}
