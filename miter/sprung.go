package miter

import (
	"listel/profile/geom"
)

// A Nesting is how a sprung molding lies on the case and against the saw's fence.
type Nesting struct {
	Spring geom.Angle `json:"spring_deg"` // of the back from the wall
	Drop   float64    `json:"drop_mm"`    // its height on the wall; upside down against the fence, how high it touches the fence
	Reach  float64    `json:"reach_mm"`   // how far it comes out along the case top or ceiling; nested, how far it reaches out on the table
	Wall   float64    `json:"wall_mm"`    // bearing flat on the wall
	Top    float64    `json:"top_mm"`     // bearing flat on the case top

	// The three-cornered backing strip that fills the hollow behind it: its sides on the wall, under the top and along the back of the
	// molding.
	StripWall float64 `json:"strip_wall_mm"`
	StripTop  float64 `json:"strip_top_mm"`
	StripBack float64 `json:"strip_back_mm"`
}

// nesting returns how a sprung molding lies, nil for one that is not sprung.
func (m *fitting) nesting() *Nesting {
	s := m.profile.Spring
	if s == nil {
		return nil
	}
	up := m.profile.Height - s.Wall
	out := up * s.Angle.Tan()
	return &Nesting{Spring: s.Angle, Drop: m.profile.Height, Reach: m.profile.bounds.Max.X, Wall: s.Wall, Top: s.Top,
		StripWall: up, StripTop: out, StripBack: up / s.Angle.Cos()}
}
