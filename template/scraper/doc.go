// Package scraper turns the face of a section into blades to file: what a maker glues to steel and files to, and gauges to try the
// work with. It is geometry alone; package template draws it.
//
// A blade is the negative of a part of the face. It is pressed into the work along its plunge and moved along the molding, and it may
// lean along the travel, about the line square to it. A blade that leans cuts shallower than it is filed, so depth along the
// plunge is filed 1 / cos(lean) times as great; width stays. (Joshua Rose, Modern Machine-Shop Practice, 1887-88, figs 2181-2187,
// constructs it on the drawing board; the formula is derived from that.)
//
// The plunge is an angle in the section: 0 is level, straight toward the case; 90 degrees is straight down, -90 straight up. A
// blade is drawn in its own coordinates, in mm: v grows out of the work against the plunge and u to the right of it, so that the
// edge is the lower side. The section is not mirrored: the face that is seen is the one toward the left end of the molding. Both origins
// are one point, the foot of the section's back.
//
// Make finds the blades: as few as scrape the whole face, each with the plunge that keeps its steepest wall as far from the plunge
// as can be, parted at corners and flats and in a curve only when nothing else will do.
package scraper
