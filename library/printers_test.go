package library_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

func TestPrintersAreRecorded(t *testing.T) {
	user := filepath.Join(t.TempDir(), "listel")
	all, err := library.Printers(user)
	require.NoError(t, err)
	require.Empty(t, all)

	require.NoError(t, library.RecordPrinter(user, library.Printer{Name: "shop 2", Across: 0.994, Up: 0.998}))
	require.NoError(t, library.RecordPrinter(user, library.Printer{Name: "home", Across: 1, Up: 1.0025}))
	require.NoError(t, library.RecordPrinter(user, library.Printer{Name: "home", Across: 1.001, Up: 1.0025}))
	all, err = library.Printers(user)
	require.Error(t, library.RecordPrinter(user, library.Printer{Name: "a/b", Across: 1, Up: 1}))
	require.NoError(t, err)
	require.Equal(t, []library.Printer{{"home", 1.001, 1.0025}, {"shop 2", 0.994, 0.998}}, all)
}

func TestPrintersFileWithMistakes(t *testing.T) {
	user := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(user, "printers.yaml"), []byte("kind: printers\nprinters:\n  - {name: x, across: 3, upp: 1}\n"), 0o666))
	_, err := library.Printers(user)
	var mistakes library.Mistakes
	require.ErrorAs(t, err, &mistakes)
	require.Len(t, mistakes, 2) // out of range; unknown, and near the missing one
}
