package template

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"listel/profile/measure"
)

// Fine returns a length in mm that is too small for a fraction of an inch: to a thousandth of an inch, 0.003 in, or a hundredth of a millimeter,
// 0.08 mm. One above 0 that would round to nothing is under the smallest: under 0.001 in.
func Fine(mm float64, f measure.Format) string { return fine(mm, f, " in") }

// fine returns a small length as it stands on a drawing: 0.003″ or 0.08 mm.
func (st Style) fine(mm float64) string { return fine(mm, st.Lengths, "″") }

func fine(mm float64, f measure.Format, inches string) string {
	v, format := mm, "%.2f mm"
	least := 0.01
	if f.Units == measure.Inches {
		v, format, least = mm/measure.MMPerInch, "%.3f"+inches, 0.001
	}
	if v > 1e-6 && v < least/2 {
		return "under " + fmt.Sprintf(format, least)
	}
	return fmt.Sprintf(format, v)
}

// InUnits returns a text of the planner, whose lengths are in millimeters, with them in the units of f, in plain characters.
func InUnits(text string, f measure.Format) string {
	if f.Units != measure.Inches {
		return text
	}
	return lengthsInText.ReplaceAllStringFunc(text, func(all string) string {
		return eachLength(strings.TrimSuffix(all, " mm"), f.Bare) + " in"
	})
}

// inUnits does the same for a drawing.
func (c *setupComposer) inUnits(s string) string {
	if c.st.Lengths.Units != measure.Inches {
		return s
	}
	return lengthsInText.ReplaceAllStringFunc(s, func(all string) string {
		return eachLength(strings.TrimSuffix(all, " mm"), c.st.Lengths.Drawing)
	})
}

// eachLength prints each number of a text, which is in mm.
func eachLength(text string, as func(mm float64) string) string {
	return numberInText.ReplaceAllStringFunc(text, func(n string) string {
		mm, err := strconv.ParseFloat(n, 64)
		if err != nil {
			return n
		}
		return as(mm)
	})
}

var (
	numberInText  = regexp.MustCompile(`\d+(?:\.\d+)?`)
	lengthsInText = regexp.MustCompile(`\d+(?:\.\d+)?(?: (?:by|and|to) \d+(?:\.\d+)?)* mm`)
)
