package miter

import (
	"fmt"
	"math"

	"listel/profile/geom"
)

// An Edge is one side of a plan, from left to right as one faces it.
type Edge struct {
	Name string
	A, B geom.Point // mm
}

// Length returns the length of e in mm.
func (e Edge) Length() float64 { return e.A.Dist(e.B) }

// Dir returns the direction of e from left to right.
func (e Edge) Dir() geom.Point { return e.B.Sub(e.A).Unit() }

// Out returns the direction square to e away from the case.
func (e Edge) Out() geom.Point { d := e.Dir(); return geom.Pt(d.Y, -d.X) }

// turn returns by how much the plan turns from a to b, in (-180, 180] degrees: 180 less the inside angle.
func turn(a, b Edge) geom.Angle {
	u, v := a.Dir(), b.Dir()
	return geom.Angle(math.Atan2(u.Cross(v), u.Dot(v)))
}

// octagonCut is how far the corners of a regular octagon of width 1 stand back along the sides of its square.
var octagonCut = 1 / (2 + math.Sqrt2)

// The edges of the plans that have names of their own, counter-clockwise from the left.
var (
	plainEdges     = []string{"left", "front", "right", "back"}
	cantedEdges    = []string{"left", "front-left", "front", "front-right", "right", "back"}
	breakEdges     = []string{"left", "front-left", "step-left", "front", "step-right", "front-right", "right", "back"}
	cantBreakEdges = []string{"left", "cant-left", "front-left", "step-left", "front", "step-right", "front-right", "cant-right", "right", "back"}
	octagonEdges   = []string{"left", "front-left", "front", "front-right", "right", "back-right", "back", "back-left"}
)

// edges returns the sides of the plan counter-clockwise, its corners as nominal. Faults are added under path.
func (p Plan) edges(path string, f *faults) []Edge {
	before := len(f.list)
	pts, names := p.outline(path, f)
	if len(f.list) > before {
		return nil
	}
	e := make([]Edge, len(pts))
	for i := range pts {
		e[i] = Edge{Name: names[i], A: pts[i], B: pts[(i+1)%len(pts)]}
	}
	checkOutline(e, path, f)
	if len(f.list) > before {
		return nil
	}
	return e
}

// outline returns the corners of the plan, corner i being the start of the edge named names[i].
func (p Plan) outline(path string, f *faults) ([]geom.Point, []string) {
	shapes := 0
	for _, given := range []bool{p.Width != 0 || p.Depth != 0, p.Octagon != 0, p.HalfOctagon != 0, len(p.Outline) > 0} {
		if given {
			shapes++
		}
	}
	switch {
	case shapes != 1:
		f.add(path, "a plan has one shape: width with depth, octagon, half-octagon, or an outline")
	case p.Octagon != 0:
		return p.octagon(path, f), octagonEdges
	case p.HalfOctagon != 0:
		positive(p.HalfOctagon, path+".half-octagon.width", f)
		w := p.HalfOctagon
		return canted(w, w/2, w*octagonCut), cantedEdges
	case len(p.Outline) > 0:
		return p.named(path, f)
	default:
		return p.box(path, f)
	}
	return nil, nil
}

// box returns the corners of a plan with width and depth.
func (p Plan) box(path string, f *faults) ([]geom.Point, []string) {
	w, d, s := p.Width, p.Depth, p.Canted
	positive(w, path+".width", f)
	positive(d, path+".depth", f)
	if s != 0 && !(s > 0 && s < d && s < w/2) {
		f.add(path+".canted.setback", "the setback must be more than 0 and less than the depth and than half the width")
	}
	b := p.Breakfront
	if b == nil {
		if s == 0 {
			return []geom.Point{{X: 0, Y: d}, {}, {X: w}, {X: w, Y: d}}, plainEdges
		}
		return canted(w, d, s), cantedEdges
	}
	positive(b.Step, path+".breakfront.step", f)
	x := (w - b.Width) / 2
	if !(b.Width > 0 && x > s) {
		f.add(path+".breakfront.width", "the middle must be more than 0 wide and leave a wing on each side")
	}
	middle := []geom.Point{{X: x}, {X: x, Y: -b.Step}, {X: w - x, Y: -b.Step}, {X: w - x}}
	if s == 0 {
		return append(append([]geom.Point{{Y: d}, {}}, middle...), geom.Pt(w, 0), geom.Pt(w, d)), breakEdges
	}
	return append(append([]geom.Point{{Y: d}, {Y: s}, {X: s}}, middle...), geom.Pt(w-s, 0), geom.Pt(w, s), geom.Pt(w, d)), cantBreakEdges
}

func canted(w, d, s float64) []geom.Point {
	return []geom.Point{{Y: d}, {Y: s}, {X: s}, {X: w - s}, {X: w, Y: s}, {X: w, Y: d}}
}

func (p Plan) octagon(path string, f *faults) []geom.Point {
	positive(p.Octagon, path+".octagon.across", f)
	a, c := p.Octagon, p.Octagon*octagonCut
	return []geom.Point{{Y: a - c}, {Y: c}, {X: c}, {X: a - c}, {X: a, Y: c}, {X: a, Y: a - c}, {X: a - c, Y: a}, {X: c, Y: a}}
}

// named returns the outline of the file with its edges' names. One that runs clockwise is a fault.
func (p Plan) named(path string, f *faults) ([]geom.Point, []string) {
	if len(p.Outline) < 3 {
		f.add(path+".outline", "an outline has at least 3 points; this one has %d", len(p.Outline))
		return nil, nil
	}
	if len(p.Edges) != len(p.Outline) {
		f.add(path+".edges", "there are %d names for the %d edges of the outline", len(p.Edges), len(p.Outline))
		return nil, nil
	}
	seen := map[string]bool{}
	for i, n := range p.Edges {
		if n == "" || seen[n] {
			f.add(fmt.Sprintf("%s.edges[%d]", path, i), "each edge needs a name of its own; %q is empty or taken", n)
		}
		seen[n] = true
	}
	if geom.PolygonArea(p.Outline) < 0 {
		f.add(path+".outline", "the outline runs clockwise; give its points counter-clockwise seen from above, from the front left")
	}
	return p.Outline, p.Edges
}

func positive(mm float64, path string, f *faults) {
	if !(mm > 0) || mm > maxLength {
		f.add(path, "it must be more than 0 and at most 20 m")
	}
}

// maxLength is the longest length that a file may give, in mm.
const maxLength = 20000
