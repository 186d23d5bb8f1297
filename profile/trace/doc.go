// Package trace turns a scanned plate into profiles: a picture of a drawn section goes in, and a profile of proper members comes
// out, with figures for how true it is.
//
// A Plate says what is known of the picture: its scales and the sections wanted. Trace finds the outer boundary of each section's
// ink to a fraction of a pixel, brings it to millimeters by its scale, and lets Compose split it into lines and arcs and name the
// members. What comes back is data alone: the profile, the traced outline, and the Truth about the two.
//
// The way of a section, and the files that take it there:
//
//	picture
//	   | tone, ink, cells        what is paper and what ink, outside and section; gaps are closed
//	   | contour, edge, worn     where the ink's edge lies, to a fraction of a pixel, and where it is broken
//	   | runs, run_*             smooth parts and their corners, moved in by half of the line
//	outline in pixels
//	   | scale, mapping, place   millimeters, upright, the back at x = 0
//	outline in section coordinates
//	   | split, circle           lines and arcs at the least cost
//	   | members_*               ways to read them as members, fitted together, changed while that pays
//	reading
//	   | snap, name              sizes to the maker's fraction, members by their names
//	profile
//	   | truth                   how far the two are apart, and what each size may be off by
//
// Pixels count as images do, x to the right and y down; a whole number is the corner of a pixel, so that the first pixel of an image
// has its middle at (0.5, 0.5). Everything else is in millimeters, y up.
package trace
