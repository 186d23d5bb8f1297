package template

import (
	"fmt"
	"math"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// moldingPlan draws the pieces of a molding from above at the scale k, round the outline of its stage, each with its mark in a balloon; corners that are off
// have their angle.
func moldingPlan(r miter.Result, m miter.MoldingResult, k float64) sheet.Drawing {
	var d sheet.Drawing
	to := scaled(k)
	for _, run := range m.Runs {
		band := geom.Polygon(run.Inner[0], run.Inner[1], run.Outer[1], run.Outer[0]).Transform(to)
		d = d.Add(sheet.Fill{Paths: []geom.Path{band}, Gray: 0.86}, sheet.Stroke{Path: band, Pen: sheet.PenThin})
	}
	var angles sheet.Drawing
	for _, s := range r.Stages {
		if s.Name != m.Stage {
			continue
		}
		angles = cornerAngles(s, m, to)
		var pts []geom.Point
		for _, e := range s.Edges {
			pts = append(pts, to.Apply(e.A))
		}
		d = d.Add(sheet.Stroke{Path: geom.Polygon(pts...), Pen: sheet.PenHidden})
		d = d.Add(wallLine(s, to)...)
	}
	return d.Add(planMarks(m, to, angles)...).Add(angles...)
}

// cornerAngles returns the angles of the corners of a stage that are off, inside the case and clear of its outline and the molding.
func cornerAngles(s miter.StagePlan, m miter.MoldingResult, to geom.Affine) sheet.Drawing {
	var lines []geom.Path
	for _, e := range s.Edges {
		lines = append(lines, geom.Polyline(e.A, e.B).Transform(to))
	}
	for _, run := range m.Runs {
		lines = append(lines, geom.Polygon(run.Inner[0], run.Inner[1], run.Outer[1], run.Outer[0]).Transform(to))
	}
	var d sheet.Drawing
	for _, c := range s.Off {
		t := sheet.Text{S: fmt.Sprintf("%.4g°", c.Angle.Degrees()), Size: noteSize, Anchor: sheet.Middle, Halo: true}
		from, in := to.Apply(c.At), to.ApplyVector(s.In(c)).Unit()
		const step, most = 0.5, 40 // mm
		for far := step; far < most; far += step {
			if t.At = from.Add(in.Mul(far)); textClear(t, lines) {
				break
			}
		}
		d = d.Add(t)
	}
	return d
}

// textClear reports whether a text stands clear of lines, by 0.8 mm.
func textClear(t sheet.Text, lines []geom.Path) bool {
	const clear, step = 0.8, 1.2 // mm; no line passes between two places a step apart
	b := t.Bounds()
	for x := b.Min.X; x < b.Max.X+step; x += step {
		for y := b.Min.Y; y < b.Max.Y+step; y += step {
			p := geom.Pt(min(x, b.Max.X), min(y, b.Max.Y))
			for _, l := range lines {
				if _, _, far := l.Nearest(p); far < clear || len(l) > 1 && l.Contains(p) {
					return false
				}
			}
		}
	}
	return true
}

// Of a balloon in a plan, mm: the least distance of its center from the molding that it names, and the room it takes on every side.
const (
	balloonClear = 5.5
	balloonRoom  = 4.0
)

// planMarks returns the marks of a molding's runs, outside its outer line where there is room, clear of one another, of the molding and of other marks.
func planMarks(m miter.MoldingResult, to geom.Affine, keptClear sheet.Drawing) sheet.Drawing {
	var bands []geom.Path
	for _, run := range m.Runs {
		bands = append(bands, geom.Polygon(run.Inner[0], run.Inner[1], run.Outer[1], run.Outer[0]).Transform(to))
	}
	var d sheet.Drawing
	var taken []geom.Point
	for _, mark := range keptClear {
		taken = append(taken, mark.Bounds().Center())
	}
	for _, run := range m.Runs {
		tip, at := markPlace(run, to, bands, taken)
		taken = append(taken, at)
		d = d.Add(pointed(tip, at, run.Mark, nameSize)...)
	}
	return d
}

// markPlace returns where the line to a run's balloon starts and where the balloon goes: straight out from the middle of the run when that
// is free, else aside or farther out, else inside the case, whatever is the least crowded.
func markPlace(run miter.PlacedRun, to geom.Affine, bands []geom.Path, taken []geom.Point) (tip, at geom.Point) {
	a, b := to.Apply(run.Outer[0]), to.Apply(run.Outer[1])
	inner := to.Apply(run.Inner[0]).Lerp(to.Apply(run.Inner[1]), 0.5)
	mid := a.Lerp(b, 0.5)
	out := b.Sub(a).Unit().Left().Mul(-1)
	if out.Dot(mid.Sub(inner)) < 0 {
		out = out.Mul(-1)
	}
	least := math.Inf(1)
	try := func(from, way geom.Point, far float64) {
		p := from.Add(way.Mul(far))
		if c := crowding(p, bands, taken) + far/200; c < least {
			least, tip, at = c, from, p
		}
	}
	for _, far := range []float64{balloonClear, 2 * balloonClear, 3 * balloonClear, 4 * balloonClear} {
		for _, turn := range []geom.Angle{0, 35 * geom.Degree, -35 * geom.Degree, 65 * geom.Degree, -65 * geom.Degree} {
			try(mid, out.Rotate(turn), far)
			try(inner, out.Mul(-1).Rotate(turn), far+1)
		}
	}
	return tip, at
}

// crowding tells how far a balloon at p would run into others and into the molding, mm.
func crowding(p geom.Point, bands []geom.Path, taken []geom.Point) float64 {
	sum := 0.0
	for _, q := range taken {
		sum += max(0, 2*balloonRoom+0.5-p.Dist(q))
	}
	for _, band := range bands {
		_, _, dist := band.Nearest(p)
		if band.Contains(p) {
			dist = -dist
		}
		sum += max(0, balloonRoom-dist)
	}
	return sum
}

// wallLine returns the wall behind a stage: a line past both its ends, hatched on the wall's side; nothing behind one that stands free.
func wallLine(s miter.StagePlan, to geom.Affine) sheet.Drawing {
	right, left, ok := s.Wall()
	if !ok {
		return nil
	}
	a, b := to.Apply(right), to.Apply(left)
	along := b.Sub(a).Unit()
	out := along.Left().Mul(-1)
	const over, thick = 6, 2.2 // mm on paper
	a, b = a.Sub(along.Mul(over)), b.Add(along.Mul(over))
	wall := geom.Polygon(a, b, b.Add(out.Mul(thick)), a.Add(out.Mul(thick)))
	return sheet.Drawing{sheet.EndGrain(wall), sheet.Line(a, b, sheet.PenOutline)}
}
