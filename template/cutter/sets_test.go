package cutter

import (
	"fmt"
	"math/rand/v2"

	"listel/profile/geom"
)

// testTools is one tool of each plain shape.
func testTools() []Tool {
	return []Tool{
		{Name: "straight", Kind: Straight, Diameter: 8},
		{Name: "round-nose", Kind: RoundNose, Radius: 5},
		{Name: "vee", Kind: Vee, Diameter: 12, Angle: 60 * geom.Degree},
		{Name: "hollow", Kind: HollowPlane, Radius: 9},
		{Name: "round-over", Kind: RoundOver, Radius: 4, Tip: 3},
	}
}

// randomFace is a rising path of lines, quarter rounds and steps, from (0, 0).
func randomFace(rng *rand.Rand) geom.Path {
	var p geom.Path
	at := geom.Pt(0, 0)
	for range 3 + rng.IntN(5) {
		r := 1 + 8*rng.Float64()
		var s geom.Segment
		switch rng.IntN(4) {
		case 0:
			s = geom.Line{A: at, B: at.Add(geom.Pt(0, r))}
		case 1: // ovolo
			s = geom.Arc{Center: at.Add(geom.Pt(0, r)), Radius: r, From: -90 * geom.Degree, Sweep: 90 * geom.Degree}
		case 2: // cove
			s = geom.Arc{Center: at.Add(geom.Pt(r, 0)), Radius: r, From: 180 * geom.Degree, Sweep: -90 * geom.Degree}
		default:
			s = geom.Line{A: at, B: at.Add(geom.Pt(r*rng.Float64(), r))}
		}
		p = append(p, s)
		at = s.End()
		if rng.IntN(2) == 0 {
			step := geom.Line{A: at, B: at.Add(geom.Pt(0.5+2*rng.Float64(), 0))}
			p, at = append(p, step), step.End()
		}
	}
	return p
}

// metricSet is a generic metric set for tests: sizes that any supplier lists.
func metricSet() []Tool {
	var ts []Tool
	for _, d := range []float64{4, 6, 8, 10, 12, 16, 20} {
		ts = append(ts, Tool{Name: fmt.Sprintf("straight-%g", d), Kind: Straight, Diameter: d, Reach: min(50, 3*d+10), Length: min(50, 3*d), Shank: max(8, min(12, d)), PerPass: min(10, d*0.6)})
	}
	for _, r := range []float64{2, 3, 4, 5, 6, 8, 10, 12, 16} {
		ts = append(ts, Tool{Name: fmt.Sprintf("round-nose-r%g", r), Kind: RoundNose, Radius: r, Reach: 50, Length: min(45, 3*r+6), Shank: max(8, min(12, 2*r)), PerPass: 6})
	}
	for _, r := range []float64{2, 3, 4, 5, 6, 8, 9.5, 10, 12, 15} {
		ts = append(ts, Tool{Name: fmt.Sprintf("round-over-r%g", r), Kind: RoundOver, Radius: r, Pilot: 9.5, PilotHeight: 5, Reach: 45, PerPass: 6})
		ts = append(ts, Tool{Name: fmt.Sprintf("point-round-over-r%g", r), Kind: RoundOver, Radius: r, Tip: 4, Reach: 45, PerPass: 6})
	}
	for _, r := range []float64{3, 4, 5, 6, 8, 10, 12} {
		ts = append(ts, Tool{Name: fmt.Sprintf("cove-r%g", r), Kind: CoveBit, Radius: r, Pilot: 9.5, PilotHeight: 5, Reach: 40, PerPass: 6})
	}
	for _, r := range []float64{4, 6} {
		ts = append(ts, Tool{Name: fmt.Sprintf("ogee-r%g", r), Kind: Ogee, Radius: r, Pilot: 9.5, PilotHeight: 5, Reach: 40, PerPass: 6})
		ts = append(ts, Tool{Name: fmt.Sprintf("ogee-flip-r%g", r), Kind: Ogee, Radius: r, Pilot: 9.5, PilotHeight: 5, Flip: true, Reach: 40, PerPass: 6})
	}
	ts = append(ts,
		Tool{Name: "vee-90", Kind: Vee, Diameter: 20, Angle: 90 * geom.Degree, Reach: 35, PerPass: 6},
		Tool{Name: "vee-60", Kind: Vee, Diameter: 16, Angle: 60 * geom.Degree, Reach: 35, PerPass: 6},
		Tool{Name: "dovetail-14", Kind: Dovetail, Diameter: 12.7, Angle: 14 * geom.Degree, Length: 12, Reach: 26, PerPass: 12},
	)
	for _, w := range []float64{3, 4, 6} {
		ts = append(ts, Tool{Name: fmt.Sprintf("slot-%g", w), Kind: SlotCutter, Diameter: 47, Width: w, Reach: 13, PerPass: 6})
	}
	ts = append(ts, Tool{Name: "saw-3.2", Kind: SawBlade, Diameter: 254, Width: 3.2, Reach: 75, PerPass: 40, MaxTilt: 46 * geom.Degree})
	ts = append(ts, planes([]float64{3, 6, 9, 12, 15, 18, 24, 30, 36}, []float64{6, 12, 20, 32}, []float64{6, 10, 12})...)
	return ts
}

// inchSet is the same in inch sizes.
func inchSet() []Tool {
	const in = 25.4
	var ts []Tool
	for _, d := range []float64{1. / 8, 1. / 4, 3. / 8, 1. / 2, 3. / 4} {
		ts = append(ts, Tool{Name: fmt.Sprintf("straight-%gin", d), Kind: Straight, Diameter: d * in, Reach: min(2*in, 3*d*in+10), Length: min(2*in, 3*d*in), Shank: max(in/4, min(in/2, d*in)), PerPass: min(10, d*in*0.6)})
	}
	for _, r := range []float64{1. / 16, 1. / 8, 3. / 16, 1. / 4, 3. / 8, 1. / 2, 5. / 8} {
		ts = append(ts, Tool{Name: fmt.Sprintf("round-nose-r%gin", r), Kind: RoundNose, Radius: r * in, Reach: 50, Length: min(45, 3*r*in+6), Shank: max(in/4, min(in/2, 2*r*in)), PerPass: 6})
	}
	for _, r := range []float64{1. / 8, 3. / 16, 1. / 4, 5. / 16, 3. / 8, 1. / 2, 5. / 8} {
		ts = append(ts, Tool{Name: fmt.Sprintf("round-over-r%gin", r), Kind: RoundOver, Radius: r * in, Pilot: 3. / 8 * in, PilotHeight: 5, Reach: 45, PerPass: 6})
		ts = append(ts, Tool{Name: fmt.Sprintf("point-round-over-r%gin", r), Kind: RoundOver, Radius: r * in, Tip: 3. / 16 * in, Reach: 45, PerPass: 6})
		ts = append(ts, Tool{Name: fmt.Sprintf("cove-r%gin", r), Kind: CoveBit, Radius: r * in, Pilot: 3. / 8 * in, PilotHeight: 5, Reach: 40, PerPass: 6})
	}
	for _, r := range []float64{5. / 32, 1. / 4} {
		ts = append(ts, Tool{Name: fmt.Sprintf("ogee-r%gin", r), Kind: Ogee, Radius: r * in, Pilot: 3. / 8 * in, PilotHeight: 5, Reach: 40, PerPass: 6})
	}
	ts = append(ts,
		Tool{Name: "vee-90", Kind: Vee, Diameter: 0.75 * in, Angle: 90 * geom.Degree, Reach: 35, PerPass: 6},
		Tool{Name: "slot-1-8in", Kind: SlotCutter, Diameter: 1.875 * in, Width: in / 8, Reach: in / 2, PerPass: 6},
		Tool{Name: "slot-1-4in", Kind: SlotCutter, Diameter: 1.875 * in, Width: in / 4, Reach: in / 2, PerPass: 6},
		Tool{Name: "saw-1-8in", Kind: SawBlade, Diameter: 254, Width: in / 8, Reach: 3 * in, PerPass: 40, MaxTilt: 46 * geom.Degree})
	// Radii of the half set of nine: the commonest modern chart, from memory; numbering is not standard.
	ts = append(ts, planes([]float64{in / 8, in / 4, 3 * in / 8, in / 2, 5 * in / 8, 3 * in / 4, in, 1.25 * in, 1.5 * in}, []float64{in / 4, in / 2, 0.75 * in, 1.25 * in}, []float64{in / 4, 3 * in / 8, in / 2})...)
	return ts
}

func planes(radii, rabbets, beads []float64) []Tool {
	var ts []Tool
	for _, r := range radii {
		ts = append(ts, Tool{Name: fmt.Sprintf("hollow-r%.4g", r), Kind: HollowPlane, Radius: r, Reach: 60, PerPass: 0.4})
		ts = append(ts, Tool{Name: fmt.Sprintf("round-r%.4g", r), Kind: RoundPlane, Radius: r, Reach: 60, PerPass: 0.4})
	}
	for _, w := range rabbets {
		ts = append(ts, Tool{Name: fmt.Sprintf("rabbet-plane-%.4g", w), Kind: RabbetPlane, Width: w, Reach: 60, PerPass: 0.8})
	}
	for _, d := range beads {
		ts = append(ts, Tool{Name: fmt.Sprintf("side-bead-%.4g", d), Kind: SideBead, Diameter: d, Quirk: 2.5, Reach: d/2 + 3, PerPass: 0.4})
	}
	return ts
}
