package trace_test

import (
	"context"
	"fmt"
	"image"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/trace"
)

// corniceOutline is a fillet, a cove, a fillet, an ovolo and a fillet with a plumb back, 32 mm out and 40 mm high.
func corniceOutline() geom.Path {
	cove := geom.Arc{Center: geom.Pt(26, 8), Radius: 12, From: 180 * geom.Degree, Sweep: -90 * geom.Degree}
	ovolo := geom.Arc{Center: geom.Pt(28, 35), Radius: 10, From: -90 * geom.Degree, Sweep: 90 * geom.Degree}
	line := func(x0, y0, x1, y1 float64) geom.Line { return geom.Line{A: geom.Pt(x0, y0), B: geom.Pt(x1, y1)} }
	return geom.Path{line(0, 0, 14, 0), line(14, 0, 14, 8), cove, line(26, 20, 28, 20), line(28, 20, 28, 25), ovolo, line(38, 35, 38, 40), line(38, 40, 0, 40), line(0, 40, 0, 0)}
}

// A crop that goes through a section is told by its side, whatever the section is drawn like.
func TestCutCrop(t *testing.T) {
	outline := corniceOutline()
	for style := outlined; style <= filled; style++ {
		img, p := scan{dpi: 200, scale: 1, style: style, seed: 2}.in(clean).render(t, outline)
		low, high := p.toPx(geom.Pt(0, 0)), p.toPx(geom.Pt(38, 40))
		box := image.Rect(int(low.X)-40, int(high.Y)-40, int(high.X)+40, int(low.Y)+40)
		for _, c := range []struct {
			side string
			by   int // px
			crop image.Rectangle
		}{
			{"left", 60, image.Rect(box.Min.X+60, box.Min.Y, box.Max.X, box.Max.Y)}, {"left", 46, image.Rect(box.Min.X+46, box.Min.Y, box.Max.X, box.Max.Y)},
			{"top", 60, image.Rect(box.Min.X, box.Min.Y+60, box.Max.X, box.Max.Y)}, {"top", 120, image.Rect(box.Min.X, box.Min.Y+120, box.Max.X, box.Max.Y)},
			{"right", 70, image.Rect(box.Min.X, box.Min.Y, box.Max.X-70, box.Max.Y)},
			{"bottom", 46, image.Rect(box.Min.X, box.Min.Y, box.Max.X, box.Max.Y-46)}, {"bottom", 150, image.Rect(box.Min.X, box.Min.Y, box.Max.X, box.Max.Y-150)},
		} {
			_, err := trace.Trace(context.Background(), img, trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "cut", Crop: c.crop}}}, trace.Options{})
			var edge *trace.EdgeError
			require.ErrorAs(t, err, &edge, "%v, %s by %d", style, c.side, c.by)
			require.Equal(t, []string{c.side}, edge.Sides, "%v by %d", style, c.by)
		}
	}
}

// A section whose face is asked for on the side of its back is refused, with its outline; a plain board with a rabbet, which may be either, is not.
func TestOtherFace(t *testing.T) {
	for style := outlined; style <= filled; style++ {
		img, p := scan{dpi: 150, scale: 1, style: style, seed: 2, left: true}.in(clean).render(t, corniceOutline())
		ask := func(side trace.Side) ([]trace.Traced, error) {
			return trace.Trace(t.Context(), img, trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "turned", Face: side}}}, trace.Options{})
		}
		got, err := ask(trace.FaceRight)
		require.ErrorIs(t, err, trace.ErrFace, "%v", style)
		require.ErrorContains(t, err, "is the face on the left?")
		require.Empty(t, got)
		var unread *trace.UnreadError
		require.ErrorAs(t, err, &unread)
		require.Greater(t, len(unread.Outline), 100)
		got, err = ask(trace.FaceLeft)
		require.NoError(t, err)
		require.Len(t, got, 1)
	}
	board := geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 40), geom.Pt(8, 40), geom.Pt(8, 22), geom.Pt(0, 22))
	img, p := scan{dpi: 150, scale: 1, seed: 2}.in(clean).render(t, board)
	got, err := trace.Trace(t.Context(), img, trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "board"}}}, trace.Options{})
	require.NoError(t, err)
	require.Contains(t, got[0].Notes, "its right side is one plumb line and its other is not; is the face on the left?")
}

// wipe takes the ink away in a square about a place, px.
func (p *page) wipe(at geom.Point, side float64) {
	for y := int(at.Y - side/2); y < int(at.Y+side/2); y++ {
		for x := int(at.X - side/2); x < int(at.X+side/2); x++ {
			p.cover[y*p.w+x] = 0
		}
	}
}

// A gap in the outline that is wider than what is closed is told with its place: where it lies, or between which parts of hatching.
func TestWideGap(t *testing.T) {
	outline := corniceOutline()
	for _, at := range []geom.Point{geom.Pt(0, 18), geom.Pt(20, 40), geom.Pt(17.5, 16.5)} {
		for _, side := range []float64{18, 40} {
			p := scan{dpi: 200, scale: 1, seed: 2}.in(clean).lay(outline)
			p.draw(outline)
			p.wipe(p.toPx(at), side)
			_, _, _, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "open"}}})
			require.ErrorIs(t, err, trace.ErrNothing)
			var wide, x, y float64
			_, text, _ := strings.Cut(err.Error(), "open by about ")
			_, scanned := fmt.Sscanf(text, "%f px near (%f, %f)", &wide, &x, &y)
			require.NoError(t, scanned, err.Error())
			require.Less(t, geom.Pt(x, y).Dist(p.toPx(at)), 0.5*side, "%v", err)
			require.InDelta(t, side, wide, 0.6*side, "%v", err)
		}
	}
	p := scan{dpi: 200, scale: 1, style: hatched, seed: 2}.in(clean).lay(outline)
	p.draw(outline)
	p.wipe(p.toPx(geom.Pt(0, 18)), 26)
	_, _, _, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "open"}}})
	var parts *trace.SeveralError
	require.ErrorAs(t, err, &parts)
	require.True(t, parts.Joined)
	require.ErrorContains(t, err, "falls into 2 parts")
	// A corner that is gone cannot be told from a chamfer; it is told that nothing was there to be followed, and where.
	corner := geom.Pt(38, 40)
	p = scan{dpi: 200, scale: 1, style: hatched, seed: 2}.in(clean).lay(outline)
	p.draw(outline)
	p.wipe(p.toPx(corner), 40)
	_, _, notes, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "open"}}})
	require.NoError(t, err)
	_, places, told := strings.Cut(strings.Join(notes, "; "), "missing, and bridged: ")
	require.True(t, told, notes)
	var long, x, y float64
	_, err = fmt.Sscanf(places, "%f px near (%f, %f)", &long, &x, &y)
	require.NoError(t, err, places)
	require.Greater(t, long, 20.0, places)
	require.Less(t, geom.Pt(x, y).Dist(p.toPx(corner)), 40.0, places)
}

// A frame round the whole crop, of a line or of two and a little turned, is left out.
func TestFrame(t *testing.T) {
	outline := corniceOutline()
	for style := outlined; style <= filled; style++ {
		p := scan{dpi: 200, scale: 1, style: style, seed: 2}.in(clean).lay(outline)
		p.draw(outline)
		for _, in := range []float64{10, 25} {
			w, h := float64(p.w), float64(p.h)
			p.ink(penned([]geom.Point{geom.Pt(in, in+6), geom.Pt(w-in-8, in), geom.Pt(w-in, h-in-6), geom.Pt(in+8, h-in), geom.Pt(in, in+6)}, 4))
		}
		got, _, notes, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "framed"}}})
		require.NoError(t, err)
		require.Contains(t, notes, "2 frames round the crop left out")
		for _, seg := range got {
			_, _, d := outline.Nearest(seg.Start())
			require.Less(t, d, 0.2, "%v at %v", style, seg.Start())
		}
	}
}
