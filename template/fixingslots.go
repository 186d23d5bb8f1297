package template

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// movementPages returns the sheet of a molding across the grain of a solid side: where to glue, where the slots are, the slots at full
// size, and what the movement follows from.
func movementPages(c miter.Case, r miter.Result, m miter.MoldingResult, st Style) []sheet.Page {
	f := st.mixedFrame(sentenceStart(m.Name)+": room to move", sentence("The side moves across its grain, the molding does not: glue in front, screws in slots behind", st.unitNote()))
	s := slotSheet{fixing: fixing{c: c, r: r, m: m, st: st}, width: f.Area(st.Paper).Width()}
	strips := []strip{titled(s.heading(), s.facing(s.side()), s.width).drawnAt(s.scale())}
	if corner := s.end().Corner; !s.onTop() && !corner.Near(90*geom.Degree, cornerSquare) && s.end().Meets != "" {
		strips = append(strips, titled(fmt.Sprintf("The corner of %s and %s from above, %s, %s", m.Movement.Side, s.end().Meets, st.Lengths.Angle(corner), jointScale(s.cornerScale())), s.facing(s.corner()), s.width).drawnAt(s.cornerScale()))
	}
	if len(m.Movement.Slots) > 0 {
		strips = append(strips, titled(fmt.Sprintf("The slots, full size; all %s wide, for the shank of a %s screw", st.figure(miter.ScrewShank), st.screw()), s.slots(), s.width).drawnAt(1))
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
	slotHigh   = 22.0 // at the right of the side, for the height of the slots
	onTopStub  = 9.0  // of the front piece, seen from above

	cornerSquare = 0.05 * geom.Degree // a corner nearer to 90 degrees is drawn as one
)

// onTop reports whether the molding lies on top of its stage, so that it is drawn from above.
func (s slotSheet) onTop() bool { return s.m.OnTop }

func (s slotSheet) scale() float64 {
	b := s.m.Sections[0].Section.Outline.Bounds()
	wide := b.Height()
	if s.onTop() {
		wide = s.m.Sections[0].Section.Projection
	}
	return s.st.scaleFor(s.m.Movement.Width+s.reach(), wide, s.width-slotWords-slotHigh, slotMolded)
}

// reach returns how far the molding's outermost line goes past the corner of the case, mm.
func (s slotSheet) reach() float64 { return max(0, -s.past(s.section().Projection)) }

// section returns the section of the side's piece.
func (s slotSheet) section() profile.Section {
	for _, p := range s.m.Pieces {
		if slices.Contains(p.Runs, s.m.Movement.Side) && p.Section != nil {
			return *p.Section
		}
	}
	return s.m.Sections[0].Section
}

// end returns the end of the side's piece at its corner with the neighbor that it is measured from.
func (s slotSheet) end() miter.End {
	for _, p := range s.m.Pieces {
		if !slices.Contains(p.Runs, s.m.Movement.Side) || len(p.Ends) != 2 {
			continue
		}
		i := s.frontEnd()
		e := p.Ends[i]
		e.Meets = s.meets(p, i)
		if i == 1 {
			e.Cut.X = -e.Cut.X
		}
		return e
	}
	return miter.End{Corner: 180 * geom.Degree}
}

// meets names what the side's run meets at the left (0) or the right (1) end of its piece, "" for nothing. A piece that stands for several equal ones names the
// neighbors of its first run alone: those of the others are found in plan.
func (s slotSheet) meets(p miter.Piece, end int) string {
	if len(p.Runs) == 1 || p.Ends[end].Meets == "" {
		return p.Ends[end].Meets
	}
	const near = 0.01 // mm, between the backs of two runs that meet
	i := slices.IndexFunc(s.m.Runs, func(r miter.PlacedRun) bool { return r.Run == s.m.Movement.Side })
	for _, r := range s.m.Runs {
		if i >= 0 && r.Run != s.m.Movement.Side && r.Inner[1-end].Near(s.m.Runs[i].Inner[end], near) {
			return r.Run
		}
	}
	return p.Ends[end].Meets
}

// past returns how far back from the corner of the case the end of the side lies at x out from the back of the molding, mm; negative before
// the corner.
func (s slotSheet) past(x float64) float64 {
	e := s.end()
	return s.inset()*((180*geom.Degree-e.Corner)/2).Tan() + e.Cut.X*x
}

func (s slotSheet) heading() string {
	side := "The " + s.m.Movement.Side + " side "
	view := "from outside, the molding dashed, "
	if s.onTop() {
		view = "from above, the molding laid on, "
	}
	return side + view + jointScale(s.scale())
}

// from names the corner that distances are measured from.
func (s slotSheet) from() string {
	if s.end().Meets == "" {
		return "front end"
	}
	return "corner with the " + s.end().Meets
}

// far names what the side's piece ends at behind.
func (s slotSheet) far() string {
	for _, p := range s.m.Pieces {
		if !slices.Contains(p.Runs, s.m.Movement.Side) || len(p.Ends) != 2 {
			continue
		}
		if name := s.meets(p, 1-s.frontEnd()); name != "" {
			return name
		}
	}
	return "wall"
}

// frontEnd returns the index of the end of the side's piece that lies nearer to the front.
func (s slotSheet) frontEnd() int {
	if s.m.Movement.FrontEnd == miter.RightHand {
		return 1
	}
	return 0
}

// facing returns a drawing with its front at the left as one sees it who faces the side: the front of a left side is at the right.
func (s slotSheet) facing(d sheet.Drawing) sheet.Drawing {
	if s.m.Movement.FrontEnd == miter.RightHand {
		return d.Moved(geom.Scaling(-1, 1))
	}
	return d
}

// side draws the side with the molding on it, its front at the left and at x = 0, with the glue, the slots and their places.
func (s slotSheet) side() sheet.Drawing {
	k, v := s.scale(), s.m.Movement
	end := v.Width * k
	var d sheet.Drawing
	var band geom.Rect // the molding on the side
	y := v.Screw.At * k
	if s.onTop() {
		d, band = s.fromAbove(k, v.Width)
		y = band.Max.Y - y
	} else {
		d, band = s.fromOutside(k)
	}
	glue := geom.Rect{Min: geom.Pt(max(0, band.Min.X), band.Min.Y), Max: geom.Pt(v.Glue*k, band.Max.Y)}
	if s.onTop() {
		d = d.Add(s.glued(k)...)
	} else {
		d = d.Add(sheet.FillBox(glue, slotGray), sheet.Box(glue, sheet.PenThin))
	}
	if glue.Width() > sheet.TextWidth("GLUE", figureSize, sheet.Bold)+1 && glue.Height() > sheet.CapHeight(figureSize)+1 {
		d = d.Add(sheet.Text{At: glue.Center(), S: "GLUE", Size: figureSize, Weight: sheet.Bold, Anchor: sheet.Middle, Halo: true})
	}
	for _, slot := range v.Slots {
		d = d.Add(slotShape(geom.Pt(slot.FromFront*k, y), slot.Length*k, miter.ScrewShank*k)...)
	}
	if n := len(v.Slots); n > 0 {
		up := y / k
		d = d.Add(sheet.Dim{A: geom.Pt(end, 0), B: geom.Pt(v.Slots[n-1].FromFront*k+v.Slots[n-1].Length*k/2+1, y), Along: sheet.Up, At: end + 8, Text: s.st.figure(up), Size: figureSize}.Drawing()...)
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
	from := s.from()
	if sheet.TextWidth(from+"  "+s.far(), nameSize, sheet.Regular) > end {
		from = cmp.Or(s.end().Meets, "front")
	}
	const step = 5.5
	return sheet.Drawing{
		sheet.Text{At: geom.Pt(0, y), S: from, Size: nameSize},
		sheet.Text{At: geom.Pt(end, y), S: s.far(), Size: nameSize, Anchor: sheet.BottomRight},
		sheet.Text{At: geom.Pt(end/2, y+step), S: free, Size: figureSize, Weight: sheet.Bold, Anchor: sheet.Bottom},
		sheet.Text{At: geom.Pt(end/2, y+2*step), S: fmt.Sprintf("from as built the back edge %s in the wettest air, %s in the driest", s.moves(v.Swells), s.moves(-v.Shrinks)), Size: nameSize, Anchor: sheet.Bottom},
	}
}

// moves says by how much and which way the back edge goes: out is positive.
func (s slotSheet) moves(mm float64) string {
	switch text := s.st.figure(math.Abs(mm)); {
	case math.Abs(mm) < 0.05:
		return "stays"
	case mm < 0:
		return "goes in " + text
	default:
		return "comes out " + text
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

// air returns the table of what the movement follows from, with the cautions beside or under it.
func (s slotSheet) air() strip {
	v, room, st := s.m.Movement, s.c.Room, s.st
	per := func(x float64) string { return fmt.Sprintf("%.1f %%", x) }
	t := sheet.Table{Size: figureSize, Columns: []sheet.Column{{Head: "", Weight: sheet.Bold}, {Head: "air", Align: sheet.AlignRight},
		{Head: "the wood holds", Align: sheet.AlignRight}, {Head: "the side is", Align: sheet.AlignRight}}, Rows: [][]string{
		{"driest", fmt.Sprintf("%.0f %%", room.HumidityLow), per(v.Dry), st.figure(v.Width - v.Shrinks)},
		{"as built", fmt.Sprintf("%.0f %%", room.BuiltAt), per(v.Built), st.figure(v.Width)},
		{"wettest", fmt.Sprintf("%.0f %%", room.HumidityHigh), per(v.Wet), st.figure(v.Width + v.Swells)},
	}}
	laid := t.Set(geom.Point{})
	note := fmt.Sprintf("%s, %s sawn; %.0f °C (%.0f °F). It moves %s over the year.", sentenceStart(s.c.Wood), s.c.Side.Cut, room.Celsius, room.Celsius*1.8+32, st.figure(v.Seasonal))
	words, _ := sheet.Paragraph{Text: note, Width: laid.Width, Size: noteSize}.Set(geom.Pt(0, -laid.Height-3))
	left := laid.Drawing.Add(words...)
	right := func(width float64) sheet.Drawing { return bullets(s.cautions(), width, nameSize) }
	if rest := s.width - left.Bounds().Width() - 8; rest >= leastWords {
		return newStrip(beside(8, left, right(rest)))
	}
	return newStrip(left.Add(right(s.width).At(geom.Pt(0, left.Bounds().Min.Y-5))...))
}

// into says into what the screws go.
func (s slotSheet) into() string {
	if s.m.Nesting != nil {
		return " out of the case, through the backing strip,"
	}
	return " into the molding"
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
			"Screws go "+s.st.figure(s.m.Movement.Screw.Enters)+s.into()+" at most: "+s.st.figure(inUnits(s.st.Lengths, 1.0/8, 3))+" of wood stay all round them. Drill a trial hole in scrap, and keep hands clear of where the bit comes out.")
	}
	return append(out, "Distances are common practice; the wood in hand has the last word.")
}
