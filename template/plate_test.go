package template_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/sheet"
)

// The plate of the tutorial is a drawing of our own, made to look like one by hand: the moldings of a low press on two scales, half their
// size in the strip at the left and full size at the right, the lines a little unsteady, the sheet a little askew and no longer white.
const (
	plateFile  = "../library/starters/plate.png"
	plateDots  = 200 / 25.4        // to the mm
	plateTurn  = 0.6 * geom.Degree // how far it lies askew
	plateWide  = 176.0             // mm
	plateHigh  = 148.0             // mm
	plateShake = 0.035             // mm, how far a line strays
	plateHalf  = 0.5               // scale of the strip
)

// plateBase is the base of the plate.
const plateBase = `kind: profile
units: in
height: 4
ground: 7/8
elements:
  - fascia: {height: 3}
  - fillet: {height: 1/8, set: -1/8}
  - cyma-reversa: {height: 5/8, projection: -3/8}
  - fillet: {height: rest}
`

// hand draws lines as a hand does.
type hand struct{ *rand.Rand }

// line returns the path drawn by hand: it strays slowly to either side, by plateShake at most.
func (h hand) line(p geom.Path, pen sheet.Pen) sheet.Mark {
	a, b := h.Float64()*6, h.Float64()*6
	var pts []geom.Point
	for _, seg := range p {
		n := max(2, int(seg.Length()/0.4))
		for i := range n {
			t := float64(i) / float64(n)
			q := seg.At(t)
			off := plateShake / 2 * (math.Sin(q.X*0.9+q.Y*0.55+a) + math.Sin(q.X*0.31-q.Y*0.42+b))
			pts = append(pts, q.Add(seg.Tangent(t).Left().Mul(off)))
		}
	}
	pts = append(pts, p.End())
	if p.Closed(1e-6) {
		pts[len(pts)-1] = pts[0]
	}
	return sheet.Polyline(pen, pts...)
}

// wood returns a section hatched by hand at the scale k, its foot and back at the point.
func (h hand) wood(s profile.Section, k float64, at geom.Point) sheet.Drawing {
	outline := s.Outline.Transform(geom.Scaling(k, k)).Translate(at)
	var d sheet.Drawing
	for _, seg := range (sheet.Hatch{Paths: []geom.Path{outline}, Angle: 50 * geom.Degree, Spacing: 1.5, Pen: sheet.PenHair}).Lines() {
		a, b := seg.Start(), seg.End()
		u := b.Sub(a).Unit().Mul(min(h.Float64()*0.5, a.Dist(b)/4)) // most stop a little short
		d = d.Add(h.line(geom.Polyline(a.Add(u), b.Sub(u)), sheet.Pen{Width: 0.16}))
	}
	return d.Add(h.line(outline, sheet.Pen{Width: 0.42}))
}

// bar returns a scale bar of n divisions, each of so many mm on the plate, from the point to the right.
func (h hand) bar(at geom.Point, n int, step float64, label string) sheet.Drawing {
	end := at.Add(geom.Pt(float64(n)*step, 0))
	d := sheet.Drawing{h.line(geom.Polyline(at, end), sheet.Pen{Width: 0.3})}
	for i := range n + 1 {
		x := at.X + float64(i)*step
		d = d.Add(h.line(geom.Polyline(geom.Pt(x, at.Y-1.6), geom.Pt(x, at.Y+1.6)), sheet.Pen{Width: 0.3}),
			sheet.Text{At: geom.Pt(x, at.Y+3), S: string(rune('0' + i)), Size: 9, Anchor: sheet.Bottom})
	}
	return d.Add(sheet.Text{At: geom.Pt((at.X+end.X)/2, at.Y-5.6), S: label, Size: 9, Anchor: sheet.Bottom})
}

// plateDrawing draws the plate before it is worn.
func plateDrawing(t *testing.T) sheet.Page {
	h := hand{rand.New(rand.NewPCG(3, 5))}
	section := func(name, text string) profile.Section {
		p, _, err := library.LoadProfile(name+".yaml", []byte(text))
		require.NoError(t, err)
		s, err := p.Section(nil)
		require.NoError(t, err)
		return s
	}
	starter, err := library.Starter("profile", "cornice", measure.Inches)
	require.NoError(t, err)
	cornice := section("cornice", string(starter))
	base := section("base", plateBase)
	frame := geom.Rect{Min: geom.Pt(7, 7), Max: geom.Pt(plateWide-7, plateHigh-7)}
	d := sheet.Drawing{
		h.line(geom.Polygon(frame.Min, geom.Pt(frame.Max.X, frame.Min.Y), frame.Max, geom.Pt(frame.Min.X, frame.Max.Y)), sheet.Pen{Width: 0.3}),
		sheet.Text{At: geom.Pt(plateWide/2, plateHigh-17), S: "MOLDINGS of a LOW PRESS", Size: 14, Weight: sheet.Bold, Anchor: sheet.Bottom},
	}
	// The strip: the front cut through, on half its size, broken off between cornice and base.
	const face = 26.0 // x of the front of the case
	top := cornice.Outline.Bounds().Height() * plateHalf
	d = d.Add(h.wood(base, plateHalf, geom.Pt(face+1.5, 30))...)
	d = d.Add(h.wood(cornice, plateHalf, geom.Pt(face+1.5, 122-top))...)
	for _, x := range []float64{face - 9.5, face} {
		d = d.Add(h.line(geom.Polyline(geom.Pt(x, 30), geom.Pt(x, 85)), sheet.Pen{Width: 0.25}), h.line(geom.Polyline(geom.Pt(x, 91), geom.Pt(x, 122)), sheet.Pen{Width: 0.25}))
	}
	for _, y := range []float64{85, 91} {
		d = d.Add(h.line(geom.Polyline(geom.Pt(face-12, y-1), geom.Pt(face-6.5, y+0.4), geom.Pt(face-5, y-1.6), geom.Pt(face-3.5, y+1.6), geom.Pt(face-2.5, y-0.2), geom.Pt(face+3, y+0.8)), sheet.Pen{Width: 0.18}))
	}
	d = d.Add(sheet.Text{At: geom.Pt(face+18, 88), S: "The front, cut through", Size: 9, Anchor: sheet.Left})
	d = d.Add(h.bar(geom.Pt(15, 17), 4, 25.4*plateHalf, "inches, half size")...)
	// The cornice by itself, full size, with its height and its projection.
	at := geom.Pt(98, 60)
	d = d.Add(h.wood(cornice, 1, at)...)
	b := cornice.Outline.Bounds()
	dim := func(a, b, out geom.Point, label string, turn geom.Angle) {
		for _, q := range []geom.Point{a, b} {
			d = d.Add(h.line(geom.Polyline(q.Add(out.Mul(1.6)), q.Add(out.Mul(9))), sheet.Pen{Width: 0.14}))
		}
		p, q := a.Add(out.Mul(7.5)), b.Add(out.Mul(7.5))
		d = d.Add(h.line(geom.Polyline(p, q), sheet.Pen{Width: 0.14}), sheet.ArrowHead(p, p.Sub(q)), sheet.ArrowHead(q, q.Sub(p)),
			sheet.Text{At: p.Lerp(q, 0.5).Add(out.Mul(1.2)), S: label, Size: 10, Anchor: sheet.Bottom, Angle: turn})
	}
	foremost := at.Add(geom.Pt(b.Max.X, b.Max.Y))
	dim(geom.Pt(at.X, foremost.Y), foremost, geom.Pt(0, 1), "1 15/16", 0)
	dim(geom.Pt(at.X, at.Y), geom.Pt(at.X, foremost.Y), geom.Pt(-1, 0), "1 3/4", 90*geom.Degree)
	d = d.Add(sheet.Text{At: geom.Pt(at.X, 47), S: "The cornice, full size", Size: 9})
	d = d.Add(h.bar(geom.Pt(80, 17), 3, 25.4, "inches")...)
	return sheet.Page{Paper: sheet.Paper{Name: "plate", Width: plateWide, Height: plateHigh}, Content: d}
}

// worn returns the plate as a scanner sees it: askew, on brownish paper that is not even, its ink not quite black.
func worn(img image.Image) *image.Paletted {
	var palette color.Palette
	const inks = 12
	for i := range inks { // from ink to paper
		t := float64(i) / (inks - 1)
		palette = append(palette, color.RGBA{byte(48 + t*185), byte(38 + t*182), byte(32 + t*165), 255})
	}
	palette = append(palette, color.RGBA{238, 226, 204, 255}, color.RGBA{227, 214, 190, 255})
	b := img.Bounds()
	out := image.NewPaletted(b, palette)
	r := rand.New(rand.NewPCG(7, 1))
	sin, cos := math.Sin(float64(plateTurn)), math.Cos(float64(plateTurn))
	cx, cy := float64(b.Dx())/2, float64(b.Dy())/2
	for y := range b.Dy() {
		for x := range b.Dx() {
			u, v := float64(x)+0.5-cx, float64(y)+0.5-cy
			ink := 1 - light(img, cx+cos*u-sin*v, cy+sin*u+cos*v)
			i := int(math.Round((1 - ink) * (inks - 1)))
			if i == inks-1 { // paper: flecks, and darker toward the edge
				edge := math.Max(math.Abs(u)/cx, math.Abs(v)/cy)
				switch n := r.Float64(); {
				case n < 0.012:
					i = inks
				case n < 0.012+0.3*math.Pow(edge, 14):
					i = inks + 1
				}
			}
			out.SetColorIndex(x, y, byte(i))
		}
	}
	return out
}

// light returns how light a picture is at a place in pixels, 0 to 1, between the pixels round it; paper outside.
func light(img image.Image, x, y float64) float64 {
	x, y = x-0.5, y-0.5
	i, j := int(math.Floor(x)), int(math.Floor(y))
	at := func(i, j int) float64 {
		if !image.Pt(i, j).In(img.Bounds()) {
			return 1
		}
		c, _, _, _ := img.At(i, j).RGBA()
		return float64(c) / 0xffff
	}
	fx, fy := x-float64(i), y-float64(j)
	return (at(i, j)*(1-fx)+at(i+1, j)*fx)*(1-fy) + (at(i, j+1)*(1-fx)+at(i+1, j+1)*fx)*fy
}

// TestPlate holds that the plate of the tutorial is the one that is drawn here, but for the last bits of other machines. UPDATE_GOLDEN=1 draws it
// anew.
func TestPlate(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sheet.WritePNG(&b, plateDrawing(t), plateDots))
	img, err := png.Decode(&b)
	require.NoError(t, err)
	got := worn(img)
	if os.Getenv("UPDATE_GOLDEN") != "" {
		var out bytes.Buffer
		require.NoError(t, (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, got))
		require.NoError(t, os.WriteFile(plateFile, out.Bytes(), 0o666))
	}
	data, err := os.ReadFile(plateFile)
	require.NoError(t, err)
	require.Less(t, len(data), 150_000)
	want, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	require.Equal(t, want.Bounds(), got.Bounds())
	other := 0
	for y := range got.Bounds().Dy() {
		for x := range got.Bounds().Dx() {
			if math.Abs(light(want, float64(x)+0.5, float64(y)+0.5)-light(got, float64(x)+0.5, float64(y)+0.5)) > 0.1 {
				other++
			}
		}
	}
	require.Less(t, other, 500, "pixels that differ")
}
