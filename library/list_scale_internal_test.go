package library

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A countingFS counts how often a file is opened.
type countingFS struct {
	fs.FS
	opened *int
}

// Open counts, and opens.
func (c countingFS) Open(name string) (fs.File, error) {
	*c.opened++
	return c.FS.Open(name)
}

// To list a library each of the user's files is read a few times, not once for every profile that comes with listel.
func TestListReadsEachFileAFewTimes(t *testing.T) {
	const n = 40
	dir := t.TempDir()
	for i := range n {
		text := fmt.Sprintf("kind: profile\nname: own-%d\nunits: mm\nground: 20\nelements:\n  - fillet: {height: 5}\n", i)
		require.NoError(t, os.WriteFile(filepath.Join(dir, fmt.Sprintf("file-%d.yaml", i)), []byte(text), 0o666)) // not called as the profile is
	}
	l := Open("", dir)
	opened := 0
	l.folders[0].fsys = countingFS{l.folders[0].fsys, &opened}
	var names []string
	for _, e := range l.List(KindProfile) {
		require.Empty(t, e.Fault)
		names = append(names, e.Name)
	}
	require.Contains(t, names, "own-39")
	require.Contains(t, names, "press-base")
	t.Log(opened)
	require.Less(t, opened, 10*n+3*len(names))
}
