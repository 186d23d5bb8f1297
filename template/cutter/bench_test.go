package cutter

import (
	"context"
	"fmt"
	"testing"

	"listel/profile"
	"listel/profile/geom"
)

// grown is a molding of n members.
func grown(n int) profile.Profile {
	mm := profile.MM
	p := profile.Profile{Name: fmt.Sprintf("grown-%d", n), Ground: mm(10)}
	for i := range n {
		e := profile.Entry{Kind: profile.KindFillet, Height: mm(3), Set: mm(1)}
		switch i % 3 {
		case 1:
			e = profile.Entry{Kind: profile.KindCove, Height: mm(4)}
		case 2:
			e = profile.Entry{Kind: profile.KindAstragal, Height: mm(4), Set: mm(1)}
		}
		p.Elements = append(p.Elements, e)
	}
	p.Elements[n-1] = profile.Entry{Kind: profile.KindFillet, Height: mm(4), Set: mm(1)}
	return p
}

func BenchmarkEnvelope(b *testing.B) {
	for _, n := range []int{3, 10, 30} {
		p := pieceOf(b, grown(n))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				envelope(p.Outline, newFrame(geom.Pt(1, 0)))
			}
		})
	}
}

func BenchmarkClosing(b *testing.B) {
	s := envelope(pieceOf(b, matchedCornice()).Outline, newFrame(geom.Pt(1, 0)))
	c := newClosing(s, shapeOf(Tool{Kind: RoundNose, Radius: 6}).cut)
	for b.Loop() {
		c.at(-30)
	}
}

func readySearch(b *testing.B, p profile.Profile) *search {
	s, err := newSearch(context.Background(), pieceOf(b, p), metricSet(), Options{})
	if err != nil {
		b.Fatal(err)
	}
	if err := s.candidates(); err != nil {
		b.Fatal(err)
	}
	return s
}

func (s *search) problem() problem {
	p := problem{rows: s.rows.total()}
	for k := range s.cuts {
		r := s.cuts[k].rows.clone()
		r.and(s.needed)
		p.cols, p.weights, p.cost = append(p.cols, r), append(p.weights, s.cuts[k].weight), append(p.cost, s.cuts[k].cost)
	}
	return p
}

func BenchmarkReduction(b *testing.B) {
	p := readySearch(b, matchedCornice()).problem()
	for b.Loop() {
		p.reduce()
	}
}

func BenchmarkSearch(b *testing.B) {
	c := readySearch(b, unmatchedCornice()).problem().reduce()
	for b.Loop() {
		if _, _, err := newSolver(c, 40000, nil).solve(0); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	for _, n := range []int{3, 6, 10, 20, 30} {
		p := pieceOf(b, grown(n))
		for _, e := range []Effort{Quick, Usual} {
			b.Run(fmt.Sprintf("%d-%s", n, e), func(b *testing.B) {
				for b.Loop() {
					if _, err := Plan(context.Background(), p, metricSet(), Options{Effort: e}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
