package job

import (
	"fmt"
	"slices"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
	"listel/template/cutter"
)

// A ChoiceError says that a choice cannot be: Name is the option that it was made with.
type ChoiceError struct {
	Name   string
	Reason error // begins with what parts it from the name: a blank or a colon
}

// Error returns: effort "much"; it must be quick, usual or long.
func (e *ChoiceError) Error() string { return e.Name + e.Reason.Error() }

// Unwrap returns the reason.
func (e *ChoiceError) Unwrap() error { return e.Reason }

func wrongChoice(name, format string, a ...any) error {
	return &ChoiceError{name, fmt.Errorf(format, a...)}
}

// A Shop is what set-ups are planned with, as a person chooses it.
type Shop struct {
	Work      string // machine or plane
	Effort    string // quick, usual or long
	Allowance string // a length that may stay for scraper and paper, "" for the default
	Blank     profile.BlankWay
}

// ToPlan returns what it takes to plan the set-ups of a section: from the blank that the shop chooses, else from its own. A bare allowance is in units.
// The error is a *ChoiceError.
func (s Shop) ToPlan(section profile.Section, tools library.ToolSet, units measure.Units) (ToPlan, error) {
	if s.Blank != profile.BlankEither {
		section = section.From(s.Blank)
	}
	options, err := s.Options(units)
	return ToPlan{Section: section, Tools: tools, Options: options}, err
}

// Options returns the choices of a plan; a bare allowance is in units. The error is a *ChoiceError.
func (s Shop) Options(units measure.Units) (cutter.Options, error) {
	var out cutter.Options
	effort, ok := cutter.ParseEffort(s.Effort)
	if !ok {
		return out, wrongChoice("effort", " %q; it must be quick, usual or long", s.Effort)
	}
	out.Effort = effort
	if !slices.Contains([]profile.BlankWay{profile.BlankEither, profile.BlankFlat, profile.BlankUpright}, s.Blank) {
		return out, wrongChoice("blank", " %q; it must be flat or upright", s.Blank)
	}
	switch s.Work {
	case "machine":
		out.Works = []cutter.Work{cutter.Saw, cutter.Router}
	case "plane":
		out.Works = []cutter.Work{cutter.Plane}
	default:
		return out, wrongChoice("work", " %q; it must be machine or plane", s.Work)
	}
	if s.Allowance != "" {
		mm, err := measure.ParsePositive(s.Allowance, units)
		if err != nil {
			return out, wrongChoice("allowance", ": %w", err)
		}
		if !(mm >= 0.3 && mm <= 5) {
			return out, wrongChoice("allowance", " %s; it must be from 0.3 mm to 5 mm", s.Allowance)
		}
		out.Allowance = mm
	}
	return out, nil
}

// Tools returns the set of tools of that name in lib, the generic set in units when name is empty.
func Tools(lib *library.Library, name string, units measure.Units) (library.ToolSet, error) {
	if name == "" {
		name = library.DefaultTools(units)
	}
	set, _, err := lib.Tools(name)
	return set, err
}

// Lengths returns how lengths are printed: in units, "in" or "mm", else in those of the file; inches to the nearest 1/fraction. The error is
// a *ChoiceError.
func Lengths(units string, fraction int, file measure.Units) (measure.Format, error) {
	u := file
	if units != "" {
		var err error
		if u, err = measure.ParseUnits(units); err != nil {
			return measure.Format{}, wrongChoice("units", ": %w", err)
		}
	}
	switch fraction {
	case 2, 4, 8, 16, 32, 64:
		return measure.Format{Units: u, Fraction: fraction}, nil
	}
	return measure.Format{}, wrongChoice("fraction", " %d; it must be 2, 4, 8, 16, 32 or 64", fraction)
}
