package profile_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
)

const seed = 20

// random returns a profile that may well be sound, in millimeters.
func random(r *rand.Rand) profile.Profile {
	mm := func(lo, hi float64) profile.Size { return profile.MM(lo + (hi-lo)*r.Float64()) }
	p := profile.Profile{Name: "random", Ground: mm(25, 60)}
	way := 1.0
	if r.IntN(2) == 0 {
		way = -1
	}
	for range 1 + r.IntN(7) {
		h := 4 + 12*r.Float64()
		run := profile.MM(way * h * (0.7 + 0.6*r.Float64()))
		e := profile.Entry{Height: profile.MM(h)}
		switch r.IntN(12) {
		case 0:
			e.Kind, e.Set = fillet, profile.MM(way*(1+4*r.Float64()))
		case 1:
			e.Kind, e.Projection, e.Curve = ovolo, run, profile.CurveEllipse
		case 2:
			e.Kind, e.Projection, e.Curve = profile.KindCove, run, profile.CurveEllipse
		case 3:
			e.Kind, e.Projection = recta, run
		case 4:
			e.Kind, e.Projection = reversa, run
		case 5:
			e.Kind, e.Projection, e.Curve = scotia, profile.MM(way*h*0.4), profile.CurveSevenths
		case 6:
			e.Kind = torus
		case 7:
			e.Kind, e.Quirk = profile.KindBead, &profile.BeadQuirk{Width: profile.MM(2), Depth: profile.MM(3), Sides: profile.Sides(r.IntN(3))}
		case 8:
			e.Kind, e.Projection, e.Fillet = profile.KindThumb, run, profile.MM(1.5)
		case 9:
			e.Kind, e.Depth = profile.KindQuirk, profile.MM(2)
		case 10:
			e.Kind, e.Count, e.Gap = profile.KindReeds, 2, profile.MM(1)
		case 11:
			e.Kind, e.Projection = profile.KindChamfer, run
		}
		p.Elements = append(p.Elements, e)
	}
	return p
}

// sound returns n random profiles that build, with their sections.
func sound(t *testing.T, n int) ([]profile.Profile, []profile.Section) {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 0))
	var ps []profile.Profile
	var ss []profile.Section
	for tries := 0; len(ps) < n; tries++ {
		require.Lessf(t, tries, 20*n, "too few random profiles build, seed %d", seed)
		p := random(r)
		s, err := p.Section(nil)
		if err == nil {
			ps, ss = append(ps, p), append(ss, s)
		}
	}
	return ps, ss
}

func TestOutlinesAreClosedSimpleAndCounterClockwise(t *testing.T) {
	_, ss := sound(t, 150)
	for i, s := range ss {
		require.Truef(t, s.Outline.Closed(1e-6), "seed %d, profile %d", seed, i)
		require.Positive(t, s.Area())
		require.Empty(t, s.Outline.SelfCrossings(1e-4))
		for j := range s.Outline {
			require.True(t, s.Outline[j].End().Near(s.Outline[(j+1)%len(s.Outline)].Start(), 1e-6), "segments join")
		}
		near(t, geom.Point{}, s.Outline.Start())
		require.InDelta(t, s.Outline.Length(), s.Face.Length()+s.Back.Length(), 1e-6)
		require.InDelta(t, s.Height, s.Outline.Bounds().Max.Y, 1e-6)
		require.InDelta(t, s.Projection, s.Outline.Bounds().Max.X, 1e-6)
		require.GreaterOrEqual(t, s.Thinnest().Thickness, profile.LeastThickness-1e-3)
		flat := s.Outline.Flatten(0.001)
		require.InDelta(t, s.Area(), geom.PolygonArea(flat), 0.001*s.Outline.Length())
	}
}

func TestMembersJoin(t *testing.T) {
	ps, ss := sound(t, 150)
	for i, s := range ss {
		x, y := s.Ground, 0.0
		for j, m := range s.Members {
			x += m.Set
			near(t, geom.Pt(x, y), m.Path.Start())
			require.InDelta(t, x, m.Start, 1e-9)
			require.InDelta(t, y, m.Foot, 1e-9)
			x, y = x+m.Projection, m.Path.End().Y
			near(t, geom.Pt(x, y), m.Path.End())
			require.Equal(t, ps[i].Elements[j].Kind, m.Kind)
		}
		require.InDelta(t, s.Height, y, 1e-9)
	}
}

// Scale k gives lengths times k and areas times k².
func TestScaled(t *testing.T) {
	ps, ss := sound(t, 60)
	for i, p := range ps {
		const k = 1.25
		s, err := p.Scaled(k).Section(nil)
		require.NoErrorf(t, err, "seed %d, profile %d", seed, i)
		require.InEpsilon(t, k*k*ss[i].Area(), s.Area(), 1e-9)
		require.InEpsilon(t, k*ss[i].FaceLength(), s.FaceLength(), 1e-9)
		require.InEpsilon(t, k*ss[i].Projection, s.Projection, 1e-9)
	}
}

// turnedOver returns the profile upside down: its elements from the top down, with both signs.
func turnedOver(p profile.Profile, s profile.Section) profile.Profile {
	out := p
	last := s.Members[len(s.Members)-1]
	out.Ground = profile.MM(last.Start + last.Projection)
	out.Elements = nil
	for i := len(p.Elements) - 1; i >= 0; i-- {
		e := p.Elements[i]
		if run := s.Members[i].Projection; run != 0 {
			e.Projection = profile.MM(-run)
		}
		if e.Quirk != nil && e.Quirk.Sides != profile.BothSides {
			q := *e.Quirk
			q.Sides = profile.AboveOnly + profile.BelowOnly - q.Sides
			e.Quirk = &q
		}
		e.Set = profile.Size{}
		if i+1 < len(p.Elements) {
			e.Set = profile.MM(-s.Members[i+1].Set)
		}
		out.Elements = append(out.Elements, e)
	}
	return out
}

// A base is a cornice turned upside down.
func TestTurnedOver(t *testing.T) {
	ps, ss := sound(t, 60)
	for i, p := range ps {
		s, err := turnedOver(p, ss[i]).Section(nil)
		require.NoErrorf(t, err, "seed %d, profile %d", seed, i)
		require.InEpsilon(t, ss[i].Area(), s.Area(), 1e-9)
		mirrored := ss[i].Outline.MirrorY().Translate(geom.Pt(0, ss[i].Height))
		require.Less(t, geom.Hausdorff(mirrored, s.Outline, 1), 1e-6)
	}
}

// Two ways to one shape: a profile given another height, and a file with that height.
func TestWithHeight(t *testing.T) {
	p := cornice()
	tall, err := p.WithHeight(2 * in)
	require.NoError(t, err)
	a, err := tall.Section(nil)
	require.NoError(t, err)
	p.Height = 2 * in
	b, err := p.Section(nil)
	require.NoError(t, err)
	require.Equal(t, b.Outline, a.Outline)
	require.InDelta(t, 4.0/14*in, a.Members[2].Height, 1e-9, "two parts of the new height")
	require.InDelta(t, (2-0.25-5.0/8-4.0/14)*in, a.Members[3].Height, 1e-9)
	_, err = one(kind(fillet, 1, 0)).WithHeight(50)
	require.ErrorIs(t, err, profile.ErrFixedHeight)
	for _, mm := range []float64{0, -1, math.NaN(), math.Inf(1), 30000} {
		_, err = p.WithHeight(mm)
		require.Error(t, err)
	}
}

func TestWithProjection(t *testing.T) {
	p := cornice()
	p.Elements[3].Projection = profile.Rest()
	p.Projection = 2 * in
	s, err := p.Section(nil)
	require.NoError(t, err)
	require.InDelta(t, 2*in, s.Projection, 1e-9)
	deep, err := p.WithProjection(2.125 * in)
	require.NoError(t, err)
	s, err = deep.Section(nil)
	require.NoError(t, err)
	require.InDelta(t, 2.125*in, s.Projection, 1e-9)
	require.InDelta(t, (2.125-1.3125)*in, s.Members[3].Projection, 1e-9)
	for _, a := range assemblies() {
		if a.projection == 0 {
			continue
		}
		p, err := a.profile(4).WithProjection((a.ground + a.projection) * 4.1)
		require.NoError(t, err)
		for i, e := range p.Elements {
			if e.Kind == ovolo {
				p.Elements[i].Curve = profile.CurveEllipse // its rise is its run no longer
			}
		}
		s, err := p.Section(nil)
		require.NoError(t, err, a.name)
		require.InDelta(t, (a.ground+a.projection)*4.1, s.Projection, 1e-6, a.name)
		require.InDelta(t, a.ground*4.1, s.Ground, 1e-4, "all in one ratio")
	}
	_, err = one(kind(fillet, 1, 0)).WithProjection(50)
	require.ErrorIs(t, err, profile.ErrFixedProjection)
	low := one(profile.Entry{Kind: fillet, Height: profile.Parts(1), Set: profile.Parts(1)})
	low.Height, low.Parts = 25, 1
	_, err = low.WithProjection(20)
	require.EqualError(t, err, "the projection cannot be 25/32+ in: with the runs that are in parts it comes to 1 in at the least")
}
