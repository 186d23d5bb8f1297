package profile

import "strings"

// A Kind names an element: the members of the trade and a few that compose them. The zero value is no kind.
type Kind string

// Words returns the kind as one speaks of it: cyma recta.
func (k Kind) Words() string { return strings.ReplaceAll(string(k), "-", " ") }

// The kinds of element.
const (
	KindFillet      Kind = "fillet"
	KindFascia      Kind = "fascia"
	KindCorona      Kind = "corona"
	KindChamfer     Kind = "chamfer"
	KindOvolo       Kind = "ovolo"
	KindCove        Kind = "cove"
	KindConge       Kind = "conge"
	KindCymaRecta   Kind = "cyma-recta"
	KindCymaReversa Kind = "cyma-reversa"
	KindScotia      Kind = "scotia"
	KindTorus       Kind = "torus"
	KindAstragal    Kind = "astragal"
	KindBead        Kind = "bead"
	KindThumb       Kind = "thumb"
	KindQuirk       Kind = "quirk"
	KindReeds       Kind = "reeds"
	KindFlutes      Kind = "flutes"
	KindDentils     Kind = "dentils"
	KindCurve       Kind = "curve"
	KindStack       Kind = "stack"
)

// A Construction names how a curved member is struck; the empty string is the kind's default.
type Construction string

// The constructions.
const (
	CurveQuadrant Construction = "quadrant" // rise = run
	CurveArc      Construction = "arc"      // radius = height
	CurveEllipse  Construction = "ellipse"
	CurveFlat     Construction = "flat"     // cyma of two 60 degree arcs
	CurveBold     Construction = "bold"     // cyma of two quadrants
	CurveThirds   Construction = "thirds"   // scotia, radii 1/3 and 2/3 of the height
	CurveSevenths Construction = "sevenths" // scotia, divided at 4/7 of the height
)
