package serve_test

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// TestReadmePage holds that the README's picture of the page is what the page looks like: square by square its brightness, since letters
// differ from machine to machine. UPDATE_GOLDEN=1 takes it anew.
func TestReadmePage(t *testing.T) {
	text, _, err := library.Open("", "").Text(library.KindProfile, "press-cornice")
	require.NoError(t, err)
	b := openTab(t, map[string]string{"press-cornice.yaml": string(text)}, desk)
	value[bool](b, `(() => { localStorage.setItem("listel:prefs", JSON.stringify({ learned: ["add", "drag"] })); return true; })()`)
	b.reload()
	b.open("press-cornice.yaml")
	b.choose(1)
	value[bool](b, `(() => { document.activeElement.blur(); return true; })()`)
	b.settle()
	got := b.picture()
	const golden = "../../../testdata/readme/page.png"
	if os.Getenv("UPDATE_GOLDEN") != "" {
		require.NoError(t, os.WriteFile(golden, got, 0o666))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	most, mean := difference(t, want, got)
	t.Logf("the squares differ by %.1f at most, by %.2f in the mean, of 255", most, mean)
	require.Less(t, most, 60.0, "UPDATE_GOLDEN=1 takes it anew")
	require.Less(t, mean, 3.0, "UPDATE_GOLDEN=1 takes it anew")
}

// difference compares the brightness of two pictures in squares of 16 pixels.
func difference(t *testing.T, a, b []byte) (most, mean float64) {
	t.Helper()
	p, err := png.Decode(bytes.NewReader(a))
	require.NoError(t, err)
	q, err := png.Decode(bytes.NewReader(b))
	require.NoError(t, err)
	require.Equal(t, p.Bounds(), q.Bounds())
	const side = 16
	n := 0.0
	for y := p.Bounds().Min.Y; y < p.Bounds().Max.Y; y += side {
		for x := p.Bounds().Min.X; x < p.Bounds().Max.X; x += side {
			square := image.Rect(x, y, x+side, y+side).Intersect(p.Bounds())
			d := math.Abs(brightness(p, square) - brightness(q, square))
			most, mean, n = max(most, d), mean+d, n+1
		}
	}
	return most, mean / n
}

func brightness(p image.Image, in image.Rectangle) float64 {
	sum := 0.0
	for y := in.Min.Y; y < in.Max.Y; y++ {
		for x := in.Min.X; x < in.Max.X; x++ {
			r, g, b, _ := p.At(x, y).RGBA()
			sum += float64(r+g+b) / 3 / 257
		}
	}
	return sum / float64(in.Dx()*in.Dy())
}
