package template

import (
	"fmt"
	"slices"

	"listel/profile/geom"
	"listel/template/cutter"
	"listel/template/sheet"
)

// SetupSheets returns the sheets of a plan of set-ups: first the end of the blank full size with the lines to scribe on it, the tools with
// their speeds, and the cautions; then one picture a set-up, six to a sheet. A plan without set-ups
// has no sheets. The pages are not yet numbered.
func SetupSheets(plan SetupPlan, st Style) []sheet.Page {
	if len(plan.Plan.Setups) == 0 {
		return nil
	}
	st = st.roomy()
	c := &setupComposer{plan: plan, st: st, title: setupTitle(plan), stick: newCutStick(plan)}
	return append(c.first(), c.pictures()...)
}

func setupTitle(plan SetupPlan) string {
	if plan.Section.Title != "" {
		return plan.Section.Title
	}
	return plan.Section.Name
}

// A setupComposer lays the sheets of a plan out on the paper.
type setupComposer struct {
	plan  SetupPlan
	st    Style
	title string
	stick *cutStick
}

// byHand reports whether the plan is for planes.
func (c *setupComposer) byHand() bool { return c.plan.Plan.Setups[0].Work == cutter.Plane }

// Least room of a cell, mm.
const (
	cellWide = 88.0
	cellHigh = 66.0
)

// pictureScales are the scales of the pictures, the largest first, with their words.
var pictureScales = []struct {
	k     float64
	words string
}{{3, "3:1"}, {2, "2:1"}, {1.5, "3:2"}, {1, "1:1"}, {0.75, "3:4"}, {2.0 / 3, "2:3"}, {0.5, "1:2"}, {1.0 / 3, "1:3"}, {0.25, "1:4"}, {0.2, "1:5"}, {0.125, "1:8"}, {0.1, "1:10"}, {0.05, "1:20"}}

// pictures returns the sheets of pictures.
func (c *setupComposer) pictures() []sheet.Page {
	purpose := "The end of the stick, seen from where it is fed in, fence at the right: dark is what this set-up takes, ruled what stays, dashed the finished section"
	if c.byHand() {
		purpose = "The end of the stick on the bench against its stop: dark is what this plane takes, ruled what stays, dashed the finished section"
	}
	switch {
	case c.plan.Plan.Blank.RunsOut:
		purpose = "NOT AS A LOOSE STICK, on a carrier board. " + purpose
	case len(c.thinWords()) > 0:
		purpose = "NOT AS A LOOSE STICK, on the edge of a board. " + purpose
	}
	f := sheet.Frame{Title: c.title + ": set-ups", Purpose: purpose, Source: c.st.Source, Printer: c.st.Printer}
	g := c.grid(f)
	g.frame.Purpose += ". All the pictures of this plan are to one scale"
	var pages []sheet.Page
	all, from := c.plan.Plan.Setups, 0
	for _, rows := range g.rows {
		to := min(len(all), from+g.cols*rows)
		f := g.frame
		f.Title = fmt.Sprintf("%s: set-ups %d to %d of %d", c.title, from+1, to, len(all))
		if to == from+1 {
			f.Title = fmt.Sprintf("%s: set-up %d of %d", c.title, to, len(all))
		}
		area := f.Area(c.st.Paper)
		var d sheet.Drawing
		for i := from; i < to; i++ {
			cell := g.cell
			cell.picture = setupPicture{plan: c.plan, stick: c.stick, i: i, k: g.k, st: c.st}
			col, row := (i-from)%g.cols, (i-from)/g.cols
			one := cell.drawing()
			at := geom.Pt(area.Min.X+float64(col)*cell.w, area.Max.Y-float64(row+1)*cell.h)
			d = d.Add(one.At(at)...)
			if row > 0 && col == 0 {
				y := area.Max.Y - float64(row)*cell.h
				d = d.Add(sheet.Line(geom.Pt(area.Min.X, y), geom.Pt(area.Max.X, y), sheet.PenHair))
			}
		}
		pages = append(pages, sheet.Page{Paper: c.st.Paper, Frame: f, Content: d})
		from = to
	}
	return pages
}

// A cellGrid is how the cells of a plan stand on its sheets: all of a size, their pictures to one scale.
type cellGrid struct {
	frame sheet.Frame
	cols  int
	rows  []int // of each sheet
	cell  setupCell
	k     float64 // mm of paper for a mm of wood
}

// smallPicture is the scale under which fewer pictures, and larger, stand on a sheet.
const smallPicture = 0.5

// grid returns the grid of a plan: six cells to a sheet, or four where those would be small and these are larger. At full size the sheets carry the bars, where
// they leave the pictures the room.
func (c *setupComposer) grid(f sheet.Frame) cellGrid {
	area := f.Area(c.st.Paper)
	cols, most := max(1, int(area.Width()/cellWide)), max(1, int(area.Height()/cellHigh))
	if cols*most > 6 {
		most = max(1, 6/cols)
	}
	g := c.gridOf(f, cols, most)
	if g.k < smallPicture && most > 2 {
		if larger := c.gridOf(f, cols, 2); larger.k > g.k {
			g = larger
		}
	}
	if g.k == 1 {
		bars := f
		bars.FullSize = true
		if full := c.gridOf(bars, cols, slices.Max(g.rows)); full.k == 1 {
			g = full
			g.frame.Scale = ""
		}
	}
	return g
}

// gridOf returns the grid with no more rows than most on a sheet, at the largest scale at which all pictures fit their cells in one of the ways.
func (c *setupComposer) gridOf(f sheet.Frame, cols, most int) cellGrid {
	all := len(c.plan.Plan.Setups)
	g := cellGrid{frame: f, cols: cols, rows: shared((all+cols-1)/cols, most)}
	area := f.Area(c.st.Paper)
	g.cell = setupCell{w: area.Width() / float64(cols), h: area.Height() / float64(max(slices.Max(g.rows), min(most, 2)))}
	for _, s := range pictureScales {
		g.k, g.frame.Scale = s.k, s.words
		g.cell.tall = c.tallest(s.k)
		for _, way := range []cellWay{wordsBeside, wordsUnder} {
			g.cell.way = way
			if c.holds(g) {
				return g
			}
		}
	}
	g.cell.way = wordsBeside
	return g
}

// tallest returns the height of the tallest picture of the plan at a scale, mm on paper.
func (c *setupComposer) tallest(k float64) float64 {
	tall := 0.0
	for i := range c.plan.Plan.Setups {
		tall = max(tall, setupPicture{plan: c.plan, stick: c.stick, i: i, k: k, st: c.st}.bounds().Height())
	}
	return tall
}

// holds reports whether all cells of a grid hold their pictures and words.
func (c *setupComposer) holds(g cellGrid) bool {
	for i := range c.plan.Plan.Setups {
		g.cell.picture = setupPicture{plan: c.plan, stick: c.stick, i: i, k: g.k, st: c.st}
		if _, ok := g.cell.arrange(); !ok {
			return false
		}
	}
	return true
}

// shared returns how many of n rows each sheet has, as evenly as can be on as few sheets as hold them: no row spills over alone.
func shared(n, most int) []int {
	sheets := (n + most - 1) / most
	out := make([]int, sheets)
	for i := range out {
		out[i] = n / sheets
		if i < n%sheets {
			out[i]++
		}
	}
	return out
}
