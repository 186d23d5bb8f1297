package template

import (
	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Sizes of the case behind or under a molding, mm on paper.
const (
	fixBoard  = 13.0 // of the case side that is shown
	fixBeyond = 10.0 // of the case side above and below the molding
	fixCleat  = 6.0  // of the case's top, or of a cleat, under a molding that lies on the case
	fixLeast  = 4.0  // of the case side beside a cleat
)

// board draws the case behind or under the molding, and the stage that it seats.
func (f fixing) board(k float64, b geom.Rect) sheet.Drawing {
	own, _ := f.stage(f.m.Stage)
	x := f.inset() * k
	lo, hi := b.Min.Y*k-fixBeyond, b.Max.Y*k+fixBeyond
	floor, top := (own.Floor-f.m.Foot)*k, (own.Top-f.m.Foot)*k
	d, under := f.cleat(k, x)
	switch {
	case f.m.LetIn > 0:
		d = f.letIn(x, b.Max.Y*k, max(lo, floor), min(hi, top), floor >= lo, top <= hi)
	case !under:
		d = f.boardAt(x, max(lo, floor), min(hi, top), floor >= lo, top <= hi, "case side")
	}
	if floor >= lo {
		d = d.Add(sheet.Line(geom.Pt(x-fixBoard-4, floor), geom.Pt(b.Max.X*k+4, floor), sheet.PenOutline))
	}
	seat := f.m.Seat
	if r := f.m.Sections[0].Section.Rabbet; seat != nil && r != nil {
		x, foot := (r.Width-seat.Clearance)*k, (seat.Foot-f.m.Foot)*k
		d = d.Add(f.boardAt(x, foot, hi+4, true, false, stageNoun(seat.Stage))...)
	}
	return d
}

// letIn draws the case side from lo to hi with its outer face at x, cut away to the back of a molding that is let into it, which goes up to high.
func (f fixing) letIn(x, high, lo, hi float64, trueLo, trueHi bool) sheet.Drawing {
	d := f.boardAt(0, lo, hi, trueLo, trueHi, "case side")
	for _, part := range []struct {
		lo, hi float64
		ok     [2]bool
	}{{lo, 0, [2]bool{trueLo, true}}, {high, hi, [2]bool{true, trueHi}}} {
		if part.hi-part.lo < 0.5 {
			continue
		}
		seam := geom.Rect{Min: geom.Pt(-0.4, part.lo), Max: geom.Pt(0.4, part.hi)} // with the wood behind
		d = d.Add(sideWood(geom.Rect{Min: geom.Pt(0, part.lo), Max: geom.Pt(x, part.hi)})...)
		d = d.Add(sheet.FillBox(seam, 0.9), sheet.Line(geom.Pt(x, part.lo), geom.Pt(x, part.hi), sheet.PenOutline))
		d = d.Add(boardEnd(0, x, part.lo, part.ok[0]), boardEnd(0, x, part.hi, part.ok[1]))
	}
	return d
}

// cleat draws what the screws of a molding that lies on the case stand in, the case's top or a cleat, within the side whose outer face is at x. It is
// false where no screw comes from below.
func (f fixing) cleat(k, x float64) (sheet.Drawing, bool) {
	v := f.m.Movement
	if v == nil || len(v.Slots) == 0 || !v.Screw.Up {
		return nil, false
	}
	at, head := v.Screw.At*k, screwHead*miter.ScrewShank*k/2
	thick := min(fixBoard, x-at-head-1)
	wood := geom.Rect{Min: geom.Pt(at-head-4, -fixCleat), Max: geom.Pt(x-thick, 0)}
	hi := 0.0
	if thick < fixLeast { // no room for the side beside the screw: the top lies over it
		wood.Max.X, thick, hi = x, fixBoard, -fixCleat
	}
	side := geom.Rect{Min: geom.Pt(x-thick, -fixBeyond-fixCleat), Max: geom.Pt(x, hi)}
	d := sideWood(side).Add(sheet.Polyline(sheet.PenOutline, side.Min, geom.Pt(side.Min.X, hi), side.Max, geom.Pt(x, side.Min.Y)), zigzag(side.Min, geom.Pt(x, side.Min.Y)))
	d = d.Add(sheet.FillBox(wood, 0.97), sheet.Polyline(sheet.PenOutline, wood.Min, geom.Pt(wood.Max.X, wood.Min.Y), wood.Max, geom.Pt(wood.Min.X, 0)), zigzag(wood.Min, geom.Pt(wood.Min.X, 0)))
	return d.Add(sheet.Text{At: geom.Pt(x+2.5, side.Min.Y/2), S: "case side", Size: noteSize, Anchor: sheet.Left},
		sheet.Text{At: geom.Pt(wood.Min.X-4, -fixCleat/2), S: "top or cleat", Size: noteSize, Anchor: sheet.Right}), true
}

// boardAt draws a board with its outer face at x, from lo to hi; an end that is not true is broken off.
func (f fixing) boardAt(x, lo, hi float64, trueLo, trueHi bool, name string) sheet.Drawing {
	if hi-lo < 1 {
		return nil
	}
	box := geom.Rect{Min: geom.Pt(x-fixBoard, lo), Max: geom.Pt(x, hi)}
	d := sideWood(box).Add(sheet.Line(geom.Pt(x, lo), geom.Pt(x, hi), sheet.PenOutline), boardEnd(x-fixBoard, x, lo, trueLo), boardEnd(x-fixBoard, x, hi, trueHi))
	d = d.Add(zigzag(geom.Pt(x-fixBoard, lo), geom.Pt(x-fixBoard, hi)))
	t := sheet.Text{At: geom.Pt(x-fixBoard-4.5, (lo+hi)/2), S: name, Size: noteSize, Angle: 90 * geom.Degree, Anchor: sheet.Bottom}
	if t.Width() > hi-lo {
		t.Angle, t.Anchor = 0, sheet.Right
	}
	return d.Add(t)
}

// sideWood draws the wood of a side within a box: its tone and its grain.
func sideWood(box geom.Rect) sheet.Drawing {
	const grain, short = 2.2, 0.4 // mm between its lines, and from their ends to those of the box
	d := sheet.Drawing{sheet.FillBox(box, 0.9)}
	for x := box.Max.X - grain; x > box.Min.X; x -= grain {
		d = d.Add(sheet.Line(geom.Pt(x, box.Min.Y+short), geom.Pt(x, box.Max.Y-short), sheet.PenHair.WithGray(0.45)))
	}
	return d
}

// boardEnd draws the end of a board at the height y from x0 to x1: sawn, or broken off.
func boardEnd(x0, x1, y float64, sawn bool) sheet.Mark {
	if sawn {
		return sheet.Line(geom.Pt(x0, y), geom.Pt(x1, y), sheet.PenOutline)
	}
	return zigzag(geom.Pt(x0, y), geom.Pt(x1, y))
}
