package miter

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// A Seat is a stage that stands in the rabbet of a molding.
type Seat struct {
	Stage     string  `json:"stage"`
	Foot      float64 `json:"foot_mm"`      // height of its foot over the floor
	Lift      float64 `json:"lift_mm"`      // of its foot over the top of the stage below
	Clearance float64 `json:"clearance_mm"` // between its face and the rabbet, as asked for
	Least     float64 `json:"least_mm"`     // the clearance at the face that stands farthest out: less than asked for where corners are off
	Most      float64 `json:"most_mm"`      // and at the one farthest in
	Left      float64 `json:"left_mm"`      // the least wood between the rabbet and the molded face
}

// leastLip is the least wood that may stand beside a rabbet, in mm.
const leastLip = 1.0

// seat checks the stage that the molding seats, and the wood beside every rabbet.
func (m *fitting) seat() *Seat {
	s := m.profile.Rabbet
	left := math.Inf(1)
	for _, u := range m.used {
		if u.Rabbet != nil && (u.role == RoleProfile || u.role == RoleNarrowed) {
			if d := lip(u.Section); d < leastLip {
				m.add(m.path+".profile", "the rabbet of %s clashes with its molded face: %s is left between them", u.Name, m.mm(d))
			} else {
				left = math.Min(left, d)
			}
		}
	}
	if m.Seats == "" {
		return nil
	}
	upper := m.plan(m.Seats)
	switch {
	case upper.Name == m.stage.Name:
		m.add(m.path+".seats", "a molding cannot seat the stage that it is on")
	case s == nil || s.At != profile.AtTop:
		m.add(m.path+".seats", "profile %s has no rabbet at the top to seat %s", m.Profile, m.Seats)
	case m.below(upper.Name) == nil || m.below(upper.Name).Name != m.stage.Name:
		m.add(m.path+".seats", "stage %s does not stand on stage %s; a molding seats the stage right above its own%s", m.Seats, m.stage.Name, m.instead(upper.Name))
	case !m.stage.carries(m.At, m.profile.Height-s.Depth):
		m.standing(upper.Name, m.profile.Height-s.Depth)
	case m.Clearance >= s.Width:
		m.add(m.path+".clearance", "the clearance of %s leaves nothing of the rabbet, which is %s wide; less than that would do, as %s", m.mm(m.Clearance), m.mm(s.Width),
			m.mm(math.Min(m.usual.rule, s.Width)/2))
	default:
		in, out := m.faces(*upper)
		m.strangers(*upper)
		return &Seat{Stage: m.Seats, Foot: upper.Floor, Lift: upper.Floor - m.stage.Top, Clearance: m.Clearance, Left: left,
			Least: m.Clearance - out, Most: m.Clearance - in}
	}
	return nil
}

// below returns the stage that the one of that name stands on, nil for the lowest.
func (f *fitter) below(name string) *StagePlan {
	for i := 1; i < len(f.plans); i++ {
		if f.plans[i].Name == name {
			return &f.plans[i-1]
		}
	}
	return nil
}

// instead names the stage that a molding must be on to seat the one of that name.
func (f *fitter) instead(name string) string {
	if s := f.below(name); s != nil {
		return ": write on: " + s.Name
	}
	return "; " + name + " stands on the floor"
}

// standing refuses a waist whose rabbet, rise mm over its foot, does not bear the stage that it seats. One too high is told of by height.
func (m *fitting) standing(upper string, rise float64) {
	top := m.stage.Top
	if m.At > top+heightTol {
		return
	}
	m.add(m.path+".at", "stage %s would stand in the rabbet at %s, under the top of stage %s at %s; a foot from %s to %s would do", upper, m.mm(m.At+rise),
		m.stage.Name, m.mm(top), m.mm(math.Max(0, top-rise)), m.mm(top))
}

// strangers refuses edges of the seated stage that the stage below does not have: no rabbet lies under them.
func (m *fitting) strangers(upper StagePlan) {
	for _, e := range upper.Edges {
		if _, ok := m.stage.Edge(e.Name); !ok {
			m.add(m.path+".seats", "edge %s of %s stands over no edge of %s: no rabbet lies under it", e.Name, upper.Name, m.stage.Name)
		}
	}
}

// lip returns the least distance from the rabbet of s to its molded face, in mm.
func lip(s profile.Section) float64 {
	r := s.Rabbet
	inner, _ := s.RabbetSeat()
	end := s.Height
	if r.At == profile.AtFoot {
		end = 0
	}
	rabbet := []geom.Line{{A: geom.Pt(0, inner.Y), B: inner}, {A: inner, B: geom.Pt(inner.X, end)}}
	least := math.Inf(1)
	for _, seg := range s.Face {
		least = math.Min(least, seg.At(seg.Nearest(inner)).Dist(inner))
	}
	for _, p := range s.Face.Flatten(0.005) {
		for _, l := range rabbet {
			least = math.Min(least, l.At(l.Nearest(p)).Dist(p))
		}
	}
	return least
}
