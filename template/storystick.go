package template

import (
	"fmt"
	"math"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// StoryStick returns the story stick of a case at full size: every height from the floor up on one tape, moldings, stages, openings and
// notches, and across the front the openings on another, which lies as it is used. The tapes are cut into lengths that lie beside one another on the sheets, to be
// glued on a stick, end to end or, after a long stretch with nothing on it, by the measure that each bears. The pages are not yet numbered.
func StoryStick(r miter.Result, st Style) []sheet.Page {
	st = st.roomy()
	tapes := []tape{storyTape(heightMarks(r, st), "H", false, st)}
	purpose := "Cut out, glue on a stick where each says that it begins, and mark the case from the edge with the lines: H from the floor up"
	if marks := acrossMarks(r, st); len(marks) > 0 {
		tapes = append(tapes, storyTape(marks, "W", true, st))
		purpose += ", W from the left across the front"
	}
	return tapePages(tapes, st.frame("Story stick", sentence(purpose, st.unitNote()), ""), st.Paper)
}

// A storyMark is one line on a story stick.
type storyMark struct {
	at   float64 // mm
	name string
	main bool // an end of a stage or of a molding
}

// Sizes on a story stick, mm.
const (
	storyLine   = 11.0  // a line, from the left edge
	storyMain   = 15.0  // one of a stage or a molding
	storyWords  = 19.0  // where the words start
	storySame   = 0.05  // marks nearer to one another are one line
	storyMost   = 55.0  // width of a tape, at most
	storyAcross = 24.0  // width of the words of one that lies
	storyBlank  = 150.0 // a stretch with nothing on it that is longer is not printed
)

// heightMarks returns the heights of a case from the floor up.
func heightMarks(r miter.Result, st Style) []storyMark {
	var out []storyMark
	add := func(at float64, main bool, format string, args ...any) {
		out = append(out, storyMark{at, fmt.Sprintf(format, args...), main})
	}
	for _, s := range r.Stages {
		if s.Floor == 0 {
			add(0, true, "floor")
		} else {
			add(s.Floor, true, "%s: bottom", s.Name)
		}
		add(s.Top, true, "%s: top", s.Name)
	}
	for _, m := range r.Moldings {
		if len(m.Sections) == 0 {
			continue
		}
		s := m.Sections[0].Section
		if m.Foot > storySame {
			add(m.Foot, true, "%s: foot", m.Name)
		}
		add(m.Foot+s.Height, true, "%s: top", m.Name)
		if m.Rake != nil {
			add(m.Foot+m.Rake.Rise, true, "%s: foot at the peak", m.Name)
		}
	}
	l := r.Layout
	if l == nil {
		return out
	}
	for i, y := range rowsOf(*l) {
		row := fmt.Sprintf("row %d", i+1)
		if len(l.Heights) == 1 {
			row = "opening"
		}
		add(y[0], false, "%s: bottom", row)
		add(y[1], false, "%s: top", row)
	}
	for _, b := range l.Beads {
		if !b.Upright && strings.HasPrefix(b.Run, "divider-") {
			add(b.At.Center().Y, false, "notch for %s", b.Mark)
		}
	}
	return out
}

// rowsOf returns the foot and the top of each row of openings over the floor, mm.
func rowsOf(l miter.Layout) [][2]float64 {
	var out [][2]float64
	y := l.Area.Min.Y
	for i, h := range l.Heights {
		out = append(out, [2]float64{y, y + h})
		y += h
		if i < len(l.Dividers) {
			y += l.Dividers[i].Height()
		}
	}
	return out
}

// acrossMarks returns what stands across the front with the openings, from its left end; nil without openings.
func acrossMarks(r miter.Result, st Style) []storyMark {
	e, ok := layoutEdge(r)
	if !ok {
		return nil
	}
	l := r.Layout
	out := []storyMark{{0, "left end of the " + e.Name, true}, {e.Length(), "right end", true},
		{l.Area.Min.X, "openings: left", false}, {l.Area.Max.X, "openings: right", false}}
	for _, p := range l.Posts {
		out = append(out, storyMark{p.Min.X, "post: left", false}, storyMark{p.Max.X, "post: right", false})
	}
	for _, b := range l.Beads {
		if b.Upright && strings.HasPrefix(b.Run, "post-") {
			out = append(out, storyMark{b.At.Center().X, "notch for " + b.Mark, false})
		}
	}
	return out
}

// storyTape returns the tape of the marks, with an edge to lay on the work at its left; across, its words are turned to be read as it lies.
func storyTape(marks []storyMark, name string, across bool, st Style) tape {
	t := tape{name: name, across: across, step: inUnits(st.Lengths, 1./2, 10), begins: func(at float64) string { return "bottom at " + unbroken(st.figure(at)) }}
	width := storyMost - storyWords - 2
	if across {
		width = storyAcross
		t.begins = func(at float64) string { return "left end at " + unbroken(st.figure(at)) }
	}
	lines := mergedMarks(marks)
	if len(lines) == 0 {
		return t
	}
	t.from, t.to = lines[0].at, lines[len(lines)-1].at
	want, half := make([]float64, len(lines)), make([]float64, len(lines))
	words := make([]sheet.Drawing, len(lines))
	for i, m := range lines {
		p := sheet.Paragraph{Text: m.name + "  " + unbroken(st.figure(m.at)), Size: figureSize, Width: width}
		if m.main {
			p.Weight = sheet.Bold
		}
		d, high := p.Set(geom.Point{})
		wide := d.Bounds().Max.X
		long, deep := high, wide
		if across {
			d, long, deep = d.Quarter(), wide, high
		} else {
			d = d.At(geom.Pt(0, high))
		}
		words[i], half[i] = d, long/2
		want[i] = m.at
		t.wide = max(t.wide, storyWords+2+deep)
	}
	const apart = 2*tapeClear + 0.1
	free := t.from // nothing is written under the zero
	for i, y := range sheet.Spread(want, half, apart) {
		y = max(y, free+half[i]+tapeClear)
		free = y + half[i] + tapeClear
		long, pen := storyLine, sheet.PenThin
		if lines[i].main {
			long, pen = storyMain, sheet.PenOutline
		}
		at := lines[i].at
		t.drawing = t.drawing.Add(sheet.Line(geom.Pt(0, at), geom.Pt(long, at), pen))
		t.drawing = t.drawing.Add(sheet.Polyline(sheet.PenHair, geom.Pt(long, at), geom.Pt(storyMain+0.5, at), geom.Pt(storyWords-1, y)))
		t.drawing = t.drawing.Add(words[i].At(geom.Pt(storyWords, y-half[i]))...)
		t.words = append(t.words, [2]float64{min(at, y-half[i]), max(at, y+half[i])})
	}
	t.to = max(t.to, free)
	return t.without(storyBlank)
}

// unbroken returns a length that no line break parts: its blanks are no-break spaces.
func unbroken(length string) string { return strings.ReplaceAll(length, " ", "\u00a0") }

// mergedMarks returns the marks in rising order, those at one place as one with all the names.
func mergedMarks(marks []storyMark) []storyMark {
	var out []storyMark
	for _, m := range sortedBy(marks, func(m storyMark) float64 { return m.at }) {
		n := len(out) - 1
		if n >= 0 && math.Abs(out[n].at-m.at) < storySame {
			if !strings.Contains(", "+out[n].name+",", ", "+m.name+",") {
				out[n].name += ", " + m.name
			}
			out[n].main = out[n].main || m.main
			continue
		}
		out = append(out, m)
	}
	return out
}
