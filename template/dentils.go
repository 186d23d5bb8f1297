package template

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// DentilSheets returns, for each molding with dentils, how they are spaced on every face of the case: the blocks to scale, the list of
// pitches and of the places of the blocks, and tapes at full size to mark them from. The pages are not yet numbered.
func DentilSheets(r miter.Result, st Style) []sheet.Page {
	st = st.roomy()
	var pages []sheet.Page
	for _, m := range r.Moldings {
		if m.Course == nil || len(m.Course.Faces) == 0 {
			continue
		}
		title := sentenceStart(m.Name) + ": dentils"
		f := st.sheetFrame(title, sentence("Blocks and gaps on each face, measured along the faces of the blocks from the left end", st.unitNote()))
		s := dentilSheet{m: m, c: *m.Course, st: st, width: f.Area(st.Paper).Width()}
		pages = append(pages, stack(s.strips(), f, st.Paper)...)
		full := st.frame(title+", full size", "Cut out the tapes, glue them end to end, and mark the blocks from them", "")
		pages = append(pages, tapePages(s.tapes(), full, st.Paper)...)
	}
	return pages
}

// A dentilSheet draws the dentils of one molding.
type dentilSheet struct {
	m     miter.MoldingResult
	c     miter.Course
	st    Style
	width float64 // mm, of the room
}

// Sizes of the drawing of a course, mm on paper.
const (
	courseHigh = 7.0
	courseRoom = 2.0  // at both ends of the longest face
	tapeBlock  = 12.0 // width of a block across its tape
	tapeWords  = 13.5 // where the numbers start
)

// sameCourse is within which two faces are spaced alike, mm.
const sameCourse = 1e-6

// A courseGroup is the faces that are spaced alike.
type courseGroup struct {
	miter.CourseFace
	runs []string
}

// groups returns the faces, those spaced alike together.
func (s dentilSheet) groups() []courseGroup {
	var out []courseGroup
next:
	for _, f := range s.c.Faces {
		for i, g := range out {
			if alikeCourse(g.CourseFace, f) {
				out[i].runs = append(out[i].runs, f.Run)
				continue next
			}
		}
		out = append(out, courseGroup{f, []string{f.Run}})
	}
	return out
}

func alikeCourse(a, b miter.CourseFace) bool {
	return a.Blocks == b.Blocks && math.Abs(a.Length-b.Length) < sameCourse && math.Abs(a.Gap-b.Gap) < sameCourse &&
		(a.Blocks == 0 || math.Abs(a.At[0]-b.At[0]) < sameCourse)
}

// marks returns the marks of the pieces of those runs.
func (s dentilSheet) marks(runs []string) string {
	var out []string
	for _, run := range runs {
		for _, p := range s.m.Runs {
			if p.Run == run {
				out = append(out, p.Mark+" "+run)
			}
		}
	}
	return strings.Join(out, ", ")
}

func (s dentilSheet) strips() []strip {
	longest := 0.0
	for _, g := range s.groups() {
		longest = max(longest, g.Length)
	}
	words, _ := sheet.Paragraph{Width: s.width, Size: figureSize, Weight: sheet.Bold, Text: fmt.Sprintf("All blocks are %s wide (%s was asked for), the gaps between them %s deep. %s was asked for the gaps.",
		s.st.Lengths.Drawing(s.c.Block), s.st.Lengths.Drawing(s.c.AskedBlock), s.st.Lengths.Drawing(s.c.Depth), s.st.Lengths.Drawing(s.c.AskedGap))}.Set(geom.Point{})
	strips := []strip{newStrip(words), newStrip(s.pitches().Set(geom.Point{}).Drawing)}
	for _, g := range s.groups() {
		strips = append(strips, newStrip(s.face(g, (s.width-2*courseRoom)/longest)))
	}
	return strips
}

// pitches is the list of pitches, a row for each group of faces.
func (s dentilSheet) pitches() sheet.Table {
	t := sheet.Table{Size: nameSize, Width: s.width, Columns: []sheet.Column{{Head: "faces", Weight: sheet.Bold, Wrap: true}, {Head: "long", Align: sheet.AlignRight},
		{Head: "blocks", Align: sheet.AlignRight}, {Head: "gap", Align: sheet.AlignRight}, {Head: "pitch", Align: sheet.AlignRight, Weight: sheet.Bold}, {Head: "starts, ends with"}}}
	for _, g := range s.groups() {
		t.Rows = append(t.Rows, []string{s.marks(g.runs), s.st.figure(g.Length), strconv.Itoa(g.Blocks), s.st.Lengths.SetDrawing(g.Gap), s.st.Lengths.SetDrawing(g.Pitch), s.ends(g)})
	}
	return t
}

// ends says what a face starts and ends with.
func (s dentilSheet) ends(g courseGroup) string {
	word := func(gap bool) string {
		if gap {
			return "gap"
		}
		return "block"
	}
	last := g.At[len(g.At)-1] + s.c.Block
	return word(g.At[0] > sameCourse) + ", " + word(g.Length-last > sameCourse)
}

// face draws the blocks of a face at the scale k, with the places of their left sides in figures.
func (s dentilSheet) face(g courseGroup, k float64) sheet.Drawing {
	x0 := courseRoom
	d := sheet.Drawing{sheet.Text{At: geom.Pt(0, courseHigh+3.5), S: s.marks(g.runs), Size: nameSize, Weight: sheet.Bold}}
	d = d.Add(sheet.Box(geom.Rect{Min: geom.Pt(x0, courseHigh*0.75), Max: geom.Pt(x0+g.Length*k, courseHigh)}, sheet.PenThin))
	places := make([]string, 0, len(g.At))
	for _, at := range g.At {
		d = d.Add(sheet.FillBox(geom.Rect{Min: geom.Pt(x0+at*k, 0), Max: geom.Pt(x0+(at+s.c.Block)*k, courseHigh*0.75)}, 0.45))
		places = append(places, s.st.figure(at))
	}
	for _, x := range [2]float64{x0, x0 + g.Length*k} {
		d = d.Add(sheet.Line(geom.Pt(x, -1), geom.Pt(x, courseHigh), sheet.PenOutline))
	}
	words, _ := sheet.Paragraph{Text: strings.Join(places, ", "), Width: s.width, Size: figureSize}.Set(geom.Pt(0, -3.5))
	return d.Add(words...)
}

// tapes returns a tape at full size for each group of faces.
func (s dentilSheet) tapes() []tape {
	var out []tape
	for _, g := range s.groups() {
		name := s.m.Name
		for _, p := range s.m.Runs {
			if p.Run == g.runs[0] {
				name = p.Mark
			}
		}
		out = append(out, s.tape(g, name+" "))
	}
	return out
}

// tape draws the blocks of a face at full size, the left end of the face at the bottom of the tape.
func (s dentilSheet) tape(g courseGroup, name string) tape {
	t := tape{name: name, to: g.Length, wide: tapeWords + 8, begins: func(at float64) string { return unbroken(s.st.figure(at)) + " from the left end" }}
	t.drawing = sheet.Drawing{sheet.Line(geom.Point{}, geom.Pt(tapeBlock, 0), sheet.PenOutline), sheet.Line(geom.Pt(0, g.Length), geom.Pt(tapeBlock, g.Length), sheet.PenOutline)}
	for i, at := range g.At {
		block := geom.Rect{Min: geom.Pt(0, at), Max: geom.Pt(tapeBlock, at+s.c.Block)}
		t.drawing = t.drawing.Add(sheet.FillBox(block, 0.85), sheet.Box(block, sheet.PenThin))
		if s.c.Block > 3 {
			t.drawing = t.drawing.Add(sheet.Text{At: geom.Pt(tapeWords, block.Center().Y), S: strconv.Itoa(i + 1), Size: noteSize, Anchor: sheet.Left})
			t.words = append(t.words, [2]float64{block.Min.Y, block.Max.Y})
		}
	}
	return t
}
