package cutter

import (
	"context"
	"math"
	"testing"

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

// Of members that do not come clean the advice says how much does: reckoned here from the faces of the result, along the points that they are drawn by. The
// cyma's radius is in no set.
func TestAdviceNamesWhatIsLeftForTheScraper(t *testing.T) {
	r, err := Plan(context.Background(), pieceOf(t, unmatchedCornice()), metricSet(), Options{})
	require.NoError(t, err)
	clean, length := map[int]float64{}, map[int]float64{}
	for _, f := range r.Faces {
		for i := 1; i < len(f.Points); i++ {
			l := math.Hypot(f.Points[i][0]-f.Points[i-1][0], f.Points[i][1]-f.Points[i-1][1])
			clean[f.Element], length[f.Element] = clean[f.Element]+l*f.Clean, length[f.Element]+l
		}
	}
	told := map[int]float64{}
	for _, h := range r.Hints {
		if h.Kind == HintScraper {
			told[h.Element] = h.Clean
		}
	}
	require.Contains(t, told, 4, "the cyma")
	for element, l := range length {
		share, is := told[element]
		require.Equal(t, clean[element] < 0.95*l, is, "member %d", element)
		if is {
			require.InDelta(t, clean[element]/l, share, 1e-3, "member %d", element)
		}
	}
	require.Contains(t, r.Advice[0], "Member 4, cyma recta: ")
}

// By hand a plan takes planes alone, and holds.
func TestHandPlan(t *testing.T) {
	for _, p := range []profile.Profile{filletCoveOvolo(), matchedCornice()} {
		r, q := planned(t, pieceOf(t, p), metricSet(), Options{Works: []Work{Plane}})
		show(t, r)
		require.NotEmpty(t, r.Setups)
		for _, u := range r.Setups {
			require.Equal(t, Plane, u.Work, "%s, set-up %d", p.Name, u.N)
		}
		holds(t, q, replay.Options{})
	}
}
