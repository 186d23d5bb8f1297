package serve

import (
	"bytes"
	"compress/gzip"
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"
)

// The whole page as it is sent, whole and not packed, is under 300 KB.
func TestPageIsSmall(t *testing.T) {
	names, err := fs.ReadDir(assets, "page")
	require.NoError(t, err)
	size := 0
	var packed bytes.Buffer
	zip := gzip.NewWriter(&packed)
	for _, n := range names {
		data, err := asset(n.Name())
		require.NoError(t, err)
		size += len(data)
		_, err = zip.Write(data)
		require.NoError(t, err)
	}
	require.NoError(t, zip.Close())
	t.Logf("the page is %d bytes, which pack to %d", size, packed.Len())
	require.Less(t, size, 300_000)
}

// What is sent of a module is its lines but for those that are comment alone, each at its number.
func TestAssetWithoutComments(t *testing.T) {
	source, err := fs.ReadFile(assets, "page/doc.js")
	require.NoError(t, err)
	require.Contains(t, string(source), "// doc.js:")
	sent, err := asset("doc.js")
	require.NoError(t, err)
	require.NotContains(t, string(sent), "// doc.js:")
	require.Contains(t, string(sent), "export class Doc {")
	count := func(b []byte) (n int) {
		for _, c := range b {
			if c == '\n' {
				n++
			}
		}
		return n
	}
	require.Equal(t, count(source), count(sent))
	style, err := asset("style.css")
	require.NoError(t, err)
	require.NotContains(t, string(style), "/* The head */")
	require.Contains(t, string(style), "#head {")
}
