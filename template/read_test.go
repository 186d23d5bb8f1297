package template_test

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
	"listel/template/sheet/sheettest"
)

// figure is what the sheets promise: any drawn point within 0.01 mm.
const figure = 0.01

// steps is how many chords stand for a curve of the file: arcs are drawn in parts of 30 degrees at most, so that at a radius of 60 mm they
// stay within 0.004 mm of it.
const steps = 24

// readBack writes the pages as a PDF and reads them again.
func readBack(t testing.TB, pages []sheet.Page) *sheettest.File {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, sheet.WritePDF(&b, sheet.Document{Pages: pages}))
	f, err := sheettest.ReadPDF(b.Bytes())
	require.NoError(t, err)
	require.Len(t, f.Pages, len(pages))
	return f
}

func isWidth(p sheettest.Path, width float64) bool {
	return p.Stroked && math.Abs(p.Width-width) < 1e-3
}

func boundsOf(pts []geom.Point) geom.Rect {
	r := geom.EmptyRect()
	for _, p := range pts {
		r = r.Include(p)
	}
	return r
}

// findOutline returns the points of the closed path of that pen that is an outline moved, moved back onto it; nil when the page has none.
func findOutline(page sheettest.Page, outline geom.Path, width float64) []geom.Point {
	want := outline.Bounds()
	for _, p := range page.Paths {
		if !isWidth(p, width) || len(p.Runs) != 1 || !p.Runs[0].Closed {
			continue
		}
		pts := p.Points(steps)
		b := boundsOf(pts)
		if math.Abs(b.Width()-want.Width()) > figure || math.Abs(b.Height()-want.Height()) > figure {
			continue
		}
		move := want.Min.Sub(b.Min)
		for i := range pts {
			pts[i] = pts[i].Add(move)
		}
		if greatestDistance(pts, outline) <= figure {
			return pts
		}
	}
	return nil
}

// greatestDistance returns how far the farthest of the points lies from the path.
func greatestDistance(pts []geom.Point, path geom.Path) float64 {
	most := 0.0
	for _, p := range pts {
		_, _, d := path.Nearest(p)
		most = max(most, d)
	}
	return most
}

// covers checks that every point of the path, two millimeters apart and at its joints, lies on one of the drawn lines.
func covers(t *testing.T, path geom.Path, drawn []geom.Path, what string) {
	t.Helper()
	bounds := make([]geom.Rect, len(drawn))
	for i, d := range drawn {
		bounds[i] = d.Bounds().Expand(1)
	}
	for _, s := range path {
		n := max(2, int(s.Length()/2))
		for i := 0; i <= n; i++ {
			q := s.At(float64(i) / float64(n))
			near := math.Inf(1)
			for i, d := range drawn {
				if !bounds[i].Contains(q) {
					continue
				}
				_, _, dist := d.Nearest(q)
				near = min(near, dist)
			}
			if near > figure {
				t.Fatalf("%s: the outline's point %v is not drawn (nearest %.4f mm)", what, q, near)
			}
		}
	}
}
