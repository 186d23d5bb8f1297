package template_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/template/sheet"
)

// golden holds that a sheet is that of a file of testdata, byte for byte. UPDATE_GOLDEN=1 rewrites the file.
func golden(t *testing.T, name string, page sheet.Page) {
	t.Helper()
	var got bytes.Buffer
	require.NoError(t, sheet.WriteSVG(&got, page))
	path := filepath.Join("testdata", name)
	if os.Getenv("UPDATE_GOLDEN") != "" {
		require.NoError(t, os.WriteFile(path, got.Bytes(), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, bytes.Equal(want, got.Bytes()), "the sheet is no longer that of %s; look at it, then UPDATE_GOLDEN=1 rewrites it", path)
}
