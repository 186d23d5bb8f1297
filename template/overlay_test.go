package template_test

import (
	"image"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
	"listel/template"
	"listel/template/sheet"
)

// overlaid returns a section as if traced from a scan of 10 px to the mm on which its ink is 2 px thick, its outline drawn 0.3 mm larger at one place.
func overlaid(t *testing.T, name string) template.Overlaid {
	t.Helper()
	p, s := libraryProfile(t, name, 1)
	const dots, margin = 10.0, 8.0
	b := s.Outline.Bounds()
	w, h := int((b.Width()+2*margin)*dots), int((b.Height()+2*margin)*dots)
	img := image.NewGray(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = 225
	}
	pixels := trace.Mapping{M: [9]float64{dots, 0, (margin - b.Min.X) * dots, 0, -dots, float64(h) - (margin-b.Min.Y)*dots, 0, 0, 1}}
	points := s.Outline.Flatten(0.02)
	for i := range points {
		a, c := pixels.Apply(points[i]), pixels.Apply(points[(i+1)%len(points)])
		n := int(a.Dist(c)*2) + 1
		for j := range n {
			q := a.Lerp(c, float64(j)/float64(n))
			img.Pix[int(q.Y)*img.Stride+int(q.X)] = 30
			img.Pix[int(q.Y)*img.Stride+int(q.X)+1] = 30
		}
	}
	worst := geom.Pt(b.Min.X, b.Center().Y)
	out := geom.Polygon(append([]geom.Point{worst.Add(geom.Pt(-0.3, 0))}, points...)...)
	sizes := []trace.Uncertain{{Element: 1, Kind: p.Elements[0].Kind, Key: "height", MM: 6.35, Error: 0.05}, {Key: "ground", MM: 15.9, Error: 0.07}}
	return template.Overlaid{
		Traced: trace.Traced{Name: name, Profile: p, Section: s, Outline: out, Pixels: pixels,
			Truth: trace.Truth{Greatest: 0.3, Mean: 0.02, GreatestPx: 3, MeanPx: 0.2, Worst: worst, ScaleError: 0.001, Sizes: sizes, Tolerance: 0.25}},
		Picture: img, Scale: "full",
	}
}

// TestOverlay: the section stands where its scan does, the ring round the worst place says how far it is off, and the sheet tells what was not kept.
func TestOverlay(t *testing.T) {
	o := overlaid(t, "cavetto-cornice")
	pages := template.OverlaySheets(o, style(t, "A4", measure.Millimeters))
	require.Len(t, pages, 1)
	texts, strokes := marksOf(pages[0].Content)
	var all []string
	for _, x := range texts {
		all = append(all, x.S)
	}
	words := strings.Join(all, "\n")
	for _, want := range []string{"furthest apart: 0.30 mm (3.0 px)", "0.25 mm: NOT KEPT", "0.02 mm (0.20 px)", "Scale full, within", "0.10 %", "The worst place, 8:1",
		"(1) " + strings.ReplaceAll(string(o.Profile.Elements[0].Kind), "-", " "), "ground", "0.07 mm"} {
		require.Contains(t, words, want)
	}
	var section geom.Path
	pictures := picturesOf(pages[0].Content)
	for _, s := range strokes {
		if s.Pen.Width == 0.3 && s.Path.Closed(1e-6) && (section == nil || s.Path.Bounds().Width() > section.Bounds().Width()) {
			section = s.Path
		}
	}
	require.NotNil(t, section)
	k := section.Bounds().Width() / o.Section.Outline.Bounds().Width()
	require.InDelta(t, o.Section.Outline.Bounds().Height()*k, section.Bounds().Height(), 1e-6)
	require.GreaterOrEqual(t, k, 1.5)

	// The darkest dots of the scan lie under the section's line.
	require.Len(t, pictures, 2)
	scan := pictures[0]
	img := scan.Image.(*image.Gray)
	dark, far := 0, 0.0
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if img.GrayAt(x, y).Y > 160 {
				continue
			}
			dark++
			at := scan.Place.Apply(geom.Pt((float64(x)+0.5)/float64(img.Rect.Dx()), 1-(float64(y)+0.5)/float64(img.Rect.Dy())))
			_, _, d := section.Nearest(at)
			far = math.Max(far, d)
		}
	}
	require.Greater(t, dark, 500)
	require.Less(t, far, 0.25*k, "2 px of ink are 0.1 mm to either side, and a dot")
	rings := 0
	worst := o.Truth.Worst.Sub(o.Section.Outline.Bounds().Min).Mul(k).Add(section.Bounds().Min)
	for _, s := range strokes {
		if b := s.Path.Bounds(); math.Abs(b.Width()-2*2.2) < 1e-6 && b.Center().Dist(worst) < 1e-6 {
			rings++
		}
	}
	require.Equal(t, 2, rings, "the ring and its white ground")
}

// TestOverlayAnyPaper: on paper of any size every sheet has room, and nothing but the sizes goes to another while it is wide enough.
func TestOverlayAnyPaper(t *testing.T) {
	for _, name := range []string{"cavetto-cornice", "press-base", "edge-bead", "attic-base"} {
		for _, paper := range []string{"A6", "A5", "Letter", "A4 landscape", "A2"} {
			pages := template.OverlaySheets(overlaid(t, name), style(t, paper, measure.Inches))
			require.NotEmpty(t, pages)
			for i, p := range pages {
				area := p.Frame.Area(p.Paper).Expand(0.5) // the rules of a table stand out by half their thickness
				b := p.Content.Bounds()
				require.True(t, area.Contains(b.Min) && area.Contains(b.Max), "%s on %s, sheet %d: %v outside %v", name, paper, i+1, b, area)
			}
		}
	}
}

// TestOverlayKeepsTogether: on A4 the sizes of a molding of few members stand under its picture, however long the words beside them are.
func TestOverlayKeepsTogether(t *testing.T) {
	o := overlaid(t, "torus-base")
	o.Scale, o.Truth.Mean = "elevation-at-two-thirds", 0.001
	for i := range o.Profile.Elements {
		o.Profile.Elements[i].Kind = profile.KindCymaReversa
		o.Truth.Sizes = append(o.Truth.Sizes, trace.Uncertain{Element: i + 1, Kind: profile.KindCymaReversa, Key: "projection", MM: 6.35, Error: 0.05})
	}
	require.Len(t, template.OverlaySheets(o, style(t, "A4", measure.Inches)), 1)
}

// TestOverlayWithoutPicture: clicked points alone need no picture.
func TestOverlayWithoutPicture(t *testing.T) {
	o := overlaid(t, "cavetto-cornice")
	o.Picture = nil
	pages := template.OverlaySheets(o, style(t, "A4", measure.Millimeters))
	require.Len(t, pages, 1)
	require.Empty(t, picturesOf(pages[0].Content))
}

// picturesOf returns the pictures of a drawing in their order.
func picturesOf(d sheet.Drawing) []sheet.Picture {
	var out []sheet.Picture
	for _, m := range d {
		switch m := m.(type) {
		case sheet.Picture:
			out = append(out, m)
		case sheet.Drawing:
			out = append(out, picturesOf(m)...)
		case sheet.Group:
			out = append(out, picturesOf(m.Drawing)...)
		}
	}
	return out
}
