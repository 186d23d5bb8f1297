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

// TestAllAtOnce: what the file itself shows to be wrong and names that nothing has are told in one round.
func TestAllAtOnce(t *testing.T) {
	file := filepath.Join(t.TempDir(), "press.yaml")
	require.NoError(t, os.WriteFile(file, []byte(`kind: case
plan: {width: 40, depth: 18, bow: 2}
height: 30
corners: {front-left: 180, frnt-right: 89}
wood: unobtainium
moldings:
  - {profile: no-such-profile, at: 28, serpentine: true}
units: in
`), 0o666))
	r := listel(t, "", "check", file)
	require.Equal(t, exitFile, r.code)
	for _, want := range []string{"line 2: bowed fronts are not built yet", "line 4: front-left of corners is 180; it must be more than 0 and less than 360 degrees, and not 180",
		`line 4: no stage has a corner named "frnt-right"; front-right?`, "line 5: no wood", "line 7: no profile", "line 7: serpentine fronts are not built yet"} {
		require.Contains(t, r.err, want)
	}
	require.Len(t, strings.Split(strings.TrimSpace(r.err), "\n"), 6, r.err)
}

// TestCheckTellsWhatIsOdd: notes are told and count for nothing.
func TestCheckTellsWhatIsOdd(t *testing.T) {
	file := filepath.Join(t.TempDir(), "press.yaml")
	require.NoError(t, os.WriteFile(file, []byte("kind: case\nunits: in\nplan: {width: 40, depth: 18}\nheight: 30\nroom: {humidity: [30, 65]}\n"), 0o666))
	r := listel(t, "", "check", file)
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "note: the case tells its room and no wood")
}

// A wood that is neither the case's nor in the library is a note with the wood that may have been meant; black cherry is in the library, and white oak the case's.
func TestCheckTellsOfStrangeWoods(t *testing.T) {
	file := filepath.Join(t.TempDir(), "press.yaml")
	require.NoError(t, os.WriteFile(file, []byte(`kind: case
units: in
plan: {width: 40, depth: 18}
height: 30
wood: White Oak
moldings:
  - {name: base, profile: press-base, at: 0, runs: [left, front, right], ends: wall}
stock:
  - {wood: white  oak, thickness: 8/4, width: 6, length: 8ft, price: 54}
  - {wood: wite oak, thickness: 8/4, width: 6, length: 8ft, price: 54}
  - {wood: zebra plank, thickness: 8/4, width: 6, length: 8ft, price: 54}
  - {wood: black cherry, thickness: 8/4, width: 6, length: 8ft, price: 54}
`), 0o666))
	r := listel(t, "", "check", file)
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, `"wite oak" is neither the wood of the case, White Oak, nor in the library, and nothing is cut from it; White Oak?`)
	require.Contains(t, r.out, `"zebra plank" is neither`)
	require.NotContains(t, r.out, "cherry")
	require.NotContains(t, r.out, "white  oak")
}
