package profile_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
)

// foot is where the members of this file start: nothing in them may hang on being at the origin.
var foot = geom.Pt(7, 11)

// drawn checks the element and returns its segments.
func drawn(t *testing.T, e profile.Element) geom.Path {
	t.Helper()
	require.NoError(t, e.Validate())
	p := e.Outline(foot)
	for i := range p[1:] {
		require.True(t, p[i].End().Near(p[i+1].Start(), 1e-9), "segments join")
	}
	require.True(t, p.Start().Near(foot, 1e-9))
	return p
}

func arcs(t *testing.T, p geom.Path) []geom.Arc {
	t.Helper()
	var out []geom.Arc
	for _, s := range p {
		a, ok := s.(geom.Arc)
		require.Truef(t, ok, "%T is no circular arc", s)
		out = append(out, a)
	}
	return out
}

func near(t *testing.T, want, got geom.Point) {
	t.Helper()
	require.Truef(t, want.Near(got, 1e-9), "want %v, got %v", want, got)
}

// smooth checks that two segments run on without a corner.
func smooth(t *testing.T, a, b geom.Segment) {
	t.Helper()
	require.InDelta(t, 1, a.Tangent(1).Dot(b.Tangent(0)), 1e-12)
}

// The Building Trades Pocketbook, Roman Moldings, p. 376, and Nicholson, Mechanic's Companion (both seen): torus, bead and astragal are
// semicircles on the height.
func TestTorusIsASemicircleOnItsHeight(t *testing.T) {
	for _, e := range []profile.Element{profile.Torus{Height: 9}, profile.Bead{Height: 9}, profile.Reeds{Height: 9, Count: 1}} {
		p := drawn(t, e)
		a := arcs(t, p)[0]
		require.InDelta(t, 4.5, a.Radius, 1e-12)
		near(t, foot.Add(geom.Pt(0, 4.5)), a.Center)
		near(t, foot.Add(geom.Pt(0, 9)), p.End())
		require.InDelta(t, foot.X+4.5, p.Bounds().Max.X, 1e-9, "it stands out")
	}
}

// The same two: with height = projection, ovolo and cavetto are quadrants whose radius is the height.
func TestQuadrants(t *testing.T) {
	o := arcs(t, drawn(t, profile.Ovolo{Height: 6, Projection: 6}))[0]
	require.InDelta(t, 6, o.Radius, 1e-12)
	near(t, foot.Add(geom.Pt(0, 6)), o.Center)
	near(t, geom.Pt(1, 0), o.Tangent(0))
	near(t, geom.Pt(0, 1), o.Tangent(1))
	for _, e := range []profile.Element{profile.Cove{Height: 6, Projection: 6}, profile.Conge{Height: 6, Projection: 6}} {
		c := arcs(t, drawn(t, e))[0]
		require.InDelta(t, 6, c.Radius, 1e-12)
		near(t, foot.Add(geom.Pt(6, 0)), c.Center)
		near(t, geom.Pt(0, 1), c.Tangent(0))
		near(t, geom.Pt(1, 0), c.Tangent(1))
	}
}

// Nicholson, Mechanic's Companion, fig. 7 (seen): with height and projection unequal the radius is the height, and the center the crossing of two
// arcs of that radius struck from the two ends. Here the crossings are found anew, from the two circles' equations.
func TestNicholsonsArc(t *testing.T) {
	for _, p := range []float64{2, 5, 8, 10, 13, 17} {
		const h = 10.0
		d := math.Hypot(p, h)
		along, off := d/2, math.Sqrt(h*h-d*d/4)
		u := geom.Pt(p/d, h/d)
		left := foot.Add(u.Mul(along)).Add(geom.Pt(-u.Y, u.X).Mul(off))
		right := foot.Add(u.Mul(along)).Sub(geom.Pt(-u.Y, u.X).Mul(off))
		o := arcs(t, drawn(t, profile.Ovolo{Height: h, Projection: p, Curve: profile.CurveArc}))[0]
		require.InDelta(t, h, o.Radius, 1e-9)
		near(t, left, o.Center)
		require.Positive(t, o.Sweep, "an ovolo is convex")
		near(t, foot.Add(geom.Pt(p, h)), o.End())
		c := arcs(t, drawn(t, profile.Cove{Height: h, Projection: p, Curve: profile.CurveArc}))[0]
		near(t, right, c.Center)
		require.Negative(t, c.Sweep, "a cove is concave")
		if p == h {
			q := arcs(t, drawn(t, profile.Ovolo{Height: h, Projection: p}))[0]
			near(t, q.Center, o.Center)
		}
	}
}

// Nicholson, fig. 10 (seen): a bold cyma is two quadrants on the halves of the chord.
func TestBoldCyma(t *testing.T) {
	r := arcs(t, drawn(t, profile.CymaRecta{Height: 8, Projection: 8, Curve: profile.CurveBold}))
	v := arcs(t, drawn(t, profile.CymaReversa{Height: 8, Projection: 8, Curve: profile.CurveBold}))
	for _, a := range append(r, v...) {
		require.InDelta(t, 4, a.Radius, 1e-12)
		require.InDelta(t, 90, a.Sweep.Abs().Degrees(), 1e-9)
	}
	near(t, geom.Pt(1, 0), r[0].Tangent(0))
	near(t, geom.Pt(0, 1), r[0].Tangent(1))
	near(t, geom.Pt(1, 0), r[1].Tangent(1))
	require.Positive(t, r[0].Sweep, "cyma recta: round at the lesser x")
	near(t, geom.Pt(0, 1), v[0].Tangent(0))
	near(t, geom.Pt(1, 0), v[0].Tangent(1))
	near(t, geom.Pt(0, 1), v[1].Tangent(1))
	require.Negative(t, v[0].Sweep, "cyma reversa: hollow at the lesser x")
}

// Nicholson, fig. 11, Sheraton 1793 ("summits of equilateral triangles") and Hatfield, figs 220-221 (all seen): a flat cyma is two 60 degree arcs of half the
// chord. Derived from it: r = sqrt(p² + h²)/2, each arc is pi r/3 long, both ends make 30 degrees with the chord.
func TestFlatCyma(t *testing.T) {
	for _, run := range []float64{6, 8, 10, 13, -8} {
		const h = 10.0
		r := math.Sqrt(run*run+h*h) / 2
		mid := foot.Add(geom.Pt(run/2, h/2))
		chord := geom.Pt(run, h).Unit()
		for _, e := range []profile.Element{profile.CymaRecta{Height: h, Projection: run}, profile.CymaReversa{Height: h, Projection: run}} {
			p := drawn(t, e)
			two := arcs(t, p)
			require.Len(t, two, 2)
			for _, a := range two {
				require.InDelta(t, r, a.Radius, 1e-9)
				require.InDelta(t, math.Pi*r/3, a.Length(), 1e-9)
				require.InDelta(t, r, a.Center.Dist(a.Start()), 1e-9)
				require.InDelta(t, r, a.Start().Dist(a.End()), 1e-9, "center and ends are an equilateral triangle")
			}
			near(t, mid, two[0].End())
			near(t, foot.Add(geom.Pt(run, h)), p.End())
			smooth(t, two[0], two[1])
			require.InDelta(t, math.Cos(math.Pi/6), two[0].Tangent(0).Dot(chord), 1e-9)
			require.InDelta(t, math.Cos(math.Pi/6), two[1].Tangent(1).Dot(chord), 1e-9)
		}
	}
}

// A cyma of a given radius, by pencil: of one that runs 16 and rises 24 with 13 the centers lie level with its ends, 13 from them, so that it starts and
// ends plumb; they are 26 apart, since 10² + 24² = 26². With half the chord it is the flat one; less than (h² + p²) / 4 over the lesser of both will not do.
func TestCymaOfRadius(t *testing.T) {
	two := arcs(t, drawn(t, profile.CymaReversa{Height: 24, Projection: 16, Radius: 13}))
	near(t, foot.Add(geom.Pt(13, 0)), two[0].Center)
	near(t, foot.Add(geom.Pt(3, 24)), two[1].Center)
	near(t, foot.Add(geom.Pt(8, 12)), two[0].End())
	smooth(t, two[0], two[1])
	require.Negative(t, two[0].Sweep, "hollow at the lesser x")
	level := arcs(t, drawn(t, profile.CymaRecta{Height: 16, Projection: -24, Radius: 13}))
	near(t, geom.Pt(-1, 0), level[0].Tangent(0))
	require.Negative(t, level[0].Sweep, "turned upside down, hollow where it is most prominent")

	flat := drawn(t, profile.CymaRecta{Height: 24, Projection: 18})
	for i, a := range arcs(t, drawn(t, profile.CymaRecta{Height: 24, Projection: 18, Radius: 15})) {
		near(t, arcs(t, flat)[i].Center, a.Center)
		near(t, flat[i].End(), a.End())
	}
	require.NoError(t, profile.CymaReversa{Height: 24, Projection: 16, Radius: 13}.Validate())
	require.Error(t, profile.CymaReversa{Height: 24, Projection: 16, Radius: 12.9}.Validate())
	require.Error(t, profile.CymaReversa{Height: 24, Projection: 16, Radius: 600}.Validate())
	require.Error(t, profile.CymaReversa{Height: 24, Projection: 16, Radius: 14, Curve: profile.CurveEllipse}.Validate())
}

// The ends of a recta tend to level, those of a reversa to plumb, whichever way they run.
func TestEndsOfCymas(t *testing.T) {
	for _, run := range []float64{9, -9} {
		for _, c := range []profile.Construction{profile.CurveFlat, profile.CurveEllipse} {
			r := drawn(t, profile.CymaRecta{Height: 10, Projection: run, Curve: c})
			v := drawn(t, profile.CymaReversa{Height: 10, Projection: run, Curve: c})
			for _, s := range []float64{0, 2} {
				require.Greater(t, math.Abs(r.Tangent(s-1e-9).X), 0.9, "recta")
				require.Greater(t, math.Abs(v.Tangent(s-1e-9).Y), 0.9, "reversa")
			}
		}
	}
}

// Nicholson, fig. 9 (seen; the numbers as read from the text): height in 3, quadrants of 1/3 and 2/3, centers on one level.
func TestScotiaInThirds(t *testing.T) {
	const h = 12.0
	base := arcs(t, drawn(t, profile.Scotia{Height: h, Projection: -h / 3}))
	near(t, foot.Add(geom.Pt(0, 8)), base[0].Center)
	near(t, foot.Add(geom.Pt(-4, 8)), base[1].Center)
	require.InDelta(t, 8, base[0].Radius, 1e-9)
	require.InDelta(t, 4, base[1].Radius, 1e-9)
	for _, a := range base {
		require.InDelta(t, -90, a.Sweep.Degrees(), 1e-9)
	}
	near(t, foot.Add(geom.Pt(-4, 12)), base[1].End())
	turned := arcs(t, drawn(t, profile.Scotia{Height: h, Projection: h / 3}))
	require.InDelta(t, 4, turned[0].Radius, 1e-9, "the smaller arc is at the lesser x")
	require.InDelta(t, 8, turned[1].Radius, 1e-9)
}

// Sheraton 1793 and Chippendale 1754, p. 3 (both seen): height in 7, the smaller arc from 3 parts, the larger about the point where the oblique line
// through the first center cuts the perpendicular at the other end. That point is found here by halving an interval.
func TestScotiaInSevenths(t *testing.T) {
	const h = 14.0
	for _, run := range []float64{2, 3, 5, 9} {
		r := 3 * h / 7
		lo, hi := 4*h/7, 1000.0 // the larger radius: its circle holds the smaller one and touches it
		for range 200 {
			if mid := (lo + hi) / 2; math.Hypot(run, mid-4*h/7) > mid-r {
				lo = mid
			} else {
				hi = mid
			}
		}
		p := drawn(t, profile.Scotia{Height: h, Projection: -run, Curve: profile.CurveSevenths})
		a := arcs(t, p)
		require.InDelta(t, lo, a[0].Radius, 1e-6, "run %v", run)
		require.InDelta(t, r, a[1].Radius, 1e-9)
		near(t, foot.Add(geom.Pt(0, a[0].Radius)), a[0].Center)
		near(t, foot.Add(geom.Pt(-run, 4*h/7)), a[1].Center)
		smooth(t, a[0], a[1])
		near(t, foot.Add(geom.Pt(-run, h)), p.End())
		near(t, geom.Pt(-1, 0), a[0].Tangent(0))
		near(t, geom.Pt(1, 0), a[1].Tangent(1))
	}
}

// Worked by hand from the definitions of the file format.
func TestBeadsAndQuirks(t *testing.T) {
	q := profile.SizedQuirk{Width: 2, Depth: 3}
	both := profile.Bead{Height: 6, Quirk: &q}
	require.InDelta(t, 10, both.Rise(), 0)
	require.Equal(t, geom.Pt(-3, 0), geom.Path(both.Outline(geom.Point{}))[0].End())
	p := both.Outline(geom.Point{})
	require.InDelta(t, 3, p.Bounds().Max.X, 1e-12)
	near(t, geom.Pt(0, 10), p.End())
	flush := profile.Bead{Height: 6, Quirk: &profile.SizedQuirk{Width: 2, Depth: 3, Sides: profile.BelowOnly}, Flush: true}
	p = flush.Outline(geom.Point{})
	require.InDelta(t, 0, p.Bounds().Max.X, 1e-12, "its crest is at x before")
	require.InDelta(t, -3, p.Bounds().Min.X, 1e-12)
	near(t, geom.Pt(0, 8), p.End())
	above := profile.Bead{Height: 6, Quirk: &profile.SizedQuirk{Width: 2, Depth: 4, Sides: profile.AboveOnly}, Flush: true}
	p = above.Outline(geom.Point{})
	require.InDelta(t, -4, p.Bounds().Min.X, 1e-12)
	near(t, geom.Pt(0, 8), p.End())
}

// A quarter ellipse is plumb at one end and level at the other.
func TestThumb(t *testing.T) {
	p := drawn(t, profile.Thumb{Height: 10, Projection: -14, Fillet: 3})
	near(t, foot.Add(geom.Pt(0, 3)), p[0].End())
	e := p[1].(geom.EllipticArc)
	require.InDelta(t, 14, e.RX, 1e-9)
	require.InDelta(t, 7, e.RY, 1e-9)
	near(t, geom.Pt(0, 1), e.Tangent(0))
	near(t, geom.Pt(-1, 0), e.Tangent(1))
	near(t, foot.Add(geom.Pt(-14, 10)), p.End())
}

// A member turned upside down is its mirror image, and turned twice it is itself.
func TestUpsideDown(t *testing.T) {
	for _, pair := range [][2]profile.Element{
		{profile.Ovolo{Height: 6, Projection: 6}, profile.Ovolo{Height: 6, Projection: -6}},
		{profile.Ovolo{Height: 6, Projection: 9, Curve: profile.CurveEllipse}, profile.Ovolo{Height: 6, Projection: -9, Curve: profile.CurveEllipse}},
		{profile.Cove{Height: 6, Projection: 5, Curve: profile.CurveArc}, profile.Cove{Height: 6, Projection: -5, Curve: profile.CurveArc}},
		{profile.CymaRecta{Height: 6, Projection: 5}, profile.CymaRecta{Height: 6, Projection: -5}},
		{profile.CymaReversa{Height: 6, Projection: 5}, profile.CymaReversa{Height: 6, Projection: -5}},
		{profile.Scotia{Height: 6, Projection: 3, Curve: profile.CurveSevenths}, profile.Scotia{Height: 6, Projection: -3, Curve: profile.CurveSevenths}},
		{profile.Thumb{Height: 6, Projection: 5, Fillet: 1}, profile.Thumb{Height: 6, Projection: -5, Fillet: 1}},
		{profile.Chamfer{Height: 6, Projection: 5}, profile.Chamfer{Height: 6, Projection: -5}},
	} {
		up, down := drawn(t, pair[0]), drawn(t, pair[1])
		turned := down.MirrorY()
		turned = turned.Translate(foot.Sub(turned.Start()))
		require.Lessf(t, geom.Hausdorff(up, turned, 0.1), 1e-9, "%T", pair[0])
		twice := up.MirrorY().MirrorY()
		require.Less(t, geom.Hausdorff(up, twice, 0.1), 1e-9)
	}
}

// Convexity is fixed by the member, never by a sign.
func TestConvexity(t *testing.T) {
	for _, run := range []float64{5, -5} {
		for _, c := range []profile.Construction{profile.CurveArc, profile.CurveEllipse} {
			turn := func(p geom.Path) float64 { return p.Tangent(0).Cross(p.Tangent(1)) }
			require.Positive(t, turn(drawn(t, profile.Ovolo{Height: 6, Projection: run, Curve: c})), fmt.Sprint(run, c))
			require.Negative(t, turn(drawn(t, profile.Cove{Height: 6, Projection: run, Curve: c})), fmt.Sprint(run, c))
		}
	}
}
