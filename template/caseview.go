package template

import (
	"slices"

	"listel/miter"
	"listel/profile/geom"
)

// A ViewName says from where a case is looked at.
type ViewName string

// The views of a case.
const (
	FrontView   ViewName = "front"   // x along the front to the right, y up from the floor
	EndView     ViewName = "end"     // the right end: x toward the wall, y up from the floor
	PlanView    ViewName = "plan"    // from above: x along the front to the right, y toward the wall
	SectionView ViewName = "section" // cut from front to back, seen from the left end: x out from the wall, y up from the floor
)

// A SurfaceKind says what a surface of a view is a part of.
type SurfaceKind string

// The kinds of surfaces.
const (
	StageSurface   SurfaceKind = "stage"
	OpeningSurface SurfaceKind = "opening"
	MoldingSurface SurfaceKind = "molding" // a molding or a bead as it is seen
	CutSurface     SurfaceKind = "cut"     // a molding or a bead cut through
)

// BeadsName stands for the beads where a surface says its molding.
const BeadsName = "beads"

// A Surface is a closed outline in a view of a case, and what it belongs to.
type Surface struct {
	Kind    SurfaceKind
	Molding string       // the name of the molding, BeadsName for the beads, "" for what is no molding
	Run     string       // of a molding
	Mark    string       // of its piece
	Outline []geom.Point // mm, counter-clockwise
}

// A CaseView is a case with its moldings in place as it is seen from one side, at true size. Its surfaces are in the order of drawing:
// one lies over those before it.
type CaseView struct {
	Name     ViewName
	Surfaces []Surface
	Cut      float64 // mm along the front: where a SectionView is cut, 0 for the others
}

// Bounds returns the smallest upright rectangle that holds the surfaces; it is empty for a case without any.
func (v CaseView) Bounds() geom.Rect {
	b := geom.EmptyRect()
	for _, s := range v.Surfaces {
		for _, p := range s.Outline {
			b = b.Include(p)
		}
	}
	return b
}

// CaseViews returns a fitted case from the front, from its right end, from above, and in section from front to back.
func CaseViews(r miter.Result) []CaseView {
	cut := sectionCut(r)
	return []CaseView{
		{Name: FrontView, Surfaces: seenSurfaces(r, fromFront)},
		{Name: EndView, Surfaces: seenSurfaces(r, fromRight)},
		{Name: PlanView, Surfaces: planSurfaces(r)},
		{Name: SectionView, Surfaces: cutSurfaces(r, cut), Cut: cut},
	}
}

// seenSurfaces returns what is seen of the case, nearer things after farther ones.
func seenSurfaces(r miter.Result, see viewpoint) []Surface {
	var out []Surface
	for _, f := range facets(r, see) {
		out = append(out, f.Surface)
	}
	return out
}

// planSurfaces returns the stages from above and the runs of all moldings round them, from the floor up: each molding is whole, since
// those over it are drawn where they are and not as wide as the case.
func planSurfaces(r miter.Result) []Surface {
	var out []Surface
	for _, s := range r.Stages {
		var pts []geom.Point
		for _, e := range s.Edges {
			pts = append(pts, e.A)
		}
		out = append(out, Surface{Kind: StageSurface, Outline: pts})
	}
	for _, m := range sortedBy(r.Moldings, func(m miter.MoldingResult) float64 { return m.Foot }) {
		for _, run := range m.Runs {
			pts := []geom.Point{run.Outer[0], run.Outer[1], run.Inner[1], run.Inner[0]}
			if geom.PolygonArea(pts) < 0 {
				slices.Reverse(pts)
			}
			out = append(out, Surface{Kind: MoldingSurface, Molding: m.Name, Run: run.Run, Mark: run.Mark, Outline: pts})
		}
	}
	return out
}
