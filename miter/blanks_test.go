package miter_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/profile"
)

// A sprung molding's strip is as its blank is said to be: flat along the leaning back, or upright, as high and thick as the section itself; pieces of
// one section stay pieces of one section.
func TestBuyFollowsTheBlank(t *testing.T) {
	l := library.Open("", "")
	s, err := l.SectionOf("press-cornice")
	require.NoError(t, err)
	require.InDelta(t, s.Height*s.Projection, area(s.From(profile.BlankUpright)), 1e-6)
	for _, way := range []profile.BlankWay{profile.BlankEither, profile.BlankFlat, profile.BlankUpright} {
		p, err := bought(t, "herb-press", func(c *miter.Case) { c.Moldings[2].Blank = way })
		require.NoError(t, err)
		b, ok := p.Blank("press-cornice")
		require.True(t, ok)
		want := s.From(way).Blank()
		require.InDelta(t, want.Width, b.Width, 1e-9, way)
		require.InDelta(t, want.Thickness, b.Thickness, 1e-9, way)
	}
	c, _, _, err := l.CaseSource("herb-press")
	require.NoError(t, err)
	r, err := miter.Fit(c, l.SectionOf, l.Wood)
	require.NoError(t, err)
	flat := r.FromBlanks(func(profile.Section) profile.BlankWay { return profile.BlankFlat })
	require.Equal(t, profile.BlankUpright, r.Moldings[2].Sections[0].Section.BlankWay, "the result itself stays")
	require.Equal(t, profile.BlankFlat, flat.Moldings[2].Sections[0].Section.BlankWay)
	first := flat.Moldings[2].Pieces[0].Section
	for _, q := range flat.Moldings[2].Pieces {
		require.Same(t, first, q.Section)
	}
	require.Equal(t, profile.BlankFlat, first.BlankWay)
	require.Empty(t, flat.Moldings[0].Sections[0].Section.BlankWay, "the base is not sprung")

	c.Moldings[0].Blank = profile.BlankUpright
	_, err = miter.Fit(c, l.SectionOf, l.Wood)
	require.ErrorContains(t, err, "moldings[0].blank: press-base is not sprung")
}

func area(s profile.Section) float64 { return s.Blank().Width * s.Blank().Thickness }
