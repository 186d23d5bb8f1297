package miter

import "math"

// A Wood is how a species shrinks and swells. The coefficients may be 0: they then follow from the shrinkage.
type Wood struct {
	Name           string
	Radial         float64 // shrinkage from green to oven-dry across quarter-sawn boards, per cent
	Tangential     float64 // the same across flat-sawn boards
	CoefRadial     float64 // change of size for each per cent of moisture content, as a part of the size
	CoefTangential float64
	Source         string // where the values were published
}

// saturation is the moisture content, in per cent, above which wood keeps its size.
const saturation = 30.0

// Shrinkage returns the shrinkage of w from green to oven-dry across boards of that cut, in per cent.
func (w Wood) Shrinkage(c Cut) float64 {
	if c == QuarterSawn {
		return w.Radial
	}
	return w.Tangential
}

// Coefficient returns by which part of its width a board of that cut grows for each per cent of moisture content between 6 and 14 %.
func (w Wood) Coefficient(c Cut) float64 {
	k := w.CoefTangential
	if c == QuarterSawn {
		k = w.CoefRadial
	}
	if k > 0 {
		return k
	}
	return CoefficientFrom(w.Shrinkage(c))
}

// CoefficientFrom returns the coefficient that follows from a shrinkage from green to oven-dry (per cent): linear from 30 % moisture
// content down, and referred to the size at 10 %. The rule is from memory of a footnote in the Wood Handbook; it gives 21 of 22 printed
// coefficients to the last digit.
func CoefficientFrom(shrinkage float64) float64 {
	s := shrinkage / 100
	return s / saturation / (1 - s*(saturation-10)/saturation)
}

// Change returns by how many mm a board of that cut, size mm wide at a moisture content of from per cent, grows when it comes
// to that of to. Between 6 and 14 % it is equation 13-2 of the Wood Handbook, size times coefficient times change; outside equation 13-3,
// which holds up to 30 %.
func (w Wood) Change(size float64, c Cut, from, to float64) float64 {
	if math.Min(from, to) >= 6 && math.Max(from, to) <= 14 {
		return size * w.Coefficient(c) * (to - from)
	}
	return w.changeByShrinkage(size, c, from, to)
}

// changeByShrinkage is equation 13-3: linear from 30 % down to dry.
func (w Wood) changeByShrinkage(size float64, c Cut, from, to float64) float64 {
	s := w.Shrinkage(c)
	if !(s > 0) {
		return size * w.Coefficient(c) * (to - from)
	}
	return size * (to - from) / (saturation*100/s - saturation + from)
}

// valid reports whether w holds numbers that a wood can have.
func (w Wood) valid() bool {
	ok := func(v, most float64) bool { return v >= 0 && v < most }
	return ok(w.Radial, 30) && ok(w.Tangential, 30) && ok(w.CoefRadial, 0.02) && ok(w.CoefTangential, 0.02) &&
		(w.Radial > 0 || w.CoefRadial > 0) && (w.Tangential > 0 || w.CoefTangential > 0)
}
