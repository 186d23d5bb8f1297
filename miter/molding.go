package miter

import (
	"fmt"
	"math"
	"slices"

	"listel/profile"
	"listel/profile/geom"
)

// A fitting is one molding while it is fitted.
type fitting struct {
	*fitter
	Molding
	path    string
	stage   *StagePlan
	profile *used
	chain   chain
	runs    []*run  // with returns and rails, from left to right
	used    []*used // sections, the profile's own first
	splined []jointPlace
	pinned  []jointPlace
	out     MoldingResult
}

// molding fits molding i of the case.
func (f *fitter) molding(i int) MoldingResult {
	m := &fitting{fitter: f, Molding: f.Moldings[i], path: fmt.Sprintf("moldings[%d]", i)}
	before := len(f.list)
	m.words()
	f.unknownInMolding(i, &f.faults)
	m.stage = f.plan(m.On)
	m.profile = f.section(m.Profile, m.path+".profile")
	m.out = MoldingResult{Name: m.Name, Profile: m.Profile, Foot: m.At, Pieces: []Piece{}}
	prefix := f.prefix(m.Name)
	if m.stage == nil {
		return m.out
	}
	m.out.Stage = m.stage.Name
	m.chain = m.Molding.chain(*m.stage, m.path, &f.faults)
	if m.profile == nil || len(f.list) > before {
		return m.out
	}
	m.height()
	m.letIn()
	own := *m.profile // the runs noted on it, and its blank, are this molding's
	if m.Blank != profile.BlankEither && own.Spring == nil {
		m.add(m.path+".blank", "%s is not sprung: it has one blank", own.Name)
	}
	own.Section = own.From(m.Blank)
	m.profile = &own
	m.used = []*used{m.profile}
	m.lay()
	if len(f.list) > before {
		return m.out
	}
	m.out.Seat = m.seat()
	m.out.Nesting = m.nesting()
	m.out.Frame = m.frame()
	m.out.Spline = m.spline()
	m.out.Pin, m.out.Spline = m.pin(m.out.Spline)
	if s := m.out.Spline; s != nil && (s.openFrom || s.openTo) {
		m.out.Notes = append(m.out.Notes, "the groove for the spline runs out at "+runsOut(s.line())+"; stopped: true keeps it inside")
	}
	m.out.Faces = m.faceList()
	m.out.Course = m.course()
	m.out.Movement = m.movement()
	if len(f.list) > before {
		return m.out
	}
	m.mark(prefix)
	return m.out
}

// words checks the values of the file that are one of a few words, and the lengths.
func (m *fitting) words() {
	for _, e := range []struct {
		key  string
		kind EndKind
	}{{"left", m.EndLeft}, {"right", m.EndRight}} {
		if !slices.Contains([]EndKind{"", EndWall, EndReturn, EndOpen}, e.kind) {
			m.add(m.path+".ends."+e.key, "an end is wall, return or open, not %q", e.kind)
		}
	}
	if !slices.Contains([]InsideCorner{"", InsideMiter, InsideCope}, m.Inside) {
		m.add(m.path+".inside", "an inside corner is miter or cope, not %q", m.Inside)
	}
	for _, l := range []struct {
		key string
		mm  float64
	}{{"at", m.At}, {"inset", m.Inset}, {"clearance", m.Clearance}} {
		if !(math.Abs(l.mm) <= maxLength) {
			m.add(m.path+"."+l.key, "a length is at most 20 m")
		}
	}
}

// lay makes the runs of the molding with both ends, and the returns.
func (m *fitting) lay() {
	before := len(m.list)
	sections := m.narrowed()
	if len(m.list) > before {
		return
	}
	runs := make([]*run, len(m.chain.edges))
	for i, e := range m.chain.edges {
		runs[i] = &run{name: e.Name, edge: e, inset: m.Inset, section: sections[i]}
		runs[i].put(m.At)
		sections[i].runs = append(sections[i].runs, e.Name)
	}
	n := len(runs)
	for i := range runs {
		if i+1 < n || m.chain.closed {
			next := runs[(i+1)%n]
			corner(runs[i], next)
			if m.Inside == InsideCope {
				cope(runs[i], next)
			}
		}
	}
	m.runs = runs
	if !m.chain.closed {
		m.freeEnds()
	}
	m.fits()
	if m.Rake != nil && len(m.list) == before {
		m.rake()
	}
}

// freeEnds sets the first and the last end of the row and adds the returns there.
func (m *fitting) freeEnds() {
	first, last := m.runs[0], m.runs[len(m.runs)-1]
	m.freeEnd(first, LeftHand, m.EndLeft, m.chain.before)
	m.freeEnd(last, RightHand, m.EndRight, m.chain.after)
	if m.EndLeft == EndReturn {
		m.runs = append([]*run{first.returned(LeftHand)}, m.runs...)
		first.section.runs = append(first.section.runs, returnName(LeftHand))
	}
	if m.EndRight == EndReturn {
		m.runs = append(m.runs, last.returned(RightHand))
		last.section.runs = append(last.section.runs, returnName(RightHand))
	}
}

func (m *fitting) freeEnd(r *run, end Hand, kind EndKind, beyond Edge) {
	dir := beyond.Dir()
	t := turn(r.edge, beyond)
	if end == LeftHand {
		t = turn(beyond, r.edge)
	}
	if beyond.Name == "back" && !m.stage.Freestanding {
		dir = m.stage.wall
		if kind == EndReturn {
			r.notes = append(r.notes, "its return stands out behind the case by the projection: keep the case that far from the wall")
		}
	}
	if free := beyond.Name != "back" || m.stage.Freestanding; free && t > 0 && kind != EndReturn {
		kind = EndOpen // no wall there, and nothing in its way
	}
	if kind == EndReturn && t < 0 {
		m.add(m.path+".ends", "run %s cannot return at its %s end: an inside corner lies there", r.name, end)
		return
	}
	if !r.free(end, kind, dir) {
		m.add(m.path+".ends", "run %s meets %s nearly in line, so that no cut lies along it; use open or return", r.name, beyond.Name)
		return
	}
	if e := r.end(end); e.kind == CutSquare && !e.cut.Square() {
		off := geom.Angle(math.Atan(e.cut.X)).Abs()
		if beyond.Name != "back" || m.stage.Freestanding {
			e.along = "edge"
		}
		if off >= squareTol {
			r.notes = append(r.notes, fmt.Sprintf("its %s end is cut along %s, %.2f degrees off square", end, beyondName(beyond, m.stage), off.Degrees()))
		}
	}
}

func beyondName(e Edge, s *StagePlan) string {
	if e.Name == "back" && !s.Freestanding {
		return "the wall"
	}
	return "edge " + e.Name
}

// narrowed returns the section of each run: the profile, or the profile narrowed where the run reaches less far.
func (m *fitting) narrowed() []*used {
	p := m.profile.Projection
	for _, name := range sortedKeys(m.Reach) {
		path := m.path + ".reach." + name
		reach := m.Reach[name]
		names := edgeNames(m.chain.edges)
		switch {
		case !slices.Contains(names, name):
			m.unknown(path, "the molding has no run", name, names)
		case !(reach > 0):
			m.add(path, "a reach must be more than 0")
		case reach > p+1e-9:
			m.add(path, "reach is %s, more than the profile's projection of %s; give the profile the greater one and narrow the other runs", m.mm(reach), m.mm(p))
		}
	}
	made := map[float64]*used{p: m.profile}
	out := make([]*used, len(m.chain.edges))
	for i, e := range m.chain.edges {
		reach, ok := m.Reach[e.Name]
		if !ok || near(reach, p, 1e-9) || !(reach > 0) {
			reach = p
		}
		if made[reach] == nil {
			made[reach] = mappedUsed(m.profile.Section, m.Profile+"-"+e.Name, RoleNarrowed, geom.Scaling(reach/p, 1))
			m.used = append(m.used, made[reach])
			m.sound(made[reach], m.path+".reach."+e.Name)
		}
		out[i] = made[reach]
	}
	return out
}

// fits refuses runs that come to nothing somewhere over the section, and outermost lines that cross.
func (m *fitting) fits() {
	for _, r := range m.runs {
		l := between(r.left.cut, r.right.cut)
		if least, _ := r.section.span(l); least < 1e-6 && !r.ret {
			m.add(m.path+".profile", "the molding projects %s, and run %s can hold no more than %s between its corners",
				m.mm(r.section.Projection), r.name, m.mm(math.Max(0, -l.S/l.X)))
			return
		}
	}
	outer := make([][2]geom.Point, len(m.runs))
	for i, r := range m.runs {
		outer[i] = r.planLine(r.section.Projection)
	}
	for i := range outer {
		for j := i + 2; j < len(outer); j++ {
			if i == 0 && j == len(outer)-1 && m.chain.closed || m.runs[i].ret || m.runs[j].ret {
				continue
			}
			if cross(outer[i][0], outer[i][1], outer[j][0], outer[j][1]) {
				m.add(m.path+".profile", "the molding projects %s, more than the inside corner between %s and %s allows", m.mm(m.profile.Projection), m.runs[i].name, m.runs[j].name)
				return
			}
		}
	}
}

// planLine returns the line of the run at section x, from left to right in plan.
func (r *run) planLine(x float64) [2]geom.Point {
	q := geom.Pt(x, 0)
	a, b := r.place.At(r.left.cut.At(q), q), r.place.At(r.right.cut.At(q), q)
	return [2]geom.Point{{X: a.X, Y: a.Y}, {X: b.X, Y: b.Y}}
}
