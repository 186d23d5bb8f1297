package scraper_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/scraper"
)

// The depth of a knife for a cutting circle of 2 in radius. The principle is Joshua Rose, Mechanical Drawing Self-Taught, figs 290-292, found there on
// the drawing board; the numbers are derived from it, sqrt(R^2 - e^2) - sqrt((R - h)^2 - e^2), e = R sin(hook), and not printed there.
func TestKnifeDepth(t *testing.T) {
	const inch = 25.4
	for hook, want := range map[float64][3]float64{
		10: {0.2544, 0.5104, 0.7688},
		15: {0.2602, 0.5240, 0.7941},
		20: {0.2686, 0.5444, 0.8332},
		25: {0.2803, 0.5734, 0.8917},
	} {
		h := scraper.Head{Radius: 2 * inch, Hook: geom.Angle(hook) * geom.Degree}
		for i, depth := range []float64{0.25, 0.5, 0.75} {
			require.InDelta(t, want[i], h.KnifeDepth(depth*inch)/inch, 6e-5, "hook %g, %g in deep", hook, depth)
		}
	}
}

// For small depths the rotating knife is the straight one held at the hook angle: depth / cos(hook). Without a hook it is the depth itself.
func TestKnifeDepthLimit(t *testing.T) {
	for hook := 0.0; hook <= 45; hook += 5 {
		a := geom.Angle(hook) * geom.Degree
		h := scraper.Head{Radius: 60, Hook: a}
		for _, depth := range []float64{1e-2, 1e-3, 1e-4} {
			require.InDelta(t, 1/a.Cos(), h.KnifeDepth(depth)/depth, depth*2/60/math.Pow(a.Cos(), 3)+1e-9, "hook %g", hook)
		}
		require.InDelta(t, 0, h.KnifeDepth(0), 1e-12)
	}
	require.InDelta(t, 17, scraper.Head{Radius: 60}.KnifeDepth(17), 1e-12)
	require.True(t, math.IsNaN(scraper.Head{Radius: 60, Hook: 45 * geom.Degree}.KnifeDepth(30)))
}

// A knife, turned about its axis, cuts the section: each point of the edge comes round at its own distance from the axis.
func TestKnifeTurnedIsTheSection(t *testing.T) {
	for _, name := range []string{"press-waist", "press-shelf-bead", "ovolo-with-fillets", "base-cap"} {
		s := section(t, name)
		h := scraper.Head{Radius: 75, Hook: 20 * geom.Degree}
		p := plan(t, s, scraper.Options{Head: &h})
		e := h.Radius * h.Hook.Sin()
		at, pts := samples(s, 0.5)
		for _, b := range p.Blades {
			deep := b.Edge.Bounds().Min.Y
			var turned []geom.Point
			for _, q := range b.Edge.Flatten(0.001) {
				radius := math.Hypot(e, h.Radius*h.Hook.Cos()-(q.Y-deep)) // along the knife's face from the tip
				turned = append(turned, cut(b, geom.Pt(q.X, deep+h.Radius-radius)))
			}
			edge := geom.Polyline(turned...)
			for i, q := range pts {
				if within(b.Spans, at[i]) {
					_, _, d := edge.Nearest(q)
					require.LessOrEqual(t, d, figure, "%s, knife %s at %v", name, b.Mark, q)
				}
			}
			require.NotNil(t, b.Knife)
			require.InDelta(t, h.KnifeDepth(b.Knife.Depth), b.Knife.Filed, 1e-9)
			require.InDelta(t, h.Radius-b.Knife.Depth-scraper.BodyClearance, b.Knife.Body, 1e-9)
			require.InDelta(t, b.Outline.Area(), geom.PolygonArea(b.Outline.Flatten(0.1)), 1e-6)
		}
	}
}

func TestOptionsThatWillNotDo(t *testing.T) {
	s := section(t, "press-waist")
	head := func(radius, hook float64) *scraper.Head {
		return &scraper.Head{Radius: radius, Hook: geom.Angle(hook) * geom.Degree}
	}
	nan := math.NaN()
	for _, c := range []struct {
		o      scraper.Options
		option string
		want   string
	}{
		{scraper.Options{Lean: 60 * geom.Degree}, "lean", "less than 60"},
		{scraper.Options{Lean: 75 * geom.Degree}, "lean", "75"},
		{scraper.Options{Lean: -1 * geom.Degree}, "lean", "-1"},
		{scraper.Options{Lean: geom.Angle(nan)}, "lean", "NaN"},
		{scraper.Options{Plunge: degrees(91)}, "plunge", "91"},
		{scraper.Options{Plunge: degrees(nan)}, "plunge", "NaN"},
		{scraper.Options{MaxWidth: 2.9}, "width", "at least 3 mm"},
		{scraper.Options{MaxWidth: -4}, "width", "-4"},
		{scraper.Options{MaxWidth: nan}, "width", "NaN"},
		{scraper.Options{MaxWidth: 1000}, "width", "1000"},
		{scraper.Options{Head: head(0, 15)}, "head", "more than 0"},
		{scraper.Options{Head: head(nan, 15)}, "head", "NaN"},
		{scraper.Options{Head: head(60, 50)}, "hook", "0 to 45"},
		{scraper.Options{Head: head(60, nan)}, "hook", "NaN"},
		{scraper.Options{Head: head(6, 15)}, "head", "too small"},
		{scraper.Options{Head: head(60, 15), Lean: 10 * geom.Degree}, "lean", "hook angle"},
	} {
		_, err := scraper.Make(s, c.o)
		var bad *scraper.OptionError
		require.True(t, errors.As(err, &bad), "%+v: %v", c.o, err)
		require.Equal(t, c.option, bad.Option)
		require.Contains(t, err.Error(), c.want)
	}
}

// A face that lies wholly behind the plunge is refused.
func TestHiddenFace(t *testing.T) {
	s := made(t, profile.Entry{Kind: profile.KindFascia, Height: profile.MM(20)})
	for _, a := range []float64{90, -90, 87} {
		_, err := scraper.Make(s, scraper.Options{Plunge: degrees(a)})
		require.ErrorIs(t, err, scraper.ErrHidden, "%g", a)
	}
	_, err := scraper.Make(s, scraper.Options{Plunge: degrees(80)})
	require.NoError(t, err)
}

// The largest round file that goes into a hollow of the blade. A torus of 1/2 in makes one of 1/4 in radius, which a 1/2 in file fits; filed for a lean
// the hollow is an ellipse, at its deepest b^2 / a = 6.35 cos(lean) mm in radius, and only a 3/8 in file goes in. Derived.
func TestFiles(t *testing.T) {
	s := made(t,
		profile.Entry{Kind: profile.KindFillet, Height: profile.MM(6)},
		profile.Entry{Kind: profile.KindOvolo, Height: profile.MM(6.35), Projection: profile.MM(6.35), Set: profile.MM(1)},
		profile.Entry{Kind: profile.KindFillet, Height: profile.MM(6), Set: profile.MM(1)},
	)
	upright := plan(t, s, scraper.Options{Plunge: degrees(-45)}).Blades[0].Files
	require.Equal(t, 12.7, round(t, upright).Diameter)
	require.Zero(t, round(t, upright).Leaves)
	corners := 0
	for _, f := range upright {
		if f.Corner > 0 {
			corners++
			require.InDelta(t, 90, f.Corner.Degrees(), 1e-6)
			require.Equal(t, scraper.SquareFile, f.Shape)
			require.InDelta(t, 0.2*(math.Sqrt2-1), f.Leaves, 1e-9)
		}
	}
	require.Equal(t, 2, corners, "the arrises of the lower and the upper fillet")
	leaning := round(t, plan(t, s, scraper.Options{Plunge: degrees(-45), Lean: 30 * geom.Degree}).Blades[0].Files)
	require.InDelta(t, 6.35*math.Cos(math.Pi/6), leaning.Radius, 1e-9)
	require.Equal(t, 3.0/8*25.4, leaning.Diameter)

	small := made(t,
		profile.Entry{Kind: profile.KindFillet, Height: profile.MM(6)},
		profile.Entry{Kind: profile.KindTorus, Height: profile.MM(1)},
		profile.Entry{Kind: profile.KindFillet, Height: profile.MM(6)},
	)
	f := round(t, plan(t, small, scraper.Options{}).Blades[0].Files)
	require.Positive(t, f.Leaves, "no file is as small as a radius of 1/2 mm")
	require.Less(t, f.Leaves, 0.5)
}

func round(t *testing.T, files []scraper.File) scraper.File {
	t.Helper()
	for _, f := range files {
		if f.Shape == scraper.RoundFile {
			return f
		}
	}
	require.Fail(t, "no round file")
	return scraper.File{}
}

// A negative gauge has the face for an edge, on the other side of it, and no wood is in its way.
func TestNegativeGauges(t *testing.T) {
	for _, s := range sections(t) {
		skewed := s.Mapped(s.Name+"-raking", geom.Affine{A: 1.3, B: 0.35, D: 0.9})
		for _, s := range []profile.Section{s, skewed} {
			g := scraper.NegativeGauge(s)
			require.Empty(t, g.Outline.SelfCrossings(1e-6), s.Name)
			require.Positive(t, g.Outline.Area(), s.Name)
			_, pts := samples(s, 1)
			for _, q := range pts {
				_, _, d := g.Outline.Nearest(q)
				require.Less(t, d, 1e-9, s.Name)
			}
			for _, q := range inside(t, s.Outline) {
				require.False(t, g.Outline.Contains(q), "%s: the gauge is in the wood at %v", s.Name, q)
			}
		}
	}
}

// A scratch stock's fence runs on the foot, and its blade scrapes the whole face of a small molding.
func TestScratchStock(t *testing.T) {
	s := section(t, "press-shelf-bead")
	st, ok := scraper.NewScratchStock(s)
	require.True(t, ok)
	require.InDelta(t, 0, st.Fence[0], 1e-9)
	require.InDelta(t, s.Height, st.Fence[1], 1e-9)
	require.Empty(t, st.Blade.Outline.SelfCrossings(1e-6))
	require.Empty(t, st.Holder.SelfCrossings(1e-6))
	for _, q := range inside(t, st.Work) {
		require.False(t, st.Blade.Outline.Contains(q))
		require.False(t, st.Holder.Contains(q))
	}
	_, pts := samples(s, 0.5)
	edge := cutPath(st.Blade, st.Blade.Edge, 0.001)
	for _, q := range pts {
		_, _, d := edge.Nearest(q)
		require.LessOrEqual(t, d, figure)
	}
	for _, name := range []string{"press-base", "press-cornice", "corona-and-cove"} {
		_, ok := scraper.NewScratchStock(section(t, name))
		require.False(t, ok, "%s is too large, or hidden from the front", name)
	}
}

func ExampleMake() {
	s, _ := profile.Profile{
		Name: "cap", Ground: profile.MM(12),
		Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: profile.MM(5)},
			{Kind: profile.KindCove, Height: profile.MM(15)},
			{Kind: profile.KindFillet, Height: profile.MM(5), Set: profile.MM(2)},
		},
	}.Section(nil)
	p, err := scraper.Make(s, scraper.Options{Lean: 20 * geom.Degree})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range p.Blades {
		fmt.Printf("%s: plunge %.0f°, scrapes %.1f to %.1f mm up, of steel %.1f x %.1f mm, runs on the %s\n",
			b.Mark, b.Plunge.Degrees(), b.Covers[0], b.Covers[1], b.Steel.Width, b.Steel.Height, b.Guide.Kind)
	}
	// Output:
	// A: plunge -45°, scrapes 0.0 to 25.0 mm up, of steel 45.4 x 40.4 mm, runs on the foot
}

func BenchmarkMake(b *testing.B) {
	for _, name := range []string{"press-cornice", "press-base", "three-reeds", "corinthian-cornice"} {
		s := section(b, name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := scraper.Make(s, scraper.Options{Lean: 20 * geom.Degree}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
