package measure

import "strings"

// Units are the units a file is written in or a sheet is printed in. The zero value is Millimeters.
type Units int

// The units.
const (
	Millimeters Units = iota
	Inches
)

// MMPerInch is the length of an inch in millimeters, exact by definition (international yard and pound
// agreement of 1959; NIST SP 811, from memory).
const MMPerInch = 25.4

// Limit is the greatest length that is read, in millimeters either side of 0: 20 m.
const Limit = 20000

// String returns "mm" or "in".
func (u Units) String() string {
	if u == Inches {
		return "in"
	}
	return "mm"
}

// ParseUnits reads the name of a system of units: in, inch, inches, mm, millimeter or millimeters, in any case
// of letters. Anything else is a *ValueError.
func ParseUnits(text string) (Units, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "in", "inch", "inches":
		return Inches, nil
	case "mm", "millimeter", "millimeters", "millimetre", "millimetres":
		return Millimeters, nil
	}
	return Millimeters, &ValueError{What: "unit", Text: text, Reason: "it is neither inches nor millimeters", Want: "in or mm"}
}
