package trace

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// fixedBy returns points at true places and where m, from millimeters to pixels, puts them, each off by sigma px.
func fixedBy(m Mapping, sigma float64, rng *rand.Rand, places ...geom.Point) []Fixed {
	var out []Fixed
	for _, p := range places {
		q := m.Apply(p)
		out = append(out, Fixed{Pixel: q.Add(geom.Pt(rng.NormFloat64(), rng.NormFloat64()).Mul(sigma)), True: p})
	}
	return out
}

// A plane seen by a camera, in closed form: a pinhole at height h over the plate, tilted by t, maps (x, y) to f (x, y cos t) / (h + y sin t).
func camera(f, h float64, tilt geom.Angle) Mapping {
	s, c := math.Sincos(float64(tilt))
	return Mapping{[9]float64{f, 0, 500 * h / 400, 0, -f * c, 900, 0, s, h}}
}

func TestPerspective(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	m := camera(1500, 400, 25*geom.Degree)
	corners := []geom.Point{geom.Pt(0, 0), geom.Pt(150, 0), geom.Pt(150, 100), geom.Pt(0, 100)}
	s, err := Scale{Points: fixedBy(m, 0, rng, corners...)}.solve(nil)
	require.NoError(t, err)
	require.True(t, s.turned)
	for _, p := range []geom.Point{geom.Pt(75, 50), geom.Pt(10, 90), geom.Pt(200, -20)} {
		require.Less(t, s.toTrue.Apply(m.Apply(p)).Dist(p), 1e-8)
	}
	// Eight points clicked to half a pixel: in the middle of them the place is right to about half a pixel, 0.15 mm here.
	more := append(corners, geom.Pt(75, 0), geom.Pt(75, 100), geom.Pt(0, 50), geom.Pt(150, 50))
	worst := 0.0
	for range 50 {
		s, err := Scale{Points: fixedBy(m, 0.5, rng, more...)}.solve(nil)
		require.NoError(t, err)
		worst = math.Max(worst, s.toTrue.Apply(m.Apply(geom.Pt(75, 50))).Dist(geom.Pt(75, 50)))
		require.InDelta(t, 0.5/650, s.err, 0.6/650)
	}
	require.Less(t, worst, 0.3)
}

// Points of a flat scan, turned and stretched, need no perspective even when they are many: an affine map fits them.
func TestAffine(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 1))
	m := affineMapping(geom.Rotation(2 * geom.Degree).Then(geom.Scaling(11.9, -11.8)).Then(geom.Translation(geom.Pt(300, 2000))))
	places := []geom.Point{geom.Pt(0, 0), geom.Pt(120, 0), geom.Pt(0, 90)}
	s, err := Scale{Points: fixedBy(m, 0, rng, places...)}.solve(nil)
	require.NoError(t, err)
	require.Less(t, s.toTrue.Apply(m.Apply(geom.Pt(50, 60))).Dist(geom.Pt(50, 60)), 1e-9)
	s, err = Scale{Points: fixedBy(m, 0.3, rng, append(places, geom.Pt(120, 90), geom.Pt(60, 40))...)}.solve(nil)
	require.NoError(t, err)
	require.Zero(t, s.toTrue.M[6], "no perspective")
	require.Less(t, s.toTrue.Apply(m.Apply(geom.Pt(50, 60))).Dist(geom.Pt(50, 60)), 0.05)
}

func TestLengths(t *testing.T) {
	across := Length{geom.Pt(100, 100), geom.Pt(1292, 100), 100} // 11.92 px a mm
	up := Length{geom.Pt(100, 100), geom.Pt(100, 1280), 100}     // 11.80
	s, err := Scale{Lengths: []Length{across, up}}.solve(nil)
	require.NoError(t, err)
	require.InDelta(t, 100, s.toTrue.Apply(across.From).Dist(s.toTrue.Apply(across.To)), 1e-9)
	require.InDelta(t, 100, s.toTrue.Apply(up.From).Dist(s.toTrue.Apply(up.To)), 1e-9)
	require.False(t, s.turned || s.known)
	require.Len(t, s.notes, 1, "the stretch is told")
	// One length: the same both ways; its error is that of two clicks over its length.
	s, err = Scale{Lengths: []Length{across}}.solve(nil)
	require.NoError(t, err)
	require.InDelta(t, 100, s.toTrue.Apply(geom.Pt(0, 0)).Dist(s.toTrue.Apply(geom.Pt(0, 1192))), 1e-9)
	require.InDelta(t, math.Sqrt2*click/1192, s.err, 1e-9)
	// A level line turns.
	s, err = Scale{Lengths: []Length{across}, Level: &Line{geom.Pt(0, 0), geom.Pt(1000, -20)}}.solve(nil)
	require.NoError(t, err)
	require.InDelta(t, -math.Atan(0.02)*180/math.Pi, s.turn.Degrees(), 1e-9, "it rises to the right and is turned back")
}

func TestScaleRefuses(t *testing.T) {
	at := func(x, y, u, v float64) Fixed { return Fixed{geom.Pt(x, y), geom.Pt(u, v)} }
	for _, c := range []struct {
		name string
		s    Scale
		want error
	}{
		{"nothing", Scale{}, ErrNoScale},
		{"one point", Scale{Points: []Fixed{at(1, 2, 3, 4)}}, ErrNoScale},
		{"two ends in one", Scale{Lengths: []Length{{geom.Pt(5, 5), geom.Pt(5, 5), 10}}}, ErrCoincide},
		{"two points in one", Scale{Points: []Fixed{at(0, 0, 0, 0), at(0, 0, 10, 0), at(0, 100, 0, 10)}}, ErrCoincide},
		{"no length", Scale{Lengths: []Length{{geom.Pt(5, 5), geom.Pt(500, 5), 0}}}, ErrSize},
		{"not a length", Scale{Lengths: []Length{{geom.Pt(5, 5), geom.Pt(500, 5), math.NaN()}}}, ErrSize},
		{"three on a line", Scale{Points: []Fixed{at(0, 0, 0, 0), at(100, 50, 10, 5), at(200, 100, 20, 10)}}, ErrCollinear},
		{"lengths that differ", Scale{Lengths: []Length{{geom.Pt(0, 0), geom.Pt(500, 0), 50}, {geom.Pt(0, 9), geom.Pt(500, 9), 55}}}, ErrContradict},
		{"across against up", Scale{Lengths: []Length{{geom.Pt(0, 0), geom.Pt(500, 0), 50}, {geom.Pt(0, 0), geom.Pt(0, 500), 70}}}, ErrContradict},
		{"a length against points", Scale{Points: []Fixed{at(0, 0, 0, 0), at(500, 0, 50, 0), at(0, 500, 0, -50)},
			Lengths: []Length{{geom.Pt(0, 0), geom.Pt(400, 0), 50}}}, ErrContradict},
		{"points that do not fit", Scale{Points: []Fixed{at(0, 0, 0, 0), at(500, 0, 50, 0), at(500, 500, 50, -50), at(0, 500, 0, -50), at(250, 250, 35, -25)}}, ErrContradict},
	} {
		_, err := c.s.solve(nil)
		require.ErrorIs(t, err, c.want, c.name)
	}
	_, err := Scale{Lengths: []Length{{geom.Pt(0, 0), geom.Pt(500, 0), 50}, {geom.Pt(0, 9), geom.Pt(500, 9), 55}}}.solve(nil)
	require.ErrorContains(t, err, "10.0 % more", "it says how much")
}

// A bar of ten divisions of 47.3 px, its first end at 60.4 px, is measured from clicks that are 3 px off, with letters 18 px beside both its ends.
// Each pixel is as dark as the bar covers it.
func TestBar(t *testing.T) {
	const first, part = 60.4, 47.3
	covered := func(a, b float64, x int) float64 {
		return math.Max(0, math.Min(b, float64(x+1))-math.Max(a, float64(x)))
	}
	for _, kind := range []string{"ticks", "boxes", "plain"} {
		img := image.NewGray(image.Rect(0, 0, 620, 60))
		for i := range img.Pix {
			img.Pix[i] = 230
		}
		for y := 24; y < 36; y++ {
			for x := range 620 {
				dark := 0.0
				switch kind {
				case "ticks":
					for i := range 11 {
						mid := first + float64(i)*part
						dark = math.Max(dark, covered(mid-1.5, mid+1.5, x))
					}
					if y == 34 || y == 35 {
						dark = math.Max(dark, covered(first, first+10*part, x))
					}
				case "boxes":
					for i := 0; i < 10; i += 2 {
						dark += covered(first+float64(i)*part, first+float64(i+1)*part, x)
					}
					if y < 26 || y > 33 {
						dark = covered(first, first+10*part, x)
					}
				default:
					dark = covered(first, first+10*part, x)
				}
				for i := range 2 { // letters
					dark += covered(first-18-9*float64(i)-3, first-18-9*float64(i), x) + covered(first+10*part+18+9*float64(i), first+10*part+21+9*float64(i), x)
				}
				img.SetGray(x, y, color.Gray{Y: uint8(230 - 190*math.Min(1, dark))})
			}
		}
		n := 10
		if kind == "plain" {
			n = 0
		}
		got, err := Bar{From: geom.Pt(first+3, 31), To: geom.Pt(first+10*part-2, 30), MM: 100, Divisions: n}.measure(img)
		require.NoError(t, err, kind)
		require.InDelta(t, 10*part, got[0].From.Dist(got[0].To), 0.3, kind)
		require.InDelta(t, first, got[0].From.X, 0.3, kind)
		require.Less(t, got[0].sigma, 0.5, kind)
	}
	// What is said of the divisions is counted in the ink: another number than it shows, or a bar that goes on beyond the clicked end.
	ticks := image.NewGray(image.Rect(0, 0, 1000, 60))
	for i := range ticks.Pix {
		ticks.Pix[i] = 230
	}
	for i := range 4 {
		for y := 16; y < 44; y++ {
			for x := 49; x < 52; x++ {
				ticks.SetGray(x+300*i, y, color.Gray{Y: 40})
			}
		}
	}
	for x := 50; x < 950; x++ {
		ticks.SetGray(x, 30, color.Gray{Y: 40})
	}
	for _, c := range []struct {
		to        float64
		divisions int
		shown     string
	}{{950, 3, ""}, {650, 2, ""}, {650, 3, "2 divisions, not 3"}, {950, 5, "3 divisions, not 5"}, {950, 4, "3 divisions, not 4"}, {350, 3, "no even divisions, not 3"}} {
		got, err := Bar{From: geom.Pt(52, 31), To: geom.Pt(c.to, 29), MM: 76.2, Divisions: c.divisions}.measure(ticks)
		if c.shown == "" {
			require.NoError(t, err)
			require.InDelta(t, c.to-50, got[0].From.Dist(got[0].To), 0.3)
			continue
		}
		require.ErrorIs(t, err, ErrDivisions)
		require.ErrorContains(t, err, c.shown)
	}
	_, err := Bar{From: geom.Pt(60, 50), To: geom.Pt(500, 50), MM: 100}.measure(image.NewGray(image.Rect(0, 0, 620, 60)))
	require.ErrorIs(t, err, ErrBar)
}

// A second length in the same direction is a check, and what it tells is said.
func TestSecondLength(t *testing.T) {
	s, err := Scale{Lengths: []Length{{geom.Pt(0, 0), geom.Pt(1000, 0), 100}, {geom.Pt(0, 50), geom.Pt(500, 50), 50.4}}}.solve(nil)
	require.NoError(t, err)
	require.Len(t, s.notes, 1)
	require.Contains(t, s.notes[0], "the 2 lengths of its scale agree within 0.6")
}

// Three points make any plate fit, one photographed aslant as well: it comes out leaning or stretched, and that is said; of a flat scan nothing is.
func TestThreePointsAslant(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 1))
	places := []geom.Point{geom.Pt(0, 0), geom.Pt(150, 0), geom.Pt(0, 100)}
	s, err := Scale{Points: fixedBy(camera(1500, 400, 25*geom.Degree), 0, rng, places...)}.solve(nil)
	require.NoError(t, err)
	require.Len(t, s.notes, 1)
	require.Contains(t, s.notes[0], "if it was photographed aslant, a fourth point corrects that")
	flat := affineMapping(geom.Rotation(2 * geom.Degree).Then(geom.Scaling(11.9, -11.8)))
	s, err = Scale{Points: fixedBy(flat, 0.3, rng, places...)}.solve(nil)
	require.NoError(t, err)
	require.Empty(t, s.notes)
}
