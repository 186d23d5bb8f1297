package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/measure"
	"listel/template"
)

// The gaps between dentils are told of after the set-ups: open from below where what is above stands out, through where nothing does, by hand where
// both do; common practice, no source. The depth and the ground are worked by hand from the sizes.
func TestGapsBetweenDentils(t *testing.T) {
	mm := profile.MM
	build := func(below, above float64) string {
		elements := []profile.Entry{{Kind: profile.KindFillet, Height: mm(6)}}
		if below != 0 {
			elements = append(elements, profile.Entry{Kind: profile.KindFillet, Height: mm(4), Set: mm(below)})
		}
		elements = append(elements, profile.Entry{Kind: profile.KindDentils, Height: mm(10), Set: mm(8 - below), Block: mm(9), Gap: mm(5), Depth: mm(6)})
		if above != 0 {
			elements = append(elements, profile.Entry{Kind: profile.KindFillet, Height: mm(5), Set: mm(above)})
		}
		s, err := profile.Profile{Name: "dentils", Ground: mm(12), Elements: elements}.Section(nil)
		require.NoError(t, err)
		return strings.Join(template.BetweenDentils(s, measure.Format{}), " ")
	}
	open := build(0, 3)
	require.Contains(t, open, "6.0 mm deep, which leaves the ground 14.0 mm from the back, between 6.0 mm and 16.0 mm from the foot")
	require.Contains(t, open, "open from below")
	require.Contains(t, open, "stop at 16.0 mm")
	require.Contains(t, build(0, 0), "crosscut them on the saw")
	require.Contains(t, build(6, 3), "in the way of a saw")
	require.Contains(t, open, "Blocks are 9.0 mm wide, gaps about 5.0 mm")
	_, plain := libraryProfile(t, "press-waist", 1)
	require.Empty(t, template.BetweenDentils(plain, measure.Format{}))
	require.Contains(t, pageWords(template.SetupSheets(planOf(t, "dentil-strip"), style(t, "Letter", measure.Inches))), "the gaps of member 2")
}
