package template

import (
	"fmt"
	"math"
	"slices"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// FixingSheets returns how the moldings are fixed: each in section on the case with what holds it, then for each that lies across the grain of
// a solid side where it is glued and where its screws stand in slots. The pages are not yet numbered.
func FixingSheets(c miter.Case, r miter.Result, st Style) []sheet.Page {
	st = st.roomy()
	if len(r.Moldings) == 0 {
		return nil
	}
	f := st.mixedFrame("Fixing", sentence("Each molding on the case in section, and what holds it", st.unitNote()))
	width := f.Area(st.Paper).Width()
	var strips []strip
	for _, m := range r.Moldings {
		if len(m.Sections) > 0 && len(m.Pieces) > 0 {
			strips = append(strips, fixing{c: c, r: r, m: m, st: st}.strip(width))
		}
	}
	pages := stack(strips, f, st.Paper)
	for _, m := range r.Moldings {
		if m.Movement != nil && len(m.Sections) > 0 {
			pages = append(pages, movementPages(c, r, m, st)...)
		}
	}
	return pages
}

// A fixing draws one molding in section on the case.
type fixing struct {
	c  miter.Case
	r  miter.Result
	m  miter.MoldingResult
	st Style
}

// screwHead is how much wider a screw's head and washer are drawn than its shank.
const screwHead = 2.4

// Sizes of a molding in section on the case, mm on paper.
const (
	fixWide    = 62.0 // of the wood, at most
	fixHigh    = 50.0
	fixBoard   = 13.0 // of the case side that is shown
	fixBeyond  = 10.0 // of the case side above and below the molding
	fixCleat   = 6.0  // of the case's top, or of a cleat, under a molding that lies on the case
	fixLeast   = 4.0  // of the case side beside a cleat
	fixColumn  = 100.0
	leastWords = 70.0
)

// strip returns the section at the left and the words at its right.
func (f fixing) strip(width float64) strip {
	picture := f.section()
	b := picture.Bounds()
	column := max(fixColumn, b.Width()+8)
	room := max(leastWords, width-column)
	words := sheet.Drawing{sheet.Text{S: sentenceStart(f.m.Name), Size: headingSize, Weight: sheet.Bold, Anchor: sheet.TopLeft}}
	words = words.Add(bullets(f.words(), room, nameSize).At(geom.Pt(0, -sheet.CapHeight(headingSize)-3.5))...)
	d := picture.At(geom.Pt((column-8-b.Width())/2-b.Min.X, -b.Max.Y))
	return newStrip(d.Add(words.At(geom.Pt(column, 0))...)).drawnAt(f.sectionScale())
}

// sectionScale returns the scale that the molding is drawn at on the case.
func (f fixing) sectionScale() float64 {
	b := f.m.Sections[0].Section.Outline.Bounds()
	return f.st.scaleFor(b.Width(), b.Height(), fixWide, fixHigh)
}

// section draws the molding on the case, x out from its back at the right, y up from its foot.
func (f fixing) section() sheet.Drawing {
	s := f.m.Sections[0].Section
	b := s.Outline.Bounds()
	k := f.sectionScale()
	to := scaled(k)
	d := f.board(k, b)
	outline := s.Outline.Transform(to)
	d = d.Add(sheet.FillPolygon(1, outline.Flatten(0.05)...), sheet.EndGrain(outline), sheet.Stroke{Path: outline, Pen: sheet.PenOutline})
	d = d.Add(f.backing(k)...)
	if v := f.m.Movement; v != nil && len(v.Slots) > 0 {
		d = d.Add(f.screw(k, v.Screw)...)
	}
	all := d.Bounds()
	return d.Add(sheet.Text{At: geom.Pt(all.Min.X, all.Min.Y-2), S: jointScale(k), Size: noteSize, Anchor: sheet.TopLeft})
}

// molding returns the molding as the case file asks for it.
func (f fixing) molding() miter.Molding {
	for _, m := range f.c.Moldings {
		if m.Name == f.m.Name {
			return m
		}
	}
	return miter.Molding{}
}

func (f fixing) inset() float64 { return f.molding().Inset }

// stage returns the stage of that name, and whether there is one.
func (f fixing) stage(name string) (miter.StagePlan, bool) {
	for _, s := range f.r.Stages {
		if s.Name == name {
			return s, true
		}
	}
	return miter.StagePlan{}, false
}

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
		box := geom.Rect{Min: geom.Pt(0, part.lo), Max: geom.Pt(x, part.hi)}
		d = d.Add(sheet.FillBox(box, 0.9), sheet.FillBox(geom.Rect{Min: geom.Pt(-0.4, part.lo), Max: geom.Pt(0.4, part.hi)}, 0.9), sheet.Line(geom.Pt(x, part.lo), geom.Pt(x, part.hi), sheet.PenOutline))
		for gx := 2.2; gx < x-0.5; gx += 2.2 {
			d = d.Add(sheet.Line(geom.Pt(gx, part.lo+0.4), geom.Pt(gx, part.hi-0.4), sheet.PenHair.WithGray(0.45)))
		}
		for i, y := range []float64{part.lo, part.hi} {
			if part.ok[i] {
				d = d.Add(sheet.Line(geom.Pt(0, y), geom.Pt(x, y), sheet.PenOutline))
			} else {
				d = d.Add(zigzag(geom.Pt(0, y), geom.Pt(x, y)))
			}
		}
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
	d := sheet.Drawing{sheet.FillBox(side, 0.9)}
	for gx := x - 2.2; gx > x-thick; gx -= 2.2 {
		d = d.Add(sheet.Line(geom.Pt(gx, side.Min.Y+0.4), geom.Pt(gx, hi-0.4), sheet.PenHair.WithGray(0.45)))
	}
	d = d.Add(sheet.Polyline(sheet.PenOutline, side.Min, geom.Pt(side.Min.X, hi), side.Max, geom.Pt(x, side.Min.Y)), zigzag(side.Min, geom.Pt(x, side.Min.Y)))
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
	d := sheet.Drawing{sheet.FillBox(box, 0.9), sheet.Line(geom.Pt(x, lo), geom.Pt(x, hi), sheet.PenOutline)}
	for gx := x - 2.2; gx > x-fixBoard; gx -= 2.2 {
		d = d.Add(sheet.Line(geom.Pt(gx, lo+0.4), geom.Pt(gx, hi-0.4), sheet.PenHair.WithGray(0.45)))
	}
	for _, e := range []struct {
		y  float64
		ok bool
	}{{lo, trueLo}, {hi, trueHi}} {
		if e.ok {
			d = d.Add(sheet.Line(geom.Pt(x-fixBoard, e.y), geom.Pt(x, e.y), sheet.PenOutline))
		} else {
			d = d.Add(zigzag(geom.Pt(x-fixBoard, e.y), geom.Pt(x, e.y)))
		}
	}
	d = d.Add(zigzag(geom.Pt(x-fixBoard, lo), geom.Pt(x-fixBoard, hi)))
	t := sheet.Text{At: geom.Pt(x-fixBoard-4.5, (lo+hi)/2), S: name, Size: noteSize, Angle: 90 * geom.Degree, Anchor: sheet.Bottom}
	if t.Width() > hi-lo {
		t.Angle, t.Anchor = 0, sheet.Right
	}
	return d.Add(t)
}

// backing draws the strip behind a sprung molding, its drop and its reach.
func (f fixing) backing(k float64) sheet.Drawing {
	n := f.m.Nesting
	if n == nil {
		return nil
	}
	foot, top := geom.Pt(0, n.Wall*k), geom.Pt(0, (n.Wall+n.StripWall)*k)
	tip := geom.Pt(n.StripTop*k, top.Y)
	path := geom.Polygon(foot, tip, top)
	d := sheet.Drawing{sheet.Hatch{Paths: []geom.Path{path}, Angle: -45 * geom.Degree, Spacing: 1.6, Pen: sheet.PenHair}, sheet.Stroke{Path: path, Pen: sheet.PenThin}}
	right := n.Reach*k + 6
	d = d.Add(sheet.Dim{A: geom.Pt(n.Reach*k, 0), B: geom.Pt(n.Reach*k, n.Drop*k), Along: sheet.Up, At: right + 6, Text: f.st.figure(n.Drop), Size: figureSize}.Drawing()...)
	return d.Add(sheet.Dim{A: geom.Pt(0, n.Drop*k), B: geom.Pt(n.Reach*k, n.Drop*k), At: n.Drop*k + fixBeyond + 6, Text: f.st.figure(n.Reach), Size: figureSize}.Drawing()...)
}

// screw draws a screw from the inside of the case through its slot into the molding, or from below, as far in as it may go.
func (f fixing) screw(k float64, at miter.Screw) sheet.Drawing {
	w := miter.ScrewShank * k / 2
	const head = 1.6
	turned := func(p geom.Point) geom.Point { return p } // x into the molding
	inside := fixBoard
	if at.Up {
		turned = func(p geom.Point) geom.Point { return geom.Pt(p.Y, p.X) }
		inside = fixCleat
	}
	box := func(x0, x1, half float64) geom.Rect {
		return geom.EmptyRect().Include(turned(geom.Pt(x0, at.At*k-half))).Include(turned(geom.Pt(x1, at.At*k+half)))
	}
	body := box(-inside, at.Enters*k, w)
	return sheet.Drawing{
		sheet.FillBox(body, 1), sheet.Box(body, sheet.PenThin),
		sheet.Line(turned(geom.Pt(-inside-3, at.At*k)), turned(geom.Pt(at.Enters*k, at.At*k)), sheet.PenCenter),
		sheet.FillBox(box(-inside-head, -inside, screwHead*w), 0),
	}
}

// words returns what to do, in short lines.
func (f fixing) words() []string {
	fig := f.st.figure
	var out []string
	if f.m.Foot > 0 {
		out = append(out, "Foot "+fig(f.m.Foot)+" above the floor.")
	} else {
		out = append(out, "Foot on the floor.")
	}
	if f.m.LetIn > 0 {
		out = append(out, f.housing())
	}
	out = append(out, f.glue()...)
	if n := f.m.Nesting; n != nil {
		out = append(out, fmt.Sprintf("On the case: height %s, projection %s, spring %s.", fig(n.Drop), fig(n.Reach), f.st.Lengths.Angle(n.Spring)),
			fmt.Sprintf("Backing strip, three-cornered: %s against the case, %s along the top, %s behind the molding.", fig(n.StripWall), fig(n.StripTop), fig(n.StripBack)))
	}
	if s := f.m.Seat; s != nil {
		over := ""
		if s.Lift > 0.01 {
			over = fmt.Sprintf(", %s over the top of the %s", fig(s.Lift), stageNoun(f.m.Stage))
		}
		out = append(out, fmt.Sprintf("The %s stands in the rabbet at %s over the floor%s, %s; it is not glued in.", stageNoun(s.Stage), fig(s.Foot), over, f.clear(*s)))
	}
	if s := f.m.Spline; s != nil {
		out = append(out, fmt.Sprintf("Splines in the miters: %s thick, %s wide, their grain across the joint.", fig(s.Thickness), fig(2*s.Depth)))
	}
	if p := f.m.Pin; p != nil {
		out = append(out, fmt.Sprintf("Pins in the miters: %s thick, %s long.", fig(p.Diameter), fig(2*p.Depth)))
	}
	if f.m.Frame != nil {
		out = append(out, "Miters and tenons glued as one frame, then the frame on the case.")
	}
	if p := f.m.Rake; p != nil {
		line := fmt.Sprintf("Pitch %s: it rises %s from the eave to the peak.", f.st.Lengths.Angle(p.Pitch), fig(p.Rise))
		if p.Broken {
			line += fmt.Sprintf(" Open at the peak by %s.", fig(p.Gap))
		}
		out = append(out, line)
	}
	return out
}

// housing says where the faces of the case are cut away for a molding that is let into them.
func (f fixing) housing() string {
	fig := f.st.figure
	own, _ := f.stage(f.m.Stage)
	const beside = 0.05 // mm
	foot, top := f.m.Foot, f.m.Foot+f.m.Sections[0].Section.Height
	where := fmt.Sprintf("a housing from %s to %s over the floor", fig(foot), fig(top))
	switch atFoot, atTop := foot <= own.Floor+beside, top >= own.Top-beside; {
	case atFoot && atTop:
		where = "its whole height"
	case atFoot:
		where = fmt.Sprintf("a rabbet from its bottom up to %s", fig(top-own.Floor))
	case atTop:
		where = fmt.Sprintf("a rabbet from its top down to %s", fig(own.Top-foot))
	}
	return fmt.Sprintf("Let into the %s: %s, %s deep, on each face that it runs along.", stageNoun(f.m.Stage), where, fig(f.m.LetIn))
}

// clear says by how much a stage that stands in a rabbet is clear of it.
func (f fixing) clear(s miter.Seat) string {
	const told = 0.1 // mm, less than anyone cuts
	if s.Most-s.Least < told {
		return f.st.figure(s.Clearance) + " clear all round"
	}
	return fmt.Sprintf("%s clear, where the corners are off from %s to %s", f.st.figure(s.Clearance), f.st.fine(s.Least), f.st.fine(s.Most))
}

// glue says where the molding is glued.
func (f fixing) glue() []string {
	fig := f.st.figure
	sides := false
	for _, run := range f.m.Runs {
		sides = sides || run.Side
	}
	v := f.m.Movement
	switch {
	case v != nil && len(v.Slots) == 0:
		return append([]string{fmt.Sprintf("Front: glue all along. Sides: glue the first %s only, from the front; they move %s.", fig(v.Glue), fig(v.Seasonal))}, f.between()...)
	case v != nil:
		return append([]string{fmt.Sprintf("Front: glue all along. Sides: glue the first %s, then screws in slots: the side moves %s over the year. See the next sheets.", fig(v.Glue), fig(v.Seasonal)), f.screws(v.Screw)},
			f.between()...)
	case sides && f.c.Side.Framed:
		return []string{"Glue all along: the rails of a framed side do not move along the molding."}
	case sides:
		return []string{"Front: glue all along. Sides of solid wood move under it: glue near the front only, screws in slots behind."}
	}
	return []string{"Glue all along: its grain runs with the case's."}
}

// between says how the pieces between the front and the sides are glued, cants and the steps of a breakfront: one that is no longer than what is glued of a side
// is glued like the front, a longer one in its middle, so that it moves to both ends alike. The sides themselves are told of before; where they meet a piece
// at the back, too, that miter is left to move.
func (f fixing) between() []string {
	var short, long []string
	dry := false
	for _, run := range f.m.Runs {
		for _, p := range f.m.Pieces {
			if !run.Side || p.Mark != run.Mark || p.Ends[0].Meets == "" || p.Ends[1].Meets == "" {
				continue
			}
			name := f.only(run)
			switch {
			case f.alongside(run):
				dry = true
			case p.Back <= f.m.Movement.Glue+0.5:
				short = append(short, name)
			default:
				long = append(long, name)
			}
		}
	}
	var out []string
	if dry {
		out = append(out, "The sides' miters at the back stay without glue: the sides move there.")
	}
	if len(short) > 0 {
		out = append(out, ListWords(short)+": glue all along, like the front.")
	}
	if len(long) > 0 {
		out = append(out, fmt.Sprintf("%s: glue the middle %s and the miters; the wood under them moves as the sides do.", ListWords(long), f.st.figure(f.m.Movement.Glue)))
	}
	return out
}

// alongside reports whether a run lies along the side that the molding's movement is told of, or the side across from it.
func (f fixing) alongside(run miter.PlacedRun) bool {
	i := slices.IndexFunc(f.m.Runs, func(r miter.PlacedRun) bool { return r.Run == f.m.Movement.Side })
	if i < 0 {
		return false
	}
	side := f.m.Runs[i]
	u, v := side.Inner[1].Sub(side.Inner[0]), run.Inner[1].Sub(run.Inner[0])
	mirrored := geom.Pt(u.X, -u.Y) // the other side of a case leans the other way
	return run.Run == side.Run || math.Abs(u.Norm()-v.Norm()) < 1 && (parallel(mirrored, v) || parallel(u, v))
}

// parallel reports whether u and v have the same direction, or the opposite one, within a tenth of a degree.
func parallel(u, v geom.Point) bool { return math.Abs(u.Cross(v)) <= 2e-3*u.Norm()*v.Norm() }

// only returns the mark of a run's piece, or the run's name where other runs have equal pieces.
func (f fixing) only(run miter.PlacedRun) string {
	for _, r := range f.m.Runs {
		if r.Mark == run.Mark && r.Run != run.Run {
			return run.Run
		}
	}
	return run.Mark
}

// screws says where the screws go in, and how far.
func (f fixing) screws(at miter.Screw) string {
	fig := f.st.figure
	where := fig(at.At) + " above the foot"
	if at.Up {
		where = fig(f.inset()-at.At) + " in from the face of the case, from below"
	}
	long := "no longer than that and the thickness that they go through"
	if at.Long > 0 {
		long = fmt.Sprintf("through sides %s thick no longer than %s", fig(f.c.Side.Thickness), fig(at.Long))
		if f.m.LetIn > 0 {
			long = fmt.Sprintf("through the %s left of the sides no longer than %s", fig(f.c.Side.Thickness-f.m.LetIn), fig(at.Long))
		}
	}
	return fmt.Sprintf("Screws %s, %s: they may enter the molding by %s at most, %s.", miter.ScrewGauge, where, fig(at.Enters), long)
}
