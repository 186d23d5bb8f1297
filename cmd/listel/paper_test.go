package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A size of paper of the user's own is drawn on by its name or its other names; the standard ones stay what they are.
func TestPaperOfOnesOwn(t *testing.T) {
	user := t.TempDir()
	t.Chdir(t.TempDir())
	text := "kind: papers\npapers:\n  - {name: bench roll, also: [roll], width: 300mm, height: 900mm, source: 'measured'}\n  - {name: A4, width: 100mm, height: 100mm, source: 'made up'}\n"
	require.NoError(t, os.WriteFile(filepath.Join(user, "papers.yaml"), []byte(text), 0o666))
	for name, want := range map[string][2]float64{"Bench Roll": {300, 900}, "roll": {300, 900}, "A4": {210, 297}} {
		r := listel(t, user, "template", "press-base", "--paper", name, "--json", "--force")
		require.Equal(t, exitDone, r.code, r.err)
		var got sheetsJSON
		require.NoError(t, json.Unmarshal([]byte(r.out), &got))
		require.Equal(t, want, [2]float64{got.Sheets[0].Width, got.Sheets[0].Height}, name)
	}
	r := listel(t, user, "template", "press-base", "--paper", "rolls")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "--paper: unknown paper \"rolls\"; roll?")
}
