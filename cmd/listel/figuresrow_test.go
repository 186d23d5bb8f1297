package main

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A figure whose benchmark did not run is not one that is met.
func TestFigureNotTaken(t *testing.T) {
	var b bytes.Buffer
	f := figures{out: &b}
	show := func(took time.Duration, name string) string { return millis(took) + " " + name }
	ran := map[string]map[string]float64{"BenchmarkA": {"ns/op": 1e6}, "BenchmarkB": {"ns/op": 2.5e6}}
	f.slowestRow("a", "3 ms", ran, 3*time.Millisecond, show)
	f.slowestRow("b", "2 ms", ran, 2*time.Millisecond, show)
	f.slowestRow("c", "2 ms", nil, 2*time.Millisecond, show)
	f.slowestRow("d", "2 ms", map[string]map[string]float64{"BenchmarkA": {"MB": 1}}, 2*time.Millisecond, show)
	f.rightRow("e", "all", 19, 20)
	f.rightRow("f", "all", 18, 20)
	f.rightRow("g", "all", 0, 0)
	require.Equal(t, `| a | 3 ms | 2.5 ms BenchmarkB | yes |
| b | 2 ms | 2.5 ms BenchmarkB | no |
| c | 2 ms | the benchmark did not run | not taken |
| d | 2 ms | the benchmark did not run | not taken |
| e | all | 19 of 20 | yes |
| f | all | 18 of 20 | no |
| g | all | the benchmark did not run | not taken |
`, b.String())
}

// The rows of the page's weight name the tests that hold them: those of the table in DEVELOPERS.md, whose limits are the ones asked, and whose words are theirs.
func TestPageWeightsAreHeld(t *testing.T) {
	var sources, limits []string
	for _, file := range []string{"serve/files_test.go", "serve/page_internal_test.go"} {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		sources = append(sources, string(data))
	}
	source := strings.Join(sources, "\n")
	source = strings.ReplaceAll(source, "maxPage)", regexp.MustCompile(`const maxPage = (\S+)`).FindStringSubmatch(source)[1]+")")
	words := []string{}
	for _, p := range pageWeights {
		_, body, found := strings.Cut(source, "\nfunc "+p.test+"(t *testing.T) {\n")
		require.True(t, found, p.test)
		body, _, _ = strings.Cut(body, "\n}\n")
		limit := strings.TrimSuffix(p.asked, " kB")
		require.Regexp(t, `require\.Less\(t, (sum|size), `+limit+`_000\)`, body, p.test)
		require.Equal(t, strings.Contains(p.what, "gzip"), strings.Contains(body, `"gzip"`), p.test)
		words, limits = append(words, p.what+" (`"+p.test+"`)"), append(limits, p.asked)
	}
	asked := strings.Join(limits, "; ")
	if limits[0] == limits[1] {
		asked = limits[0] + " both"
	}
	table, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	require.Contains(t, string(table), "| `serve`: the whole page, "+strings.Join(words, "; ")+" | "+asked+" |")
}
