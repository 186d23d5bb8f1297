package serve

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// bent is a molding with a curve of an arc and a line; its sizes are invented.
const bent = `kind: profile
name: bent
units: in
ground: 1
elements:
  - fillet: {height: 1/4}
  - curve: {points: [{x: 3/8, y: 5/16, through: [1/4, 1/8]}, {x: 3/8, y: 1/2}]} # by hand
  - fillet: {height: 1/8}
`

// The points of a curve come with their sizes and places: the start stands at 1 in from the back and 1/4 in up, so that the second point, 3/8 out and
// 1/2 up from it, stands at 1 3/8 and 3/4 in, and the bend of the first arc at 1 1/4 and 3/8 in.
func TestPointsOfCurve(t *testing.T) {
	v, err := serving(t).section(sectionRequest{Name: "bent.yaml", Text: bent})
	require.NoError(t, err)
	require.True(t, v.OK, v.Mistakes)
	points := v.Members[1].Points
	require.Len(t, points, 2)
	require.InDeltaSlice(t, []float64{1.375 * 25.4, 0.75 * 25.4}, points[1].At[:], 1e-9)
	require.Nil(t, points[1].Via)
	require.Empty(t, points[1].Bend)
	require.InDeltaSlice(t, []float64{1.25 * 25.4, 0.375 * 25.4}, points[0].Via[:], 1e-9)
	require.Equal(t, "elements[1].points[0].through[1]", points[0].Bend[1].Path)
	require.Equal(t, "1/8", points[0].Bend[1].Text)
	require.Equal(t, "5/16 in", points[0].Sizes[1].Shown)
	require.Empty(t, v.Members[0].Points)
}

// Points are added halfway, taken out, led to in a line or an arc, typed and dragged; what is not touched stays as it is typed.
func TestPointChanges(t *testing.T) {
	s := serving(t)
	const first, second = "{x: 3/8, y: 5/16, through: [1/4, 1/8]}", "{x: 3/8, y: 1/2}"
	for _, c := range []struct {
		name string
		change
		want string // the points after it
	}{
		{"halfway along a line", change{Op: "point", At: 1, To: 1, Kind: "add"}, first + ", {x: 3/8, y: 13/32}, " + second},
		{"take the first out", change{Op: "point", At: 1, To: 0, Kind: "remove"}, second},
		{"straight to the first", change{Op: "point", At: 1, To: 0, Kind: "line"}, "{x: 3/8, y: 5/16}, " + second},
		// a chord of 3/16 in straight up: the bend stands out a quarter of it, 3/64 in, at its middle
		{"an arc to the second", change{Op: "point", At: 1, To: 1, Kind: "arc"}, first + ", {x: 3/8, y: 1/2, through: [27/64, 13/32]}"},
		{"typed", change{Op: "set", Path: "elements[1].points[1].x", Value: "7/16"}, first + ", {x: 7/16, y: 1/2}"},
		{"the bend typed", change{Op: "set", Path: "elements[1].points[0].through[0]", Value: "5/16"}, "{x: 3/8, y: 5/16, through: [5/16, 1/8]}, " + second},
		{"the last dragged", change{Op: "drag", At: 1, Corner: "point 2", X: 1.5*25.4 + 0.2, Y: 0.875*25.4 - 0.2, Snap: "1/16"}, first + ", {x: 1/2, y: 5/8}"},
		{"the bend dragged", change{Op: "drag", At: 1, Corner: "bend 1", X: 1.3125 * 25.4, Y: 0.375 * 25.4, Snap: "1/16"}, "{x: 3/8, y: 5/16, through: [5/16, 1/8]}, " + second},
		{"left where it is", change{Op: "drag", At: 1, Corner: "point 1", X: 1.375 * 25.4, Y: 0.5625 * 25.4, Snap: "1/16"}, first + ", " + second},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := edit(t, s, bent, c.change).Text
			require.Equal(t, strings.Replace(bent, first+", "+second, c.want, 1), text)
		})
	}
}

// What cannot be is refused, or told in the words of check.
func TestPointMistakes(t *testing.T) {
	s := serving(t)
	apart := strings.Replace(bent, "{points: [{x: 3/8, y: 5/16, through: [1/4, 1/8]}, {x: 3/8, y: 1/2}]} # by hand",
		"\n      points: # by hand\n        - {x: 3/8, y: 5/16}\n        - {x: 3/8, y: 1/2} # the top", 1)
	for _, c := range []struct {
		text  string
		words string
		change
	}{
		{bent, "the curve has no point 4", change{Op: "point", At: 1, To: 3, Kind: "add"}},
		{bent, "member 1 has no points", change{Op: "point", At: 0, Kind: "add"}},
		{bent, `nothing is known of a point that is to "bend"`, change{Op: "point", At: 1, Kind: "bend"}},
		{bent, "the curve has no point 3", change{Op: "drag", At: 1, Corner: "point 3"}},
		{bent, "a straight line leads to point 2", change{Op: "drag", At: 1, Corner: "bend 2"}},
		{strings.Replace(bent, ", {x: 3/8, y: 1/2}", "", 1), "it is the only point; take the member out instead", change{Op: "point", At: 1, Kind: "remove"}},
		{apart, errPoints.Error(), change{Op: "point", At: 1, Kind: "remove"}},
		{strings.Replace(bent, "y: 1/2", "y: 5/0", 1), errUndrawn.Error(), change{Op: "point", At: 1, Kind: "add"}},
	} {
		_, _, err := s.edited(sectionRequest{Name: "bent.yaml", Text: c.text}, c.change)
		require.EqualError(t, err, c.words)
	}
	// Sizes of points that stand over several lines are typed all the same, and their comments stay.
	text := edit(t, s, apart, change{Op: "set", Path: "elements[1].points[1].y", Value: "5/8"}).Text
	require.Equal(t, strings.Replace(apart, "y: 1/2} # the top", "y: 5/8} # the top", 1), text)

	v, err := s.section(sectionRequest{Name: "bent.yaml", Text: strings.Replace(bent, "y: 1/2", "y: -1/2", 1)})
	require.NoError(t, err)
	require.Len(t, v.Mistakes, 1)
	require.Equal(t, 1, v.Mistakes[0].Index)
	require.Contains(t, v.Mistakes[0].Text, "must lie above the start")
	require.Len(t, v.Members[1].Points, 2, "they can be typed still")
}

// A curve that becomes a member of another kind keeps the height and the run that its points came to, where they suit that kind.
func TestCurveMadeAMember(t *testing.T) {
	a := edit(t, serving(t), bent, change{Op: "kind", At: 1, Kind: "cyma-recta"})
	require.Empty(t, a.Section.Mistakes)
	require.Contains(t, a.Text, "  - cyma-recta: {height: 1/2, projection: 3/8} # by hand\n")
	a = edit(t, serving(t), bent, change{Op: "kind", At: 1, Kind: "fillet"})
	require.Contains(t, a.Text, "  - fillet: {height: 1/2} # by hand\n")
}
