package library_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// A molding more stands at the end of the list, however that is written, and taken out again the text is the same.
func TestEntriesThereAndBack(t *testing.T) {
	const head, tail = "kind: case\nunits: in # inches\n", "\nshop: {kerf: 1/8} # the saw's\n"
	for name, c := range map[string]struct{ text, want string }{
		"dashes": {
			head + "moldings:\n  - name: base # the plinth\n    at: 0\n\n  # the frame\n  - name: waist\n    at: 30\n" + tail,
			head + "moldings:\n  - name: base # the plinth\n    at: 0\n\n  # the frame\n  - name: waist\n    at: 30\n  - {name: belt, at: 1 1/2}\n" + tail,
		},
		"brackets": {head + "moldings: [{name: base, at: 0}]\n" + tail, head + "moldings: [{name: base, at: 0}, {name: belt, at: 1 1/2}]\n" + tail},
		"none":     {head + "shop: {}\n", head + "shop: {}\nmoldings:\n  - {name: belt, at: 1 1/2}\n"},
		"empty":    {head + "moldings: []\n" + tail, head + "moldings: \n  - {name: belt, at: 1 1/2}\n" + tail},
	} {
		got, err := library.AppendEntry([]byte(c.text), "moldings", "name: belt, at: 1 1/2")
		require.NoError(t, err, name)
		require.Equal(t, c.want, string(got), name)
		keys, err := library.ReadKeyed(got)
		require.NoError(t, err)
		n := keys.Len("moldings")
		back, err := library.RemoveEntry(got, "moldings", n-1)
		require.NoError(t, err, name)
		if n > 1 {
			require.Equal(t, c.text, string(back), name)
		}
	}
	text := head + "moldings:\n  - name: base\n    at: 0\n\n  # the frame\n  - name: waist\n    at: 30\n" + tail
	got, err := library.RemoveEntry([]byte(text), "moldings", 1)
	require.NoError(t, err)
	require.Equal(t, strings.Replace(text, "\n\n  # the frame\n  - name: waist\n    at: 30\n", "\n", 1), string(got))
	_, err = library.RemoveEntry([]byte(text), "moldings", 2)
	require.ErrorContains(t, err, "there is no entry 3 in moldings")
	_, err = library.AppendEntry([]byte(text), "moldings", "name: a\nb: c")
	require.ErrorContains(t, err, "not one value on one line")
}
