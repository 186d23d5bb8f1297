package cutter

import (
	"context"
	"testing"
)

func BenchmarkPlan(b *testing.B) {
	p := pieceOf(b, matchedCornice())
	for b.Loop() {
		if _, err := Plan(context.Background(), p, metricSet(), Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
