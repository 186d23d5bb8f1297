package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLibraryListJSON(t *testing.T) {
	r := listel(t, "", "library", "list", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	var all []map[string]any
	require.NoError(t, json.Unmarshal([]byte(r.out), &all))
	kinds := map[string]int{}
	for _, e := range all {
		for _, key := range []string{"kind", "name", "title", "source", "height_mm", "projection_mm", "origin"} {
			require.Contains(t, e, key)
		}
		kinds[e["kind"].(string)]++
	}
	for _, k := range []string{"profile", "tool", "wood", "paper", "lumber", "example"} {
		require.Positive(t, kinds[k], k)
	}
	require.GreaterOrEqual(t, kinds["profile"], 50)
}

func TestLibraryFind(t *testing.T) {
	r := listel(t, "", "library", "find", "cove", "fillet")
	require.Equal(t, exitDone, r.code, r.err)
	next, between, both := strings.Cut(r.out, "with others between")
	require.True(t, both)
	require.Contains(t, next, "cove-mold")
	require.Contains(t, between, "cabinet-cornice") // fillet cove dentils fillet
	require.NotContains(t, next, "cabinet-cornice")
	r = listel(t, "", "library", "find", "zeppelin", "--json")
	require.Equal(t, exitDone, r.code)
	require.JSONEq(t, "[]", r.out)
	require.Equal(t, exitUsage, listel(t, "", "library", "find").code)
}

func TestLibraryShowsEveryKind(t *testing.T) {
	for name, want := range map[string]string{
		"ionic-impost": "Cyclopedia", "herb-press": "name: lower", "inch-tools": "round-nose", "black cherry": "FPL-GTR-190", "walnut": "Table 13-5",
		"A4": "210.0 mm", "8/4": ">  8/4",
	} {
		r := listel(t, "", "library", "show", name)
		require.Equal(t, exitDone, r.code, "%s: %s", name, r.err)
		require.Contains(t, r.out, want, name)
		require.Contains(t, r.out, "embedded library", name)
		r = listel(t, "", "library", "show", name, "--json")
		require.Equal(t, exitDone, r.code, "%s: %s", name, r.err)
		require.True(t, json.Valid([]byte(r.out)), name)
	}
	r := listel(t, "", "library", "show", "A4", "--format", "svg")
	require.Equal(t, exitUsage, r.code)
	for name, want := range map[string]string{"nothing-of-the-kind": `no entry named "nothing-of-the-kind"; library list shows`, "blck cherry": `no entry named "blck cherry"; black cherry?`,
		"herb-pres": "herb-press?", "inch-tool": "inch-tools?", "Leter": "Letter?"} {
		r = listel(t, "", "library", "show", name)
		require.Equal(t, exitUsage, r.code)
		require.Contains(t, r.err, want)
		require.Empty(t, r.out)
	}
	r = listel(t, "", "template", "nothing-of-the-kind")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "no profile or case named")
	for _, line := range []string{"upright  210.0 mm", "lying"} {
		require.Contains(t, listel(t, "", "library", "show", "A4").out, line)
	}
	require.Regexp(t, `(?m)^>  8/4 +2 in +1 3/4 in +1 13/16 in *$`, listel(t, "", "library", "show", "8/4").out)
	require.Regexp(t, `(?m)^shrinks, green to ovendry +3.7 % +7.1 %`, listel(t, "", "library", "show", "black cherry").out)
}

func TestLibraryDraws(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct {
		args []string
		file string
	}{
		{[]string{"gallery"}, "moldings.pdf"},
		{[]string{"gallery", "waist", "--out", "w.svg"}, "w.svg"},
		{[]string{"show", "ionic-impost", "--out", "i.png"}, "i.png"},
		{[]string{"show", "herb-press", "--out", "press.svg"}, "press.svg"},
		{[]string{"show", "ovolo", "--construction"}, "ovolo-construction.pdf"},
		{[]string{"show", "attic-base", "--construction", "--units", "mm"}, "attic-base-construction.pdf"},
		{[]string{"show", "all", "--construction", "--out", "all.pdf"}, "all.pdf"},
	} {
		r := listel(t, "", append([]string{"library"}, c.args...)...)
		require.Equal(t, exitDone, r.code, "%v: %s", c.args, r.err)
		require.FileExists(t, c.file)
	}
	require.Equal(t, exitUsage, listel(t, "", "library", "gallery", "zeppelin").code)
	r := listel(t, "", "library", "show", "ovlo", "--construction")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "ovolo?")
	r = listel(t, "", "library", "show", "ovolo", "--construction", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "Nicholson")
}

// A cornice is picked, copied, made higher and printed; the copy is found before what it was copied from, and each output says so.
func TestLibraryCopyAndUse(t *testing.T) {
	t.Chdir(t.TempDir())
	user := filepath.Join(t.TempDir(), "listel")
	r := listel(t, user, "library", "copy", "cavetto-cornice", "--as", "my-cornice", "--height", "2in")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "my-cornice.yaml from: embedded library")
	r = listel(t, user, "template", "my-cornice.yaml")
	require.Equal(t, exitDone, r.code, r.err)
	require.FileExists(t, "my-cornice-template.pdf")
	r = listel(t, user, "section", "my-cornice")
	require.Contains(t, r.out, "height 2 in")
	require.Contains(t, r.out, "my-cornice.yaml")

	r = listel(t, user, "library", "copy", "ionic-impost", "--mine")
	require.Equal(t, exitDone, r.code, r.err)
	require.FileExists(t, filepath.Join(user, "ionic-impost.yaml"))
	require.Contains(t, listel(t, user, "library", "list", "profile").out, "your library, "+filepath.Join(user, "ionic-impost.yaml"))
	r = listel(t, user, "library", "copy", "ionic-impost") // from one's own library, now
	require.Contains(t, r.out, "from: your library")
	require.Equal(t, exitDone, listel(t, user, "library", "gallery", "waist").code)

	for _, args := range [][]string{
		{"copy", "no-such-thing"}, {"copy", "quirked-bead", "--height", "3in"}, {"copy", "ionic-impost", "--height", "tall"},
		{"copy", "ionic-impost", "--mine", "--out", "x.yaml"}, {"copy", "ionic-impost", "--as", "../x"},
	} {
		r = listel(t, user, append([]string{"library"}, args...)...)
		require.Equal(t, exitUsage, r.code, "%v: %s", args, r.err)
	}
	require.NoError(t, os.WriteFile("attic-base.yaml", []byte("kind: profile\n"), 0o666))
	require.Equal(t, exitUsage, listel(t, user, "library", "copy", "tuscan-base", "--out", "attic-base.yaml").code)
}

// A case starts from its height after a rule, and says so.
func TestNewCaseAfterARule(t *testing.T) {
	t.Chdir(t.TempDir())
	r := listel(t, "", "new", "case", "tall", "--height", "6ft", "--rule", "chippendale-tuscan")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "A starting point, after T. Chippendale")
	require.Contains(t, r.out, "under 14 13/32- in from the floor") // a fifth of 72 in: Director, pl. I
	r = listel(t, "", "check", "tall.yaml")
	require.Equal(t, exitDone, r.code, r.err)
	require.Equal(t, exitDone, listel(t, "", "miter", "tall.yaml").code)
	r = listel(t, "", "new", "case", "low", "--height", "1200", "--rule", "ware-tuscan", "--units", "mm", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, `"waist_mm": 0`)
	for _, args := range [][]string{
		{"case", "x", "--height", "6ft"}, {"case", "x", "--rule", "ware-tuscan"}, {"case", "x", "--height", "6ft", "--rule", "palladio"},
		{"profile", "x", "--height", "6ft"}, {"case", "x", "--height", "2in", "--rule", "ware-tuscan"}, {"case", "x", "--height", "6", "--rule", "ware-tuscan", "--width", "wide"},
	} {
		r = listel(t, "", append([]string{"new"}, args...)...)
		require.Equal(t, exitUsage, r.code, "%v: %s", args, r.err)
	}
}
