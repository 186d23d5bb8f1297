package library_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// TestLimits: files made to be read for ever are told off within so many values read, mistakes and words.
func TestLimits(t *testing.T) {
	const head = "kind: profile\nunits: mm\nground: 1\nelements:\n"
	const most = 512 << 10
	repeat := func(s string) string { return strings.Repeat(s, most/len(s)) }
	numbered := func(format string) string {
		var b strings.Builder
		for i := 0; b.Len() < most-100; i++ {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	bomb := "kind: profile\nunits: mm\nground: 1\na0: &a0 [x, x, x, x, x, x, x, x, x, x]\n"
	for i := 1; i < 9; i++ {
		bomb += fmt.Sprintf("a%d: &a%d [%s]\n", i, i, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 10), ", "))
	}
	points := head + "  - curve: {points: &p [" + strings.TrimSuffix(strings.Repeat("{x: 1, y: 1}, ", 500), ", ") + "]}\n" + strings.Repeat("  - curve: {points: *p}\n", 499)
	cases := []struct{ name, text, want string }{
		{"too many bytes", strings.Repeat("#", library.MaxFileBytes+1), "the file is over 4 MiB"},
		{"too many elements", head + strings.Repeat("  - fillet: {height: 1}\n", 501), "elements has 501 entries; the limit is 500"},
		{"aliases of aliases", bomb + "elements: *a8\n", "unknown key"},
		{"points over and over", points, "the file refers to itself too often; at most 200000 values are read"},
		{"an anchor that holds itself", head + "  - &a {fillet: {height: 1, set: *a}}\n", "set of fillet is a group of keys"},
		{"unknown keys", "kind: profile\n" + numbered("k%d: 1\n"), "unknown key"},
		{"misspelled keys", "kind: profile\n" + numbered("heigh%d: 1\n"), "unknown key"},
		{"the same key", "kind: profile\n" + repeat("a: 1\n"), "given twice"},
		{"deep brackets", "kind: " + repeat("["), "too deep"},
		{"deep braces", "kind: " + repeat("{a: "), ""},
		{"deep lists", "kind:\n" + repeat("- "), ""},
		{"a long line", "kind: profile\ntitle: " + repeat("a "), "ground is missing"},
		{"broken at its end", "kind: profile\n" + numbered("k%d: 1\n") + "x: [1\n", ""},
		{"many breaks", repeat("a: b: c\n"), ""},
		{"corners", "kind: case\nplan: {width: 1m, depth: 1m}\nheight: 1m\ncorners:\n" + numbered("  k%d: 1\n"), "the limit is 200"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := library.LoadProfile("x.yaml", []byte(c.text))
			if strings.HasPrefix(c.text, "kind: case") {
				_, _, err = library.LoadCase("x.yaml", []byte(c.text))
			}
			var ms library.Mistakes
			require.ErrorAs(t, err, &ms)
			require.ErrorContains(t, err, c.want)
			require.LessOrEqual(t, len(ms), 100)
			require.Less(t, len(err.Error()), 100_000)
			t.Logf("%.200s", ms[0].Error())
		})
	}
}
