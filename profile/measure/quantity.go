package measure

import (
	"math"
	"math/big"
	"strings"
)

// A Quantity is a size as it was read, exactly: a length or a number of parts. It is a value. The zero value is 0 mm.
type Quantity struct {
	r     *big.Rat // millimeters, or parts; nil is 0; never changed once the Quantity is handed out
	parts bool
}

// IsParts reports whether q is in parts, so that its length depends on the profile.
func (q Quantity) IsParts() bool { return q.parts }

// Parts returns the number of parts; NaN when q is a length.
func (q Quantity) Parts() float64 {
	if !q.parts {
		return math.NaN()
	}
	f, _ := q.Rat().Float64()
	return f
}

// MM returns the length in millimeters, the float64 nearest to the exact one; NaN when q is in parts.
func (q Quantity) MM() float64 {
	if q.parts {
		return math.NaN()
	}
	f, _ := q.Rat().Float64()
	return f
}

// Rat returns the exact number of millimeters, or of parts when q is in parts. It is the caller's to change.
func (q Quantity) Rat() *big.Rat {
	if q.r == nil {
		return new(big.Rat)
	}
	return new(big.Rat).Set(q.r)
}

// Sign returns -1, 0 or 1 as q is less than, equal to or more than 0.
func (q Quantity) Sign() int { return q.Rat().Sign() }

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
