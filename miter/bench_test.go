package miter_test

import (
	"fmt"
	"testing"

	"listel/miter"
)

// BenchmarkFit is the miter list of a case of 40 pieces: five moldings of eight runs, with splines and pins; the figure to reach is 2 ms.
func BenchmarkFit(b *testing.B) {
	plan := miter.Plan{Width: 1400, Depth: 450, Canted: 80, Breakfront: &miter.Breakfront{Width: 600, Step: 120}}
	for _, jointed := range []bool{false, true} {
		b.Run(fmt.Sprintf("jointed=%v", jointed), func(b *testing.B) {
			c := onPlan(plan, miter.Molding{})
			c.Moldings = nil
			for i := range 5 {
				m := miter.Molding{Name: fmt.Sprintf("molding %d", i), Profile: "waist", Runs: []string{"cant-left", "front-left", "step-left", "front", "step-right", "front-right", "cant-right", "right"}}
				if jointed {
					m.Spline, m.Pin = &miter.SplineSpec{Thickness: 3, Depth: 8, Stopped: true}, &miter.PinSpec{Diameter: 5, Depth: 8}
				}
				c.Moldings = append(c.Moldings, m)
			}
			lookup := with(waist())
			for b.Loop() {
				if _, err := miter.Fit(c, lookup, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
