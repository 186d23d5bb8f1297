package trace

import (
	"context"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// kindsOf returns the kinds of a profile's elements, from the foot upward.
func kindsOf(p profile.Profile) []profile.Kind {
	var out []profile.Kind
	for _, e := range p.Elements {
		out = append(out, e.Kind)
	}
	return out
}

// heights returns what was found of the heights of the elements, mm.
func heights(t Traced) []float64 {
	var out []float64
	for _, s := range t.Truth.Sizes {
		if s.Element > 0 && s.Key == "height" {
			out = append(out, s.MM)
		}
	}
	return out
}

// clicks traces corners clicked on a picture of so many pixels to the inch.
func clicks(t *testing.T, dpi float64, points ...geom.Point) Traced {
	t.Helper()
	plate := Plate{Scales: []Scale{{Lengths: []Length{{geom.Pt(0, 2000), geom.Pt(3*dpi, 2000), 3 * measure.MMPerInch}}}},
		Sections: []Wanted{{Name: "clicked", Points: points, Units: measure.Inches, Fraction: 16}}}
	got, err := Trace(context.Background(), nil, plate, Options{})
	require.NoError(t, err)
	return got[0]
}

// A fillet is clicked by its two corners and a quarter round by several points in a row: the one stays straight, the other is a curve. Points worked by hand, at
// 300 dpi: fillet 5/16 in, quadrant cove 3/8 in, ledge 1/16 in, fillet 1/4 in.
func TestClickedCorners(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for _, jitter := range []float64{0, 0.7} {
		corner := func(x, y float64) geom.Point {
			return geom.Pt(x+jitter*r.NormFloat64(), y+jitter*r.NormFloat64())
		}
		points := []geom.Point{corner(100, 900), corner(400, 900), corner(400, 806.25)}
		for _, deg := range []float64{22.5, 45, 67.5} {
			s, c := math.Sincos(deg * math.Pi / 180)
			points = append(points, corner(400+112.5*(1-c), 806.25-112.5*s))
		}
		points = append(points, corner(512.5, 693.75), corner(531.25, 693.75), corner(531.25, 618.75), corner(100, 618.75))
		got := clicks(t, 300, points...)
		require.Equal(t, []profile.Kind{"fillet", "cove", "fillet"}, kindsOf(got.Profile), "jitter %g", jitter)
		for i, want := range []float64{5. / 16, 3. / 8, 1. / 4} {
			require.InDelta(t, want*measure.MMPerInch, heights(got)[i], 1e-6+jitter*0.3, "jitter %g, element %d", jitter, i+1)
		}
		pixel := measure.MMPerInch / 300
		for _, s := range got.Truth.Sizes {
			require.Greater(t, s.Error, pixel, "%s of element %d", s.Key, s.Element)
			require.Less(t, s.Error, 4*pixel, "%s of element %d", s.Key, s.Element)
		}
	}
}

// A chamfer between flats has two small turns in a row and is no curve.
func TestClickedChamfer(t *testing.T) {
	got := clicks(t, 300, geom.Pt(100, 900), geom.Pt(400, 900), geom.Pt(400, 800), geom.Pt(450, 750), geom.Pt(450, 650), geom.Pt(100, 650))
	require.Equal(t, []profile.Kind{"fillet", "chamfer", "fillet"}, kindsOf(got.Profile))
}

// Corners that were clicked out of order, twice, or too few are said, with their place.
func TestClickedFaults(t *testing.T) {
	for want, points := range map[string][]geom.Point{
		"the lines from clicked points 2 to 3 and from 4 to 5 cross at (200, 125)": {geom.Pt(0, 300), geom.Pt(200, 300), geom.Pt(200, 100), geom.Pt(300, 150), geom.Pt(100, 100), geom.Pt(0, 0)},
		"3 clicked points make no section":                                         {geom.Pt(0, 300), geom.Pt(200, 300), geom.Pt(200, 100)},
		"clicked points 2 and 3 are the same, (200, 300)":                          {geom.Pt(0, 300), geom.Pt(200, 300), geom.Pt(200, 300), geom.Pt(200, 100), geom.Pt(0, 100)},
	} {
		require.ErrorContains(t, checkClicks(points), want)
	}
	require.NoError(t, checkClicks([]geom.Point{geom.Pt(0, 300), geom.Pt(200, 300), geom.Pt(200, 100), geom.Pt(0, 100)}))
}
