package profile_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
)

func built(t *testing.T, p profile.Profile) profile.Section {
	t.Helper()
	s, err := p.Section(nil)
	require.NoError(t, err)
	return s
}

func mm(e ...profile.Entry) profile.Profile {
	return profile.Profile{Name: "p", Ground: profile.MM(20), Elements: e}
}

func sized(k profile.Kind, height, set, run float64) profile.Entry {
	e := profile.Entry{Kind: k, Height: profile.MM(height), Set: profile.MM(set)}
	if run != 0 {
		e.Projection = profile.MM(run)
	}
	return e
}

// Worked by hand: tan 45 is 1, so that the slope rises as it runs.
func TestSpring(t *testing.T) {
	p := mm(sized(fillet, 10, 0, 0), sized(recta, 40, 0, 40), sized(fillet, 10, 0, 0))
	p.Back.Spring = &profile.Spring{Angle: 45 * geom.Degree, Wall: profile.MM(10)}
	s := built(t, p)
	require.InDelta(t, 10, s.Spring.Wall, 1e-9)
	require.InDelta(t, 10, s.Spring.Top, 1e-9, "60 deep at the top, the slope takes 50")
	foot, top := s.BackSpan()
	require.Zero(t, foot)
	require.InDelta(t, 10, top, 1e-9)
	q := p
	q.Back.Spring = &profile.Spring{Angle: 45 * geom.Degree, Top: profile.MM(10)}
	require.Less(t, geom.Hausdorff(s.Outline, built(t, q).Outline, 1), 1e-9, "either flat gives the other")
	p.Back.Spring = nil
	require.InDelta(t, built(t, p).Area()-50*50/2, s.Area(), 1e-9, "a triangle less")

	// The blank lies along the slope: from the corner of the foot, (0, 0), to that of the top, (60, 60), along it; square to it from
	// the slope to the foot of the face or the middle of the cyma, whichever is further.
	b := s.Blank()
	require.InDelta(t, 120/math.Sqrt2, b.Width, 1e-9)
	far := 0.0
	for _, pt := range s.Outline.Flatten(1e-4) {
		far = math.Max(far, (pt.X-pt.Y+10)/math.Sqrt2)
	}
	require.InDelta(t, far, b.Thickness, 1e-3)
	for _, pt := range s.Outline.Flatten(0.01) {
		require.True(t, geom.Polygon(b.Polygon[:]...).Contains(pt) || onPolygon(b.Polygon[:], pt))
	}
	require.InDelta(t, b.Width*b.Thickness, geom.PolygonArea(b.Polygon[:]), 1e-6)
	s = built(t, p)
	require.InDelta(t, 60, s.Blank().Thickness, 1e-9)
	require.InDelta(t, 60, s.Blank().Width, 1e-9)
}

func onPolygon(pts []geom.Point, q geom.Point) bool {
	_, _, d := geom.Polygon(pts...).Nearest(q)
	return d < 1e-6
}

func TestRabbet(t *testing.T) {
	p := mm(sized(fillet, 10, 0, 0), sized(profile.KindCove, 10, 0, 0), sized(fillet, 10, 0, 0))
	whole := built(t, p)
	for _, at := range []profile.RabbetPlace{profile.AtTop, profile.AtFoot} {
		p.Back.Rabbet = &profile.Rabbet{At: at, Width: profile.MM(12), Depth: profile.MM(9)}
		s := built(t, p)
		require.InDelta(t, whole.Area()-12*9, s.Area(), 1e-9)
		seat, ok := s.RabbetSeat()
		require.True(t, ok)
		require.Equal(t, geom.Pt(12, map[profile.RabbetPlace]float64{profile.AtTop: 21, profile.AtFoot: 9}[at]), seat)
		_, _, d := s.Outline.Nearest(seat)
		require.InDelta(t, 0, d, 1e-9)
		require.InDelta(t, whole.FaceLength(), s.FaceLength(), 1e-9, "the face stays")
		foot, top := s.BackSpan()
		require.Equal(t, map[profile.RabbetPlace][2]float64{profile.AtTop: {0, 21}, profile.AtFoot: {9, 30}}[at], [2]float64{foot, top})
	}
	_, ok := whole.RabbetSeat()
	require.False(t, ok)
	foot, top := whole.BackSpan()
	require.Equal(t, [2]float64{0, 30}, [2]float64{foot, top})
}

// The face is what is worked: the foot and the top are not, even where a step is made along them.
func TestFaceLeavesOutFootAndTop(t *testing.T) {
	s := built(t, mm(sized(fillet, 10, 5, 0)))
	require.Len(t, s.Face, 1)
	require.InDelta(t, 10, s.FaceLength(), 1e-9)
	require.InDelta(t, 250, s.Area(), 1e-9)
	flush := built(t, mm(profile.Entry{Kind: profile.KindBead, Height: profile.MM(6), Flush: true}))
	require.Len(t, flush.Face, 1)
	require.InDelta(t, 17*6+math.Pi*9/2, flush.Area(), 1e-9)
}

// Two flush beads side by side leave no fin between them: an area worked by hand.
func TestNoFins(t *testing.T) {
	b := profile.Entry{Kind: profile.KindBead, Height: profile.MM(6), Flush: true}
	s := built(t, mm(sized(fillet, 5, 0, 0), b, b, sized(fillet, 5, 0, 0)))
	require.InDelta(t, 2*5*20+2*(17*6+math.Pi*9/2), s.Area(), 1e-9)
	require.Len(t, s.Face, 6, "fillet, ledge, two rounds, ledge, fillet")
}

// Worked by hand.
func TestUndercuts(t *testing.T) {
	drip := sized(corona, 12, 15, 0)
	drip.Drip = &profile.Drip{Width: profile.MM(4), Depth: profile.MM(3), Inset: profile.MM(4)}
	for _, c := range []struct {
		name string
		p    profile.Profile
		want []profile.Undercut
	}{
		{"fillet", mm(sized(fillet, 10, 0, 0)), nil},
		{"chamfer in", mm(sized(profile.KindChamfer, 10, 0, -5)), []profile.Undercut{{From: profile.FromBelow, Y0: 0, Y1: 10, Depth: 5}}},
		{"torus", mm(sized(torus, 10, 0, 0)), []profile.Undercut{
			{From: profile.FromAbove, Y0: 0, Y1: 5, Depth: 5}, {From: profile.FromBelow, Y0: 5, Y1: 10, Depth: 5}}},
		{"corona with a drip", mm(sized(fillet, 10, 0, 0), drip), []profile.Undercut{
			{From: profile.FromAbove, Y0: 0, Y1: 13, Depth: 15}, {From: profile.FromFront, Y0: 10, Y1: 13, Depth: 3}}},
		{"scotia in a base", mm(sized(fillet, 5, 0, 0), sized(scotia, 12, 0, -4), sized(fillet, 5, 0, 0)), []profile.Undercut{
			// Seen from above the upper fillet, at x 16, hides what lies behind it: up to where the large arc (center 20, 13) comes out at x 16.
			{From: profile.FromAbove, Y0: 13 - math.Sqrt(64-16), Y1: 17, Depth: 4},
			{From: profile.FromBelow, Y0: 5, Y1: 22, Depth: 8}}},
		{"quirk", mm(sized(fillet, 10, 0, 0), profile.Entry{Kind: profile.KindQuirk, Height: profile.MM(3), Depth: profile.MM(4)}, sized(fillet, 4, 0, 0)), []profile.Undercut{
			{From: profile.FromAbove, Y0: 10, Y1: 13, Depth: 4}, {From: profile.FromBelow, Y0: 10, Y1: 13, Depth: 4}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := built(t, c.p).Undercuts()
			require.Len(t, got, len(c.want), "%v", got)
			for i, w := range c.want {
				require.Equal(t, w.From, got[i].From)
				require.InDelta(t, w.Y0, got[i].Y0, 1e-6)
				require.InDelta(t, w.Y1, got[i].Y1, 1e-6)
				require.InDelta(t, w.Depth, got[i].Depth, 1e-6)
			}
		})
	}
}

// Worked by hand: a plain stick, a web left by a quirk, a ridge between two quirks, and corners that are no thin places.
func TestThinnest(t *testing.T) {
	quirk := func(h, d float64) profile.Entry {
		return profile.Entry{Kind: profile.KindQuirk, Height: profile.MM(h), Depth: profile.MM(d)}
	}
	require.InDelta(t, 10, built(t, mm(sized(fillet, 10, 0, 0))).Thinnest().Thickness, 1e-3)
	web := built(t, mm(sized(fillet, 10, 0, 0), quirk(6, 17), sized(fillet, 10, 0, 0))).Thinnest()
	require.InDelta(t, 3, web.Thickness, 1e-3)
	require.Equal(t, 2, web.Member)
	require.InDelta(t, 1.5, web.At.X, 1e-3)
	ridge := built(t, mm(sized(fillet, 10, 0, 0), quirk(6, 5), sized(fillet, 2, 0, 0), quirk(6, 5), sized(fillet, 10, 0, 0))).Thinnest()
	require.InDelta(t, 2, ridge.Thickness, 1e-3)
	require.InDelta(t, 17, ridge.At.Y, 1e-3)
	bevel := mm(sized(profile.KindChamfer, 0.5, 0, 0.5), sized(fillet, 20, 0, 0), sized(profile.KindChamfer, 0.5, 0, -0.5))
	require.InDelta(t, 20.5, built(t, bevel).Thinnest().Thickness, 0.01, "a small bevel makes nothing thin")
	// A round hollow that comes within 1.5 mm of the back.
	hollow := mm(sized(fillet, 10, 0, 0), profile.Entry{Kind: profile.KindFlutes, Height: profile.MM(37), Count: 1}, sized(fillet, 10, 0, 0))
	require.InDelta(t, 1.5, built(t, hollow).Thinnest().Thickness, 1e-3)
	_, err := mm(sized(fillet, 10, 0, 0), profile.Entry{Kind: profile.KindFlutes, Height: profile.MM(38.2), Count: 1}, sized(fillet, 10, 0, 0)).Section(nil)
	require.EqualError(t, err, "element 2, flutes: the section is 0.9 mm thick between it and the back; it must be 1 mm at least")
	// A small reed is as thin as it is round, and that is no thin place; on a stalk it would be.
	built(t, mm(sized(fillet, 10, 0, 0), sized(torus, 0.8, 0, 0), sized(fillet, 10, 0, 0)))
}

// Where the inner corners of a quirk and of a rabbet come near each other nothing faces anything, and yet it is thin: half a millimeter up and
// half across.
func TestThinBetweenCorners(t *testing.T) {
	p := mm(sized(fillet, 17.5, 0, 0), profile.Entry{Kind: profile.KindQuirk, Height: profile.MM(3), Depth: profile.MM(7.5)}, sized(fillet, 9.5, 0, 0))
	p.Back.Rabbet = &profile.Rabbet{Width: profile.MM(12), Depth: profile.MM(9)}
	_, err := p.Section(nil)
	require.EqualError(t, err, "element 2, quirk: the section is 0.7071 mm thick between it and the rabbet; it must be 1 mm at least")
	p.Elements[1].Depth = profile.MM(6.5)
	require.InDelta(t, math.Hypot(0.5, 1.5), built(t, p).Thinnest().Thickness, 1e-3)
}

// A line that doubles back on itself is wood without thickness.
func TestDoublingBack(t *testing.T) {
	c := profile.Entry{Kind: profile.KindCurve, Points: []profile.CurvePoint{
		{X: profile.MM(0), Y: profile.MM(10)}, {X: profile.MM(0), Y: profile.MM(5)}, {X: profile.MM(6), Y: profile.MM(8)}}}
	_, err := mm(sized(fillet, 5, 0, 0), c, sized(fillet, 5, 0, 0)).Section(nil)
	require.Error(t, err)
}

// The groove of a drip lies Inset behind the face of the corona.
func TestDripLies(t *testing.T) {
	e := profile.Corona{Height: 12, Set: 15, Drip: &profile.SizedDrip{Width: 4, Depth: 3, Inset: 2.5}}
	require.NoError(t, e.Validate())
	want := geom.Polyline(geom.Pt(0, 0), geom.Pt(8.5, 0), geom.Pt(8.5, 3), geom.Pt(12.5, 3), geom.Pt(12.5, 0), geom.Pt(15, 0), geom.Pt(15, 12))
	require.Equal(t, want, e.Outline(geom.Point{}))
}

// A flat cyma at the end of a molding may meet the top at 10 degrees; a bold one is sharp there.
func TestSharpEnds(t *testing.T) {
	built(t, mm(sized(fillet, 10, 0, 0), sized(recta, 10, 0, 12)))
	bold := sized(recta, 10, 0, 10)
	bold.Curve = profile.CurveBold
	_, err := mm(sized(fillet, 10, 0, 0), bold).Section(nil)
	require.EqualError(t, err, "element 2, cyma-recta: the section is a sharp feather between it and the top; it must be 1 mm at least")
	built(t, mm(sized(fillet, 10, 0, 0), bold, sized(fillet, 3, 0, 0)))
}

func TestMapped(t *testing.T) {
	s := built(t, cornice())
	for _, m := range []geom.Affine{geom.Scaling(0.75, 1), {A: 1, D: 1, C: 0.3}, geom.Scaling(1, 0.9), geom.Scaling(1, -1)} {
		q := s.Mapped("narrow", m)
		require.Equal(t, "narrow", q.Name)
		require.InEpsilon(t, math.Abs(m.Det())*s.Area(), q.Area(), 1e-9, "counter-clockwise still")
		require.Len(t, q.Members, len(s.Members))
		near(t, m.Apply(geom.Pt(s.Members[3].Start, s.Members[3].Foot)), geom.Pt(q.Members[3].Start, q.Members[3].Foot))
	}
	narrow := s.Mapped("narrow", geom.Scaling(0.5, 1))
	require.InDelta(t, s.Rabbet.Width/2, narrow.Rabbet.Width, 1e-9)
	require.InDelta(t, s.Rabbet.Depth, narrow.Rabbet.Depth, 1e-9)
	require.Len(t, narrow.Members[1].Radii, 2, "a circle becomes an ellipse")
	require.NotZero(t, narrow.Thinnest().Member)
}

func TestOwnMirror(t *testing.T) {
	require.True(t, built(t, mm(sized(torus, 10, 0, 0))).OwnMirror(1e-6))
	require.True(t, built(t, mm(sized(fillet, 3, 0, 0), sized(torus, 10, 0, 0), sized(fillet, 3, 0, 0))).OwnMirror(1e-6))
	require.False(t, built(t, mm(sized(fillet, 3, 0, 0), sized(torus, 10, 0, 0), sized(fillet, 4, 0, 0))).OwnMirror(1e-6))
}

func TestStacks(t *testing.T) {
	inner := mm(sized(fillet, 4, 0, 0), profile.Entry{Kind: recta, Height: profile.Rest(), Projection: profile.MM(8)}, sized(fillet, 4, 0, 0))
	inner.Name, inner.Height = "inner", 16
	inner.Back.Rabbet = &profile.Rabbet{Width: profile.MM(99), Depth: profile.MM(99)} // a stack leaves the back behind
	lookup := func(name string) (profile.Profile, error) {
		switch name {
		case "inner":
			return inner, nil
		case "snake":
			return profile.Profile{Name: "snake", Ground: profile.MM(5), Elements: []profile.Entry{{Kind: profile.KindStack, Profile: "tail"}}}, nil
		case "tail":
			return profile.Profile{Name: "tail", Ground: profile.MM(5), Elements: []profile.Entry{{Kind: profile.KindStack, Profile: "snake"}}}, nil
		case "wrong":
			return one(kind(fillet, -1, 0)), nil
		case "fixed":
			return one(kind(fillet, 1, 0)), nil
		}
		return profile.Profile{}, errors.New("there is no profile " + name)
	}
	flat := mm(sized(fillet, 5, 0, 0), sized(fillet, 4, 2, 0), sized(recta, 8, 0, 8), sized(fillet, 4, 0, 0), sized(fillet, 5, 3, 0))
	stack := mm(sized(fillet, 5, 0, 0), profile.Entry{Kind: profile.KindStack, Profile: "inner", Set: profile.MM(2)}, sized(fillet, 5, 3, 0))
	want := built(t, flat)
	got, err := stack.Section(lookup)
	require.NoError(t, err)
	require.Less(t, geom.Hausdorff(want.Outline, got.Outline, 1), 1e-9, "a stack draws what its elements would")
	require.Len(t, got.Members[1].Inner, 3)
	require.InDelta(t, want.Members[2].Foot, got.Members[1].Inner[1].Foot, 1e-9)
	require.InDelta(t, 8, got.Members[1].Projection, 1e-9)

	stack.Elements[1].Height = profile.MM(18)
	tall, err := stack.Section(lookup)
	require.NoError(t, err)
	require.InDelta(t, 10, tall.Members[1].Inner[1].Height, 1e-9, "what is the rest there follows")

	stack.Elements[1].Height = profile.Rest()
	stack.Height = 28
	restful, err := stack.Section(lookup)
	require.NoError(t, err)
	require.Less(t, geom.Hausdorff(tall.Outline, restful.Outline, 1), 1e-9)

	twice, err := stack.Scaled(2).Section(lookup)
	require.NoError(t, err)
	require.InEpsilon(t, 4*restful.Area(), twice.Area(), 1e-9)
	there, err := stack.Scaled(2).Scaled(1.5).Section(lookup)
	require.NoError(t, err)
	require.InEpsilon(t, 9*restful.Area(), there.Area(), 1e-9)

	for name, text := range map[string]string{
		"":      "element 1, stack: profile is missing; it names the profile to be stacked",
		"none":  "element 1, stack: there is no profile none",
		"snake": `element 1, stack: in profile "snake" element 1, stack: in profile "tail" element 1, stack: profile "snake" goes round in a circle: p -> snake -> tail -> snake`,
		"wrong": `element 1, stack: in profile "wrong" element 1, fillet: height is -25.4 mm; it must be more than 0`,
		"p":     `element 1, stack: profile "p" goes round in a circle: p -> p`,
	} {
		_, err := mm(profile.Entry{Kind: profile.KindStack, Profile: name}).Section(lookup)
		require.EqualError(t, err, text)
	}
	_, err = mm(profile.Entry{Kind: profile.KindStack, Profile: "fixed", Height: profile.MM(30)}).Section(lookup)
	require.EqualError(t, err, `element 1, stack: height is 30.0 mm, but profile "fixed" is 25.4 mm high and none of its heights is in parts or rest`)
	_, err = mm(profile.Entry{Kind: profile.KindStack, Profile: "inner"}).Section(nil)
	require.EqualError(t, err, `element 1, stack: profile "inner" cannot be looked up here`)
}

// A tower of stacks ends at the limits, it does not run away.
func TestStackLimits(t *testing.T) {
	deep := func(name string) (profile.Profile, error) {
		return profile.Profile{Name: name, Ground: profile.MM(5), Elements: []profile.Entry{{Kind: profile.KindStack, Profile: name + "x"}}}, nil
	}
	_, err := mm(profile.Entry{Kind: profile.KindStack, Profile: "x"}).Section(deep)
	require.ErrorContains(t, err, "lies in too many others; the limit is 8")
	wide := func(name string) (profile.Profile, error) {
		p := profile.Profile{Name: name, Ground: profile.MM(5)}
		for range 40 {
			p.Elements = append(p.Elements, profile.Entry{Kind: profile.KindStack, Profile: name + "x"})
		}
		return p, nil
	}
	_, err = mm(profile.Entry{Kind: profile.KindStack, Profile: "x"}).Section(wide)
	require.ErrorContains(t, err, "the limit is 500")
}

func TestWarnings(t *testing.T) {
	p := mm(sized(ovolo, 5, 0, 5), sized(ovolo, 5, 0, -5), sized(ovolo, 5, 0, 5), sized(fillet, 5, 0, 0))
	w := p.Warnings(built(t, p))
	require.EqualError(t, w, "element 2, ovolo: it runs back while its neighbors run outward; is the sign of its projection right?")
	p = mm(sized(ovolo, 5, 0, -5), sized(fillet, 3, 0, 0), sized(reversa, 5, 0, -5), sized(fillet, 3, 0, 0), sized(profile.KindCove, 4, 0, 4), sized(fillet, 3, 0, 0))
	require.EqualError(t, p.Warnings(built(t, p)), "element 5, cove: it runs outward while its neighbors run back; is the sign of its projection right?")
	p = mm(sized(ovolo, 5, 0, 5), sized(fillet, 3, 0, 0), sized(profile.KindCove, 5, 0, -5), sized(fillet, 5, 0, 0))
	require.EqualError(t, p.Warnings(built(t, p)), "element 3, cove: it runs back while its neighbors run outward; is the sign of its projection right?")
	p.Ground = profile.MM(40)
	band := mm(sized(ovolo, 5, 0, 5), sized(fillet, 3, 0, 0), sized(reversa, 5, -1, -5), sized(fillet, 5, 0, 0))
	require.Empty(t, band.Warnings(built(t, band)), "a step back leads into the run back")
	band.Elements[2].Set = profile.MM(1)
	require.Error(t, band.Warnings(built(t, band)), "a step outward does not")
	p.Back.Rabbet = &profile.Rabbet{At: profile.AtTop, Width: profile.MM(15), Depth: profile.MM(6)}
	require.Empty(t, p.Warnings(built(t, p)), "a waist goes out and in again")
	p.Elements = []profile.Entry{sized(ovolo, 5, 0, 5), sized(ovolo, 5, 0, -5), sized(ovolo, 5, 0, 5), sized(fillet, 10, 0, 0)}
	require.EqualError(t, p.Warnings(built(t, p)), "element 2, ovolo: it runs back while its neighbors run outward; is the sign of its projection right?")
	p = mm(sized(ovolo, 5, 0, 5), sized(fillet, 3, 0, 0), sized(profile.KindThumb, 5, 0, -5))
	require.Empty(t, p.Warnings(built(t, p)), "a thumb leans back by what it is")
	c := cornice()
	require.Empty(t, c.Warnings(built(t, c)))
	c.Elements[2].Height = inch(0.25)
	require.EqualError(t, c.Warnings(built(t, c)), "parts are given, but no size uses them")
}

func TestKeys(t *testing.T) {
	require.Len(t, profile.Kinds(), 20)
	require.Equal(t, []string{"set", "height"}, profile.KindFillet.Keys())
	require.Equal(t, []string{"set", "height", "projection", "curve"}, profile.KindCove.Keys())
	require.Nil(t, profile.Kind("ogee").Keys())
	for _, k := range profile.Kinds() {
		_, err := mm(profile.Entry{Kind: k}).Section(nil)
		require.Error(t, err, "no kind does without a size")
		require.NotContains(t, err.Error(), "no such element")
		for i, c := range k.Constructions() {
			e := sized(k, 6, 0, 6)
			if c == profile.CurveThirds {
				e.Projection = profile.MM(2)
			}
			e.Curve = c
			full := mm(sized(fillet, 6, 0, 0), e, sized(fillet, 6, 0, 0))
			s := built(t, full)
			if i == 0 {
				full.Elements[1].Curve = ""
				require.Equal(t, s.Outline, built(t, full).Outline, "the first is the default")
			}
		}
	}
}
