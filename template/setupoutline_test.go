package template

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
)

// loopArea returns the area of wood inside loops, holes taken off.
func loopArea(loops []geom.Path) (area float64) {
	for _, l := range loops {
		area += l.Area()
	}
	return area
}

// What the wood loses from picture to picture is what the planner says each set-up takes: its area is reckoned there from columns, here
// from the loops that are drawn.
func TestViewTakesWhatThePlanSays(t *testing.T) {
	p := steppedPlan(t)
	v := ViewSetups(p, measure.Format{Units: measure.Millimeters})
	require.Len(t, v.Wood, len(p.Plan.Setups)+1)
	require.InDelta(t, p.Plan.Blank.Width*p.Plan.Blank.Thickness, loopArea(v.Wood[0]), 0.01, "the blank")
	for i, u := range p.Plan.Setups {
		require.InDelta(t, u.Removed, loopArea(v.Wood[i])-loopArea(v.Wood[i+1]), 0.05+u.Removed*0.001, "set-up %d", u.N)
	}
	require.InDelta(t, p.Section.Area(), loopArea(v.Wood[len(p.Plan.Setups)]), p.Plan.Left.Total+0.05, "at the end the section stands, and what is left on it")
}

// Edges that overlap on one line are one edge, and wood that meets wood across a line has none there.
func TestEdgeNet(t *testing.T) {
	line := func(ax, ay, bx, by float64) geom.Line { return geom.Line{A: geom.Pt(ax, ay), B: geom.Pt(bx, by)} }
	loops := newEdgeNet([]geom.Line{
		line(0, 0, 10, 0), line(4, 0, 20, 0), line(20, 0, 20, 5), line(20, 5, 0, 5), line(0, 5, 0, 0.001),
		line(30, 0, 30, 5), line(30, 5, 30, 0), // a cut of no width
	}).loops()
	require.Len(t, loops, 1)
	require.InDelta(t, 100, loopArea(loops), 0.02)
	neck := newEdgeNet([]geom.Line{
		line(0, 0, 10, 0), line(10, 0, 10, 4), line(10, 6, 10, 10), line(10, 10, 0, 10), line(0, 10, 0, 6), line(0, 4, 0, 0),
	}).loops()
	require.InDelta(t, 100, loopArea(neck), 1e-9, "what is missing is bridged the short way")
	hole := newEdgeNet([]geom.Line{
		line(0, 0, 9, 0), line(9, 0, 9, 9), line(9, 9, 0, 9), line(0, 9, 0, 0),
		line(3, 3, 3, 6), line(3, 6, 6, 6), line(6, 6, 6, 3), line(6, 3, 3, 3),
	}).loops()
	require.Len(t, hole, 2)
	require.InDelta(t, 72, loopArea(hole), 1e-9)
}

// On the machine the wood lies on the table and left of the fence, the edge stands where the fence is set by, and the words are those of the
// sheet.
func TestViewLiesOnTheMachine(t *testing.T) {
	p := steppedPlan(t)
	v := ViewSetups(p, measure.Format{Units: measure.Inches, Fraction: 64})
	for i, s := range v.Steps {
		box := geom.EmptyRect()
		for _, loop := range v.Wood[i] {
			box = box.Union(loop.Transform(s.Place).Bounds())
		}
		require.InDelta(t, 0, box.Min.Y, 0.02, "on the table")
		require.InDelta(t, 0, box.Max.X, 0.02, "against the fence")
		cut := s.Cut.Transform(s.Place).Bounds()
		if mm, far := edgeToFence(s.Setup); !far && s.Setup.Tilt == 0 {
			require.InDelta(t, -mm, cut.Max.X, 0.02, "set-up %d: the nearest edge", s.Setup.N)
		}
		require.InDelta(t, s.Setup.Height, min(cut.Max.Y, s.Setup.Height), 0.02)
		require.NotEmpty(t, s.Remarks)
		require.NotEmpty(t, s.Remarks[0].Figure, "what is set stands first")
		require.True(t, slices.ContainsFunc(s.Remarks, func(r SetupRemark) bool { return strings.Contains(r.Text, "on the table") }))
	}
	require.NotEmpty(t, v.Tools)
	require.NotEmpty(t, v.Before)
	require.NotEmpty(t, v.Caution)
	require.Contains(t, v.Summary, "set-up")
}
