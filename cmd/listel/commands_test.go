package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

func TestNewThenCheckThenDraw(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, units := range []string{"in", "mm"} {
		for _, kind := range []string{"profile", "case"} {
			name := kind + "-" + units
			r := listel(t, "", "new", kind, name, "--units", units)
			require.Equal(t, exitDone, r.code, r.err)
			r = listel(t, "", "check", name+".yaml")
			require.Equal(t, exitDone, r.code, r.err)
			require.Contains(t, r.out, "nothing wrong")
			require.Empty(t, r.err)
		}
	}
	r := listel(t, "", "new", "profile", "profile-in")
	require.Equal(t, exitDone, r.code, "a file that listel wrote and nobody changed may be written again: %s", r.err)
	require.NoError(t, os.WriteFile("mine.yaml", []byte("kind: profile\n"), 0o666))
	r = listel(t, "", "new", "profile", "mine")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "--force")
}

func TestSectionJSON(t *testing.T) {
	r := listel(t, "", "section", "press-cornice", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	var got struct {
		Height   float64        `json:"height_mm"`
		Area     float64        `json:"area_mm2"`
		Outline  [][2]float64   `json:"outline"`
		Elements []elementJSON  `json:"elements"`
		Blank    map[string]any `json:"blank"`
	}
	require.NoError(t, json.Unmarshal([]byte(r.out), &got))
	require.InDelta(t, 2.5*25.4, got.Height, 1e-9)
	require.Len(t, got.Elements, 5)
	require.InDelta(t, got.Area, shoelace(got.Outline), got.Area*1e-3)
	require.Contains(t, got.Blank, "thickness_mm")
}

// shoelace returns the area of a polygon.
func shoelace(p [][2]float64) float64 {
	sum := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += a[0]*b[1] - b[0]*a[1]
	}
	return sum / 2
}

func TestSectionInAnotherSize(t *testing.T) {
	r := listel(t, "", "section", "press-cornice", "--height", "3in", "--units", "mm")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "height 76.2 mm")
	r = listel(t, "", "section", "press-cornice", "--height", "3 potatoes")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "3 potatoes")
}

func TestMiterJSONHasTheFields(t *testing.T) {
	r := listel(t, "", "miter", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	var got map[string]any
	require.NoError(t, json.Unmarshal([]byte(r.out), &got))
	require.Equal(t, "herb-press", got["name"])
	molding := got["moldings"].([]any)[0].(map[string]any)
	for _, key := range []string{"name", "profile", "pieces", "spline", "pin", "movement"} {
		require.Contains(t, molding, key)
	}
	piece := molding["pieces"].([]any)[0].(map[string]any)
	for _, key := range []string{"mark", "run", "hand", "count", "back_mm", "long_mm", "short_mm", "seat_mm", "rough_mm", "ends"} {
		require.Contains(t, piece, key)
	}
	end := piece["ends"].([]any)[0].(map[string]any)
	for _, key := range []string{"end", "kind", "corner_deg", "tenon_mm", "standing", "flat"} {
		require.Contains(t, end, key)
	}
	for _, key := range []string{"miter_deg", "bevel_deg", "swing", "tilt", "table", "fence", "keep"} {
		require.Contains(t, end["standing"], key)
	}
}

func TestMiterTable(t *testing.T) {
	r := listel(t, "", "miter")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "miter 31.62°, bevel 33.86°") // spring 38: 33.9 in the tables of miter-saw manuals
	require.Contains(t, r.out, " divider-1, divider-2 ", "pieces that share a mark are told with all their places")
}

func TestTemplateAndPacketFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	require.Equal(t, exitDone, listel(t, "", "template", "press-base").code)
	require.FileExists(t, "press-base-template.pdf")
	r := listel(t, "", "packet", "--no-setups", "--out", ".")
	require.Equal(t, exitDone, r.code, r.err)
	first, err := os.ReadFile("herb-press-packet.pdf")
	require.NoError(t, err)
	require.Less(t, len(first), 1<<20, "the packet stays under 1 MB")
	require.Equal(t, exitDone, listel(t, "", "packet", "--no-setups", "--out", "again.pdf").code)
	again, err := os.ReadFile("again.pdf")
	require.NoError(t, err)
	require.True(t, bytes.Equal(first, again), "same input, same bytes")

	require.Equal(t, exitDone, listel(t, "", "packet", "--no-setups", "--format", "svg", "--out", "sheets/", "--paper", "A4").code)
	files, err := filepath.Glob("sheets/*.svg")
	require.NoError(t, err)
	require.Greater(t, len(files), 6)

	// One foreign file among them, and none is written.
	require.NoError(t, os.Mkdir("other", 0o777))
	require.NoError(t, os.WriteFile("other/herb-press-packet-03.svg", []byte("<svg/>"), 0o666))
	require.Equal(t, exitUsage, listel(t, "", "packet", "--no-setups", "--format", "svg", "--out", "other/").code)
	files, err = filepath.Glob("other/*")
	require.NoError(t, err)
	require.Len(t, files, 1)
}

func TestPrinterIsRecordedAndUsed(t *testing.T) {
	user := filepath.Join(t.TempDir(), "listel")
	t.Chdir(t.TempDir())
	require.Equal(t, exitDone, listel(t, user, "printer", "page").code)
	r := listel(t, user, "printer", "record", "shop", "--across", "99.4", "--up", "3.93in")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, listel(t, user, "printer", "list").out, "99.40 %  99.82 %")
	r = listel(t, user, "section", "press-base", "--out", "base.svg", "--printer", "shop")
	require.Equal(t, exitDone, r.code, r.err)
	svg, err := os.ReadFile("base.svg")
	require.NoError(t, err)
	require.Contains(t, string(svg), "Corrected for the printer shop")
	r = listel(t, user, "packet", "--printer", "shp")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "shop?")
	r = listel(t, user, "printer", "record", "far", "--across", "90", "--up", "100")
	require.Equal(t, exitUsage, r.code)
}

func TestLibraryListAndShow(t *testing.T) {
	r := listel(t, "", "library", "list", "profile")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "press-waist")
	require.Contains(t, r.out, "embedded library")
	r = listel(t, "", "library", "show", "ionic-impost")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "cyma-reversa")
	r = listel(t, "", "library", "show", "ionic-impots")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "ionic-impost?")
	require.Equal(t, exitUsage, listel(t, "", "library", "list", "planets").code)
}

func TestWrongUse(t *testing.T) {
	for _, args := range [][]string{
		{"packt"}, {"section"}, {"section", "a", "b"}, {"packet", "--paper", "A44"}, {"packet", "--paper", "A9"}, {"packet", "--format", "dxf"}, {"packet", "--out", "x.docx"},
		{"packet", "--out", "x.svg", "--format", "png"},
		{"packet", "--nothing"}, {"miter", "--units", "furlong"}, {"miter", "--fraction", "7"}, {"new", "boat", "x"}, {"new", "profile", "a/b"},
		{"printer", "record", "x"}, {"library", "sow"}, {"section", "press-base", "--scale", "0"}, {"template", "herb-press", "--scale", "2"},
	} {
		r := listel(t, "", args...)
		require.Equal(t, exitUsage, r.code, "%v: %s", args, r.err)
		require.NotEmpty(t, r.err, "%v", args)
		require.Empty(t, r.out, "%v", args)
	}
}

func TestMissingFile(t *testing.T) {
	r := listel(t, "", "miter", "no-such.yaml")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "no-such.yaml")
}

// TestHelp holds that every command explains itself with an example and takes --json.
func TestHelp(t *testing.T) {
	var visit func(c *cobra.Command)
	visit = func(c *cobra.Command) {
		for _, sub := range c.Commands() {
			if sub.Name() == "help" || strings.HasPrefix(c.CommandPath()+" "+sub.Name(), "listel completion") {
				continue
			}
			require.NotEmpty(t, sub.Example, sub.CommandPath())
			require.NotEmpty(t, sub.Short, sub.CommandPath())
			if !sub.HasSubCommands() {
				require.NotNil(t, sub.Flags().Lookup("json"), sub.CommandPath())
			}
			visit(sub)
		}
	}
	visit(newRootCmd(NewApp()))
}

func TestCompletions(t *testing.T) {
	require.Contains(t, listel(t, "", "__complete", "section", "press-").out, "press-waist")
	require.Contains(t, listel(t, "", "__complete", "packet", "").out, "herb-press")
	require.Contains(t, listel(t, "", "__complete", "packet", "--paper", "").out, "ANSI B")
}
