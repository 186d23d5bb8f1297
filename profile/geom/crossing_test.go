package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// crossingsByHand counts the sign changes of chords: each segment is cut into n chords, and the chords are crossed pair by
// pair. It misses nothing that crosses at an angle and away from the ends.
func crossingsByHand(a, b Segment, n int) []Point {
	pa, pb := make([]Point, n+1), make([]Point, n+1)
	for i := range n + 1 {
		pa[i], pb[i] = a.At(float64(i)/float64(n)), b.At(float64(i)/float64(n))
	}
	var out []Point
	for i := range n {
		p, u := pa[i], pa[i+1].Sub(pa[i])
		for j := range n {
			q, v := pb[j], pb[j+1].Sub(pb[j])
			w := q.Sub(p)
			det := u.Cross(v)
			s, t := w.Cross(v)/det, w.Cross(u)/det
			if s >= 0 && s < 1 && t >= 0 && t < 1 {
				out = append(out, p.Add(u.Mul(s)))
			}
		}
	}
	return out
}

func TestCrossingsAgainstChords(t *testing.T) {
	r := seeded(t, 41)
	total := 0
	for i := range 900 {
		a, b := randomSegment(r, i), randomSegment(r, i/3)
		got := Crossings(a, b)
		for _, c := range got {
			near(t, a.At(c.TA), c.At, 1e-12)
			near(t, a.At(c.TA), b.At(c.TB), 1e-9, "%#v %#v", a, b)
			total++
		}
		want := crossingsByHand(a, b, 200)
		require.Len(t, got, len(want), "%#v\n%#v", a, b)
		for _, w := range want {
			best := math.Inf(1)
			for _, c := range got {
				best = math.Min(best, c.At.Dist(w))
			}
			assert.Less(t, best, 0.5, "%#v\n%#v", a, b)
		}
		swapped := Crossings(b, a)
		require.Len(t, swapped, len(got))
	}
	assert.Greater(t, total, 150, "the trial must meet some")
}

func TestCrossingsByHand(t *testing.T) {
	ring := Arc{Center: Pt(0, 0), Radius: 5, Sweep: 360 * Degree}
	oval := EllipticArc{Center: Pt(0, 0), RX: 5, RY: 3, Sweep: 360 * Degree}
	half := Arc{Center: Pt(0, 0), Radius: 5, Sweep: 180 * Degree}
	for name, c := range map[string]struct {
		a, b Segment
		want []Point
	}{
		"lines":                {Line{Pt(0, 0), Pt(4, 4)}, Line{Pt(0, 4), Pt(4, 0)}, []Point{Pt(2, 2)}},
		"lines at an end":      {Line{Pt(0, 0), Pt(4, 4)}, Line{Pt(4, 4), Pt(9, 0)}, []Point{Pt(4, 4)}},
		"a T":                  {Line{Pt(0, 0), Pt(4, 0)}, Line{Pt(2, 0), Pt(2, 5)}, []Point{Pt(2, 0)}},
		"parallel":             {Line{Pt(0, 0), Pt(4, 0)}, Line{Pt(0, 1), Pt(4, 1)}, nil},
		"lines that overlap":   {Line{Pt(0, 0), Pt(4, 0)}, Line{Pt(9, 0), Pt(1, 0)}, []Point{Pt(1, 0), Pt(4, 0)}},
		"line after line":      {Line{Pt(0, 0), Pt(4, 0)}, Line{Pt(5, 0), Pt(9, 0)}, nil},
		"3-4-5":                {Line{Pt(-9, 3), Pt(9, 3)}, ring, []Point{Pt(-4, 3), Pt(4, 3)}},
		"tangent line":         {Line{Pt(-9, 5), Pt(9, 5)}, ring, []Point{Pt(0, 5)}},
		"tangent from below":   {Line{Pt(-9, -5), Pt(9, -5)}, ring, []Point{Pt(0, -5)}},
		"just past":            {Line{Pt(-9, 5.001), Pt(9, 5.001)}, ring, nil},
		"circles 3-4-5":        {ring, Arc{Center: Pt(8, 0), Radius: 5, Sweep: -360 * Degree}, []Point{Pt(4, 3), Pt(4, -3)}},
		"circles outside":      {ring, Arc{Center: Pt(7, 0), Radius: 2, Sweep: 360 * Degree}, []Point{Pt(5, 0)}},
		"circles inside":       {ring, Arc{Center: Pt(-3, 0), Radius: 2, Sweep: 360 * Degree}, []Point{Pt(-5, 0)}},
		"a circle around":      {Arc{Center: Pt(-3, 0), Radius: 2, Sweep: 360 * Degree}, ring, []Point{Pt(-5, 0)}},
		"one in the other":     {ring, Arc{Center: Pt(1, 0), Radius: 2, Sweep: 360 * Degree}, nil},
		"arcs that overlap":    {half, Arc{Center: Pt(0, 0), Radius: 5, From: 90 * Degree, Sweep: 180 * Degree}, []Point{Pt(0, 5), Pt(-5, 0)}},
		"half circle misses":   {Line{Pt(-9, -3), Pt(9, -3)}, half, nil},
		"line through an oval": {Line{Pt(0, -9), Pt(0, 9)}, oval, []Point{Pt(0, -3), Pt(0, 3)}},
		"line on an oval":      {Line{Pt(-9, 3), Pt(9, 3)}, oval, []Point{Pt(0, 3)}},
		"circle round an oval": {ring, oval, []Point{Pt(5, 0), Pt(-5, 0)}},
		"circle in an oval":    {oval, Arc{Center: Pt(0, 0), Radius: 3, From: 1, Sweep: 360 * Degree}, []Point{Pt(0, 3), Pt(0, -3)}},
		"crossed ovals": {oval, EllipticArc{Center: Pt(0, 0), RX: 5, RY: 3, Turn: 90 * Degree, Sweep: 360 * Degree},
			// x = y on x2/25 + y2/9 = 1
			[]Point{Pt(15/math.Sqrt(34), 15/math.Sqrt(34)), Pt(-15/math.Sqrt(34), 15/math.Sqrt(34)), Pt(-15/math.Sqrt(34), -15/math.Sqrt(34)), Pt(15/math.Sqrt(34), -15/math.Sqrt(34))}},
		"ovals nose to nose": {oval, EllipticArc{Center: Pt(9, 0), RX: 4, RY: 1, Sweep: 360 * Degree}, []Point{Pt(5, 0)}},
		"a kiss that osculates": {oval, // the circle of curvature at the end of the long axis, radius b2/a, meets it there four-fold
			Arc{Center: Pt(5-9.0/5, 0), Radius: 9.0 / 5, From: 2, Sweep: 360 * Degree}, []Point{Pt(5, 0)}},
		"the same oval": {oval.Trim(0, 0.5), oval.Trim(0.25, 0.75), []Point{Pt(0, 3), Pt(-5, 0)}},
	} {
		got := Crossings(c.a, c.b)
		if assert.Equal(t, len(c.want), len(got), name) {
			for i, w := range c.want {
				near(t, w, got[i].At, 1e-7, name)
			}
		}
		assert.Equal(t, len(c.want), len(Crossings(c.b, c.a)), "%s, the other way", name)
	}
}

// An ellipse and its image by a map that keeps a known point in place share that point.
func TestEllipseCrossingsToRounding(t *testing.T) {
	r := seeded(t, 42)
	for range 500 {
		a := randomEllipse(r)
		a.Sweep = 2 * math.Pi
		b := randomEllipse(r)
		b.Sweep = 2 * math.Pi
		b.Center = b.Center.Add(a.At(r.Float64()).Sub(b.At(r.Float64())))
		got := Crossings(a, b)
		require.NotEmpty(t, got, "%#v\n%#v", a, b)
		for _, c := range got {
			near(t, a.At(c.TA), b.At(c.TB), 1e-10, "%#v\n%#v", a, b)
		}
	}
}

func TestSelfCrossings(t *testing.T) {
	eight := Polygon(Pt(0, 0), Pt(4, 4), Pt(4, 0), Pt(0, 4))
	got := eight.SelfCrossings(1e-6)
	require.Len(t, got, 1)
	near(t, Pt(2, 2), got[0].At, 1e-12)
	near(t, eight.At(got[0].S0), eight.At(got[0].S1), 1e-12)
	assert.Less(t, got[0].S0, got[0].S1)
	r := seeded(t, 43)
	for i := range 50 {
		assert.Empty(t, blob(r, 3+i%9).SelfCrossings(1e-6))
	}
	// Two half circles share both ends and are neighbors twice.
	top, bottom := Arc{Radius: 5, Sweep: math.Pi}, Arc{Radius: 5, From: math.Pi, Sweep: math.Pi}
	assert.Empty(t, Path{top, bottom}.SelfCrossings(1e-6))
	// A segment without length between neighbors does not part them.
	assert.Empty(t, Path{Line{Pt(0, 0), Pt(4, 0)}, Line{Pt(4, 0), Pt(4, 0)}, Line{Pt(4, 0), Pt(4, 4)}}.SelfCrossings(1e-6))
	// A path that comes back to touch itself.
	assert.Len(t, Polyline(Pt(0, 0), Pt(10, 0), Pt(10, 5), Pt(5, 0)).SelfCrossings(1e-6), 1)
}

func TestSplitByHand(t *testing.T) {
	p := cyma()
	below, above := p.SplitAtHeight(16)
	require.Len(t, below, 1)
	require.Len(t, above, 1)
	assert.InDelta(t, 640-math.Pi*25, below[0].Area(), 1e-9)
	assert.InDelta(t, 84+math.Pi*70, above[0].Area(), 1e-9)
	below, above = p.SplitAtHeight(-1)
	assert.Empty(t, below)
	assert.Len(t, above, 1)
	below, above = p.SplitAtHeight(30)
	assert.Len(t, below, 1)
	assert.Empty(t, above)
	// A comb stands on a back: three teeth above, the back below.
	comb := Polygon(Pt(0, 0), Pt(50, 0), Pt(50, 20), Pt(40, 20), Pt(40, 10), Pt(30, 10), Pt(30, 20), Pt(20, 20), Pt(20, 10), Pt(10, 10), Pt(10, 20), Pt(0, 20))
	for _, c := range []Path{comb, comb.Reverse()} {
		for _, y := range []float64{10, 12.5} { // on the gaps' floor, and over it
			below, above = c.SplitAtHeight(y)
			assert.Len(t, below, 1)
			assert.Len(t, above, 3)
			assert.InDelta(t, 3*10*(20-y), math.Abs(area(above)), 1e-9)
			assert.InDelta(t, c.Area(), area(above)+area(below), 1e-9)
		}
	}
	// An open path is closed first.
	left, right := Polyline(Pt(0, 0), Pt(10, 0), Pt(10, 10), Pt(0, 10)).SplitAtX(4)
	assert.InDelta(t, 40, area(left), 1e-12)
	assert.InDelta(t, 60, area(right), 1e-12)
	// A ring cut across its middle, and one that only touches the cut.
	below, above = Circle(Pt(0, 0), 5).SplitAtHeight(0)
	assert.InDelta(t, area(below), area(above), 1e-9)
	below, above = Circle(Pt(0, 0), 5).SplitAtHeight(5)
	assert.Len(t, below, 1)
	assert.Empty(t, above)
}

func area(ps []Path) float64 {
	sum := 0.0
	for _, p := range ps {
		sum += p.Area()
	}
	return sum
}

// A dip of the outline touches the cut from above, one of three ways round.
func TestSplitWhereTheOutlineTouches(t *testing.T) {
	base := []Segment{
		Line{Pt(0, 0), Pt(30, 0)}, Line{Pt(30, 0), Pt(30, 20)}, Line{Pt(30, 20), Pt(20, 20)},
		Arc{Center: Pt(15, 20), Radius: 5, Sweep: -180 * Degree}, Line{Pt(10, 20), Pt(0, 20)}, Line{Pt(0, 20), Pt(0, 0)},
	}
	p := Path(base)
	for _, y := range []float64{15, 15 + 1e-11, 15 - 1e-11, 15 + 1e-8, 20} {
		below, above := p.SplitAtHeight(y)
		assert.InDelta(t, p.Area(), area(below)+area(above), 1e-6, "%v", y)
		want := math.Min(y, 15) * 30
		if y < 20 {
			assert.InDelta(t, want, area(below), 1e-5, "%v", y)
		}
		for _, q := range append(below, above...) {
			assert.True(t, q.Closed(1e-6))
		}
	}
}

func TestSplitParts(t *testing.T) {
	r := seeded(t, 44)
	for i := range 300 {
		p := blob(r, 3+i%9).Translate(Pt(200, -100))
		for range 4 {
			y := -100 + (r.Float64()-0.5)*70
			x := 200 + (r.Float64()-0.5)*70
			below, above := p.SplitAtHeight(y)
			checkParts(t, p, below, above, func(b Rect) bool { return b.Max.Y <= y+1e-8 }, func(b Rect) bool { return b.Min.Y >= y-1e-8 })
			left, right := p.SplitAtX(x)
			checkParts(t, p, left, right, func(b Rect) bool { return b.Max.X <= x+1e-8 }, func(b Rect) bool { return b.Min.X >= x-1e-8 })
		}
		at := p[r.IntN(len(p))].Start()
		below, above := p.SplitAtHeight(at.Y)
		assert.InEpsilon(t, p.Area(), area(below)+area(above), 1e-9)
		left, right := p.SplitAtX(at.X)
		assert.InEpsilon(t, p.Area(), area(left)+area(right), 1e-9)
	}
}

func checkParts(t *testing.T, p Path, a, b []Path, okA, okB func(Rect) bool) {
	t.Helper()
	assert.InEpsilon(t, p.Area(), area(a)+area(b), 1e-10)
	for _, q := range a {
		assert.True(t, okA(q.Bounds()) && q.Closed(1e-6) && q.Area() > 0)
	}
	for _, q := range b {
		assert.True(t, okB(q.Bounds()) && q.Closed(1e-6) && q.Area() > 0)
	}
}

func TestSimplify(t *testing.T) {
	p := cyma()
	var cut Path
	r := rand.New(rand.NewPCG(45, 1))
	for _, s := range p {
		u := 0.2 + 0.6*r.Float64()
		cut = append(cut, s.Trim(0, u), Line{s.At(u), s.At(u)}, s.Trim(u, 1))
	}
	got := cut.Simplify(1e-9)
	require.Len(t, got, len(p))
	for s := 0.0; s <= float64(len(p)); s += 0.125 {
		near(t, p.At(s), got.At(s), 1e-9)
	}
	assert.IsType(t, Arc{}, got[2])
	assert.IsType(t, EllipticArc{}, got[4])
	// A corner, and lines that fold back, stay.
	assert.Len(t, Polyline(Pt(0, 0), Pt(1, 0), Pt(1, 1)).Simplify(0.01), 2)
	assert.Len(t, Polyline(Pt(0, 0), Pt(5, 0), Pt(2, 0)).Simplify(0.01), 2)
	// Two arcs that make more than a turn stay two.
	over := Path{Arc{Radius: 5, Sweep: 270 * Degree}, Arc{Radius: 5, From: 270 * Degree, Sweep: 270 * Degree}}
	assert.Len(t, over.Simplify(1e-6), 2)
	// A bow of many small steps must not straighten by and by.
	arc := Polyline(Arc{Radius: 50, Sweep: 1}.Flatten(1e-4)...)
	assert.LessOrEqual(t, Hausdorff(arc, arc.Simplify(0.01), 0.1), 0.0101)
	assert.Less(t, len(arc.Simplify(0.01)), len(arc))
	// A short step is bridged.
	step := Polyline(Pt(0, 0), Pt(5, 0), Pt(5, 0.005), Pt(9, 3)).Simplify(0.01)
	require.Len(t, step, 2)
	near(t, step[0].End(), step[1].Start(), 1e-12)
	assert.Empty(t, Path(nil).Simplify(1))
}

func TestHausdorff(t *testing.T) {
	a, b := Circle(Pt(0, 0), 10), Circle(Pt(1, 0), 12)
	assert.InDelta(t, 3, Hausdorff(a, b, 0.05), 1e-4)
	assert.InDelta(t, 0, Hausdorff(cyma(), cyma().Reverse(), 0.3), 1e-9)
	assert.True(t, math.IsInf(Hausdorff(a, nil, 1), 1))
	assert.Equal(t, 0.0, Hausdorff(nil, nil, 1))
	// One way it is small, the other way not.
	assert.InDelta(t, 7, Hausdorff(Polyline(Pt(0, 0), Pt(3, 0)), Polyline(Pt(0, 0), Pt(10, 0)), 0.1), 1e-9)
}
