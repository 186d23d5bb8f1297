package profile_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// fault is a profile and all that is to be said of it. Sizes are in inches; what is not given is sound.
type fault struct {
	name string
	p    profile.Profile
	want string
}

func one(e ...profile.Entry) profile.Profile {
	return profile.Profile{Name: "p", Units: measure.Inches, Ground: inch(1), Elements: e}
}

func kind(k profile.Kind, height, run float64) profile.Entry {
	e := profile.Entry{Kind: k, Height: inch(height)}
	if run != 0 {
		e.Projection = inch(run)
	}
	return e
}

func curved(k profile.Kind, height, run float64, c profile.Construction) profile.Entry {
	e := kind(k, height, run)
	e.Curve = c
	return e
}

func sizeFaults() []fault {
	in1 := kind(fillet, 1, 0)
	drip := func(set, width, depth, inset float64) profile.Profile {
		e := kind(corona, 0.5, 0)
		e.Set, e.Drip = inch(set), &profile.Drip{Width: inch(width), Depth: inch(depth), Inset: inch(inset)}
		return one(in1, e)
	}
	with := func(e profile.Entry, f func(*profile.Entry)) profile.Profile {
		f(&e)
		return one(e)
	}
	return []fault{
		{"no such kind", one(kind("ogee", 1, 0)),
			"element 1, ogee: there is no such element"},
		{"no height", one(profile.Entry{Kind: fillet}),
			"element 1, fillet: height is missing"},
		{"height below 0", one(in1, kind(profile.KindCove, -0.25, 0)),
			"element 2, cove: height is -1/4 in; it must be more than 0"},
		{"height NaN", one(kind(fillet, math.NaN(), 0)),
			"element 1, fillet: height is not a number; it must be a length"},
		{"height over the limit", one(kind(fillet, 800, 0)),
			"element 1, fillet: height is 800 in; the limit is 20 m"},
		{"run 0", one(profile.Entry{Kind: ovolo, Height: inch(1), Projection: inch(0)}),
			"element 1, ovolo: projection is 0; a fillet would do"},
		{"run where there is none", one(kind(fillet, 1, 0.5)),
			"element 1, fillet: projection has no place here; to step in or out, use set"},
		{"stray key", with(in1, func(e *profile.Entry) { e.Depth = inch(1) }),
			"element 1, fillet: depth has no place here; it takes set, height"},
		{"parts without parts", one(profile.Entry{Kind: fillet, Height: profile.Parts(2.5)}),
			"element 1, fillet: height is 2.5p, but the profile gives no parts; give it parts and height"},
		{"rest where none may be", one(profile.Entry{Kind: fillet, Height: inch(1), Set: profile.Rest()}),
			"element 1, fillet: set cannot be rest; only height and projection can"},
		{"unknown construction", one(curved(profile.KindCove, 1, 1, "spiral")),
			`element 1, cove: curve "spiral" is not known here; it must be quadrant, arc or ellipse`},
		{"quadrant", one(curved(ovolo, 0.5, 0.75, "")),
			"element 1, ovolo: an ovolo of curve: quadrant needs a rise that is its run, but its height is 1/2 in and its projection 3/4 in; curve: arc or ellipse would do"},
		{"quadrant too long for an arc", one(curved(profile.KindCove, 0.5, 1, "")),
			"element 1, cove: a cove of curve: quadrant needs a rise that is its run, but its height is 1/2 in and its projection 1 in; curve: ellipse would do"},
		{"arc", one(curved(profile.KindCove, 0.5, 1, profile.CurveArc)),
			"element 1, cove: a cove of curve: arc has its height for a radius and needs a projection under 55/64+ in, but it is 1 in; curve: ellipse would do"},
		{"conge", one(kind(profile.KindConge, 0.5, 0.25)),
			"element 1, conge: a conge is a quadrant, whose rise is its run, but its height is 1/2 in and its projection 1/4 in; a cove with curve: arc or ellipse would do"},
		{"flat", one(curved(recta, 0.5, 1, "")),
			"element 1, cyma-recta: a cyma-recta of curve: flat needs a chord of 30 to 60 degrees, but a height of 1/2 in and a projection of 1 in make it 26.6 degrees; curve: ellipse would do, or a radius of 5/8 in or more"},
		{"bold, flat would do", one(curved(reversa, 0.5, 0.625, profile.CurveBold)),
			"element 1, cyma-reversa: a cyma-reversa of curve: bold needs a rise that is its run, but its height is 1/2 in and its projection 5/8 in; curve: flat or ellipse would do"},
		{"bold, ellipse would do", one(curved(reversa, 0.5, 2, profile.CurveBold)),
			"element 1, cyma-reversa: a cyma-reversa of curve: bold needs a rise that is its run, but its height is 1/2 in and its projection 2 in; curve: ellipse would do"},
		{"thirds", one(in1, kind(scotia, 0.75, -0.5)),
			"element 2, scotia: a scotia of curve: thirds runs a third of its height, 1/4 in, but its projection is -1/2 in; curve: sevenths would do"},
		{"thirds, too short for sevenths", one(in1, kind(scotia, 0.75, -0.0625)),
			"element 2, scotia: a scotia of curve: thirds runs a third of its height, 1/4 in, but its projection is -1/16 in; curve: sevenths would do with 7/64 in or more"},
		{"sevenths", one(in1, curved(scotia, 0.875, -0.0625, profile.CurveSevenths)),
			"element 2, scotia: a scotia of curve: sevenths runs a seventh of its height, 1/8 in, at least, but its projection is -1/16 in; curve: thirds would do with 19/64- in"},
		{"sevenths without a run", one(in1, curved(scotia, 0.875, 0, profile.CurveSevenths)),
			"element 2, scotia: projection is missing; curve: sevenths needs one, 1/8 in or more either way"},
		{"drip too wide", drip(0.5, 0.25, 0.125, 0.375),
			"element 2, corona: drip is 1/8 in too wide for a set of 1/2 in; an inset of 1/4 in or less would do"},
		{"drip wider than its soffit", drip(0.25, 0.25, 0.125, 0.125),
			"element 2, corona: drip is 1/8 in too wide for a set of 1/4 in; with this inset a set of 3/8 in would do"},
		{"drip too deep", drip(0.75, 0.25, 0.5, 0.125),
			"element 2, corona: drip.depth is 1/2 in; it must be less than the corona's height, 1/2 in"},
		{"drip without a soffit", drip(0, 0.25, 0.125, 0.125),
			"element 2, corona: a drip needs a soffit to be cut into; set must be 3/8 in at least"},
		{"drip without a width", func() profile.Profile {
			e := kind(corona, 0.5, 0)
			e.Set, e.Drip = inch(1), &profile.Drip{Depth: inch(0.125), Inset: inch(0.125)}
			return one(in1, e)
		}(),
			"element 2, corona: drip.width is missing"},
		{"shallow quirk of a flush bead", with(kind(profile.KindBead, 0.5, 0), func(e *profile.Entry) {
			e.Flush, e.Quirk = true, &profile.BeadQuirk{Width: inch(0.125), Depth: inch(0.125)}
		}),
			"element 1, bead: quirk.depth is 1/8 in; a flush bead needs half its height, 1/4 in, at least"},
		{"sides of a quirk", with(kind(profile.KindBead, 0.5, 0), func(e *profile.Entry) {
			e.Quirk = &profile.BeadQuirk{Width: inch(0.125), Depth: inch(0.125), Sides: 7}
		}),
			"element 1, bead: quirk.sides must be above, below or both"},
		{"thumb", with(kind(profile.KindThumb, 0.5, -0.5), func(e *profile.Entry) { e.Fillet = inch(0.5) }),
			"element 1, thumb: fillet is 1/2 in; it must be less than the height, 1/2 in, which includes it"},
		{"quirk without depth", one(kind(profile.KindQuirk, 0.5, 0)),
			"element 1, quirk: depth is missing"},
		{"no reeds", one(kind(profile.KindReeds, 0.5, 0)),
			"element 1, reeds: count is 0; it must be 1 at least"},
		{"reeds without room", with(kind(profile.KindReeds, 0.5, 0), func(e *profile.Entry) { e.Count, e.Gap = 3, inch(0.25) }),
			"element 1, reeds: gap is 1/4 in; it must be less than 1/4 in for the reeds to have room in a height of 1/2 in"},
		{"flutes without a gap", with(kind(profile.KindFlutes, 0.5, 0), func(e *profile.Entry) { e.Count = 3 }),
			"element 1, flutes: flutes need a gap between them, more than 0; without one their edges are sharp"},
		{"dentils", with(kind(profile.KindDentils, 0.5, 0), func(e *profile.Entry) { e.Block = inch(0.25) }),
			`element 1, dentils: gap is missing
element 1, dentils: depth is missing`},
		{"curve without points", one(profile.Entry{Kind: profile.KindCurve}),
			"element 1, curve: points are missing; one at least is needed"},
		{"curve that ends low", one(profile.Entry{Kind: profile.KindCurve, Points: []profile.CurvePoint{{X: inch(1), Y: inch(0)}}}),
			"element 1, curve: the last point lies at y 0 in; it must lie above the start, y more than 0"},
		{"curve with another height", one(profile.Entry{Kind: profile.KindCurve, Height: inch(1), Points: []profile.CurvePoint{{X: inch(0.25), Y: inch(0.5)}}}),
			"element 1, curve: height is 1 in, but the last point makes it 1/2 in"},
		{"curve with no arc", one(profile.Entry{Kind: profile.KindCurve, Points: []profile.CurvePoint{{X: inch(0), Y: inch(1), Through: &[2]profile.Size{inch(0), inch(2)}}}}),
			"element 1, curve: no arc to point 1 passes through the point given; the three must differ, and that one must lie between the ends"},
		{"several at once", one(kind(fillet, -1, 0), kind(profile.KindCove, 0.5, 0.25), kind(torus, 0, 0)),
			`element 1, fillet: height is -1 in; it must be more than 0
element 2, cove: a cove of curve: quadrant needs a rise that is its run, but its height is 1/2 in and its projection 1/4 in; curve: arc or ellipse would do
element 3, torus: height is 0 in; it must be more than 0`},
	}
}

func wholeFaults() []fault {
	in1 := kind(fillet, 1, 0)
	change := func(p profile.Profile, f func(*profile.Profile)) profile.Profile {
		f(&p)
		return p
	}
	rest := profile.Entry{Kind: fillet, Height: profile.Rest()}
	restRun := profile.Entry{Kind: ovolo, Height: inch(0.5), Projection: profile.Rest(), Curve: profile.CurveEllipse}
	back := func(b profile.Back) profile.Profile {
		return change(one(in1, kind(ovolo, 0.5, 0)), func(p *profile.Profile) { p.Back = b })
	}
	spring := func(angle, wall, top float64) profile.Profile {
		s := profile.Spring{Angle: geom.Angle(angle) * geom.Degree}
		if wall > 0 {
			s.Wall = inch(wall)
		}
		if top > 0 {
			s.Top = inch(top)
		}
		return back(profile.Back{Spring: &s})
	}
	return []fault{
		{"no elements", one(),
			"elements are missing; a profile needs one at least"},
		{"too many elements", one(make([]profile.Entry, 501)...),
			"there are 501 elements; the limit is 500"},
		{"sum too small", change(one(in1), func(p *profile.Profile) { p.Height = 1.125 * in }),
			"the elements come to 1 in, which is 1/8 in less than the height, 1 1/8 in"},
		{"sum too great", change(one(in1, kind(ovolo, 0.5, 0)), func(p *profile.Profile) { p.Height = 1.25 * in }),
			"the elements come to 1 1/2 in, which is 1/4 in more than the height, 1 1/4 in"},
		{"projection too great", change(one(in1, kind(ovolo, 0.5, 0)), func(p *profile.Profile) { p.Projection = 1.25 * in }),
			"the section reaches 1 1/2 in from the back, which is 1/4 in more than the projection, 1 1/4 in"},
		{"height below 0", change(one(in1), func(p *profile.Profile) { p.Height = -in }),
			"height is -1 in; it must be more than 0"},
		{"parts below 0", change(one(in1), func(p *profile.Profile) { p.Parts = -2 }),
			"parts is -2; it must be more than 0"},
		{"parts without a height", change(one(in1), func(p *profile.Profile) { p.Parts = 12 }),
			"height is missing; parts divide it"},
		{"ground below 0", change(one(in1), func(p *profile.Profile) { p.Ground = inch(-0.5) }),
			"ground is -1/2 in; it must be 0 or more"},
		{"rest without a height", one(in1, rest),
			"element 2, fillet: height is rest, which needs the profile's height"},
		{"two rests", change(one(rest, rest), func(p *profile.Profile) { p.Height = in }),
			"element 2, fillet: height is rest, and so is that of element 1; one at most can be"},
		{"nothing left", change(one(in1, kind(ovolo, 0.5, 0), rest), func(p *profile.Profile) { p.Height = in }),
			"height is 1 in, and the elements come to 1 1/2 in without the fillet of element 3, whose height is rest; more than 1 1/2 in would do, or less high elements"},
		{"rest without a projection", one(in1, restRun),
			"element 2, ovolo: projection is rest, which needs the profile's projection"},
		{"no run left", change(one(in1, restRun), func(p *profile.Profile) { p.Projection = in }),
			"element 2, ovolo: projection is rest, but nothing is left: the element starts at 1 in of 1 in"},
		{"rest not at the furthest", change(one(in1, restRun, profile.Entry{Kind: fillet, Height: inch(0.25), Set: inch(0.25)}), func(p *profile.Profile) { p.Projection = 1.5 * in }),
			"element 2, ovolo: projection is rest, which stands on the element that reaches furthest; element 3, fillet, reaches 1/4 in further"},
		{"rabbet too wide", back(profile.Back{Rabbet: &profile.Rabbet{Width: inch(1.5), Depth: inch(0.25)}}),
			"back.rabbet.width is 1 1/2 in; it must be less than the molding's depth at the top, 1 1/2 in"},
		{"rabbet too deep", back(profile.Back{Rabbet: &profile.Rabbet{At: profile.AtFoot, Width: inch(0.5), Depth: inch(1.5)}}),
			"back.rabbet.depth is 1 1/2 in; it must be less than the molding's height, 1 1/2 in"},
		{"rabbet without a size", back(profile.Back{Rabbet: &profile.Rabbet{Width: inch(0.5)}}),
			"back.rabbet.depth is missing"},
		{"rabbet and spring", back(profile.Back{Rabbet: &profile.Rabbet{}, Spring: &profile.Spring{}}),
			"back has both a rabbet and a spring; it can have one"},
		{"spring angle", spring(95, 0.25, 0),
			"back.spring.angle is 95.0 degrees; it must lie between 0 and 90 degrees; an angle of 50.1 degrees or less would do"},
		{"spring both", spring(38, 0.25, 0.25),
			"back.spring takes one of wall and top; the other follows"},
		{"spring neither", spring(38, 0, 0),
			"back.spring takes one of wall and top; the other follows"},
		{"spring no top", spring(60, 0.25, 0),
			"a back at 60.0 degrees and a wall of 1/4 in leave no top; an angle of 50.1 degrees or less would do"},
		{"spring no wall", spring(20, 0, 0.25),
			"a back at 20.0 degrees and a top of 1/4 in leave no wall; an angle of 39.9 degrees or more would do"},
		{"spring wall too great", spring(38, 2, 0),
			"back.spring.wall is 2 in; it must be 0 or more and less than the height, 1 1/2 in"},
	}
}

func shapeFaults() []fault {
	in1, half := kind(fillet, 1, 0), kind(fillet, 0.5, 0)
	set := func(e profile.Entry, v float64) profile.Entry {
		e.Set = inch(v)
		return e
	}
	rabbet := one(in1, set(half, -0.75), half)
	rabbet.Back.Rabbet = &profile.Rabbet{At: profile.AtFoot, Width: inch(0.5), Depth: inch(1.25)}
	spring := one(kind(fillet, 0.5, 0), profile.Entry{Kind: profile.KindQuirk, Height: inch(0.25), Depth: inch(0.75)}, kind(fillet, 0.5, 0), kind(ovolo, 0.5, 0))
	spring.Back.Spring = &profile.Spring{Angle: 40 * geom.Degree, Wall: inch(0.25)}
	narrow := one(half, profile.Entry{Kind: profile.KindQuirk, Height: inch(0.25), Depth: inch(31.0 / 32)}, half)
	bare := one(kind(profile.KindCove, 1, 0))
	loop := one(profile.Entry{Kind: profile.KindCurve, Points: []profile.CurvePoint{
		{X: inch(1), Y: inch(1)}, {X: inch(1), Y: inch(0.5)}, {X: inch(0), Y: inch(1.5)}}})
	ground0 := one(in1)
	ground0.Ground = profile.Size{}
	dentils := one(half, profile.Entry{Kind: profile.KindDentils, Height: inch(0.5), Block: inch(0.5), Gap: inch(0.25), Depth: inch(1.25)}, half)
	thinDentils := one(half, profile.Entry{Kind: profile.KindDentils, Height: inch(0.5), Block: inch(0.5), Gap: inch(0.25), Depth: inch(31.0 / 32)}, half)
	quirks := one(half, profile.Entry{Kind: profile.KindQuirk, Height: inch(0.25), Depth: inch(0.25)}, kind(fillet, 1.0/32, 0),
		profile.Entry{Kind: profile.KindQuirk, Height: inch(0.25), Depth: inch(0.25)}, half)
	return []fault{
		{"behind the back", one(in1, set(half, -1.25), set(half, 1)),
			`element 2, fillet: it goes 1/4 in behind the back, which is at x = 0
element 3, fillet: it goes 1/4 in behind the back, which is at x = 0`},
		{"ends behind the back", one(in1, set(half, -1.25)),
			"element 2, fillet: it ends 1/4 in behind the back, which is at x = 0"},
		{"below the foot", one(curved(ovolo, 0.5, 0.75, profile.CurveArc), half),
			"element 1, ovolo: it goes 1/16+ in below the foot of the molding"},
		{"above the top", one(half, curved(profile.KindCove, 0.5, 0.75, profile.CurveArc)),
			"element 2, cove: it goes 1/16+ in above the top of the molding"},
		{"into the rabbet", rabbet,
			"element 2, fillet: it crosses the rabbet"},
		{"behind the spring line", spring,
			"element 2, quirk: it goes 1/8+ in behind the spring line, the sloping back; an angle of 22.5 degrees or less would do"},
		{"crosses itself", loop,
			"element 1, curve: it crosses itself"},
		{"crosses another", one(in1, profile.Entry{Kind: profile.KindCurve, Points: []profile.CurvePoint{
			{X: inch(0.5), Y: inch(0)}, {X: inch(-0.25), Y: inch(-0.5)}, {X: inch(-0.25), Y: inch(0.5)}}}),
			"element 2, curve: it crosses element 1, fillet"},
		{"thin at the back", narrow,
			"element 2, quirk: the section is 1/32 in thick between it and the back; it must be 1 mm at least"},
		{"no ground", ground0,
			"element 1, fillet: it lies on the back, at x = 0, and has no thickness; a greater ground would give it some"},
		{"feather", bare,
			"element 1, cove: the section is a sharp feather between it and the top; it must be 1 mm at least"},
		{"thin between quirks", quirks,
			"element 4, quirk: the section is 1/32 in thick between it and element 2, quirk; it must be 1 mm at least"},
		{"behind the back between dentils", dentils,
			"element 2, dentils: between its blocks it goes behind the back; depth must be less than 1 in"},
		{"thin between dentils", thinDentils,
			"element 2, dentils: the section is 1/32 in thick between it and the back, between dentils; it must be 1 mm at least"},
	}
}

// TestTooManyInStacks: elements are counted before any is drawn, and a profile that many stacks name is looked up once.
func TestTooManyInStacks(t *testing.T) {
	asked := 0
	lookup := func(name string) (profile.Profile, error) {
		asked++
		p := one(kind(fillet, 0.01, 0), kind(fillet, 0.01, 0))
		p.Name = name
		return p, nil
	}
	stacks := func(n int) profile.Profile {
		return one(slices.Repeat([]profile.Entry{{Kind: profile.KindStack, Profile: "inner"}}, n)...)
	}
	_, err := stacks(200).Section(lookup) // 200 stacks of 2
	require.ErrorContains(t, err, "there are too many elements, those of stacks counted in; the limit is 500")
	require.Equal(t, 1, asked)
	asked = 0
	s, err := stacks(100).Section(lookup)
	require.NoError(t, err)
	require.Equal(t, 1, asked)
	require.InDelta(t, 100*0.02*25.4, s.Height, 1e-9)
	_, err = stacks(400).Section(lookup)
	require.ErrorContains(t, err, "the limit is 500")
}

// TestOverTheLimit: elements that are each within 20 m must come to no more.
func TestOverTheLimit(t *testing.T) {
	_, err := one(kind(fillet, 500, 0), kind(fillet, 500, 0)).Section(nil)
	require.ErrorContains(t, err, "the height comes to 1000 in; the limit is 20 m")
	wide := kind(profile.KindChamfer, 500, 500)
	_, err = one(wide, wide).Section(nil)
	require.ErrorContains(t, err, "the projection comes to 1001 in; the limit is 20 m")
}

func TestFaults(t *testing.T) {
	for _, set := range [][]fault{sizeFaults(), wholeFaults(), shapeFaults()} {
		for _, f := range set {
			t.Run(f.name, func(t *testing.T) {
				_, err := f.p.Section(nil)
				var errs profile.Errors
				require.True(t, errors.As(err, &errs), "%v", err)
				require.EqualError(t, err, f.want)
			})
		}
	}
}
