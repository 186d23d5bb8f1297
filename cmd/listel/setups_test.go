package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/template/cutter/replay"
)

// ownProfile is a small molding of stock radii, invented.
const ownProfile = `kind: profile
name: edge
units: mm
ground: 10
elements:
  - fillet: {height: 6}
  - cove: {height: 8}
  - fillet: {height: 4, set: 2}
`

func TestSetupsJSONHasTheFields(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("edge.yaml", []byte(ownProfile), 0o666))
	r := listel(t, "", "setups", "edge.yaml", "--json", "--effort", "quick")
	require.Equal(t, exitDone, r.code, r.err)
	var got map[string]any
	require.NoError(t, json.Unmarshal([]byte(r.out), &got))
	for _, key := range []string{"profile", "blank", "allowance_mm", "outline", "setups", "left", "unreached", "lower_bound", "proven", "advice", "verified"} {
		require.Contains(t, got, key)
	}
	require.Equal(t, "edge", got["profile"])
	setup := got["setups"].([]any)[0].(map[string]any)
	for _, key := range []string{"n", "tool", "work", "on_table", "against_fence", "end_for_end", "tilt_deg", "fence_mm", "axis_mm", "height_mm",
		"passes", "silhouette", "body", "transform", "cleans", "removed_mm2", "warning"} {
		require.Contains(t, setup, key)
	}
	require.Contains(t, got["left"], "max_mm")
	require.Contains(t, got["left"], "area_mm2")
	require.Len(t, setup["transform"], 6)

	// What is printed replays as it was verified.
	report, err := replay.Verify([]byte(r.out), replay.Options{})
	require.NoError(t, err)
	require.True(t, report.OK(), "%v", report.Faults)
	require.InDelta(t, report.Gouge, got["verified"].(map[string]any)["worst_gouge_mm"], 1e-12)
}

func TestSetupsTable(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("edge.yaml", []byte(ownProfile), 0o666))
	r := listel(t, "", "setups", "edge.yaml", "--effort", "quick", "--out", "edge.pdf")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "tools: metric-tools")
	require.Contains(t, r.out, "2 cove")
	require.Regexp(t, `verified: worst gouge (under )?0\.0\d mm, worst left 0\.\d\d mm`, r.out)
	require.Contains(t, r.err, "wrote edge.pdf")
	require.FileExists(t, "edge.pdf")
}

// A thin section is not machined as a loose stick.
func TestSetupsOfAThinSection(t *testing.T) {
	r := listel(t, "", "setups", "edge-bead", "--effort", "quick")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "caution: NOT AS A LOOSE STICK")
	require.Contains(t, r.out, "on the edge of a board at least 4 in wide, then rip it off")
}

// A plan for planes speaks of bench and stop, not of table and fence; an inch plan of no millimeters; no distance is negative.
func TestSetupsByHandInWords(t *testing.T) {
	r := listel(t, "", "setups", "press-waist", "--work", "plane", "--effort", "quick")
	require.Equal(t, exitDone, r.code, r.err)
	for _, want := range []string{"on the bench", "against the stop", "bench to lowest cut", "from the bench to the lowest cut", "the FAR one"} {
		require.Contains(t, r.out, want)
	}
	for _, not := range []string{"fence  ", "on the table", "leads", "highest", " mm"} {
		require.NotContains(t, r.out, not)
	}
	require.NotRegexp(t, ` -\d`, r.out, "no sign without words")
	require.Regexp(t, `worst gouge (under )?0\.\d\d\d in, worst left (under )?0\.\d\d\d in`, r.out)
}

func TestSetupsByHandWithOnesOwnTools(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("edge.yaml", []byte(ownProfile), 0o666))
	tools := "kind: tools\nunits: mm\ntools:\n  - rabbet-plane: {name: the big one, width: 20}\n  - round-plane: {name: my round, radius: 8}\n"
	require.NoError(t, os.WriteFile("chest.yaml", []byte(tools), 0o666))
	r := listel(t, "", "setups", "edge.yaml", "--tools", "chest.yaml", "--work", "plane", "--effort", "quick", "--json")
	require.Contains(t, []int{exitDone, exitFault}, r.code, r.err)
	var got struct {
		Setups []struct{ Tool, Work string }
	}
	require.NoError(t, json.Unmarshal([]byte(r.out), &got))
	require.NotEmpty(t, got.Setups)
	for _, s := range got.Setups {
		require.Equal(t, "plane", s.Work)
		require.Contains(t, []string{"the big one", "my round"}, s.Tool)
	}
	require.NoError(t, os.WriteFile("chest.yaml", []byte(tools+"  - rabbet-plain: {width: 3}\n"), 0o666))
	r = listel(t, "", "setups", "edge.yaml", "--tools", "chest.yaml")
	require.Equal(t, exitFile, r.code)
	require.Contains(t, r.err, `line 6: unknown tool "rabbet-plain"; rabbet-plane?`)
}

// A sprung molding from an upright blank: the blank is as high as the section and as thick as it projects, and its faces are square.
func TestSetupsUpright(t *testing.T) {
	r := listel(t, "", "setups", "crown-cove-and-cyma", "--blank", "upright", "--effort", "quick", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	var got struct {
		Blank  struct{ Polygon [4][2]float64 }
		Setups []struct {
			OnTable string `json:"on_table"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(r.out), &got))
	require.Equal(t, got.Blank.Polygon[0][1], got.Blank.Polygon[1][1])
	for _, s := range got.Setups {
		require.NotEqual(t, "spring", s.OnTable)
	}
}

// What is bought follows the blank that the set-ups take: where nobody has said it, as they come out; and it can be asked for.
func TestStockFollowsTheBlankOfTheSetups(t *testing.T) {
	text, _, err := library.Open("", "").Text(library.KindCase, library.ExampleName)
	require.NoError(t, err)
	said := []byte("    blank: upright")
	require.Contains(t, string(text), string(said))
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("press.yaml", bytes.Replace(text, said, []byte("    #"), 1), 0o666))
	blank := func(args ...string) (width float64) {
		r := listel(t, "", append([]string{"stock", "--json"}, args...)...)
		require.Equal(t, exitDone, r.code, r.err)
		var got struct {
			Blanks []struct {
				Profile string
				Width   float64 `json:"width_mm"`
			}
		}
		require.NoError(t, json.Unmarshal([]byte(r.out), &got))
		for _, b := range got.Blanks {
			if b.Profile == "press-cornice" {
				return b.Width
			}
		}
		return 0
	}
	s, err := library.Open("", "").SectionOf("press-cornice")
	require.NoError(t, err)
	flat, upright := s.Blank().Width, s.From(profile.BlankUpright).Blank().Width
	require.NotEqual(t, flat, upright)
	require.InDelta(t, upright, blank(), 1e-6, "as the example says")
	require.InDelta(t, upright, blank("press.yaml"), 1e-6, "as its set-ups come out")
	require.InDelta(t, flat, blank("press.yaml", "--blank", "flat"), 1e-6, "as is asked")
	require.InDelta(t, flat, blank("--blank", "flat"), 1e-6)
	r := listel(t, "", "packet", "press.yaml", "--no-setups", "--out", "p.pdf")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.err, "press-cornice: sprung, and nothing says from which blank it is made. The flat one is counted")
}

func TestSetupsWrongUse(t *testing.T) {
	for flags, want := range map[string]string{
		"--effort some":         "quick, usual or long",
		"--work chisel":         "machine or plane",
		"--allowance 0.1mm":     "from 0.3 mm to 5 mm",
		"--allowance lots":      "lots",
		"--tools inch-tuls":     "inch-tools?",
		"--blank askew":         "flat or upright",
		"--height 1in --nosuch": "nosuch",
	} {
		r := listel(t, "", append([]string{"setups", "thumb-edge"}, strings.Fields(flags)...)...)
		require.Equal(t, exitUsage, r.code, flags)
		require.Contains(t, r.err, want, flags)
	}
	require.Equal(t, exitUsage, listel(t, "", "setups").code)
}

// A plan from the cache is the same to the byte; a corrupt entry is ignored and mended; other tools, sizes and options are other plans.
func TestSetupsFromTheCache(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("edge.yaml", []byte(ownProfile), 0o666))
	folder := filepath.Join(t.TempDir(), "cache")
	entries := func() []string {
		files, err := filepath.Glob(filepath.Join(folder, "*"))
		require.NoError(t, err)
		return files
	}
	run := func(args ...string) string {
		r := keeping(library.OpenCache(folder), "", append([]string{"setups", "edge.yaml", "--json", "--effort", "quick"}, args...)...)
		require.Equal(t, exitDone, r.code, r.err)
		return r.out
	}
	first := run()
	require.Len(t, entries(), 1)
	require.Equal(t, first, run())
	require.Equal(t, first, run("--no-cache"))
	require.Len(t, entries(), 1)

	// Proof that the entry is used: another plan put under the key is what comes out.
	kept, err := os.ReadFile(entries()[0])
	require.NoError(t, err)
	key := strings.TrimSuffix(filepath.Base(entries()[0]), filepath.Ext(entries()[0]))
	cache := library.OpenCache(folder)
	plan, ok := cache.Get(key)
	require.True(t, ok)
	cache.Put(key, bytes.Replace(plan, []byte(`"profile":"edge"`), []byte(`"profile":"other"`), 1))
	require.Contains(t, run(), `"profile": "other"`)

	require.NoError(t, os.WriteFile(entries()[0], kept[:len(kept)/2], 0o600))
	require.Equal(t, first, run(), "half an entry is none")
	mended, err := os.ReadFile(entries()[0])
	require.NoError(t, err)
	require.Equal(t, kept, mended)
	cache.Put(key, []byte("no JSON"))
	require.Equal(t, first, run(), "whole, but no plan")

	run("--scale", "1.25")
	require.Len(t, entries(), 2)
	run("--allowance", "0.8mm")
	run("--tools", "inch-tools")
	require.Len(t, entries(), 4)
}

func TestPacketWithSetups(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("edge.yaml", []byte(ownProfile), 0o666))
	box := "kind: case\nname: box\nunits: mm\nplan: {width: 400, depth: 300}\nheight: 300\nmoldings:\n" +
		"  - {name: top, profile: edge, at: 250, runs: [front], ends: open}\n"
	require.NoError(t, os.WriteFile("box.yaml", []byte(box), 0o666))
	folder := t.TempDir()
	with := keeping(library.OpenCache(folder), "", "packet", "box.yaml", "--json", "--effort", "quick", "--out", "with.pdf")
	require.Equal(t, exitDone, with.code, with.err)
	require.Contains(t, with.out, "edge: before the first cut")
	require.Regexp(t, `edge: set-ups 1 to \d`, with.out)
	without := keeping(library.OpenCache(folder), "", "packet", "box.yaml", "--json", "--no-setups", "--out", "without.pdf")
	require.Equal(t, exitDone, without.code, without.err)
	require.NotContains(t, without.out, "before the first cut")
	again := keeping(library.OpenCache(folder), "", "packet", "box.yaml", "--json", "--effort", "quick", "--out", "again.pdf")
	require.Equal(t, with.out, again.out)
	a, err := os.ReadFile("with.pdf")
	require.NoError(t, err)
	b, err := os.ReadFile("again.pdf")
	require.NoError(t, err)
	require.True(t, bytes.Equal(a, b), "with the cache warm, the same bytes")
}

// The bar shows after a second, on a terminal alone, and is wiped.
func TestProgressBar(t *testing.T) {
	now := time.Unix(0, 0)
	var errs bytes.Buffer
	app := App{Err: &errs, Terminal: true, Now: func() time.Time { return now }}
	bar := app.newProgress("planning", 2)
	bar.at(0, "cover")
	require.Empty(t, errs.String())
	now = now.Add(1500 * time.Millisecond)
	bar.at(0, "order")
	require.Contains(t, errs.String(), "planning [##########....................] 1 s")
	now = now.Add(50 * time.Millisecond)
	shown := errs.Len()
	bar.at(1, "cover")
	require.Equal(t, shown, errs.Len(), "not oftener than ten times a second")
	now = now.Add(time.Second)
	bar.at(0, "")
	require.Contains(t, errs.String(), "[####################..........] 2 s")
	bar.end()
	require.True(t, strings.HasSuffix(errs.String(), "\r"))

	app.Terminal = false
	errs.Reset()
	bar = app.newProgress("planning", 1)
	now = now.Add(time.Hour)
	bar.at(0, "")
	bar.end()
	require.Empty(t, errs.String())
}
