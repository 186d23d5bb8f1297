package cutter

import (
	"math"
	"slices"
)

// merit is what plans of one piece from one blank are told apart by, the first difference deciding and less being better: what is against their
// safety, the waste that they do not reach, the places of little margin for a fence that is off, their set-ups, and the face that is left to the
// scraper.
func (r Result) merit() [5]float64 {
	return [5]float64{float64(r.unsafe), r.reach(), float64(r.weak), float64(len(r.Setups)), round(r.unclean, 10)}
}

// beats reports whether a plan is better than another: more effort keeps it then.
func (r Result) beats(q Result) bool {
	a, b := r.merit(), q.merit()
	return slices.Compare(a[:], b[:]) < 0
}

// reach returns the waste over the allowance that a plan does not reach, in whole mm2: less is a matter of where it was looked at.
func (r Result) reach() float64 { return math.Round(unreachedArea(r)) }
