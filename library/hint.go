package library

import (
	"math"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"listel/profile/measure"
)

// bareLength finds a key with a bare number or fraction in an example of what could be written.
var bareLength = regexp.MustCompile(`([a-z-]+): (\d+(?:/\d+| \d+/\d+)?)([,}\]]|$)`)

// noLengths are the keys whose bare numbers are no lengths.
var noLengths = []string{"rows", "count", "drawers", "top-row", "price", "have", "ratio", "across", "up"}

// example returns an example of what could be written, given with bare lengths in inches, in the units that the file names: whole millimeters, tens of
// them from 100 up.
func (d *decoder) example(s string) string {
	if !d.metric {
		return s
	}
	return bareLength.ReplaceAllStringFunc(s, func(found string) string {
		m := bareLength.FindStringSubmatch(found)
		if slices.Contains(noLengths, m[1]) || m[2] == "8/4" {
			return found
		}
		sum := new(big.Rat)
		for _, part := range strings.Fields(m[2]) {
			r, ok := new(big.Rat).SetString(part)
			if !ok {
				return found
			}
			sum.Add(sum, r)
		}
		inches, _ := sum.Float64()
		mm := math.Max(1, math.Round(inches*measure.MMPerInch))
		if mm >= 100 {
			mm = math.Round(mm/10) * 10
		}
		if inches == 0 {
			mm = 0
		}
		return m[1] + ": " + strconv.FormatFloat(mm, 'f', -1, 64) + m[3]
	})
}
