package miter

import (
	"listel/profile"
	"listel/profile/geom"
)

// A Result is the answer to a case: every piece to cut. Its JSON is the output of the miter command.
type Result struct {
	Name     string          `json:"name"`
	Moldings []MoldingResult `json:"moldings"`
	Beads    []Piece         `json:"beads"`
	Drawers  []Drawer        `json:"drawers"`
	Notes    []string        `json:"notes,omitempty"` // on the case as a whole, in words

	Title  string      `json:"-"`
	Stages []StagePlan `json:"-"` // where each stage stands
	Layout *Layout     `json:"-"` // of the drawers, nil without any
}

// A MoldingResult holds the pieces of one molding and what holds them together.
type MoldingResult struct {
	Name     string    `json:"name"`
	Profile  string    `json:"profile"`
	Pieces   []Piece   `json:"pieces"`
	Spline   *Spline   `json:"spline"`
	Pin      *Pin      `json:"pin"`
	Movement *Movement `json:"movement"`
	Notes    []string  `json:"notes,omitempty"` // in words

	Stage    string        `json:"-"`                 // the stage it is on
	Foot     float64       `json:"foot_mm"`           // mm, height of the foot of its section over the floor
	OnTop    bool          `json:"on_top"`            // it lies on top of its stage, its back inside the stage's faces
	LetIn    float64       `json:"let_in_mm"`         // how deep the stage's faces are cut away for it, 0 where its back lies on them
	Sections []UsedSection `json:"-"`                 // the profile's own first
	Runs     []PlacedRun   `json:"-"`                 // in plan, from left to right, returns and rails among them
	Closed   bool          `json:"-"`                 // the runs go all round
	Seat     *Seat         `json:"seat,omitempty"`    // nil when it seats nothing
	Frame    *Frame        `json:"frame,omitempty"`   // nil without a back rail
	Nesting  *Nesting      `json:"nesting,omitempty"` // nil for one that is not sprung
	Faces    []MiterFace   `json:"-"`                 // the miters between runs, each different one once
	Rake     *Pediment     `json:"rake,omitempty"`    // nil for one that does not rake
	Course   *Course       `json:"course,omitempty"`  // nil without dentils
}

// A PlacedRun is a run in plan: where its back and its outermost line lie, from left to right.
type PlacedRun struct {
	Run   string
	Mark  string        // of its piece
	Inner [2]geom.Point // the back, x = 0
	Outer [2]geom.Point // at the section's projection

	Side bool // along a side of the case, an edge that is not parallel to its front

	main bool // neither a return nor a rail
}

// A Piece is one stick to cut, or Count equal ones. Left and right are as one faces the piece's own face.
type Piece struct {
	Mark  string   `json:"mark"`
	Run   string   `json:"run"` // "front", "left-return", "back-rail", ...
	Hand  Hand     `json:"hand"`
	Count int      `json:"count"`
	Back  float64  `json:"back_mm"`  // L(0), shoulder to shoulder
	Long  float64  `json:"long_mm"`  // greatest L over the section
	Short float64  `json:"short_mm"` // least L over the section
	Seat  *float64 `json:"seat_mm"`  // L at the rabbet's width, clearance not taken off; nil without a rabbet
	Rough float64  `json:"rough_mm"` // Long, the tenons, and what the shop leaves on both ends; without kerf
	Ends  []End    `json:"ends"`     // left, right

	Runs    []string         `json:"runs,omitempty"`    // all that share the mark, Run the first
	Profile string           `json:"profile"`           // name of its section: the molding's profile or one made from it
	Tip     float64          `json:"tip_mm"`            // from the foremost point of one end to that of the other: what the stick must hold
	Notches []Notch          `json:"notches,omitempty"` // of beads
	Notes   []string         `json:"notes,omitempty"`
	Section *profile.Section `json:"-"`
	Places  []Placement      `json:"-"` // where each of the Count stands, in the order of Runs
}

// Cuts returns the planes of the left and the right end.
func (p Piece) Cuts() (left, right Plane) { return p.Ends[0].Cut, p.Ends[1].Cut }

// Length returns L at the section point q, in mm.
func (p Piece) Length(q geom.Point) float64 { return between(p.Cuts()).At(q) }

// A Hand names the side of the case that a piece's run is on.
type Hand string

// The hands.
const (
	LeftHand  Hand = "left"
	RightHand Hand = "right"
	NoHand    Hand = "none" // the piece is its own mirror
)

// An End is how one end of a piece is cut.
type End struct {
	End      Hand       `json:"end"` // left or right
	Kind     CutKind    `json:"kind"`
	Corner   geom.Angle `json:"corner_deg"` // inside angle of the case at that corner, 180 where there is none
	Tenon    float64    `json:"tenon_mm"`   // its length, 0 without one
	Standing Saw        `json:"standing"`   // standing against the fence; a sprung molding upside down
	Flat     *Saw       `json:"flat"`       // sprung moldings lying on their back, else nil

	Meets  string `json:"meets,omitempty"`  // the run it meets, "" for none
	Spline bool   `json:"spline,omitempty"` // the groove for the molding's spline is cut into it
	Pin    bool   `json:"pin,omitempty"`    // the hole for its pin is bored into it
	Cut    Plane  `json:"-"`                // the plane; of a cope the miter that shows its line, of a vee one side of it, of a tenon its shoulder

	along string // what a free end is cut along when that is not the wall: "edge"
}

// squareTol is how far a saw's angle may be off square before the cut is no longer called so: no saw is set finer; common practice, no source.
const squareTol = 0.1 * geom.Degree

// Words returns what the end is called at the bench: its kind, but "to the wall" for an end that meets nothing and is not quite square, and
// "to the corner" for one that runs into an inside corner so.
func (e End) Words() string {
	if s := e.Standing.Settable(); e.Kind != CutSquare || s.Miter == 0 && s.Bevel == 0 {
		return string(e.Kind)
	}
	if e.Meets != "" {
		return "to the corner"
	}
	if e.along != "" {
		return "to the " + e.along
	}
	return "to the wall"
}

// A CutKind names the shape of an end.
type CutKind string

// The kinds of end.
const (
	CutMiter  CutKind = "miter"
	CutCope   CutKind = "cope"
	CutSquare CutKind = "square"
	CutTenon  CutKind = "tenon"
	CutVee    CutKind = "vee"
	CutPlumb  CutKind = "plumb"
)

// A Saw is how a miter saw is set for one end. Angles are magnitudes, 0 for a square cut. Swing is the side the
// saw's arm moves to, Tilt the side the blade's top leans to, Keep the side of the blade that the piece lies on, all as the operator
// faces the fence.
type Saw struct {
	Miter geom.Angle `json:"miter_deg"`
	Bevel geom.Angle `json:"bevel_deg"`
	Swing Hand       `json:"swing"`
	Tilt  Hand       `json:"tilt"`
	Table Face       `json:"table"` // face down
	Fence Face       `json:"fence"` // face against the fence
	Keep  Hand       `json:"keep"`
}

// Settable returns s as a saw can be set: an angle under a tenth of a degree, which none can be set to, is square.
func (s Saw) Settable() Saw {
	if s.Miter < squareTol {
		s.Miter, s.Swing = 0, NoHand
	}
	if s.Bevel < squareTol {
		s.Bevel, s.Tilt = 0, NoHand
	}
	return s
}

// A Face names a side of a molding.
type Face string

// The faces.
const (
	BackFace  Face = "back"
	FrontFace Face = "front"
	FootFace  Face = "foot"
	TopFace   Face = "top"
)

// A Spline is the groove for a spline in the miter faces of a molding, drawn in section coordinates.
type Spline struct {
	Thickness float64    `json:"thickness_mm"`
	Depth     float64    `json:"depth_mm"`
	From      [2]float64 `json:"from"`
	To        [2]float64 `json:"to"`
	Cover     float64    `json:"cover_mm"` // least wood around it

	openFrom, openTo bool // it runs out at that end
}

// A Pin is the hole for a pin in the miter faces of a molding.
type Pin struct {
	Diameter float64    `json:"diameter_mm"`
	Depth    float64    `json:"depth_mm"`
	At       [2]float64 `json:"at"`
	Cover    float64    `json:"cover_mm"`
}

// Movement is how much the case side moves under a molding, and how to fix one so that it may.
type Movement struct {
	Seasonal float64 `json:"seasonal_mm"` // of the side, from the driest to the wettest air
	Glue     float64 `json:"glue_mm"`     // glued back from the front miter
	Slots    []Slot  `json:"slots"`
	Screw    Screw   `json:"screw"`
	Side     string  `json:"side"`      // the run on the longer side: places are measured along it from the corner that it shares with its neighbor
	FrontEnd Hand    `json:"front_end"` // the end of that run which lies nearer to the front: where they are measured from

	Width   float64 `json:"width_mm"`       // of the side, across its grain
	Dry     float64 `json:"moisture_dry"`   // moisture content in the driest air, per cent
	Built   float64 `json:"moisture_built"` // in the shop
	Wet     float64 `json:"moisture_wet"`   // in the wettest air
	Shrinks float64 `json:"shrinks_mm"`     // from as built to the driest, negative when it was built in drier air still
	Swells  float64 `json:"swells_mm"`      // from as built to the wettest, negative when it was built in wetter air still
}

// A Slot is a screw slot: its center from the front miter, and its length.
type Slot struct {
	FromFront float64 `json:"from_front_mm"`
	Length    float64 `json:"length_mm"`
}

// A Drawer is one drawer opening, counted from the bottom row and from the left.
type Drawer struct {
	Row    int     `json:"row"`
	Column int     `json:"column"`
	Width  float64 `json:"width_mm"`
	Height float64 `json:"height_mm"`
}
