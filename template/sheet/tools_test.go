package sheet_test

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
)

// second runs a program that gives a second opinion. Where it is not installed the test is skipped, and fails instead
// when LISTEL_REQUIRE_TOOLS is set.
func second(t *testing.T, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("LISTEL_REQUIRE_TOOLS") != "" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed: its second opinion is left out", name)
	}
	out, err := exec.CommandContext(t.Context(), path, args...).CombinedOutput()
	require.NoError(t, err, "%s: %s", name, out)
	return string(out)
}

// sample writes a file with each kind of mark on several sizes of page.
func sample(t *testing.T) string {
	t.Helper()
	pages := []sheet.Page{everything(t), bare(paper(t, "Letter landscape"), sheet.Drawing{sheet.Text{At: geom.Pt(100, 100), S: "1 23⁄64 in × 7⁄8 ½"}})}
	for _, tile := range tiles(t, 0, large()) {
		pages = append(pages, tile.Page)
	}
	path := filepath.Join(t.TempDir(), "sample.pdf")
	require.NoError(t, os.WriteFile(path, pdfBytes(t, pages...), 0o600))
	return path
}

func TestQPDFFindsNoFault(t *testing.T) {
	assert.Contains(t, second(t, "qpdf", "--check", sample(t)), "No syntax or stream encoding errors")
}

func TestPDFInfoReadsTheFile(t *testing.T) {
	path := sample(t)
	out := second(t, "pdfinfo", "-f", "1", "-l", "2", path)
	assert.Regexp(t, `Title: +Low press`, out)
	assert.Regexp(t, `Page +1 size: +595\.276 x 841\.89 pts \(A4\)`, out)
	assert.Regexp(t, `Page +2 size: +792 x 612 pts \(letter\)`, out)
	assert.NotContains(t, out, "Date")
	fonts := strings.Split(strings.TrimSpace(second(t, "pdffonts", path)), "\n")[2:]
	assert.Len(t, fonts, 2)
	for _, f := range fonts {
		assert.Regexp(t, `TrueType .*yes yes yes`, f, "embedded, subset, with a table to characters")
	}
}

func TestTextReadsBack(t *testing.T) {
	out := second(t, "pdftotext", sample(t), "-")
	assert.Contains(t, out, "1 23⁄64 in × 7⁄8 ½")
	assert.Contains(t, out, "Section at full size with its members.")
}

// Another reader finds the bars at their true lengths too.
func TestTraceMeasuresTheBars(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bars.pdf")
	require.NoError(t, os.WriteFile(path, pdfBytes(t, sheet.Page{Paper: paper(t, "A4"), Frame: fullSize()}), 0o600))
	out := second(t, "mutool", "trace", path)
	lines := regexp.MustCompile(`transform="(\S+) 0 0 \S+ \S+ \S+"[^>]*>\s*<moveto x="(\S+)" y="(\S+)"/>\s*<lineto x="(\S+)" y="(\S+)"/>`)
	across, up := 0, 0
	for _, m := range lines.FindAllStringSubmatch(out, -1) {
		v := floats(t, m[1:])
		k := v[0] / (72 / 25.4)
		dx, dy := (v[3]-v[1])*k, (v[4]-v[2])*k
		if near(dx, 100) && near(dy, 0) {
			across++
		}
		if near(dx, 0) && near(dy, 100) {
			up++
		}
	}
	assert.Equal(t, 1, across)
	assert.Equal(t, 1, up)
}

func near(a, b float64) bool { return max(a-b, b-a) <= 0.01 || max(-a-b, a+b) <= 0.01 }

// The SVG and the PDF of a page look the same: drawn by two other programs, no dot of ink is further than a
// dot from one of the other's.
func TestSVGLooksLikePDF(t *testing.T) {
	dir := t.TempDir()
	page := everything(t)
	page.Content = append(page.Content[:1:1], page.Content[2:]...) // without the picture, which each program smooths its own way
	pdf, svgFile := filepath.Join(dir, "p.pdf"), filepath.Join(dir, "p.svg")
	require.NoError(t, os.WriteFile(pdf, pdfBytes(t, page), 0o600))
	var b bytes.Buffer
	require.NoError(t, sheet.WriteSVG(&b, sheet.Document{Pages: []sheet.Page{page}}.Numbered().Pages[0]))
	require.NoError(t, os.WriteFile(svgFile, b.Bytes(), 0o600))
	second(t, "pdftoppm", "-png", "-scale-to-x", "840", "-scale-to-y", "1188", "-singlefile", pdf, filepath.Join(dir, "a"))
	second(t, "rsvg-convert", "-w", "840", "-h", "1188", "-o", filepath.Join(dir, "b.png"), svgFile)
	a, c := dots(t, filepath.Join(dir, "a.png")), dots(t, filepath.Join(dir, "b.png"))
	require.Equal(t, len(a), len(c))
	ink := 0
	for _, v := range a {
		if v < 128 {
			ink++
		}
	}
	require.Greater(t, ink, 3000)
	assert.Zero(t, stray(a, c, 840)+stray(c, a, 840))
}

// stray counts the dark dots of one picture that have nothing dark beside them in the other.
func stray(a, b []byte, width int) (n int) {
	for i, v := range a {
		if v >= 100 {
			continue
		}
		found := false
		for _, at := range [9]int{0, -1, 1, -width, width, -width - 1, -width + 1, width - 1, width + 1} {
			found = found || (i+at >= 0 && i+at < len(b) && b[i+at] < 200)
		}
		if !found {
			n++
		}
	}
	return n
}

// dots returns the shades of a picture's dots.
func dots(t *testing.T, path string) []byte {
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	gray := image.NewGray(img.Bounds())
	draw.Draw(gray, gray.Rect, img, img.Bounds().Min, draw.Src)
	return gray.Pix
}
