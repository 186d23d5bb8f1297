package serve

import (
	"math"
	"slices"

	"listel/miter"
	"listel/profile/geom"
	"listel/template"
)

// corners adds the sizes between the corners of a stage's plan where it has more than four, as cants and a breakfront make: along the foot of
// the plan from left to right and of the end from back to front, and at the right of the plan. They are for a view by itself.
func (d *dimming) corners(i int, s miter.StagePlan, plan miter.Plan) {
	if len(s.Edges) <= 4 {
		return
	}
	xs, ys := cornersAlong(s, func(p geom.Point) float64 { return p.X }), cornersAlong(s, func(p geom.Point) float64 { return p.Y })
	b := s.Bounds()
	switch d.view {
	case template.PlanView:
		d.between(i, s, plan, xs, "foot", func(x float64) geom.Point { return geom.Pt(x, b.Min.Y) })
		d.between(i, s, plan, ys, "right", func(y float64) geom.Point { return geom.Pt(b.Max.X, y) })
	case template.EndView:
		d.between(i, s, plan, ys, "foot", func(y float64) geom.Point { return geom.Pt(y, s.Floor) })
	}
}

// cornersAlong returns where the corners of a plan lie along one way, sorted, each once.
func cornersAlong(s miter.StagePlan, of func(geom.Point) float64) []float64 {
	var out []float64
	for _, e := range s.Edges {
		out = append(out, of(e.A))
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(a-b) < sameSpot })
}

// between adds the sizes from each place to the next. One that the file gives can be changed there.
func (d *dimming) between(i int, s miter.StagePlan, plan miter.Plan, at []float64, side string, point func(float64) geom.Point) {
	for k := 1; len(at) > 2 && k < len(at); k++ {
		mm := at[k] - at[k-1]
		p, q := point(at[k-1]), point(at[k])
		label, key := "", ""
		switch same := func(size float64) bool { return math.Abs(mm-size) < sameSpot }; {
		case plan.Breakfront != nil && side == "foot" && d.view == template.PlanView && same(plan.Breakfront.Width):
			label, key = "width of the breakfront", "plan.breakfront.width"
		case plan.Breakfront != nil && k == 1 && (side == "right" || d.view == template.EndView) && same(plan.Breakfront.Step):
			label, key = "step of the breakfront", "plan.breakfront.step"
		case plan.Canted > 0 && same(plan.Canted):
			label, key = "setback of the cants", "plan.canted.setback"
		default:
			label = "between corners"
		}
		dim := caseDim{Side: side, A: [2]float64{p.X, p.Y}, B: [2]float64{q.X, q.Y}, Text: d.f.Length(mm), Label: label + " of " + s.Name, Fine: true}
		if key != "" {
			dim.Path = d.given(i, key)
		}
		d.out = append(d.out, dim)
	}
}
