package cutter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/cutter"
	"listel/template/cutter/replay"
)

// A sprung molding is planned from the flat blank, unless only the plan from the upright one lets the work bear in every set-up and is no longer; what
// is said of its blank holds. Either way the plan tells of the other.
func TestSprungFromTheBetterBlank(t *testing.T) {
	lib := library.Open("", "")
	plan := func(name string, way profile.BlankWay) cutter.Result {
		s, err := lib.SectionOf(name)
		require.NoError(t, err)
		s = s.From(way)
		r, p := cutter.Planned(t, cutter.FromSection(s), cutter.InchSet(), cutter.Options{Effort: cutter.Quick})
		cutter.Holds(t, p, replay.Options{})
		made := s.From(r.Blank.Way).Blank()
		require.InDelta(t, made.Width*made.Thickness, r.Blank.Width*r.Blank.Thickness, 0.01, "the section tells the blank that the plan takes")
		return r
	}
	flat := plan("press-cornice", profile.BlankFlat)
	require.Equal(t, profile.BlankFlat, flat.Blank.Way)
	require.Positive(t, cutter.Unsafe(flat), "lying on its back it needs a carrier board")
	up := plan("press-cornice", profile.BlankUpright)
	require.Equal(t, profile.BlankUpright, up.Blank.Way)
	require.Zero(t, cutter.Unsafe(up))
	require.Empty(t, told(up), "it was asked for")

	free := plan("press-cornice", profile.BlankEither)
	require.Equal(t, up.Setups, free.Setups)
	require.LessOrEqual(t, len(free.Setups), len(flat.Setups))
	h := told(free)
	require.Len(t, h, 1)
	require.Equal(t, cutter.HintChosen, h[0].Kind)
	require.True(t, h[0].Strong())
	require.Equal(t, len(flat.Setups), h[0].Setups)
	require.InDelta(t, flat.Blank.Width, h[0].Width, 1e-3)
	way, _ := h[0].Other()
	require.Equal(t, profile.BlankFlat, way)

	safe := plan("crown-cove-and-cyma", profile.BlankEither)
	require.Zero(t, cutter.Unsafe(safe))
	require.Equal(t, profile.BlankFlat, safe.Blank.Way, "less wood, where it bears")
	require.Empty(t, plan("press-base", profile.BlankUpright).Blank.Way, "it is not sprung")
}

// told returns the hints that tell of another blank.
func told(r cutter.Result) []cutter.Hint {
	var out []cutter.Hint
	for _, h := range r.Hints {
		if _, ok := h.Other(); ok {
			out = append(out, h)
		}
	}
	return out
}

// From an upright blank the sloping back is sawn off last where that is as safe: until then the stick bears on square faces.
func TestTheSlopingBackIsSawnOffLast(t *testing.T) {
	s, err := library.Open("", "").SectionOf("press-cornice")
	require.NoError(t, err)
	s = s.From(profile.BlankUpright)
	r, _ := cutter.Planned(t, cutter.FromSection(s), cutter.InchSet(), cutter.Options{Effort: cutter.Quick})
	way := geom.Polar(1, 90*geom.Degree-s.Spring.Angle) // up along the back
	at := geom.Point{}
	for _, seg := range s.Outline { // beside the middle of the back
		if d := seg.End().Sub(seg.Start()); math.Abs(d.Unit().Cross(way)) < 1e-6 && d.Norm() > s.Height/3 {
			at = seg.At(0.5).Add(way.Left().Mul(0.5))
		}
	}
	for i, u := range r.Setups {
		require.Equal(t, i == len(r.Setups)-1, swept(u).Contains(at), "set-up %d of %d, %s", u.N, len(r.Setups), u.Tool)
	}
}

// swept returns what a set-up takes with its edge.
func swept(u cutter.Setup) geom.Path {
	var pts []geom.Point
	for _, q := range u.Silhouette {
		pts = append(pts, geom.Pt(q[0], q[1]))
	}
	return geom.Polygon(pts...)
}
