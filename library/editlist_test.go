package library_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
)

// layouts are ways in which one list of elements is written. The sizes are invented.
var layouts = map[string]string{
	"dashes": `kind: profile
name: x
units: in
ground: 1/2 # from the back
elements: # from the foot upward
  # the plinth
  - fillet: {height: 1/4}

  # the hollow,
  # struck with a quadrant
  - cove: {height: 5/8} # its run is its rise
  - fillet:
      height: 1/8
      # steps out a little
      set: 1/16

  # below the top
back: {rabbet: {at: top, width: 1/4, depth: 1/4}} # seats the case
`,
	"flush dashes":       "kind: profile\nunits: in\nground: 1/2\nelements:\n- fillet: {height: 1/4}\n# hollow\n- cove: {height: 5/8}\n\n- fillet: {height: 1/8, set: 1/16}\n# end\ntitle: x\n",
	"no last line break": "kind: profile\nunits: in\nground: 1/2\nelements:\n  - fillet: {height: 1/4}\n  # hollow\n  - cove: {height: 5/8}\n  - fillet: {height: 1/8, set: 1/16}",
	"line breaks of two": "kind: profile\r\nunits: in\r\nground: 1/2\r\nelements:\r\n  - fillet: {height: 1/4}\r\n  # hollow\r\n  - cove: {height: 5/8}\r\n  - fillet: {height: 1/8, set: 1/16}\r\n",
	"brackets":           "kind: profile\nunits: in\nground: 1/2\nelements: [{fillet: {height: 1/4}}, cove: {height: 5/8}, {fillet: {height: 1/8, set: 1/16}}] # all\n",
	"brackets on lines":  "kind: profile\nunits: in\nground: 1/2\nelements: [\n  {fillet: {height: 1/4}},\n  {cove: {height: 5/8}},\n  {fillet: {height: 1/8, set: 1/16}},\n]\n",
	"a mark at the top":  "\ufeffkind: profile\nunits: in\nground: 1/2\nelements:\n  - fillet: {height: 1/4}\n  - cove: {height: 5/8}\n  - fillet: {height: 1/8, set: 1/16}\n",
}

func kindsOf(t *testing.T, text []byte) string {
	t.Helper()
	p, _, err := library.LoadProfile("x.yaml", text)
	require.NoError(t, err, string(text))
	var out []string
	for _, e := range p.Elements {
		out = append(out, string(e.Kind))
	}
	return strings.Join(out, " ")
}

// An edit and its inverse give the text that there was, byte for byte, however it is written.
func TestElementsThereAndBack(t *testing.T) {
	for name, layout := range layouts {
		t.Run(name, func(t *testing.T) {
			text := []byte(layout)
			require.Equal(t, "fillet cove fillet", kindsOf(t, text))
			for at := range 4 {
				more, err := library.InsertElement(text, at, "torus: {height: 1/2}")
				require.NoError(t, err)
				want := strings.Fields("fillet cove fillet")
				want = append(want[:at:at], append([]string{"torus"}, want[at:]...)...)
				require.Equal(t, strings.Join(want, " "), kindsOf(t, more))
				back, err := library.RemoveElement(more, at)
				require.NoError(t, err)
				require.Equal(t, layout, string(back))
			}
			for from := range 3 {
				for to := range 3 {
					moved, err := library.MoveElement(text, from, to)
					require.NoError(t, err)
					back, err := library.MoveElement(moved, to, from)
					require.NoError(t, err)
					require.Equal(t, layout, string(back), "%d to %d", from, to)
				}
			}
		})
	}
}

// Comments go where their element goes; what stands between elements stays; every other line is as it was.
func TestMoveTakesComments(t *testing.T) {
	got, err := library.MoveElement([]byte(layouts["dashes"]), 1, 0)
	require.NoError(t, err)
	require.Equal(t, `kind: profile
name: x
units: in
ground: 1/2 # from the back
elements: # from the foot upward
  # the hollow,
  # struck with a quadrant
  - cove: {height: 5/8} # its run is its rise

  # the plinth
  - fillet: {height: 1/4}
  - fillet:
      height: 1/8
      # steps out a little
      set: 1/16

  # below the top
back: {rabbet: {at: top, width: 1/4, depth: 1/4}} # seats the case
`, string(got))
	got, err = library.RemoveElement([]byte(layouts["dashes"]), 1)
	require.NoError(t, err)
	require.Equal(t, strings.Replace(layouts["dashes"], "  # the hollow,\n  # struck with a quadrant\n  - cove: {height: 5/8} # its run is its rise\n", "", 1), string(got))
}

// A list can be emptied and begun.
func TestEmptyElements(t *testing.T) {
	for name, layout := range layouts {
		text := []byte(layout)
		var err error
		for range 3 {
			text, err = library.RemoveElement(text, 0)
			require.NoError(t, err, name)
		}
		_, err = library.RemoveElement(text, 0)
		require.Error(t, err)
		text, err = library.InsertElement(text, 0, "cove: {height: 5/8}")
		require.NoError(t, err, name)
		require.Equal(t, "cove", kindsOf(t, text), name)
	}
	for _, text := range []string{"kind: profile\nunits: in\nground: 1\nelements:\n", "kind: profile\nunits: in\nground: 1\nelements: []", "kind: profile\nunits: in\nground: 1", "elements: # none yet\nkind: profile\nunits: in\nground: 1\n",
		"kind: profile\nunits: in\nground: 1\nelements:\n  [] # none\n", "kind: profile\nunits: in\nground: 1\nelements: ~\n"} {
		got, err := library.InsertElement([]byte(text), 0, "cove: {height: 5/8}")
		require.NoError(t, err, text)
		require.Equal(t, "cove", kindsOf(t, got), text)
		for _, line := range strings.Split(text, "\n") {
			if i := strings.Index(line, "#"); i >= 0 {
				require.Contains(t, string(got), line[i:])
			}
		}
	}
}

// Random edits of the library's own profiles: the elements are what a list of names says, and every comment that was not removed is still
// there.
func TestElementsAtRandom(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	files, err := filepath.Glob("profiles/*.yaml")
	require.NoError(t, err)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		want := strings.Fields(kindsOf(t, text))
		comments := strings.Count(string(text), "#")
		for range 12 {
			at := r.IntN(len(want))
			switch r.IntN(3) {
			case 0:
				text, err = library.InsertElement(text, at, "fascia: {height: 77}")
				want = slices.Insert(want, at, "fascia 77")
			case 1:
				to := r.IntN(len(want))
				text, err = library.MoveElement(text, at, to)
				kind := want[at]
				want = slices.Insert(slices.Delete(want, at, at+1), to, kind)
			case 2:
				if want[at] != "fascia 77" {
					continue
				}
				text, err = library.RemoveElement(text, at)
				want = slices.Delete(want, at, at+1)
			}
			require.NoError(t, err, file)
			require.Equal(t, strings.ReplaceAll(strings.Join(want, " "), " 77", ""), kindsOf(t, text), file)
			require.Equal(t, comments, strings.Count(string(text), "#"), file)
		}
	}
}

// Every kind can be made every other: what comes out loads, and sizes that both take are kept.
func TestSetElementKind(t *testing.T) {
	for _, u := range []measure.Units{measure.Inches, measure.Millimeters} {
		for _, from := range profile.Kinds() {
			for _, to := range profile.Kinds() {
				text := fmt.Sprintf("kind: profile\nunits: %s\nground: 1\nelements:\n  # this one\n  - %s: %s # so\n  - fillet: {height: 1/4}\n", u, from, library.StartingSizes(from, u))
				got, err := library.SetElementKind([]byte(text), 0, to, u)
				require.NoError(t, err, "%s to %s", from, to)
				require.Equal(t, string(to)+" fillet", kindsOf(t, got), "%s to %s", from, to)
				require.Contains(t, string(got), "  # this one\n")
				require.Contains(t, string(got), "} # so\n  - fillet: {height: 1/4}\n")
				if from == to {
					require.Equal(t, text, string(got))
				}
			}
		}
	}
	got, err := library.SetElementKind([]byte("kind: profile\nunits: in\nground: 1\nelements:\n  - bead:\n      height: 2p # of fourteen\n      flush: true\n      set: 1/8\n"), 0, profile.KindCove, measure.Inches)
	require.NoError(t, err)
	require.Equal(t, "kind: profile\nunits: in\nground: 1\nelements:\n  - cove:\n      height: 2p # of fourteen\n      set: 1/8\n", string(got))
}

// A kind's starting sizes build by themselves.
func TestStartingSizes(t *testing.T) {
	lib := library.Open("", "")
	for _, u := range []measure.Units{measure.Inches, measure.Millimeters} {
		for _, k := range profile.Kinds() {
			text := fmt.Sprintf("kind: profile\nunits: %s\nground: 20mm\nelements:\n  - fillet: {height: 5mm}\n  - %s: %s\n  - fillet: {height: 5mm}\n", u, k, library.StartingSizes(k, u))
			p, _, err := library.LoadProfile("x.yaml", []byte(text))
			require.NoError(t, err, k)
			_, err = p.Section(lib.Lookup)
			require.NoError(t, err, k)
		}
	}
	require.Empty(t, library.StartingSizes("nonsense", measure.Inches))
}

// FuzzElements: no text makes an edit panic, and what an edit returns reads; insertion and removal give back what there was.
func FuzzElements(f *testing.F) {
	for _, layout := range layouts {
		f.Add([]byte(layout), 0, 1)
	}
	f.Fuzz(func(t *testing.T, data []byte, a, b int) {
		if moved, err := library.MoveElement(data, a, b); err == nil {
			if back, err := library.MoveElement(moved, b, a); err == nil {
				require.Equal(t, string(data), string(back))
			}
		}
		if more, err := library.InsertElement(data, a, "torus: {height: 1/2}"); err == nil {
			_, err := library.ReadKeyed(more)
			require.NoError(t, err)
			if less, err := library.RemoveElement(more, a); err == nil {
				_, err := library.ReadKeyed(less)
				require.NoError(t, err)
			}
		}
		if other, err := library.SetElementKind(data, a, profile.KindScotia, measure.Inches); err == nil {
			_, err := library.ReadKeyed(other)
			require.NoError(t, err)
		}
	})
}
