package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
)

// coped saws the coped ends of a molding at the miter that shows their line, as the cut list sets the saw, and looks whether that line lies on
// the molded surface of the run that goes through, within that run's length. It returns the number of copes.
func coped(t *testing.T, m miter.MoldingResult, flat bool) int {
	t.Helper()
	n := 0
	for i, r := range m.Runs {
		p := pieceOf(t, m, r.Run)
		for side, e := range p.Ends {
			if e.Kind != miter.CutCope {
				continue
			}
			n++
			next := m.Runs[(i+len(m.Runs)-1+2*side)%len(m.Runs)].Run
			through := pieceOf(t, m, next)
			require.Equal(t, miter.CutSquare, through.Ends[1-side].Kind, "%s runs into the corner", next)
			body := sawn(t, through, false)
			place := placeOfRun(t, through, next)
			for _, v := range sawn(t, p, flat).rim(p, placeIndex(t, p, r.Run), e.End) {
				// Back into the through run's own coordinates.
				d := v.Add(place.Origin.Mul(-1))
				q, s := geom.Pt(d.Dot(place.Out), d.Dot(place.Up)), d.Dot(place.Along)-through.Ends[0].Cut.S
				off, at := toOutline(body.outline, q)
				require.Less(t, off, gapTol, "%s lies on the face of %s", r.Run, next)
				require.GreaterOrEqual(t, s, body.left[at]-gapTol, "%s reaches under the cope", next)
				require.LessOrEqual(t, s, body.right[at]+gapTol, "%s reaches under the cope", next)
			}
		}
	}
	return n
}

func placeIndex(t *testing.T, p miter.Piece, run string) int {
	for k, name := range p.Runs {
		if name == run {
			return k
		}
	}
	require.Fail(t, "no such run", run)
	return 0
}

func placeOfRun(t *testing.T, p miter.Piece, run string) miter.Placement {
	return p.Places[placeIndex(t, p, run)]
}

// toOutline returns how far q is from an outline, in mm, and the outline's point nearest to it.
func toOutline(outline []geom.Point, q geom.Point) (float64, int) {
	least, at, nearest := math.Inf(1), 0, math.Inf(1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		u := b.Sub(a)
		k := 0.0
		if l := u.Dot(u); l > 0 {
			k = math.Max(0, math.Min(1, q.Sub(a).Dot(u)/l))
		}
		least = math.Min(least, q.Dist(a.Add(u.Mul(k))))
		if d := q.Dist(a); d < nearest {
			nearest, at = d, i
		}
	}
	return least, at
}

// TestSolidCope does for copes what TestSolid does for miters: square and slanting inside corners, runs that project alike or not, sprung moldings
// standing and on their backs.
func TestSolidCope(t *testing.T) {
	plans := map[string]miter.Plan{
		"square":   {Width: 1400, Depth: 450, Breakfront: &miter.Breakfront{Width: 600, Step: 120}},
		"slanting": {Outline: []geom.Point{{X: 0, Y: 450}, {X: 0, Y: 0}, {X: 400, Y: 0}, {X: 450, Y: -150}, {X: 950, Y: -150}, {X: 1030, Y: 0}, {X: 1400, Y: 0}, {X: 1400, Y: 450}}, Edges: []string{"left", "a", "b", "front", "c", "d", "right", "back"}},
	}
	for name, p := range plans {
		t.Run(name, func(t *testing.T) {
			for _, m := range []miter.Molding{{Inside: miter.InsideCope}, {Inside: miter.InsideCope, Inset: 15, At: 900}} {
				require.Equal(t, 2, coped(t, fit(t, onPlan(p, m)).Moldings[0], false))
				m.Profile = "sprung"
				r := fit(t, onPlan(p, m), sprung(38*geom.Degree)).Moldings[0]
				require.Equal(t, 2, coped(t, r, false))
				require.Equal(t, 2, coped(t, r, true))
			}
		})
	}
}
