package miter

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"listel/profile/geom"
)

// Of the faces of a stage that stands in a rabbet, mm.
const (
	seatTol  = 0.1  // how far a face may lie off its place: finer than anyone cuts
	seatTold = 0.05 // from where on it is told that one does
)

// A seatFace is a molded face of a stage that stands in a rabbet: how far out of its place each end of it stands, in mm.
type seatFace struct {
	name string
	a, b float64
}

// worst returns the one of both that is farther off.
func (s seatFace) worst() float64 {
	if math.Abs(s.b) > math.Abs(s.a) {
		return s.b
	}
	return s.a
}

// seatFaces returns the faces of the seated stage along the runs of the molding, and the edges of runs that it has no face for.
func (m *fitting) seatFaces(upper StagePlan) (faces []seatFace, missing []string) {
	for _, r := range m.runs {
		if r.rail || r.ret {
			continue
		}
		e, ok := upper.Edge(r.edge.Name)
		if !ok {
			missing = append(missing, r.edge.Name)
			continue
		}
		want := r.section.Rabbet.Width - m.Clearance
		at := func(p geom.Point) float64 { return m.Inset + p.Sub(r.edge.A).Dot(r.edge.Out()) - want }
		faces = append(faces, seatFace{name: e.Name, a: at(e.A), b: at(e.B)})
	}
	return faces, missing
}

// seatTolerance returns how far a face of the seated stage may lie off its place, in mm: half the clearance where measured corners leave it no exact one.
func (m *fitting) seatTolerance(upper StagePlan) float64 {
	if len(upper.Off) > 0 || len(m.stage.Off) > 0 {
		return math.Max(seatTol, m.Clearance/2)
	}
	return seatTol
}

// faces refuses faces of the seated stage that do not stand at the rabbet's width less the clearance, and says what would. It returns how far
// they stand out of their places: the least, at most 0, and the most, at least 0.
func (m *fitting) faces(upper StagePlan) (in, out float64) {
	faces, missing := m.seatFaces(upper)
	for _, name := range missing {
		m.add(m.path+".seats", "stage %s has no edge %s to stand in the rabbet", upper.Name, name)
	}
	before := len(m.list)
	for _, f := range faces {
		off := f.worst()
		in, out = min(in, f.a, f.b), max(out, f.a, f.b)
		want := m.rabbetOf(f.name) - m.Clearance
		switch {
		case math.Abs(off) > m.seatTolerance(upper)+lengthTol:
			m.add(m.path+".seats", "the face %s of %s stands at %s from the back of the molding, and the rabbet's width less the clearance is %s: it is %s too far %s",
				f.name, upper.Name, m.mm(want+off), m.mm(want), m.measured(math.Abs(off)), inOrOut(off))
		case math.Abs(off) > seatTold:
			m.out.Notes = append(m.out.Notes, fmt.Sprintf("in the rabbet the face %s of %s stands %s too far %s, which leaves it a clearance of %s", f.name, upper.Name,
				m.fine(math.Abs(off)), inOrOut(off), m.fine(m.Clearance-off)))
		}
	}
	if len(m.list) > before && len(missing) == 0 {
		if would := m.wouldFit(upper.Name, faces); would != "" {
			m.list[len(m.list)-1].Reason += "; what would fit: " + would
		}
	}
	return in, out
}

// rabbetOf returns the width of the rabbet in the run along that edge, in mm.
func (m *fitting) rabbetOf(edge string) float64 {
	for _, r := range m.runs {
		if r.edge.Name == edge && !r.rail && !r.ret {
			return r.section.Rabbet.Width
		}
	}
	return m.profile.Rabbet.Width
}

func inOrOut(off float64) string {
	if off > 0 {
		return "out"
	}
	return "in"
}

// wouldFit says which inset or which sizes of the seated stage would bring its faces into the rabbet, the corners as they are measured; "" when nothing
// would.
func (m *fitting) wouldFit(upper string, faces []seatFace) string {
	var out []string
	first, even := faces[0].a, true
	for _, f := range faces {
		even = even && near(f.a, first, seatTol/2) && near(f.b, first, seatTol/2)
	}
	if even {
		out = append(out, "inset "+m.mm(m.Inset-first))
	}
	if i := slices.IndexFunc(m.Case.Stages, func(s Stage) bool { return s.Name == upper }); i > 0 {
		if size := m.seatedPlan(i); size != "" {
			out = append(out, "for "+upper+" "+size)
		}
	}
	return strings.Join(out, ", or ")
}
