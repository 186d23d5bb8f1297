package geom

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAngle(t *testing.T) {
	a := 30 * Degree
	assert.InDelta(t, 0.5, a.Sin(), 1e-15)
	assert.InDelta(t, math.Sqrt(3)/2, a.Cos(), 1e-15)
	assert.InDelta(t, 1/math.Sqrt(3), a.Tan(), 1e-15)
	assert.InDelta(t, math.Pi/6, a.Radians(), 1e-15)
	assert.Equal(t, a, (-a).Abs())
	text, err := json.Marshal(a)
	require.NoError(t, err)
	assert.Equal(t, "30", string(text))
	text, err = json.Marshal(-1e-12 * Degree)
	require.NoError(t, err)
	assert.Equal(t, "0", string(text), "no minus zero")
}

func TestRect(t *testing.T) {
	r := EmptyRect()
	assert.True(t, r.Empty())
	assert.Equal(t, 0.0, r.Width())
	assert.Equal(t, 0.0, r.Height())
	r = r.Include(Pt(1, 2)).Include(Pt(4, 8))
	assert.Equal(t, 3.0, r.Width())
	assert.Equal(t, 6.0, r.Height())
	assert.Equal(t, Pt(2.5, 5), r.Center())
	assert.Equal(t, r, r.Union(EmptyRect()))
	assert.Equal(t, r, EmptyRect().Union(r))
	assert.True(t, r.Overlaps(Rect{Pt(4, 8), Pt(9, 9)}))
	assert.False(t, r.Overlaps(Rect{Pt(4.1, 8), Pt(9, 9)}))
}

func TestAffine(t *testing.T) {
	m := Rotation(30 * Degree).Then(Scaling(2, -3)).Then(Translation(Pt(5, 7)))
	assert.InDelta(t, -6, m.Det(), 1e-14)
	near(t, Pt(5, 7), m.Apply(Pt(0, 0)), 1e-14)
	near(t, Pt(2*math.Cos(math.Pi/6)+5, -3*0.5+7), m.Apply(Pt(1, 0)), 1e-14)
	near(t, Pt(3, -4), m.Then(m.Inverse()).Apply(Pt(3, -4)), 1e-13)
	near(t, Pt(3, -4), Identity().Apply(Pt(3, -4)), 0)
}

func TestEmptyPath(t *testing.T) {
	var p Path
	assert.Equal(t, Point{}, p.Start())
	assert.Equal(t, Point{}, p.End())
	assert.Equal(t, Point{}, p.At(1))
	assert.Equal(t, Point{}, p.Tangent(1))
	assert.Equal(t, Point{}, p.Centroid())
	assert.Equal(t, Point{}, p.Moment())
	assert.Equal(t, 0.0, p.Area()+p.Length())
	assert.True(t, p.Bounds().Empty())
	assert.False(t, p.Closed(1))
	assert.False(t, p.Contains(Pt(0, 0)))
	_, _, d := p.Nearest(Pt(0, 0))
	assert.True(t, math.IsInf(d, 1))
	below, above := p.SplitAtHeight(0)
	assert.Empty(t, below)
	assert.Empty(t, above)
	assert.Nil(t, Polygon(Pt(1, 1)))
	assert.Nil(t, Polyline(Pt(1, 1)))
}

func TestDegenerateSegments(t *testing.T) {
	dot := Line{Pt(1, 1), Pt(1, 1)}
	assert.Equal(t, Point{}, dot.Tangent(0))
	assert.Equal(t, 0.0, dot.Nearest(Pt(9, 9)))
	assert.Equal(t, 0.0, Arc{Radius: 1, From: 1, Sweep: 1}.Nearest(Pt(0, 0)))
	flat := Scaling(1, 0)
	assert.IsType(t, Line{}, Arc{Radius: 1, Sweep: 1}.Transform(flat))
	assert.IsType(t, Line{}, EllipticArc{RX: 2, RY: 1, Sweep: 1}.Transform(flat))
	// A line there and back has no area, and balances at the middle of its bounds.
	near(t, Pt(2, 3), Polygon(Pt(0, 0), Pt(4, 6)).Centroid(), 1e-12)
	// A tolerance of nothing is held to what a float can hold.
	assert.Less(t, len(Arc{Radius: 1, Sweep: 6}.Flatten(0)), 1_000_000)
	assert.Equal(t, len(Arc{Radius: 1, Sweep: 6}.Flatten(0)), len(Arc{Radius: 1, Sweep: 6}.Flatten(math.NaN())))
	// Past the ends of a path there are the ends.
	p := Polyline(Pt(0, 0), Pt(1, 0), Pt(1, 1))
	assert.Equal(t, Pt(0, 0), p.At(-1))
	assert.Equal(t, Pt(1, 1), p.At(9))
	assert.Equal(t, Pt(0, 0), p.At(math.NaN()))
	assert.Equal(t, Pt(0, 1), p.Tangent(1))
	assert.Equal(t, Pt(0, 1), p.Tangent(2))
}

func TestChainsJoinInAnyOrder(t *testing.T) {
	got := joinChains([]Path{Polyline(Pt(2, 0), Pt(3, 0)), Polyline(Pt(9, 9), Pt(8, 8)), Polyline(Pt(0, 0), Pt(2, 0)), Polyline(Pt(3, 0), Pt(4, 0))})
	require.Len(t, got, 2)
	lengths := []float64{got[0].Length(), got[1].Length()}
	assert.ElementsMatch(t, []float64{math.Sqrt2, 4}, lengths)
}
