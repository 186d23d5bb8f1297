package sheet_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
)

func svg(t testing.TB, p sheet.Page) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, sheet.WriteSVG(&b, p))
	return b.String()
}

var arcCommand = regexp.MustCompile(`A([\d.]+) ([\d.]+) (-?[\d.]+) ([01]) ([01]) (-?[\d.]+) (-?[\d.]+)`)

// Radii in the file are the arcs' own, written to a millionth of a mm; a 1 1/16 in radius is 26.9875 mm.
func TestArcsInSVG(t *testing.T) {
	radii := []float64{1.0 / 3, 26.9875, 500}
	for _, r := range radii {
		c := geom.Pt(600, 600)
		arc := geom.Arc{Center: c, Radius: r, From: 20 * geom.Degree, Sweep: 179.9 * geom.Degree}
		out := svg(t, bare(sheet.Paper{Width: 1200, Height: 1200}, sheet.Drawing{sheet.Stroke{Path: geom.Path{arc}, Pen: sheet.PenThin}}))
		found := arcCommand.FindAllStringSubmatch(out, -1)
		require.Len(t, found, 2)
		at := arc.Start()
		for _, m := range found {
			v := floats(t, m[1:])
			assert.InDelta(t, r, v[0], 5e-7)
			assert.InDelta(t, r, v[1], 5e-7)
			end := geom.Pt(v[5], 1200-v[6])
			// The center that a viewer works out from radius and ends is the arc's own.
			half, mid := end.Sub(at).Norm()/2, at.Lerp(end, 0.5)
			center := mid.Add(end.Sub(at).Unit().Left().Mul(math.Sqrt(r*r - half*half)))
			assert.InDelta(t, 0, center.Dist(c), 0.001)
			assert.Equal(t, 0.0, v[4], "counter-clockwise with y up is flag 0 with y down")
			at = end
		}
		assert.InDelta(t, 0, at.Dist(arc.End()), 0.001)
	}
}

// An elliptic arc keeps both radii and its turn.
func TestEllipsesInSVG(t *testing.T) {
	e := geom.EllipticArc{Center: geom.Pt(100, 100), RX: 20, RY: 12, Turn: 30 * geom.Degree, From: 0, Sweep: -80 * geom.Degree}
	m := arcCommand.FindStringSubmatch(svg(t, bare(paper(t, "A4"), sheet.Drawing{sheet.Stroke{Path: geom.Path{e}, Pen: sheet.PenThin}})))
	require.NotNil(t, m)
	assert.Equal(t, []float64{20, 12, -30, 0, 1}, floats(t, m[1:])[:5])
}

func floats(t testing.TB, s []string) []float64 {
	out := make([]float64, len(s))
	for i := range s {
		var err error
		out[i], err = strconv.ParseFloat(s[i], 64)
		require.NoError(t, err)
	}
	return out
}

// The file is well-formed, has the paper's true size, and says its title, purpose and number; one unit is 1 mm (CSS: 1
// in = 25.4 mm = 96 px).
func TestSVGIsWhole(t *testing.T) {
	doc := sheet.Document{Pages: []sheet.Page{everything(t)}}.Numbered()
	out := svg(t, doc.Pages[0])
	assert.Contains(t, out, `width="210mm" height="297mm" viewBox="0 0 210 297"`)
	assert.Contains(t, out, "<title>Waist molding, section</title>")
	assert.Contains(t, out, "<desc>Section at full size with its members.; sheet 1 of 1</desc>")
	assert.Contains(t, out, `aria-label="bold &amp; up ½ 7⁄16"`)
	assert.Contains(t, out, `<g class="section">`)
	assert.NotContains(t, out, "-0 ")
	assert.NotContains(t, out, "NaN")
	dec := xml.NewDecoder(strings.NewReader(out))
	ids, depth := map[string]bool{}, 0
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch tok := tok.(type) {
		case xml.StartElement:
			depth++
			for _, a := range tok.Attr {
				switch {
				case a.Name.Local == "id":
					assert.False(t, ids[a.Value], "id %s twice", a.Value)
					ids[a.Value] = true
				case tok.Name.Local == "use" && a.Name.Local == "href":
					assert.True(t, ids[strings.TrimPrefix(a.Value, "#")], "%s is not defined before its use", a.Value)
				}
			}
		case xml.EndElement:
			depth--
		}
	}
	assert.Zero(t, depth)
}

// golden compares with a file in testdata, or writes it when UPDATE_GOLDEN is set.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if os.Getenv("UPDATE_GOLDEN") != "" {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	if !bytes.Equal(want, got) {
		t.Errorf("%s differs; look at it, and run again with UPDATE_GOLDEN=1 if it is right", path)
	}
}

func TestGoldenDrafting(t *testing.T) {
	golden(t, "drafting.svg", []byte(svg(t, sheet.FitPage(drafting(), 6, "Drafting", "Every kind of dimension and note"))))
}

func TestGoldenPage(t *testing.T) {
	doc := sheet.Document{Pages: []sheet.Page{everything(t)}}.Numbered()
	golden(t, "page.svg", []byte(svg(t, doc.Pages[0])))
}
