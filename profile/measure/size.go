package measure

import (
	"math/big"
)

// What would do instead of a text that cannot be read.
const (
	wantLength = `; write it like 3/4 in, 1 1/8", 2ft 3 1/2in, 19mm or 1.9 cm`
	wantSize   = `; write it like 3/4 in, 1 1/8", 19mm, 1.9 cm or, in parts, 2 1/2p`
)

// maxParts bounds sizes in parts; what they come to is checked against Limit once the part is known.
const maxParts = 10000

// words maps what is written to the unit it means.
var words = map[string]unit{
	"in": inches, "inch": inches, "inches": inches, `"`: inches,
	"ft": feet, "foot": feet, "feet": feet, "'": feet,
	"mm": millimeters, "millimeter": millimeters, "millimeters": millimeters, "millimetre": millimeters, "millimetres": millimeters,
	"cm": centimeters, "centimeter": centimeters, "centimeters": centimeters, "centimetre": centimeters, "centimetres": centimeters,
	"m": meters, "meter": meters, "meters": meters, "metre": meters, "metres": meters,
	"p": parts, "part": parts, "parts": parts,
}

// ParseLength reads a length and returns it in millimeters, within Limit on either side of 0. A number without a
// unit is in the units bare. Parts and everything else that is no length give a *LengthError.
func ParseLength(text string, bare Units) (float64, error) {
	q, err := parse(text, bare, wantLength)
	if err != nil {
		return 0, err
	}
	if q.IsParts() {
		return 0, &LengthError{text, "parts have no meaning here" + wantLength}
	}
	return q.MM(), nil
}

// ParsePositive is ParseLength for a length that must be more than 0.
func ParsePositive(text string, bare Units) (float64, error) {
	mm, err := ParseLength(text, bare)
	if err == nil && !(mm > 0) {
		return 0, &LengthError{text, "it must be more than 0"}
	}
	return mm, err
}

// ParseSize reads a length or a number of parts, such as 2 1/2p, and keeps it exact. A number without a unit is in
// the units bare. What is no size gives a *LengthError.
func ParseSize(text string, bare Units) (Quantity, error) {
	return parse(text, bare, wantSize)
}

// parse reads a size; want ends the reason of an error about how it is written.
func parse(text string, bare Units, want string) (Quantity, error) {
	s, why := newScanner(text)
	if why != "" {
		return Quantity{}, &LengthError{text, why + want}
	}
	q, why := s.size(bare)
	if why != "" {
		return Quantity{}, &LengthError{text, why + want}
	}
	if why = q.over(); why != "" {
		return Quantity{}, &LengthError{text, why}
	}
	return q, nil
}

// size reads a whole text as a size, or returns the reason why it is none.
func (s *scanner) size(bare Units) (Quantity, string) {
	negative := s.sign()
	n, why := s.number()
	if why != "" {
		return Quantity{}, why
	}
	q := Quantity{r: n.r, decimal: n.decimal, unit: millimeters}
	if bare == Inches {
		q.unit = inches
	}
	if w := s.word(); w != "" {
		u, ok := words[w]
		if !ok {
			return Quantity{}, "the unit " + quote(w) + " is not known"
		}
		q.unit = u
	}
	if q.unit == feet {
		if q, why = s.feet(n); why != "" {
			return Quantity{}, why
		}
	}
	if !s.done() {
		return Quantity{}, s.leftover()
	}
	if negative {
		q.r = new(big.Rat).Neg(q.r)
	}
	return q, ""
}

// feet reads the inches that may follow n feet, with or without a hyphen between and an inch mark behind, and
// returns both together.
func (s *scanner) feet(n number) (Quantity, string) {
	q := Quantity{r: new(big.Rat).Mul(n.r, big.NewRat(12, 1)), unit: feet, decimal: n.decimal}
	if s.done() {
		return q, ""
	}
	if !n.r.IsInt() {
		return q, "feet that inches follow must be a whole number"
	}
	if s.take('-') {
		s.spaces()
	}
	if s.peek(0) == '.' { // 2ft.5 may be meant as two feet and a half
		return q, "inches behind feet need a digit before the point"
	}
	in, why := s.number()
	if why != "" {
		return q, why
	}
	if w := s.word(); w != "" && words[w] != inches {
		return q, "only inches may follow feet"
	}
	q.r.Add(q.r, in.r)
	q.decimal = in.decimal
	return q, ""
}

// over returns the reason why q is too great, empty when it is not.
func (q Quantity) over() string {
	r := q.Rat()
	r.Abs(r)
	if q.IsParts() && r.Cmp(big.NewRat(maxParts, 1)) > 0 {
		return "it is more than 10000 parts"
	}
	if !q.IsParts() && r.Cmp(big.NewRat(Limit, 1)) > 0 {
		return "it is over the limit of 20 m"
	}
	return ""
}
