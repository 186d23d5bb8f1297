package stock

import "math"

// unitsPerMM is the number of exact length units in a millimeter. One unit is 0.625 µm, the largest length of which both
// 1/64 in (635 units) and 0.01 mm (16 units) are whole multiples, so that lists in inches and lists in millimeters
// alike are added up without rounding.
const unitsPerMM = 1600

// slop is how far from a whole unit a float may lie and still be taken for it, in units: it absorbs the error of
// a sum of float64 millimeters (20 m is 3.2e7 units, with an error under 1e-8) and is 1/1000 of a unit, far below any saw.
const slop = 1e-3

// maxMM is the greatest length accepted: 20 m.
const maxMM = 20000

// roundUp returns mm in units, rounded up: a piece never gets shorter, a kerf never thinner.
func roundUp(mm float64) int64 { return int64(math.Ceil(mm*unitsPerMM - slop)) }

// roundDown returns mm in units, rounded down: a stick never gets longer, a board never wider.
func roundDown(mm float64) int64 { return int64(math.Floor(mm*unitsPerMM + slop)) }

// toMM returns a number of units in millimeters.
func toMM(units int64) float64 { return float64(units) / unitsPerMM }

// centsPerPrice is the number of money units in one of the currency: costs are compared in whole cents.
const centsPerPrice = 100

// toCents returns a price in whole cents, rounded to the nearest.
func toCents(price float64) int64 { return int64(math.Round(price * centsPerPrice)) }

// gcd returns the greatest common divisor of two numbers >= 0; gcd(0, n) is n.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// ceilDiv returns a/b rounded up, for b > 0.
func ceilDiv(a, b int64) int64 {
	if a <= 0 {
		return -(-a / b)
	}
	return (a + b - 1) / b
}
