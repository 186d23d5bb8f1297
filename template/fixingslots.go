package template

import (
	"fmt"
	"math"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// movementPages returns the sheet of a molding across the grain of a solid side: where to glue, where the slots are, the slots at full
// size, and what the movement follows from.
func movementPages(c miter.Case, r miter.Result, m miter.MoldingResult, st Style) []sheet.Page {
	f := st.sheetFrame(sentenceStart(m.Name)+": room to move", sentence("The side moves across its grain, the molding does not: glue in front, screws in slots behind", st.unitNote()))
	s := slotSheet{fixing: fixing{c: c, r: r, m: m, st: st}, width: f.Area(st.Paper).Width()}
	strips := []strip{titled(s.heading(), s.side(), s.width)}
	if len(m.Movement.Slots) > 0 {
		strips = append(strips, titled(fmt.Sprintf("The slots, full size; all %s wide", st.figure(miter.ScrewShank)), s.slots(), s.width))
	}
	strips = append(strips, s.air())
	return stack(strips, f, st.Paper)
}

// A slotSheet draws how one molding may move.
type slotSheet struct {
	fixing
	width float64 // mm, of the room
}

// Sizes on the drawing of a side, mm on paper.
const (
	slotWords  = 28.0 // at the left of the side, for figures
	slotMolded = 50.0 // of the molding across it, at most
	slotStep   = 8.0  // between dimension lines
	slotGray   = 0.78 // of the glued part
	onTopStub  = 9.0  // of the front piece, seen from above
)

// onTop reports whether the molding lies on top of its stage, so that it is drawn from above.
func (s slotSheet) onTop() bool { return s.inset() > 1e-6 }

func (s slotSheet) scale() float64 {
	b := s.m.Sections[0].Section.Outline.Bounds()
	wide := b.Height()
	if s.onTop() {
		wide = s.m.Sections[0].Section.Projection
	}
	return s.st.scaleFor(s.m.Movement.Width+b.Max.X, wide, s.width-slotWords, slotMolded)
}

func (s slotSheet) heading() string {
	if s.onTop() {
		return "The right side from above, the molding laid on, " + scaleRatio(s.scale())
	}
	return "The right side from outside, the molding dashed, " + scaleRatio(s.scale())
}

// side draws the side with the molding on it, its front at the left and at x = 0, with the glue, the slots and their places.
func (s slotSheet) side() sheet.Drawing {
	k, v := s.scale(), s.m.Movement
	end := v.Width * k
	var d sheet.Drawing
	var band geom.Rect // the molding on the side
	if s.onTop() {
		d, band = s.fromAbove(k)
	} else {
		d, band = s.fromOutside(k)
	}
	glue := geom.Rect{Min: geom.Pt(max(0, band.Min.X), band.Min.Y), Max: geom.Pt(v.Glue*k, band.Max.Y)}
	d = d.Add(sheet.FillBox(glue, slotGray), sheet.Box(glue, sheet.PenThin))
	if s.onTop() { // the front piece, and the miter over it
		front := geom.Rect{Min: geom.Pt(0, band.Max.Y), Max: geom.Pt(band.Max.Y, band.Max.Y+onTopStub-1)}
		d = d.Add(sheet.FillBox(front, slotGray), sheet.Line(geom.Point{}, geom.Pt(band.Max.Y, band.Max.Y), sheet.PenOutline))
	}
	if glue.Width() > sheet.TextWidth("GLUE", figureSize, sheet.Bold)+1 && glue.Height() > sheet.CapHeight(figureSize)+1 {
		d = d.Add(sheet.Text{At: glue.Center(), S: "GLUE", Size: figureSize, Weight: sheet.Bold, Anchor: sheet.Middle, Halo: s.onTop()})
	}
	y := slotHeight(s.m) * k
	if s.onTop() {
		y = (band.Min.Y + band.Max.Y) / 2
	}
	for _, slot := range v.Slots {
		d = d.Add(slotShape(geom.Pt(slot.FromFront*k, y), slot.Length*k, miter.ScrewShank*k)...)
	}
	d = d.Add(s.places(k, y, d.Bounds())...)
	return d.Add(s.over(end, d.Bounds().Max.Y+4)...)
}

// over returns the words over the side from y up: its ends, where no glue goes, how far the back edge moves.
func (s slotSheet) over(end, y float64) sheet.Drawing {
	v := s.m.Movement
	free := "no glue behind the gray: screws in slots"
	if len(v.Slots) == 0 {
		free = "no glue behind the gray"
	}
	const step = 5.5
	return sheet.Drawing{
		sheet.Text{At: geom.Pt(0, y), S: "front", Size: nameSize},
		sheet.Text{At: geom.Pt(end, y), S: "wall", Size: nameSize, Anchor: sheet.BottomRight},
		sheet.Text{At: geom.Pt(end/2, y+step), S: free, Size: figureSize, Weight: sheet.Bold, Anchor: sheet.Bottom},
		sheet.Text{At: geom.Pt(end/2, y+2*step), S: fmt.Sprintf("the back edge comes %s out in the wettest air, %s in in the driest", s.st.figure(math.Abs(v.Swells)), s.st.figure(math.Abs(v.Shrinks))), Size: nameSize, Anchor: sheet.Bottom},
	}
}

// places returns the dimensions under the side, all from the front, their figures in a column at its left: the glue, and the middle of
// each slot by its number.
func (s slotSheet) places(k, y float64, b geom.Rect) sheet.Drawing {
	v := s.m.Movement
	var d sheet.Drawing
	at := b.Min.Y - 6
	last := at - slotStep*float64(len(v.Slots))
	d = d.Add(sheet.Line(geom.Pt(0, b.Min.Y-1), geom.Pt(0, last-2), sheet.PenHair))
	row := func(to, from float64, words string) {
		d = d.Add(sheet.Line(geom.Pt(0, at), geom.Pt(to*k, at), sheet.PenThin), sheet.Line(geom.Pt(to*k, from), geom.Pt(to*k, at-1.5), sheet.PenHair),
			sheet.ArrowHead(geom.Pt(to*k, at), geom.Pt(1, 0)), sheet.Text{At: geom.Pt(-2.5, at), S: words, Size: figureSize, Anchor: sheet.Right})
		at -= slotStep
	}
	row(v.Glue, b.Min.Y-1, "glue "+s.st.figure(v.Glue))
	for i, slot := range v.Slots {
		row(slot.FromFront, y-2, fmt.Sprintf("%d:  %s", i+1, s.st.figure(slot.FromFront)))
	}
	return d
}

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
	sec := s.m.Sections[0].Section
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
		face = append(face, geom.Pt(-p.X*k, p.Y*k))
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

// fromAbove draws the side piece of a molding that lies on top of the case, out at the foot of the drawing, with the front piece mitered to it
// and the face of the case under it; it returns where the molding lies on the side.
func (s slotSheet) fromAbove(k float64) (sheet.Drawing, geom.Rect) {
	in, p := s.inset()*k, s.m.Sections[0].Section.Projection*k
	end := s.m.Movement.Width * k
	out := p - in // past the face of the case
	side := []geom.Point{{X: in, Y: in}, {X: end, Y: in}, {X: end, Y: -out}, {X: -out, Y: -out}}
	front := []geom.Point{{X: in, Y: in + onTopStub}, {X: in, Y: in}, {X: -out, Y: -out}, {X: -out, Y: in + onTopStub}}
	d := sheet.Drawing{sheet.FillPolygon(0.96, side...), sheet.Stroke{Path: geom.Polygon(side...), Pen: sheet.PenOutline},
		sheet.FillPolygon(0.96, front...), sheet.Polyline(sheet.PenOutline, front...), zigzag(front[3], front[0])}
	d = d.Add(sheet.Polyline(sheet.PenHidden, geom.Pt(0, in+onTopStub), geom.Point{}, geom.Pt(end, 0)))
	// It lies on the case between the case's face and its own back edge.
	return d, geom.Rect{Max: geom.Pt(end, in)}
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

// air returns the table of what the movement follows from, with the cautions beside or under it.
func (s slotSheet) air() strip {
	v, room, st := s.m.Movement, s.c.Room, s.st
	per := func(x float64) string { return fmt.Sprintf("%.1f %%", x) }
	t := sheet.Table{Size: figureSize, Columns: []sheet.Column{{Head: "", Weight: sheet.Bold}, {Head: "air", Align: sheet.AlignRight},
		{Head: "the wood holds", Align: sheet.AlignRight}, {Head: "the side is", Align: sheet.AlignRight}}, Rows: [][]string{
		{"driest", fmt.Sprintf("%.0f %%", room.HumidityLow), per(v.Dry), st.figure(v.Width - math.Abs(v.Shrinks))},
		{"as built", fmt.Sprintf("%.0f %%", room.BuiltAt), per(v.Built), st.figure(v.Width)},
		{"wettest", fmt.Sprintf("%.0f %%", room.HumidityHigh), per(v.Wet), st.figure(v.Width + math.Abs(v.Swells))},
	}}
	laid := t.Set(geom.Point{})
	note := fmt.Sprintf("%s, %s sawn; %.0f °C (%.0f °F). Over the year %s.", sentenceStart(s.c.Wood), s.c.Side.Cut, room.Celsius, room.Celsius*1.8+32, st.figure(v.Seasonal))
	words, _ := sheet.Paragraph{Text: note, Width: laid.Width, Size: noteSize}.Set(geom.Pt(0, -laid.Height-3))
	left := laid.Drawing.Add(words...)
	right := func(width float64) sheet.Drawing { return bullets(s.cautions(), width, nameSize) }
	if rest := s.width - left.Bounds().Width() - 8; rest >= leastWords {
		return newStrip(beside(8, left, right(rest)))
	}
	return newStrip(left.Add(right(s.width).At(geom.Pt(0, left.Bounds().Min.Y-5))...))
}

// cautions are what goes wrong, in few words.
func (s slotSheet) cautions() []string {
	out := []string{"No glue behind the gray: glued all along, the side splits or the miter opens."}
	if len(s.m.Movement.Slots) > 0 {
		where := "Slots in the side, along its width; screws from inside, washers under their heads."
		if s.onTop() {
			where = "Slots in the case's top or in cleats, front to back; screws from below, washers under their heads."
		}
		out = append(out, where, "Each screw in the middle of its slot when the case is built: snug, not tight.",
			"Screws end well before the molded face; drill a trial hole in scrap, and keep hands clear of where the bit comes out.")
	}
	return append(out, "Distances are common practice; the wood in hand has the last word.")
}
