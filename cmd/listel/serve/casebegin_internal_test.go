package serve

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// plainCases are cases without drawers or stock, in both units.
var plainCases = map[string]string{
	"in": "kind: case\nname: box\nunits: in\nstages:\n  - {name: body, plan: {width: 36, depth: 16}, height: 48}\nwood: black cherry\nmoldings:\n" +
		"  - {name: base, on: body, profile: press-base, at: 0, ends: wall}\n  - {name: cornice, on: body, profile: press-cornice, at: 45 1/2, ends: wall}\n",
	"mm": "kind: case\nname: box\nunits: mm\nplan: {width: 900, depth: 400}\nheight: 1200\nwood: black cherry\nmoldings:\n" +
		"  - {name: base, profile: press-base, at: 0, ends: wall}\n",
}

// Drawers and wood are added to a case that has none, and it fits at once; the rows are typed as a number; the second board stands beside the first.
func TestCaseBegins(t *testing.T) {
	s := serving(t)
	for units, text := range plainCases {
		q := caseRequest{Name: "box.yaml", Text: text, Stock: true}
		set := func(path, value string) caseAnswer {
			q.Change = &caseChange{Path: path, Value: value}
			a := askCase(t, s, q)
			require.True(t, a.OK, "%s: %s %s: %v\n%s", units, path, value, a.Mistakes, a.Text)
			q.Text = a.Text
			return a
		}
		require.Equal(t, map[string]string{"openings": "Add drawers", "stock": "Add a board"}, begins(askCase(t, s, q)))
		a := set("openings", begun)
		require.Len(t, a.Drawers, 4, "40 in in rows of about 8 are 5, and 4 the most")
		require.Equal(t, map[string]string{"stock": "Add a board"}, begins(a))
		require.Equal(t, "4", fieldAt(a, "openings.graduate.rows").Text)
		require.Len(t, set("openings.graduate.rows", "3").Drawers, 3)
		var err error
		q.Text, err = caseChange{Path: "openings.graduate"}.applied(q.Text)
		require.NoError(t, err)
		require.Len(t, set("openings.graduate.rows", "2").Drawers, 2, "rows alone begin with a ratio")

		a = set("stock", begun)
		require.Contains(t, fieldAt(a, "stock[0].wood").Text, "black cherry")
		thin := len(set("stock[0].thickness", "10mm").Notes)
		require.Greater(t, thin, len(a.Notes), "one that is too thin is told")
		a = set("stock", begun)
		require.NotNil(t, fieldAt(a, "stock[1].length"))
		set("stock[1].have", "2")
	}
	q := caseRequest{Name: "box.yaml", Text: "kind: case\nname: box\nunits: in\nplan: {width: 36, depth: 16}\nheight: high\n"}
	q.Change = &caseChange{Path: "openings", Value: begun}
	_, err := q.Change.applied(q.Text)
	require.ErrorContains(t, err, "needs a height first")
}

// begins returns what a case can be given that it has none of.
func begins(a caseAnswer) map[string]string {
	out := map[string]string{}
	for _, g := range a.Fields {
		if g.Begin != "" {
			out[g.Begin] = g.Words
		}
	}
	return out
}

// fieldAt returns the field of a key, nil when there is none.
func fieldAt(a caseAnswer, path string) *caseField {
	for _, g := range a.Fields {
		for _, f := range g.Fields {
			if f.Path == path {
				return &f
			}
		}
	}
	return nil
}
