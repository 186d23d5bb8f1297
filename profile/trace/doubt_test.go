package trace

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// What was found is doubted where it is a rectangle, where its straight side is on the side of the face, and where it ends with its crop.
func TestDoubts(t *testing.T) {
	molding := placed{points: []geom.Point{geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(10, 5), geom.Pt(20, 15), geom.Pt(20, 20), geom.Pt(0, 20)}}
	mirrored := placed{points: mapped(molding.points, affineMapping(geom.Translation(geom.Pt(-20, 0))).Then(affineMapping(geom.Scaling(-1, 1))))}
	border := placed{points: []geom.Point{geom.Pt(0, 0), geom.Pt(30, 0.1), geom.Pt(30, 20), geom.Pt(0, 20)}}
	require.True(t, border.isBox())
	require.False(t, molding.isBox())
	require.False(t, molding.looksTurned())
	require.True(t, mirrored.looksTurned())
	require.False(t, border.looksTurned())
	require.Equal(t, "its right side is one plumb line and its other is not; is the face on the left?", Wanted{}.otherSide())

	o := foundOutline{points: []geom.Point{geom.Pt(20, 13), geom.Pt(80, 13), geom.Pt(80, 90), geom.Pt(20, 90)}, line: 4}
	require.NoError(t, o.cutAt(image.Rect(10, 5, 100, 100)))
	var cut *EdgeError
	require.ErrorAs(t, o.cutAt(image.Rect(10, 10, 83, 100)), &cut)
	require.Equal(t, []string{"top", "right"}, cut.Sides)
}
