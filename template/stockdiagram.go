package template

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"listel/miter"
	"listel/miter/stock"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/sheet"
)

// Sizes of the cutting diagrams, mm on the sheet.
const (
	barHigh  = 9.0  // of a stick
	rowGap   = 4.0  // between two sticks
	endWide  = 0.62 // of the sheet's width that the end of a board takes at most
	endHigh  = 24.0
	grainTip = 2.2 // from the end of a run to the tip of its arrow
)

// cutPages returns the cutting diagrams: each board with its rips, each stick with its cuts.
func (s *stockSheets) cutPages() []sheet.Page {
	longest := 0.0
	for _, st := range s.c.Plan.Sticks {
		longest = max(longest, st.Length)
	}
	f := s.st.sheetFrame("How to cut it", sentence(s.order(), s.st.unitNote()))
	if len(s.c.Purchase.Blanks) == 0 {
		f.Purpose = sentence("Cut each stick from the left as drawn", s.st.unitNote())
	}
	area := f.Area(s.st.Paper)
	d := stickDiagram{stockSheets: s, width: area.Width()}
	left, right := 0.0, 0.0
	for range 3 { // figures that stand out beyond a stick's ends move with the scale
		d.k = 1 / math.Max(1, math.Ceil(longest/(area.Width()-left-right)))
		l, r := d.overhang()
		left, right = max(left, l), max(right, r)
	}
	scale := math.Max(1, math.Ceil(longest/(area.Width()-left-right)))
	d.k, d.inset = 1/scale, left
	f.Scale = fmt.Sprintf("1:%g in length", scale)
	blocks := []strip{newStrip(d.legend())}
	used := blocks[0].high
	for _, b := range s.blocks() {
		parts := d.block(b, area.Height()-used-stripGap, area.Height())
		if len(parts) > 1 && parts[0].high > area.Height()-used-stripGap {
			parts = d.block(b, area.Height(), area.Height()) // not even its first strip fits on the sheet begun
			used = area.Height()
		}
		for i, p := range parts {
			if i > 0 || used+stripGap+p.high > area.Height() {
				used = -stripGap
			}
			used += stripGap + p.high
		}
		blocks = append(blocks, parts...)
	}
	blocks = append(blocks, newStrip(advice("At the saw", append(s.testWords(),
		"The saw's manual, the rules of your shop, and a person who knows the saw come before this sheet. Guards on, riving knife set, push sticks at hand, eyes and ears covered.",
		"Boards differ: cut round faults, and plan anew with what is left when the lengths no longer come out. Joint one edge before each rip.",
	), area.Width())))
	return stack(blocks, f, s.st.Paper)
}

// order says in what order a job is cut: a test length is of the same blank as its strip, so it is cut off before the strip is molded.
func (s *stockSheets) order() string {
	if !s.tests() {
		return "Rip each board and mold the strips whole; then cut the pieces from the left as drawn"
	}
	return "Rip each board and cut off the test lengths; mold the strips whole; then cut the pieces from the left as drawn"
}

// tests reports whether a length to set machines up with is cut off any stick.
func (s *stockSheets) tests() bool {
	return slices.ContainsFunc(s.c.Plan.Sticks, func(x stock.Stick) bool { return slices.ContainsFunc(x.Cuts, isTest) })
}

// testWords says what the test lengths are for, nothing where none is cut or nothing is molded.
func (s *stockSheets) testWords() []string {
	if !s.tests() || len(s.c.Purchase.Blanks) == 0 {
		return nil
	}
	words := "Cut each test length off before anything is molded: it is of the same blank as its strip. At every set-up try the cut on it first, and mold the strip when it is right; " +
		"so it is as far along as the strip when the next set-up comes. What lies right of it need not be molded."
	if slices.ContainsFunc(s.c.Purchase.Blanks, func(b miter.Blank) bool {
		return !b.Plain() && len(ThinSection(b.Width, b.Thickness, s.st.Lengths)) > 0
	}) {
		words += " For a strip that stays on its board, it is a length of such a board."
	}
	return []string{words}
}

// A stickBlock is a board with its strips, or sticks that are cut alike.
type stickBlock struct {
	board *stock.Board
	rows  []stickRow
}

// A stickRow is one stick, or several that are cut alike.
type stickRow struct {
	stock.Stick
	numbers []int
}

// blocks returns the plan as it is drawn: board by board, then stick by stick.
func (s *stockSheets) blocks() []stickBlock {
	var out []stickBlock
	ripped := len(s.c.Purchase.Blanks) > 0
	for i, st := range s.c.Sticks() {
		n := i + 1
		if ripped && st.Board > 0 {
			n = st.Strip
		}
		if len(out) == 0 || ripped && out[len(out)-1].rows[0].Board != st.Board {
			b := stickBlock{}
			if ripped && st.Board > 0 {
				b.board = &s.c.Plan.Boards[st.Board-1]
			}
			out = append(out, b)
		}
		b := &out[len(out)-1]
		numbers := []int{n}
		for l := 1; ripped && st.Board > 0 && l < st.Layers; l++ {
			numbers = append(numbers, n+l)
		}
		if k := slices.IndexFunc(b.rows, func(r stickRow) bool { return alikeSticks(r.Stick, st) }); k >= 0 {
			b.rows[k].numbers = append(b.rows[k].numbers, numbers...)
			continue
		}
		b.rows = append(b.rows, stickRow{st, numbers})
	}
	return out
}

// alikeSticks reports whether two sticks are cut alike, to the same marks.
func alikeSticks(a, b stock.Stick) bool {
	return a.Item == b.Item && a.Profile == b.Profile && a.Layers == b.Layers && within(a.Left, b.Left) &&
		slices.EqualFunc(a.Cuts, b.Cuts, func(x, y stock.Cut) bool { return sameCut(x, y) && x.Wrap == y.Wrap })
}

func sameCut(a, b stock.Cut) bool { return a.Mark == b.Mark && within(a.Length, b.Length) }

// A stickDiagram draws boards and sticks at k mm to the mm.
type stickDiagram struct {
	*stockSheets
	width, k float64
	inset    float64 // of all sticks from the left of the sheet
}

// overhang returns how far figures stand out beyond the left and the right end of any stick.
func (d stickDiagram) overhang() (left, right float64) {
	for _, b := range d.blocks() {
		for _, r := range b.rows {
			box := d.row(r).Bounds()
			left, right = max(left, -box.Min.X), max(right, box.Max.X-r.Length*d.k)
		}
	}
	return left, right
}

// block returns a board with its strips under it, the first part at most first mm high if its first strip allows, the others at most high. Short
// strips stand in two columns.
func (d stickDiagram) block(b stickBlock, first, high float64) []strip {
	var parts []strip
	now, y := d.begun(b, false)
	rows, room := 0, first
	low, right := y, false
	for _, r := range b.rows {
		row := d.row(r)
		box := row.Bounds()
		half := d.inset+box.Max.X < d.width/2-2
		if !half || !right {
			y, right = low, false
		}
		if !right && rows > 0 && y-rowGap-box.Height() < -room {
			parts = append(parts, newStrip(now))
			now, y = d.begun(b, true)
			low, room = y, high
		}
		x := d.inset
		if right {
			x += d.width / 2
		}
		now = now.Add(row.At(geom.Pt(x, y-rowGap-box.Max.Y))...)
		low = min(low, y-rowGap-box.Height())
		right = half && !right
		rows++
	}
	return append(parts, newStrip(now))
}

// begun returns the head of a board, its top at the origin, and where it ends.
func (d stickDiagram) begun(b stickBlock, again bool) (sheet.Drawing, float64) {
	head := d.head(b, again)
	box := head.Bounds()
	if box.Empty() {
		return nil, rowGap // the first strip starts at the top
	}
	return head.At(geom.Pt(0, -box.Max.Y)), -box.Height()
}

// head returns what stands over the strips of a board: what it is, and its end with the rips.
func (d stickDiagram) head(b stickBlock, again bool) sheet.Drawing {
	if b.board == nil {
		return nil
	}
	text := fmt.Sprintf("Board %d: %s, %s wide, %s long", b.board.N, d.kind(b.board.Item), d.st.figure(b.board.Width), d.long(b.board.Length))
	if b.rows[0].Offcut {
		text += ", on the rack"
	}
	if again {
		text += ", continued"
	}
	out := sheet.Drawing{sheet.Text{S: text, Size: headingSize, Weight: sheet.Bold}}
	if again {
		return out
	}
	end := d.end(*b.board)
	return out.Add(end.At(geom.Pt(max(0, -end.Bounds().Min.X), -end.Bounds().Max.Y-3))...)
}

// end draws the end of a board with its rips, what is left of its width in gray, and the widths to rip under it.
func (d stickDiagram) end(b stock.Board) sheet.Drawing {
	thick := d.thickness(b.Item)
	k := d.endScale()
	shop := d.c.Purchase.Job.Shop
	w, h := b.Width*k, thick*k
	var out sheet.Drawing
	var points []geom.Point
	var texts []string
	used, number := 0.0, 1
	for _, r := range d.c.Rips(b) {
		lean := 0.0
		if r.Slant != nil {
			lean = r.Slant.Slope * h
		}
		from := r.From
		for i := range r.Strips {
			wide := r.Rough
			if r.Slant != nil && i > 0 {
				wide = r.Each - shop.Kerf
			}
			to := from + wide
			cut := lean
			if i == r.Strips-1 {
				cut = 0 // the last edge stays square
			}
			if to < b.Width-0.1 {
				out = out.Add(sheet.FillPolygon(0, geom.Pt(to*k, 0), geom.Pt(min(w, (to+shop.Kerf)*k), 0), geom.Pt(min(w, (to+shop.Kerf)*k)+cut, h), geom.Pt(to*k+cut, h)))
			}
			out = out.Add(d.stripNumber(number, geom.Pt((from+wide/2)*k+lean/2, h/2), wide*k)...)
			number++
			from, used = to+shop.Kerf, to+shop.Kerf
		}
		points = append(points, geom.Pt(r.From*k, 0))
		texts = append(texts, d.ripText(r))
		points = append(points, geom.Pt(min(w, (used-shop.Kerf)*k), 0))
		texts = append(texts, "")
	}
	if used < b.Width-0.5 {
		out = sheet.Drawing{sheet.FillBox(geom.Rect{Min: geom.Pt(used*k, 0), Max: geom.Pt(w, h)}, 0.8)}.Add(out...)
		points, texts = append(points, geom.Pt(used*k, 0), geom.Pt(w, 0)), append(texts, "", "")
		texts[len(texts)-2] = "left " + d.st.figure(d.c.Left(b))
	}
	out = out.Add(sheet.Box(geom.Rect{Max: geom.Pt(w, h)}, sheet.PenOutline))
	out = out.Add(sheet.Text{At: geom.Pt(w+5, h/2), S: "its end, " + jointScale(k), Size: noteSize, Anchor: sheet.Left})
	points, texts = steps(points, texts)
	return out.Add(sheet.Chain{Points: points, Texts: texts, At: -3.5, Below: true, Size: figureSize}.Drawing()...)
}

// endScale returns the scale of the ends of all boards: the widest and the thickest of them fit.
func (d stickDiagram) endScale() float64 {
	wide, thick := 0.0, 0.0
	for _, b := range d.c.Plan.Boards {
		wide, thick = max(wide, b.Width), max(thick, d.thickness(b.Item))
	}
	return d.st.scaleFor(wide, thick, d.width*endWide, endHigh)
}

// stripNumber returns the number of a strip on the end of its board, where it fits.
func (d stickDiagram) stripNumber(n int, at geom.Point, room float64) sheet.Drawing {
	t := sheet.Text{At: at, S: strconv.Itoa(n), Size: nameSize, Weight: sheet.Bold, Anchor: sheet.Middle}
	if t.Width()+1 > room {
		return nil
	}
	return sheet.Drawing{t}
}

// steps drops steps of a chain that have no length.
func steps(points []geom.Point, texts []string) ([]geom.Point, []string) {
	var ps []geom.Point
	var ts []string
	for i, p := range points {
		if n := len(ps); n > 0 && p.X-ps[n-1].X < 0.05 {
			ts[n-1] = texts[i]
			continue
		}
		ps, ts = append(ps, p), append(ts, texts[i])
	}
	return ps, ts
}

// ripText says how many strips of which width are ripped.
func (d stickDiagram) ripText(r RipPlan) string {
	text := d.st.figure(r.Rough)
	if r.Strips > 1 {
		text = strconv.Itoa(r.Strips) + " × " + text
	}
	if r.Slant != nil {
		text += ", tilt " + d.st.Lengths.Angle(r.Slant.Bevel)
	}
	return text
}

// thickness returns the rough thickness of an item; that of 4/4 where it is not known.
func (d stickDiagram) thickness(item string) float64 {
	if it, ok := d.c.item(item); ok && it.Thickness > 0 {
		return it.Thickness
	}
	return measure.MMPerInch
}
