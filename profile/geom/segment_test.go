package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// seeded returns a source of numbers that is the same in every run; a failing test prints the seed.
func seeded(t *testing.T, seed uint64) *rand.Rand {
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("seed %d", seed)
		}
	})
	return rand.New(rand.NewPCG(seed, 1))
}

func randomPoint(r *rand.Rand, span float64) Point {
	return Pt((r.Float64()-0.5)*span, (r.Float64()-0.5)*span)
}

func randomSweep(r *rand.Rand) Angle {
	s := Angle(0.05 + r.Float64()*(2*math.Pi-0.05))
	if r.IntN(2) == 0 {
		return -s
	}
	return s
}

func randomArc(r *rand.Rand) Arc {
	return Arc{randomPoint(r, 100), 0.5 + 50*r.Float64(), Angle(r.Float64() * 6), randomSweep(r)}
}

func randomEllipse(r *rand.Rand) EllipticArc {
	return EllipticArc{
		randomPoint(r, 100), 0.5 + 50*r.Float64(), 0.5 + 50*r.Float64(),
		Angle(r.Float64() * 6), Angle(r.Float64() * 6), randomSweep(r),
	}
}

// randomSegment returns a line, an arc or an elliptic arc by turns.
func randomSegment(r *rand.Rand, i int) Segment {
	switch i % 3 {
	case 0:
		return Line{randomPoint(r, 100), randomPoint(r, 100)}
	case 1:
		return randomArc(r)
	}
	return randomEllipse(r)
}

func near(t *testing.T, want, got Point, tol float64, msg ...any) {
	t.Helper()
	if !want.Near(got, tol) {
		assert.Equal(t, want, got, msg...)
	}
}

func TestQuarterCircleByHand(t *testing.T) {
	a := Arc{Center: Pt(0, 0), Radius: 2, Sweep: 90 * Degree}
	near(t, Pt(2, 0), a.Start(), 1e-15)
	near(t, Pt(0, 2), a.End(), 1e-15)
	near(t, Pt(0, 1), a.Tangent(0), 1e-15)
	near(t, Pt(-1, 0), a.Tangent(1), 1e-15)
	assert.InDelta(t, math.Pi, a.Length(), 1e-15)
	assert.InDelta(t, math.Pi, a.Area(), 1e-14)
	// First moment of a quarter disk about each straight side: r cubed / 3.
	near(t, Pt(8.0/3, 8.0/3), a.Moment(), 1e-13)
	assert.InDelta(t, 0.5, a.Nearest(Pt(9, 9)), 1e-15)
	assert.Equal(t, 0.0, a.Nearest(Pt(3, -1)))
	assert.Equal(t, 1.0, a.Nearest(Pt(-1, 3)))
}

// Area and Moment are integrals along the segment; here they are summed by the midpoint rule with Richardson's step.
func TestAreaAndMomentAreTheIntegrals(t *testing.T) {
	r := seeded(t, 11)
	for i := range 300 {
		s := randomSegment(r, i)
		area, moment := integralsByHand(s, 4000)
		scale := 1 + math.Abs(area)
		assert.InDelta(t, area, s.Area(), 1e-6*scale*1e-2, "%#v", s)
		near(t, moment, s.Moment(), 1e-7*(1+moment.Norm()), "%#v", s)
	}
}

func integralsByHand(s Segment, n int) (float64, Point) {
	sum := func(n int) (area float64, m Point) {
		prev := s.At(0)
		for i := 1; i <= n; i++ {
			p := s.At(float64(i) / float64(n))
			c := prev.Cross(p) / 2
			area, m = area+c, m.Add(prev.Add(p).Mul(c/3))
			prev = p
		}
		return area, m
	}
	a1, m1 := sum(n)
	a2, m2 := sum(2 * n)
	return a2 + (a2-a1)/3, m2.Add(m2.Sub(m1).Mul(1.0 / 3))
}

func TestFlattenKeepsItsTolerance(t *testing.T) {
	r := seeded(t, 12)
	for i := range 300 {
		s := randomSegment(r, i)
		for _, tol := range []float64{5, 0.1, 0.002} {
			pts := s.Flatten(tol)
			require.GreaterOrEqual(t, len(pts), 2)
			assert.Equal(t, s.Start(), pts[0])
			assert.Equal(t, s.End(), pts[len(pts)-1])
			chain, worst := Polyline(pts...), 0.0
			for k := range 200 {
				_, _, d := chain.Nearest(s.At(float64(k) / 199))
				worst = math.Max(worst, d)
			}
			assert.LessOrEqual(t, worst, tol*(1+1e-12), "%#v", s)
		}
	}
}

func TestTransformMovesEveryPoint(t *testing.T) {
	r := seeded(t, 13)
	for i := range 600 {
		s := randomSegment(r, i)
		m := Affine{r.NormFloat64(), r.NormFloat64(), r.NormFloat64(), r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
		if i%2 == 0 { // a similarity, mirrored at times
			m = Rotation(Angle(r.Float64() * 7)).Then(Scaling(2.5, 2.5)).Then(Scaling(float64(1-i%4), 1))
		}
		if math.Abs(m.Det()) < 1e-2 {
			continue
		}
		image, back := s.Transform(m), s.Transform(m).Transform(m.Inverse())
		for k := range 9 {
			u := float64(k) / 8
			near(t, m.Apply(s.At(u)), image.At(u), 1e-10, "%#v %#v", s, m)
			near(t, s.At(u), back.At(u), 1e-9, "%#v %#v", s, m)
		}
		if _, round := s.(Arc); round {
			assert.IsType(t, Arc{}, back)
			if i%2 == 0 {
				assert.IsType(t, Arc{}, image)
			}
		}
	}
}

func TestNearestIsNoFartherThanAnySample(t *testing.T) {
	r := seeded(t, 14)
	for i := range 3000 {
		s := randomSegment(r, i)
		q := randomPoint(r, 150)
		switch i % 7 {
		case 0: // close to the axes of an ellipse, where feet run together
			if e, ok := s.(EllipticArc); ok {
				q = e.Center.Add(Polar(r.Float64()*e.RX, e.Turn))
			}
		case 1:
			if e, ok := s.(EllipticArc); ok {
				q = e.Center.Add(Polar(r.Float64()*e.RY, e.Turn).Left())
			}
		}
		got := s.At(s.Nearest(q)).Dist(q)
		for k := range 401 {
			if d := s.At(float64(k) / 400).Dist(q); d < got-1e-9 {
				t.Fatalf("%#v: %v from %v, found %v", s, d, q, got)
			}
		}
	}
}

// From inside the evolute two points of an ellipse are nearest of their surroundings; half the ellipse may hold only the farther.
func TestNearestOnTheFarHalf(t *testing.T) {
	r := seeded(t, 17)
	for range 500 {
		s := EllipticArc{RX: 50, RY: 2 + 30*r.Float64(), From: -170 * Degree, Sweep: 160 * Degree}
		q := Pt(90*(r.Float64()-0.5), 3*r.Float64())
		got := s.At(s.Nearest(q)).Dist(q)
		for k := range 401 {
			require.GreaterOrEqual(t, s.At(float64(k)/400).Dist(q), got-1e-9, "%#v %v", s, q)
		}
	}
}

func TestTurnParameterForgivesRounding(t *testing.T) {
	assert.Equal(t, 0.0, turnParameter(1, 2, 1-1e-14))
	assert.Equal(t, 1.0, turnParameter(1, 2, 3+1e-14))
	assert.Equal(t, 0.0, turnParameter(1, -2, 1+1e-14))
	assert.InDelta(t, 0.25, turnParameter(1, -2, 0.5+4*math.Pi), 1e-14)
	assert.Greater(t, turnParameter(1, 2, 0.9), 1.0)
}

func TestBoundsAreTight(t *testing.T) {
	r := seeded(t, 15)
	for i := range 300 {
		s := randomSegment(r, i)
		want := EmptyRect()
		for k := range 20001 {
			want = want.Include(s.At(float64(k) / 20000))
		}
		got := s.Bounds()
		near(t, want.Min, got.Min, 1e-5, "%#v", s)
		near(t, want.Max, got.Max, 1e-5, "%#v", s)
		assert.True(t, got.Expand(1e-12).Contains(want.Min) && got.Expand(1e-12).Contains(want.Max))
	}
}

func TestReverseAndTrimKeepThePoints(t *testing.T) {
	r := seeded(t, 16)
	for i := range 300 {
		s := randomSegment(r, i)
		t0 := r.Float64() * 0.8
		t1 := t0 + r.Float64()*(1-t0)
		back, part := s.Reverse(), s.Trim(t0, t1)
		for k := range 9 {
			u := float64(k) / 8
			near(t, s.At(1-u), back.At(u), 1e-12)
			near(t, s.At(t0+u*(t1-t0)), part.At(u), 1e-12)
		}
		near(t, s.Tangent(0.3).Mul(-1), back.Tangent(0.7), 1e-12)
		assert.InDelta(t, -s.Area(), back.Area(), 1e-9)
		step := s.At(0.5 + 1e-6).Sub(s.At(0.5 - 1e-6)).Unit()
		near(t, step, s.Tangent(0.5), 1e-6)
	}
}

// A flat arc of great radius is a chord and a sliver whose area is 2/3 chord times sagitta, to the first order.
func TestFlatArcKeepsItsDigits(t *testing.T) {
	s, err := ArcThrough(Pt(0, 0), Pt(50, -0.001), Pt(100, 0))
	require.NoError(t, err)
	assert.IsType(t, Arc{}, s)
	assert.InEpsilon(t, 2.0/3*100*0.001, Path{s}.Area(), 1e-6)
	near(t, Pt(100, 0), s.End(), 1e-7)
}
