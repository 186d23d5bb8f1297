package serve

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"
)

// The whole page is less than 300 kB before it is packed too: what a browser has to read. As it is sent it is measured over the network.
func TestPageIsSmall(t *testing.T) {
	names, err := fs.ReadDir(assets, "page")
	require.NoError(t, err)
	size := 0
	for _, n := range names {
		data, err := asset(n.Name())
		require.NoError(t, err)
		size += len(data)
	}
	t.Logf("the page is %d bytes before it is packed", size)
	require.Less(t, size, 300_000)
	require.Greater(t, size, 100_000)
}

// A browser takes gzip when it names it, or all codings, with a weight over nothing; the cases follow RFC 9110, sections 12.4.2 and 12.5.3.
func TestTakesGzip(t *testing.T) {
	for line, want := range map[string]bool{
		"": false, "gzip": true, "gzip, deflate, br, zstd": true, "br;q=1.0, GZIP;q=0.8": true, "gzip;q=0": false, "gzip; q=0.000, br": false,
		"*": true, "*;q=0": false, "*, gzip;q=0": false, "gzip;q=0, *": false, "*;q=0, gzip": true, "identity": false, "gzipped": false, "gzip;q=much": false,
	} {
		require.Equal(t, want, takesGzip([]string{line}), line)
	}
	require.True(t, takesGzip([]string{"br", "gzip"}))
	require.False(t, takesGzip(nil))
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
