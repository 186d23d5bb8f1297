package cutter

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// stepCurve is level at 0 up to x = 0 and at h from there on.
func stepCurve(h float64) curve {
	return curve{linePiece(geom.Pt(-50, 0), geom.Pt(0, 0)), linePiece(geom.Pt(0, h), geom.Pt(50, h))}
}

func toolCurve(t Tool) curve { return shapeOf(t).cut }

// The closed forms below are worked by hand from the contact of one corner or one tangent.
func TestLowestAgainstClosedForms(t *testing.T) {
	const r, h = 6.0, 4.0
	ball := toolCurve(Tool{Kind: RoundNose, Radius: r})
	vee := toolCurve(Tool{Kind: Vee, Diameter: 20, Angle: 90 * geom.Degree})
	for x := -12.0; x <= 12; x += 0.37 {
		want := 0.0
		switch {
		case x >= 0:
			want = h
		case x > -r:
			want = math.Max(0, h-r+math.Sqrt(r*r-x*x)) // the corner touches the ball
		}
		require.InDelta(t, want, lowest(stepCurve(h), ball, x), 1e-12, "ball over step at %v", x)
		want = math.Max(0, h-math.Max(0, -x))
		if x <= -10 {
			want = 0
		}
		require.InDelta(t, want, lowest(stepCurve(h), vee, x), 1e-12, "vee over step at %v", x)
	}
	// Rectangle over the upper half of a circle: level with its top while it covers the middle, else with its nearer corner.
	const R, w = 15.0, 4.0
	dome := curve{arcPiece(geom.Pt(0, 0), R, upperHalf, -R, R)}
	bit := toolCurve(Tool{Kind: Straight, Diameter: 2 * w})
	for x := -18.0; x <= 18; x += 0.41 {
		near := math.Max(0, math.Abs(x)-w)
		require.InDelta(t, math.Sqrt(R*R-near*near), lowest(dome, bit, x), 1e-12, "rectangle over arc at %v", x)
	}
	// Ball over dome: the centers are R + r apart while they touch by their tangents.
	for x := -10.0; x <= 10; x += 0.7 {
		require.InDelta(t, math.Sqrt((R+r)*(R+r)-x*x)-r, lowest(dome, ball, x), 1e-12)
	}
	// Ball in a hollow of its own radius goes right down, and only at its middle.
	hollow := curve{arcPiece(geom.Pt(3, 10), r, lowerHalf, 3-r, 3+r)}
	require.InDelta(t, 10-r, lowest(hollow, ball, 3), 1e-12)
	require.Greater(t, lowest(hollow, ball, 3.1), 10-r+0.01)
}

func TestTouchingAWallIsNoClash(t *testing.T) {
	slot := curve{linePiece(geom.Pt(-20, 9), geom.Pt(-4, 9)), linePiece(geom.Pt(-4, 1), geom.Pt(4, 1)), linePiece(geom.Pt(4, 9), geom.Pt(20, 9))}
	bit := toolCurve(Tool{Kind: Straight, Diameter: 8})
	require.Equal(t, 1.0, lowest(slot, bit, 0), "a bit of the slot's width goes in")
	require.Equal(t, 9.0, lowest(slot, bit, 0.001))
	require.Equal(t, math.Inf(-1), lowest(slot, bit, 30))
}

// The analytic drop against the greatest difference over 4,000 sampled places: it is never under it, and over it by no more than
// the sampling can miss.
func TestLowestAgainstSampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1))
	for range 20 {
		s := envelope(randomFace(rng), newFrame(geom.Polar(1, geom.Angle(rng.Float64()*6))))
		for _, tool := range testTools() {
			c := toolCurve(tool)
			a, b := s.span()
			x := a + (b-a)*rng.Float64()
			got, sampled := lowest(s, c, x), math.Inf(-1)
			ta, tb := c.span()
			for i := range 4000 {
				u := ta + (tb-ta)*(float64(i)+0.5)/4000
				sv, ok := s.at(x + u)
				tv, ok2 := c.at(u)
				if ok && ok2 {
					sampled = math.Max(sampled, sv-tv)
				}
			}
			if math.IsInf(sampled, -1) {
				continue
			}
			require.GreaterOrEqual(t, got, sampled-1e-9, "%s", tool.Name)
			require.Less(t, got, sampled+0.7, "%s", tool.Name) // steep arcs fall by sqrt of the step
		}
	}
}

func TestEnvelopeIsTheGreatestHeight(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 2))
	for i := range 40 {
		p, f := randomFace(rng), newFrame(geom.Polar(1, geom.Angle(rng.Float64()*6)))
		if i%4 == 0 {
			p = p.Transform(geom.Scaling(1.3, 0.8)) // elliptic arcs
		}
		env, pieces := envelope(p, f), monotone(p, f)
		a, b := env.span()
		for range 200 {
			x, want := a+(b-a)*rng.Float64(), math.Inf(-1)
			for _, q := range pieces {
				if q.a <= x && x <= q.b {
					want = math.Max(want, q.at(x))
				}
			}
			got, ok := env.at(x)
			require.True(t, ok)
			require.InDelta(t, want, got, 1e-9)
		}
		for _, q := range p.Flatten(0.0005) {
			top, seen := math.Inf(-1), false
			for _, d := range []float64{-2e-3, -1e-9, 1e-9, 2e-3} { // chords and arcs for ellipses: plumb places shift by their tolerance
				v, ok := env.at(f.in(q).X + d)
				top, seen = math.Max(top, v), seen || ok
			}
			require.True(t, !seen || f.in(q).Y <= top+2e-3, "case %d: %v lies %v over the envelope", i, q, f.in(q).Y-top)
		}
	}
}

// The identities of mathematical morphology: a closing covers what it closes, doing it twice changes nothing, a higher section has a
// higher closing.
func TestClosingIdentities(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 3))
	for range 2 {
		s := envelope(randomFace(rng), newFrame(geom.Pt(1, 0)))
		a, b := s.span()
		higher := append(curve{}, s...)
		for i := range higher {
			higher[i] = higher[i].moved(geom.Pt(0, 0.3))
		}
		for _, tool := range testTools() {
			c := toolCurve(tool)
			cl, above := newClosing(s, c), newClosing(higher, c)
			xs, closed := []float64{}, curve{}
			for i := range 60 {
				xs = append(xs, a+(b-a)*(float64(i)+0.5)/60)
			}
			for i, x := range xs {
				v, sv := cl.at(x), 0.0
				sv, _ = s.at(x)
				require.GreaterOrEqual(t, v, sv-1e-9, "%s: extensive", tool.Name)
				require.GreaterOrEqual(t, above.at(x), v-1e-9, "%s: ordered", tool.Name)
				if i > 0 {
					closed = append(closed, linePiece(geom.Pt(xs[i-1], cl.at(xs[i-1])), geom.Pt(x, v)))
				}
			}
			// Closing the closed: the chords between the sampled places stand for it, so only a rise beyond their error counts.
			again := newClosing(closed, c)
			for i := 10; i < 50; i += 11 {
				first, second := cl.at(xs[i]), again.at(xs[i])
				require.GreaterOrEqual(t, second, first-1e-9, "%s: extensive again", tool.Name)
				require.InDelta(t, first, second, 0.4, "%s: idempotent", tool.Name)
			}
		}
	}
}

func ExampleTool_Validate() {
	fmt.Println(Tool{Name: "round-nose", Kind: RoundNose, Reach: 40, PerPass: 6}.Validate())
	// Output: tool round-nose: radius is missing or out of range
}
