package miter

import "listel/profile/measure"

// A practice is the sizes that moldings are fixed by, in mm, round in the units of the case: all common practice, no source.
type practice struct {
	glue       float64 // glued back from the front miter at most
	screwEvery float64 // between screws at most
	toGlue     float64 // from the glue to the first screw
	toWall     float64 // from the last screw to the wall
	toMortise  float64 // from a slot to a mortise
	toEdge     float64 // from a screw to the upper and the lower edge of the back, where there is as much
	cover      float64 // of wood round a screw or a pin, to the molded face and to every other one, at least
	least      float64 // of a screw in the wood: less holds nothing
	behind     float64 // of a side behind a molding that is let into it
	proud      float64 // of a bead before the front, at least
	cock       float64 // of a cock bead before the front
	mostProud  float64 // of a bead before the front; more is told of
	board      float64 // the width of the board that a thin molding is made on the edge of, the molding included
	rule       float64 // step of the rule that places are marked with
}

// practiceIn returns the sizes of a case in units u.
func practiceIn(u measure.Units) practice {
	if u == measure.Inches {
		const inch = measure.MMPerInch
		return practice{glue: 3 * inch, screwEvery: 6 * inch, toGlue: 1.5 * inch, toWall: 1.5 * inch, toMortise: inch / 2, toEdge: 3 * inch / 8,
			cover: inch / 8, least: inch / 4, behind: inch / 4, proud: inch / 32, cock: inch / 8, mostProud: inch / 4, board: 4 * inch, rule: inch / 16}
	}
	return practice{glue: 75, screwEvery: 150, toGlue: 40, toWall: 40, toMortise: 12, toEdge: 10, cover: 3, least: 6, behind: 6, proud: 1, cock: 3, mostProud: 6, board: 100, rule: 1}
}
