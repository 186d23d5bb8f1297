package template

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter"
	"listel/template/sheet"
)

// Scales of the blank's end: those at which it is enlarged, and those that it is made smaller to.
var (
	scribeLarger  = [...]float64{2, 3, 4}
	scribeSmaller = [...]float64{1.0 / 2, 1.0 / 4, 1.0 / 8, 1.0 / 16}
)

// scribeRoom is the least room, mm on paper, between two scribed lines that need no enlarging.
const scribeRoom = 4.0

// scribed returns the blank's end with its lines at full size; where they stand close, larger, so far as a third of the area holds it; where that does not hold it, smaller.
func (c *setupComposer) scribed(area geom.Rect) (end part, k float64) {
	layout := newBlankLayout(c.plan)
	at := func(k float64) part { return newPart(layout.drawing(k, c.st)) }
	end, k = at(1), 1
	near := layout.nearest()
	for _, larger := range scribeLarger {
		if near*k >= scribeRoom {
			break
		}
		if p := at(larger); p.w <= area.Width() && p.h <= area.Height()/3 {
			end, k = p, larger
		}
	}
	for _, smaller := range scribeSmaller {
		if end.w > area.Width() || end.h > area.Height()-40 {
			end, k = at(smaller), smaller
		}
	}
	return end, k
}

// first returns the sheets that come before the pictures: the blank's end, the tools, what to know.
func (c *setupComposer) first() []sheet.Page {
	purpose := "Square the stick to the blank; scribe these lines on its left end, mirrored on its right end"
	if len(c.thinWords()) > 0 && !c.plan.Plan.Blank.RunsOut {
		purpose = "Square the board's edge; scribe these lines on its left end, mirrored on its right end"
	}
	f := c.st.frame(c.title+": before the first cut", purpose, "")
	area := f.Area(c.st.Paper)
	end, k := c.scribed(area)
	if k != 1 {
		f.FullSize, f.Scale = false, scaleRatio(k)
	}
	area = f.Area(c.st.Paper)
	d := end.at(geom.Pt(area.Min.X, area.Max.Y-end.h-1))
	beside := geom.Rect{Min: geom.Pt(area.Min.X+end.w+partGap, area.Min.Y), Max: area.Max}
	below := geom.Rect{Min: area.Min, Max: geom.Pt(area.Max.X, area.Max.Y-end.h-partGap)}
	blocks := c.blocks()
	pages := []sheet.Page{{Paper: c.st.Paper, Frame: f, Content: d}}
	rooms := []geom.Rect{below}
	if beside.Width() >= 70 {
		beside.Min.Y = area.Max.Y - end.h
		rooms = []geom.Rect{beside, below}
	}
	for len(blocks) > 0 {
		page := &pages[len(pages)-1]
		for _, r := range rooms {
			var set sheet.Drawing
			set, blocks = fill(r, blocks)
			page.Content = page.Content.Add(set...)
		}
		if len(blocks) > 0 {
			g := f
			g.Title, g.Purpose, g.FullSize, g.Scale = c.title+": at the machine", "Tools, clearances and cautions", false, ""
			pages = append(pages, sheet.Page{Paper: c.st.Paper, Frame: g})
			if r := g.Area(c.st.Paper); len(rooms) == 1 && rooms[0] == r {
				break // a block higher than the sheet: it was tried on a sheet of its own
			} else {
				rooms = []geom.Rect{r}
			}
		}
	}
	return pages
}

// A noteBlock is a paragraph or table that may be set in a room of a width.
type noteBlock func(width float64) part

// fill sets as many blocks as the room holds, from its top, and returns the rest.
func fill(room geom.Rect, blocks []noteBlock) (sheet.Drawing, []noteBlock) {
	var d sheet.Drawing
	y := room.Max.Y
	for len(blocks) > 0 {
		p := blocks[0](room.Width())
		if p.w > room.Width()+0.5 || y-p.h < room.Min.Y {
			break
		}
		d = d.Add(p.at(geom.Pt(room.Min.X, y-p.h))...)
		y -= p.h + 3.5
		blocks = blocks[1:]
	}
	return d, blocks
}

// blocks returns what is told before the pictures, in its order.
func (c *setupComposer) blocks() []noteBlock {
	out := []noteBlock{c.say(figureSize, sheet.Bold, c.summary())}
	add := func(n SetupNote) {
		size, weight := noteSize, sheet.Regular
		if n.Strong {
			weight = sheet.Bold
		}
		if n.Warns {
			size = figureSize
		}
		out = append(out, c.say(size, weight, n.Text))
	}
	for _, n := range c.notes() {
		add(n)
	}
	out = append(out, c.toolTable)
	if !c.byHand() && len(c.openings().Rows) > 0 {
		out = append(out, c.clearance)
	}
	add(SetupNote{Text: c.aboutWords()})
	for i, s := range c.plan.cautions(c.st.Lengths) {
		w := sheet.Regular
		if i == 0 {
			w = sheet.Bold
		}
		out = append(out, c.say(noteSize, w, "• "+s))
	}
	return out
}

// aboutWords says how distances are measured.
func (c *setupComposer) aboutWords() string {
	if c.byHand() {
		return "Sizes are to " + map[bool]string{true: "1/64 in", false: "0.5 mm"}[c.st.inches()] + "; the scribed line decides: gauge the lines along the whole stick, cut the rabbets and chamfers to them, then the hollows and rounds that run " +
			"on the edges so made. Distances run from the stop to the nearest cutting edge, heights from the bench to the lowest."
	}
	return "Cuts at least: the cutting length that the bit needs for the deepest of its cuts; with a shorter one, find another way. Speeds are those of a common workshop table by diameter; what the maker of the bit or the router states prevails. " +
		"Fence distances run to the nearest cutting edge, heights from the table to the highest cutting point."
}

// notes returns what is to be known before the first cut.
func (c *setupComposer) notes() []SetupNote {
	plan := c.plan.Plan
	var out []SetupNote
	if len(c.plan.Faults) > 0 {
		out = append(out, SetupNote{"DO NOT CUT FROM THESE SHEETS: the plan did not pass its check. " + strings.Join(c.plan.Faults, ". ") + ".", true, true})
	}
	for _, words := range c.hints(true) {
		out = append(out, SetupNote{Text: words, Strong: true})
	}
	for i, words := range c.thinWords() {
		out = append(out, SetupNote{words, i == 0, i == 0})
	}
	out = append(out, SetupNote{Text: c.checkedWords()})
	for _, u := range plan.Unreached {
		out = append(out, SetupNote{Text: "Not reached: " + u.Words(c.st.leftOver) + "."})
	}
	for _, words := range c.hints(false) {
		out = append(out, SetupNote{Text: words})
	}
	for _, words := range betweenDentils(c.plan.Section, c.st.Lengths.Drawing) {
		out = append(out, SetupNote{Text: words})
	}
	return out
}

// checkedWords says what the check of the plan found.
func (c *setupComposer) checkedWords() string {
	into := "none goes into the section"
	if upToFine(c.plan.Gouge, c.st.Lengths) > 0 {
		into = fmt.Sprintf("none goes more than %s into the section", c.st.noMore(c.plan.Gouge))
	}
	left := "no more than " + c.st.noMore(c.plan.Left) + " is left on it"
	if c.plan.Stays > 0 {
		left += fmt.Sprintf(" but in the places that no tool reaches, where %s stays", c.st.leftOver(c.plan.Stays))
	}
	return fmt.Sprintf("Every cut was checked anew, in another way: %s, %s.", into, left)
}

// hints returns the plan's hints in words, those to be read first or the others. The places not reached stand by themselves.
func (c *setupComposer) hints(strong bool) []string {
	var out []string
	for _, h := range c.plan.Plan.Hints {
		if h.Kind != cutter.HintUnreached && h.Strong() == strong {
			out = append(out, h.Words(c.st.Lengths.Drawing))
		}
	}
	return out
}

// say returns a paragraph as a block.
func (c *setupComposer) say(size float64, w sheet.Weight, text string) noteBlock {
	return func(width float64) part {
		d, h := sheet.Paragraph{Text: text, Width: width, Size: size, Weight: w}.Set(geom.Point{})
		return part{d.At(geom.Pt(0, h)), width, h}
	}
}

// summary says what the plan is.
func (c *setupComposer) summary() string {
	p, f := c.plan.Plan, c.st.Lengths
	what := "set-ups"
	if len(p.Setups) == 1 {
		what = "set-up"
	}
	if c.byHand() {
		what += " with planes"
	}
	s := fmt.Sprintf("%s %s × %s. %d %s", blankName(p), f.Drawing(p.Blank.Width), f.Drawing(p.Blank.Thickness), len(p.Setups), what)
	if p.Proven {
		s += "; fewer are not possible with these cuts"
	}
	return s + ". Tools: " + c.plan.Set + "."
}

// blankName names the blank of a plan: that of a sprung molding by the way in which it holds it.
func blankName(p cutter.Result) string {
	switch p.Blank.Way {
	case profile.BlankFlat:
		return "Flat blank"
	case profile.BlankUpright:
		return "Upright blank"
	}
	return "Blank"
}

// toolTable returns the tools in the order of their use, with the set-ups they are for and how fast they may turn.
func (c *setupComposer) toolTable(width float64) part {
	t := sheet.Table{Size: noteSize, Width: width, Columns: []sheet.Column{{Head: "Tool", Wrap: true}, {Head: "Used in"}}}
	if !c.byHand() {
		t.Columns = append(t.Columns, sheet.Column{Head: "Cuts at least", Align: sheet.AlignRight}, sheet.Column{Head: "At most", Align: sheet.AlignRight}, sheet.Column{Head: "Rim speed", Align: sheet.AlignRight})
	}
	for _, tool := range c.tools() {
		row := []string{tool.Tool, tool.Used}
		if !c.byHand() {
			row = append(row, tool.Cuts, tool.Speed, tool.Rim)
		}
		t.Rows = append(t.Rows, row)
	}
	return tablePart(t)
}

func tablePart(t sheet.Table) part {
	laid := t.Set(geom.Point{})
	return part{laid.Drawing.At(geom.Pt(0, laid.Height)), laid.Width, laid.Height}
}

// clearance returns the table of openings.
func (c *setupComposer) clearance(width float64) part {
	t := c.openings()
	t.Width = width
	return tablePart(t)
}

// leastOpening is how far a cutter must reach behind the fence's face before that is opened, mm: less is only touched.
const leastOpening = 0.01

// openings returns for each set-up whose cutter runs into the fence how wide and deep it must be opened, and how near a thick shank comes to the
// section.
func (c *setupComposer) openings() sheet.Table {
	t := sheet.Table{Size: noteSize, Columns: []sheet.Column{{Head: "Set-up"}, {Head: "Clearance", Wrap: true}}}
	for _, u := range c.plan.Plan.Setups {
		var notes []string
		tool := c.plan.tool(u.Tool)
		switch r := tool.Across() / 2; {
		case u.Work == cutter.Router && r > 0 && r-u.Axis > leastOpening:
			wide := 2 * math.Sqrt(r*r-math.Max(0, u.Axis)*math.Max(0, u.Axis))
			up := func(mm float64) string { return c.st.setting(math.Max(mm, measure.MMPerInch/64)) }
			notes = append(notes, fmt.Sprintf("fence opened just over %s wide, %s deep, %s high", up(wide), up(r-u.Axis), up(u.Height)))
		case u.Work == cutter.Saw && u.Fence < -0.005:
			notes = append(notes, fmt.Sprintf("blade runs %s into the fence: face it with a board that may be cut", c.st.setting(-u.Fence)))
		}
		if gap, ok := c.shankGap(u, tool); ok {
			notes = append(notes, fmt.Sprintf("shank passes the section at %s", c.st.setting(gap)))
		}
		if len(notes) > 0 {
			t.Rows = append(t.Rows, []string{strconv.Itoa(u.N), strings.Join(notes, "; ")})
		}
	}
	return t
}

// shankGap returns how near a shank or body that is thicker than what cuts comes to the section, when that is under 5 mm.
func (c *setupComposer) shankGap(u cutter.Setup, t cutter.Tool) (float64, bool) {
	if u.Work != cutter.Router || t.Length == 0 || t.Length >= t.Reach || t.Shank <= t.Across() {
		return 0, false
	}
	gap := math.Inf(1)
	body := polygonOf(u.Body).pts
	for i, a := range body {
		b := body[(i+1)%len(body)]
		n := max(1, int(a.Dist(b)/0.25))
		for k := range n {
			_, _, d := c.plan.Section.Outline.Nearest(a.Lerp(b, float64(k)/float64(n)))
			gap = math.Min(gap, d)
		}
	}
	return gap, gap < 5
}
