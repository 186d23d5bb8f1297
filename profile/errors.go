package profile

import (
	"fmt"

	"listel/profile/geom"
)

// An ElementError says what is wrong with one element, or with the profile where Index is 0. Key is the file key at
// fault, "" when it is the whole element.
type ElementError struct {
	Index  int // from 1
	Kind   Kind
	Key    string
	Reason string
}

// Error returns "element 3, cove: height is -1/4 in; it must be more than 0".
func (e *ElementError) Error() string {
	if e.Index == 0 {
		return e.Reason
	}
	return fmt.Sprintf("element %d, %s: %s", e.Index, e.Kind, e.Reason)
}

// Errors are all the faults found in a profile: those of the profile as a whole, then those of its elements in their order.
type Errors []*ElementError

// Error returns the faults, a line each.
func (e Errors) Error() string {
	s := ""
	for i, err := range e {
		if i > 0 {
			s += "\n"
		}
		s += err.Error()
	}
	return s
}

func countIs(n int) string { return fmt.Sprintf("count is %d", n) }

func degrees(a geom.Angle) string { return fmt.Sprintf("%.1f degrees", a.Degrees()) }
