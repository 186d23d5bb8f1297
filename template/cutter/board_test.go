package cutter

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/template/cutter/replay"
)

// astragalStrip is 12 mm high and 14 wide, flatCasing 38 by 9, thickEdge 13 by 13: invented.
func astragalStrip() profile.Profile {
	mm := profile.MM
	return profile.Profile{Name: "astragal-strip", Ground: mm(9), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: mm(2)}, {Kind: profile.KindAstragal, Height: mm(8), Set: mm(1)}, {Kind: profile.KindFillet, Height: mm(2), Set: mm(-1)},
	}}
}

func flatCasing() profile.Profile {
	mm := profile.MM
	return profile.Profile{Name: "flat-casing", Ground: mm(6), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: mm(20)}, {Kind: profile.KindCove, Height: mm(3)}, {Kind: profile.KindFillet, Height: mm(15)},
	}}
}

func thickEdge() profile.Profile {
	mm := profile.MM
	return profile.Profile{Name: "thick-edge", Ground: mm(10), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: mm(7)}, {Kind: profile.KindCove, Height: mm(3)}, {Kind: profile.KindFillet, Height: mm(3)},
	}}
}

// chamferedStrip is 32 mm high and 9 thick, and runs out to 3 mm at foot and top: invented.
func chamferedStrip() profile.Profile {
	mm := profile.MM
	return profile.Profile{Name: "chamfered-strip", Ground: mm(3), Elements: []profile.Entry{
		{Kind: profile.KindChamfer, Height: mm(6), Projection: mm(6)}, {Kind: profile.KindFillet, Height: mm(20)}, {Kind: profile.KindChamfer, Height: mm(6), Projection: mm(-6)},
	}}
}

// What runs out at foot and top leaves no face for a board to stay along: it stays a stick, and says why.
func TestRunningOutStaysAStick(t *testing.T) {
	r, p := planned(t, pieceOf(t, chamferedStrip()), metricSet(), Options{Effort: Quick})
	holds(t, p, replay.Options{})
	require.True(t, r.Blank.RunsOut)
	require.Zero(t, r.Blank.Board)
	for _, other := range []profile.Profile{astragalStrip(), flatCasing(), thickEdge()} {
		require.False(t, pieceOf(t, other).RunsOut(), other.Name)
	}
}

// A section too thin to be a loose stick is molded on the edge of a board, none of its fences but the last on the board's other edge, and ripped off
// last; the replay flags a rip that comes too early, is left out, or leaves the molding between blade and fence.
func TestThinSectionOnABoard(t *testing.T) {
	for _, c := range []struct {
		profile profile.Profile
		off     Face
	}{{astragalStrip(), Back}, {flatCasing(), Top}} {
		t.Run(c.profile.Name, func(t *testing.T) {
			r, p := planned(t, pieceOf(t, c.profile), metricSet(), Options{})
			holds(t, p, replay.Options{})
			breaks(t, p)
			last := len(r.Setups) - 1
			for i, u := range r.Setups {
				require.Equal(t, i == last, u.Rips, "set-up %d", i+1)
				require.Equal(t, i == last, u.AgainstFence == c.off, "set-up %d bears on the %s", i+1, u.AgainstFence)
				m := u.Transform
				require.Equal(t, m[0]*m[3]-m[1]*m[2] > 0, u.EndForEnd, "set-up %d: the end that leads goes with the way it lies", i+1)
			}
			require.Greater(t, r.Blank.Board, 50.0)
			require.InDelta(t, boardWidth, r.Blank.Width, 1e-6)
			require.Greater(t, r.Setups[last].OnTableWidth, 90.0, "wide on the table to the last")

			early := p
			early.Setups = append([]replay.Setup{p.Setups[last]}, p.Setups[:last]...)
			require.True(t, flags(early, "rip", 1))
			turned := p
			turned.Setups = slices.Clone(p.Setups)
			m := &turned.Setups[last].Transform
			m[4], m[5] = m[4]+m[0]*r.Blank.Width, m[5]+m[1]*r.Blank.Width
			m[0], m[1] = -m[0], -m[1]
			require.True(t, flags(turned, "trapped", last+1))
		})
	}
	r, p := planned(t, pieceOf(t, thickEdge()), metricSet(), Options{Effort: Quick})
	holds(t, p, replay.Options{})
	require.Zero(t, r.Blank.Board)
	require.False(t, slices.ContainsFunc(r.Setups, func(u Setup) bool { return u.Rips }))
	r, _ = planned(t, pieceOf(t, astragalStrip()), metricSet(), Options{Effort: Quick, Works: []Work{Plane}})
	require.Zero(t, r.Blank.Board, "no saw at hand")
}

// flags reports whether a replay finds a fault of a kind in a step.
func flags(p replay.Plan, kind string, step int) bool {
	return slices.ContainsFunc(replay.Replay(p, replay.Options{Cell: 0.1}).Faults, func(f replay.Fault) bool { return f.Kind == kind && f.Step == step })
}
