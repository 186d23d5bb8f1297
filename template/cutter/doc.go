// Package cutter plans the set-ups that bring a molding's section out of a blank: which tool, which face of the
// blank on the table, which against the fence, at what distance and height, and in what order.
//
// A tool is a curve in the plane square to the feed: the lowest points of what cuts and of what does not. For a
// direction of approach the section is turned so that the tool comes down on it; the section's upper envelope is then
// exact and piecewise, of lines and circular arcs, and so is the tool. The lowest height at which the tool clears the
// section is the greatest difference of the two, found in closed form piece against piece: no cut is ever judged on a raster.
//
// Plan collects candidate cuts at the offsets where contacts change, states which waste each of them clears and which
// parts of the face it leaves clean, solves the set cover exactly within a budget of nodes, puts the cuts in an order in which
// the work always lies safely, and returns a Result whose JSON is the output of the setups command. The replay package checks
// such a result with code of its own.
//
// Lengths are millimeters. Ellipses are replaced by circular arcs within a thousandth of a millimeter.
package cutter
