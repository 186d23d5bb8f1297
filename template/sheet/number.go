package sheet

import (
	"math"
	"strconv"
)

// appendNum writes v with so many decimals at most, 0 to 9, without zeros at the end and never as -0.
func appendNum(b []byte, v float64, decimals int) []byte {
	if !(math.Abs(v) < 1e8) { // also NaN
		return strconv.AppendFloat(b, v, 'f', decimals, 64)
	}
	unit := int64(1)
	for range decimals {
		unit *= 10
	}
	n := int64(math.Round(math.Abs(v) * float64(unit)))
	if n == 0 {
		return append(b, '0')
	}
	if v < 0 {
		b = append(b, '-')
	}
	b = strconv.AppendInt(b, n/unit, 10)
	if n %= unit; n == 0 {
		return b
	}
	b = append(b, '.')
	for n > 0 {
		unit /= 10
		b = append(b, byte('0'+n/unit))
		n %= unit
	}
	return b
}

// num is appendNum as a string.
func num(v float64, decimals int) string {
	return string(appendNum(make([]byte, 0, 16), v, decimals))
}
