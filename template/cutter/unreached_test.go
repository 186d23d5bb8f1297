package cutter

import (
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/cutter/replay"
)

// A groove 1/4 in wide and 1 3/4 in deep in a block 2 1/2 by 2 1/4 in, and a bit that cuts 3/4 in: what stays is 1 in deep, by the plan and by its
// replay, and what lacks is reach. With that reach nothing stays.
func TestWhatStaysIsMeasuredAndWhatWouldTakeItDoes(t *testing.T) {
	const in = 25.4
	pts := []geom.Point{geom.Pt(0, 0), geom.Pt(2.5*in, 0), geom.Pt(2.5*in, in), geom.Pt(0.75*in, in), geom.Pt(0.75*in, 1.25*in), geom.Pt(2.5*in, 1.25*in), geom.Pt(2.5*in, 2.25*in), geom.Pt(0, 2.25*in)}
	piece := Piece{Name: "deep", Outline: geom.Polygon(pts...), Blank: [4]geom.Point{pts[0], pts[1], pts[6], pts[7]}}
	plan := func(tools ...Tool) (Result, replay.Report) {
		r, err := Plan(context.Background(), piece, tools, Options{})
		require.NoError(t, err)
		data, err := json.Marshal(r)
		require.NoError(t, err)
		report, err := replay.Verify(data, replay.Options{})
		require.NoError(t, err)
		require.Empty(t, report.Faults)
		return r, report
	}
	bit := Tool{Name: "straight bit", Kind: Straight, Diameter: in / 4, Length: 0.75 * in, Shank: in / 4, Reach: 50, PerPass: 5}
	r, report := plan(bit)
	require.Len(t, r.Unreached, 1)
	u := r.Unreached[0]
	require.InDelta(t, in, u.Deep, 0.15)
	require.InDelta(t, in, report.Stays, 0.15)
	require.InDelta(t, 1.75*in, u.Down, 0.05)
	require.Equal(t, Front, u.From)
	require.Equal(t, bit.Name, u.Tool)
	require.Contains(t, u.Words(inMM), "reach is what lacks: the straight bit would take it if it cut 44.4")

	bit.Length = u.Down + 0.5
	r, report = plan(bit)
	require.Empty(t, r.Unreached)
	require.Zero(t, report.Stays)

	// No bit of the set fits: the largest that does is named, and does.
	wide := Tool{Name: "wide", Kind: Straight, Diameter: in / 2, Reach: 50, PerPass: 5}
	short := Tool{Name: "short", Kind: RoundNose, Radius: in / 2, Reach: 50, PerPass: 5}
	s, err := newSearch(context.Background(), piece, []Tool{wide, short}, Options{})
	require.NoError(t, err)
	var group []geom.Point
	for y := in + 0.5; y < 1.25*in-0.4; y += fineStep {
		for x := 0.75*in + 0.5; x < 2.5*in; x += fineStep {
			group = append(group, geom.Pt(x, y))
		}
	}
	u = s.place(group, newBlock(s.t.blank))
	require.Empty(t, u.Tool)
	require.InDelta(t, in/4, u.Flat, 0.06)
	require.InDelta(t, 1.75*in, u.Deep, 0.1)
	r, _ = plan(Tool{Name: "named", Kind: Straight, Diameter: u.Flat, Reach: u.Down + 0.5, PerPass: 5})
	require.Empty(t, r.Unreached)
}

// A tool that the set has is no advice, nor what a cover without any more tools does as well.
func TestNoAdviceOfWhatIsAtHand(t *testing.T) {
	h := Hint{Kind: HintRadius, Tool: RoundOver, Radius: 6.35, Nearest: 6.35, Element: 2, Saved: 2, Tip: 4}
	require.Equal(t, "A round-over of 6.35 mm radius without a pilot, with a flat of 4.0 mm at its tip, for member 2 would save about 2 set-ups.", h.Words(inMM))
	h.Tip, h.Deep, h.Tool = 0, 50, RoundNose
	require.Contains(t, h.Words(inMM), "radius that cuts 50.0 mm deep for member 2")
	h.Nearest, h.Deep = 5, 0
	require.Contains(t, h.Words(inMM), "the set has 5.0 mm, where the radius may be changed")
}

// A finished plan is arranged to have no more to watch than before, with the same cuts.
func TestArrangedPlansAreNoWorse(t *testing.T) {
	for _, p := range []profile.Profile{filletCoveOvolo(), randomProfile(10), randomProfile(20)} {
		s, err := newSearch(context.Background(), pieceOf(t, p), metricSet(), Options{Effort: Quick})
		require.NoError(t, err)
		require.NoError(t, s.candidates())
		found, _, _, err := s.solve()
		require.NoError(t, err)
		o := s.newOrderer(found.picked)
		o.loose = true
		got := s.arrange(found)
		require.Equal(t, found.picked, got.picked)
		require.Len(t, got.order, len(found.order))
		require.LessOrEqual(t, got.violations, found.violations)
		if got.violations == found.violations {
			require.LessOrEqual(t, s.weigh(got, o), s.weigh(found, o)+1e-9)
		}
	}
}
