package template

import (
	"fmt"
	"math"
	"strconv"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// OpeningSheets returns the drawer openings of a case from the front, to scale with their sizes and the marks of the beads, and the beads that
// are notched with the places of their notches. A case without openings gives none. The pages are not yet numbered.
func OpeningSheets(r miter.Result, st Style) []sheet.Page {
	st = st.roomy()
	e, ok := layoutEdge(r)
	if !ok {
		return nil
	}
	title, sizes := "Drawer openings", "Clear sizes between the dividers"
	if len(r.Drawers) == 1 {
		title, sizes = "Opening", "Clear size"
	}
	if len(r.Beads) > 0 {
		sizes += "; the beads lie round it and take nothing off it"
		if len(r.Drawers) > 1 {
			sizes = "Clear sizes between the dividers; the beads lie round them and take nothing off them"
		}
	}
	f := st.mixedFrame(title, sentence(sizes, st.unitNote()))
	o := openingSheet{r: r, l: *r.Layout, edge: e, st: st, width: f.Area(st.Paper).Width(), high: f.Area(st.Paper).Height()}
	strips := []strip{o.front()}
	line := fmt.Sprintf("The opening is %s wide, %s high: for a door or a drawer, less what that is to be clear by.", st.figure(o.l.Area.Width()), st.figure(o.l.Area.Height()))
	if len(r.Drawers) > 1 {
		strips = append(strips, newStrip(o.table().Set(geom.Point{}).Drawing))
		line = fmt.Sprintf("All openings with their dividers: %s wide, %s high.", st.figure(o.l.Area.Width()), st.figure(o.l.Area.Height()))
	}
	if o.l.Left != 0 {
		line += " Rows are whole steps of a rule; the bottom row takes what is left, " + st.fine(math.Abs(o.l.Left))
		if o.l.Left > 0 {
			line += " more than its share."
		} else {
			line += " less than its share."
		}
	}
	words, _ := sheet.Paragraph{Text: line, Width: o.width, Size: nameSize}.Set(geom.Point{})
	strips = append(strips, newStrip(words))
	if len(o.seat()) == 0 { // else that shows it
		strips = append(strips, o.rabbet()...)
	}
	pages := stack(strips, f, st.Paper)
	if len(r.Drawers) == 1 || len(r.Beads) == 0 {
		return pages
	}
	f.Title, f.Purpose = notchTitle, sentence("Every place is measured from the left end of the foot, the edge toward the opening", st.unitNote())
	return append(pages, o.beadPages(f)...)
}

// notchTitle is the title of the sheets with the notches of beads.
const notchTitle = "Beads: notches"

// layoutEdge returns the edge of the stage that the openings are in; false for a case without openings.
func layoutEdge(r miter.Result) (miter.Edge, bool) {
	if r.Layout == nil {
		return miter.Edge{}, false
	}
	for _, s := range r.Stages {
		if s.Name == r.Layout.Stage {
			return s.Edge(r.Layout.Edge)
		}
	}
	return miter.Edge{}, false
}

// beadPages returns the beads, and then their joints: on one sheet with them where there is room, else on sheets of their own.
func (o openingSheet) beadPages(f sheet.Frame) []sheet.Page {
	beads, joints := o.beads(), append(o.vee(), o.seat()...)
	area := f.Area(o.st.Paper)
	for _, gap := range closeGaps {
		switch all := append(beads[:len(beads):len(beads)], joints...); {
		case fitsBy(gap, all, area):
			return stackBy(gap, all, f, o.st.Paper)
		case fitsBy(gap, beads, area):
			return append(stackBy(gap, beads, f, o.st.Paper), stack(joints, f, o.st.Paper)...)
		}
	}
	return stack(append(beads, joints...), f, o.st.Paper)
}

// An openingSheet draws the openings of a case.
type openingSheet struct {
	r     miter.Result
	l     miter.Layout
	edge  miter.Edge
	st    Style
	width float64 // mm, of the room
	high  float64
}

// Room on the drawing of the openings, mm on paper.
const (
	openingLeft  = 14.0 // beside the case, for marks
	openingRight = 38.0 // for the heights
	openingOver  = 44.0 // above and below, for marks and widths
	markOut      = 8.0  // from the case to the marks of beads
)

// beadGray is the gray of beads from the front: they are narrow there, and dark as a heavy line.
const beadGray = 0.25

// front draws the stage from the front.
func (o openingSheet) front() strip {
	floor, top := o.l.Area.Min.Y, o.l.Area.Max.Y
	for _, s := range o.r.Stages {
		if s.Name == o.l.Stage {
			floor, top = s.Floor, s.Top
		}
	}
	long := o.edge.Length()
	k := o.st.scaleFor(long, top-floor, o.width-openingLeft-openingRight, o.high*0.62-openingOver)
	on := func(x, y float64) geom.Point { return geom.Pt(x*k, (y-floor)*k) }
	box := func(r geom.Rect) geom.Rect { return geom.Rect{Min: on(r.Min.X, r.Min.Y), Max: on(r.Max.X, r.Max.Y)} }
	stage := geom.Rect{Min: on(0, floor), Max: on(long, top)}
	d := sheet.Drawing{sheet.Box(stage, sheet.PenOutline)}
	for i, opening := range o.l.Openings {
		d = d.Add(sheet.FillBox(box(opening), 0.94), sheet.Box(box(opening), sheet.PenThin))
		d = d.Add(o.size(i, box(opening))...)
	}
	for _, b := range o.l.Beads {
		d = d.Add(sheet.FillBox(box(b.At), beadGray))
	}
	d = d.Add(o.heights(on, stage)...).Add(o.widths(on, stage)...).Add(o.marks(on, stage, k)...)
	return titled("The "+o.edge.Name+" of the "+stageNoun(o.l.Stage)+", "+jointScale(k), d, o.width).drawnAt(k)
}

// size returns the size of an opening, width by height, inside it where there is room.
func (o openingSheet) size(i int, box geom.Rect) sheet.Drawing {
	w := o.r.Drawers[i]
	words := o.st.figure(w.Width) + " × " + o.st.figure(w.Height)
	for _, t := range []sheet.Text{
		{S: words, Size: figureSize, Weight: sheet.Bold}, {S: words, Size: noteSize}, {S: fmt.Sprintf("%d.%d", w.Row, w.Column), Size: noteSize},
	} {
		if t.Width()+3*markOut < box.Width() && sheet.LineHeight(t.Size) < box.Height() {
			t.At, t.Anchor = box.Center(), sheet.Middle
			return sheet.Drawing{t}
		}
	}
	return nil
}

// heights returns the chain of heights at the right, from the bottom of the stage up.
func (o openingSheet) heights(on func(x, y float64) geom.Point, stage geom.Rect) sheet.Drawing {
	right := o.edge.Length()
	c := sheet.Chain{Along: sheet.Up, At: stage.Max.X + 16, Size: figureSize, Points: []geom.Point{geom.Pt(stage.Max.X, stage.Min.Y)}}
	last := stage.Min.Y
	k := on(1, 0).X
	step := func(y float64) {
		p := on(right, y)
		if p.Y-last < 1e-9 {
			return
		}
		c.Points, c.Texts = append(c.Points, p), append(c.Texts, o.st.figure((p.Y-last)/k))
		last = p.Y
	}
	for _, row := range rowsOf(o.l) {
		step(row[0])
		step(row[1])
	}
	if top := stage.Max.Y; top-last > 1e-9 {
		c.Points, c.Texts = append(c.Points, geom.Pt(stage.Max.X, top)), append(c.Texts, o.st.figure((top-last)/k))
	}
	return c.Drawing()
}

// widths returns the chains of widths: of the frame under the stage, of the row with the most drawers over it.
func (o openingSheet) widths(on func(x, y float64) geom.Point, stage geom.Rect) sheet.Drawing {
	a, long := o.l.Area, o.edge.Length()
	chain := func(y, at float64, below bool, xs ...float64) sheet.Drawing {
		c := sheet.Chain{Along: sheet.Across, At: at, Size: figureSize, Below: below}
		for i, x := range xs {
			if i > 0 && x-xs[i-1] < 1e-9 {
				continue
			}
			if len(c.Points) > 0 {
				c.Texts = append(c.Texts, o.st.figure(x-xs[i-1]))
			}
			c.Points = append(c.Points, geom.Pt(on(x, 0).X, y))
		}
		return c.Drawing()
	}
	d := chain(stage.Min.Y, stage.Min.Y-7, true, 0, a.Min.X, a.Max.X, long)
	if xs := o.mostDivided(); len(xs) > 2 {
		d = d.Add(chain(stage.Max.Y, stage.Max.Y+2*markOut+2, false, xs...)...)
	}
	return d
}

// mostDivided returns the left and right sides of the openings in the row that has the most of them, the topmost of such rows.
func (o openingSheet) mostDivided() []float64 {
	byRow := map[int][]float64{}
	best := 0
	for i, d := range o.r.Drawers {
		byRow[d.Row] = append(byRow[d.Row], o.l.Openings[i].Min.X, o.l.Openings[i].Max.X)
		if len(byRow[d.Row]) >= len(byRow[best]) {
			best = d.Row
		}
	}
	return byRow[best]
}

// marks returns the marks of the beads: of the level ones at the left, of the uprights and the posts beside them; of uprights where no opening has room,
// over the case.
func (o openingSheet) marks(on func(x, y float64) geom.Point, stage geom.Rect, k float64) sheet.Drawing {
	var d sheet.Drawing
	var want, half []float64
	var tips []geom.Point
	var names []string
	for _, b := range sortedBy(o.l.Beads, func(b miter.PlacedBead) float64 { return b.At.Center().Y }) {
		if !b.Upright {
			tip := on(o.l.Area.Min.X, b.At.Center().Y).Add(geom.Pt(2, 0))
			want, half, tips, names = append(want, tip.Y), append(half, balloonRoom), append(tips, tip), append(names, b.Mark)
		}
	}
	highest := stage.Max.Y
	for i, y := range sheet.Spread(want, half, 0.4) {
		at := geom.Pt(-markOut, y)
		d = d.Add(sheet.Dot(tips[i], 0.5)).Add(pointed(tips[i], at, names[i], nameSize)...)
		highest = max(highest, y+1)
	}
	for _, b := range o.l.Beads {
		c := b.At.Center()
		inside, y, ok := o.besideUpright(b, k)
		switch {
		case ok:
			tip := on(c.X, y)
			d = d.Add(pointed(tip, tip.Add(geom.Pt(inside*(balloonClear+1), 0)), b.Mark, nameSize)...)
		case b.Run == "left-upright" || b.Run == "right-upright":
			tip := on(c.X, b.At.Max.Y).Sub(geom.Pt(0, 2))
			at := geom.Pt(stage.Min.X-5, highest+markOut) // clear of the widths' lines
			if b.Run == "right-upright" {
				at.X = stage.Max.X + 5
			}
			d = d.Add(pointed(tip, at, b.Mark, nameSize)...)
		case b.Upright && b.At.Height()*k > 2*balloonRoom && o.roomAside(b)*k > 2*balloonRoom+2:
			tip := on(c.X, c.Y)
			d = d.Add(pointed(tip, tip.Add(geom.Pt(balloonClear+1, 0)), b.Mark, nameSize)...)
		}
	}
	return d
}

// besideUpright returns on which side of an upright at the edge of the frame the openings lie, 1 for the right, and the height of the middle of the highest of
// those beside it, mm; false where none has room for a mark.
func (o openingSheet) besideUpright(b miter.PlacedBead, k float64) (side, y float64, ok bool) {
	switch b.Run {
	case "left-upright":
		side = 1
	case "right-upright":
		side = -1
	default:
		return 0, 0, false
	}
	high := 2*balloonRoom + 1 // mm on paper
	for _, r := range o.l.Openings {
		edge := side > 0 && r.Min.X < o.l.Area.Min.X+sameHeight || side < 0 && r.Max.X > o.l.Area.Max.X-sameHeight
		if edge && r.Width()*k > 6*balloonRoom && r.Height()*k > high {
			high, y, ok = r.Height()*k, r.Center().Y, true
		}
	}
	return side, y, ok
}

// roomAside returns the width of the opening at the right of a post, mm.
func (o openingSheet) roomAside(b miter.PlacedBead) float64 {
	c := b.At.Center()
	for _, r := range o.l.Openings {
		if r.Min.X > c.X && r.Min.X-c.X < 2*b.At.Width()+40 && r.Min.Y <= c.Y && c.Y <= r.Max.Y {
			return r.Width() / 3
		}
	}
	return 0
}

// table lists the openings, equal ones of a row in one line.
func (o openingSheet) table() sheet.Table {
	t := sheet.Table{Size: figureSize, Columns: []sheet.Column{{Head: "row", Weight: sheet.Bold}, {Head: "drawers", Align: sheet.AlignRight},
		{Head: "opening wide", Align: sheet.AlignRight}, {Head: "high", Align: sheet.AlignRight}}}
	drawers := o.r.Drawers
	for i := len(drawers); i > 0; {
		j := i - 1
		for j > 0 && drawers[j-1].Row == drawers[i-1].Row {
			j--
		}
		d := drawers[i-1]
		t.Rows = append(t.Rows, []string{strconv.Itoa(d.Row), strconv.Itoa(i - j), o.st.figure(d.Width), o.st.figure(d.Height)})
		i = j
	}
	t.Rows[len(t.Rows)-1][0] += ", the bottom"
	return t
}
