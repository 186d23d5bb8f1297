package serve

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/require"
)

// twoCurves returns a profile of two curves between fillets.
func twoCurves(lower, upper string) string {
	return `kind: profile
name: bent-twice
units: mm
ground: 10
elements:
  - fillet: {height: 5}
  - curve: ` + lower + `
  - curve: ` + upper + `
  - fillet: {height: 5}
`
}

// Two curves that bend opposite ways and meet with a kink of a degree or two are made the cyma that they nearly are, from where the lower began to where the
// upper ended; members that are none of a cyma are not.
func TestJoinToCyma(t *testing.T) {
	s := serving(t)
	// A cyma recta as a plate may give it: two quarter turns drawn by eye, which meet with a kink.
	bentTwice := twoCurves("{points: [{x: 10, y: 10, through: [7.3, 2.7]}]} # the round", "{points: [{x: 10, y: 10, through: [3.1, 7.2]}]}")
	v, err := s.section(sectionRequest{Text: bentTwice})
	require.NoError(t, err)
	require.Empty(t, v.Mistakes)
	require.Equal(t, []bool{false, true, false, false}, []bool{v.Members[0].Joins, v.Members[1].Joins, v.Members[2].Joins, v.Members[3].Joins})
	a := edit(t, s, bentTwice, change{Op: "join", At: 1})
	require.Empty(t, a.Section.Mistakes)
	require.Contains(t, a.Text, "  - cyma-recta: {height: 20, projection: 20, curve: bold} # the round\n  - fillet: {height: 5}\n")
	require.Regexp(t, `^The two are one cyma recta, nowhere farther than 0\.\d mm from what they were\.$`, a.Told)
	require.Equal(t, v.Height, a.Section.Height)
	require.Equal(t, v.Projection, a.Section.Projection)
	require.Equal(t, 1, *a.Selected)
	for _, at := range []int{-1, 0, 2, 3} {
		w := asked(t, s.postEdit, "/api/edit", map[string]any{"text": bentTwice, "change": change{Op: "join", At: at}})
		require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	}
}

// Two arcs of 13 mm that meet smoothly and stand plumb at their ends, 16 mm apart in 24, are by pencil the cyma of that radius: (24² + 16²) / (4 · 16) = 13. No usual
// construction is as near.
func TestJoinToCymaOfRadius(t *testing.T) {
	text := twoCurves("{points: [{x: 8, y: 12, through: [2.203, 7.211]}]}", "{points: [{x: 8, y: 12, through: [5.797, 4.789]}]}")
	a := edit(t, serving(t), text, change{Op: "join", At: 1})
	require.Empty(t, a.Section.Mistakes)
	require.Regexp(t, `cyma-reversa: \{height: 24, projection: 16, radius: 13(\.0\d*)?\}`, a.Text)
}
