package template_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// A cut at 45 degrees shows the section stretched to the square root of 2, and any cut shows its area divided by the cosine of
// the angle between the cut and a square one: two ways to one number.
func TestFaceOutline(t *testing.T) {
	_, s := libraryProfile(t, "press-cornice", 1)
	require.Less(t, geom.Hausdorff(template.FaceOutline(s, miter.Plane{S: 100, X: 1}), s.Outline.Transform(geom.Scaling(math.Sqrt2, 1)), 0.5), 1e-9)
	r := rand.New(rand.NewPCG(7, 7))
	for range 50 {
		c := miter.Plane{X: 4*r.Float64() - 2, Y: 2*r.Float64() - 1}
		cos := 1 / math.Sqrt(1+c.X*c.X+c.Y*c.Y)
		require.InEpsilon(t, s.Area()/cos, template.FaceOutline(s, c).Area(), 1e-9, "plane %v", c)
	}
}

// Distances on the drawn face are those of the points in the wood.
func TestFaceKeepsDistances(t *testing.T) {
	_, s := libraryProfile(t, "press-base", 1)
	r := rand.New(rand.NewPCG(11, 3))
	for range 50 {
		c := miter.Plane{X: 4*r.Float64() - 2, Y: 2*r.Float64() - 1}
		face := template.FaceOutline(s, c)
		for i := range face {
			a, b := s.Outline[i].Start(), s.Outline[(i+3)%len(face)].Start()
			along, d := c.At(a)-c.At(b), a.Dist(b)
			require.InDelta(t, math.Hypot(along, d), face[i].Start().Dist(face[(i+3)%len(face)].Start()), 1e-9, "plane %v", c)
		}
	}
}

// faceCase returns a front piece between two miters of square corners: x out from the face lengthens it at both ends.
func faceCase(t *testing.T, name string) miter.Result {
	_, s := libraryProfile(t, name, 1)
	piece := func(mark string, left, right miter.Plane) miter.Piece {
		return miter.Piece{Mark: mark, Section: &s, Profile: name, Ends: []miter.End{
			{End: miter.LeftHand, Kind: miter.CutMiter, Corner: 90 * geom.Degree, Cut: left},
			{End: miter.RightHand, Kind: miter.CutMiter, Corner: 90 * geom.Degree, Cut: right},
		}}
	}
	square, half := miter.Plane{}, 400.0
	return miter.Result{Moldings: []miter.MoldingResult{{
		Name: name, Profile: name,
		Spline: &miter.Spline{Thickness: 3, Depth: 9, From: [2]float64{8, 9}, To: [2]float64{20, 9}},
		Pin:    &miter.Pin{Diameter: 6, Depth: 19, At: [2]float64{16, 18}},
		Pieces: []miter.Piece{
			piece("F1", miter.Plane{X: -1}, miter.Plane{S: half, X: 1}),
			piece("F2", miter.Plane{X: -1}, miter.Plane{S: half, X: 0}),
			piece("F3", square, miter.Plane{S: half}),
		},
	}}}
}

// The faces of both ends are on the sheet to 0.01 mm, with the groove and the pin in their places from the back; ends that are square
// have none.
func TestMiterFaces(t *testing.T) {
	_, s := libraryProfile(t, "press-waist", 1)
	pages := template.MiterFaces(faceCase(t, "press-waist"), style(t, "ANSI B", measure.Inches))
	require.Len(t, pages, 1, "equal faces share one drawing")
	f := readBack(t, pages)
	left := s.Outline.Transform(geom.Scaling(math.Sqrt2, 1))
	for _, outline := range []geom.Path{left, left.MirrorX()} {
		pts := findOutline(f.Pages[0], outline, sheet.PenHair.Width)
		require.NotNil(t, pts)
		covers(t, outline, []geom.Path{geom.Polyline(pts...)}, "face")
	}
	texts, strokes := marksOf(pages[0].Content)
	want := map[string]bool{}
	for _, text := range texts {
		want[text.S] = true
	}
	require.True(t, want["left end, seen from the left"] && want["right end, seen from the right"], "%v", want)
	// The hole is 16 mm out from the back in the section: 22.6 mm on the face, from the back at its left.
	for _, stroke := range strokes {
		b := stroke.Path.Bounds()
		if math.Abs(b.Width()-6) > 1e-9 || math.Abs(b.Height()-6) > 1e-9 {
			continue
		}
		near := math.Inf(1)
		for _, other := range strokes {
			if o := other.Path.Bounds(); math.Abs(o.Width()-left.Bounds().Width()) < 1e-9 {
				near = min(near, math.Abs(math.Min(math.Abs(b.Center().X-o.Min.X), math.Abs(o.Max.X-b.Center().X))-16*math.Sqrt2))
			}
		}
		require.Less(t, near, 1e-9)
	}
	require.Empty(t, template.MiterFaces(miter.Result{}, style(t, "A4", measure.Inches)))
}

// An end along a wall that is not square to it meets nothing and gets no face, and no face is drawn for an end that no piece is cut to.
func TestNoFaceWithoutAPiece(t *testing.T) {
	_, r := caseOf(t, measure.Millimeters, miter.Plan{Width: 900, Depth: 400}, map[string]geom.Angle{"front-left": 90.5 * geom.Degree},
		miter.Molding{Name: "base", Profile: "press-base", Runs: []string{"left", "front"}})
	got := words(template.MiterFaces(r, style(t, "A4", measure.Millimeters)))
	require.NotContains(t, got, "180")
	require.NotContains(t, got, "no piece")
	require.Equal(t, 1, strings.Count(got, "left end, seen from the left"), "%s", got)
	require.Equal(t, 1, strings.Count(got, "right end, seen from the right"), "%s", got)

	for i := range r.Moldings[0].Pieces { // the right half of the corner alone
		if p := &r.Moldings[0].Pieces[i]; p.Run == "left" {
			p.Section = nil
		}
	}
	got = words(template.MiterFaces(r, style(t, "A4", measure.Millimeters)))
	require.Contains(t, got, "left end, seen from the left")
	require.NotContains(t, got, "right end, seen from the right")
}
