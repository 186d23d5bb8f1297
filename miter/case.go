package miter

import (
	"cmp"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A Case is a piece of case furniture as its file describes it: stages standing on one another, the moldings around them, and the
// openings in their fronts. All lengths are mm.
type Case struct {
	Name, Title string
	Units       measure.Units
	Stages      []Stage               // from the floor up, at least one
	Corners     map[string]geom.Angle // measured inside angles by corner name ("front-left", "left/front"), of every stage that has the corner
	Wood        string                // species, a name in the library
	Side        Side
	Room        Room
	Moldings    []Molding
	Openings    *Openings // nil without any
	Beads       *Beads    // nil without any
	Shop        Shop
	Stock       []StockItem
}

// Heading returns what a sheet calls the case: its title, or its name when it has none.
func (c Case) Heading() string {
	return cmp.Or(c.Title, c.Name)
}

// A Stage is one box of a case.
type Stage struct {
	Name   string
	Plan   Plan
	Height float64     // mm, > 0
	Offset *geom.Point // of its plan's origin in the plan of the stage below; nil: flush at the back and centered
}

// A Plan is the outline of a stage seen from above: exactly one of the shapes below is given, canted and breakfront going
// with Width and Depth.
type Plan struct {
	Width, Depth float64     // mm
	Canted       float64     // setback along both faces, 0 without
	Breakfront   *Breakfront // nil without
	Octagon      float64     // across the flats, 0 for another shape
	HalfOctagon  float64     // width, 0 for another shape
	Outline      []geom.Point
	Edges        []string // names of the outline's edges, one each, edge i from point i to i + 1
	Freestanding bool     // the back is molded too
}

// A Breakfront is the part of a front that stands forward.
type Breakfront struct{ Width, Step float64 } // mm

// Side tells how the sides of a case are made.
type Side struct {
	Framed    bool // false: solid, the grain upright
	Cut       Cut
	Thickness float64 // mm, 0 when not told
}

// A Cut tells how the growth rings lie in a board.
type Cut string

// The cuts.
const (
	FlatSawn    Cut = "flat"
	QuarterSawn Cut = "quarter"
)

// A Room is the air a case will stand in. With both humidities 0 nothing is known of it, and movement is left out.
type Room struct {
	HumidityLow, HumidityHigh float64 // per cent
	BuiltAt                   float64 // per cent humidity in the shop
	Celsius                   float64
}

// A Molding is one molding of a case, as the file asks for it.
type Molding struct {
	Name      string
	On        string // stage
	Profile   string
	At        float64            // mm, height of its foot above the floor
	Inset     float64            // mm, how far inside the stage's face its back lies: the molding lies on top of its stage, or is let into its faces
	Runs      []string           // edge names; nil: all but the back
	EndLeft   EndKind            // "" is wall
	EndRight  EndKind            // the same
	Inside    InsideCorner       // "" is miter
	Seats     string             // stage it seats, "" for none
	Clearance float64            // mm
	Reach     map[string]float64 // mm, by edge: runs that project less than the profile
	Spline    *SplineSpec
	Pin       *PinSpec
	Frame     *FrameSpec
	Rake      *RakeSpec
	Blank     profile.BlankWay // of a sprung molding
}

// An EndKind tells how a run ends where it meets no other.
type EndKind string

// The free ends.
const (
	EndWall   EndKind = "wall"   // cut along the wall, or along the edge of the case in an inside corner; square where there is neither
	EndReturn EndKind = "return" // mitered at 90 degrees, with a small piece that turns back to the case and is square there
	EndOpen   EndKind = "open"   // square, flush with the plan's edge
)

// An InsideCorner tells how two runs meet in an inside corner.
type InsideCorner string

// The inside corners.
const (
	InsideMiter InsideCorner = "miter"
	InsideCope  InsideCorner = "cope"
)

// A SplineSpec asks for a spline in the miters. Depth is how far it enters each piece.
type SplineSpec struct {
	Thickness, Depth float64 // mm
	Stopped          bool
}

// A PinSpec asks for a pin across the miters. Depth is how far it enters each piece.
type PinSpec struct{ Diameter, Depth float64 } // mm

// A FrameSpec asks for a plain back rail between the side pieces.
type FrameSpec struct{ RailWidth, Tenon float64 } // mm

// A RakeSpec makes a molding rake: a pediment.
type RakeSpec struct {
	Pitch  geom.Angle
	Broken bool    // an open peak
	Plumb  bool    // returns developed with plumb faces; false: the raking section used again
	Gap    float64 // mm, between the faces at an open peak; 0: a third of the front
}

// Openings are the drawer openings in one edge of a stage.
type Openings struct {
	On, Edge                 string  // stage and edge; "" for the lowest and front
	Left, Right, Bottom, Top float64 // mm, the clear frame: in from the case's sides, and heights above the floor
	Divider                  float64 // mm
	Graduate                 Graduation
	TopRow                   int // drawers in the top row, at least 1
}

// A Graduation tells how rows of drawers grow toward the floor. One of Ratio, Step, or Bottom with Top is given, or Heights.
type Graduation struct {
	Rows        int
	Ratio       float64 // each row's height to that of the row below
	Step        float64 // mm, each row is less high than the row below
	Bottom, Top float64 // mm, heights of the lowest and the highest row
	Heights     []Row   // from the bottom
}

// A Row is one row of drawers: its height in mm and how many drawers it holds.
type Row struct {
	Height  float64
	Drawers int
}

// Beads asks for beads around the openings. Inset is how deep their backs are let into the front, in mm: 0 for beads that lie on it.
type Beads struct {
	Profile string
	Inset   float64
}

// Shop holds what depends on the maker's shop.
type Shop struct {
	Kerf  float64 // mm
	Rough float64 // mm, left on each end of a rough length
	Test  float64 // mm, for each profile's set-up
	Spare float64 // fraction of the summed lengths, 0.15 for 15 %
	Safe  float64 // mm, a shorter piece is cut off a stick at least this long

	Trim    float64 // mm, taken off each end of a stick
	Offcut  float64 // mm, the shortest leftover worth keeping
	Planing float64 // mm of width that jointing the two edges of a strip takes
}

// A StockItem is a stick or board that can be bought or lies on the rack.
type StockItem struct {
	Wood      string
	Thickness string  // as it is sold: "8/4", or a length
	ThickMM   float64 // mm, rough
	Width     float64 // mm
	Length    float64 // mm
	Price     float64 // per piece, 0 when not stated
	Priced    bool
	Have      int // that can be had, 0 for as many as wanted; without a price they lie on the rack
}

// Lookup returns the section of the named profile.
type Lookup func(name string) (profile.Section, error)
