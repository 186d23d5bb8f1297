package serve

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// cornice is a molding to change; its sizes are invented.
const cornice = `kind: profile
name: cornice # called for by the press
units: in
ground: 1/2
elements:
  # the foot
  - fillet: {height: 1/4}
  - cove: {height: 5/8} # struck with a quadrant
  - chamfer: {height: 1/4, projection: 3/8}
  - fillet: {height: 1/8, set: 1/16}
`

// An editAnswer is what postEdit answers.
type editAnswer struct {
	Text     string
	Section  sectionView
	Selected *int
	Told     string
}

// edit asks for one change of a text.
func edit(t testing.TB, s *Server, text string, c change) editAnswer {
	t.Helper()
	w := asked(t, s.postEdit, "/api/edit", map[string]any{"name": "cornice.yaml", "text": text, "change": c})
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	var a editAnswer
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &a))
	return a
}

// The sizes of a section come out as they follow from the file by hand: 1/4 + 5/8 + 1/4 + 1/8 in high, 1/2 + 5/8 + 3/8 + 1/16 in deep.
func TestSectionView(t *testing.T) {
	s := serving(t)
	v, err := s.section(sectionRequest{Name: "cornice.yaml", Text: cornice})
	require.NoError(t, err)
	require.True(t, v.OK)
	require.Empty(t, v.Mistakes)
	require.InDelta(t, 1.25*25.4, v.Height, 1e-9)
	require.InDelta(t, 1.5625*25.4, v.Projection, 1e-9)
	require.Equal(t, "cornice", v.Name)
	require.Len(t, v.Members, 4)
	cove := v.Members[1]
	require.Equal(t, "2 cove", cove.Title)
	require.Equal(t, [2]float64{12.7, 6.35}, cove.Foot)
	require.Equal(t, [2]float64{28.575, 22.225}, cove.Top)
	require.Equal(t, "M12.7 6.35A15.875 15.875 0 0 0 28.575 22.225", cove.Path)
	require.Equal(t, []string{"height", "projection", "set"}, []string{cove.Sizes[0].Key, cove.Sizes[1].Key, cove.Sizes[2].Key})
	require.Equal(t, "5/8", cove.Sizes[0].Text)
	require.Equal(t, "5/8 in", cove.Sizes[1].Shown, "its run is its rise")
	require.Equal(t, "", cove.Sizes[1].Text)
	require.Equal(t, "quadrant", cove.Choices[0].Value)
	require.Equal(t, []centerView{{[2]float64{28.575, 6.35}, 15.875, "R ⅝″", 1, ""}}, v.Centers)
	require.Equal(t, "1/2", v.Head[8].Text)
	require.Equal(t, "none", v.Back.Kind)
	require.Contains(t, v.Dims, dimView{[2]float64{0, 0}, [2]float64{0, 31.75}, "1¼″", "left", -1, "height", ""})
}

// A text with mistakes shows its members all the same, and each mistake at the member that it is in, in the words of check.
func TestSectionMistakes(t *testing.T) {
	s := serving(t)
	v, err := s.section(sectionRequest{Name: "cornice.yaml", Text: strings.ReplaceAll(cornice, "{height: 5/8}", "{height: 5/0}")})
	require.NoError(t, err)
	require.False(t, v.OK)
	require.Empty(t, v.Outline)
	require.Len(t, v.Members, 4)
	require.Equal(t, "5/0", v.Members[1].Sizes[0].Text)
	require.Len(t, v.Mistakes, 1)
	require.Equal(t, 1, v.Mistakes[0].Index)
	require.Equal(t, 8, v.Mistakes[0].Line)
	require.Contains(t, v.Mistakes[0].Text, "5/0")

	v, err = s.section(sectionRequest{Text: strings.ReplaceAll(cornice, "{height: 5/8}", "{height: 5/8, projection: 1/8}")})
	require.NoError(t, err)
	require.False(t, v.OK)
	require.Equal(t, 1, v.Mistakes[0].Index, "what is impossible is told at its member too")

	v, err = s.section(sectionRequest{Text: "kind: ["})
	require.NoError(t, err)
	require.Equal(t, -1, v.Mistakes[0].Index)
}

// Each change says in the file what was asked, and leaves the other lines as they were.
func TestEdits(t *testing.T) {
	s := serving(t)
	for _, c := range []struct {
		name     string
		change   change
		old, new string // what becomes of the text
		ok       bool
	}{
		{"a size", change{Op: "set", Path: "elements[1].height", Value: "3/4"}, "cove: {height: 5/8}", "cove: {height: 3/4}", true},
		{"a size with its unit", change{Op: "set", Path: "elements[1].height", Value: `7/8"`}, "cove: {height: 5/8}", `cove: {height: 7/8"}`, true},
		{"a bad fraction stays as it was typed", change{Op: "set", Path: "elements[1].height", Value: "5/"}, "cove: {height: 5/8}", "cove: {height: 5/}", false},
		{"what YAML would misread", change{Op: "set", Path: "elements[1].height", Value: "3, 4"}, "cove: {height: 5/8}", "cove: {height: '3, 4'}", false},
		{"a new key", change{Op: "set", Path: "elements[1].set", Value: "1/16"}, "cove: {height: 5/8}", "cove: {height: 5/8, set: 1/16}", true},
		{"a title with a mark", change{Op: "set", Path: "title", Value: "no. #2: mine"}, "set: 1/16}\n", "set: 1/16}\ntitle: 'no. #2: mine'\n", true},
		{"a key dropped", change{Op: "unset", Path: "elements[3].set"}, "{height: 1/8, set: 1/16}", "{height: 1/8}", true},
		{"an empty value drops the key", change{Op: "set", Path: "elements[3].set", Value: " "}, "{height: 1/8, set: 1/16}", "{height: 1/8}", true},
		{"a member removed", change{Op: "remove", At: 1}, "  - cove: {height: 5/8} # struck with a quadrant\n", "", true},
		{"a rabbet", change{Op: "back", Kind: "rabbet"}, "set: 1/16}\n", "set: 1/16}\nback: {rabbet: {at: top, width: 1/4, depth: 1/4}}\n", true},
		{"another kind", change{Op: "kind", At: 1, Kind: "ovolo"}, "cove: {", "ovolo: {", true},
		{"a kind whose construction does not suit gets one that does", change{Op: "kind", At: 2, Kind: "cove"}, "chamfer: {height: 1/4, projection: 3/8}", "cove: {height: 1/4, projection: 3/8, curve: arc}", true},
		{"a kind without a run", change{Op: "kind", At: 2, Kind: "fascia"}, "chamfer: {height: 1/4, projection: 3/8}", "fascia: {height: 1/4}", true},
		{"a bead's quirk begun", change{Op: "kind", At: 3, Kind: "bead"}, "- fillet: {height: 1/8,", "- bead: {height: 1/8,", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Contains(t, cornice, c.old)
			a := edit(t, s, cornice, c.change)
			i := strings.LastIndex(cornice, c.old)
			require.Equal(t, cornice[:i]+c.new+cornice[i+len(c.old):], a.Text)
			require.Equal(t, c.ok, a.Section.OK, a.Section.Mistakes)
		})
	}
	a := edit(t, s, cornice, change{Op: "move", At: 0, To: 3})
	require.True(t, strings.HasSuffix(a.Text, "set: 1/16}\n  # the foot\n  - fillet: {height: 1/4}\n"), a.Text)
	require.Equal(t, 3, *a.Selected)
	a = edit(t, s, edit(t, s, cornice, change{Op: "kind", At: 3, Kind: "bead"}).Text, change{Op: "set", Path: "elements[3].quirk.depth", Value: "3/32"})
	require.Contains(t, a.Text, "quirk: {width: 1/16, depth: 3/32}")
}

// Every kind of member can be put in at every place, and what comes out is drawn or says what is wrong at a member.
func TestInsertEveryKind(t *testing.T) {
	s := serving(t)
	base := strings.ReplaceAll(cornice, "{height: 5/8}", "{height: 5/8, projection: -5/8}")
	base = strings.NewReplacer("ground: 1/2", "ground: 2", "projection: 3/8", "projection: -3/8").Replace(base)
	for _, text := range []string{cornice, base, "kind: profile\nname: x\nunits: mm\nground: 20\nelements: []\n"} {
		lib := asked(t, s.getKinds, "/api/kinds", nil)
		var kinds []kindView
		require.NoError(t, json.Unmarshal(lib.Body.Bytes(), &kinds))
		require.Len(t, kinds, 20)
		for _, k := range kinds {
			a := edit(t, s, text, change{Op: "insert", At: 0, Kind: k.Kind})
			require.Equal(t, k.Kind, a.Section.Members[0].Kind)
			require.NotEmpty(t, k.Draws)
			require.NotEmpty(t, k.Thumb)
			for _, m := range a.Section.Mistakes {
				require.NotContains(t, m.Text, "unknown", k.Kind)
			}
		}
	}
	a := edit(t, s, base, change{Op: "insert", At: 2, Kind: "cyma-reversa"})
	require.Contains(t, a.Text, "- cyma-reversa: {height: 1/2, projection: -1/2}", "among members that lean back it leans back")
}

// A corner dragged comes to the hand, in whole steps of the maker's fraction. Worked by hand from the sizes of cornice.
func TestDrag(t *testing.T) {
	s := serving(t)
	const in = 25.4
	parts := "kind: profile\nname: x\nunits: in\nheight: 1 3/4\nparts: 14\nground: 1/2\nelements:\n  - fillet: {height: 2p}\n  - cove: {height: rest}\n  - fillet: {height: 3p}\n"
	for _, c := range []struct {
		name, text string
		change     change
		want       string
		ok         bool
	}{
		{"the chamfer's top, to the nearest 1/16", cornice, change{At: 2, Corner: "top", X: (1.125 + 0.51) * in, Y: (0.875 + 0.32) * in, Snap: "1/16"}, "chamfer: {height: 5/16, projection: 1/2}", true},
		{"to the nearest 1/8", cornice, change{At: 2, Corner: "top", X: (1.125 + 0.51) * in, Y: (0.875 + 0.32) * in, Snap: "1/8"}, "chamfer: {height: 3/8, projection: 1/2}", true},
		{"by half millimeters", cornice, change{At: 2, Corner: "top", X: 1.125*in + 12.2, Y: 0.875*in + 8.1, Snap: "0.5mm"}, "chamfer: {height: 8mm, projection: 12mm}", true},
		{"back over the plumb line", cornice, change{At: 2, Corner: "top", X: (1.125 - 0.25) * in, Y: 1.125 * in, Snap: "1/16"}, "chamfer: {height: 1/4, projection: -1/4}", true},
		{"a quadrant keeps its rise and run alike", cornice, change{At: 1, Corner: "top", X: (0.5 + 0.75) * in, Y: (0.25 + 0.75) * in, Snap: "1/16"}, "cove: {height: 3/4}", true},
		{"a flat has no run", cornice, change{At: 0, Corner: "top", X: 9 * in, Y: 0.5 * in, Snap: "1/16"}, "fillet: {height: 1/2}", true},
		{"never to nothing", cornice, change{At: 0, Corner: "top", X: 0, Y: -5 * in, Snap: "1/16"}, "fillet: {height: 1/16}", true},
		{"where it is it stays as typed", strings.ReplaceAll(cornice, "{height: 1/4}", "{height: 2/8}"), change{At: 0, Corner: "top", X: 0.5 * in, Y: 0.251 * in, Snap: "1/16"}, "fillet: {height: 2/8}", true},
		{"a step at the foot", cornice, change{At: 2, Corner: "foot", X: (1.125 + 0.125) * in, Y: 0.875 * in, Snap: "1/16"}, "chamfer: {height: 1/4, projection: 3/8, set: 1/8}", true},
		{"a step taken back", cornice, change{At: 3, Corner: "foot", X: 1.5 * in, Y: 1.125 * in, Snap: "1/16"}, "  - fillet: {height: 1/8}\n", true},
		{"the lowest foot is the ground", cornice, change{At: 0, Corner: "foot", X: 0.75 * in, Y: 0, Snap: "1/16"}, "ground: 3/4", true},
		{"the foot up is the rise below", cornice, change{At: 3, Corner: "foot", X: (1.5 + 0.0625) * in, Y: 1.25 * in, Snap: "1/16"}, "chamfer: {height: 3/8, projection: 3/8}", true},
		{"parts stay parts", parts, change{At: 0, Corner: "top", X: 0.5 * in, Y: 0.375 * in, Snap: "1/16"}, "fillet: {height: 3p}", true},
		{"half parts", parts, change{At: 0, Corner: "top", X: 0.5 * in, Y: 0.3125 * in, Snap: "1/16"}, "fillet: {height: 2 1/2p}", true},
		{"where the rest ends the member above gives way", parts, change{At: 1, Corner: "top", X: 1.75 * in, Y: 1.5 * in, Snap: "1/16"}, "  - fillet: {height: 2p}\n", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.change.Op = "drag"
			a := edit(t, s, c.text, c.change)
			require.Contains(t, a.Text, c.want)
			require.Equal(t, c.ok, a.Section.OK, a.Section.Mistakes)
		})
	}
	fixed := "kind: profile\nname: x\nunits: in\nheight: 1\nprojection: 1 1/8\nground: 1/2\nelements:\n  - fillet: {height: 1/4}\n  - cove: {height: 5/8}\n  - fillet: {height: 1/8}\n"
	a := edit(t, s, fixed, change{Op: "drag", At: 1, Corner: "top", X: 1.25 * in, Y: 1 * in, Snap: "1/16"})
	require.True(t, a.Section.OK, a.Section.Mistakes)
	require.Contains(t, a.Text, "height: 1 1/8\nprojection: 1 1/4\n", "the whole's sizes go along")
	w := asked(t, s.postEdit, "/api/edit", map[string]any{"text": strings.ReplaceAll(cornice, "5/8", "5/0"), "change": change{Op: "drag", Corner: "top"}})
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
}

// longProfile returns a molding of n members; its sizes are invented.
func longProfile(n int) string {
	var b strings.Builder
	b.WriteString("kind: profile\nname: long\nunits: in\nground: 2 1/2\nelements:\n")
	for i := range n {
		b.WriteString([]string{"  - fillet: {height: 3/16, set: 1/16}", "  - cove: {height: 3/8} # a hollow", "  - fillet: {height: 3/16, set: 1/16}",
			"  - ovolo: {height: 5/16, projection: 1/4, curve: ellipse}", "  - torus: {height: 1/4}", "  - cyma-reversa: {height: 3/8, projection: 5/16}"}[i%6] + "\n")
	}
	return b.String()
}

// BenchmarkEdit times a change of one size of a molding of 30 members, text in, text and drawing out. The figure to reach is 15 ms for 95 of
// 100.
func BenchmarkEdit(b *testing.B) {
	benchmarkChanges(b, func(i int) change {
		return change{Op: "set", Path: "elements[7].height", Value: fmt.Sprintf("%d/32", 8+i%8)}
	})
}

// BenchmarkDrag is BenchmarkEdit for a corner under the hand.
func BenchmarkDrag(b *testing.B) {
	benchmarkChanges(b, func(i int) change {
		return change{Op: "drag", At: 3, Corner: "top", X: 95 + float64(i%7), Y: 26 + float64(i%5), Snap: "1/32"}
	})
}

// benchmarkChanges measures changes of a molding of thirty members, 95 of 100 of them as p95-ms.
func benchmarkChanges(b *testing.B, of func(i int) change) {
	s := serving(b)
	text := longProfile(30)
	var times []time.Duration
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		w := asked(b, s.postEdit, "/api/edit", map[string]any{"name": "long.yaml", "text": text, "change": of(i)})
		times = append(times, time.Since(start))
		if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `"ok":true`) {
			b.Fatal(w.Body.String())
		}
	}
	slices.Sort(times)
	b.ReportMetric(float64(times[len(times)*95/100].Microseconds())/1000, "p95-ms")
}

// Ten thousand edits, one on top of the other, leave the memory as it was: the server keeps none of them.
func TestSoak(t *testing.T) {
	edits := 10_000
	if testing.Short() {
		edits = 1000
	}
	s := serving(t)
	text := cornice
	heap := func() float64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc)
	}
	var first float64
	for i := range edits {
		if i == edits/10 {
			first = heap()
		}
		c := change{Op: "set", Path: "elements[1].height", Value: fmt.Sprintf("%d/32", 8+i%24)}
		switch i % 4 {
		case 1:
			c = change{Op: "insert", At: i % 4, Kind: "torus"}
		case 2:
			c = change{Op: "move", At: 1, To: 2}
		case 3:
			c = change{Op: "remove", At: 1}
		}
		out, _, err := s.edited(sectionRequest{Name: "x.yaml", Text: text}, c)
		require.NoError(t, err)
		view, err := s.section(sectionRequest{Name: "x.yaml", Text: out})
		require.NoError(t, err)
		require.NotEmpty(t, view.Members)
		if i%4 == 3 {
			out = cornice
		}
		text = out
	}
	const grown = 2 << 20 // bytes that other tests' leavings may come to
	require.Less(t, heap()-first, float64(grown))
}

// FuzzEdit: no request makes a handler panic, and every text that comes back is drawn or has a mistake.
func FuzzEdit(f *testing.F) {
	for _, op := range []string{"set", "unset", "insert", "remove", "move", "kind", "join", "back", "drag", "scale"} {
		f.Add(cornice, op, "elements[1].height", "3/4", 1, 2, "cove", "top", 30.0, 40.0, "1/16")
	}
	for _, kind := range []string{"add", "remove", "line", "arc"} {
		f.Add(bent, "point", "", "", 1, 0, kind, "", 0.0, 0.0, "")
	}
	s := &Server{folder: fuzzFolder(f)} // edits write nothing
	f.Fuzz(func(t *testing.T, text, op, path, value string, at, to int, kind, corner string, x, y float64, snap string) {
		if math.IsNaN(x) || math.IsNaN(y) || math.IsInf(x, 0) || math.IsInf(y, 0) || len(text) > 4096 {
			return
		}
		out, _, err := s.edited(sectionRequest{Name: "x.yaml", Text: text}, change{Op: op, Path: path, Value: value, At: at, To: to, Kind: kind, Corner: corner, X: x, Y: y, Snap: snap})
		if err != nil {
			return
		}
		v, err := s.section(sectionRequest{Name: "x.yaml", Text: out})
		require.NoError(t, err)
		require.Equal(t, v.OK, len(v.Mistakes) == 0)
	})
}

// fuzzFolder returns a folder of the test's own.
func fuzzFolder(t testing.TB) *folder {
	t.Helper()
	f, err := openFolder(t.TempDir())
	require.NoError(t, err)
	t.Cleanup(f.close)
	return f
}
