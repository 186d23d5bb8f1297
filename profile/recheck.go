package profile

import "listel/profile/measure"

// Check returns what is wrong with the shape of a section that is not as Profile.Section built it, but mapped: where it crosses itself, or is
// thinner than LeastThickness. It is nil when nothing is, else Errors, its lengths in those units.
func (s Section) Check(units measure.Units) error {
	z := &sizer{profile: Profile{Name: s.Name}, format: measure.Format{Units: units}}
	for _, m := range s.Members {
		z.pieces = append(z.pieces, piece{Entry: Entry{Kind: m.Kind}, index: m.Index})
	}
	s.outline = s.boundaryLinks()
	for _, test := range []func(Section){z.checkCrossings, z.checkGapCrossings, z.checkThin} {
		if test(s); len(z.errs) > 0 {
			return z.errs
		}
	}
	return nil
}
