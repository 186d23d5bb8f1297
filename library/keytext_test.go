package library_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

func TestKeyedText(t *testing.T) {
	k, err := library.ReadKeyed([]byte("\ufeff" + commented))
	require.NoError(t, err)
	for path, want := range map[string]string{
		"ground": "5/8", "name": "it's one", "title": `a "fine" one`, "elements[0].height": `2' 3-1/2"`, "elements[1].height": "5/8",
		"elements[2].drip": "{width: 1/8, depth: 1/8, inset: 1/8}", "elements[2].drip.inset": "1/8", "back": "{}",
	} {
		got, ok := k.Text(path)
		require.True(t, ok, path)
		require.Equal(t, want, got, path)
	}
	for _, path := range []string{"height", "elements[3]", "elements", "", "a[", "ground.x"} {
		_, ok := k.Text(path)
		require.False(t, ok, path)
	}
	require.Equal(t, 3, k.Len("elements"))
	require.Zero(t, k.Len("ground"))
	require.True(t, k.Has("elements[1]"))
}

func TestUnsetKey(t *testing.T) {
	for _, c := range []struct{ path, from, to string }{
		{"ground", "ground: 5/8\n", ""},
		{"name", "name: 'it''s one'\n", ""},
		{"kind", "kind: profile   # what it is\n", ""},
		{"elements[0].height", `{height: 2' 3-1/2", set: 1/8}`, "{set: 1/8}"},
		{"elements[0].set", `2' 3-1/2", set: 1/8}`, `2' 3-1/2"}`},
		{"elements[2].drip", "{height: 1, drip: {width: 1/8, depth: 1/8, inset: 1/8}}", "{height: 1}"},
		{"elements[2].drip.depth", "width: 1/8, depth: 1/8, inset", "width: 1/8, inset"},
		{"elements[2].nothing", "", ""},
		{"back", "back: {}\n", ""},
	} {
		for _, windows := range []bool{false, true} {
			text, want := commented, strings.Replace(commented, c.from, c.to, 1)
			if windows {
				text, want = "\ufeff"+strings.ReplaceAll(text, "\n", "\r\n"), "\ufeff"+strings.ReplaceAll(want, "\n", "\r\n")
			}
			got, err := library.UnsetKey([]byte(text), c.path)
			require.NoError(t, err, c.path)
			require.Equal(t, want, string(got), c.path)
		}
	}
	_, err := library.UnsetKey([]byte(commented), "elements[1].height")
	require.ErrorContains(t, err, "the only one of its group")
	got, err := library.UnsetKey([]byte("kind: case\nmoldings:\n  - name: base\n    at: 0\n"), "moldings[0].name")
	require.NoError(t, err)
	require.Equal(t, "kind: case\nmoldings:\n  - at: 0\n", string(got))
}

// Several keys set in one go read as they do when one is set after the other, whatever their order, new ones among them.
func TestSetSeveral(t *testing.T) {
	all := []library.KeyValue{{Path: "elements[2].drip.depth", Value: "1/4"}, {Path: "ground", Value: "3/4"}, {Path: "elements[0].height", Value: "rest"}, {Path: "elements[2].set", Value: "1/2"},
		{Path: "source", Value: "mine"}, {Path: "elements[2].drip.inset", Value: "1/16"}, {Path: "back.rabbet", Value: "{at: top}"}, {Path: "family", Value: "cornice"}}
	for _, text := range []string{commented, "\ufeff" + strings.ReplaceAll(commented, "\n", "\r\n")} {
		k, err := library.ReadKeyed([]byte(text))
		require.NoError(t, err)
		got, err := k.Set(all...)
		require.NoError(t, err)
		want := []byte(text)
		for _, kv := range all {
			want, err = library.SetKey(want, kv.Path, kv.Value)
			require.NoError(t, err)
		}
		require.Equal(t, string(want), string(got))
		got, err = k.Set()
		require.NoError(t, err)
		require.Equal(t, text, string(got))
		_, err = k.Set(library.KeyValue{Path: "ground", Value: "1"}, library.KeyValue{Path: "ground", Value: "2"})
		require.ErrorContains(t, err, "changed twice")
		_, err = k.Set(library.KeyValue{Path: "elements[2].drip", Value: "{width: 1}"}, library.KeyValue{Path: "elements[2].drip.depth", Value: "2"})
		require.ErrorContains(t, err, "changed twice")
	}
}
