package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"listel/library"
)

// oddValues are put in the place of a value: sizes at and past the ends of what can be, and what is none.
var oddValues = []string{"0", "-1", "1/64", "3", "0.001mm", "19999mm", "20m", "1e9", "89deg", "90", "180", "359.9", "100%", "true", "null", "~", "[]", "{}",
	"[1, 2]", "{width: 5, depth: 3}", "all", "[front]", "[left, right]", "wall", "return", "open", "press-base", "press-waist", "press-cornice", "edge-bead",
	"cavetto-cornice", "12in", "250mm", "1p", "rest", "NaN", "\"\"", "*a", "2000", "500"}

// mutated returns a case with the value of up to three of its keys replaced or taken out, and some of its bytes then. Each of edits stands for one
// key, by its place in the file, and what becomes of it.
func mutated(text []byte, edits [3]uint32, words string, at, cut uint16, put []byte) []byte {
	var doc yaml.Node
	if yaml.Unmarshal(text, &doc) == nil {
		for _, e := range edits {
			var values []*yaml.Node
			collect(&doc, &values)
			if e == 0 || len(values) == 0 {
				continue
			}
			n := values[int(e&0xffff)%len(values)]
			switch what := int(e >> 16); {
			case what%2 == 1 && leading.MatchString(n.Value): // a size near by, so that most of it still fits
				n.Value = leading.ReplaceAllStringFunc(n.Value, func(d string) string {
					v, _ := strconv.Atoi(d)
					return strconv.Itoa(max(0, []int{v + 1, v - 1, v + 2, v * 2, v / 2, v + 10, v * 10}[what/2%7]))
				})
				n.Tag = ""
			case what%5 == 4: // as a list or group of nothing, or one whose parts come twice
				n.Content = append(n.Content[:len(n.Content):len(n.Content)], n.Content...)
			default:
				value := append(slices.Clone(oddValues), words)[what%(len(oddValues)+1)]
				*n = yaml.Node{Kind: yaml.ScalarNode, Value: value}
			}
		}
		if out, err := yaml.Marshal(&doc); err == nil {
			text = out
		}
	}
	if i := int(at); i > 0 && i < len(text) {
		end := min(len(text), i+int(cut)%64)
		text = slices.Concat(text[:i], put, text[end:])
	}
	return text
}

// leading is the whole number that a size begins with.
var leading = regexp.MustCompile(`^\d{1,4}`)

// collect appends the values of every key and list below n.
func collect(n *yaml.Node, values *[]*yaml.Node) {
	for i, c := range n.Content {
		if n.Kind != yaml.MappingNode || i%2 == 1 {
			*values = append(*values, c)
		}
		collect(c, values)
	}
}

// faultLine is a mistake of a file as check prints it, or of one that has no place in it.
var faultLine = regexp.MustCompile(`\.yaml(, column \d+ of line \d+)?: |^\s|^note: |^listel: `)

// FuzzPacket: whatever becomes of a case, its packet without set-ups is drawn whole, or its mistakes are told with their lines and nothing is left
// of it; nothing panics. The fuzzer takes 10 s by the clock for a hang, and a case that fits takes up to a second of a processor to itself: one that has
// other work to do shows hangs that are none. To make small what is found costs as much each time: -fuzzminimizetime 1x -parallel 1. The sheets are
// drawn as SVG, at half the work of a PDF.
func FuzzPacket(f *testing.F) {
	var texts [][]byte
	lib := library.Open("", "")
	for _, name := range []string{"herb-press", "seed-cabinet"} {
		text, _, err := lib.Text(library.KindCase, name)
		require.NoError(f, err)
		texts = append(texts, text)
	}
	for _, name := range []string{"case-in.yaml", "case-mm.yaml"} {
		text, err := os.ReadFile("../../library/starters/" + name)
		require.NoError(f, err)
		texts = append(texts, bytes.ReplaceAll(text, []byte("NAME"), []byte("mine")))
	}
	for which := range texts {
		f.Add(uint8(which), uint32(0), uint32(0), uint32(0), "", uint16(0), uint16(0), []byte{})
		for k := range uint32(6) { // a few of the many
			f.Add(uint8(which), k<<16+k*9+1, k<<17+k*17+3, uint32(0), "7/8", uint16(0), uint16(0), []byte{})
			f.Add(uint8(which), (2*k+1)<<16+k*9+1, (2*k+3)<<16+k*13+3, uint32(0), "7/8", uint16(0), uint16(0), []byte{})
		}
		f.Add(uint8(which), uint32(0), uint32(0), uint32(0), "", uint16(300), uint16(9), []byte("\n  x: [1"))
	}
	f.Fuzz(func(t *testing.T, which uint8, a, b, c uint32, words string, at, cut uint16, put []byte) {
		text := mutated(texts[int(which)%len(texts)], [3]uint32{a, b, c}, words, at, cut, put)
		dir := t.TempDir()
		file := filepath.Join(dir, "case.yaml")
		require.NoError(t, os.WriteFile(file, text, 0o666))
		var errs bytes.Buffer
		ctx, cancel := context.WithTimeout(t.Context(), 3*time.Second) // the fuzzer takes 10 s for a hang; to prove what stock costs may take half of that
		defer cancel()
		code := Main([]string{"packet", file, "--no-setups", "--format", "svg", "--out", filepath.Join(dir, "out.svg")}, App{Out: io.Discard, Err: &errs, Now: func() time.Time { return time.Time{} }, Context: ctx})
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		if code == exitDone {
			require.Greater(t, len(entries), 2, "a cover and the printer check at least")
			for _, e := range entries[1:] {
				data, err := os.ReadFile(filepath.Join(dir, e.Name()))
				require.NoError(t, err)
				require.True(t, bytes.Contains(data, []byte("<svg ")) && bytes.Contains(data, []byte("\n</svg>\n")), e.Name())
			}
			return
		}
		require.Len(t, entries, 1, "nothing is left")
		if ctx.Err() != nil && code == exitFault {
			require.Equal(t, "listel: "+errStopped.Error()+"\n", lastLine(errs.String()))
			return
		}
		require.Equal(t, exitFile, code, "%s\n%s", errs.String(), text)
		require.Contains(t, errs.String(), "line ", "%s", text)
		for _, line := range strings.Split(strings.TrimSuffix(errs.String(), "\n"), "\n") {
			require.Regexp(t, faultLine, line, "%s", errs.String())
		}
	})
}

// lastLine returns the last line of a text, its end with it.
func lastLine(s string) string {
	return s[strings.LastIndexByte(strings.TrimSuffix(s, "\n"), '\n')+1:]
}
