package template

import (
	"fmt"
	"math"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// FrameSheets returns a sheet for each molding that is framed with a back rail: the frame from above, the joint of rail and side taken
// apart, and the mortise in the side's section. A case without frames gives none. The pages are not yet numbered.
func FrameSheets(r miter.Result, st Style) []sheet.Page {
	st = st.roomy()
	var pages []sheet.Page
	for _, m := range r.Moldings {
		if m.Frame == nil || len(m.Sections) == 0 {
			continue
		}
		f := st.mixedFrame(sentenceStart(m.Name)+": the frame", sentence("Miter the front, tenon the back rail into the sides, the haunch to the wall", st.unitNote()))
		area := f.Area(st.Paper)
		fs := frameSheet{r: r, m: m, st: st, width: area.Width(), high: area.Height()}
		gap, strips := fs.onOne(area)
		pages = append(pages, stackBy(gap, strips, f, st.Paper)...)
	}
	return pages
}

// onOne returns the strips with the frame from above as large, and the gap between them as wide, as lets them stand on one sheet; as it is best where they do not.
func (s frameSheet) onOne(area geom.Rect) (gap float64, strips []strip) {
	for _, gap := range closeGaps {
		for _, share := range frameShares {
			s.share = share
			if strips := s.strips(); fitsBy(gap, strips, area) {
				return gap, strips
			}
		}
	}
	s.share = frameShares[0]
	return stripGap, s.strips()
}

// A frameSheet draws the frame of one molding.
type frameSheet struct {
	r     miter.Result
	m     miter.MoldingResult
	st    Style
	width float64 // mm, of the room
	high  float64
	share float64 // of it for the frame from above, at most
}

// frameShares are the parts of the room's height that the frame from above may take, the best first: the joint below is at full size where it can be.
var frameShares = [...]float64{0.16, 0.13, 0.1}

// Room for dimensions beside the drawings of a frame, mm.
const (
	frameMargin = 44.0
	frameHigh   = 58.0 // of the frame from above, at most
	pulledApart = 16.0 // between the rail and the side
	stubLong    = 16.0 // of wood beyond what matters, before its break
)

func (s frameSheet) strips() []strip {
	strips := []strip{s.above()}
	joint, jointAt := s.joint()
	section, sectionAt := s.section()
	const gap = 6.0
	if joint.Bounds().Width()+section.Bounds().Width()+gap <= s.width {
		return append(strips, middled(beside(gap, joint, section), s.width).drawnAt(jointAt, sectionAt))
	}
	return append(strips, middled(joint, s.width).drawnAt(jointAt), middled(section, s.width).drawnAt(sectionAt))
}

// rail returns the back rail.
func (s frameSheet) rail() (miter.Piece, bool) {
	for _, p := range s.m.Pieces {
		if len(p.Ends) == 2 && p.Ends[0].Kind == miter.CutTenon && len(p.Places) > 0 {
			return p, true
		}
	}
	return miter.Piece{}, false
}

// above draws the frame from above with the tenons in their mortises.
func (s frameSheet) above() strip {
	b := geom.EmptyRect()
	for _, run := range s.m.Runs {
		b = b.Include(run.Inner[0]).Include(run.Inner[1]).Include(run.Outer[0]).Include(run.Outer[1])
	}
	k := s.st.scaleFor(b.Width(), b.Height(), s.width-frameMargin, min(frameHigh, s.share*s.high))
	to := scaled(k)
	d := moldingPlan(s.r, s.m, k)
	heading := "From above, " + jointScale(k) + "; the wall at the top"
	p, ok := s.rail()
	if !ok {
		return titled(heading, d, s.width).drawnAt(k)
	}
	on := func(along, out float64) geom.Point {
		v := p.Places[0].At(along, geom.Pt(out, 0))
		return to.Apply(geom.Pt(v.X, v.Y))
	}
	f := s.m.Frame
	left, right := p.Cuts()
	for _, end := range [2][2]float64{{left.S, -1}, {right.S, 1}} {
		at, way := end[0], end[1]
		d = d.Add(sheet.Polyline(sheet.PenHidden, on(at, f.RailWidth), on(at+way*f.Tenon, f.RailWidth), on(at+way*f.Tenon, f.Haunch),
			on(at+way*f.HaunchIn, f.Haunch), on(at+way*f.HaunchIn, 0)))
	}
	all := d.Bounds()
	d = d.Add(sheet.Dim{A: on(left.S, 0), B: on(right.S, 0), At: all.Max.Y + 6, Text: s.st.figure(p.Back) + " shoulder to shoulder", Size: figureSize}.Drawing()...)
	from, upTo := min(left.S, left.S+left.X*f.RailWidth), max(right.S, right.S+right.X*f.RailWidth) // its tenons end square, past the shoulder that lies farther out
	d = d.Add(sheet.Dim{A: on(from-f.Tenon, 0), B: on(upTo+f.Tenon, 0), At: all.Max.Y + 14, Text: s.st.figure(upTo-from+2*f.Tenon) + " over the tenons", Size: figureSize}.Drawing()...)
	out := b.Width()
	d = d.Add(sheet.Dim{A: to.Apply(b.Min), B: to.Apply(geom.Pt(b.Max.X, b.Min.Y)), At: all.Min.Y - 6, Text: s.st.figure(out) + " over all", Size: figureSize}.Drawing()...)
	deep := s.st.figure(b.Height())
	d = d.Add(sheet.Dim{A: to.Apply(b.Min), B: to.Apply(geom.Pt(b.Min.X, b.Max.Y)), Along: sheet.Up, At: all.Min.X - 4 - sheet.TextWidth(deep, figureSize, sheet.Regular)/2, Text: deep, Size: figureSize}.Drawing()...)
	return titled(heading, d, s.width).drawnAt(k)
}

// joint draws the left end of the rail from above, pulled out of the side, and returns its scale.
func (s frameSheet) joint() (sheet.Drawing, float64) {
	f := s.m.Frame
	sec := s.side()
	wide, long := min(sec.Projection, f.Tenon+1.6*stubLong), f.RailWidth+stubLong
	k := s.st.scaleFor(wide+pulledApart+f.Tenon+stubLong, long, s.width-60, 90)
	d := s.jointSide(k, wide, long)
	x := pulledApart + f.Tenon*k // of the shoulder, on paper
	at := func(out, up float64) geom.Point { return geom.Pt(x+out*k, up*k) }
	rail := []geom.Point{at(stubLong, 0), at(-f.HaunchIn, 0), at(-f.HaunchIn, -f.Haunch), at(-f.Tenon, -f.Haunch), at(-f.Tenon, -f.RailWidth), at(stubLong, -f.RailWidth)}
	d = d.Add(sheet.FillPolygon(0.93, rail...), sheet.Polyline(sheet.PenOutline, rail...), sheet.Line(at(0, -f.RailWidth), at(0, 0), sheet.PenThin))
	d = d.Add(zigzag(at(stubLong, -f.RailWidth), at(stubLong, 0)))
	if p, ok := s.rail(); ok {
		d = d.Add(sheet.Balloon(at(stubLong/2, -f.RailWidth/2), p.Mark, nameSize)...)
	}
	low := -f.RailWidth * k
	d = d.Add(sheet.Dim{A: at(-f.Tenon, -f.RailWidth), B: at(0, -f.RailWidth), At: low - 7, Text: s.st.figure(f.Tenon), Size: figureSize}.Drawing()...)
	d = d.Add(sheet.Dim{A: at(-f.HaunchIn, 0), B: at(0, 0), At: 6, Text: s.st.figure(f.HaunchIn) + " haunch", Size: figureSize}.Drawing()...)
	end := x + stubLong*k
	chain := sheet.Chain{Along: sheet.Up, At: end + 6, Size: figureSize,
		Points: []geom.Point{at(stubLong, -f.RailWidth), at(stubLong, -f.Haunch), at(stubLong, 0)},
		Texts:  []string{s.st.figure(f.Across), s.st.figure(f.Haunch)}}
	d = d.Add(chain.Drawing()...)
	b := d.Bounds()
	words := sheet.Paragraph{Text: s.otherEnd() + "; the wall at the top; the rail is " + s.st.figure(f.Thickness) + " thick", Width: max(b.Width(), min(s.width, 110)), Size: noteSize}
	top := b.Max.Y + 3 + words.Height()
	set, _ := words.Set(geom.Pt(b.Min.X, top))
	return d.Add(set...).Add(sheet.Text{At: geom.Pt(b.Min.X, top+3), S: "The joint at the left, from above, " + jointScale(k), Size: headingSize, Weight: sheet.Bold}), k
}

// otherEnd says how the joint at the right differs from the one at the left, drawn square.
func (s frameSheet) otherEnd() string {
	const mirror = "the right one is its mirror image"
	p, ok := s.rail()
	if !ok {
		return mirror
	}
	l, r := p.Ends[0].Standing.Settable(), p.Ends[1].Standing.Settable()
	lean := func(saw miter.Saw) string {
		if saw.Miter == 0 {
			return "square"
		}
		return s.st.Lengths.Angle(saw.Miter) + " off square"
	}
	words := mirror
	switch {
	case l.Miter == 0 && r.Miter == 0:
	case math.Abs(p.Ends[0].Cut.X+p.Ends[1].Cut.X) < sameFace:
		words += "; drawn square, both shoulders are " + lean(l)
	default:
		words += " but for the shoulders, drawn square: the left is " + lean(l) + ", the right " + lean(r)
	}
	const told = 0.2 // mm, less than the wall is true to
	for _, m := range s.m.Frame.Mortises {
		if past := m.FromWall - s.m.Frame.Haunch; past > told {
			words += fmt.Sprintf("; run %s reaches on %s behind the rail, so that its mortise begins %s from its end", m.Run, s.st.figure(past), s.st.figure(m.FromWall))
		}
	}
	return words
}

// jointSide draws the wall end of the left side from above, its back at x = 0 and the wall at y = 0, with the mortise that cannot be seen.
func (s frameSheet) jointSide(k, wide, long float64) sheet.Drawing {
	f := s.m.Frame
	at := func(out, up float64) geom.Point { return geom.Pt(-out*k, up*k) }
	wood := []geom.Point{at(0, -long), at(0, 0), at(wide, 0), at(wide, -long)}
	d := sheet.Drawing{sheet.FillPolygon(0.97, wood...), sheet.Polyline(sheet.PenOutline, wood...), zigzag(at(wide, -long), at(0, -long))}
	if wide < s.side().Projection {
		d = d.Add(sheet.Line(at(wide, -long), at(wide, 0), sheet.Pen{Width: 0.9}.WithGray(1)), zigzag(at(wide, -long), at(wide, 0)))
	}
	if r := s.side().Rabbet; r != nil && r.At == profile.AtTop {
		d = d.Add(sheet.Line(at(r.Width, -long), at(r.Width, 0), sheet.PenHair))
	}
	d = d.Add(sheet.Polyline(sheet.PenHidden, at(0, -f.RailWidth), at(f.Tenon, -f.RailWidth), at(f.Tenon, -f.Haunch), at(f.HaunchIn, -f.Haunch), at(f.HaunchIn, 0)))
	chain := sheet.Chain{Along: sheet.Up, At: -wide*k - 6, Below: true, Size: figureSize,
		Points: []geom.Point{at(wide, -f.RailWidth), at(wide, -f.Haunch), at(wide, 0)},
		Texts:  []string{s.st.figure(f.Across), s.st.figure(f.Haunch)}}
	d = d.Add(chain.Drawing()...)
	d = d.Add(sheet.Dim{A: at(f.Tenon, -long), B: at(0, -long), At: -long*k - 7, Text: s.st.figure(f.Tenon) + " deep", Size: figureSize}.Drawing()...)
	for _, run := range s.m.Runs {
		if len(f.Mortises) > 0 && run.Run == f.Mortises[0].Run {
			d = d.Add(sheet.Balloon(at((wide+f.Tenon)/2, -long*0.62), run.Mark, nameSize)...)
		}
	}
	return d
}

// side returns the section of the left side.
func (s frameSheet) side() profile.Section {
	if len(s.m.Frame.Mortises) > 0 {
		for _, u := range s.m.Sections {
			for _, run := range u.Runs {
				if run == s.m.Frame.Mortises[0].Run {
					return u.Section
				}
			}
		}
	}
	return s.m.Sections[0].Section
}

// section draws where the mortise lies in the section of the side, and returns its scale.
func (s frameSheet) section() (sheet.Drawing, float64) {
	sec, f := s.side(), s.m.Frame
	b := sec.Outline.Bounds()
	k := s.st.scaleFor(b.Width(), b.Height(), s.width-60, 70)
	outline := sec.Outline.Transform(scaled(k))
	d := sheet.Drawing{sheet.EndGrain(outline), sheet.Stroke{Path: outline, Pen: sheet.PenOutline}}
	if len(f.Mortises) == 0 {
		return d, k
	}
	m := f.Mortises[0]
	hole := geom.Rect{Min: geom.Pt(0, m.Foot*k), Max: geom.Pt(m.Depth*k, (m.Foot+m.Width)*k)}
	d = d.Add(sheet.FillBox(hole, 1), sheet.Box(hole, sheet.PenOutline))
	chain := sheet.Chain{Along: sheet.Up, At: -6, Below: true, Size: figureSize,
		Points: []geom.Point{{}, {Y: hole.Min.Y}, {Y: hole.Max.Y}}, Texts: []string{s.st.figure(m.Foot), s.st.figure(m.Width)}}
	d = d.Add(chain.Drawing()...)
	d = d.Add(sheet.Dim{A: geom.Point{}, B: geom.Pt(hole.Max.X, 0), At: -7, Text: s.st.figure(m.Depth), Size: figureSize}.Drawing()...)
	box := d.Bounds()
	words := fmt.Sprintf("The mortise in the side, %s", jointScale(k))
	return d.Add(
		sheet.Text{At: geom.Pt(box.Min.X, box.Max.Y+10), S: words, Size: headingSize, Weight: sheet.Bold},
		sheet.Text{At: geom.Pt(box.Min.X, box.Max.Y+4), S: "at least " + s.st.figure(f.Cover) + " of wood is left before the face", Size: noteSize}), k
}
