package miter

import (
	"fmt"
	"maps"
	"slices"

	"listel/profile/geom"
)

// A StagePlan is a stage where it stands: its plan in the coordinates of the lowest stage's plan, and its heights over the
// floor.
type StagePlan struct {
	Name         string
	Edges        []Edge  // counter-clockwise from the left, corners as measured
	Floor, Top   float64 // mm over the floor that the case stands on
	Freestanding bool
	Off          []OffCorner // measured corners that are not as the plan is drawn
	origin       geom.Point  // of its plan
	placed       bool        // by an offset of its own
	wall         geom.Point  // direction of the wall behind it: that of its back, corners as nominal
}

// Edge returns the edge of that name and whether there is one.
func (s StagePlan) Edge(name string) (Edge, bool) {
	if i := named(s.Edges, name); i >= 0 {
		return s.Edges[i], true
	}
	return Edge{}, false
}

// Bounds returns the smallest upright rectangle that holds the plan.
func (s StagePlan) Bounds() geom.Rect {
	r := geom.EmptyRect()
	for _, e := range s.Edges {
		r = r.Include(e.A)
	}
	return r
}

// stages places the stages of c, each with its corners as measured, and returns which of the measured corners some stage has. The tops and floors of seated
// stages are set later.
func stages(c Case, f *faults) (out []StagePlan, used map[string]bool) {
	if len(c.Stages) == 0 {
		f.add("stages", "a case has at least one stage")
	}
	out = make([]StagePlan, len(c.Stages))
	used = map[string]bool{}
	names := map[string]bool{}
	below := geom.EmptyRect()
	origin, top := geom.Point{}, 0.0
	for i, s := range c.Stages {
		path := fmt.Sprintf("stages[%d]", i)
		if names[s.Name] {
			f.add(path+".name", "two stages are named %q", s.Name)
		}
		names[s.Name] = true
		positive(s.Height, path+".height", f)
		if top += s.Height; top > maxLength && s.Height <= maxLength {
			f.add(path+".height", "the case is %.4g m high up to here; at most 20 m", top/1000)
		}
		nominal := s.Plan.edges(path+".plan", f)
		if nominal == nil {
			continue
		}
		r := bounds(nominal)
		switch {
		case s.Offset != nil:
			origin = origin.Add(*s.Offset)
		case i > 0 && !below.Empty(): // flush at the back, centered
			origin = geom.Pt(below.Center().X-r.Center().X, below.Max.Y-r.Max.Y)
		}
		below = geom.Rect{Min: r.Min.Add(origin), Max: r.Max.Add(origin)}
		edges := c.corners(nominal, used, f)
		checkOutline(edges, "corners", f)
		for k := range edges {
			edges[k].A, edges[k].B = edges[k].A.Add(origin), edges[k].B.Add(origin)
		}
		out[i] = StagePlan{Name: s.Name, Edges: edges, Freestanding: s.Plan.Freestanding, Off: offCorners(nominal, edges), origin: origin, placed: s.Offset != nil}
		if b := named(nominal, "back"); b >= 0 {
			out[i].wall = nominal[b].Dir()
		}
	}
	return out, used
}

func bounds(edges []Edge) geom.Rect { return StagePlan{Edges: edges}.Bounds() }

// corners returns the edges with the corners that c measured, and notes in used which of them the plan has.
func (c Case) corners(nominal []Edge, used map[string]bool, f *faults) []Edge {
	angles := map[int]geom.Angle{}
	_, closing := held(nominal)
	for _, name := range sortedKeys(c.Corners) {
		i := cornerAt(nominal, name)
		if i < 0 {
			continue
		}
		is := inside(nominal, i)
		if a := c.Corners[name]; (a-is).Abs() > cornerOff+snap || (a > straight) != (is > straight) {
			if !used[name] {
				f.add("corners."+name, "a corner of %.4g degrees cannot be that of a plan drawn with %.4g: the plan would not close; a measured corner from %.4g to %.4g would do, or another plan, given by its outline",
					a.Degrees(), is.Degrees(), cornerLeast(is).Degrees(), cornerMost(is).Degrees())
			}
		} else if !cornerFits(a) {
			if !used[name] {
				f.add("corners."+name, "a corner of %.4g degrees cannot be mitered: it must differ from 0, 180 and 360", a.Degrees())
			}
		} else if i == closing || i == (closing+1)%len(nominal) {
			if !used[name] {
				f.add("corners."+name, "the %s closes the plan, so that its corners follow from the others; measure those away from it", nominal[closing].Name)
			}
		} else {
			angles[i] = a
		}
		used[name] = true
	}
	return measured(nominal, angles)
}

// cornerOff is how far a measured corner may be from that of the plan: no case is built so badly, and a plan bent farther is another plan.
const cornerOff = 60 * geom.Degree

// cornerLeast and cornerMost return from where to where a corner of the plan may be measured: an outside corner stays one.
func cornerLeast(is geom.Angle) geom.Angle {
	if is > straight {
		return max(is-cornerOff, straight+cornerTol)
	}
	return is - cornerOff
}

func cornerMost(is geom.Angle) geom.Angle {
	if is > straight {
		return is + cornerOff
	}
	return min(is+cornerOff, straight-cornerTol)
}

func cornerFits(a geom.Angle) bool {
	d := a.Degrees()
	tol := cornerTol.Degrees()
	return d >= tol && d <= 360-tol && (d <= 180-tol || d >= 180+tol)
}

// unusedCorners refuses the corners that no stage has.
func (c Case) unusedCorners(used map[string]bool, f *faults) {
	for _, name := range sortedKeys(c.Corners) {
		if !used[name] && len(c.Stages) > 0 {
			f.unknown("corners."+name, "no stage has a corner", name, c.cornerNames())
		}
	}
}

// cornerNames returns the names of the corners of all stages that may be measured.
func (c Case) cornerNames() []string {
	var names []string
	seen := map[string]bool{}
	for _, s := range c.Stages {
		edges := s.Plan.edges("", &faults{})
		for i, e := range edges {
			before, name := edges[(i+len(edges)-1)%len(edges)].Name, cornerName(edges, i)
			if before != "back" && e.Name != "back" && !seen[name] {
				seen[name] = true
				names = append(names, name)
			}
		}
	}
	return names
}

// sortedKeys returns the keys of m in order, so that what is told of them does not depend on the map.
func sortedKeys[V any](m map[string]V) []string {
	return slices.Sorted(maps.Keys(m))
}
