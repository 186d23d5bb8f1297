package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
)

// TestOffCornersAreTold: which corners are off, what that does to the lengths, and how far off the wall the nearer end stands.
func TestOffCornersAreTold(t *testing.T) {
	c := box(miter.Molding{})
	require.Empty(t, fit(t, c).Notes)
	require.Empty(t, fit(t, c).Stages[0].Off)
	c.Corners = map[string]geom.Angle{"front-left": 95 * geom.Degree, "front/right": 90 * geom.Degree}
	r := fit(t, c)
	s := r.Stages[0]
	require.Len(t, s.Off, 1, "a corner measured as drawn is not off")
	require.Equal(t, "front-left", s.Off[0].Name)
	require.InDelta(t, 95, s.Off[0].Angle.Degrees(), 1e-9)
	require.Greater(t, s.In(s.Off[0]).X, 0.0)
	require.Greater(t, s.In(s.Off[0]).Y, 0.0)
	run, gap := s.WallGap()
	require.Equal(t, "left", run)
	require.InDelta(t, 450*(1-math.Cos(5*math.Pi/180)), gap, 1e-9) // the side turns and keeps its length
	require.Equal(t, []string{"stage " + s.Name + ": corner front-left measures 95°, not 90°: every edge of the case keeps the length that the plan gives it, the front its direction, " +
		"and what is beside it turns; ends at the wall are cut parallel to it, and the end of run left stands 1.7 mm off it"}, r.Notes)
	a, b, ok := s.Wall()
	require.True(t, ok)
	require.InDelta(t, 450, a.Y, 1e-9)
	require.InDelta(t, 450, b.Y, 1e-9)
	require.Empty(t, miter.StagePlan{}.CornerWords(measure.Format{}))
}

// TestCornersOfSeveralStages: what is the same for two stages is told once, and the smallest angle is told.
func TestCornersOfSeveralStages(t *testing.T) {
	c := twoStages()
	c.Corners = map[string]geom.Angle{"front-right": 89.98 * geom.Degree}
	notes := fit(t, c, seating()).Notes
	require.Len(t, notes, 1)
	require.Contains(t, notes[0], "stages lower, upper: corner front-right measures 89.98°, not 90°: ")
}

// TestRailAlongTheWall: the wall is one line for both sides and for the rail between them: the rail's shoulders lean as the wall ends do, its back is
// parallel to the wall, and the side that reaches nearer to it takes its mortise that much farther from its end.
func TestRailAlongTheWall(t *testing.T) {
	c := box(miter.Molding{Profile: "waist", Frame: &miter.FrameSpec{RailWidth: 50, Tenon: 25}})
	c.Corners = map[string]geom.Angle{"front-left": 95 * geom.Degree}
	m := fit(t, c, waist()).Moldings[0]
	left, right, rail := pieceOf(t, m, "left"), pieceOf(t, m, "right"), pieceOf(t, m, "back-rail")
	require.InDelta(t, left.Ends[0].Standing.Miter.Degrees(), rail.Ends[0].Standing.Miter.Degrees(), 1e-9)
	require.InDelta(t, 5, rail.Ends[0].Standing.Miter.Degrees(), 1e-9)
	require.Zero(t, right.Ends[1].Standing.Miter)
	require.Zero(t, rail.Ends[1].Standing.Miter)
	gap := 450 * (1 - math.Cos(5*math.Pi/180))
	require.InDelta(t, m.Frame.Haunch, m.Frame.Mortises[0].FromWall, 1e-9)
	require.InDelta(t, m.Frame.Haunch+gap, m.Frame.Mortises[1].FromWall, 1e-9)
	// From the end of the left back, 450 mm back at 95 degrees, straight across to the right back.
	require.InDelta(t, 1000+450*math.Sin(5*math.Pi/180), rail.Back, 1e-9)
	for _, p := range m.Runs {
		if p.Run == "back-rail" {
			require.InDelta(t, p.Inner[0].Y, p.Inner[1].Y, 1e-9)
		}
	}
	require.Contains(t, m.Notes, "the rail lies along the wall, flush with the end of the other side: run right reaches 1.7 mm on behind it")
}

// TestCornerNames: the two edges of a corner in either order, with a slash or a dash, on every plan; a dash within a name of an edge is none between two.
func TestCornerNames(t *testing.T) {
	canted := miter.Plan{Width: 1000, Depth: 450, Canted: 90}
	for _, tt := range []struct {
		plan  miter.Plan
		names []string
	}{
		{miter.Plan{Width: 1000, Depth: 450}, []string{"front-right", "front/right", "right/front", "right-front"}},
		{canted, []string{"front/front-right", "front-right/front", "front-front-right", "front-right-front"}},
		{canted, []string{"front-right/right", "right/front-right", "front-right-right"}},
	} {
		for _, name := range tt.names {
			c := onPlan(tt.plan, miter.Molding{})
			c.Corners = map[string]geom.Angle{name: 100 * geom.Degree}
			require.Len(t, fit(t, c).Stages[0].Off, 1, name)
		}
	}
	c := onPlan(canted, miter.Molding{})
	c.Corners = map[string]geom.Angle{"front-right": 134 * geom.Degree}
	require.Contains(t, faults(t, c), "front/front-right", "an edge is no corner, and its corners are named")
	both := miter.Plan{Outline: []geom.Point{{}, {X: 900}, {X: 900, Y: 400}, {Y: 400}}, Edges: []string{"a", "b-c", "a-b", "c"}, Freestanding: true}
	c = onPlan(both, miter.Molding{})
	c.Corners = map[string]geom.Angle{"a-b-c": 91 * geom.Degree}
	require.Contains(t, faults(t, c), "corners.a-b-c", "it names two corners")
	c.Corners = map[string]geom.Angle{"c/a": 91 * geom.Degree}
	require.Contains(t, faults(t, c), "the c closes the plan", "it is not left out silently")
	c.Corners = map[string]geom.Angle{"a/b-c": 91 * geom.Degree}
	require.Len(t, fit(t, c).Stages[0].Off, 1)
}

// TestSettable: no saw is set to less than a tenth of a degree.
func TestSettable(t *testing.T) {
	s := miter.Saw{Miter: 0.07 * geom.Degree, Swing: miter.LeftHand, Bevel: 22 * geom.Degree, Tilt: miter.RightHand}
	require.Equal(t, miter.Saw{Swing: miter.NoHand, Bevel: 22 * geom.Degree, Tilt: miter.RightHand}, s.Settable())
	c := box(miter.Molding{})
	c.Corners = map[string]geom.Angle{"front-left": 90.06 * geom.Degree}
	left := pieceOf(t, fit(t, c).Moldings[0], "left")
	require.Equal(t, "square", left.Ends[0].Words())
	require.InDelta(t, 0.06, left.Ends[0].Standing.Miter.Degrees(), 1e-9, "the figure stays")
	require.Empty(t, left.Notes)
}
