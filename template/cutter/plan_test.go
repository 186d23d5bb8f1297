package cutter

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/template/cutter/replay"
)

func pieceOf(t testing.TB, p profile.Profile) Piece {
	t.Helper()
	s, err := p.Section(nil)
	require.NoError(t, err)
	return FromSection(s)
}

// filletCoveOvolo is 30 mm high and projects 22 mm: invented, of stock radii.
func filletCoveOvolo() profile.Profile {
	mm := profile.MM
	return profile.Profile{Name: "fillet-cove-ovolo", Ground: mm(5), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: mm(6)},
		{Kind: profile.KindCove, Height: mm(8)},
		{Kind: profile.KindFillet, Height: mm(3), Set: mm(1)},
		{Kind: profile.KindOvolo, Height: mm(8)},
		{Kind: profile.KindFillet, Height: mm(5)},
	}}
}

func show(t testing.TB, r Result) {
	for _, s := range r.Setups {
		t.Logf("%d %-16s table %-6s fence %-6s efe=%v tilt %5.1f fence %6.2f far %6.2f height %6.2f passes %d removed %6.1f cleans %v frees %v bc %v  %s", s.N, s.Tool, s.OnTable, s.AgainstFence, s.EndForEnd, s.Tilt, s.Fence, s.Far, s.Height, s.Passes, s.Removed, s.Cleans, s.Frees, s.BottomContact, s.Warning)
	}
	for _, f := range r.Faces {
		if f.Clean < 1 {
			t.Logf("   face element %d %s r %.2f clean %.3f", f.Element, f.Kind, f.Radius, f.Clean)
		}
	}
	t.Logf("%s: %d set-ups, bound %d, proven %v, stopped %v, left %+v unreached %v, candidates %d", r.Profile, len(r.Setups), r.LowerBound, r.Proven, r.Stopped, r.Left, r.Unreached, r.Candidates)
}

func TestPlanOfTheFilletCoveOvolo(t *testing.T) {
	start := time.Now()
	r, err := Plan(context.Background(), pieceOf(t, filletCoveOvolo()), metricSet(), Options{})
	require.NoError(t, err)
	show(t, r)
	t.Log(time.Since(start))
}

func TestAdviceForAnUnmatchedCyma(t *testing.T) {
	r, err := Plan(context.Background(), pieceOf(t, unmatchedCornice()), metricSet(), Options{})
	require.NoError(t, err)
	for _, a := range r.Advice {
		t.Log(a)
	}
}

func TestHandPlan(t *testing.T) {
	for _, p := range []profile.Profile{filletCoveOvolo(), matchedCornice()} {
		start := time.Now()
		r, q := planned(t, pieceOf(t, p), metricSet(), Options{Works: []Work{Plane}})
		show(t, r)
		t.Log(time.Since(start))
		holds(t, q, replay.Options{})
		for _, a := range r.Advice {
			t.Log(a)
		}
	}
}
