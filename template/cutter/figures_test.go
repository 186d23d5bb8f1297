package cutter

import (
	"os"
	"testing"

	"listel/profile"
	"listel/template/cutter/replay"
)

// sill is 60 mm high and projects 80 mm, with a weather slope and a drip under its nose: invented.
func sill() profile.Profile {
	mm := profile.MM
	return profile.Profile{Name: "sill", Ground: mm(60), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: mm(20)},
		{Kind: profile.KindCorona, Height: mm(30), Set: mm(20), Drip: &profile.Drip{Width: mm(6), Depth: mm(6), Inset: mm(6)}},
		{Kind: profile.KindChamfer, Height: mm(10), Projection: mm(-60)},
	}}
}

// matchedCornice is 64 mm high and projects 60 mm; every radius is in the metric set: invented.
func matchedCornice() profile.Profile {
	mm := profile.MM
	return profile.Profile{Name: "matched-cornice", Ground: mm(20), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: mm(5)},
		{Kind: profile.KindCove, Height: mm(10)},
		{Kind: profile.KindFillet, Height: mm(4), Set: mm(2)},
		{Kind: profile.KindOvolo, Height: mm(8)},
		{Kind: profile.KindFillet, Height: mm(3), Set: mm(2)},
		{Kind: profile.KindFascia, Height: mm(11)},
		{Kind: profile.KindCymaRecta, Height: mm(16), Projection: mm(16), Curve: profile.CurveBold},
		{Kind: profile.KindFillet, Height: mm(7), Set: mm(2)},
	}}
}

// unmatchedCornice has a cyma whose radius, half its chord, is in no set: invented.
func unmatchedCornice() profile.Profile {
	mm := profile.MM
	return profile.Profile{Name: "unmatched-cornice", Ground: mm(20), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: mm(6)},
		{Kind: profile.KindCove, Height: mm(10)},
		{Kind: profile.KindFillet, Height: mm(4), Set: mm(2)},
		{Kind: profile.KindCymaRecta, Height: mm(22), Projection: mm(17)},
		{Kind: profile.KindFillet, Height: mm(6), Set: mm(2)},
	}}
}

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		profile profile.Profile
		most    int
	}{{filletCoveOvolo(), 5}, {sill(), 7}, {matchedCornice(), 10}, {unmatchedCornice(), 14}} {
		t.Run(c.profile.Name, func(t *testing.T) {
			r, p := planned(t, pieceOf(t, c.profile), metricSet(), Options{})
			show(t, r)
			if len(r.Setups) > c.most {
				t.Errorf("%d set-ups, at most %d", len(r.Setups), c.most)
			}
			if len(r.Setups) > r.LowerBound+1 {
				t.Errorf("%d set-ups, the bound is %d", len(r.Setups), r.LowerBound)
			}
			if holds(t, p, replay.Options{}) {
				breaks(t, p)
			}
			trials := 20
			if os.Getenv("LONG") != "" {
				trials = 100
			}
			shakes(t, p, trials)
			meets(t, r, metricSet())
		})
	}
}
