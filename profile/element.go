package profile

import (
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
)

// An Element is one member of a molding, drawn upward from where the member below it ended.
type Element interface {
	Validate() error                   // the first size out of range, as *SizeError
	Outline(from geom.Point) geom.Path // exact segments from the foot up, material on the left; assumes Validate passed
}

// A SizeError says which size of an element is out of range and what would do. Its lengths are kept apart from its words,
// so that they can be printed in the units of the file.
type SizeError struct {
	Key    string    // the file key at fault
	Reason string    // with a %s for each length
	MM     []float64 // the lengths, mm
}

// Error returns the reason with lengths in millimeters.
func (e *SizeError) Error() string { return e.In(measure.Format{}) }

// In returns the reason with lengths printed as f says.
func (e *SizeError) In(f measure.Format) string {
	args := make([]any, len(e.MM))
	for i, mm := range e.MM {
		args[i] = spell(f, mm)
	}
	return fmt.Sprintf(e.Reason, args...)
}

// spell prints a length of an error message: as f does, but to so many decimals that a small difference does not read
// as nothing.
func spell(f measure.Format, mm float64) string {
	switch {
	case math.IsNaN(mm):
		return "not a number"
	case f.Units != measure.Inches && mm != 0 && (math.Abs(mm) < 0.05 || math.Abs(mm*10-math.Round(mm*10)) > 1e-6):
		return fmt.Sprintf("%.4g mm", mm)
	case f.Units == measure.Inches && math.Abs(mm) < measure.MMPerInch/128 && mm != 0:
		return fmt.Sprintf("%.2g in", mm/measure.MMPerInch)
	}
	return f.Length(mm)
}

// sizeFault returns a *SizeError for key.
func sizeFault(key, reason string, mm ...float64) error {
	return &SizeError{Key: key, Reason: reason, MM: mm}
}

// least is the smallest size of a member in mm: what is smaller is no member but a slip, and its curves would drown in rounding.
const least = 0.001

// positive returns nil when mm is a length above 0 and within the limit.
func positive(key string, mm float64) error {
	switch {
	case math.IsNaN(mm):
		return sizeFault(key, key+" is not a number; it must be a length")
	case !(mm > 0):
		return sizeFault(key, key+" is %s; it must be more than 0", mm)
	case mm < least:
		return sizeFault(key, key+" is %s; it must be 0.001 mm at least", mm)
	case mm > measure.Limit:
		return sizeFault(key, key+" is %s; the limit is 20 m", mm)
	}
	return nil
}

// run returns nil when mm is a run that a member can take: any length but 0, of either sign.
func run(mm float64) error {
	switch {
	case math.IsNaN(mm):
		return sizeFault("projection", "projection is not a number; it must be a length")
	case mm == 0:
		return sizeFault("projection", "projection is 0; a fillet would do")
	case math.Abs(mm) < least:
		return sizeFault("projection", "projection is %s; it must be 0.001 mm at least, and for none a fillet would do", mm)
	case math.Abs(mm) > measure.Limit:
		return sizeFault("projection", "projection is %s; the limit is 20 m", mm)
	}
	return nil
}

// firstOf returns the first error of errs that is not nil.
func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// construction returns nil when c is one of those allowed.
func construction(c Construction, allowed ...Construction) error {
	for _, a := range allowed {
		if c == a {
			return nil
		}
	}
	list := ""
	for i, a := range allowed {
		switch {
		case i == len(allowed)-1:
			list += " or "
		case i > 0:
			list += ", "
		}
		list += string(a)
	}
	return sizeFault("curve", fmt.Sprintf("curve %q is not known here; it must be %s", string(c), list))
}

// or returns c, or the default for it when it is empty.
func (c Construction) or(d Construction) Construction {
	if c == "" {
		return d
	}
	return c
}

// upward places a member drawn from the origin to (|run|, height): from its foot when the run is positive, turned upside
// down when it is negative. Turning over keeps round members round and hollow ones hollow.
func upward(from geom.Point, run, height float64, drawn geom.Path) geom.Path {
	if run < 0 {
		return drawn.MirrorY().Translate(from.Add(geom.Pt(run, height)))
	}
	return drawn.Translate(from)
}

// level returns the level line of length run, nothing when run is 0.
func level(from geom.Point, run float64) geom.Path {
	if run == 0 {
		return nil
	}
	return geom.Path{geom.Line{A: from, B: from.Add(geom.Pt(run, 0))}}
}

// plumb returns the plumb line up by rise (down when negative), nothing when rise is 0.
func plumb(from geom.Point, rise float64) geom.Path {
	if rise == 0 {
		return nil
	}
	return geom.Path{geom.Line{A: from, B: from.Add(geom.Pt(0, rise))}}
}

// equalSizes is the difference in mm up to which two sizes of one member count as the same: thirds and sevenths written as
// decimals in a float leave less, and no tool sees it.
const equalSizes = 1e-6

// same reports whether two sizes are the same to within equalSizes.
func same(a, b float64) bool { return math.Abs(a-b) <= equalSizes }

// quarter returns the part of an upright ellipse about center from an eccentric angle on, a circular arc when the
// axes are the same.
func quarter(center geom.Point, rx, ry float64, from, sweep geom.Angle) geom.Segment {
	if same(rx, ry) {
		return geom.Arc{Center: center, Radius: rx, From: from, Sweep: sweep}
	}
	return geom.EllipticArc{Center: center, RX: rx, RY: ry, From: from, Sweep: sweep}
}
