package library_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

const commented = `# A cornice.

kind: profile   # what it is
name: 'it''s one'
title: "a \"fine\" one"   # with quotes

units: in
ground: 5/8
elements:   # from the foot

  - fillet: {height: 2' 3-1/2", set: 1/8}   # low
  # between
  - cove:
      height: 5/8  # high
  - corona: {height: 1, drip: {width: 1/8, depth: 1/8, inset: 1/8}}
back: {}
`

func TestSetKey(t *testing.T) {
	cases := []struct{ path, value, from, to string }{
		{"ground", "3/4", "ground: 5/8", "ground: 3/4"},
		{"name", "two", "name: 'it''s one'", "name: two"},
		{"title", "'b'", `title: "a \"fine\" one"   #`, "title: 'b'   #"},
		{"elements[0].height", "⅜", `{height: 2' 3-1/2", set`, `{height: ⅜, set`},
		{"elements[0].set", "0", `1/2", set: 1/8}`, `1/2", set: 0}`},
		{"elements[1].height", "1 1/8", "height: 5/8  # high", "height: 1 1/8  # high"},
		{"elements[1].curve", "arc", "height: 5/8  # high\n", "height: 5/8  # high\n      curve: arc\n"},
		{"elements[2].drip.inset", "1/4", "inset: 1/8}}", "inset: 1/4}}"},
		{"elements[2].set", "1/2", "inset: 1/8}}", "inset: 1/8}, set: 1/2}"},
		{"elements[2].drip", "{width: 1}", "drip: {width: 1/8, depth: 1/8, inset: 1/8}}", "drip: {width: 1}}"},
		{"height", "3", "back: {}\n", "back: {}\nheight: 3\n"},
		{"back.rabbet", "{at: top, width: 1/2, depth: 3/8}", "back: {}", "back: {rabbet: {at: top, width: 1/2, depth: 3/8}}"},
		{"elements[0]", "{height: 1}", `{height: 2' 3-1/2", set: 1/8}   #`, "{height: 1}   #"},
	}
	for _, c := range cases {
		require.Equal(t, 1, strings.Count(commented, c.from), c.from)
		for _, windows := range []bool{false, true} {
			text, want := commented, strings.Replace(commented, c.from, c.to, 1)
			if windows {
				text, want = "\ufeff"+strings.ReplaceAll(text, "\n", "\r\n"), "\ufeff"+strings.ReplaceAll(want, "\n", "\r\n")
			}
			got, err := library.SetKey([]byte(text), c.path, c.value)
			require.NoError(t, err, c.path)
			require.Equal(t, want, string(got), c.path)
		}
	}
}

func TestSetKeyRefuses(t *testing.T) {
	text := "a: |\n  two\n  lines\nb: one\n  more\nc: [1, 2]\nd: !!int 3\n"
	for _, c := range []struct{ path, value, want string }{
		{"a", "1", "a: it is written over several lines, or has a mark of its own; change it by hand"},
		{"b", "1", "b: it is written over several lines"},
		{"d", "1", "d: it is written over several lines, or has a mark"},
		{"c[2]", "1", "c[2]: there is no entry [2]"},
		{"c.x", "1", "c.x: there is no key x"},
		{"x.y", "1", "x.y: there is no key x"},
		{"c[1", "1", "is no path of a key"},
		{"", "1", "is no path of a key"},
		{"c", "1\n2", "is not one value on one line"},
		{"c", "1, 2", "is not one value on one line"},
		{"c", "", "is not one value on one line"},
		{"c", "1 # no", "is not one value on one line"},
		{"c", "}", "is not one value on one line"},
	} {
		_, err := library.SetKey([]byte(text), c.path, c.value)
		require.ErrorContains(t, err, c.want)
	}
	_, err := library.SetKey([]byte("a: [1"), "a", "1")
	require.ErrorAs(t, err, &library.Mistakes{})
}

// TestSetKeyEverywhere changes the height of every element of every embedded profile, and asks that it reads as the same profile but for
// that.
func TestSetKeyEverywhere(t *testing.T) {
	files, err := filepath.Glob("profiles/*.yaml")
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(1, 2))
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		p, _, err := library.LoadProfile(file, data)
		require.NoError(t, err)
		for i := range p.Elements {
			mm := 1 + r.IntN(50)
			got, err := library.SetKey(data, fmt.Sprintf("elements[%d].height", i), fmt.Sprintf("%dmm", mm))
			require.NoError(t, err)
			q, _, err := library.LoadProfile(file, got)
			require.NoError(t, err)
			require.Equal(t, float64(mm), q.Elements[i].Height.In(0))
			q.Elements[i].Height = p.Elements[i].Height
			require.Equal(t, p, q)
		}
	}
}

// FuzzSetKey: nothing panics, and what is changed still reads.
func FuzzSetKey(f *testing.F) {
	f.Add([]byte(commented), "elements[1].height", "1/2")
	f.Add([]byte("a: {b: [1, {c: d}]} # e\n"), "a.b[1].c", "x")
	f.Add([]byte("? a\n: b\n- c"), "a", "x")
	f.Add([]byte("a:\nb: *x\n"), "a", "x")
	f.Fuzz(func(t *testing.T, data []byte, path, value string) {
		got, err := library.SetKey(data, path, value)
		if err == nil {
			_, err = library.SetKey(got, path, value)
			_ = err // a second change may be refused, but must not panic
		}
	})
}

func ExampleSetKey() {
	text := []byte("kind: profile\nheight: 1 3/4 # as drawn\nunits: in\n")
	text, err := library.SetKey(text, "height", "2 1/8")
	fmt.Printf("%s%v\n", text, err)
	// Output:
	// kind: profile
	// height: 2 1/8 # as drawn
	// units: in
	// <nil>
}

// A text is written bare where that reads as itself, else in quotes; either way the file says just that.
func TestScalar(t *testing.T) {
	for text, want := range map[string]string{
		"3/4": "3/4", "2p": "2p", `1 1/8"`: `1 1/8"`, "12": "12", "a, b": "'a, b'", "x # y": "'x # y'", "it's": "it's", "'tis": "'''tis'", "a: b": "'a: b'",
		"x] #": "'x] #'", "~": "'~'", "{height: 1}": "'{height: 1}'", "": "''", "two\nlines": "two lines", "-": "'-'", "&a": "'&a'", "*a": "'*a'",
	} {
		require.Equal(t, want, library.Scalar(text), text)
		got, err := library.SetKey([]byte("a: {b: 1}\nc: 2\n"), "a.b", library.Scalar(text))
		require.NoError(t, err, text)
		k, err := library.ReadKeyed(got)
		require.NoError(t, err, text)
		said, ok := k.Text("a.b")
		require.True(t, ok)
		require.Equal(t, strings.ReplaceAll(text, "\n", " "), said)
		require.Contains(t, string(got), "}\nc: 2\n")
	}
}
