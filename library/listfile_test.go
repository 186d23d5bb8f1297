package library_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// Every kind of file that lists things can be checked, and what is wrong in it is told.
func TestCheckListed(t *testing.T) {
	folder := t.TempDir()
	l := library.Open(folder, "")
	for _, c := range []struct{ text, kind, wrong string }{
		{"kind: tools\nname: a\nunits: in\ntools:\n  - straight: {diameter: 1/4, length: 1, shank: 1/4}\n", "tools", ""},
		{"kind: tools\nname: a\nunits: in\ntools:\n  - straight: {diamter: 1/4, length: 1, shank: 1/4}\n", "tools", "diameter?"},
		{"kind: woods\nwoods:\n  - {name: pear}\n", "woods", ""},
		{"kind: printers\nprinters:\n  - {name: shop, across: 9, up: 1}\n", "printers", "across"},
		{"kind: profile\nname: a\n", "", ""},
	} {
		path := filepath.Join(folder, "file.yaml")
		require.NoError(t, os.WriteFile(path, []byte(c.text), 0o600))
		kind, err := l.CheckListed(path)
		require.Equal(t, c.kind, kind, c.text)
		if c.wrong == "" {
			require.NoError(t, err, c.text)
		} else {
			require.ErrorContains(t, err, c.wrong)
		}
	}
}

// A wood is known by a word of its name.
func TestWoodByAWord(t *testing.T) {
	_, _, err := library.Open("", "").WoodSource("cherrywood")
	require.ErrorContains(t, err, "black cherry")
}
