package cutter

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/cutter/replay"
)

func TestTheSamePlanEveryTime(t *testing.T) {
	p := pieceOf(t, unmatchedCornice())
	for _, e := range []Effort{Quick, Usual} {
		a, err := Plan(context.Background(), p, metricSet(), Options{Effort: e})
		require.NoError(t, err)
		b, err := Plan(context.Background(), p, metricSet(), Options{Effort: e})
		require.NoError(t, err)
		x, _ := json.Marshal(a)
		y, _ := json.Marshal(b)
		require.JSONEq(t, string(x), string(y))
	}
}

func TestAPlanStopsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	_, err := Plan(ctx, pieceOf(t, matchedCornice()), metricSet(), Options{Progress: func(p Progress) {
		require.NotEmpty(t, p.Stage)
		if calls++; calls == 3 {
			cancel()
		}
	}})
	require.ErrorIs(t, err, context.Canceled)
	require.GreaterOrEqual(t, calls, 3)
}

func TestWrongInput(t *testing.T) {
	good := pieceOf(t, filletCoveOvolo())
	plan := func(p Piece, tools []Tool, o Options) error {
		_, err := Plan(context.Background(), p, tools, o)
		return err
	}
	require.ErrorIs(t, plan(good, nil, Options{}), ErrNothing)
	require.ErrorIs(t, plan(good, metricSet(), Options{Works: []Work{"lathe"}}), ErrNothing)
	var wrong *ToolError
	require.True(t, errors.As(plan(good, []Tool{{Name: "x", Kind: RoundNose}}, Options{}), &wrong))
	require.ErrorContains(t, plan(good, metricSet(), Options{Allowance: math.NaN()}), "allowance")
	require.ErrorContains(t, plan(good, metricSet(), Options{Allowance: 0.1}), "allowance is 0.1 mm")
	open := good
	open.Outline = good.Outline[1:]
	require.ErrorContains(t, plan(open, metricSet(), Options{}), "not closed")
	turned := good
	turned.Outline = good.Outline.Reverse()
	require.ErrorContains(t, plan(turned, metricSet(), Options{}), "clockwise")
	small := good
	small.Blank[2].X, small.Blank[1].X = 10, 10
	require.ErrorContains(t, plan(small, metricSet(), Options{}), "leaves the blank")
}

func TestEveryKindOfTool(t *testing.T) {
	own := Tool{Name: "own", Kind: FormTool, Work: Router, Reach: 30, PerPass: 5, Profile: geom.Polyline(geom.Pt(-5, 4), geom.Pt(0, 0), geom.Pt(5, 4))}
	seen := map[Kind]bool{}
	for _, tool := range append(append(metricSet(), inchSet()...), own) {
		require.NoError(t, tool.Validate(), tool.Name)
		seen[tool.Kind] = true
		sh := shapeOf(tool)
		require.NotEmpty(t, sh.cut, tool.Name)
		least := math.Inf(1)
		for _, p := range sh.all {
			least = math.Min(least, math.Min(p.at(p.a), p.at(p.b)))
		}
		for _, p := range sh.cut {
			if p.half == lowerHalf && p.c.X > p.a && p.c.X < p.b {
				least = math.Min(least, p.c.Y-p.r)
			}
		}
		require.InDelta(t, 0, least, 1e-9, "%s: the tip is at 0", tool.Name)
		broken := tool
		broken.Reach = 0
		require.Error(t, broken.Validate())
	}
	require.Len(t, seen, 14, "all kinds of tool")
	require.Error(t, Tool{Name: "none"}.Validate())
	own.Profile = own.Profile.Reverse()
	require.Error(t, own.Validate(), "an edge that runs backward")
}

// The sole of hollows and rounds is a sixth of a circle, so that its chord is its radius (K. F. Greenberg, Sizing Hollows and Rounds).
func TestHollowsAndRoundsAreASixthOfACircle(t *testing.T) {
	for _, kind := range []Kind{HollowPlane, RoundPlane} {
		sh := shapeOf(Tool{Kind: kind, Radius: 12})
		a, b := sh.cut.span()
		require.InDelta(t, 12, b-a, 1e-12)
		sagitta := 12 * (1 - math.Cos(math.Pi/6))
		require.InDelta(t, sagitta, math.Abs(sh.cut[0].at(0)-sh.cut[0].at(a)), 1e-12)
	}
}

// The table by diameter and the rim speeds that follow from it: pi D n / 12 feet a minute, here in m/s (check table of speeds; the rim
// speeds are worked from the published speeds).
func TestSpeeds(t *testing.T) {
	for _, c := range []struct {
		inches float64
		rpm    int
		rim    float64
	}{{0.5, 24000, 0}, {1, 24000, 31.9}, {1.5, 18000, 0}, {2, 18000, 47.9}, {2.5, 16000, 53.2}, {3.5, 12000, 55.9}} {
		require.Equal(t, c.rpm, SpeedFor(c.inches*25.4))
		if c.rim > 0 {
			require.InDelta(t, c.rim, RimSpeed(c.inches*25.4, c.rpm), 0.05)
		}
	}
	require.Zero(t, SpeedFor(4*25.4))
	require.InDelta(t, 12.7, Tool{Kind: Straight, Diameter: 12.7}.Across(), 1e-9)
	require.InDelta(t, 9.5+2*8, Tool{Kind: RoundOver, Radius: 8, Pilot: 9.5}.Across(), 1e-9)
}

// Areas that simple sums give: a rabbet of 10 by 6 mm out of a square blank.
func TestRemovedAreaOfARabbet(t *testing.T) {
	pts := []geom.Point{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 24), geom.Pt(10, 24), geom.Pt(10, 30), geom.Pt(0, 30)}
	p := Piece{Name: "rabbet", Outline: geom.Polygon(pts...), Blank: [4]geom.Point{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 30), geom.Pt(0, 30)}}
	r, q := planned(t, p, []Tool{{Name: "bit", Kind: Straight, Diameter: 12, Reach: 40, PerPass: 4}}, Options{})
	require.Len(t, r.Setups, 1)
	require.InDelta(t, 60, r.Setups[0].Removed, 0.05)
	require.True(t, r.Proven)
	require.Equal(t, 1, r.LowerBound)
	require.InDelta(t, 0, r.Left.Total, 1e-6)
	require.True(t, r.Setups[0].BottomContact)
	holds(t, q, replay.Options{})
	breaks(t, q)
	// The saw's two kerfs free the same corner; the kerfs take 3 x 6 and 3 x 7 mm, the offcut falls.
	r, q = planned(t, p, []Tool{{Name: "blade", Kind: SawBlade, Width: 3, Reach: 70, PerPass: 40}}, Options{})
	require.Len(t, r.Setups, 2)
	require.InDelta(t, 60, r.Setups[0].Removed+r.Setups[1].Removed, 0.05)
	require.True(t, r.Setups[1].Frees)
	holds(t, q, replay.Options{})
	breaks(t, q)
}

// A set-up's transform leads from the machine to the section: the table is at height 0, the fence at distance 0, and looking along the feed with
// the fence on the right one sees the section as it is drawn unless the left end leads.
func TestTransforms(t *testing.T) {
	r, _ := planned(t, pieceOf(t, filletCoveOvolo()), metricSet(), Options{})
	for _, s := range r.Setups {
		m := s.Transform
		det := m[0]*m[3] - m[1]*m[2]
		require.InDelta(t, 1, math.Abs(det), 1e-12)
		require.Equal(t, s.EndForEnd, det > 0) // u grows away from the fence, to the left of the picture
		if s.OnTable == Foot {
			require.InDelta(t, 0, m[5], 1e-9)
		}
	}
}

func ExamplePlan() {
	pts := []geom.Point{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 24), geom.Pt(10, 24), geom.Pt(10, 30), geom.Pt(0, 30)}
	piece := Piece{Name: "rabbet", Outline: geom.Polygon(pts...), Blank: [4]geom.Point{{}, {X: 20}, {X: 20, Y: 30}, {Y: 30}}}
	r, err := Plan(context.Background(), piece, []Tool{{Name: "12 mm bit", Kind: Straight, Diameter: 12, Reach: 40, PerPass: 4}}, Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range r.Setups {
		fmt.Printf("%d. %s: %s on the table, %s to the fence, fence %.1f, height %.1f, %d passes\n", s.N, s.Tool, s.OnTable, s.AgainstFence, s.Fence, s.Height, s.Passes)
	}
	fmt.Printf("least %d, proven %v\n", r.LowerBound, r.Proven)
	// Output:
	// 1. 12 mm bit: top on the table, front to the fence, fence -2.0, height 6.0, 2 passes
	// least 1, proven true
}
