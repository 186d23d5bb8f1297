package template

import (
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
