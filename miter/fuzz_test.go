package miter_test

import (
	"errors"
	"math"
	"testing"

	"listel/miter"
	"listel/profile/geom"
)

// FuzzFit feeds Fit cases of every kind with wild numbers: it must answer or give Errors, never panic, and what it answers must be
// finite and in order.
func FuzzFit(f *testing.F) {
	f.Add(1000.0, 450.0, 90.0, 40.0, 90.0, 20.0, 3.0, 8.0, 0.88, uint16(0))
	f.Add(1400.0, 450.0, 0.0, 20.0, 91.0, 35.0, 3.0, 8.0, 0.88, uint16(0xffff))
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 180.0, -20.0, 0.0, 1e300, 0.0, uint16(0x1234))
	f.Add(700.0, 300.0, 60.0, 40.0, 45.0, 60.0, 1.0, 2.0, 1.0, uint16(0x0f0f))
	f.Fuzz(func(t *testing.T, width, depth, third, reach, corner, pitch, thick, deep, ratio float64, bits uint16) {
		bit := func(n int) bool { return bits>>n&1 == 1 }
		plan := miter.Plan{Width: width, Depth: depth, Freestanding: bit(0)}
		switch bits >> 1 & 7 {
		case 1:
			plan.Canted = third
		case 2:
			plan.Breakfront = &miter.Breakfront{Width: width / 2, Step: third}
		case 3:
			plan = miter.Plan{Octagon: width, Freestanding: bit(0)}
		case 4:
			plan = miter.Plan{HalfOctagon: width}
		case 5:
			plan = miter.Plan{Outline: []geom.Point{{}, {X: width}, {X: width, Y: depth}, {X: third, Y: third}, {Y: depth}}, Edges: []string{"a", "b", "c", "d", "e"}}
		case 6:
			plan.Canted, plan.Breakfront = third, &miter.Breakfront{Width: width / 2, Step: third}
		}
		m := miter.Molding{Name: "m", Profile: "waist", Inset: third / 10}
		if bit(4) {
			m.EndLeft, m.EndRight = miter.EndReturn, miter.EndOpen
		}
		if bit(5) {
			m.Inside = miter.InsideCope
		}
		if bit(6) {
			m.Reach = map[string]float64{"left": reach}
		}
		if bit(7) {
			m.Spline, m.Pin = &miter.SplineSpec{Thickness: thick, Depth: deep, Stopped: bit(8)}, &miter.PinSpec{Diameter: thick, Depth: deep}
		}
		if bit(9) {
			m.Rake = &miter.RakeSpec{Pitch: geom.Angle(pitch) * geom.Degree, Broken: bit(10), Plumb: bit(11), Gap: third}
		}
		if bit(12) {
			m.Frame = &miter.FrameSpec{RailWidth: third, Tenon: deep}
		}
		if bit(13) {
			m.Profile = "sprung"
		}
		c := onPlan(plan, m)
		if bit(14) {
			c.Corners = map[string]geom.Angle{"front-left": geom.Angle(corner) * geom.Degree}
		}
		if bit(15) {
			c.Openings = &miter.Openings{Left: 30, Right: 30, Bottom: third, Top: 800, Divider: 20, Graduate: miter.Graduation{Rows: int(bits&15) - 3, Ratio: ratio}, TopRow: int(bits & 3)}
			c.Beads = &miter.Beads{Profile: "edge-bead"}
		}
		c.Wood, c.Room = "black cherry", miter.Room{HumidityLow: 30, HumidityHigh: 65, BuiltAt: 45, Celsius: pitch}
		r, err := miter.Fit(c, with(waist(), sprung(38*geom.Degree), edgeBead()), woods)
		if err != nil {
			var errs miter.Errors
			if !errors.As(err, &errs) || len(errs) == 0 {
				t.Fatalf("no Errors: %v", err)
			}
			return
		}
		for _, m := range r.Moldings {
			for _, p := range m.Pieces {
				checkPiece(t, p)
			}
		}
		for _, p := range r.Beads {
			checkPiece(t, p)
		}
		for _, d := range r.Drawers {
			if !(d.Height > 0 && d.Width > 0) {
				t.Fatalf("drawer %+v", d)
			}
		}
	})
}

func checkPiece(t *testing.T, p miter.Piece) {
	t.Helper()
	for _, v := range []float64{p.Back, p.Long, p.Short, p.Rough, p.Tip} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%s: %+v", p.Mark, p)
		}
	}
	if p.Short > p.Long+1e-9 || p.Rough < p.Long-1e-9 || p.Count != len(p.Runs) || p.Count != len(p.Places) || p.Mark == "" || len(p.Ends) != 2 {
		t.Fatalf("%s: %+v", p.Mark, p)
	}
	for _, e := range p.Ends {
		if s := e.Standing; s.Miter < 0 || s.Bevel < 0 || s.Miter.Degrees() > 90 || s.Bevel.Degrees() > 90 {
			t.Fatalf("%s: %+v", p.Mark, s)
		}
	}
}
