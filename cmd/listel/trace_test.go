package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// startPlate starts a trace file in an empty folder.
func startPlate(t *testing.T, units string) {
	t.Helper()
	t.Chdir(t.TempDir())
	r := listel(t, "", "new", "trace", "plate", "--units", units)
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "listel trace plate.yaml")
	r = listel(t, "", "check", "plate.yaml")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "plate.yaml: a plate to trace, nothing wrong")
}

// The plate of the tutorial is drawn from a known profile: its members come back in their order, and their sizes; and what is traced can be drawn, cut and
// planned like any other profile.
func TestTraceThePlate(t *testing.T) {
	for _, units := range []string{"in", "mm"} {
		startPlate(t, units)
		r := listel(t, "", "trace", "plate.yaml", "--json", "--overlay", "overlay.pdf")
		require.Equal(t, exitDone, r.code, r.err)
		var got tracedJSON
		require.NoError(t, json.Unmarshal([]byte(r.out), &got))
		require.Equal(t, "plate.png", got.Image)
		require.Len(t, got.Sections, 2)
		cornice, base := got.Sections[0], got.Sections[1]
		require.Equal(t, "plate-cornice.yaml", cornice.File)
		kinds := func(s tracedSectionJSON) (out []string) {
			for _, e := range s.Elements {
				out = append(out, string(e.Kind))
			}
			return out
		}
		require.Equal(t, []string{"fillet", "cove", "fillet", "cyma-recta", "fillet"}, kinds(cornice))
		require.Contains(t, []string{"fascia", "fillet"}, kinds(base)[0])
		require.Equal(t, []string{"fillet", "cyma-reversa", "fillet"}, kinds(base)[1:])
		for i, want := range []float64{1.0 / 4, 5.0 / 8, 1.0 / 8, 9.0 / 16, 3.0 / 16} { // the sizes of the starter that it is drawn from
			require.InDelta(t, want*25.4, cornice.Elements[i].Height, 0.2, "%s, element %d", units, i+1)
		}
		for i, want := range []float64{3, 1.0 / 8, 5.0 / 8, 1.0 / 4} { // at half size the error is twice as large
			require.InDelta(t, want*25.4, base.Elements[i].Height, 0.4, "%s, element %d of the base", units, i+1)
		}
		for _, s := range got.Sections {
			require.True(t, s.Truth.Within, s.Name)
			require.Less(t, s.Truth.Greatest, s.Truth.Tolerance)
			require.Less(t, s.Truth.Mean, s.Truth.Greatest)
			require.NotEmpty(t, s.Truth.Sizes, s.Name)
			require.Greater(t, s.Truth.ScaleError, 0.0)
		}
		text, err := os.ReadFile("plate-cornice.yaml")
		require.NoError(t, err)
		require.Contains(t, string(text), "# Traced from plate.png by its scale full: a pixel is 0.")
		require.Contains(t, string(text), "off the drawing at most")
		require.Contains(t, string(text), "# height within 0.")
		for _, args := range [][]string{{"check", "plate-cornice.yaml"}, {"section", "plate-cornice.yaml"}, {"template", "plate-cornice.yaml"}, {"setups", "plate-cornice.yaml", "--effort", "quick"}} {
			r := listel(t, "", args...)
			require.Equal(t, exitDone, r.code, "%v: %s", args, r.err)
		}
		pdf, err := os.ReadFile("overlay.pdf")
		require.NoError(t, err)
		require.Less(t, len(pdf), 500_000)
	}
}

func TestTraceReport(t *testing.T) {
	startPlate(t, "in")
	r := listel(t, "", "trace", "plate.yaml")
	require.Equal(t, exitDone, r.code, r.err)
	for _, want := range []string{"Cornice, traced (plate-cornice)\nplate.png, scale full: a pixel is 0.0050 in, known within", "cyma-recta", "off the drawing: 0.", " px) at most, at x ", "within the", "height 5/8 ± 0.0"} {
		require.Contains(t, r.out, want)
	}
	require.Contains(t, r.err, "wrote plate-base.yaml")
	require.Contains(t, r.err, "note: plate-cornice: ")

	// The same again gives the same bytes, and leaves what the user changed alone.
	first, err := os.ReadFile("plate-base.yaml")
	require.NoError(t, err)
	require.Equal(t, exitDone, listel(t, "", "trace", "plate.yaml", "--units", "mm").code)
	again, err := os.ReadFile("plate-base.yaml")
	require.NoError(t, err)
	require.Equal(t, string(first), string(again))
	require.NoError(t, os.WriteFile("plate-base.yaml", append(again, "# mine\n"...), 0o666))
	require.NoError(t, os.Remove("plate-cornice.yaml"))
	r = listel(t, "", "trace", "plate.yaml")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "plate-base.yaml is there already")
	require.Contains(t, r.err, "--force")
	require.Contains(t, r.out, "Base, traced", "what was found is shown all the same")
	require.FileExists(t, "plate-cornice.yaml", "the other profile is written")
	kept, err := os.ReadFile("plate-base.yaml")
	require.NoError(t, err)
	require.Equal(t, string(again)+"# mine\n", string(kept))

	// One section of a file alone; and one that it does not have.
	r = listel(t, "", "trace", "plate.yaml", "--only", "plate-cornice")
	require.Equal(t, exitDone, r.code, r.err)
	require.NotContains(t, r.out, "Base, traced")
	r = listel(t, "", "trace", "plate.yaml", "--only", "plate-cornise")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "plate.yaml has no section \"plate-cornise\"; it has plate-cornice, plate-base")
}

// A fit outside its tolerance is said and written all the same.
func TestTraceOutsideTolerance(t *testing.T) {
	startPlate(t, "mm")
	r := listel(t, "", "trace", "plate.png", "--scale", "634.5,1032 1234.5,1026 76.2", "--crop", "690,250,1240,750", "--tolerance", "0.01mm", "--units", "mm",
		"--name", "strict", "--title", "A strict one", "--out", "made/", "--format", "svg")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "MORE THAN the 0.01 mm allowed")
	require.Contains(t, r.err, "more than the 0.01 mm allowed")
	require.FileExists(t, "made/strict.yaml")
	require.FileExists(t, "made/strict-overlay.svg")
	require.Contains(t, listel(t, "", "section", "made/strict.yaml").out, "A strict one (strict)")
}

// TestTraceByBarAndPoints traces the same cornice by its printed bar and by known points, and by clicked corners alone.
func TestTraceByBarAndPoints(t *testing.T) {
	startPlate(t, "in")
	for name, args := range map[string][]string{
		"bar":   {"--bar", "635,1032 1234,1026 3in 3"},
		"known": {"--known", "634.6,1032.1 = 0,0", "--known", "1234.6,1025.8 = 3,0", "--known", "628.1,402.1 = 0,3.15"},
		"clicked": {"--scale", "634.6,1032.1 1234.6,1025.8 3in", "--level", "634.6,1032.1 1234.6,1025.8",
			"--points", "772.7,688 897.7,686.7 897.2,636.7 910,600 940,555 975,530 1020,510 1022,510 1034.5,510 1034.2,485 1160.5,370 1160.2,342 769.1,346"},
	} {
		full := append([]string{"trace", "plate.png", "--crop", "690,250,1240,750", "--name", name, "--json"}, args...)
		r := listel(t, "", full...)
		require.Equal(t, exitDone, r.code, "%s: %s", name, r.err)
		var got tracedJSON
		require.NoError(t, json.Unmarshal([]byte(r.out), &got))
		off := 0.4
		if name == "clicked" {
			off = 1.5
		}
		require.InDelta(t, 1.75*25.4, got.Sections[0].Height, off, name)
	}
}

// Errors of a trace: what is said, and the exit code. In a file each has its place.
func TestTraceErrors(t *testing.T) {
	startPlate(t, "in")
	scale := []string{"--scale", "634.5,1032 1234.5,1026 3in"}
	write := func(name string, data []byte) { require.NoError(t, os.WriteFile(name, data, 0o666)) }
	blank := func(w, h int) []byte {
		img := image.NewGray(image.Rect(0, 0, w, h))
		for i := range img.Pix {
			img.Pix[i] = 230
		}
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, img))
		return b.Bytes()
	}
	write("blank.png", blank(300, 200))
	write("notes.png", []byte("a cornice, 2 in high\n"))
	write("broken.png", blank(300, 200)[:60])
	big := image.NewGray(image.Rect(0, 0, 10001, 10000))
	var b bytes.Buffer
	require.NoError(t, (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, big))
	write("big.png", b.Bytes())
	for _, c := range []struct {
		name string
		args []string
		code int
		want string
	}{
		{"no scale", []string{"plate.png"}, exitUsage, "how large is the section? give --scale"},
		{"coincide", []string{"plate.png", "--scale", "10,10 10,10 3in"}, exitUsage, "points that coincide"},
		{"no length", []string{"plate.png", "--scale", "10,10 90,10 3p"}, exitUsage, "3p"},
		{"length missing", []string{"plate.png", "--scale", "10,10 90,10"}, exitUsage, "the true length is missing after the two pixels"},
		{"back", append([]string{"plate.png", "--crop", "690,250,1240,750", "--back", "1400,400"}, scale...), exitFile, "leaves nothing of the section"},
		{"no pixels", []string{"plate.png", "--scale", "3in"}, exitUsage, "two pixels"},
		{"crop", append([]string{"plate.png", "--crop", "690,250,9999,750"}, scale...), exitUsage, "crop outside the image"},
		{"turned crop", append([]string{"plate.png", "--crop", "690,250,600,750"}, scale...), exitUsage, "holds nothing"},
		{"face", append([]string{"plate.png", "--face", "up"}, scale...), exitUsage, "right or left"},
		{"nothing", append([]string{"blank.png"}, scale...), exitFile, "nothing found"},
		{"several", append([]string{"plate.png", "--crop", "190,180,1300,960"}, scale...), exitFile, "sections in the crop"},
		{"missing", append([]string{"none.png"}, scale...), exitUsage, "none.png"},
		{"no image", append([]string{"notes.png"}, scale...), exitFile, "no picture that can be read"},
		{"broken", append([]string{"broken.png"}, scale...), exitFile, "300 x 200 pixels"},
		{"over the limit", append([]string{"big.png"}, scale...), exitFile, "101 megapixels; the limit is 100"},
		{"options of a file", append([]string{"plate.yaml"}, scale...), exitUsage, "--scale is for an IMAGE"},
		{"one file for two", []string{"plate.yaml", "--out", "one.yaml"}, exitUsage, "names one file, and there are 2 profiles"},
		{"no profile's name", append([]string{"plate.png", "--crop", "690,250,1240,750", "--out", "x.pdf"}, scale...), exitUsage, "--overlay takes the drawing"},
		{"overlay kind", []string{"plate.yaml", "--overlay", "x.docx"}, exitUsage, "pdf, svg or png"},
		{"no name", append([]string{"plate.png", "--name", "a/b"}, scale...), exitUsage, "is no name"},
	} {
		r := listel(t, "", append([]string{"trace"}, c.args...)...)
		require.Equal(t, c.code, r.code, "%s: %s", c.name, r.err)
		require.Contains(t, r.err, c.want, c.name)
		require.Empty(t, r.out, c.name)
	}
	files, err := os.ReadDir(".")
	require.NoError(t, err)
	require.Len(t, files, 6, "nothing was written")
}

// What is wrong with the picture of a trace file, or with what the file says of it, has its place in the file, all at once.
func TestTraceFileErrors(t *testing.T) {
	startPlate(t, "in")
	data, err := os.ReadFile("plate.yaml")
	require.NoError(t, err)
	change := func(pairs ...string) {
		require.NoError(t, os.WriteFile("plate.yaml", []byte(strings.NewReplacer(pairs...).Replace(string(data))), 0o666))
	}
	line := func(text string) int {
		return 1 + strings.Count(string(data[:strings.Index(string(data), text)]), "\n")
	}
	for _, command := range []string{"check", "trace"} {
		change("image: plate.png", "image: none.png")
		r := listel(t, "", command, "plate.yaml")
		require.Equal(t, exitFile, r.code)
		require.Contains(t, r.err, fmt.Sprintf("plate.yaml, column 8 of line %d: cannot read none.png", line("image:")))

		change("image: plate.png", "image: none.png", "to: [1234.5, 1026]", "to: [634.5, 1032]")
		r = listel(t, "", command, "plate.yaml")
		require.Contains(t, r.err, "cannot read none.png")
		require.Contains(t, r.err, "points that coincide", "a picture that cannot be read hides no other mistake")

		change("[690, 250, 1240, 750]", "[690, 250, 9240, 750]", "to: [1234.5, 1026]", "to: [634.5, 1032]", "scale: half", "scale: hafl")
		r = listel(t, "", command, "plate.yaml")
		require.Equal(t, exitFile, r.code)
		require.Contains(t, r.err, "hafl")

		change("[690, 250, 1240, 750]", "[690, 250, 9240, 750]", "to: [1234.5, 1026]", "to: [634.5, 1032]")
		r = listel(t, "", command, "plate.yaml")
		require.Equal(t, exitFile, r.code)
		require.Contains(t, r.err, fmt.Sprintf("line %d: scale full: points that coincide", line("- name: full")))
		require.Contains(t, r.err, fmt.Sprintf("line %d: section plate-cornice: crop outside the image", line("crop: [690")))
	}
	// What only the picture shows is told by check too: the scale bar of the plate has other divisions.
	change("divisions: ", "divisions: 1")
	r := listel(t, "", "check", "plate.yaml")
	require.Equal(t, exitFile, r.code)
	require.Contains(t, r.err, "a scale bar with other divisions than are said")
	// One section that cannot be found does not keep the others from being traced.
	change("[690, 250, 1240, 750]", "[5, 5, 45, 45]")
	r = listel(t, "", "trace", "plate.yaml")
	require.Equal(t, exitFile, r.code)
	require.Contains(t, r.err, "section plate-cornice: nothing found")
	require.Contains(t, r.out, "Base, traced")
	require.FileExists(t, "plate-base.yaml")
	require.NoFileExists(t, "plate-cornice.yaml")

	// A section that is called as its own file never takes that file's place.
	change("name: plate-base", "name: plate")
	r = listel(t, "", "trace", "plate.yaml")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "would be written over plate.yaml")
}

// An interrupt ends a trace before anything is written.
func TestTraceStops(t *testing.T) {
	startPlate(t, "in")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, errs bytes.Buffer
	code := Main([]string{"trace", "plate.yaml"}, App{Out: &out, Err: &errs, Context: ctx, Now: time.Now})
	require.Equal(t, exitFault, code)
	require.Contains(t, errs.String(), "stopped; nothing was written")
	require.NoFileExists(t, "plate-base.yaml")
	require.Empty(t, out.String())
}

// The bar of a trace moves on a terminal once the work takes over a second, and is wiped at the end.
func TestTraceBar(t *testing.T) {
	now := time.Time{}
	var errs bytes.Buffer
	app := App{Err: &errs, Terminal: true, Now: func() time.Time { return now }}
	bar := app.newProgress("tracing", 1)
	bar.part("ink", 1, 4)
	require.Empty(t, errs.String())
	now = now.Add(1500 * time.Millisecond)
	bar.part("edges", 2, 4)
	require.Contains(t, errs.String(), "tracing [###############...............] 1 s")
	bar.end()
	require.True(t, strings.HasSuffix(errs.String(), " \r"))
}
