package miter

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// A Role tells what a section is to the profile that a molding asks for.
type Role string

// The roles.
const (
	RoleProfile   Role = "profile"    // the profile itself
	RoleNarrowed  Role = "narrowed"   // on a run that reaches less far
	RoleRaking    Role = "raking"     // square to the slope of a pediment
	RolePlumbCut  Role = "plumb-cut"  // the same piece cut plumb
	RoleTopReturn Role = "top-return" // the level return at an open peak
	RoleRail      Role = "back-rail"  // the plain rail of a molded frame
)

// A UsedSection is a section that pieces of a molding are cut from, or a template to mark them by.
type UsedSection struct {
	Role    Role
	Section profile.Section
	Runs    []string // runs cut from it; none for a template
}

// A used section with what the engine asks of it.
type used struct {
	profile.Section
	role   Role
	slope  float64     // of the miter at the eave, for one made by a pediment
	from   geom.Affine // the map from the profile to it
	bounds geom.Rect
	runs   []string
}

func newUsed(s profile.Section, role Role) *used {
	return &used{Section: s, role: role, bounds: s.Outline.Bounds(), from: geom.Identity()}
}

// mappedUsed returns the section that a makes of s: that of a run that reaches less far, or that rakes.
func mappedUsed(s profile.Section, name string, role Role, a geom.Affine) *used {
	u := newUsed(s.Mapped(name, a), role)
	u.from = a
	return u
}

// sound refuses, at the path of the key that made it, a section made from the profile that would cross itself or be too thin to cut.
func (f *fitter) sound(u *used, path string) {
	if err := u.Check(f.Units); err != nil {
		f.add(path, "the %s section does not hold: %v", u.role, err)
	}
}

// span returns the least and the greatest of c over the section, exact but for rounding.
func (u *used) span(c Plane) (least, greatest float64) {
	if c.Square() {
		return c.S, c.S
	}
	if math.Abs(c.Y) < 1e-12 {
		a, b := c.S+c.X*u.bounds.Min.X, c.S+c.X*u.bounds.Max.X
		return math.Min(a, b), math.Max(a, b)
	}
	dir := geom.Pt(c.X, c.Y)
	r := u.Outline.Rotate(-dir.Angle()).Bounds()
	return c.S + dir.Norm()*r.Min.X, c.S + dir.Norm()*r.Max.X
}
