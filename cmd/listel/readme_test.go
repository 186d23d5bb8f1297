package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestReadmeCommands runs every line of the README that is a listel command, in order, in an empty folder.
func TestReadmeCommands(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	user := filepath.Join(t.TempDir(), "listel")
	ran := 0
	for _, line := range strings.Split(string(text), "\n") {
		command, is := strings.CutPrefix(line, "    listel ")
		if !is {
			continue
		}
		ran++
		r := listel(t, user, strings.Fields(command)...)
		require.Equal(t, exitDone, r.code, "%s: %s", command, r.err)
	}
	require.Greater(t, ran, 8)
}

// readmePictures are the pictures of the README: which sheet of which command each is.
var readmePictures = []struct {
	file  string
	args  []string
	sheet string
}{
	{"cover.svg", []string{"packet", "--no-setups", "--format", "svg", "--out", "p.svg"}, "p-01.svg"},
	{"section.svg", []string{"section", "press-cornice", "--out", "s.svg"}, "s.svg"},
	{"gallery.svg", []string{"library", "gallery", "waist", "--out", "g.svg"}, "g.svg"},
	{"overlay.svg", []string{"trace", "my-plate.yaml", "--overlay", "o.svg"}, "o-01.svg"},
}

// TestReadmePictures holds that the README's pictures are what the commands draw. UPDATE_GOLDEN=1 draws them anew.
func TestReadmePictures(t *testing.T) {
	folder, err := filepath.Abs("../../testdata/readme")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	require.Equal(t, exitDone, listel(t, "", "new", "trace", "my-plate").code)
	for _, p := range readmePictures {
		r := listel(t, "", p.args...)
		require.Equal(t, exitDone, r.code, r.err)
		got, err := os.ReadFile(p.sheet)
		require.NoError(t, err)
		golden := filepath.Join(folder, p.file)
		if os.Getenv("UPDATE_GOLDEN") != "" {
			require.NoError(t, os.MkdirAll(folder, 0o777))
			require.NoError(t, os.WriteFile(golden, got, 0o666))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		require.True(t, bytes.Equal(want, got), "%s is not what %v draws; UPDATE_GOLDEN=1 draws it anew", golden, p.args)
	}
}
