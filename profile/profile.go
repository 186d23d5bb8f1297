package profile

import (
	"listel/profile/geom"
	"listel/profile/measure"
)

// A Profile is a molding as its file describes it: elements from the foot upward, with sizes that may hang on the
// height. Section builds its shape.
type Profile struct {
	Name, Title string
	Source      string        // where it was published, or "invented"
	Family      Family        // what it is for, "" when its file does not say
	Units       measure.Units // the units its file is written in
	Height      float64       // mm, 0 when the elements' sum decides
	Projection  float64       // mm, greatest x from the back; 0 when the elements decide
	Parts       float64       // parts in the height, 0 when none are used
	Ground      Size          // x of the face at the foot
	Elements    []Entry       // from the foot upward
	Back        Back
}

// An Entry is one element of a profile as its file gives it: which member it is, and its sizes as written. Keys that a
// kind does not take are left zero; Kind.Keys lists those that it takes.
type Entry struct {
	Kind       Kind
	Set        Size // level step before the element, positive outward
	Height     Size
	Projection Size // the run, positive outward going up
	Curve      Construction
	Radius     Size         // cyma-recta, cyma-reversa
	Drip       *Drip        // corona
	Quirk      *BeadQuirk   // bead
	Flush      bool         // bead
	Fillet     Size         // thumb
	Depth      Size         // quirk, dentils
	Count      int          // reeds, flutes
	Gap        Size         // reeds, flutes, dentils
	Block      Size         // dentils
	Points     []CurvePoint // curve
	Profile    string       // stack

	scale float64 // of the profile that a stack names; 0 is 1
}

// A Drip is the square groove cut up into a corona's soffit.
type Drip struct {
	Width, Depth Size
	Inset        Size // from the corona's face to the groove's near edge
}

// A BeadQuirk is the narrow groove beside a bead.
type BeadQuirk struct {
	Width, Depth Size
	Sides        Sides
}

// Sides tells on which sides of a bead its quirk lies. The zero value is both.
type Sides int

// The sides a quirk can lie on.
const (
	BothSides Sides = iota
	AboveOnly
	BelowOnly
)

// A CurvePoint is one point of a curve element, relative to its start; Through is a point that the arc to it
// passes, nil for a straight line.
type CurvePoint struct {
	X, Y    Size
	Through *[2]Size
}

// A Back is what is done to the back of a molding. At most one of the two is set.
type Back struct {
	Rabbet *Rabbet
	Spring *Spring
}

// A Rabbet is the square recess at the back that seats a case.
type Rabbet struct {
	At    RabbetPlace
	Width Size // along x
	Depth Size // along y
}

// RabbetPlace tells where along the back a rabbet lies.
type RabbetPlace int

// The places of a rabbet.
const (
	AtTop RabbetPlace = iota
	AtFoot
)

// A Spring is a back that leans from the wall: Angle is the angle of the back from the wall. One of Wall, the bearing flat at
// x = 0, and Top, the bearing flat along the top, is given and the other follows.
type Spring struct {
	Angle     geom.Angle
	Wall, Top Size
}
