package cutter

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"listel/profile"
	"listel/template/cutter/replay"
)

// randomProfile is a rising molding with sizes to a tenth of a millimeter: of two to six members each tenth, of one or two the others.
func randomProfile(seed uint64) profile.Profile {
	rng := rand.New(rand.NewPCG(seed, 2026))
	size := func(lo, hi float64) profile.Size { return profile.MM(float64(int((lo+(hi-lo)*rng.Float64())*10)) / 10) }
	p := profile.Profile{Name: fmt.Sprintf("random-%d", seed), Ground: size(6, 14)}
	n := 2 + rng.IntN(5)
	if seed%10 != 0 {
		n = 1 + n%2
	}
	for range n {
		e := profile.Entry{Height: size(4, 10)}
		if rng.IntN(2) == 0 {
			e.Set = size(0.8, 3)
		}
		switch rng.IntN(8) {
		case 0, 1:
			e.Kind, e.Height = profile.KindFillet, size(2, 8)
		case 2:
			e.Kind = profile.KindCove
		case 3:
			e.Kind = profile.KindOvolo
		case 4:
			e.Kind, e.Projection = profile.KindChamfer, size(2, 9)
		case 5:
			e.Kind = profile.KindAstragal
		case 6:
			e.Kind, e.Height = profile.KindCymaRecta, size(9, 16)
		default:
			e.Kind, e.Height = profile.KindCymaReversa, size(9, 16)
		}
		p.Elements = append(p.Elements, e)
	}
	p.Elements = append(p.Elements, profile.Entry{Kind: profile.KindFillet, Height: size(2, 7), Set: size(0.8, 3)})
	if rng.IntN(4) == 0 {
		p.Back.Rabbet = &profile.Rabbet{At: profile.AtTop, Width: profile.MM(4), Depth: profile.MM(4)}
	}
	return p
}

// Two hundred random sections are planned at quick effort and replayed; the plan of each twentieth is broken, too. LONG=1 breaks each fifth, -short
// takes 20 of them, RANDOM=from-to those one wants to see.
func TestRandomSections(t *testing.T) {
	from, to, every := 1, 200, 20
	switch {
	case os.Getenv("LONG") != "":
		every = 5
	case testing.Short():
		to = 20
	}
	if r := os.Getenv("RANDOM"); r != "" {
		if n, _ := fmt.Sscanf(r, "%d-%d", &from, &to); n == 1 {
			to = from
		}
	}
	tools, done := metricSet(), 0
	for seed := from; seed <= to; seed++ {
		p := randomProfile(uint64(seed))
		s, err := p.Section(nil)
		if err != nil {
			continue
		}
		done++
		t.Run(strconv.Itoa(seed), func(t *testing.T) {
			r, q := planned(t, FromSection(s), tools, Options{Effort: Quick})
			if !holds(t, q, replay.Options{}) || os.Getenv("RANDOM") != "" {
				show(t, r)
			}
			if seed%every == 0 {
				breaks(t, q)
			}
		})
	}
	t.Logf("%d sections", done)
}
