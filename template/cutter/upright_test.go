package cutter_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
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
