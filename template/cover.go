package template

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Cover returns the first sheet of a packet: the case from the front and from its right end with the moldings in place, each molding from
// above with the marks of its pieces, and the parts of the packet that follow. Plans that do not fit go to a second sheet.
func Cover(c miter.Case, r miter.Result, st Style, contents []Content) []sheet.Page {
	v := coverViews{c: c, r: r, st: st}
	area := v.frame().Area(st.Paper)
	list := v.contents(contents, 1, area.Width())
	ratios := st.ratios()
	for i, n := range ratios {
		k := 1 / n
		views := v.views(k)
		for _, m := range ratios[i:] {
			small := 1 / m
			if views.w > area.Width() || small < k/leastPlan {
				break
			}
			plans := v.plans(small, area.Width())
			if plans.w <= area.Width() && views.h+plans.h+list.h+2*partGap <= area.Height() {
				return []sheet.Page{v.page(v.stack(area, views, plans, list))}
			}
		}
		if k < v.least(area) {
			break
		}
	}
	return v.twoSheets(area, v.contents(contents, 2, area.Width()))
}

// leastPlan is how much smaller than the views the plans may be drawn: they show where pieces go, not their sizes.
const leastPlan = 2.0

// coverViews are what a cover is composed of.
type coverViews struct {
	c  miter.Case
	r  miter.Result
	st Style
}

// least returns the scale under which the views on a single sheet would be too small to read: a third of what the sheet could hold.
func (v coverViews) least(area geom.Rect) float64 {
	front, end := elevation(v.r, fromFront).Bounds(), elevation(v.r, fromRight).Bounds()
	return min(area.Width()/(front.Width()+end.Width()), area.Height()/front.Height()) / 3
}

func (v coverViews) frame() sheet.Frame {
	title := v.c.Heading()
	purpose := "The case, and where each piece goes"
	if v.c.Wood != "" {
		purpose += ". Wood: " + v.c.Wood
	}
	if len(v.c.Moldings) > 0 {
		purpose += ". " + v.overall()
	}
	return v.st.frame(title, purpose, asNoted)
}

func (v coverViews) page(d sheet.Drawing) sheet.Page {
	return sheet.Page{Paper: v.st.Paper, Frame: v.frame(), Content: d}
}

// stack sets parts under one another over the whole height of the area, the views at the top.
func (v coverViews) stack(area geom.Rect, parts ...part) sheet.Drawing {
	free := area.Height()
	for _, p := range parts {
		free -= p.h
	}
	gap := min(free/float64(len(parts)), 2*partGap)
	var d sheet.Drawing
	y := area.Max.Y
	for i, p := range parts {
		x := area.Min.X
		if i == 0 {
			x += (area.Width() - p.w) / 2
		}
		y -= p.h
		d = d.Add(p.at(geom.Pt(x, y))...)
		y -= gap
	}
	return d
}

// twoSheets sets the views and the contents on one sheet and the plans on another.
func (v coverViews) twoSheets(area geom.Rect, list part) []sheet.Page {
	ratios := v.st.ratios()
	largest := func(fits func(k float64) bool) float64 {
		for _, n := range ratios {
			if fits(1 / n) {
				return 1 / n
			}
		}
		return 1 / ratios[len(ratios)-1]
	}
	within := func(room geom.Rect, parts ...part) bool {
		h := partGap * float64(len(parts)-1)
		w := 0.0
		for _, p := range parts {
			h, w = h+p.h, max(w, p.w)
		}
		return w <= room.Width() && h <= room.Height()
	}
	first := v.views(largest(func(k float64) bool { return within(area, v.views(k), list) }))
	plans := v.plans(largest(func(k float64) bool { return within(area, v.plans(k, area.Width())) }), area.Width())
	return []sheet.Page{v.page(v.stack(area, first, list)), v.page(v.stack(area, plans))}
}

// views returns the front and the right end side by side on one floor, with sizes and the moldings' names.
func (v coverViews) views(k float64) part {
	front := elevation(v.r, fromFront).Moved(scaled(k))
	end := elevation(v.r, fromRight).Moved(scaled(k))
	fb, eb := front.Bounds(), end.Bounds()
	const between = 24.0
	shift := geom.Translation(geom.Pt(fb.Max.X+between-eb.Min.X, 0))
	d := front.Add(end.Moved(shift)...)
	eb = end.Moved(shift).Bounds()
	d = d.Add(sheet.Line(geom.Pt(fb.Min.X-4, 0), geom.Pt(eb.Max.X+4, 0), sheet.PenOutline))
	d = d.Add(v.sizes(k, shift, fb, eb)...)
	d = d.Add(v.names(k, fb)...)
	top := fb.Max.Y + 4
	for _, y := range v.dimLevels(fb)[min(1, len(v.r.Stages)):] {
		if !math.IsNaN(y) {
			top = y + 7
		}
	}
	d = d.Add(
		sheet.Text{At: geom.Pt(fb.Center().X, top), S: "Front, " + scaleRatio(k), Size: headingSize, Weight: sheet.Bold, Anchor: sheet.Bottom},
		sheet.Text{At: geom.Pt(eb.Center().X, top), S: "Right end", Size: headingSize, Weight: sheet.Bold, Anchor: sheet.Bottom})
	return newPart(d)
}

// sizes returns the dimensions of the case: width and depth of the stages, heights, and over all. Those of the lowest stage stand under the
// views, those of the others over them.
func (v coverViews) sizes(k float64, shift geom.Affine, fb, eb geom.Rect) sheet.Drawing {
	var d sheet.Drawing
	to := scaled(k)
	side := to.Then(shift)
	for i, level := range v.dimLevels(fb) {
		b := v.r.Stages[i].Bounds()
		if math.IsNaN(level) {
			continue
		}
		from := 0.0
		if i > 0 {
			from = v.r.Stages[i].Top * k
		}
		at := func(m geom.Affine, x float64) geom.Point { return geom.Pt(m.Apply(geom.Pt(x, 0)).X, from) }
		if len(v.r.Stages) > 1 {
			d = d.Add(sheet.Text{At: geom.Pt(at(to, b.Min.X).X-2, level), S: v.alike(i), Size: noteSize, Anchor: sheet.Right})
		}
		d = d.Add(sheet.Dim{A: at(to, b.Min.X), B: at(to, b.Max.X), At: level, Text: v.st.figure(b.Width()), Size: figureSize}.Drawing()...)
		d = d.Add(sheet.Dim{A: at(side, b.Min.Y), B: at(side, b.Max.Y), At: level, Text: v.st.figure(b.Height()), Size: figureSize}.Drawing()...)
	}
	top := v.top()
	right, from := eb.Max.X+19, eb.Max.X
	if heights := v.heights(); len(v.r.Stages) > 1 {
		chain := sheet.Chain{Along: sheet.Up, At: eb.Max.X + 5, Size: noteSize, Bare: true}
		for i, z := range heights {
			chain.Points = append(chain.Points, geom.Pt(eb.Max.X, z*k))
			if i > 0 {
				chain.Texts = append(chain.Texts, v.st.figure(z-heights[i-1]))
			}
		}
		steps := chain.Drawing()
		d = d.Add(steps...)
		from = steps.Bounds().Max.X // the lines of the whole height begin beside the figures of the steps
		right = max(right, from+2+sheet.TextWidth(v.st.figure(top), figureSize, sheet.Regular)/2)
	}
	return d.Add(sheet.Dim{A: geom.Pt(from, 0), B: geom.Pt(from, top*k), Along: sheet.Up, At: right, Text: v.st.figure(top), Size: figureSize}.Drawing()...)
}

// alike names the stages that are as wide and deep as stage i.
func (v coverViews) alike(i int) string {
	var names []string
	size := v.r.Stages[i].Bounds()
	for _, s := range v.r.Stages {
		if b := s.Bounds(); geom.Pt(b.Width(), b.Height()).Near(geom.Pt(size.Width(), size.Height()), sameHeight) {
			names = append(names, s.Name)
		}
	}
	return strings.Join(names, ", ")
}

// dimLevels returns for each stage where up the sheet its width and depth are dimensioned; NaN for one that is as wide and deep as another
// before it.
func (v coverViews) dimLevels(fb geom.Rect) []float64 {
	var out []float64
	var seen []geom.Point
	y := fb.Max.Y + 6
	for i, s := range v.r.Stages {
		b := s.Bounds()
		size := geom.Pt(b.Width(), b.Height())
		level := -7.0
		switch {
		case slices.ContainsFunc(seen, func(o geom.Point) bool { return o.Near(size, sameHeight) }):
			level = math.NaN()
		case i > 0:
			level = y
			y += 8
		}
		seen = append(seen, size)
		out = append(out, level)
	}
	return out
}

// sameHeight is the difference of two heights that counts as none, mm: less than is printed.
const sameHeight = 0.05

// heights returns the floors and tops of the stages over the floor and the top of the case with its moldings, rising, equal ones once.
func (v coverViews) heights() []float64 {
	var all, out []float64
	for _, s := range v.r.Stages {
		all = append(all, s.Floor, s.Top)
	}
	all = append(all, v.top())
	slices.Sort(all)
	for _, z := range all {
		if len(out) == 0 || z-out[len(out)-1] > sameHeight {
			out = append(out, z)
		}
	}
	return out
}

// top returns the height of the case over all, mm.
func (v coverViews) top() float64 {
	top := 0.0
	for _, s := range v.r.Stages {
		top = max(top, s.Top)
	}
	for _, m := range v.r.Moldings {
		for _, p := range m.Pieces {
			top = max(top, pieceTop(p))
		}
	}
	return top
}

// pieceTop returns the height of the highest point of a piece over the floor, mm.
func pieceTop(p miter.Piece) float64 {
	top := 0.0
	if p.Section == nil {
		return top
	}
	left, right := p.Cuts()
	for _, place := range p.Places {
		for _, seg := range p.Section.Outline {
			q := seg.Start()
			top = max(top, place.At(left.At(q), q).Z, place.At(right.At(q), q).Z)
		}
	}
	return top
}

// nameStep is the room up the sheet from a molding's name to the height of its foot under it, mm.
const nameStep = 4.6

// names returns the names of the moldings with the heights of their feet over the floor, at the left of the front view, each with a line to its
// molding.
func (v coverViews) names(k float64, fb geom.Rect) sheet.Drawing {
	want, half := []float64{}, []float64{}
	type named struct {
		text string
		tip  geom.Point
		foot float64
	}
	var all []named
	for _, m := range v.byHeight() {
		if len(m.Sections) == 0 || len(m.Runs) == 0 {
			continue
		}
		y := (m.Foot + m.Sections[0].Section.Height/2) * k
		x := math.Inf(1)
		for _, run := range m.Runs {
			for _, p := range [...]geom.Point{run.Inner[0], run.Inner[1], run.Outer[0], run.Outer[1]} {
				x = math.Min(x, p.X)
			}
		}
		all = append(all, named{m.Name, geom.Pt(x*k, y), m.Foot})
		want, half = append(want, y), append(half, nameStep)
	}
	var d sheet.Drawing
	for i, y := range sheet.Spread(want, half, 0.4) {
		at := geom.Pt(fb.Min.X-12, y+nameStep/2)
		d = d.Add(sheet.Polyline(sheet.PenHair, all[i].tip, geom.Pt(fb.Min.X-4, at.Y), at), sheet.Dot(all[i].tip, 0.5))
		name := sheet.Text{At: at.Sub(geom.Pt(1, 0)), S: all[i].text, Size: nameSize, Anchor: sheet.Right, Weight: sheet.Bold}
		foot := sheet.Text{At: name.At.Sub(geom.Pt(0, nameStep)), S: "foot at " + v.st.figure(all[i].foot), Size: noteSize, Anchor: sheet.Right}
		d = d.Add(name, foot)
	}
	return d
}

// byHeight returns the moldings from the floor up.
func (v coverViews) byHeight() []miter.MoldingResult {
	return sortedBy(v.r.Moldings, func(m miter.MoldingResult) float64 { return m.Foot })
}

// plans returns the moldings from above, side by side in rows no wider than width.
func (v coverViews) plans(k, width float64) part {
	const gap = 9.0
	var d sheet.Drawing
	x, y, rowHeight := 0.0, 0.0, 0.0
	for _, m := range v.byHeight() {
		plan := moldingPlan(v.r, m, k)
		b := plan.Bounds()
		plan = plan.Add(sheet.Text{At: geom.Pt(b.Min.X, b.Max.Y+3), S: m.Name, Size: headingSize, Weight: sheet.Bold})
		plan = plan.Add(sheet.Text{At: geom.Pt(b.Min.X+sheet.TextWidth(m.Name+"  ", headingSize, sheet.Bold), b.Max.Y+3), S: m.Profile + ", " + scaleRatio(k), Size: noteSize})
		p := newPart(plan)
		if x > 0 && x+p.w > width {
			x, y, rowHeight = 0, y-rowHeight-gap, 0
		}
		d = d.Add(p.at(geom.Pt(x, y-p.h))...)
		x += p.w + gap
		rowHeight = max(rowHeight, p.h)
	}
	return newPart(d)
}

// A Content is one part of the packet and how many sheets it has.
type Content struct {
	Name   string
	Sheets int
}

// contents returns the list of the parts that follow a cover of so many sheets, in as many columns as hold them.
func (v coverViews) contents(parts []Content, cover int, width float64) part {
	if len(parts) == 0 {
		return part{}
	}
	lines := contentLines(parts, cover+1)
	columns := min(3, (len(lines)+4)/5)
	for columns > 1 && widest(lines, nameSize) > width/float64(columns)-columnGap {
		columns--
	}
	rows := (len(lines) + columns - 1) / columns
	step := sheet.LineHeight(nameSize)
	d := sheet.Drawing{sheet.Text{S: "Sheets", Size: headingSize, Weight: sheet.Bold}}
	if n := slices.IndexFunc(parts, func(p Content) bool { return p.Name == printerCheckPart }); n >= 0 {
		d = d.Add(sheet.Text{At: geom.Pt(0, -float64(rows+1)*step-4), S: fmt.Sprintf("Before anything at full size is used: print sheet %s first and lay a rule on it.", sheetsOf(parts, n, cover+1)), Size: nameSize, Weight: sheet.Bold})
	}
	for i, s := range lines {
		col, row := i/rows, i%rows
		at := geom.Pt(float64(col)*width/float64(columns), -float64(row+1)*step-1)
		d = d.Add(sheet.Text{At: at, S: s, Size: nameSize})
	}
	return newPart(d)
}

// columnGap is the room between two columns of the contents, mm.
const columnGap = 4.0

// widest returns the width of the widest of the lines, mm.
func widest(lines []string, size float64) float64 {
	w := 0.0
	for _, s := range lines {
		w = max(w, sheet.TextWidth(s, size, sheet.Regular))
	}
	return w
}

// contentLines returns the parts with the numbers of their sheets, the first of which is from: "2-5  Sections".
func contentLines(parts []Content, from int) []string {
	var out []string
	for i, p := range parts {
		out = append(out, sheetsOf(parts, i, from)+"  "+p.Name)
	}
	return out
}

// sheetsOf returns the numbers of the sheets of part i, the first part beginning on sheet from: "2-5".
func sheetsOf(parts []Content, i, from int) string {
	for _, p := range parts[:i] {
		from += p.Sheets
	}
	if n := parts[i].Sheets; n > 1 {
		return fmt.Sprintf("%d-%d", from, from+n-1)
	}
	return fmt.Sprint(from)
}
