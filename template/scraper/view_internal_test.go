package scraper

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
)

// The columns find what asking every line finds: whether any lies over a place.
func TestColumns(t *testing.T) {
	steps := []profile.Entry{
		{Kind: profile.KindFillet, Height: profile.MM(3), Set: profile.MM(1)}, {Kind: profile.KindCove, Height: profile.MM(4)},
		{Kind: profile.KindAstragal, Height: profile.MM(4), Set: profile.MM(1)}, {Kind: profile.KindThumb, Height: profile.MM(4), Projection: profile.MM(-4)},
	}
	p := profile.Profile{Name: "steps", Ground: profile.MM(20)}
	for range 5 {
		p.Elements = append(p.Elements, steps...)
	}
	s, err := p.Section(nil)
	require.NoError(t, err)
	box := s.Outline.Bounds().Expand(2)
	rng := rand.New(rand.NewPCG(1, 2))
	hidden := 0
	for k := range gridCount {
		w := newScene(s).along(gridPlunge(k))
		for range 500 {
			at := geom.Pt(box.Min.X+rng.Float64()*box.Width(), box.Min.Y+rng.Float64()*box.Height())
			u, v := at.Dot(w.u), at.Dot(w.v)
			over := false
			for _, l := range w.lines {
				for j := 1; j < len(l.pts); j++ {
					a, b := l.pts[j-1], l.pts[j]
					over = over || (a.X < u) != (b.X < u) && a.Lerp(b, (u-a.X)/(b.X-a.X)).Y > v
				}
			}
			require.Equal(t, over, w.blocked(at), "along %g at %v", w.plunge, at)
			if over {
				hidden++
			}
		}
	}
	require.Greater(t, hidden, 1000)
}
