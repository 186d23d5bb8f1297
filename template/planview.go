package template

import (
	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// moldingPlan draws the pieces of a molding from above at the scale k, round the outline of its stage, each with its mark in a balloon.
func moldingPlan(r miter.Result, m miter.MoldingResult, k float64) sheet.Drawing {
	var d sheet.Drawing
	to := scaled(k)
	for _, run := range m.Runs {
		band := geom.Polygon(run.Inner[0], run.Inner[1], run.Outer[1], run.Outer[0]).Transform(to)
		d = d.Add(sheet.Fill{Paths: []geom.Path{band}, Gray: 0.86}, sheet.Stroke{Path: band, Pen: sheet.PenThin})
	}
	for _, s := range r.Stages {
		if s.Name != m.Stage {
			continue
		}
		var pts []geom.Point
		for _, e := range s.Edges {
			pts = append(pts, to.Apply(e.A))
		}
		d = d.Add(sheet.Stroke{Path: geom.Polygon(pts...), Pen: sheet.PenHidden})
		if !s.Freestanding {
			d = d.Add(wallLine(s, to)...)
		}
	}
	return d.Add(planMarks(m, to)...)
}

// balloonClear is how far a balloon's center stands off the molding that it names, mm.
const balloonClear = 5.5

// planMarks returns the marks of a molding's runs, outside its outer line.
func planMarks(m miter.MoldingResult, to geom.Affine) sheet.Drawing {
	var d sheet.Drawing
	for _, run := range m.Runs {
		a, b := to.Apply(run.Outer[0]), to.Apply(run.Outer[1])
		in := to.Apply(run.Inner[0]).Lerp(to.Apply(run.Inner[1]), 0.5)
		mid := a.Lerp(b, 0.5)
		out := b.Sub(a).Unit().Left().Mul(-1)
		if out.Dot(mid.Sub(in)) < 0 {
			out = out.Mul(-1)
		}
		at := mid.Add(out.Mul(balloonClear))
		d = d.Add(sheet.Line(mid, at, sheet.PenHair)).Add(sheet.Balloon(at, run.Mark, nameSize)...)
	}
	return d
}

// wallLine returns the wall behind a stage: a line past both its ends, hatched on the wall's side.
func wallLine(s miter.StagePlan, to geom.Affine) sheet.Drawing {
	e, ok := s.Edge("back")
	if !ok {
		return nil
	}
	a, b := to.Apply(e.A), to.Apply(e.B)
	along := b.Sub(a).Unit()
	out := to.ApplyVector(e.Out()).Unit()
	const over, thick = 6, 2.2 // mm on paper
	a, b = a.Sub(along.Mul(over)), b.Add(along.Mul(over))
	wall := geom.Polygon(a, b, b.Add(out.Mul(thick)), a.Add(out.Mul(thick)))
	return sheet.Drawing{sheet.EndGrain(wall), sheet.Line(a, b, sheet.PenOutline)}
}
