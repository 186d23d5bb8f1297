package miter

import (
	"fmt"
	"math"
	"strings"

	"listel/profile"
	"listel/profile/geom"
)

// A Seat is a stage that stands in the rabbet of a molding.
type Seat struct {
	Stage     string  `json:"stage"`
	Foot      float64 `json:"foot_mm"`      // height of its foot over the floor
	Lift      float64 `json:"lift_mm"`      // of its foot over the top of the stage below
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
	case m.below(upper.Name) == nil || m.below(upper.Name).Name != m.stage.Name:
		m.add(m.path+".seats", "stage %s does not stand on stage %s; a molding seats the stage right above its own%s", m.Seats, m.stage.Name, m.instead(upper.Name))
	case !m.stage.carries(m.At, m.profile.Height-s.Depth):
		m.standing(upper.Name, m.profile.Height-s.Depth)
	case m.Clearance >= s.Width:
		m.add(m.path+".clearance", "the clearance of %s is as wide as the rabbet, %s", m.mm(m.Clearance), m.mm(s.Width))
	default:
		m.faces(*upper)
		m.strangers(*upper)
		return &Seat{Stage: m.Seats, Foot: upper.Floor, Lift: upper.Floor - m.stage.Top, Clearance: m.Clearance, Left: left}
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

// faces refuses faces of the seated stage that do not stand at the rabbet's width less the clearance, and says what would.
func (m *fitting) faces(upper StagePlan) {
	before := len(m.list)
	off := map[string]float64{} // how far out each face stands too far
	skew := false
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
		at := func(p geom.Point) float64 { return m.Inset + p.Sub(r.edge.A).Dot(r.edge.Out()) - want }
		a, b := at(e.A), at(e.B)
		worst := a
		if math.Abs(b) > math.Abs(a) {
			worst = b
		}
		skew = skew || !near(a, b, seatTol)
		off[e.Name] = worst
		if math.Abs(worst) > seatTol {
			m.add(m.path+".seats", "the face %s of %s stands at %s from the back of the molding, and the rabbet's width less the clearance is %s: it is %s too far %s",
				e.Name, upper.Name, m.mm(want+worst), m.mm(want), m.mm(math.Abs(worst)), inOrOut(worst))
		}
	}
	if len(m.list) == before || skew {
		return
	}
	if would := m.wouldFit(upper.Name, off); would != "" {
		m.list[len(m.list)-1].Reason += "; what would fit: " + would
	}
}

// wouldFit says which size of the seated stage, a plain box, or which inset would bring its faces into the rabbet; off tells by edge how far out
// each stands. On a case with measured corners no size is offered: its sides do not move with the width alone. It is "" when neither would.
func (m *fitting) wouldFit(upper string, off map[string]float64) string {
	var out []string
	even, first := true, math.NaN()
	for _, name := range sortedKeys(off) {
		if math.IsNaN(first) {
			first = off[name]
		}
		even = even && near(off[name], first, seatTol)
	}
	if even && !math.IsNaN(first) {
		out = append(out, "inset "+m.mm(m.Inset-first))
	}
	for _, s := range m.Case.Stages {
		if s.Name != upper || s.Plan.Width == 0 || s.Plan.Depth == 0 || len(m.Corners) > 0 {
			continue
		}
		left, isLeft := off["left"]
		right, isRight := off["right"]
		front := off["front"]
		var size []string
		if isLeft && isRight && !near(left+right, 0, seatTol) {
			size = append(size, "width "+m.mm(s.Plan.Width-left-right))
		}
		if !near(front, 0, seatTol) {
			size = append(size, "depth "+m.mm(s.Plan.Depth-front))
		}
		if move := (left - right) / 2; s.Offset != nil {
			size = append(size, fmt.Sprintf("offset [%s, %s]", m.mm(s.Offset.X+left), m.mm(s.Offset.Y+front)))
		} else if isLeft && isRight && !near(move, 0, seatTol) {
			size = append(size, fmt.Sprintf("its left side moved %s", m.sideways(left)))
		}
		if len(size) > 0 && s.Plan.Width-left-right > 0 && s.Plan.Depth-front > 0 {
			out = append(out, "for "+upper+" "+strings.Join(size, ", "))
		}
	}
	return strings.Join(out, ", or ")
}

// sideways says how far something is moved along the front.
func (m *fitting) sideways(mm float64) string {
	if mm < 0 {
		return m.mm(-mm) + " to the left"
	}
	return m.mm(mm) + " to the right"
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
