package scraper_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/scraper"
)

// sections returns the sections of every profile that the library brings along.
func sections(t testing.TB) []profile.Section {
	t.Helper()
	lib := library.Open("", "")
	var out []profile.Section
	for _, e := range lib.List(library.KindProfile) {
		out = append(out, section(t, e.Name))
	}
	require.Greater(t, len(out), 20)
	return out
}

func section(t testing.TB, name string) profile.Section {
	t.Helper()
	lib := library.Open("", "")
	p, _, err := lib.Profile(name)
	require.NoError(t, err)
	s, err := p.Section(lib.Lookup)
	require.NoError(t, err)
	return s
}

// made builds a profile from entries with a ground of 20 mm.
func made(t testing.TB, entries ...profile.Entry) profile.Section {
	t.Helper()
	s, err := profile.Profile{Name: "made", Ground: profile.MM(20), Elements: entries}.Section(nil)
	require.NoError(t, err)
	return s
}

func plan(t testing.TB, s profile.Section, o scraper.Options) scraper.Plan {
	t.Helper()
	p, err := scraper.Make(s, o)
	require.NoError(t, err, s.Name)
	return p
}

func degrees(d float64) *geom.Angle {
	a := geom.Angle(d) * geom.Degree
	return &a
}

// cut returns what a point of a blade as filed does in the section, by hand: turned by the lean the blade stands cos(lean) as high, and then it lies
// along the plunge.
func cut(b scraper.Blade, p geom.Point) geom.Point {
	v := p.Y * math.Cos(b.Lean.Radians())
	sin, cos := math.Sincos(b.Plunge.Radians())
	return geom.Pt(p.X*sin+v*cos, -p.X*cos+v*sin)
}

// cutPath is cut for a line of points.
func cutPath(b scraper.Blade, path geom.Path, tol float64) geom.Path {
	pts := path.Flatten(tol)
	out := make([]geom.Point, len(pts))
	for i, p := range pts {
		out[i] = cut(b, p)
	}
	if path.Closed(1e-9) {
		return geom.Polygon(out...)
	}
	return geom.Polyline(out...)
}

// samples returns points on the section's face, at most step mm apart, with their places on it.
func samples(s profile.Section, step float64) (at []float64, pts []geom.Point) {
	for i, g := range s.Face {
		n := math.Max(2, math.Ceil(g.Length()/step))
		for k := range int(n) {
			t := (float64(k) + 0.5) / n
			at, pts = append(at, float64(i)+t), append(pts, g.At(t))
		}
	}
	return at, pts
}

func within(spans []scraper.Span, s float64) bool {
	for _, sp := range spans {
		if s >= sp.From && s <= sp.To {
			return true
		}
	}
	return false
}
