package scraper_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/scraper"
)

// figure is what a blade promises: what it cuts is the section within this, mm.
const figure = 0.005

// Each blade of every library profile, projected back through its lean from the outline as filed, lies on the section where it scrapes
// and nowhere cuts into it, body and edge alike.
func TestProjectedBackIsTheSection(t *testing.T) {
	t.Parallel()
	for _, s := range sections(t) {
		inner := inside(t, s.Outline)
		for _, lean := range []float64{0, 10, 20, 30, 40} {
			p := plan(t, s, scraper.Options{Lean: geom.Angle(lean) * geom.Degree})
			at, pts := samples(s, 0.5)
			for _, b := range p.Blades {
				edge, body := cutPath(b, b.Edge, 0.001), cutPath(b, b.Outline, 0.004)
				for i, q := range pts {
					if within(b.Spans, at[i]) {
						_, _, d := edge.Nearest(q)
						require.LessOrEqual(t, d, figure, "%s, blade %s at lean %g: %v", s.Name, b.Mark, lean, q)
					}
				}
				bounds := body.Bounds()
				for _, q := range inner {
					require.False(t, bounds.Contains(q) && body.Contains(q), "%s, blade %s at lean %g cuts into the section at %v", s.Name, b.Mark, lean, q)
				}
				for _, seg := range edge {
					q := seg.At(0.5)
					_, _, d := s.Outline.Nearest(q)
					require.True(t, d <= figure || !s.Outline.Contains(q), "%s, blade %s at lean %g: the edge is in the wood at %v", s.Name, b.Mark, lean, q)
				}
				require.Empty(t, b.Outline.SelfCrossings(1e-6), "%s, blade %s", s.Name, b.Mark)
				require.True(t, b.Outline.Closed(1e-9))
				require.Positive(t, b.Outline.Area())
			}
		}
	}
}

// inside returns points just inside a closed outline, and farther in.
func inside(t *testing.T, outline geom.Path) []geom.Point {
	t.Helper()
	var out []geom.Point
	for _, g := range outline {
		n := max(2, int(g.Length()))
		for k := range n {
			tt := (float64(k) + 0.5) / float64(n)
			for _, d := range []float64{0.01, 0.3, 2} {
				if q := g.At(tt).Add(g.Tangent(tt).Left().Mul(d)); outline.Contains(q) {
					out = append(out, q)
				}
			}
		}
	}
	return out
}

// A blade filed upright and held at a lean spoils the section by as much as the principle says: the test above can fail.
func TestLeanMatters(t *testing.T) {
	s := section(t, "press-waist")
	p := plan(t, s, scraper.Options{})
	b := p.Blades[0]
	b.Lean = 30 * geom.Degree // held so, though filed for none
	edge := cutPath(b, b.Edge, 0.001)
	worst := 0.0
	at, pts := samples(s, 0.5)
	for i, q := range pts {
		if within(b.Spans, at[i]) {
			_, _, d := edge.Nearest(q)
			worst = max(worst, d)
		}
	}
	require.Greater(t, worst, 0.5)
}

// Depth as filed is depth / cos(lean), and width stays. The principle is Joshua Rose, Modern Machine-Shop Practice (1887-88), figs 2181-2187, drawn
// there at 30 degrees; the numbers are derived from it, 1 / cos(lean).
func TestDepthAsFiled(t *testing.T) {
	s := section(t, "press-waist")
	upright := plan(t, s, scraper.Options{}).Blades[0].Edge.Bounds()
	for lean, factor := range map[float64]float64{10: 1.01543, 15: 1.03528, 20: 1.06418, 30: 1.15470, 45: 1.41421} {
		b := plan(t, s, scraper.Options{Lean: geom.Angle(lean) * geom.Degree}).Blades[0].Edge.Bounds()
		require.InDelta(t, factor, b.Height()/upright.Height(), 5e-6, "lean %g", lean)
		require.InDelta(t, upright.Width(), b.Width(), 1e-9, "lean %g", lean)
	}
}

// ToSection is the projection that the test does by hand.
func TestToSection(t *testing.T) {
	s := section(t, "press-cornice")
	for _, b := range plan(t, s, scraper.Options{Lean: 25 * geom.Degree}).Blades {
		for _, q := range b.Outline.Flatten(0.1) {
			require.True(t, b.ToSection().Apply(q).Near(cut(b, q), 1e-9))
			m := b.Mirrored()
			require.True(t, m.ToSection().Apply(geom.Pt(-q.X, q.Y)).Near(cut(b, q), 1e-9))
		}
	}
}

// The area of an outline in closed form, and of the polygon of its points; and the area between the edge and a level line grows as the depth does.
func TestOutlineAreaTwoWays(t *testing.T) {
	for _, s := range sections(t) {
		p := plan(t, s, scraper.Options{Lean: 20 * geom.Degree})
		q := plan(t, s, scraper.Options{})
		for i, b := range p.Blades {
			const tol = 1e-5
			require.InDelta(t, b.Outline.Area(), geom.PolygonArea(b.Outline.Flatten(tol)), tol*b.Outline.Length(), "%s, blade %s", s.Name, b.Mark)
			up := q.Blades[i].Edge
			require.InDelta(t, over(up)/(20*geom.Degree).Cos(), over(b.Edge), 1e-6, "%s, blade %s", s.Name, b.Mark)
		}
	}
}

// over returns the area between an edge and the level of its lowest point.
func over(edge geom.Path) float64 {
	box := edge.Bounds()
	a, b := edge.Start(), edge.End()
	closed := append(append(geom.Path{}, edge...), geom.Polyline(b, geom.Pt(b.X, box.Min.Y-1), geom.Pt(a.X, box.Min.Y-1), a)...)
	return -closed.Area() - box.Width()
}
