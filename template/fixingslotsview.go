package template

import (
	"fmt"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// slotShape draws a slot about its middle, with the screw in it.
func slotShape(at geom.Point, long, wide float64) sheet.Drawing {
	r := wide / 2
	half := max(0, long/2-r)
	square := 90 * geom.Degree
	path := geom.Path{
		geom.Line{A: at.Add(geom.Pt(-half, -r)), B: at.Add(geom.Pt(half, -r))},
		geom.Arc{Center: at.Add(geom.Pt(half, 0)), Radius: r, From: -square, Sweep: 2 * square},
		geom.Line{A: at.Add(geom.Pt(half, r)), B: at.Add(geom.Pt(-half, r))},
		geom.Arc{Center: at.Add(geom.Pt(-half, 0)), Radius: r, From: square, Sweep: 2 * square},
	}
	return sheet.Drawing{sheet.Fill{Paths: []geom.Path{path}, Gray: 1}, sheet.Stroke{Path: path, Pen: sheet.PenOutline}, sheet.Dot(at, min(r*0.7, 1))}
}

// fromOutside draws the side as one faces it, the grain upright, and the outline of the molding; it returns where that lies on the side.
func (s slotSheet) fromOutside(k float64) (sheet.Drawing, geom.Rect) {
	sec := s.section()
	own, _ := s.stage(s.m.Stage)
	end := s.m.Movement.Width * k
	lo, hi := -fixBeyond, sec.Height*k+fixBeyond
	floor, top := (own.Floor-s.m.Foot)*k, (own.Top-s.m.Foot)*k
	trueLo, trueHi := floor >= lo, top <= hi
	if trueLo {
		lo = floor
	}
	if trueHi {
		hi = top
	}
	glued := geom.Rect{Max: geom.Pt(s.m.Movement.Glue*k, sec.Height*k)}
	d := grained(geom.Rect{Min: geom.Pt(0, lo), Max: geom.Pt(end, hi)}, glued, trueLo, trueHi)
	// The molding's face stands out in front of the side: its miter's line, seen from the side.
	var face []geom.Point
	for _, p := range sec.Face.Flatten(0.1) {
		face = append(face, geom.Pt(s.past(p.X)*k, p.Y*k))
	}
	path := []geom.Point{geom.Pt(end, 0)}
	if len(face) > 0 && face[0].Y > face[len(face)-1].Y {
		for i, j := 0, len(face)-1; i < j; i, j = i+1, j-1 {
			face[i], face[j] = face[j], face[i]
		}
	}
	path = append(append(path, face...), geom.Pt(end, sec.Height*k))
	d = d.Add(sheet.Stroke{Path: geom.Polygon(path...), Pen: sheet.PenHidden})
	bearing := geom.Rect{Max: geom.Pt(end, sec.Height*k)}
	return d, bearing
}

// grained draws a board with upright grain but for a bare part; an end that is not true is broken off.
func grained(box, bare geom.Rect, trueLo, trueHi bool) sheet.Drawing {
	d := sheet.Drawing{sheet.FillBox(box, 0.96)}
	for x := box.Min.X + 4; x < box.Max.X-1; x += 4 {
		lo, hi := box.Min.Y+0.3, box.Max.Y-0.3
		for _, y := range [2][2]float64{{lo, min(hi, bare.Min.Y)}, {max(lo, bare.Max.Y), hi}} {
			if x > bare.Max.X {
				y = [2]float64{lo, hi}
			}
			if y[1] > y[0] {
				d = d.Add(sheet.Line(geom.Pt(x, y[0]), geom.Pt(x, y[1]), sheet.PenHair.WithGray(0.6)))
			}
			if x > bare.Max.X {
				break
			}
		}
	}
	d = d.Add(sheet.Line(box.Min, geom.Pt(box.Min.X, box.Max.Y), sheet.PenOutline), sheet.Line(geom.Pt(box.Max.X, box.Min.Y), box.Max, sheet.PenOutline))
	for _, e := range []struct {
		y  float64
		ok bool
	}{{box.Min.Y, trueLo}, {box.Max.Y, trueHi}} {
		if e.ok {
			d = d.Add(sheet.Line(geom.Pt(box.Min.X, e.y), geom.Pt(box.Max.X, e.y), sheet.PenOutline))
		} else {
			d = d.Add(zigzag(geom.Pt(box.Min.X, e.y), geom.Pt(box.Max.X, e.y)))
		}
	}
	return d
}

// bend returns the corners of the case and of the molding's back and outermost line where the side meets its neighbor, the side going to the
// right with its face down, and the direction of the neighbor's edge.
func (s slotSheet) bend(k float64) (back, outer, way geom.Point) {
	in, p := s.inset(), s.section().Projection
	c := s.end().Corner
	return geom.Pt(s.past(0), in).Mul(k), geom.Pt(s.past(p), in-p).Mul(k), geom.Pt(c.Cos(), c.Sin())
}

// fromAbove draws the first long mm of the side piece from above, out at the foot of the drawing, with its neighbor mitered to it
// and the face of the case under it; it returns where the molding lies on the side.
func (s slotSheet) fromAbove(k, long float64) (sheet.Drawing, geom.Rect) {
	back, outer, way := s.bend(k)
	end := long * k
	side := []geom.Point{back, geom.Pt(end, back.Y), geom.Pt(end, outer.Y), outer}
	d := sheet.Drawing{sheet.FillPolygon(0.96, side...), sheet.Stroke{Path: geom.Polygon(side...), Pen: sheet.PenOutline}}
	if s.end().Meets == "" {
		return d.Add(sheet.Line(geom.Point{}, geom.Pt(end, 0), sheet.PenHidden)), geom.Rect{Max: geom.Pt(end, back.Y)}
	}
	far := s.stub(k)
	to := func(p geom.Point) geom.Point { return p.Add(way.Mul(far - p.Dot(way))) }
	front := []geom.Point{to(back), back, outer, to(outer)}
	d = d.Add(sheet.FillPolygon(0.96, front...), sheet.Polyline(sheet.PenOutline, front...), zigzag(front[3], front[0]))
	d = d.Add(sheet.Polyline(sheet.PenHidden, to(geom.Point{}), geom.Point{}, geom.Pt(end, 0)))
	// It lies on the case between the case's face and its own back edge.
	return d, geom.Rect{Max: geom.Pt(end, back.Y)}
}

// stub returns how far along its edge the neighbor is drawn, mm on paper from the corner of the case.
func (s slotSheet) stub(k float64) float64 {
	back, outer, way := s.bend(k)
	return max(0, back.Dot(way), outer.Dot(way)) + onTopStub
}

// glued draws where a molding that lies on the case is glued, on the side and on its neighbor, and the miter over it.
func (s slotSheet) glued(k float64) sheet.Drawing {
	back, outer, way := s.bend(k)
	glue := s.m.Movement.Glue * k
	side := []geom.Point{{}, {X: glue}, {X: glue, Y: back.Y}, back}
	d := sheet.Drawing{sheet.FillPolygon(slotGray, side...)}
	if s.end().Meets != "" {
		far := s.stub(k) - 1
		d = d.Add(sheet.FillPolygon(slotGray, geom.Point{}, back, back.Add(way.Mul(far-back.Dot(way))), way.Mul(far)))
	}
	return d.Add(sheet.Stroke{Path: geom.Polygon(side...), Pen: sheet.PenThin}, sheet.Line(outer, back, sheet.PenOutline))
}

func (s slotSheet) cornerScale() float64 {
	p := s.section().Projection
	return s.st.scaleFor(4*p, 3*p, s.width-slotWords, slotMolded)
}

// corner draws the corner of the case from above with the side's molding and its neighbor's round it.
func (s slotSheet) corner() sheet.Drawing {
	p := s.section().Projection
	k := s.cornerScale()
	d, _ := s.fromAbove(k, 2*p)
	_, outer, _ := s.bend(k)
	return d.Add(sheet.Line(outer, geom.Point{}, sheet.PenOutline), zigzag(geom.Pt(2*p*k, outer.Y), geom.Pt(2*p*k, 0)))
}

// slots draws the slots at full size in rows, each with its number from the front, its length and its screw.
func (s slotSheet) slots() sheet.Drawing {
	const gap, row = 9.0, 22.0
	var d sheet.Drawing
	x, y := 0.0, 0.0
	for i, slot := range s.m.Movement.Slots {
		number, long := fmt.Sprint(i+1), s.st.figure(slot.Length)+" long"
		w := max(slot.Length, sheet.TextWidth(long, figureSize, sheet.Regular))
		if x > 0 && x+w > s.width {
			x, y = 0, y-row
		}
		at := geom.Pt(x+w/2, y)
		d = d.Add(slotShape(at, slot.Length, miter.ScrewShank)...)
		d = d.Add(sheet.Text{At: at.Add(geom.Pt(0, 5)), S: number, Size: figureSize, Weight: sheet.Bold, Anchor: sheet.Bottom},
			sheet.Text{At: at.Add(geom.Pt(0, -5)), S: long, Size: figureSize, Anchor: sheet.Top})
		x += w + gap
	}
	return d
}
