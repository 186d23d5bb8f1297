package cutter

import (
	"fmt"

	"listel/profile/geom"
)

// A Kind names the shape of a tool. The zero value is no kind.
type Kind string

// The kinds of tool.
const (
	Straight    Kind = "straight"     // flat bottom; Diameter
	RoundNose   Kind = "round-nose"   // half round bottom; Radius
	RoundOver   Kind = "round-over"   // rounds an edge; Radius, Pilot or Tip
	CoveBit     Kind = "cove"         // hollows an edge; Radius, Pilot or Tip
	Ogee        Kind = "ogee"         // round and hollow quadrants of one Radius; Pilot or Tip, Flip
	Vee         Kind = "vee"          // pointed; Angle, Diameter
	Dovetail    Kind = "dovetail"     // wider at its tip; Diameter, Angle, Length
	SlotCutter  Kind = "slot-cutter"  // disc on a shank; Width, Reach
	SawBlade    Kind = "saw-blade"    // Width is the kerf; Reach, MaxTilt
	RabbetPlane Kind = "rabbet-plane" // flat sole; Width
	HollowPlane Kind = "hollow-plane" // hollow sole of 60 degrees, cuts a round; Radius
	RoundPlane  Kind = "round-plane"  // round sole of 60 degrees, cuts a hollow; Radius
	SideBead    Kind = "side-bead"    // cuts a bead of Diameter and its Quirk
	FormTool    Kind = "form"         // the user's own: Profile, Work
)

// A Work is the machine or hand that drives a tool.
type Work string

// The works, in the order in which they come in a plan.
const (
	Saw    Work = "saw"
	Router Work = "router"
	Plane  Work = "plane"
)

// A Tool is a cutter, blade or plane: its curve in the plane square to the feed and what limits its use. Fields that its
// kind does not take are zero. Lengths are mm.
type Tool struct {
	Name, Title string
	Kind        Kind
	Work        Work       // form tools only; the other kinds have their own
	Diameter    float64    // across what cuts, > 0; saw blade: of the blade
	Radius      float64    // of the arc it cuts with, > 0
	Angle       geom.Angle // between the two sides of a vee; of a dovetail's side from its axis
	Width       float64    // of a slot cutter's disc, a saw's kerf, a rabbet plane's sole
	Length      float64    // of what cuts, along the axis; 0 means Reach
	Shank       float64    // diameter; 0 is no thicker than what cuts
	Pilot       float64    // diameter of the bearing at the tip, 0 without
	PilotHeight float64    // of the bearing along the axis; 0 with a pilot means 5
	Tip         float64    // flat cutting width at the point of a round-over, cove or ogee without pilot
	Flip        bool       // ogee: the hollow is next to the tip, else the round
	Quirk       float64    // side bead: width of the tooth beside the bead
	Reach       float64    // greatest depth under the face it enters; of a dovetail, greatest height of its tip over the table; > 0
	PerPass     float64    // greatest depth in one pass, > 0
	MaxTilt     geom.Angle // saw blade: to either side
	Profile     geom.Path  // form: lower edge from left to right, tip at the lowest point, u = 0 on the axis
}

// A ToolError says what is wrong with a tool.
type ToolError struct {
	Tool, Key, Reason string
}

// Error returns "tool r8: radius is 0; it must be more than 0".
func (e *ToolError) Error() string {
	return fmt.Sprintf("tool %s: %s %s", e.Tool, e.Key, e.Reason)
}

// Works returns what drives the tool.
func (t Tool) Works() Work {
	switch t.Kind {
	case SawBlade:
		return Saw
	case RabbetPlane, HollowPlane, RoundPlane, SideBead:
		return Plane
	case FormTool:
		if t.Work != "" {
			return t.Work
		}
	}
	return Router
}

// IsForm reports whether the tool cuts a molded shape: such a tool finishes and does not take away waste in bulk.
func (t Tool) IsForm() bool {
	switch t.Kind {
	case Straight, SawBlade, RabbetPlane, SlotCutter:
		return false
	}
	return true
}

// deepest returns how deep under the face that it enters the tool can cut, mm: its reach, and where nothing thinner stands behind what cuts, no more than
// its length.
func (t Tool) deepest() float64 {
	if t.Works() == Router && t.Length > 0 && (t.Shank == 0 || t.Shank > t.Across()-2*bodyClearance) {
		return min(t.Length, t.Reach)
	}
	return t.Reach
}

// Validate returns the first size that is missing or out of range, as *ToolError, or nil.
func (t Tool) Validate() error {
	type check struct {
		key string
		ok  bool
	}
	checks := []check{{"reach", t.Reach > 0}, {"per-pass", t.PerPass > 0}}
	switch t.Kind {
	case Straight:
		checks = append(checks, check{"diameter", t.Diameter > 0})
	case RoundNose, HollowPlane, RoundPlane:
		checks = append(checks, check{"radius", t.Radius > 0})
	case RoundOver, CoveBit, Ogee:
		checks = append(checks, check{"radius", t.Radius > 0}, check{"pilot or tip", (t.Pilot > 0) != (t.Tip > 0)})
	case Vee:
		checks = append(checks, check{"diameter", t.Diameter > 0}, check{"angle", t.Angle > geom.Degree && t.Angle < 179*geom.Degree})
	case Dovetail:
		checks = append(checks, check{"diameter", t.Diameter > 0}, check{"angle", t.Angle > 0 && t.Angle < 45*geom.Degree}, check{"length", t.Length > 0})
		checks = append(checks, check{"angle", 2*t.Length*t.Angle.Tan() < t.Diameter})
	case SlotCutter, RabbetPlane:
		checks = append(checks, check{"width", t.Width > 0})
	case SawBlade:
		checks = append(checks, check{"width", t.Width > 0}, check{"max-tilt", t.MaxTilt >= 0 && t.MaxTilt < 90*geom.Degree})
	case SideBead:
		checks = append(checks, check{"diameter", t.Diameter > 0}, check{"quirk", t.Quirk >= 0})
	case FormTool:
		checks = append(checks, check{"profile", len(t.Profile) > 0 && rising(t.Profile)})
	default:
		return &ToolError{t.Name, "kind", fmt.Sprintf("%q is none that is known", t.Kind)}
	}
	for _, c := range checks {
		if !c.ok {
			return &ToolError{t.Name, c.key, "is missing or out of range"}
		}
	}
	return nil
}

// rising reports whether a path runs from left to right without turning back.
func rising(p geom.Path) bool {
	for _, s := range p {
		for i := range 9 {
			if s.Tangent(float64(i)/8).X < -1e-9 {
				return false
			}
		}
	}
	return p.End().X-p.Start().X > vertical
}
