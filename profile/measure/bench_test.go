package measure_test

import (
	"testing"

	"listel/profile/measure"
)

func BenchmarkParseLength(b *testing.B) {
	for _, text := range []string{"19mm", "1 1/8 in", `2' 3-1/2"`, "furlong"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = measure.ParseLength(text, measure.Inches)
			}
		})
	}
}

func BenchmarkFormat(b *testing.B) {
	f := measure.Format{Units: measure.Inches}
	b.Run("Length", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_ = f.Length(44.6)
		}
	})
	b.Run("Drawing", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_ = f.Drawing(36.6)
		}
	})
	b.Run("Entry", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_ = f.Entry(44.6)
		}
	})
}
