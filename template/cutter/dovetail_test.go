package cutter

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/cutter/replay"
)

// undercut is a board 30 by 40 mm with a lip that a dovetail bit of 14 degrees undercuts: invented.
func undercut() Piece {
	slope := math.Tan(14 * math.Pi / 180)
	pts := []geom.Point{geom.Pt(0, 0), geom.Pt(24, 0), geom.Pt(24, 32-2/slope), geom.Pt(22, 32), geom.Pt(30, 32), geom.Pt(30, 40), geom.Pt(0, 40)}
	return Piece{Name: "undercut", Outline: geom.Polygon(pts...), Blank: [4]geom.Point{{}, {X: 30}, {X: 30, Y: 40}, {Y: 40}}}
}

// A dovetail bit comes from the side at one height: what it takes is the slope under the lip, worked by hand from the triangle that a straight bit
// leaves, and its shank stands clear below.
func TestADovetailComesFromTheSide(t *testing.T) {
	tools := []Tool{
		{Name: "straight", Kind: Straight, Diameter: 12, Reach: 50, PerPass: 8},
		{Name: "dovetail", Kind: Dovetail, Diameter: 12.7, Angle: 14 * geom.Degree, Length: 12.7, Shank: 6.35, Reach: 40, PerPass: 12.7},
	}
	r, p := planned(t, undercut(), tools, Options{})
	holds(t, p, replay.Options{})
	breaks(t, p)
	i := slices.IndexFunc(r.Setups, func(s Setup) bool { return s.Tool == "dovetail" })
	require.GreaterOrEqual(t, i, 0)
	u := r.Setups[i]
	require.Equal(t, "fence", u.Enters)
	require.Equal(t, Foot, u.OnTable, "its tip points away from the table")
	require.InDelta(t, 32, u.Height, 1e-3)
	require.InDelta(t, 2*2/math.Tan(14*math.Pi/180)/2, u.Removed, 0.3)
	require.Empty(t, r.Unreached)
	box := newPolygon(polygonOf(u.Body).pts).bounds
	require.Greater(t, box.Min.X, 24.5, "the shank passes the section")
	raised := p
	raised.Setups = slices.Clone(p.Setups)
	raised.Setups[i].Enters = "table"
	require.False(t, replay.Replay(raised, replay.Options{}).OK(), "it does not come up through the table")
	// A tip that stands no more than 30 mm over the table does not reach the lip.
	short := slices.Clone(tools)
	short[1].Reach = 30
	r, _ = planned(t, undercut(), short, Options{})
	for _, u := range r.Setups {
		require.False(t, u.Tool == "dovetail" && u.Height > 30)
	}
	require.NotEmpty(t, r.Unreached)
}

// However the work may lie for a dovetail bit, the shank goes down into the table and the bit comes in from the fence's side, square to it.
func TestADovetailsShankStandsInTheTable(t *testing.T) {
	s, err := newSearch(context.Background(), undercut(), []Tool{
		{Name: "dovetail", Kind: Dovetail, Diameter: 12.7, Angle: 14 * geom.Degree, Length: 12.7, Shank: 6.35, Reach: 40, PerPass: 12.7},
	}, Options{})
	require.NoError(t, err)
	require.NoError(t, s.candidates())
	require.NotEmpty(t, s.cuts)
	for k := range s.cuts {
		c := &s.cuts[k]
		tip, shank := c.variant.cut[0], c.variant.body[0]
		wide, narrow := geom.Pt(c.x+tip.a, c.h), geom.Pt(c.x+tip.b, c.h+tip.at(tip.b))
		if c.variant.mirror {
			wide, narrow = geom.Pt(c.x+tip.b, c.h), geom.Pt(c.x+tip.a, c.h+tip.at(tip.a))
		}
		stands := s.steps([]int{k})[0].stands
		require.NotEmpty(t, stands)
		for _, a := range stands {
			w, n := s.machine(a, c.view.out(wide)), s.machine(a, c.view.out(narrow))
			require.InDelta(t, 12.7, w.Y-n.Y, 1e-9, "the tip is the highest")
			require.InDelta(t, 12.7*math.Tan(14*math.Pi/180), w.X-n.X, 1e-9, "and reaches furthest from the fence")
			require.InDelta(t, 12.7*math.Tan(14*math.Pi/180), w.X-s.machine(a, c.view.out(geom.Pt(c.x, c.h+shank.at(shank.a)))).X, 1e-9, "its neck, which is thicker than the shank, behind it")
		}
	}
}

// What stands under a lip, further out than the neck of a dovetail bit, keeps it from going in.
func TestADovetailsNeckStaysClear(t *testing.T) {
	p := undercut()
	slope := math.Tan(14 * math.Pi / 180)
	p.Outline = geom.Polygon(geom.Pt(0, 0), geom.Pt(26, 0), geom.Pt(26, 15), geom.Pt(24, 15), geom.Pt(24, 32-2/slope), geom.Pt(22, 32), geom.Pt(30, 32), geom.Pt(30, 40), geom.Pt(0, 40))
	tools := []Tool{
		{Name: "straight", Kind: Straight, Diameter: 12, Reach: 50, PerPass: 8},
		{Name: "dovetail", Kind: Dovetail, Diameter: 12.7, Angle: 14 * geom.Degree, Length: 12.7, Shank: 6.35, Reach: 40, PerPass: 12.7},
	}
	r, q := planned(t, p, tools, Options{})
	holds(t, q, replay.Options{})
	require.NotEmpty(t, r.Unreached)
}

// The replay flags a dovetail that is raised into the wood: its shape alone, without the way it came.
func TestReplayFlagsADovetailRaisedIntoTheWood(t *testing.T) {
	p := replay.Plan{Allowance: 0.5}
	p.Blank.Polygon = []replay.Point{{0, 0}, {40, 0}, {40, 30}, {0, 30}}
	p.Outline = []replay.Point{{0, 0}, {17, 0}, {14, 12}, {26, 12}, {23, 0}, {40, 0}, {40, 30}, {0, 30}}
	cut := replay.Setup{N: 1, Tool: "dovetail", Work: "router", Enters: "table", Height: 12, FenceHigh: 10, Transform: [6]float64{1, 0, 0, 1, 0, 0}, Removed: 108, Contact: true,
		Silhouette: []replay.Point{{17, -4}, {23, -4}, {23, 0}, {26, 12}, {14, 12}, {17, 0}}}
	p.Setups = []replay.Setup{cut}
	kinds := func() (out []string) {
		for _, f := range replay.Replay(p, replay.Options{Cell: 0.1}).Faults {
			out = append(out, f.Kind)
		}
		return out
	}
	require.Equal(t, []string{"sweep"}, kinds())
	p.Outline = []replay.Point{{0, 0}, {14, 0}, {14, 12}, {26, 12}, {26, 0}, {40, 0}, {40, 30}, {0, 30}}
	p.Setups[0].Silhouette = []replay.Point{{14, -4}, {26, -4}, {26, 12}, {14, 12}}
	p.Setups[0].Removed = 144
	require.Empty(t, kinds(), "a straight bit comes that way")
}
