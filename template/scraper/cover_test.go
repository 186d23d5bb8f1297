package scraper_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/scraper"
)

// What the blades scrape together is the face: a place that none of them scrapes is named, and is one that no plunge could.
func TestTheWholeFaceIsCovered(t *testing.T) {
	t.Parallel()
	for _, s := range sections(t) {
		for _, o := range []scraper.Options{{}, {MaxWidth: 25}, {Plunge: degrees(0)}, {Plunge: degrees(-45)}} {
			p, err := scraper.Make(s, o)
			if err != nil {
				require.ErrorIs(t, err, scraper.ErrHidden, s.Name)
				continue
			}
			left := 0.0
			for _, l := range p.Left {
				left += l.Length
				require.Empty(t, l.Given)
			}
			scraped := 0.0
			at, pts := samples(s, 0.1)
			covered := func(q float64) bool {
				for _, b := range p.Blades {
					if within(b.Spans, q) {
						return true
					}
				}
				return false
			}
			for i, q := range at {
				g := s.Face[int(q)]
				n := math.Max(2, math.Ceil(g.Length()/0.1))
				if covered(q) {
					scraped += g.Length() / n
					continue
				}
				require.True(t, named(p.Left, pts[i]), "%s: %v is neither scraped nor named", s.Name, pts[i])
				if d := 0.4 / g.Length(); !covered(q-d) && !covered(q+d) && distanceToJoint(s, q) > 0.1 { // blades part wedges at every quarter of a mm
					require.False(t, reachable(s, q), "%s: %v is left, though a blade could scrape it", s.Name, pts[i])
				}
			}
			require.InDelta(t, s.Face.Length(), scraped+left, 0.11*float64(len(s.Face)), s.Name)
		}
	}
}

func named(places []scraper.Place, q geom.Point) bool {
	for _, p := range places {
		if q.Y >= p.Y0-1e-6 && q.Y <= p.Y1+1e-6 {
			return true
		}
	}
	return false
}

// distanceToJoint returns how far along the face a place is from the nearest joint of its segment.
func distanceToJoint(s profile.Section, q float64) float64 {
	g := s.Face[int(q)]
	t := q - math.Floor(q)
	return g.Length() * math.Min(t, 1-t)
}

// reachable reports whether any plunge, a degree apart, meets the face at q with a wall of well over five degrees and no wood in the way. It asks the
// outline itself, with exact crossings.
func reachable(s profile.Section, q float64) bool {
	g := s.Face[int(q)]
	t := q - math.Floor(q)
	n := g.Tangent(t).Left().Mul(-1)
	for a := -90.0; a <= 90; a++ {
		sin, cos := math.Sincos(a * math.Pi / 180)
		v := geom.Pt(cos, sin)
		if v.Dot(n) < math.Sin(10*math.Pi/180) {
			continue
		}
		from := g.At(t).Add(n.Mul(0.001))
		free := true
		for _, seg := range s.Outline {
			if len(geom.Crossings(geom.Line{A: from, B: from.Add(v.Mul(1000))}, seg)) > 0 {
				free = false
				break
			}
		}
		if free {
			return true
		}
	}
	return false
}

// No blade is wider than was asked for, and each scrapes walls that are at least five degrees from its plunge.
func TestWidthAndWalls(t *testing.T) {
	t.Parallel()
	for _, s := range sections(t) {
		for _, width := range []float64{8, 20, 50.8, 120} {
			p := plan(t, s, scraper.Options{MaxWidth: width, Lean: 15 * geom.Degree})
			for i, b := range p.Blades {
				require.LessOrEqual(t, b.Steel.Width, width+1e-6, "%s, blade %s", s.Name, b.Mark)
				require.GreaterOrEqual(t, b.Steel.Width, scraper.LeastWidth, "%s, blade %s", s.Name, b.Mark)
				require.GreaterOrEqual(t, b.Steep.Degrees(), 5-1e-6, "%s, blade %s", s.Name, b.Mark)
				if i > 0 {
					require.GreaterOrEqual(t, b.Spans[0].From, p.Blades[i-1].Spans[0].From, "blades come from the foot upward")
				}
			}
		}
	}
}

// A wide flat is parted on the flat and a stack at its corners; blades reach past each other there.
func TestPartedAtCornersAndFlats(t *testing.T) {
	s := made(t,
		profile.Entry{Kind: profile.KindFascia, Height: profile.MM(30)},
		profile.Entry{Kind: profile.KindCove, Height: profile.MM(20)},
		profile.Entry{Kind: profile.KindFillet, Height: profile.MM(5), Set: profile.MM(2)},
		profile.Entry{Kind: profile.KindOvolo, Height: profile.MM(20)},
	)
	p := plan(t, s, scraper.Options{MaxWidth: 40})
	require.Greater(t, len(p.Blades), 1)
	for i := 1; i < len(p.Blades); i++ {
		from := p.Blades[i].Spans[0].From
		g := s.Face[min(int(from), len(s.Face)-1)]
		_, flat := g.(geom.Line)
		require.True(t, flat || from == math.Floor(from), "blade %s starts in a curve, at %g", p.Blades[i].Mark, from)
		a, b := p.Blades[i-1].Work.Bounds(), p.Blades[i].Work.Bounds()
		require.True(t, a.Overlaps(b))
	}
}

// The plunge found for a face keeps its steepest wall as far from it as can be: a quarter round is met at 45 degrees, and no other
// whole degree does better.
func TestThePlungeFound(t *testing.T) {
	for _, c := range []struct {
		kind   profile.Kind
		plunge float64
	}{{profile.KindCove, -45}, {profile.KindOvolo, -45}, {profile.KindFascia, 0}} {
		e := profile.Entry{Kind: c.kind, Height: profile.MM(20)}
		p := plan(t, made(t, e, profile.Entry{Kind: profile.KindFillet, Height: profile.MM(3)}), scraper.Options{})
		require.Len(t, p.Blades, 1)
		require.InDelta(t, c.plunge, p.Blades[0].Plunge.Degrees(), 1e-9, "%s", c.kind)
	}
	foot := profile.Entry{Kind: profile.KindFillet, Height: profile.MM(3)}
	lean := profile.Entry{Kind: profile.KindCove, Height: profile.MM(20), Projection: profile.MM(-10), Curve: profile.CurveEllipse} // a base: it looks up
	top := profile.Entry{Kind: profile.KindFillet, Height: profile.MM(3)}
	require.InDelta(t, 45, plan(t, made(t, foot, lean, top), scraper.Options{}).Blades[0].Plunge.Degrees(), 1e-9)
	cyma := made(t, profile.Entry{Kind: profile.KindCymaRecta, Height: profile.MM(20), Projection: profile.MM(16)}, top)
	b := plan(t, cyma, scraper.Options{}).Blades[0]
	for a := -90.0; a <= 90; a++ {
		worst := 90.0
		at, pts := samples(cyma, 0.05)
		for i := range pts {
			g := cyma.Face[int(at[i])]
			n := g.Tangent(at[i] - math.Floor(at[i])).Left().Mul(-1)
			sin, cos := math.Sincos(a * math.Pi / 180)
			worst = math.Min(worst, math.Asin(math.Max(-1, math.Min(1, n.Dot(geom.Pt(cos, sin)))))*180/math.Pi)
		}
		require.LessOrEqual(t, worst, b.Steep.Degrees()+1, "a plunge of %g degrees", a) // to the whole degree
	}
}

// A plunge that was asked for names what it rubs on and what is hidden from it, and another blade takes that.
func TestWallsAndUndercutsAreNamedAndGiven(t *testing.T) {
	s := section(t, "press-waist")
	p := plan(t, s, scraper.Options{Plunge: degrees(0)})
	require.NotEmpty(t, p.Missed)
	require.Empty(t, p.Left)
	rub := 0
	for _, m := range p.Missed {
		require.NotEmpty(t, m.Given, "from %g to %g", m.Y0, m.Y1)
		require.NotContains(t, m.Given, "A", "blade A has the plunge that was asked for")
		require.Positive(t, m.Length)
		if m.Why == scraper.Rub {
			rub++
		}
	}
	require.Positive(t, rub)
	require.Zero(t, p.Blades[0].Plunge)
	require.NotEmpty(t, p.Blades[0].Rubs)

	below := plan(t, s, scraper.Options{Plunge: degrees(-60)})
	why := map[scraper.Why]bool{}
	for _, m := range below.Missed {
		why[m.Why] = true
	}
	require.True(t, why[scraper.Hidden], "the top of the torus is hidden from below")
}

// Turned over twice a blade is as it was; once, it is its own image.
func TestMirrorTwiceIsIdentity(t *testing.T) {
	for _, s := range sections(t) {
		for _, b := range plan(t, s, scraper.Options{Lean: 20 * geom.Degree}).Blades {
			m := b.Mirrored()
			require.Equal(t, scraper.RightHand, m.Hand)
			require.InDelta(t, b.Outline.Area(), m.Outline.Area(), 1e-9)
			require.NotEqual(t, b.Outline.Start(), m.Outline.Start())
			twice := m.Mirrored()
			require.Equal(t, b.Hand, twice.Hand)
			require.Equal(t, b.Steel.Center, twice.Steel.Center)
			require.Equal(t, b.Guide, twice.Guide)
			require.Less(t, geom.Hausdorff(b.Outline, twice.Outline, 0.5), 1e-9)
			require.Less(t, geom.Hausdorff(b.Edge, twice.Edge, 0.5), 1e-9)
			require.Len(t, twice.Files, len(b.Files))
		}
		for _, g := range []scraper.Gauge{scraper.PositiveGauge(s), scraper.NegativeGauge(s)} {
			require.Less(t, geom.Hausdorff(g.Outline, g.Mirrored().Mirrored().Outline, 0.5), 1e-9)
			require.InDelta(t, g.Outline.Area(), g.Mirrored().Outline.Area(), 1e-9)
		}
	}
}
