package miter

import (
	"fmt"
	"math"
	"strings"

	"listel/profile/geom"
	"listel/profile/measure"
)

// An OffCorner is a measured corner of a plan that is not as the plan is drawn.
type OffCorner struct {
	Name  string     // as in the file: front-left of a plain plan, else its two edges, left/front-left
	At    geom.Point // mm, in the coordinates of the plan
	Angle geom.Angle // inside, as measured
	Plan  geom.Angle // as the plan is drawn

	start int // index of the edge that starts there
}

// In returns the direction from the corner into the case, on the line that halves it.
func (s StagePlan) In(c OffCorner) geom.Point {
	n := len(s.Edges)
	out := s.Edges[(c.start+n-1)%n].Out().Add(s.Edges[c.start].Out())
	return out.Unit().Mul(-1)
}

// offCorners returns the corners of the edges that differ from those of the plan as drawn, but for the two of the edge that closes it, which follow from the others.
func offCorners(nominal, edges []Edge) []OffCorner {
	var out []OffCorner
	_, closing := held(nominal)
	for i := range edges {
		is, plan := inside(edges, i), inside(nominal, i)
		if i == closing || i == (closing+1)%len(edges) || is.Near(plan, snap) {
			continue
		}
		out = append(out, OffCorner{Name: cornerName(nominal, i), At: edges[i].A, Angle: is, Plan: plan, start: i})
	}
	return out
}

// cornerName returns what a file calls the corner where edge i starts: front-left where left and front meet, else the two edges.
func cornerName(edges []Edge, i int) string {
	before, e := edges[(i+len(edges)-1)%len(edges)].Name, edges[i].Name
	switch {
	case before == "left" && e == "front":
		return "front-left"
	case before == "front" && e == "right":
		return "front-right"
	}
	return before + "/" + e
}

// WallGap returns the run whose end stands off the wall where measured corners leave one of the two nearer to it than the other, and by how much, in
// mm; "" and 0 where both touch it.
func (s StagePlan) WallGap() (run string, mm float64) {
	i := named(s.Edges, "back")
	if i < 0 || s.Freestanding {
		return "", 0
	}
	n, back := len(s.Edges), s.Edges[i]
	gap := back.B.Sub(back.A).Dot(geom.Pt(s.wall.Y, -s.wall.X)) // by how much the left end is nearer to the wall
	switch {
	case math.Abs(gap) < lengthTol:
		return "", 0
	case gap > 0:
		return s.Edges[(i+n-1)%n].Name, gap
	}
	return s.Edges[(i+1)%n].Name, -gap
}

// Wall returns the line of the wall behind the stage, from the right end of its back to the left, and whether it stands at one. It is parallel to the
// wall however the sides stand, and passes through the end of the back that reaches it.
func (s StagePlan) Wall() (right, left geom.Point, ok bool) {
	e, ok := s.Edge("back")
	if !ok || s.Freestanding {
		return right, left, false
	}
	out := geom.Pt(s.wall.Y, -s.wall.X)
	gap := e.B.Sub(e.A).Dot(out)
	return e.A.Add(out.Mul(max(0, gap))), e.B.Sub(out.Mul(min(0, gap))), true
}

// CornerWords says which corners of the plan are off and what that does to its lengths and to its ends at the wall; "" when none is off.
func (s StagePlan) CornerWords(f measure.Format) string {
	if len(s.Off) == 0 {
		return ""
	}
	var corners []string
	for _, c := range s.Off {
		corners = append(corners, fmt.Sprintf("%s measures %.4g°, not %.4g°", c.Name, c.Angle.Degrees(), c.Plan.Degrees()))
	}
	words := "corner " + strings.Join(corners, ", ") + ": every edge of the case keeps the length that the plan gives it, the front its direction, and what is beside it turns"
	if s.Freestanding || named(s.Edges, "back") < 0 {
		return words
	}
	words += "; ends at the wall are cut parallel to it"
	if run, gap := s.WallGap(); gap > wallTold {
		words += fmt.Sprintf(", and the end of run %s stands %s off it", run, f.Length(gap))
	}
	return words
}

// cornerNotes returns CornerWords of the stages, those that say the same together.
func (f *fitter) cornerNotes() []string {
	var notes []string
	stages := map[string][]string{}
	for _, s := range f.plans {
		words := s.CornerWords(f.format)
		if words == "" {
			continue
		}
		if stages[words] == nil {
			notes = append(notes, words)
		}
		stages[words] = append(stages[words], s.Name)
	}
	for i, words := range notes {
		name := "stage "
		if len(stages[words]) > 1 {
			name = "stages "
		}
		notes[i] = name + strings.Join(stages[words], ", ") + ": " + words
	}
	return notes
}

// wallTold is how far off the wall one end may stand, in mm, before it is told: less is lost in scribing the case to the wall.
const wallTold = 0.2
