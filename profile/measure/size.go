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

// A unit is what a size is written in.
type unit int

const (
	millimeters unit = iota
	centimeters
	meters
	inches
	feet // with or without inches
	parts
)

// inMM is what one of each unit is in millimeters; a part is left as it is.
var inMM = map[unit]*big.Rat{
	millimeters: big.NewRat(1, 1), centimeters: big.NewRat(10, 1), meters: big.NewRat(1000, 1),
	inches: big.NewRat(254, 10), feet: big.NewRat(12*254, 10), parts: big.NewRat(1, 1),
}

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
	in := millimeters
	if bare == Inches {
		in = inches
	}
	if w := s.word(); w != "" {
		u, ok := words[w]
		switch {
		case !ok && w == "o":
			return Quantity{}, "it ends in the letter O; the digit 0 may be meant"
		case !ok && w == "l":
			return Quantity{}, "it ends in the letter l; the digit 1 may be meant"
		case !ok:
			return Quantity{}, "the unit " + quote(w) + " is not known"
		}
		in = u
	}
	if in == feet {
		if n, why = s.feet(n); why != "" {
			return Quantity{}, why
		}
	}
	if !s.done() {
		return Quantity{}, s.leftover()
	}
	r := new(big.Rat).Mul(n, inMM[in])
	if negative {
		r.Neg(r)
	}
	return Quantity{r, in == parts}, ""
}

// feet reads the inches that may follow n feet, with or without a hyphen between and an inch mark behind, and
// returns both together in feet.
func (s *scanner) feet(n *big.Rat) (*big.Rat, string) {
	if s.done() {
		return n, ""
	}
	if !n.IsInt() {
		return nil, "feet that inches follow must be a whole number"
	}
	if s.take('-') {
		s.spaces()
	}
	if s.peek(0) == '.' { // 2ft.5 may be meant as two feet and a half
		return nil, "inches behind feet need a digit before the point"
	}
	in, why := s.number()
	if why != "" {
		return nil, why
	}
	if w := s.word(); w != "" && words[w] != inches {
		return nil, "only inches may follow feet"
	}
	return in.Mul(in, big.NewRat(1, 12)).Add(in, n), ""
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
