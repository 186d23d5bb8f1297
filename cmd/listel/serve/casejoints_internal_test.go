package serve

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/geom"
)

// outlineOf reads the data of a closed path of lines.
func outlineOf(t *testing.T, d string) []geom.Point {
	t.Helper()
	var out []geom.Point
	for _, m := range regexp.MustCompile(`[ML]([-\d.]+) ([-\d.]+)`).FindAllStringSubmatch(d, -1) {
		x, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		y, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
		out = append(out, geom.Pt(x, y))
	}
	require.NotEmpty(t, out)
	return out
}

func boundsOf(pts []geom.Point) geom.Rect {
	b := geom.EmptyRect()
	for _, p := range pts {
		b = b.Include(p)
	}
	return b
}

// The waist of the press asks for a spline and a pin of 1/4 in. The hole is bored square into the face of the miter of a right corner, which is seen
// along the run at 45 degrees: as high as the pin, and narrower by the root of 2. Hole and groove lie within the waist where it is cut.
func TestJointsShowInSection(t *testing.T) {
	a := askCase(t, serving(t), caseRequest{Name: "press.yaml", Text: exampleText(t, library.ExampleName)})
	var cut geom.Rect
	var joints [][]geom.Point
	for _, s := range viewNamed(a, "section").Shapes {
		switch {
		case s.Molding == "waist" && s.Run == "front" && s.Kind == "cut":
			cut = boundsOf(outlineOf(t, s.D))
		case s.Kind == splineSurface || s.Kind == pinSurface:
			require.Equal(t, "waist", s.Molding)
			joints = append(joints, outlineOf(t, s.D))
		}
	}
	require.Len(t, joints, 2)
	groove, pin := joints[0], joints[1]
	require.InDelta(t, 25.4/4/math.Sqrt2, boundsOf(pin).Width(), 0.05)
	require.InDelta(t, 25.4/4, boundsOf(pin).Height(), 0.05)
	require.Len(t, groove, 4)
	for _, pts := range joints {
		b := boundsOf(pts)
		require.Greater(t, b.Min.X, cut.Min.X)
		require.Less(t, b.Max.X, cut.Max.X)
		require.Greater(t, b.Min.Y, cut.Min.Y)
		require.Less(t, b.Max.Y, cut.Max.Y)
	}
}

// A section that lies turned round is found as such; what is no part of it is not.
func TestPlaceOf(t *testing.T) {
	section := geom.Polygon(geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(20, 30), geom.Pt(0, 30))
	place, ok := placeOf(section, []geom.Point{geom.Pt(95, 5), geom.Pt(105, 5), geom.Pt(105, 35), geom.Pt(85, 35)})
	require.True(t, ok)
	require.True(t, place.Apply(geom.Pt(20, 30)).Near(geom.Pt(85, 35), 1e-9))
	_, ok = placeOf(section, []geom.Point{geom.Pt(0, 0), geom.Pt(12, 0), geom.Pt(20, 30), geom.Pt(0, 30)})
	require.False(t, ok)
}
