package library_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

func names(found []library.Match) []string {
	var out []string
	for _, m := range found {
		out = append(out, m.Name)
	}
	return out
}

// TestFindByMembers: words for members are met in order from the foot; those next to one another come first.
func TestFindByMembers(t *testing.T) {
	l := library.Open("", "")
	found := l.Find([]string{"cove", "fillet"})
	require.Contains(t, names(found), "press-cornice")
	require.Contains(t, names(found), "cove-mold")
	require.True(t, slices.IsSortedFunc(found, func(a, b library.Match) int {
		switch {
		case a.Exact == b.Exact:
			return 0
		case a.Exact:
			return -1
		}
		return 1
	}))
	// The cyma of the press's cornice stands over its cove, with a fillet between: met in order, but not the other way round.
	require.Contains(t, names(l.Find([]string{"cove", "cyma-recta"})), "press-cornice")
	require.NotContains(t, names(l.Find([]string{"cyma-recta", "cove"})), "press-cornice")
	for _, m := range l.Find([]string{"cove", "cyma-recta"}) {
		require.False(t, m.Exact, "%s: a fillet or more stands between", m.Name)
	}
}

func TestFindByOtherWords(t *testing.T) {
	l := library.Open("", "")
	require.Equal(t, []string{"crown-cove-and-cyma", "double-ogee-crown", "press-cornice"}, names(l.Find([]string{"sprung"})))
	require.ElementsMatch(t, []string{"waist-cove", "press-waist"}, names(l.Find([]string{"waist", "rabbet", "hollow"})))
	require.Contains(t, names(l.Find([]string{"vitruvius"})), "attic-base")
	require.Contains(t, names(l.Find([]string{"bases", "ogee"})), "ogee-base")
	require.Empty(t, l.Find([]string{"zeppelin"}))
	require.Len(t, l.Find(nil), len(l.List(library.KindProfile)))
}

// TestShownIsInOrder: by family, the tallest first.
func TestShownIsInOrder(t *testing.T) {
	l := library.Open("", "")
	shown := l.Shown(l.Find(nil))
	require.Len(t, shown, len(l.List(library.KindProfile)))
	require.Equal(t, "cornice", shown[0].Family)
	require.Equal(t, "member", shown[len(shown)-1].Family)
	for i := 1; i < len(shown); i++ {
		if shown[i].Family == shown[i-1].Family {
			require.LessOrEqual(t, shown[i].Section.Height, shown[i-1].Section.Height+1e-6)
		}
	}
}

// Every entry of every kind says where it is from, and where it was found.
func TestEveryEntryHasASource(t *testing.T) {
	l := library.Open("", "")
	for _, k := range library.Kinds() {
		list := l.List(k)
		require.NotEmpty(t, list, k)
		seen := map[string]bool{}
		for _, e := range list {
			require.Empty(t, e.Fault, e.Name)
			require.NotEmpty(t, e.Source, "%s %s", k, e.Name)
			require.NotEmpty(t, e.Title, "%s %s", k, e.Name)
			require.NotEmpty(t, e.Origin.Where, "%s %s", k, e.Name)
			require.False(t, seen[e.Name], "%s %s", k, e.Name)
			seen[e.Name] = true
		}
	}
}

// A list of one's own is told as the place that was used.
func TestOwnLumberIsTold(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "yard.yaml", "kind: lumber\nsource: the yard's list\nthicknesses: [{name: 4/4, rough: 26mm}]\n")
	list := library.Open("", dir).List(library.KindLumber)
	require.Len(t, list, 1)
	require.Equal(t, library.User, list[0].Origin.Where)
}
