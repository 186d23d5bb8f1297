package profile

import "listel/profile/geom"

// A Section is the shape of a molding cut square across: what Profile.Section builds. It stands with its back at x = 0 and its foot
// at y = 0; the outline runs counter-clockwise from the foot of the back.
type Section struct {
	Name, Title string
	Outline     geom.Path // closed
	Gap         geom.Path // the outline between dentils, nil without them
	Face        geom.Path // the worked part, from foot to top
	Back        geom.Path // the rest, from the top down the back to the foot of the face
	Members     []Member  // from the foot upward
	Height      float64   // mm
	Projection  float64   // mm, the greatest x
	Ground      float64   // mm, x of the face at the foot
	Rabbet      *SizedRabbet
	Spring      *SizedSpring
	BlankWay    BlankWay // the blank that it is made from, where it is sprung

	outline         []link // the outline again, with the element that each segment belongs to
	gapOutline      []link // so for Gap
	links, gapLinks []link // the face from the ground on, level steps and all; the latter nil without dentils
}

// A Member is an element where it stands in the section.
type Member struct {
	Index      int // place in the profile's elements, from 1
	Kind       Kind
	Foot       float64    // mm, y of its lower end
	Start      float64    // mm, x of its lower end, after set
	Set        float64    // mm
	Height     float64    // mm; a bead's is without its quirks
	Projection float64    // mm
	Radii      []float64  // mm, of its arcs from the foot upward; an ellipse gives its two half axes
	Path       geom.Path  // its part of the face, the level step before it not included
	Drip       *SizedDrip // of a corona, nil without one
	Dentils    *Dentils   // of dentils
	Inner      []Member   // of a stack: the members of its profile, where they stand in this section
}

// A SizedRabbet is a rabbet in mm.
type SizedRabbet struct {
	At           RabbetPlace
	Width, Depth float64 // along x and along y
}

// A SizedSpring is a leaning back in mm: both bearing flats are known.
type SizedSpring struct {
	Angle     geom.Angle // of the back from the wall
	Wall, Top float64    // flat at x = 0, flat along the top
}

// A Blank is the smallest rectangle that holds a section, turned with the back of a sprung one unless that is made from an upright blank.
type Blank struct {
	Polygon   [4]geom.Point // in section coordinates, counter-clockwise
	Width     float64       // mm, along the back
	Thickness float64       // mm, square to the back
}

// An Undercut is a part of the face that cannot be seen from one side: a cutter or scraper coming from there does
// not reach it.
type Undercut struct {
	From   View
	Y0, Y1 float64 // mm, the heights between which it lies
	Depth  float64 // mm, how far it goes in behind the edge that hides it
}

// A View is a direction to look at a section from.
type View string

// The views.
const (
	FromAbove View = "above"
	FromFront View = "front"
	FromBelow View = "below"
)

// A Thin is the place where a section is thinnest.
type Thin struct {
	Thickness float64 // mm
	At        geom.Point
	Member    int // the index of the member there, 0 on the back

	ends [2]int // the segments of the outline on its two sides
}
