package profile_test

import (
	"fmt"
	"testing"

	"listel/profile"
)

// long returns a profile of n members of many kinds; its sizes are invented.
func long(n int) profile.Profile {
	p := profile.Profile{Name: "long", Ground: profile.MM(60)}
	for i := range n {
		e := profile.Entry{Kind: profile.KindFillet, Height: profile.MM(4), Set: profile.MM(2)}
		switch i % 6 {
		case 1:
			e = profile.Entry{Kind: profile.KindCove, Height: profile.MM(9)}
		case 3:
			e = profile.Entry{Kind: profile.KindOvolo, Height: profile.MM(8), Projection: profile.MM(6), Curve: profile.CurveEllipse}
		case 4:
			e = profile.Entry{Kind: profile.KindTorus, Height: profile.MM(7)}
		case 5:
			e = profile.Entry{Kind: profile.KindCymaReversa, Height: profile.MM(10), Projection: profile.MM(8)}
		}
		p.Elements = append(p.Elements, e)
	}
	return p
}

func BenchmarkSection(b *testing.B) {
	for _, n := range []int{3, 10, 30} {
		b.Run(fmt.Sprintf("members=%d", n), func(b *testing.B) {
			p := long(n)
			for b.Loop() {
				if _, err := p.Section(nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkUndercuts(b *testing.B) {
	s, err := long(30).Section(nil)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		s.Undercuts()
	}
}

func BenchmarkThinnest(b *testing.B) {
	s, err := long(30).Section(nil)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		s.Thinnest()
	}
}
