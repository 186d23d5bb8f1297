package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cyma returns a closed section of lines, arcs and an elliptic arc: a fillet, a cove, an ovolo and a flat back.
func cyma() Path {
	return Path{
		Line{Pt(0, 0), Pt(40, 0)},
		Line{Pt(40, 0), Pt(40, 6)},
		ArcBetween(Pt(40, 6), Pt(30, 16), Pt(40, 16), false),
		Line{Pt(30, 16), Pt(26, 16)},
		EllipticArc{Center: Pt(6, 16), RX: 20, RY: 14, Sweep: 90 * Degree},
		Line{Pt(6, 30), Pt(0, 30)},
		Line{Pt(0, 30), Pt(0, 0)},
	}
}

func TestSectionByHand(t *testing.T) {
	p := cyma()
	require.True(t, p.Closed(1e-12))
	// Rectangle, less a quarter disk, less the quarter that the ellipse leaves of its rectangle.
	want := 40*16 - math.Pi*100/4 + 6*14 + math.Pi*20*14/4
	assert.InEpsilon(t, want, p.Area(), 1e-13)
	assert.InEpsilon(t, -want, p.Reverse().Area(), 1e-13)
	assert.Equal(t, Rect{Pt(0, 0), Pt(40, 30)}, roundRect(p.Bounds()))
	// Moments of the same parts; a quarter disk or quarter ellipse has its center of gravity at 4a/(3 pi), 4b/(3 pi).
	g := 4 / (3 * math.Pi)
	parts := []struct {
		area float64
		at   Point
	}{
		{640, Pt(20, 8)},
		{-math.Pi * 25, Pt(40-10*g, 16-10*g)},
		{84, Pt(3, 23)},
		{math.Pi * 70, Pt(6+20*g, 16+14*g)},
	}
	m := Point{}
	for _, part := range parts {
		m = m.Add(part.at.Mul(part.area))
	}
	near(t, m.Mul(1/want), p.Centroid(), 1e-12)
	near(t, m, p.Moment(), 1e-9)
}

func roundRect(r Rect) Rect {
	f := func(x float64) float64 { return math.Round(x*1e9)/1e9 + 0 }
	return Rect{Pt(f(r.Min.X), f(r.Min.Y)), Pt(f(r.Max.X), f(r.Max.Y))}
}

// Pappus: turning a half disk about its straight side makes a ball, whose volume is 4/3 pi r cubed.
func TestPappusMakesABall(t *testing.T) {
	r := 7.5
	p := Path{Arc{Radius: r, From: -90 * Degree, Sweep: 180 * Degree}, Line{Pt(0, r), Pt(0, -r)}}
	assert.InEpsilon(t, 4.0/3*math.Pi*r*r*r, p.Area()*2*math.Pi*p.Centroid().X, 1e-14)
	// The same for an ellipse: 4/3 pi a2 b.
	e := Path{EllipticArc{RX: 3, RY: 8, From: -90 * Degree, Sweep: 180 * Degree}, Line{Pt(0, 8), Pt(0, -8)}}
	assert.InEpsilon(t, 4.0/3*math.Pi*9*8, e.Area()*2*math.Pi*e.Centroid().X, 1e-14)
}

func TestAreaFarFromTheOriginKeepsItsDigits(t *testing.T) {
	p := cyma()
	far := p.Translate(Pt(15000, -12000))
	assert.InEpsilon(t, p.Area(), far.Area(), 1e-12)
	near(t, p.Centroid().Add(Pt(15000, -12000)), far.Centroid(), 1e-9)
	bead := Circle(Pt(15000.123, -12000.456), 0.25)
	bead = append(append(bead.between(0, 0.3), bead.between(0.3, 0.6)...), bead.between(0.6, 1)...)
	assert.InEpsilon(t, math.Pi/16, bead.Area(), 1e-10)
	near(t, Pt(15000.123, -12000.456), bead.Centroid(), 1e-10)
}

// blob returns a closed counter-clockwise path that does not cross itself: n corners round the origin, joined by lines, bulging
// arcs and quarter turns of ellipses.
func blob(r *rand.Rand, n int) Path {
	pts := make([]Point, n)
	for i := range pts {
		a := Angle(2 * math.Pi * (float64(i) + 0.3*r.Float64()) / float64(n))
		pts[i] = Polar(20+10*r.Float64(), a)
	}
	var p Path
	for i, a := range pts {
		b := pts[(i+1)%n]
		mid := a.Lerp(b, 0.5)
		out := b.Sub(a).Left().Mul(-1)
		switch i % 3 {
		case 0:
			p = append(p, Line{a, b})
		case 1:
			s, err := ArcThrough(a, mid.Add(out.Mul(0.05+0.1*r.Float64())), b)
			if err != nil {
				panic(err)
			}
			p = append(p, s)
		default:
			h, k := b.Sub(a).Mul(0.5), out.Mul(0.05+0.1*r.Float64())
			m := Affine{-h.X, -h.Y, k.X, k.Y, mid.X, mid.Y}
			p = append(p, Arc{Radius: 1, Sweep: 180 * Degree}.Transform(m))
		}
	}
	return p
}

func TestPathLaws(t *testing.T) {
	r := seeded(t, 31)
	for i := range 200 {
		p := blob(r, 3+i%9)
		area, length := p.Area(), p.Length()
		require.Positive(t, area)
		require.True(t, p.Closed(1e-9))
		assert.InEpsilon(t, area, PolygonArea(p.Flatten(1e-4)), 2e-4)
		k := 0.2 + 3*r.Float64()
		assert.InEpsilon(t, k*k*area, p.Transform(Scaling(k, k)).Area(), 1e-12)
		assert.InEpsilon(t, k*length, p.Transform(Scaling(k, k)).Length(), 1e-11)
		assert.InEpsilon(t, -area, p.Reverse().Area(), 1e-12)
		assert.InEpsilon(t, area, p.MirrorX().Area(), 1e-12)
		assert.InEpsilon(t, area, p.MirrorY().Area(), 1e-12)
		assert.InEpsilon(t, area, p.Rotate(Angle(r.Float64()*7)).Area(), 1e-12)
		twice := p.MirrorX().MirrorX()
		for s := 0.0; s <= float64(len(p)); s += 0.25 {
			near(t, p.At(s), twice.At(s), 1e-10)
			near(t, p.At(s), p.Reverse().At(float64(len(p))-s), 1e-10)
			on, at, d := p.Nearest(p.At(s))
			assert.Less(t, d, 1e-9)
			near(t, p.At(s), at, 1e-9)
			near(t, p.At(s), p.At(on), 1e-9)
		}
		m := Affine{1, 0.3, -0.2, 1.4, 5, 6}
		near(t, m.Apply(p.Centroid()), p.Transform(m).Centroid(), 1e-10)
	}
}

func TestTrimmedPiecesJoin(t *testing.T) {
	r := seeded(t, 32)
	for i := range 200 {
		p := blob(r, 3+i%9)
		n := float64(len(p))
		a, b := r.Float64()*n, r.Float64()*n
		if a > b {
			a, b = b, a
		}
		in, round := p.Trim(a, b), p.Trim(b, a)
		near(t, in.End(), round.Start(), 1e-9)
		near(t, round.End(), in.Start(), 1e-9)
		assert.InEpsilon(t, p.Length(), in.Length()+round.Length(), 1e-11)
		whole := append(append(Path{}, in...), round...)
		assert.InEpsilon(t, p.Area(), whole.Area(), 1e-9)
	}
	assert.Empty(t, Polyline(Pt(0, 0), Pt(1, 0)).Trim(0.5, 0.5))
	assert.Empty(t, Polyline(Pt(0, 0), Pt(1, 0)).Trim(math.NaN(), 0.5))
}

func TestContains(t *testing.T) {
	r := seeded(t, 33)
	for i := range 60 {
		p := blob(r, 3+i%9)
		if i%2 == 0 {
			p = p.Reverse()
		}
		poly := Polygon(p.Flatten(1e-4)...)
		for range 100 {
			q := randomPoint(r, 80)
			if _, _, d := poly.Nearest(q); d > 2e-4 {
				assert.Equal(t, insideByAngle(poly, q), p.Contains(q), "%v %#v", q, p)
			}
		}
		assert.True(t, p.Contains(p.At(r.Float64()*float64(len(p)))))
	}
}

// insideByAngle sums the angles that the sides of a polygon are seen under.
func insideByAngle(poly Path, q Point) bool {
	sum := 0.0
	for _, s := range poly {
		u, v := s.Start().Sub(q), s.End().Sub(q)
		sum += math.Atan2(u.Cross(v), u.Dot(v))
	}
	return math.Abs(sum) > math.Pi
}

// A polygon holds what its path does: two ways to one answer, on a star that goes in and out, off its sides. Seeded.
func TestPolygonContains(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	var star []Point
	for i := range 14 {
		star = append(star, Polar([]float64{10, 4}[i%2], Angle(i)*360/14*Degree))
	}
	inside := 0
	for range 2000 {
		q := Pt(24*rng.Float64()-12, 24*rng.Float64()-12)
		in := PolygonContains(star, q)
		if _, _, d := Polygon(star...).Nearest(q); d > 1e-6 {
			require.Equal(t, Polygon(star...).Contains(q), in, "%v", q)
		}
		if in {
			inside++
		}
	}
	require.Greater(t, inside, 200)
	require.False(t, PolygonContains(star[:2], Pt(5, 0)))
	require.False(t, PolygonContains(nil, Pt(0, 0)))
}

// Points level with joints and tops, where a ray meets two segments at once or touches one.
func TestContainsLevelWithJoints(t *testing.T) {
	p := cyma()
	for _, c := range []struct {
		at   Point
		want bool
	}{
		{Pt(10, 16), true}, {Pt(-1, 16), false}, {Pt(35, 16), false}, {Pt(29, 16), true},
		{Pt(28, 16.001), false}, {Pt(-5, 30), false}, {Pt(-5, 0), false}, {Pt(-5, 6), false}, {Pt(20, 6), true},
		{Pt(50, 6), false}, {Pt(6, 29.999), true}, {Pt(6, 30.00001), false},
	} {
		assert.Equal(t, c.want, p.Contains(c.at), "%v", c.at)
		assert.Equal(t, c.want, p.Reverse().Contains(c.at), "%v", c.at)
		assert.Equal(t, c.want, p.MirrorX().Contains(Pt(-c.at.X, c.at.Y)), "%v", c.at)
		turned := p.Rotate(90 * Degree).Rotate(-90 * Degree)
		assert.Equal(t, c.want, turned.Contains(c.at), "%v turned", c.at)
	}
	ring := Circle(Pt(0, 0), 10)
	assert.True(t, ring.Contains(Pt(10, 0)))
	assert.True(t, ring.Contains(Pt(-3, 0)))
	assert.False(t, ring.Contains(Pt(-11, 0)))
	assert.False(t, ring.Contains(Pt(-9, 9)))
	assert.False(t, ring.Contains(Pt(-9.9, 10)))
}

func TestFlattenPath(t *testing.T) {
	pts := cyma().Flatten(0.01)
	for i, q := range pts {
		assert.Greater(t, q.Dist(pts[(i+1)%len(pts)]), 1e-6, "no joint twice")
	}
	assert.InEpsilon(t, cyma().Area(), PolygonArea(pts), 1e-3)
	assert.Len(t, Polygon(Pt(0, 0), Pt(1, 0), Pt(1, 1)).Flatten(1), 3)
	assert.Len(t, Polyline(Pt(0, 0), Pt(1, 0), Pt(1, 1)).Flatten(1), 3)
	assert.Empty(t, Path(nil).Flatten(1))
}

func TestArcsThatCannotBe(t *testing.T) {
	for _, pts := range [][3]Point{
		{Pt(0, 0), Pt(0, 0), Pt(1, 0)}, {Pt(0, 0), Pt(1, 1), Pt(0, 0)}, {Pt(0, 0), Pt(1, 0), Pt(1, 0)},
		{Pt(0, 0), Pt(2, 0), Pt(1, 0)}, {Pt(math.NaN(), 0), Pt(2, 0), Pt(1, 0)},
	} {
		_, err := ArcThrough(pts[0], pts[1], pts[2])
		assert.ErrorIs(t, err, ErrNoArc, "%v", pts)
	}
	for _, radius := range []float64{0, -1, 0.999, math.NaN(), math.Inf(1)} {
		_, err := ArcRadius(Pt(0, 0), Pt(2, 0), radius, true)
		assert.ErrorIs(t, err, ErrNoArc, "%v", radius)
	}
	_, err := ArcRadius(Pt(1, 1), Pt(1, 1), 5, true)
	assert.ErrorIs(t, err, ErrNoArc)
	s, err := ArcThrough(Pt(0, 0), Pt(1, 0), Pt(2, 0))
	require.NoError(t, err)
	assert.Equal(t, Line{Pt(0, 0), Pt(2, 0)}, s)
}

func TestArcsMeetTheirPoints(t *testing.T) {
	r := seeded(t, 34)
	for range 500 {
		a, b, c := randomPoint(r, 50), randomPoint(r, 50), randomPoint(r, 50)
		s, err := ArcThrough(a, b, c)
		require.NoError(t, err)
		near(t, a, s.Start(), 1e-8)
		near(t, c, s.End(), 1e-8)
		near(t, b, s.At(s.Nearest(b)), 1e-8)
		radius, ccw := a.Dist(b)*(0.5+r.Float64()), r.IntN(2) == 0
		arc, err := ArcRadius(a, b, radius, ccw)
		require.NoError(t, err)
		near(t, a, arc.Start(), 1e-9)
		near(t, b, arc.End(), 1e-9)
		assert.InEpsilon(t, radius, arc.Radius, 1e-9)
		assert.LessOrEqual(t, float64(arc.Sweep.Abs()), math.Pi+1e-9)
		assert.Equal(t, ccw, arc.Sweep > 0)
	}
}
