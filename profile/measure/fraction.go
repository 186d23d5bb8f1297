package measure

import (
	"math"
	"strconv"
)

// A rounded is a length in inches rounded to num/den, sign apart.
type rounded struct {
	num, den int64 // den as asked for, not reduced
	negative bool  // never with num 0
	off      int   // +1 when the true size is greater by over 1/256 in, -1 when less, else 0
	bad      bool  // not a finite length
}

// nudge lets a half that arithmetic left a hair short round as it would on paper.
const nudge = 1e-9

// markOver is how far off in inches a printed length must be for a mark, and a hair that arithmetic may leave.
const markOver = 1.0/256 + 1e-9

// maxInches keeps sixty-fourths, times 254, well inside an int64.
const maxInches = 1e12

// round returns mm rounded to the nearest 1/Fraction in, halves up. A Fraction out of its range counts as 64.
func (f Format) round(mm float64) rounded {
	den := f.Fraction
	if f.Validate() != nil || den == 0 {
		den = finest
	}
	size := math.Abs(mm) / MMPerInch
	if !(size <= maxInches) {
		return rounded{den: 1, bad: true}
	}
	n := math.Round(size*float64(den) + nudge)
	r := rounded{num: int64(n), den: int64(den), negative: mm < 0}
	switch off := size - n/float64(den); {
	case off > markOver:
		r.off = 1
	case off < -markOver:
		r.off = -1
	}
	if r.num == 0 && r.negative { // -0 prints as 0, a little less
		r.negative, r.off = false, -r.off
	}
	return r
}

func (r rounded) sign() string {
	if r.negative {
		return "-"
	}
	return ""
}

func (r rounded) mark() string { return [...]string{"-", "", "+"}[r.off+1] }

// feet returns the whole feet in r.
func (r rounded) feet() int64 { return r.num / (12 * r.den) }

// lessFeet returns r without its whole feet and its sign.
func (r rounded) lessFeet() rounded {
	r.num %= 12 * r.den
	r.negative = false
	return r
}

// split returns the whole inches of r and what is over in lowest terms; num is 0 when nothing is.
func (r rounded) split() (whole, num, den int64) {
	whole, num = r.num/r.den, r.num%r.den
	a, b := num, r.den
	for b != 0 {
		a, b = b, a%b
	}
	return whole, num / a, r.den / a
}

// ascii returns r without sign and mark as 1 3/4.
func (r rounded) ascii() string {
	if r.bad {
		return "?"
	}
	whole, num, den := r.split()
	frac := strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
	switch {
	case num == 0:
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return frac
	}
	return strconv.FormatInt(whole, 10) + " " + frac
}

// eighths are the fractions that the Go fonts have as one character.
var eighths = map[[2]int64]string{
	{1, 2}: "½", {1, 4}: "¼", {3, 4}: "¾", {1, 8}: "⅛", {3, 8}: "⅜", {5, 8}: "⅝", {7, 8}: "⅞",
}

// drawn returns r without sign and mark as 1¾ or 2 7⁄16.
func (r rounded) drawn() string {
	if r.bad {
		return "?"
	}
	whole, num, den := r.split()
	if num == 0 {
		return strconv.FormatInt(whole, 10)
	}
	one, single := eighths[[2]int64{num, den}]
	if !single {
		one = strconv.FormatInt(num, 10) + "\u2044" + strconv.FormatInt(den, 10)
	}
	switch {
	case whole == 0:
		return one
	case single:
		return strconv.FormatInt(whole, 10) + one
	}
	return strconv.FormatInt(whole, 10) + " " + one
}
