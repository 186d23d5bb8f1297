package profile

import (
	"slices"

	"listel/profile/geom"
	"listel/profile/measure"
)

// Check returns what is wrong with the shape of a section that is not as Profile.Section built it, but mapped: where it crosses itself, or is
// thinner than LeastThickness. It is nil when nothing is, else Errors, its lengths in those units.
func (s Section) Check(units measure.Units) error {
	z := &sizer{profile: Profile{Name: s.Name}, format: measure.Format{Units: units}}
	for _, m := range s.Members {
		z.pieces = append(z.pieces, piece{Entry: Entry{Kind: m.Kind}, index: m.Index})
	}
	if s.outline == nil {
		s.outline = unowned(s.Outline)
	}
	for _, test := range []func(Section){z.checkCrossings, z.checkGapCrossings, z.checkThin} {
		if test(s); len(z.errs) > 0 {
			return z.errs
		}
	}
	return nil
}

// unowned returns the outline of a section that was not built from elements.
func unowned(p geom.Path) []link { return linked(0, slices.Clone(p)) }
