package trace_test

import (
	"context"
	"image"
	"image/draw"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/trace"
)

// onPage lays a scan on a page of that size, its left top corner at (x, y).
func onPage(scan image.Image, w, h, x, y int) *image.Gray {
	page := image.NewGray(image.Rect(0, 0, w, h))
	for i := range page.Pix {
		page.Pix[i] = uint8(228 + (i*7919>>5)&7) // paper with some grain
	}
	draw.Draw(page, scan.Bounds().Add(image.Pt(x, y)), scan, image.Point{}, draw.Src)
	return page
}

// pageOf returns a page with one hatched section of the library and its scale.
func pageOf(tb testing.TB, dpi float64, w, h int) (*image.Gray, trace.Plate) {
	s, err := library.Open("", "").SectionOf("bolection")
	require.NoError(tb, err)
	img, p := scan{dpi: dpi, scale: 1, style: hatched, seed: 5}.in(dimensioned).render(tb, s.Outline)
	return onPage(img, w, h, w/3, h/2), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "bolection"}}}
}

// A page of 100 megapixels is traced in less than 1 GB. Of that the page is a tenth.
func TestTraceLargePage(t *testing.T) {
	if testing.Short() {
		t.Skip("seconds")
	}
	img, plate := pageOf(t, 300, 10000, 10000)
	runtime.GC()
	var after runtime.MemStats
	got, err := trace.Trace(context.Background(), img, plate, trace.Options{})
	require.NoError(t, err)
	require.Len(t, got, 1)
	runtime.ReadMemStats(&after)
	require.Less(t, float64(after.Sys)/1e6, 900.0, "MB taken from the system in all, the page of 100 among them")
	t.Logf("%.0f MB", float64(after.Sys)/1e6)
	runtime.KeepAlive(img)
}

func BenchmarkTracePage(b *testing.B) {
	img, plate := pageOf(b, 300, 2480, 3508)
	for b.Loop() {
		_, err := trace.Trace(context.Background(), img, plate, trace.Options{})
		require.NoError(b, err)
	}
}
