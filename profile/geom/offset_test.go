package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// convex returns a convex counter-clockwise path of lines with rounded corners here and there.
func convex(r *rand.Rand, n int) Path {
	pts := make([]Point, n)
	for i := range pts {
		a := Angle(2 * math.Pi * (float64(i) + 0.3*r.Float64()) / float64(n))
		pts[i] = Polar(20, a)
	}
	var p Path
	for i, a := range pts {
		b := pts[(i+1)%n]
		if i%3 == 1 { // a flatter arc than that of the circle through the corners bulges less than it
			arc, err := ArcRadius(a, b, 25+20*r.Float64(), true)
			if err != nil {
				panic(err)
			}
			p = append(p, arc)
			continue
		}
		p = append(p, Line{a, b})
	}
	return p
}

// Steiner's formula: a convex shape grown by d has the area A + L d + pi d2 and the length L + 2 pi d.
func TestOffsetOutwardAgainstSteiner(t *testing.T) {
	r := seeded(t, 51)
	for i := range 200 {
		p := convex(r, 3+i%8)
		d := 0.01 + 15*r.Float64()
		out, err := p.Offset(-d, Round)
		require.NoError(t, err)
		require.Len(t, out, 1)
		assert.InEpsilon(t, p.Area()+p.Length()*d+math.Pi*d*d, out[0].Area(), 1e-9)
		assert.InEpsilon(t, p.Length()+2*math.Pi*d, out[0].Length(), 1e-9)
		// And back again.
		back, err := out[0].Offset(d, Round)
		require.NoError(t, err)
		require.Len(t, back, 1)
		assert.InEpsilon(t, p.Area(), back[0].Area(), 1e-6)
		assert.Less(t, Hausdorff(p, back[0], 1), 1e-4)
		// Clockwise, the outside is on the left.
		left, err := p.Reverse().Offset(d, Round)
		require.NoError(t, err)
		require.Len(t, left, 1)
		assert.InEpsilon(t, -out[0].Area(), left[0].Area(), 1e-9)
	}
}

func TestOffsetsByHand(t *testing.T) {
	square := Polygon(Pt(0, 0), Pt(10, 0), Pt(10, 10), Pt(0, 10))
	corner := Polygon(Pt(0, 0), Pt(20, 0), Pt(20, 10), Pt(10, 10), Pt(10, 20), Pt(0, 20)) // an L
	slot := Polygon(Pt(0, 0), Pt(30, 0), Pt(30, 20), Pt(17, 20), Pt(17, 5), Pt(13, 5), Pt(13, 20), Pt(0, 20))
	dumbbell := Polygon(Pt(0, 0), Pt(10, 0), Pt(10, 4), Pt(20, 4), Pt(20, 0), Pt(30, 0), Pt(30, 10), Pt(20, 10), Pt(20, 6), Pt(10, 6), Pt(10, 10), Pt(0, 10))
	ring := Circle(Pt(3, 4), 5)
	for name, c := range map[string]struct {
		p     Path
		d     float64
		join  Join
		count int
		area  float64
	}{
		"square in":               {square, 2, Round, 1, 36},
		"square in, miter":        {square, 2, Miter, 1, 36},
		"square out, miter":       {square, -2, Miter, 1, 14 * 14},
		"square out, round":       {square, -2, Round, 1, 100 + 80 + 4*math.Pi},
		"square swallowed":        {square, 5.001, Round, 0, 0},
		"square far swallowed":    {square, 50, Round, 0, 0},
		"circle in":               {ring, 2, Round, 1, 9 * math.Pi},
		"circle out":              {ring, -2, Round, 1, 49 * math.Pi},
		"circle swallowed":        {ring, 5.5, Round, 0, 0},
		"circle turned inside":    {ring, 12, Round, 0, 0},
		"L in":                    {corner, 2, Round, 1, 6*16 + 10*6 + (4 - math.Pi)},
		"L in, miter":             {corner, 2, Miter, 1, 6*16 + 10*6},
		"L out, miter":            {corner, -2, Miter, 1, 24*14 + 14*10},
		"slot narrows":            {slot, -1, Miter, 1, 32*22 - 2*15},
		"slot closes":             {slot, -2.5, Miter, 1, 35 * 25},
		"slot closes, round":      {slot, -2.5, Round, 1, 35*25 - 4*(1-math.Pi/4)*6.25 - notch(2.5, 4)},
		"dumbbell parts":          {dumbbell, 1.5, Miter, 2, 2 * 49},
		"dumbbell keeps its bar":  {dumbbell, 0.5, Miter, 1, 2*81 + 11*1},
		"dumbbell round":          {dumbbell, 1.5, Round, 2, 2*49 + 2*notch(1.5, 2)},
		"an arc shrinks to a dot": {Path{Line{Pt(0, 0), Pt(20, 0)}, Line{Pt(20, 0), Pt(20, 8)}, Arc{Pt(18, 8), 2, 0, 90 * Degree}, Line{Pt(18, 10), Pt(0, 10)}, Line{Pt(0, 10), Pt(0, 0)}}, 2, Round, 1, 16 * 6},
		"an arc turns over":       {Path{Line{Pt(0, 0), Pt(20, 0)}, Line{Pt(20, 0), Pt(20, 8)}, Arc{Pt(18, 8), 2, 0, 90 * Degree}, Line{Pt(18, 10), Pt(0, 10)}, Line{Pt(0, 10), Pt(0, 0)}}, 3, Round, 1, 14 * 4},
	} {
		out, err := c.p.Offset(c.d, c.join)
		require.NoError(t, err, name)
		assert.Len(t, out, c.count, name)
		assert.InDelta(t, c.area, area(out), 1e-6, name)
		for _, q := range out {
			assert.Empty(t, q.SelfCrossings(1e-5), name)
		}
	}
}

// notch is the area that is left open at the mouth of a slot of width w that an offset d closes: two quarter rounds
// that meet in a V.
func notch(d, w float64) float64 {
	x := w / 2 // from the corner to the middle
	return 2 * (d*x - (x*math.Sqrt(d*d-x*x)+d*d*math.Asin(x/d))/2)
}

// A hole closes off when the mouth of a C does.
func TestOffsetLeavesAHole(t *testing.T) {
	c := Polygon(Pt(0, 0), Pt(30, 0), Pt(30, 14), Pt(20, 14), Pt(20, 10), Pt(10, 10), Pt(10, 20), Pt(20, 20), Pt(20, 16), Pt(30, 16), Pt(30, 30), Pt(0, 30))
	out, err := c.Offset(-2, Miter)
	require.NoError(t, err)
	require.Len(t, out, 2)
	// The mouth is 2 mm high and the room behind it 10 by 10.
	assert.InDelta(t, 34*34, math.Max(out[0].Area(), out[1].Area()), 1e-6)
	assert.InDelta(t, -6*6, math.Min(out[0].Area(), out[1].Area()), 1e-6)
}

// Every point of a round offset is the distance away from the source, and every point at that distance on that side is on the offset.
func TestOffsetKeepsItsDistance(t *testing.T) {
	r := seeded(t, 52)
	found := 0
	for i := range 250 {
		p := star(r, 4+i%7)
		d := (r.Float64() - 0.5) * 16
		out, err := p.Offset(d, Round)
		require.NoError(t, err)
		for _, q := range out {
			require.True(t, q.Closed(1e-5), "%v", q)
			for _, s := range q {
				for _, u := range []float64{0.1, 0.5, 0.9} {
					_, _, dist := p.Nearest(s.At(u))
					require.InDelta(t, math.Abs(d), dist, 0.0011, "trial %d", i)
				}
			}
		}
		for range 40 {
			x := randomPoint(r, 90)
			_, _, dist := p.Nearest(x)
			if math.Abs(dist-math.Abs(d)) < 0.01 {
				continue
			}
			want := p.Contains(x) && dist > d
			if d < 0 {
				want = p.Contains(x) || dist < -d
			}
			n := 0
			for _, q := range out {
				n += q.winding(x)
			}
			require.Equal(t, want, n > 0, "trial %d: %v, d %v\n%#v", i, x, d, p)
			found++
		}
	}
	assert.Greater(t, found, 1000)
}

// star is a blob with deep dents.
func star(r *rand.Rand, n int) Path {
	p := blob(r, n)
	var out Path
	for i, s := range p {
		if i%2 == 0 {
			dent := s.At(0.5).Mul(0.4 + 0.3*r.Float64())
			out = append(out, Line{s.Start(), dent}, Line{dent, s.End()})
			continue
		}
		out = append(out, s)
	}
	return out
}

func TestOffsetOfOpenPaths(t *testing.T) {
	p := Polyline(Pt(0, 0), Pt(10, 0), Pt(10, 10))
	in, err := p.Offset(2, Miter)
	require.NoError(t, err)
	require.Len(t, in, 1)
	assert.InDelta(t, 16, in[0].Length(), 1e-9)
	near(t, Pt(0, 2), in[0].Start(), 1e-9)
	near(t, Pt(8, 10), in[0].End(), 1e-9)
	out, err := p.Offset(-2, Miter)
	require.NoError(t, err)
	require.Len(t, out, 1)
	assert.InDelta(t, 24, out[0].Length(), 1e-9)
	out, err = p.Offset(-2, Round)
	require.NoError(t, err)
	require.Len(t, out, 1)
	assert.InDelta(t, 20+math.Pi, out[0].Length(), 1e-9)
	// Nearly straight corners leave no scraps behind.
	for _, bend := range []float64{1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3} {
		for _, d := range []float64{3, -3} {
			got, err := Polyline(Pt(0, 0), Pt(10, 0), Pt(20, 10*bend), Pt(30, 0)).Offset(d, Round)
			require.NoError(t, err)
			assert.Len(t, got, 1, "%v %v", bend, d)
			assert.InDelta(t, 30, got[0].Length(), 0.1)
		}
	}
	// An S of arcs: lengths change by the turn times d.
	s := Path{Arc{Pt(0, 10), 10, -90 * Degree, 90 * Degree}, Arc{Pt(20, 10), 10, 180 * Degree, -90 * Degree}}
	got, err := s.Offset(3, Round)
	require.NoError(t, err)
	require.Len(t, got, 1)
	assert.InDelta(t, math.Pi/2*(7+13), got[0].Length(), 1e-9)
}

func TestOffsetRefuses(t *testing.T) {
	p := cyma()
	for _, d := range []float64{math.NaN(), math.Inf(1)} {
		_, err := p.Offset(d, Round)
		assert.ErrorIs(t, err, ErrOffset)
	}
	_, err := Path(nil).Offset(1, Round)
	assert.ErrorIs(t, err, ErrOffset)
	_, err = p.Offset(1, Join(7))
	assert.ErrorIs(t, err, ErrOffset)
	same, err := p.Offset(0, Round)
	require.NoError(t, err)
	assert.InEpsilon(t, p.Area(), same[0].Area(), 1e-4)
	sharp := Polygon(Pt(0, 0), Pt(100, 0), Pt(100, 1)) // past the miter limit
	out, err := sharp.Offset(-1, Miter)
	require.NoError(t, err)
	require.Len(t, out, 1)
	assert.InDelta(t, -1, out[0].Bounds().Min.X, 0.01)
}

func TestArcsStandForEllipses(t *testing.T) {
	r := seeded(t, 53)
	for range 200 {
		e := randomEllipse(r)
		arcs := e.arcs(0.001)
		assert.LessOrEqual(t, Hausdorff(Path{e}, arcs, e.Length()/400), 0.001, "%#v", e)
		for i := 1; i < len(arcs); i++ {
			near(t, arcs[i-1].End(), arcs[i].Start(), 1e-8)
			near(t, arcs[i-1].Tangent(1), arcs[i].Tangent(0), 1e-6, "%#v", e)
		}
		near(t, e.Start(), arcs.Start(), 1e-9)
		near(t, e.End(), arcs.End(), 1e-8)
		assert.Less(t, len(arcs), 200)
	}
}

// A miter keeps to the outside of the round join: nothing nearer than the distance is left out or let in, and the area tells.
func TestMiterGoesBeyondRound(t *testing.T) {
	r := seeded(t, 54)
	for i := range 200 {
		p := star(r, 4+i%7)
		d := (r.Float64() - 0.5) * 16
		round, err := p.Offset(d, Round)
		require.NoError(t, err)
		miter, err := p.Offset(d, Miter)
		require.NoError(t, err)
		if d < 0 {
			assert.GreaterOrEqual(t, area(miter), area(round)-1e-6, "trial %d", i)
		} else {
			assert.LessOrEqual(t, area(miter), area(round)+1e-6, "trial %d", i)
		}
		for _, q := range miter {
			require.True(t, q.Closed(1e-5))
			for _, s := range q {
				_, _, dist := p.Nearest(s.At(0.5))
				require.GreaterOrEqual(t, dist, math.Abs(d)-0.0011, "trial %d", i)
			}
		}
		for range 20 {
			x := randomPoint(r, 90)
			if _, _, dist := p.Nearest(x); dist < -d-0.01 {
				n := 0
				for _, q := range miter {
					n += q.winding(x)
				}
				require.Equal(t, 1, n, "trial %d %v", i, x)
			}
		}
	}
}

// An open offset is what is left, on one side, of the points at the distance.
func TestOpenOffsetKeepsItsDistance(t *testing.T) {
	r := seeded(t, 55)
	for i := range 250 {
		p := star(r, 5+i%7)
		p = p[:len(p)-2]
		d := (r.Float64() - 0.5) * 12
		out, err := p.Offset(d, Round)
		require.NoError(t, err)
		for _, q := range out {
			for k, s := range q {
				_, _, dist := p.Nearest(s.At(0.5))
				require.InDelta(t, math.Abs(d), dist, 0.0011, "trial %d", i)
				if k > 0 {
					near(t, q[k-1].End(), s.Start(), 1e-5)
				}
			}
		}
		// A foot set off square from the path is on the offset unless something else is nearer.
		for range 20 {
			s := r.Float64() * float64(len(p))
			x := p.At(s).Add(p.Tangent(s).Left().Mul(d))
			if _, _, dist := p.Nearest(x); dist < math.Abs(d)-1e-6 {
				continue
			}
			best := math.Inf(1)
			for _, q := range out {
				_, _, off := q.Nearest(x)
				best = math.Min(best, off)
			}
			require.Less(t, best, 0.0011, "trial %d, d %v, s %v", i, d, s)
		}
	}
}

// A raw offset is one chain, whatever its arcs do: else what it winds round would mean nothing.
func TestRawOffsetHangsTogether(t *testing.T) {
	r := seeded(t, 56)
	for i := range 200 {
		p := star(r, 4+i%7).rounded()
		raw := p.rawOffset((r.Float64()-0.5)*60, Join(i%2), true)
		for k, s := range raw {
			near(t, raw[(k+len(raw)-1)%len(raw)].End(), s.Start(), 1e-7, "trial %d", i)
		}
	}
}

func TestChainsTurnInside(t *testing.T) {
	chain := Polyline(Pt(0, 0), Pt(5, 0))
	pieces := []Path{Polyline(Pt(5, 0), Pt(9, 4)), Polyline(Pt(5, 0), Pt(9, -4)), Polyline(Pt(6, 0), Pt(9, -4))}
	used := make([]bool, 3)
	assert.Equal(t, 0, trimmer{inside: 1}.nextPiece(chain, pieces, used))
	assert.Equal(t, 1, trimmer{inside: -1}.nextPiece(chain, pieces, used))
	used[0], used[1] = true, true
	assert.Equal(t, -1, trimmer{inside: 1}.nextPiece(chain, pieces, used))
}

func TestWeldClosesGaps(t *testing.T) {
	arc := Arc{Center: Pt(10, 5), Radius: 5, From: -90 * Degree, Sweep: 90 * Degree}
	for _, p := range []Path{
		{Line{Pt(0, 0), Pt(10-4e-6, 0)}, arc},
		{arc, Line{Pt(15, 5+4e-6), Pt(15, 20)}},
		{arc, Arc{Center: Pt(20, 5+4e-6), Radius: 5, From: 180 * Degree, Sweep: -90 * Degree}},
	} {
		got := weld(p)
		for i := 1; i < len(got); i++ {
			near(t, got[i-1].End(), got[i].Start(), 1e-12)
		}
		near(t, p.Start(), got.Start(), 1e-12)
		near(t, p.End(), got.End(), 1e-12)
	}
}

// Two lips face each other across a mouth. Their rounds leave it open, but their mitered points, 2 d long at 60 degrees, run into
// each other: the result is an outside and a hole, and neither crosses anything.
func TestMiterPointsThatOverlap(t *testing.T) {
	h := 5 / math.Tan(math.Pi/6)
	c := Polygon(
		Pt(0, 0), Pt(60, 0), Pt(60, 20), Pt(55, 20+h), Pt(50, 20), Pt(50, 10), Pt(10, 10), Pt(10, 40+2*h), Pt(50, 40+2*h),
		Pt(50, 30+2*h), Pt(55, 30+h), Pt(60, 30+2*h), Pt(60, 50+2*h), Pt(0, 50+2*h),
	)
	round, err := c.Offset(-3, Round)
	require.NoError(t, err)
	assert.Len(t, round, 1, "10 mm less 2 times 3 is open")
	miter, err := c.Offset(-3, Miter)
	require.NoError(t, err)
	require.Len(t, miter, 2)
	all := append(append(Path{}, miter[0]...), miter[1]...)
	for i, a := range all {
		for _, b := range all[i+1:] {
			for _, x := range Crossings(a, b) {
				assert.True(t, x.At.Near(a.Start(), 1e-6) || x.At.Near(a.End(), 1e-6), "crosses at %v", x.At)
			}
		}
	}
	assert.Equal(t, 1, miter[0].winding(Pt(55, 25+h))+miter[1].winding(Pt(55, 25+h)), "the lips have grown together")
	assert.Equal(t, 0, miter[0].winding(Pt(30, 25+h))+miter[1].winding(Pt(30, 25+h)), "and shut a room in")
}
