package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestWrongFiles runs check on every wrong file of the library's tests: each ends with exit code 3 and says what its text file
// holds, with nothing on standard output.
func TestWrongFiles(t *testing.T) {
	files, err := filepath.Glob("../../library/testdata/wrong/*.yaml")
	require.NoError(t, err)
	require.Greater(t, len(files), 20)
	for _, file := range files {
		want, err := os.ReadFile(strings.TrimSuffix(file, ".yaml") + ".txt")
		require.NoError(t, err)
		command := "check"
		if strings.HasSuffix(file, "wrong-kind.yaml") {
			command = "section" // the file is a good case: wrong only where a profile is asked for
		}
		r := listel(t, "", command, file)
		require.Equal(t, exitFile, r.code, "%s: %s%s", file, r.out, r.err)
		require.Empty(t, r.out, file)
		for _, line := range strings.Split(strings.TrimSpace(string(want)), "\n") {
			line = strings.TrimPrefix(line, filepath.Base(file)+", ")
			line = strings.ReplaceAll(line, "file testdata/", "file ../../library/testdata/") // as seen from here
			require.Contains(t, r.err, line, file)
		}
	}
}
