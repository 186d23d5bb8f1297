package scraper_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/scraper"
)

// fuzzKinds are the members that a fuzzed face is made of.
var fuzzKinds = []profile.Kind{
	profile.KindFillet, profile.KindChamfer, profile.KindOvolo, profile.KindCove, profile.KindCymaRecta, profile.KindCymaReversa,
	profile.KindTorus, profile.KindAstragal, profile.KindScotia, profile.KindConge, profile.KindQuirk, profile.KindReeds, profile.KindFlutes,
}

// fuzzed returns a section from bytes, three a member; false when they make none.
func fuzzed(data []byte) (profile.Section, bool) {
	p := profile.Profile{Name: "fuzzed", Ground: profile.MM(60)}
	for i := 0; i+2 < len(data) && i < 30; i += 3 {
		kind := fuzzKinds[int(data[i])%len(fuzzKinds)]
		h := 0.5 + float64(data[i+1])/8
		e := profile.Entry{Kind: kind, Height: profile.MM(h), Set: profile.MM(float64(int8(data[i+2])) / 32)}
		switch kind {
		case profile.KindQuirk:
			e.Depth = profile.MM(h)
		case profile.KindReeds, profile.KindFlutes:
			e.Count, e.Gap = 1+int(data[i+2])%3, profile.MM(h/8)
		case profile.KindOvolo, profile.KindCove, profile.KindCymaRecta, profile.KindCymaReversa, profile.KindChamfer:
			if data[i+2]&1 == 1 {
				e.Projection = profile.MM(-h)
			}
		}
		p.Elements = append(p.Elements, e)
	}
	s, err := p.Section(nil)
	return s, err == nil
}

// Whatever the face and however the blades are to be held, there is no panic: there are blades that do not cut into the section, or an error that says why not.
func FuzzMake(f *testing.F) {
	f.Add([]byte{0, 20, 0, 3, 60, 8, 0, 10, 16}, 20.0, 0.0, false, 50.8, 0.0, 15.0)
	f.Add([]byte{6, 40, 0, 10, 20, 0, 0, 10, 250}, 0.0, -45.0, true, 12.0, 0.0, 15.0)
	f.Add([]byte{11, 90, 2, 12, 90, 1, 8, 50, 0, 2, 30, 1}, 0.0, 10.0, false, 20.0, 150.0, 20.0)
	f.Fuzz(func(t *testing.T, data []byte, lean, plunge float64, asked bool, width, radius, hook float64) {
		s, ok := fuzzed(data)
		if !ok {
			return
		}
		o := scraper.Options{Lean: geom.Angle(lean) * geom.Degree, MaxWidth: width}
		if asked {
			o.Plunge = degrees(plunge)
		}
		if radius != 0 {
			o.Head = &scraper.Head{Radius: radius, Hook: geom.Angle(hook) * geom.Degree}
		}
		p, err := scraper.Make(s, o)
		if err != nil {
			var bad *scraper.OptionError
			require.True(t, errors.As(err, &bad) || errors.Is(err, scraper.ErrHidden), "%v", err)
			return
		}
		require.NotEmpty(t, p.Blades)
		for _, b := range p.Blades {
			area := b.Outline.Area()
			require.True(t, area > 0 && !math.IsInf(area, 0), "%v", area)
			require.True(t, b.Outline.Closed(1e-9))
			require.LessOrEqual(t, b.Steel.Width, o.MaxWidth+50.8*b2f(o.MaxWidth == 0)+1e-6)
			if b.Knife != nil {
				continue
			}
			body := cutPath(b, b.Outline, 0.005)
			for _, g := range s.Outline {
				for _, tt := range []float64{0.1, 0.5, 0.9} {
					if q := g.At(tt).Add(g.Tangent(tt).Left().Mul(0.05)); s.Outline.Contains(q) {
						require.False(t, body.Contains(q), "blade %s cuts into the section at %v", b.Mark, q)
					}
				}
			}
		}
		scraper.NewScratchStock(s)
		require.Positive(t, scraper.NegativeGauge(s).Outline.Area())
	})
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
