package miter

import "math"

// heightTol is how far a height may lie outside its range before it counts, mm: rounding leaves less.
const heightTol = 0.01

// footRange returns the heights over the floor that the foot of a molding high mm high may have on the stage. It may stand on top of the stage,
// as a waist or a pediment does, and it may hang under a stage that stands on another, to hide the joint between them, as long as some of it
// is beside the stage; it may not go below the floor. An inset does not change that: such a molding lies on top of its stage or is let into it.
func (s StagePlan) footRange(high float64) (low, most float64) {
	return math.Max(0, s.Floor-high), s.Top
}

// height refuses a molding that is not at its stage.
func (m *fitting) height() {
	low, most := m.stage.footRange(m.profile.Height)
	path := m.path + ".at"
	would := "a foot from " + m.mm(low) + " to " + m.mm(most) + " over the floor would do"
	switch {
	case m.At > most+heightTol:
		m.add(path, "its foot at %s is over the top of stage %s, which stands from %s to %s; %s", m.mm(m.At), m.stage.Name, m.mm(m.stage.Floor), m.mm(m.stage.Top), would)
	case m.At < -heightTol:
		m.add(path, "its foot at %s is below the floor; %s", m.mm(m.At), would)
	case m.At < low-heightTol:
		m.add(path, "its top at %s is under stage %s, which stands from %s to %s; %s", m.mm(m.At+m.profile.Height), m.stage.Name, m.mm(m.stage.Floor), m.mm(m.stage.Top), would)
	}
}

// letIn tells a molding with an inset that lies on top of its stage from one that is let into the stage's faces. A sprung one cannot be let in: only its two
// bearing flats touch the case. Nor can one be let in through the whole side.
func (m *fitting) letIn() {
	if m.Inset <= 1e-6 {
		return
	}
	if m.At >= m.stage.Top-heightTol {
		m.out.OnTop = true
		return
	}
	m.out.LetIn = m.Inset
	path := m.path + ".inset"
	would := "a foot at " + m.mm(m.stage.Top) + " lies on top of stage " + m.stage.Name
	switch thick := m.Side.Thickness; {
	case m.profile.Spring != nil:
		m.add(path, "with its foot at %s it would be let into the faces of stage %s by %s, and a sprung molding touches them with the flat of its back alone; leave inset out, or %s",
			m.mm(m.At), m.stage.Name, m.mm(m.Inset), would)
	case thick > 0 && m.Inset > thick-m.usual.behind+heightTol:
		m.add(path, "let into the faces of stage %s by %s it leaves less than %s of sides %s thick; an inset of %s at most would do, or %s",
			m.stage.Name, m.mm(m.Inset), m.mm(m.usual.behind), m.mm(thick), m.mm(math.Max(0, thick-m.usual.behind)), would)
	}
}

// carries reports whether a waist with its foot at height at, and the floor of its rabbet rise mm higher, bears a stage on the stage below: it
// stands on that stage or beside it, and its rabbet is not under that stage's top.
func (s StagePlan) carries(at, rise float64) bool {
	return at <= s.Top+heightTol && at+rise >= s.Top-heightTol
}
