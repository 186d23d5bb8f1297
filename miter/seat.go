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
	Clearance float64 `json:"clearance_mm"` // between its face and the rabbet
	Left      float64 `json:"left_mm"`      // the least wood between the rabbet and the molded face
}

const (
	seatTol  = 0.05 // mm, how far a face may lie off its place: finer than anyone cuts
	leastLip = 1.0  // mm, the least wood that may stand beside a rabbet
)

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
	upper := m.stageOf(m.Seats, m.path+".seats")
	switch {
	case upper == nil:
		return nil
	case upper.Name == m.stage.Name:
		m.add(m.path+".seats", "a molding cannot seat the stage that it is on")
	case s == nil || s.At != profile.AtTop:
		m.add(m.path+".seats", "profile %s has no rabbet at the top to seat %s", m.Profile, m.Seats)
	case m.Clearance >= s.Width:
		m.add(m.path+".clearance", "the clearance of %s is as wide as the rabbet, %s", m.mm(m.Clearance), m.mm(s.Width))
	default:
		m.faces(*upper)
		m.strangers(*upper)
		return &Seat{Stage: m.Seats, Foot: upper.Floor, Clearance: m.Clearance, Left: left}
	}
	return nil
}

// faces refuses faces of the seated stage that do not stand at the rabbet's width less the clearance.
func (m *fitting) faces(upper StagePlan) {
	for _, r := range m.runs {
		if r.rail || r.ret {
			continue
		}
		e, ok := upper.Edge(r.edge.Name)
		if !ok {
			m.add(m.path+".seats", "stage %s has no edge %s to stand in the rabbet", upper.Name, r.edge.Name)
			continue
		}
		want := r.section.Rabbet.Width - m.Clearance
		off := 0.0
		for _, p := range []geom.Point{e.A, e.B} {
			at := m.Inset + p.Sub(r.edge.A).Dot(r.edge.Out())
			if math.Abs(at-want) > math.Abs(off) {
				off = at - want
			}
		}
		if math.Abs(off) > seatTol {
			m.add(m.path+".seats", "the face %s of %s stands at %s from the back of the molding, and the rabbet's width less the clearance is %s: it is %s too far %s",
				e.Name, upper.Name, m.mm(want+off), m.mm(want), m.mm(math.Abs(off)), inOrOut(off))
		}
	}
}

// strangers refuses edges of the seated stage that the stage below does not have: no rabbet lies under them.
func (m *fitting) strangers(upper StagePlan) {
	for _, e := range upper.Edges {
		if _, ok := m.stage.Edge(e.Name); !ok {
			m.add(m.path+".seats", "edge %s of %s stands over no edge of %s: no rabbet lies under it", e.Name, upper.Name, m.stage.Name)
		}
	}
}

func inOrOut(off float64) string {
	if off > 0 {
		return "out"
	}
	return "in"
}

// lip returns the least distance from the rabbet of s to its molded face, in mm.
func lip(s profile.Section) float64 {
	r := s.Rabbet
	y, end := s.Height-r.Depth, s.Height
	if r.At == profile.AtFoot {
		y, end = r.Depth, 0
	}
	inner := geom.Pt(r.Width, y)
	rabbet := []geom.Line{{A: geom.Pt(0, y), B: inner}, {A: inner, B: geom.Pt(r.Width, end)}}
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
