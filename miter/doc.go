// Package miter fits moldings to a case: from the plan of its stages and the section of each molding it finds every
// piece to cut, with its lengths, the saw's settings for both ends, and what holds the corners together.
//
// Plans are seen from above, x to the right along the front and y toward the wall, in mm. An edge of a plan is travelled
// counter-clockwise, so that its start is at the left as one faces it. In a piece x is the distance out from the back of its
// section, y the height over its foot, and s the distance along it from the left end of its back; the plane of an end cut is then
// s = S + X x + Y y, and the length at a section point is the right cut less the left one.
//
//	                 wall
//	 ____________________________________
//	|                back                |        a front run from above:
//	|                                    |
//	| left          case           right |        S       S + length
//	|                                    |        |_______|      x = 0, the back: back_mm
//	|________________front_______________|       /         \
//	\________________piece_______________/      /___________\    greatest x: long_mm
//
// Fit is the way in. It checks the whole case and returns all that is wrong at once, each fault with the path of the
// file key it stands under. Odd says of a case that was fitted what is possible in it and hardly meant.
//
// Buy turns the pieces into a job for package stock, their strips as wide and thick as the blanks of their sections; Purchase.Solve settles it and
// gives what makes it impossible the paths of the case's own keys. A PieceList does the same for a list of lengths that is no case.
package miter
