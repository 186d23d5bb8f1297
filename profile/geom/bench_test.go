package geom

import (
	"math/rand/v2"
	"testing"
)

func BenchmarkCrossings(b *testing.B) {
	line := Line{Pt(-90, 3), Pt(90, 7)}
	arc := Arc{Pt(5, 0), 30, 0.3, 5}
	oval := EllipticArc{Pt(1, 2), 40, 15, 0.4, 0.1, 6}
	other := EllipticArc{Pt(10, -2), 35, 20, 1.4, 0.1, 6}
	for _, c := range []struct {
		name string
		a, b Segment
	}{
		{"line and line", line, Line{Pt(0, -9), Pt(1, 50)}},
		{"line and arc", line, arc},
		{"arc and arc", arc, Arc{Pt(20, 9), 25, 0.3, 6}},
		{"line and oval", line, oval},
		{"oval and oval", oval, other},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				Crossings(c.a, c.b)
			}
		})
	}
}

func BenchmarkPath(b *testing.B) {
	p := cyma()
	r := rand.New(rand.NewPCG(61, 1))
	big := star(r, 60)
	b.Run("Area", func(b *testing.B) {
		for b.Loop() {
			p.Area()
		}
	})
	b.Run("Length", func(b *testing.B) {
		for b.Loop() {
			p.Length()
		}
	})
	b.Run("Flatten", func(b *testing.B) {
		for b.Loop() {
			p.Flatten(0.005)
		}
	})
	b.Run("Nearest", func(b *testing.B) {
		for b.Loop() {
			p.Nearest(Pt(28, 19))
		}
	})
	b.Run("Contains", func(b *testing.B) {
		for b.Loop() {
			p.Contains(Pt(18, 19))
		}
	})
	for _, c := range []struct {
		name string
		p    Path
	}{{"section", p}, {"90 segments", big}} {
		b.Run("Offset "+c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := c.p.Offset(-2, Round); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("SplitAtHeight", func(b *testing.B) {
		for b.Loop() {
			p.SplitAtHeight(20)
		}
	})
}
