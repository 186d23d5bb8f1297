package trace

import (
	"errors"
	"fmt"
	"image"
	"strings"

	"listel/profile/geom"
)

// What can be wrong with a plate. A Fault wraps one of them, or a *SeveralError or an *EdgeError.
var (
	ErrNoScale    = errors.New("no scale")
	ErrCoincide   = errors.New("points that coincide")
	ErrCollinear  = errors.New("points on one line")
	ErrContradict = errors.New("lengths that contradict each other")
	ErrBar        = errors.New("no scale bar found")
	ErrDivisions  = errors.New("a scale bar with other divisions than are said")
	ErrCrop       = errors.New("crop outside the image")
	ErrNothing    = errors.New("nothing found")
	ErrFace       = errors.New("the face seems to be on the other side")
	ErrSize       = errors.New("size out of range")
)

// A Fault says what is wrong with one scale or one section of a plate.
type Fault struct {
	Scale   string   // its name, "" when a section is at fault
	Section string   // its name, "" when a scale is at fault
	Index   int      // place in the plate's scales or sections, from 0
	Key     string   // which of its keys is at fault, "" when it is the whole
	Err     error    // a sentinel of this package with its reason
	Name    string   // an unknown name that the key gives, "" for any other fault
	Names   []string // those that it could give
}

// Error returns "scale plan: ..." or "section cornice: ...".
func (f *Fault) Error() string {
	switch {
	case f.Scale != "":
		return fmt.Sprintf("scale %s: %v", f.Scale, f.Err)
	case f.Section != "":
		return fmt.Sprintf("section %s: %v", f.Section, f.Err)
	}
	return f.Err.Error()
}

// Unwrap returns what is wrong.
func (f *Fault) Unwrap() error { return f.Err }

// Faults are all that is wrong with a plate: of its scales, then of its sections.
type Faults []*Fault

// Error returns the faults, a line each.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, fault := range f {
		lines[i] = fault.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the faults.
func (f Faults) Unwrap() []error {
	errs := make([]error, len(f))
	for i, fault := range f {
		errs[i] = fault
	}
	return errs
}

// orNil returns f as an error, nil when it is empty.
func (f Faults) orNil() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

// A SeveralError says that a crop holds more than one section.
type SeveralError struct {
	Boxes  []image.Rectangle // px, in the order of their size, the greatest first
	Joined bool              // their lines hang together: they are parts of one section whose outline is open, most likely
}

// Error lists the sections by their boxes, as left, top, right, bottom.
func (e *SeveralError) Error() string {
	boxes := make([]string, len(e.Boxes))
	for i, b := range e.Boxes {
		boxes[i] = fmt.Sprintf("[%d, %d, %d, %d]", b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
	}
	if e.Joined {
		return fmt.Sprintf("the section falls into %d parts, from left, top to right, bottom in pixels: %s; where they meet its outline is open by more than is closed", len(e.Boxes), strings.Join(boxes, ", "))
	}
	return fmt.Sprintf("%d sections in the crop, from left, top to right, bottom in pixels: %s; crop one of them", len(e.Boxes), strings.Join(boxes, ", "))
}

// An UnreadError says that a section was found in the picture and could not be read as members, or not as it stands.
type UnreadError struct {
	Outline []geom.Point // px, closed: what was found
	Err     error
}

// Error returns why.
func (e *UnreadError) Error() string { return e.Err.Error() }

// Unwrap returns why.
func (e *UnreadError) Unwrap() error { return e.Err }

// An EdgeError says that a section goes over the edge of its crop.
type EdgeError struct {
	Box   image.Rectangle // px, what there is of the section
	Sides []string        // of the crop: left, top, right, bottom
}

// Error names the sides.
func (e *EdgeError) Error() string {
	return fmt.Sprintf("the section touches the %s of the crop; crop with some paper round it", strings.Join(e.Sides, ", "))
}
