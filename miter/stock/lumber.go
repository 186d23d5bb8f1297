package stock

import "math"

const inch = 25.4 // mm

// cubicBoardFoot is a board foot in cubic millimeters: 144 cubic inches, that is 1 ft by 1 ft by 1 in (American Hardwood
// Export Council, measurement of sawn lumber).
const cubicBoardFoot = 144 * inch * inch * inch

// BoardFeet returns the volume of a board in board feet of 144 cubic inches, unrounded, for length, width and thickness in mm.
// Lumber under 1 in thick counts as 1 in thick, as the trade does.
func BoardFeet(length, width, thickness float64) float64 {
	return length * width * math.Max(thickness, inch) / cubicBoardFoot
}

// surfacedFrom is the thickness of lumber surfaced two sides, in 1/16 in, for each rough thickness in 1/16 in: the rows of
// two reference tables that agree (woodbin.com lumber dimensions, engineeringtoolbox.com hardwood lumber dimensions);
// 7/4 stands in the second only, and 10/4 there from memory.
var surfacedFrom = []struct{ rough, surfaced float64 }{
	{6, 3}, {8, 5}, {10, 7}, {12, 9}, {16, 13}, {20, 17}, {24, 21}, {28, 24}, {32, 28}, {40, 36}, {48, 44}, {64, 60},
}

// Surfaced returns the thickness in mm that rough lumber of the given thickness in mm has after surfacing two sides. Sizes
// between those of the tables follow their pattern, which fits every row of them: 3/16 in less up to 6/4, 1/4 in less
// above. It may be 0 or less for what is too thin to surface.
func Surfaced(rough float64) float64 {
	if t, ok := tabled(rough); ok {
		return t
	}
	if rough <= 1.5*inch+0.01 {
		return rough - 3.0/16*inch
	}
	return rough - inch/4
}

// Tabled reports whether lumber of that rough thickness in mm is sold so: whether it has a row in the tables that Surfaced is from.
func Tabled(rough float64) bool {
	_, ok := tabled(rough)
	return ok
}

// tabled returns what the tables say of a rough thickness, both in mm; false where they have no row for it.
func tabled(rough float64) (surfaced float64, ok bool) {
	for _, s := range surfacedFrom {
		if math.Abs(rough-s.rough/16*inch) < 0.01 {
			return s.surfaced / 16 * inch, true
		}
	}
	return 0, false
}

// RoughFor returns the thinnest of the rough thicknesses sold, in mm, that gives at least the given thickness in mm after
// surfacing two sides; 0 when none does and the blank must be glued up.
func RoughFor(thickness float64) float64 {
	for _, s := range surfacedFrom {
		if s.surfaced/16*inch >= thickness-0.01 {
			return s.rough / 16 * inch
		}
	}
	return 0
}

// Strips returns how many strips of a width can be ripped from a board, both in mm: each takes its width and what jointing
// its edge takes, and there is a kerf between one and the next. It is 0 when not one fits.
func Strips(board, strip, kerf, joint float64) int {
	if !(strip > 0) {
		return 0
	}
	return int((roundDown(board) + roundUp(kerf)) / (roundUp(strip) + roundUp(joint) + roundUp(kerf)))
}
