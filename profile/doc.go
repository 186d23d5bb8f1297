// Package profile turns moldings as their files describe them, elements from the foot upward, into exact sections.
//
// A Profile holds the elements with sizes as written: lengths, parts of the height, or the rest. Its Section
// method sizes them, draws each as an Element, sets one on the other, gives the molding its back, and looks for what cannot be cut: it
// returns either a Section or all faults at once as Errors.
//
// Lengths are millimeters. The section stands as one sees it at the left end of a front molding, looking along it: x grows outward from
// the case, whose face is x = 0, and y upward from the foot. Going upward the material is on the left. A positive run goes
// outward; a negative one leans back, and its member is drawn upside down. Round members stay round and hollow ones hollow
// whatever the sign.
//
//	y
//	|__________________
//	|                  |  fillet      height 3/16
//	|                _/   cyma-recta  height rest, projection 5/8
//	|              _/
//	|           __|       fillet      height 1/8, set 1/16 (a level step before it)
//	|          |
//	|        _/           cove        height 5/8; its run out equals its height
//	|       |             fillet      height 1/4
//	+-------+--------- x
//	0    ground
//
// To add a kind of element: write its type with Validate and Outline, add its Kind, its keys to facts and its case to sizer.sized.
package profile
