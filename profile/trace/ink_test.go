package trace_test

import (
	"context"
	"image"
	"image/color"
	"image/color/palette"
	"image/draw"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/geom"
	"listel/profile/trace"
)

// perPixel is a scale of that many millimeters in a pixel, nothing turned.
func perPixel(mm float64) trace.Scale {
	return trace.Scale{Name: "s", Lengths: []trace.Length{{From: geom.Pt(0, 0), To: geom.Pt(1000, 0), MM: 1000 * mm}},
		Level: &trace.Line{From: geom.Pt(0, 0), To: geom.Pt(1000, 0)}}
}

// disc returns a picture of a ring of ink in closed form: each pixel as dark as the distance of its middle from the ring's edges says, over
// one pixel. inner is 0 for a disc.
func disc(size int, middle geom.Point, outer, inner float64, shade func(x, y int, dark float64) float64) *image.Gray {
	img := image.NewGray(image.Rect(0, 0, size, size))
	for y := range size {
		for x := range size {
			r := geom.Pt(float64(x)+0.5, float64(y)+0.5).Dist(middle)
			in := math.Min(1, math.Max(0, outer-r+0.5))
			if inner > 0 {
				in = math.Min(in, math.Min(1, math.Max(0, r-inner+0.5)))
			}
			img.SetGray(x, y, color.Gray{Y: uint8(math.Min(255, math.Max(0, shade(x, y, in)+0.5)))})
		}
	}
	return img
}

// A disc of known radius: its edge is found to a twentieth of a pixel, and its radius to a fiftieth, on even paper and on paper that darkens by a third over the page,
// is stained, grainy, shows the other side through, or is dark while the ink is light.
func TestEdgeOfDisc(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	even := func(_, _ int, dark float64) float64 { return 230 - 190*dark }
	for _, c := range []struct {
		name       string
		shade      func(x, y int, dark float64) float64
		mean, most float64 // px
	}{
		{"even", even, 0.06, 0.2},
		{"darkening", func(x, y int, dark float64) float64 { p := 240 - 80*float64(x)/400; return p + (40-p)*dark }, 0.06, 0.3},
		{"stained", func(x, y int, dark float64) float64 {
			p := 230 - 60*math.Exp(-(math.Pow(float64(x)-120, 2)+math.Pow(float64(y)-200, 2))/9000)
			return p + (40-p)*dark
		}, 0.06, 0.3},
		{"grainy", func(x, y int, dark float64) float64 { return even(x, y, dark) + 7*rng.NormFloat64() }, 0.08, 0.4},
		{"shows through", func(x, y int, dark float64) float64 {
			if x/9%3 == 0 && y/5%2 == 0 {
				return 195 - 155*dark
			}
			return even(x, y, dark)
		}, 0.1, 0.4},
		{"negative", func(x, y int, dark float64) float64 { return 60 + 160*dark }, 0.06, 0.2},
	} {
		for _, inner := range []float64{0, 114} {
			img := disc(400, geom.Pt(201.3, 198.8), 120, inner, c.shade)
			outline, pixels, notes, err := trace.Drawing(img, trace.Plate{Scales: []trace.Scale{perPixel(0.1)}, Sections: []trace.Wanted{{Name: "disc"}}})
			require.NoError(t, err, c.name)
			want := 120.0
			if inner > 0 {
				want = 117
			}
			sum, most, bias := 0.0, 0.0, 0.0
			for _, s := range outline {
				d := pixels.Apply(s.Start()).Dist(geom.Pt(201.3, 198.8)) - want
				sum, most, bias = sum+math.Abs(d), math.Max(most, math.Abs(d)), bias+d
			}
			require.Less(t, math.Abs(bias)/float64(len(outline)), 0.02, "%s, inner %g: %v", c.name, inner, notes)
			require.Less(t, sum/float64(len(outline)), c.mean, "%s, inner %g: %v", c.name, inner, notes)
			require.Less(t, most, c.most, "%s, inner %g: %v", c.name, inner, notes)
		}
	}
}

// The same picture in every kind of image gives the same outline.
func TestKindsOfImage(t *testing.T) {
	src := disc(300, geom.Pt(150, 150), 90, 0, func(_, _ int, dark float64) float64 { return 230 - 190*dark })
	b := src.Bounds()
	plate := trace.Plate{Scales: []trace.Scale{perPixel(0.1)}, Sections: []trace.Wanted{{Name: "disc"}}}
	want, _, _, err := trace.Drawing(src, plate)
	require.NoError(t, err)
	ycc := image.NewYCbCr(b, image.YCbCrSubsampleRatio420)
	copy(ycc.Y, src.Pix)
	moved := image.NewGray(image.Rect(0, 0, 400, 380))
	draw.Draw(moved, moved.Bounds(), image.NewUniform(color.Gray{Y: 230}), image.Point{}, draw.Src)
	draw.Draw(moved, b.Add(image.Pt(60, 50)), src, image.Point{}, draw.Src)
	for name, img := range map[string]image.Image{
		"rgba": drawn(image.NewRGBA(b), src), "nrgba": drawn(image.NewNRGBA(b), src), "gray16": drawn(image.NewGray16(b), src),
		"rgba64": drawn(image.NewRGBA64(b), src), "cmyk": drawn(image.NewCMYK(b), src), "ycbcr": ycc,
		"paletted": drawn(image.NewPaletted(b, palette.Plan9), src), "part": moved.SubImage(b.Add(image.Pt(60, 50))),
	} {
		got, _, _, err := trace.Drawing(img, plate)
		require.NoError(t, err, name)
		limit := 0.002 // mm: the scale is 0.1
		if name == "paletted" {
			limit = 0.03 // the palette has eight grays
		}
		require.Less(t, geom.Hausdorff(got, want, 0.1), limit, name)
	}
}

func drawn(to draw.Image, src image.Image) image.Image {
	draw.Draw(to, to.Bounds(), src, image.Point{}, draw.Src)
	return to
}

// The same molding drawn at two scales in one picture comes out the same within the error of the smaller.
func TestTwoScales(t *testing.T) {
	s, err := library.Open("", "").SectionOf("bolection")
	require.NoError(t, err)
	page := onPage(image.NewGray(image.Rectangle{}), 2000, 1500, 0, 0)
	var plate trace.Plate
	x := 50
	for i, k := range []float64{1, 0.5} {
		img, p := scan{dpi: 300, scale: k, style: hatched, seed: 11}.in(clean).render(t, s.Outline)
		draw.Draw(page, img.Bounds().Add(image.Pt(x, 100)), img, image.Point{}, draw.Src)
		known := p.known()
		known.Name = []string{"full", "half"}[i]
		plate.Scales = append(plate.Scales, known)
		plate.Sections = append(plate.Sections, trace.Wanted{Name: known.Name, Scale: known.Name, Crop: img.Bounds().Add(image.Pt(x, 100))})
		x += img.Bounds().Dx() + 50
	}
	got, err := trace.Trace(context.Background(), page, plate, trace.Options{})
	require.NoError(t, err)
	require.Less(t, geom.Hausdorff(got[0].Outline, got[1].Outline, 0.1), 0.3)
	require.Less(t, geom.Hausdorff(got[0].Section.Outline, got[1].Section.Outline, 0.1), 0.3)
	require.InDelta(t, s.Height, got[0].Section.Height, 0.2)
	require.InDelta(t, s.Height, got[1].Section.Height, 0.4)
	require.True(t, got[0].Truth.Within)
	for _, p := range []geom.Point{geom.Pt(0, s.Height), geom.Pt(s.Projection, 0)} { // the mapping back goes into the section's own crop
		require.True(t, image.Pt(int(got[1].Pixels.Apply(p).X), int(got[1].Pixels.Apply(p).Y)).In(plate.Sections[1].Crop))
	}
}

// Clicked corners are the outline; no ink is looked at and no image is needed.
func TestClicked(t *testing.T) {
	corners := []geom.Point{geom.Pt(100, 100), geom.Pt(400, 100), geom.Pt(400, 200), geom.Pt(300, 200), geom.Pt(300, 500), geom.Pt(100, 500)}
	outline, _, _, err := trace.Drawing(nil, trace.Plate{Scales: []trace.Scale{perPixel(0.1)}, Sections: []trace.Wanted{{Name: "step", Points: corners}}})
	require.NoError(t, err)
	require.Less(t, geom.Hausdorff(outline, geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 30), geom.Pt(30, 30), geom.Pt(30, 40), geom.Pt(0, 40)), 0.1), 1e-9)
	got, err := trace.Trace(context.Background(), nil, trace.Plate{Scales: []trace.Scale{perPixel(0.1)}, Sections: []trace.Wanted{{Name: "step", Points: corners}}}, trace.Options{})
	require.NoError(t, err)
	require.InDelta(t, 40, got[0].Section.Height, 0.3)
}

func TestTraceRefuses(t *testing.T) {
	ink := func(_, _ int, dark float64) float64 { return 230 - 190*dark }
	one := disc(400, geom.Pt(200, 200), 90, 0, ink)
	two := onPage(one, 900, 400, 450, 0)
	draw.Draw(two, one.Bounds(), one, image.Point{}, draw.Src)
	blank := image.NewGray(image.Rect(0, 0, 200, 200))
	wanted := func(w trace.Wanted) trace.Plate {
		w.Name = "cap"
		return trace.Plate{Scales: []trace.Scale{perPixel(0.1)}, Sections: []trace.Wanted{w}}
	}
	for _, c := range []struct {
		name string
		img  image.Image
		p    trace.Plate
		want error
		says string
	}{
		{"blank", blank, wanted(trace.Wanted{}), trace.ErrNothing, "no ink"},
		{"crop outside", one, wanted(trace.Wanted{Crop: image.Rect(10, 10, 500, 300)}), trace.ErrCrop, "400 x 400"},
		{"crop turned over", one, wanted(trace.Wanted{Crop: image.Rectangle{image.Pt(300, 10), image.Pt(200, 300)}}), trace.ErrCrop, "right"},
		{"no image", nil, wanted(trace.Wanted{}), trace.ErrCrop, "no image"},
		{"two clicks", nil, wanted(trace.Wanted{Points: []geom.Point{{}, {X: 5}}}), trace.ErrNothing, "all the way round"},
		{"no scale", one, trace.Plate{Sections: []trace.Wanted{{Name: "cap"}}}, trace.ErrNoScale, "none"},
		{"another scale", one, wanted(trace.Wanted{Scale: "plan"}), trace.ErrNoScale, `"plan"`},
		{"nothing wanted", one, trace.Plate{Scales: []trace.Scale{perPixel(0.1)}}, trace.ErrNothing, "no section"},
	} {
		_, err := trace.Trace(context.Background(), c.img, c.p, trace.Options{})
		require.ErrorIs(t, err, c.want, c.name)
		require.ErrorContains(t, err, c.says, c.name)
	}
	var several *trace.SeveralError
	_, err := trace.Trace(context.Background(), two, wanted(trace.Wanted{}), trace.Options{})
	require.ErrorAs(t, err, &several)
	require.Len(t, several.Boxes, 2)
	require.ElementsMatch(t, []image.Rectangle{image.Rect(110, 110, 290, 290), image.Rect(560, 110, 740, 290)}, several.Boxes)
	var edge *trace.EdgeError
	_, err = trace.Trace(context.Background(), one, wanted(trace.Wanted{Crop: image.Rect(150, 20, 400, 400)}), trace.Options{})
	require.ErrorAs(t, err, &edge)
	require.Equal(t, []string{"left"}, edge.Sides)
	// All faults at once.
	bad := wanted(trace.Wanted{Crop: image.Rect(10, 10, 500, 300)})
	bad.Scales = append(bad.Scales, trace.Scale{Name: "empty"})
	bad.Sections = append(bad.Sections, trace.Wanted{Name: "second", Scale: "plan", Tolerance: -1})
	_, err = trace.Trace(context.Background(), one, bad, trace.Options{})
	var faults trace.Faults
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 5) // a scale without anything, which of two scales, the crop, an unknown scale, the tolerance
}

func TestTraceStopsAndTells(t *testing.T) {
	s, err := library.Open("", "").SectionOf("bolection")
	require.NoError(t, err)
	img, p := scan{dpi: 150, scale: 1, style: outlined}.in(clean).render(t, s.Outline)
	plate := trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "a"}, {Name: "b"}}}
	ctx, cancel := context.WithCancel(context.Background())
	var stages []string
	_, err = trace.Trace(ctx, img, plate, trace.Options{Progress: func(stage string, done, of int) {
		stages = append(stages, stage)
		require.LessOrEqual(t, done, of)
		if stage == trace.StageEdges {
			cancel()
		}
	}})
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, trace.StageEdges, stages[len(stages)-1])
}
