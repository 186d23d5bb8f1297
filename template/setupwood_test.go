package template

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter"
)

// steppedPlan is the plan of a section of two steps, invented, with a saw and a straight bit.
func steppedPlan(t *testing.T) SetupPlan {
	t.Helper()
	mm := profile.MM
	s, err := profile.Profile{Name: "steps", Ground: mm(10), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: mm(10)},
		{Kind: profile.KindFillet, Height: mm(10), Set: mm(8)},
		{Kind: profile.KindFillet, Height: mm(10), Set: mm(8)},
	}}.Section(nil)
	require.NoError(t, err)
	tools := []cutter.Tool{
		{Name: "saw", Kind: cutter.SawBlade, Diameter: 254, Width: 3, Reach: 75, PerPass: 40, MaxTilt: 45 * geom.Degree},
		{Name: "bit", Kind: cutter.Straight, Diameter: 12, Reach: 40, Length: 30, Shank: 12, PerPass: 6},
	}
	r, err := cutter.Plan(context.Background(), cutter.FromSection(s), tools, cutter.Options{Effort: cutter.Quick})
	require.NoError(t, err)
	require.NotEmpty(t, r.Setups)
	return SetupPlan{Section: s, Plan: r, Tools: tools}
}

// What the pictures show as taken is what the plan says it takes, counted on squares and on columns: two ways to one number.
func TestTakenIsWhatThePlanSays(t *testing.T) {
	p := steppedPlan(t)
	s := newCutStick(p)
	count := func(c cells) (n int) {
		for _, is := range c {
			if is {
				n++
			}
		}
		return n
	}
	for i, u := range p.Plan.Setups {
		taken := float64(count(s.held[i])-count(s.held[i+1])) * cellSize * cellSize
		require.InDelta(t, u.Removed, taken, 1.5+u.Removed*0.02, "set-up %d", u.N)
	}
}

// Two kerfs that meet free the corner between them: it falls, and is drawn as taken though no cut sweeps it.
func TestOffcutFalls(t *testing.T) {
	section := geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 13), geom.Pt(30, 13), geom.Pt(30, 30), geom.Pt(0, 30))
	p := SetupPlan{Section: profile.Section{Outline: section}}
	p.Plan.Blank.Polygon = [4][2]float64{{0, 0}, {30, 0}, {30, 30}, {0, 30}}
	p.Plan.Outline = [][2]float64{{0, 0}, {20, 0}, {20, 13}, {30, 13}, {30, 30}, {0, 30}}
	p.Plan.Setups = []cutter.Setup{
		{Silhouette: [][2]float64{{20, -4}, {23, -4}, {23, 10}, {20, 10}}},
		{Silhouette: [][2]float64{{20, 10}, {34, 10}, {34, 13}, {20, 13}}},
	}
	s := newCutStick(p)
	corner := geom.Pt(27, 5)
	require.True(t, s.stands(1, corner), "it still hangs on over the first kerf")
	require.False(t, s.stands(2, corner))
	require.True(t, s.stands(2, geom.Pt(10, 5)))
	require.InDelta(t, section.Length(), s.edges(2).Length(), 1e-9, "what stands is the section, no edge of the fallen corner is left")
}

// At the end the wood's boundary lies on the section wherever the plan comes clean: this one leaves nothing but the section.
func TestLastBoundaryIsTheSection(t *testing.T) {
	p := steppedPlan(t)
	s := newCutStick(p)
	edges := s.edges(len(s.cuts))
	require.InDelta(t, s.section.Length(), edges.Length(), 1.5)
	for _, e := range edges {
		_, _, d := s.section.Nearest(e.At(0.5))
		require.Less(t, d, 0.5, "within the allowance")
	}
	require.InDelta(t, geom.Polygon(s.blank.pts...).Length(), s.edges(0).Length(), 1e-9, "before the first cut it is the blank")
}

// The ruling covers what it is asked to: its length times its spacing is the area.
func TestRulingCoversTheWood(t *testing.T) {
	p := steppedPlan(t)
	s := newCutStick(p)
	for _, n := range []int{0, len(s.cuts)} {
		lines := s.hatch(n, 45*geom.Degree, 0.2, func(q geom.Point) bool { return s.stands(n, q) })
		area := geom.Polygon(s.blank.pts...).Area()
		if n > 0 {
			area = p.Section.Area() + p.Plan.Left.Total
		}
		require.InDelta(t, area, lines.Length()*0.2, area*0.01)
	}
}

func TestThinnedKeepsWithinTolerance(t *testing.T) {
	circle := geom.Circle(geom.Point{}, 20).Flatten(0.0005)
	few := thinned(circle, 0.01)
	require.Less(t, len(few), len(circle)/3)
	require.Less(t, geom.Hausdorff(geom.Polygon(few...), geom.Circle(geom.Point{}, 20), 0.2), 0.0125)
}

// The planner's hints come in the reader's units. An inch is 25.4 mm.
func TestHintsInTheReadersUnits(t *testing.T) {
	p := steppedPlan(t)
	p.Plan.Hints = []cutter.Hint{
		{Kind: cutter.HintUpright, Width: 63.5, Thickness: 60.325, Wood: 2.2, Setups: 10, Saved: 4},
		{Kind: cutter.HintRadius, Tool: cutter.RoundNose, Radius: 25.4, Nearest: 19.05, Element: 2, Saved: 1},
		{Kind: cutter.HintScraper, Element: 3, Member: "cove", Clean: 0.83},
	}
	text := func(st Style) string {
		c := &setupComposer{plan: p, st: st}
		return strings.Join(c.hints(false), " ") + " " + strings.Join(c.hints(true), " ")
	}
	in := text(inchStyle())
	require.Contains(t, in, "upright blank of 2½″ by 2⅜″, which takes 2.2 times the wood, a quick search found 10 set-ups, 4 fewer, none of them on a carrier board")
	require.Contains(t, in, "round-nose of 1″ radius for member 2 would save about 1 set-up; the set has ¾″")
	require.Contains(t, in, "83% comes clean")
	require.Contains(t, text(Style{}), "upright blank of 63.5 mm by 60.3 mm")
	require.Len(t, (&setupComposer{plan: p}).hints(true), 1, "what saves three set-ups stands before the others")
}

func inchStyle() Style { return Style{Lengths: measure.Format{Units: measure.Inches}} }
