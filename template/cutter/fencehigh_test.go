package cutter

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/cutter/replay"
)

// overhung is a piece 60 mm high and 40 deep: its front is one fillet 8 mm high at the top, all under it stands back 20 mm. Invented.
func overhung() Piece {
	p := Piece{Name: "overhung"}
	p.Outline = geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 52), geom.Pt(40, 52), geom.Pt(40, 60), geom.Pt(0, 60))
	p.Blank = [4]geom.Point{geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(40, 60), geom.Pt(0, 60)}
	return p
}

// A fence is high enough when 10 mm bear on it, or all where less does, before the cut and after it; a plane's stop when 3 mm do. Worked by hand: on the whole front
// 10 mm up; once all but the fillet is gone, up to its top at 60; standing on its top the fillet lies lowest, and 8 is all there is.
func TestHeightThatAFenceNeeds(t *testing.T) {
	s, err := newSearch(context.Background(), overhung(), metricSet(), Options{Effort: Quick})
	require.NoError(t, err)
	whole := newBlock(s.t.blank)
	made := whole.clone()
	made.cut(newPolygon([]geom.Point{geom.Pt(20, -1), geom.Pt(41, -1), geom.Pt(41, 52), geom.Pt(20, 52)}))
	on := func(table, fence Face) stance {
		a := stance{}
		for i, f := range s.t.sides {
			switch f.name {
			case table:
				a.table = i
			case fence:
				a.fence = i
			}
		}
		return a
	}
	const near = 0.3 // mm, half a step along the face and the columns that the wood is kept in
	require.InDelta(t, 10, s.fenceHigh(on(Foot, Front), Saw, whole), near)
	require.InDelta(t, 60, s.fenceHigh(on(Foot, Front), Saw, made), near)
	require.InDelta(t, 60, s.fenceHigh(on(Foot, Front), Saw, whole, made), near)
	require.InDelta(t, 8, s.fenceHigh(on(Top, Front), Router, made), near)
	require.InDelta(t, 10, s.fenceHigh(on(Foot, Back), Router, made), near)
	require.InDelta(t, 55, s.fenceHigh(on(Foot, Front), Plane, made), near)
	require.InDelta(t, 3, s.fenceHigh(on(Foot, Back), Plane, made), near)
	require.Zero(t, s.fenceHigh(on(Top, Foot), Saw, whole.without()))
}

// without returns the block with nothing standing.
func (b *block) without() *block {
	c := b.clone()
	for i := range c.runs {
		c.runs[i] = nil
	}
	return c
}

// A replay lets nothing bear on a fence over the height that the plan says: where what bears lies high, a plan that asks for a lower fence is faulty.
func TestReplayAsksForAHighFence(t *testing.T) {
	r, p := planned(t, overhung(), metricSet(), Options{Effort: Quick})
	holds(t, p, replay.Options{})
	high := 0
	for i, u := range r.Setups {
		if u.Work == Plane || u.FenceHigh <= 25 {
			continue
		}
		high++
		low := p
		low.Setups = append([]replay.Setup{}, p.Setups...)
		low.Setups[i].FenceHigh = 20
		flagged := false
		for _, f := range replay.Replay(low, replay.Options{Cell: 0.1}).Faults {
			flagged = flagged || f.Kind == "fence" && f.Step == i+1
		}
		require.True(t, flagged, "set-up %d asks for %.1f mm", u.N, u.FenceHigh)
	}
	require.Positive(t, high, "its fillet is all that bears in one")
}
