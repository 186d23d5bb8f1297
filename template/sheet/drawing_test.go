package sheet_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
)

// Adding to a drawing changes neither it nor another made from it.
func TestAddLeavesTheRest(t *testing.T) {
	base := make(sheet.Drawing, 0, 10).Add(sheet.Dot(geom.Pt(0, 0), 1))
	one := base.Add(sheet.Text{S: "one"})
	two := base.Add(sheet.Text{S: "two"})
	assert.Equal(t, "one", one[1].(sheet.Text).S)
	assert.Equal(t, "two", two[1].(sheet.Text).S)
	assert.Len(t, base, 1)
}

// Placed at another scale, lines keep their width, text its size and hatching its spacing.
func TestPlaceKeepsPens(t *testing.T) {
	p := molding()
	d := sheet.Drawing{sheet.Stroke{Path: p, Pen: sheet.PenOutline}, sheet.Text{At: geom.Pt(4, 4), S: "x", Size: 12}, sheet.EndGrain(p)}
	placed := sheet.Drawing(nil).Place(d, geom.Scaling(0.25, 0.25))
	s := placed[0].(sheet.Stroke)
	assert.Equal(t, sheet.PenOutline, s.Pen)
	assert.InEpsilon(t, p.Area()/16, s.Path.Area(), 1e-9)
	assert.Equal(t, 12.0, placed[1].(sheet.Text).Size)
	assert.Equal(t, geom.Pt(1, 1), placed[1].(sheet.Text).At)
	assert.Equal(t, 2.5, placed[2].(sheet.Hatch).Spacing)
	assert.Less(t, len(placed[2].(sheet.Hatch).Lines()), len(d[2].(sheet.Hatch).Lines())/2)
}

// Text is never mirrored: under a mirror its box lands where the box of the mirrored drawing is.
func TestTextUnderMirrors(t *testing.T) {
	for anchor := sheet.BottomLeft; anchor <= sheet.TopRight; anchor++ {
		text := sheet.Text{At: geom.Pt(10, 20), S: "HHHHH", Size: 20, Anchor: anchor}
		for _, m := range []geom.Affine{geom.Scaling(-1, 1), geom.Scaling(1, -1)} {
			got := text.Transform(m).(sheet.Text)
			assert.InDelta(t, 0, got.Angle.Degrees(), 1e-9, "reads forward")
			want := geom.EmptyRect()
			b := text.Bounds()
			want = want.Include(m.Apply(b.Min)).Include(m.Apply(b.Max))
			// Descenders hang below on both, so that boxes agree within their depth.
			assert.InDelta(t, want.Min.X, got.Bounds().Min.X, 1e-9)
			assert.InDelta(t, want.Max.X, got.Bounds().Max.X, 1e-9)
			assert.InDelta(t, want.Center().Y, got.Bounds().Center().Y, 1.6)
		}
	}
	up := sheet.Text{S: "x", Angle: 90 * geom.Degree}
	assert.InDelta(t, 180, up.Transform(geom.Rotation(90*geom.Degree)).(sheet.Text).Angle.Degrees(), 1e-9)
}

// Width is the sum of the advances in the font file: the Go font has figures of 1139 units in an em of 2048.
func TestTextWidth(t *testing.T) {
	assert.InDelta(t, 3*1139./2048*10*25.4/72, sheet.TextWidth("123", 10, sheet.Regular), 1e-9)
	assert.Greater(t, sheet.TextWidth("waist", 10, sheet.Bold), sheet.TextWidth("waist", 10, sheet.Regular))
	assert.Equal(t, sheet.TextWidth("1⁄3", 10, sheet.Regular), sheet.TextWidth("⅓", 10, sheet.Regular), "what the font lacks is spelled out")
	assert.Equal(t, sheet.TextWidth("?", 10, sheet.Regular), sheet.TextWidth("棚", 10, sheet.Regular))
	assert.Zero(t, sheet.TextWidth("", 10, sheet.Regular))
}

// No wrapped line is wider than the room, and the words come back in order.
func TestWrap(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 100 {
		s, want := "", ""
		for range rng.IntN(30) {
			w := string(bytes.Repeat([]byte{'m'}, 1+rng.IntN(12)))
			s += w + "  "
			want += w
		}
		width := 12 + 60*rng.Float64()
		got := ""
		for _, line := range sheet.Wrap(s, 9, sheet.Bold, width) {
			require.LessOrEqual(t, sheet.TextWidth(line, 9, sheet.Bold), width)
			for _, r := range line {
				if r != ' ' {
					got += string(r)
				}
			}
		}
		require.Equal(t, want, got)
	}
	assert.Equal(t, []string{"a", "", "b"}, sheet.Wrap("a\n\nb", 9, sheet.Regular, 50))
	assert.Equal(t, []string{"m", "m"}, sheet.Wrap("mm", 9, sheet.Regular, 0.1), "always a letter to a line")
}

// A clipped stroke is the part of the path in the window: lengths inside and outside add up, and each end lies on the
// window's edge, less half the pen.
func TestClipStroke(t *testing.T) {
	p := molding()
	pen := sheet.Pen{Width: 0.5}
	window := geom.Rect{Min: geom.Pt(30, 103), Max: geom.Pt(60, 135)}
	inner := window.Expand(-0.25)
	var inside float64
	for _, m := range (sheet.Drawing{sheet.Stroke{Path: p, Pen: pen}}).Clip(window) {
		s := m.(sheet.Stroke)
		inside += s.Path.Length()
		for _, seg := range s.Path {
			for _, f := range []float64{0, 0.3, 0.7, 1} {
				require.True(t, inner.Expand(1e-9).Contains(seg.At(f)))
			}
		}
		b := s.Bounds()
		assert.True(t, window.Expand(1e-9).Contains(b.Min) && window.Expand(1e-9).Contains(b.Max))
	}
	chords, pts := 0.0, p.Flatten(1e-6)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		for k, n := 0, int(1+a.Dist(b)/0.001); k < n; k++ {
			if inner.Contains(a.Lerp(b, (float64(k)+0.5)/float64(n))) {
				chords += a.Dist(b) / float64(n)
			}
		}
	}
	assert.InDelta(t, chords, inside, 0.005) // a bit of 0.001 mm at an edge counts whole or not
}

// Clipped regions have the area that the window cuts out: a circle of radius 10 cut through its middle, off it, and a
// ring whose hole is cut as well (closed forms).
func TestClipFill(t *testing.T) {
	area := func(f sheet.Fill, window geom.Rect) float64 {
		sum := 0.0
		for _, m := range (sheet.Drawing{f}).Clip(window) {
			for i, p := range m.(sheet.Fill).Paths {
				sum += math.Abs(p.Area()) * []float64{1, -1}[i%2]
			}
		}
		return sum
	}
	disk := sheet.Fill{Paths: []geom.Path{geom.Circle(geom.Pt(0, 0), 10)}}
	big := 100.0
	half := geom.Rect{Min: geom.Pt(0, -big), Max: geom.Pt(big, big)}
	assert.InEpsilon(t, 50*math.Pi, area(disk, half), 1e-12)
	segment := geom.Rect{Min: geom.Pt(6, -big), Max: geom.Pt(big, big)}
	assert.InEpsilon(t, 100*math.Acos(0.6)-6*8, area(disk, segment), 1e-12)
	quarter := geom.Rect{Max: geom.Pt(big, big)}
	assert.InEpsilon(t, 25*math.Pi, area(disk, quarter), 1e-12)
	square := geom.Rect{Min: geom.Pt(-5, -5), Max: geom.Pt(5, 5)}
	assert.InEpsilon(t, 100, area(disk, square), 1e-12)
	ring := sheet.Fill{Paths: []geom.Path{geom.Circle(geom.Pt(0, 0), 10), geom.Circle(geom.Pt(0, 0), 5)}}
	assert.InEpsilon(t, 37.5*math.Pi, area(ring, half), 1e-12)
	assert.Empty(t, sheet.Drawing{disk}.Clip(geom.Rect{Min: geom.Pt(20, 20), Max: geom.Pt(30, 30)}))
}

// Dashes that are cut out for a tile fall where the printer's own would: on the same path the ink adds up, and no
// dash is longer than the pattern's.
func TestClippedDashes(t *testing.T) {
	pen := sheet.Pen{Width: 0.5, Dash: [4]float64{4, 2}}
	line := sheet.Line(geom.Pt(0, 0), geom.Pt(60, 0), pen)
	window := geom.Rect{Min: geom.Pt(10.25, -5), Max: geom.Pt(100, 5)}
	got := (sheet.Drawing{line}).Clip(window)
	require.Len(t, got, 1)
	s := got[0].(sheet.Stroke)
	assert.Zero(t, s.Pen.Dash)
	// From 10.5 on: nothing to 12, then 4 on, 2 off.
	require.Len(t, s.Path, 8)
	assert.InDelta(t, 12, s.Path[0].Start().X, 1e-9)
	assert.InDelta(t, 16, s.Path[0].End().X, 1e-9)
	assert.InDelta(t, 58, s.Path[7].End().X, 1e-9)
	ellipse := geom.Path{geom.EllipticArc{Center: geom.Pt(0, 0), RX: 30, RY: 10, Sweep: 360 * geom.Degree}}
	all := (sheet.Drawing{sheet.Stroke{Path: ellipse, Pen: pen}}).Clip(geom.Rect{Min: geom.Pt(-50, -50), Max: geom.Pt(29.9, 50)})
	for _, seg := range all[0].(sheet.Stroke).Path {
		assert.LessOrEqual(t, seg.Length(), 4+1e-6)
	}
}

// A text is kept whole or not at all.
func TestClipText(t *testing.T) {
	text := sheet.Text{At: geom.Pt(10, 10), S: "shelf"}
	b := text.Bounds()
	assert.Len(t, sheet.Drawing{text}.Clip(b), 1)
	assert.Empty(t, sheet.Drawing{text}.Clip(geom.Rect{Min: b.Min, Max: b.Max.Sub(geom.Pt(0.1, 0))}))
}

// Lettering turned into shapes covers what the text does.
func TestOutlinesLieInTheTextBox(t *testing.T) {
	text := sheet.Text{At: geom.Pt(50, 50), S: "Hgjq 1⁄2", Size: 30, Anchor: sheet.Middle, Angle: 30 * geom.Degree}
	got, box := text.Outlines().Bounds(), text.Bounds().Expand(0.6)
	assert.True(t, box.Contains(got.Min) && box.Contains(got.Max), "%v in %v", got, box)
	assert.InDelta(t, box.Width(), got.Width(), 5)
}

// Pixels wholly in the window stay where they were.
func TestClipPicture(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 10, 10))
	img.SetGray(7, 2, color.Gray{200})
	p := sheet.PictureIn(img, geom.Rect{Max: geom.Pt(100, 100)})
	got := sheet.Drawing{p}.Clip(geom.Rect{Min: geom.Pt(35, -10), Max: geom.Pt(95, 200)})
	require.Len(t, got, 1)
	cut := got[0].(sheet.Picture)
	assert.Equal(t, geom.Rect{Min: geom.Pt(40, 0), Max: geom.Pt(90, 100)}, cut.Bounds())
	r, _, _, _ := cut.Image.At(3, 2).RGBA()
	assert.Equal(t, uint32(200*257), r)
	turned := p.Transform(geom.Rotation(45 * geom.Degree)).(sheet.Picture)
	window := geom.Rect{Min: geom.Pt(-30, 40), Max: geom.Pt(30, 110)}
	for _, m := range (sheet.Drawing{turned}).Clip(window) {
		q := m.(sheet.Picture)
		n := 0
		for y := range q.Image.Bounds().Dy() {
			for x := range q.Image.Bounds().Dx() {
				if _, _, _, a := q.Image.At(x, y).RGBA(); a == 0 {
					continue
				}
				n++
				at := q.Place.Apply(geom.Pt((float64(x)+0.5)/float64(q.Image.Bounds().Dx()), 1-(float64(y)+0.5)/float64(q.Image.Bounds().Dy())))
				assert.True(t, window.Contains(at))
			}
		}
		assert.Greater(t, n, 20)
	}
}

// Holes are white and regions are shaded in the preview, by the even-odd rule, whichever way the outlines run.
func TestPNG(t *testing.T) {
	for _, hole := range []geom.Path{geom.Circle(geom.Pt(25, 25), 5), geom.Circle(geom.Pt(25, 25), 5).Reverse()} {
		var b bytes.Buffer
		d := sheet.Drawing{sheet.Fill{Paths: []geom.Path{geom.Circle(geom.Pt(25, 25), 20), hole}, Gray: 0.5}}
		require.NoError(t, sheet.WritePNG(&b, bare(sheet.Paper{Width: 50, Height: 60}, d), 2))
		img, err := png.Decode(&b)
		require.NoError(t, err)
		assert.Equal(t, image.Pt(100, 120), img.Bounds().Size())
		gray := func(x, y float64) uint32 { v, _, _, _ := img.At(int(2*x), int(2*(60-y))).RGBA(); return v >> 8 }
		assert.Equal(t, uint32(255), gray(25, 25))
		assert.InDelta(t, 128, float64(gray(25, 38)), 1)
		assert.Equal(t, uint32(255), gray(25, 55))
	}
}

// Mirrored twice, or moved and moved back, a drawing is where it was.
func TestMovesUndo(t *testing.T) {
	d := drafting()
	b := d.Bounds()
	for _, m := range []geom.Affine{
		geom.Scaling(-1, 1), geom.Scaling(1, -1), geom.Rotation(90 * geom.Degree),
		geom.Rotation(37 * geom.Degree).Then(geom.Translation(geom.Pt(5, -7))), geom.Scaling(0.125, 0.125),
	} {
		got := d.Moved(m).Moved(m.Inverse()).Bounds()
		assert.InDelta(t, 0, got.Min.Dist(b.Min)+got.Max.Dist(b.Max), 1e-6, "%v", m)
	}
}

func TestIn(t *testing.T) {
	room := geom.Rect{Min: geom.Pt(10, 20), Max: geom.Pt(110, 220)}
	d := sheet.Drawing{sheet.Dot(geom.Pt(-50, 7), 3)}
	assert.InDelta(t, 0, d.In(room).Bounds().Center().Dist(geom.Pt(60, 120)), 1e-9)
	assert.Empty(t, sheet.Drawing(nil).In(room))
}
