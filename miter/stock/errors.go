package stock

import (
	"errors"
	"fmt"
	"strings"
)

// A SizeError is a number out of its range.
type SizeError struct {
	What  string // the piece, profile or item, or "shop"
	Field string
	Value float64 // mm where Field is a length
	Want  string
}

// Error returns what the number belongs to, what it is and what it must be.
func (e *SizeError) Error() string {
	return fmt.Sprintf("%s: %s is %s; it must be %s", e.What, e.Field, number(e.Value), e.Want)
}

// A TooLongError is a piece that no stick for it can hold.
type TooLongError struct {
	Mark, Profile string
	Length        float64 // mm
	Item          string  // the longest stick there is for it
	Usable        float64 // mm, that stick's length less the trim
	Over          float64 // mm, how much too long the piece is
}

// Error returns the piece, the longest stick for it and by how much that is too short, in mm.
func (e *TooLongError) Error() string {
	return fmt.Sprintf("piece %s is %s mm long; the longest stick for it, %s, gives %s mm, %s mm too little",
		e.Mark, number(e.Length), e.Item, number(e.Usable), number(e.Over))
}

// A KerfError is a kerf wider than a piece is long.
type KerfError struct {
	Mark         string
	Length, Kerf float64 // mm
}

// Error returns the piece, its length and the kerf, in mm.
func (e *KerfError) Error() string {
	return fmt.Sprintf("piece %s is %s mm long, less than the kerf of %s mm", e.Mark, number(e.Length), number(e.Kerf))
}

// A NoStockError is a profile with nothing to cut it from.
type NoStockError struct {
	Profile   string
	Wood      string
	Width     float64 // mm
	Thickness float64 // mm
	Why       string  // what is missing: "wood", "thickness" or "width"
}

// Error returns what is missing, and for which profile.
func (e *NoStockError) Error() string {
	of := "profile " + e.Profile
	if e.Profile == "" {
		of = "the pieces"
	}
	switch e.Why {
	case "wood":
		return fmt.Sprintf("no stock of %s for %s", e.Wood, of)
	case "width":
		return fmt.Sprintf("no stock wide enough for %s: the strip is %s mm wide", of, number(e.Width))
	case "thickness":
		return fmt.Sprintf("no stock thick enough for %s, which needs %s mm, nor wide enough to glue it up", of, number(e.Thickness))
	}
	return fmt.Sprintf("no stock for %s", of)
}

// A PriceError names the items without a price where others have one.
type PriceError struct{ Items []string }

// Error returns the items without a price.
func (e *PriceError) Error() string {
	return fmt.Sprintf("no price for %s, while other stock has one: give all or none", strings.Join(e.Items, ", "))
}

// A WrapError is a wrap whose pieces do not go together.
type WrapError struct{ Wrap, Why string }

// Error returns the wrap and the reason.
func (e *WrapError) Error() string { return fmt.Sprintf("wrap %s: %s", e.Wrap, e.Why) }

// A LimitError is a job larger than the package takes.
type LimitError struct {
	What       string
	Got, Limit int
}

// Error returns how many there are and how many are taken.
func (e *LimitError) Error() string {
	return fmt.Sprintf("%d %s; the limit is %d", e.Got, e.What, e.Limit)
}

// A ScarceError is a rack that cannot yield all pieces, however it is cut.
type ScarceError struct {
	Profiles []string
	Needed   float64 // mm, length of the pieces with their kerfs
	Rack     float64 // mm, usable length of all strips there are, a kerf each included
}

// Error returns what the pieces take and what the rack has, in mm.
func (e *ScarceError) Error() string {
	of := ""
	if names := strings.Join(e.Profiles, ", "); names != "" {
		of = " for " + names
	}
	return fmt.Sprintf("not enough stock%s: the pieces take %s mm with their kerfs, the rack has %s mm, and no way to cut it yields them all",
		of, number(e.Needed), number(e.Rack))
}

// number prints a length or count in at most two decimals, without trailing zeros.
func number(v float64) string {
	s := fmt.Sprintf("%.2f", v)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// A SafeError is a piece shorter than the safe length where no stick for it is that long.
type SafeError struct {
	Mark    string
	Length  float64 // mm
	Safe    float64 // mm
	Longest float64 // mm, usable length of the longest stick
}

// Error returns the piece, the safe length and the longest stick for it, in mm.
func (e *SafeError) Error() string {
	return fmt.Sprintf("piece %s is %s mm long, under the safe length of %s mm, and no stick for it is that long (the longest gives %s mm)",
		e.Mark, number(e.Length), number(e.Safe), number(e.Longest))
}

// ErrNoPlan is returned when the effort ran out before any plan was found, or shown not to exist; only a scarce rack can
// bring that about.
var ErrNoPlan = errors.New("no plan found within the effort; more of it, or more stock, would do")
