package serve

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is saved comes to its place within the call that the command gave for it.
func TestSavedWithinWrite(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.yaml")
	calls := 0
	s, err := New(Options{Folder: dir, Write: func(put func() error) error {
		calls++
		require.NoFileExists(t, path)
		defer func() { require.FileExists(t, path) }()
		return put()
	}})
	require.NoError(t, err)
	t.Cleanup(s.Close)
	_, err = s.folder.write("mine.yaml", "kind: profile\n", "")
	require.NoError(t, err)
	require.Equal(t, 1, calls)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "kind: profile\n", string(text))
}
