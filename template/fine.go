package template

import (
	"fmt"
	"math"

	"listel/profile/measure"
)

// Fine returns a length in mm that is too small for a fraction of an inch: to a thousandth of an inch, 0.003 in, or a hundredth of a millimeter,
// 0.08 mm. One above 0 that would round to nothing is under the smallest: under 0.001 in.
func Fine(mm float64, f measure.Format) string { return fine(mm, f, " in") }

// fine returns a small length as it stands on a drawing: 0.003″ or 0.08 mm.
func (st Style) fine(mm float64) string { return fine(mm, st.Lengths, "″") }

// finest is under what, mm, a length is told finely: a fraction of an inch says little of less than 1/16.
const finest = measure.MMPerInch / 16

// LeftOver returns how much wood stays somewhere: a fraction, or less than 1/16 in as Fine tells it, never less than it is.
func LeftOver(mm float64, f measure.Format) string {
	if mm < finest {
		return Fine(upToFine(mm, f), f)
	}
	return f.Length(mm)
}

// leftOver returns the same as it stands on a drawing.
func (st Style) leftOver(mm float64) string {
	if mm < finest {
		return st.noMore(mm)
	}
	return st.Lengths.Drawing(mm)
}

// NoMore returns a small length that is not exceeded, up to the next thousandth of an inch or hundredth of a millimeter: what a check found is told so wherever it is.
func NoMore(mm float64, f measure.Format) string { return Fine(upToFine(mm, f), f) }

// noMore returns a small length that is not exceeded as it stands on a drawing, up to the next thousandth of an inch or hundredth of a millimeter.
func (st Style) noMore(mm float64) string { return st.fine(upToFine(mm, st.Lengths)) }

// upToFine returns a small length, mm, up to the next thousandth of an inch or hundredth of a millimeter.
func upToFine(mm float64, f measure.Format) float64 {
	least := inUnits(f, 1./1000, 0.01)
	return math.Max(0, math.Ceil(mm/least-1e-3)) * least
}

// inUnits returns a round size in mm: so many inches where lengths are in inches, else so many millimeters.
func inUnits(f measure.Format, inches, mm float64) float64 {
	if f.Units == measure.Inches {
		return inches * measure.MMPerInch
	}
	return mm
}

func fine(mm float64, f measure.Format, inches string) string {
	v, format := mm, "%.2f mm"
	least := 0.01
	if f.Units == measure.Inches {
		v, format, least = mm/measure.MMPerInch, "%.3f"+inches, 0.001
	}
	if v > 1e-6 && v < least/2 {
		return "under " + fmt.Sprintf(format, least)
	}
	return fmt.Sprintf(format, v)
}
