package measure

import (
	"math"
	"math/big"
	"strings"
)

// A unit is what a size was written in.
type unit int

const (
	millimeters unit = iota
	centimeters
	meters
	inches
	feet // with or without inches; the number is held in inches
	parts
)

// A Quantity is a size as it was written: an exact number of inches, feet and inches, millimeters, centimeters,
// meters or parts. It is a value: methods return new ones. The zero value is 0 mm.
type Quantity struct {
	r       *big.Rat // in unit; nil is 0; never changed once the Quantity is handed out
	unit    unit
	decimal bool // written as a decimal
}

// IsParts reports whether q is in parts, so that its length depends on the profile.
func (q Quantity) IsParts() bool { return q.unit == parts }

// Parts returns the number of parts; NaN when q is a length.
func (q Quantity) Parts() float64 {
	if !q.IsParts() {
		return math.NaN()
	}
	f, _ := q.Rat().Float64()
	return f
}

// MM returns the length in millimeters, the float64 nearest to the exact one; NaN when q is in parts.
func (q Quantity) MM() float64 {
	if q.IsParts() {
		return math.NaN()
	}
	f, _ := q.Rat().Float64()
	return f
}

// Resolve returns the length in millimeters where one part is part millimeters long; part is not used when q is a
// length.
func (q Quantity) Resolve(part float64) float64 {
	if q.IsParts() {
		return q.Parts() * part
	}
	return q.MM()
}

// Rat returns the exact number of millimeters, or of parts when q is in parts. It is the caller's to change.
func (q Quantity) Rat() *big.Rat {
	if q.r == nil {
		return new(big.Rat)
	}
	switch q.unit {
	case inches, feet:
		return new(big.Rat).Mul(q.r, big.NewRat(254, 10))
	case centimeters:
		return new(big.Rat).Mul(q.r, big.NewRat(10, 1))
	case meters:
		return new(big.Rat).Mul(q.r, big.NewRat(1000, 1))
	}
	return new(big.Rat).Set(q.r)
}

// Sign returns -1, 0 or 1 as q is less than, equal to or more than 0.
func (q Quantity) Sign() int { return q.Rat().Sign() }

// Neg returns q with the other sign.
func (q Quantity) Neg() Quantity {
	q.r = new(big.Rat).Neg(q.number())
	return q
}

// Equal reports whether q and p are the same size exactly, however they were written. Parts never equal a length.
func (q Quantity) Equal(p Quantity) bool {
	return q.IsParts() == p.IsParts() && q.Rat().Cmp(p.Rat()) == 0
}

func (q Quantity) number() *big.Rat {
	if q.r == nil {
		return new(big.Rat)
	}
	return q.r
}

// String returns q exactly, in the unit it was written in and in a form that ParseSize reads as the same size:
// 1 1/8in, 2ft 3 1/2in, 0.875in, 19mm, 2 1/2p.
func (q Quantity) String() string {
	n := q.number()
	sign := ""
	if n.Sign() < 0 {
		sign, n = "-", new(big.Rat).Neg(n)
	}
	switch q.unit {
	case centimeters:
		return sign + q.digits(n) + "cm"
	case meters:
		return sign + q.digits(n) + "m"
	case inches:
		return sign + q.digits(n) + "in"
	case parts:
		return sign + q.digits(n) + "p"
	case feet:
		ft := new(big.Int).Quo(n.Num(), new(big.Int).Mul(n.Denom(), big.NewInt(12)))
		in := new(big.Rat).Sub(n, new(big.Rat).SetInt(new(big.Int).Mul(ft, big.NewInt(12))))
		if in.Sign() == 0 {
			return sign + ft.String() + "ft"
		}
		return sign + ft.String() + "ft " + q.digits(in) + "in"
	}
	return sign + q.digits(n) + "mm"
}

// digits returns n >= 0 exactly: as a decimal when q was written as one, else as a whole number with a fraction.
func (q Quantity) digits(n *big.Rat) string {
	if q.decimal {
		if places, exact := n.FloatPrec(); exact {
			return n.FloatString(places)
		}
	}
	return Mixed(n)
}

// Mixed returns r exactly as a whole number, a fraction or both, in lowest terms: 3, 3/4, -1 1/8.
func Mixed(r *big.Rat) string {
	var b strings.Builder
	whole, rem := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	if r.Sign() < 0 {
		b.WriteByte('-')
	}
	if whole.Sign() != 0 || rem.Sign() == 0 {
		b.WriteString(whole.Abs(whole).String())
	}
	if rem.Sign() != 0 {
		if whole.Sign() != 0 {
			b.WriteByte(' ')
		}
		b.WriteString(rem.Abs(rem).String() + "/" + r.Denom().String())
	}
	return b.String()
}
