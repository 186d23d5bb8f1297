package sheet

import (
	"fmt"

	"listel/profile/geom"
)

// A Frame is what stands round the drawing on a page: the title block at the foot and, on full-size sheets, the bars
// that show a printer's error, both across and up. A Frame without a title draws nothing.
type Frame struct {
	Title    string     // large
	Purpose  string     // what the sheet is for, in one line
	Scale    string     // "1:8", "as noted"; "" is not to scale. On a full-size sheet, of the other drawings on it, "" for none
	FullSize bool       // prints at true size, with bars to check it by
	Source   string     // the file it came from
	Sheet    int        // n and m of "sheet n of m"; 0 until numbered
	Of       int        //
	Margin   float64    // mm from the paper's edge to the drawing; 0 is 10; at least 7
	Printer  Correction // the printer's error, which the page makes up for and says so
	Bare     bool       // keeps title and purpose in the file but draws nothing

	tile *tileMark // on a page that is one tile of a larger drawing
}

const (
	defaultMargin = 10.0
	frameEdge     = 7.0 // nothing of the frame comes nearer to the paper's edge, mm
	blockGap      = 1.5 // between the parts of the frame, mm
	titleSize     = 15.0
	purposeSize   = 9.5
	noteSize      = 8.0
)

// A block is a frame worked out for its paper.
type block struct {
	out         geom.Rect // what the frame may use
	area        geom.Rect // what is left for the drawing
	left        float64   // x at which the title starts
	rule        float64   // y of the rule over the title block
	titleSize   float64
	title       []string
	purpose     []string
	notes       []string  // at the right: scale, sheet number, source, printer
	noteWidth   float64   // of the notes beside the title, mm
	noteBase    float64   // y of the top of the first note
	noteInStrip bool      // the last note stands beside the bar
	across, up  [2]int    // the bars, mm and inches
	bars        geom.Rect // its lower left corner is the crossing of the bars' axes
}

// draws reports whether the frame puts anything on the page.
func (f Frame) draws() bool { return !f.Bare && f.Title != "" }

// number returns the line that says which sheet of how many this is; "" until the sheet is numbered.
func (f Frame) number() string {
	if f.Sheet <= 0 {
		return ""
	}
	return fmt.Sprintf("sheet %d of %d", f.Sheet, f.Of)
}

// scaleWords returns the line that says the scale.
func (f Frame) scaleWords() string {
	switch {
	case f.FullSize && f.Scale != "":
		return "full size, 1:1; others " + f.Scale
	case f.FullSize:
		return "full size, 1:1"
	case f.Scale != "":
		return "scale " + f.Scale
	}
	return "not to scale"
}

func (f Frame) margins(p Paper) (across, up float64) {
	m := f.Margin
	if !(m > 0) {
		m = defaultMargin
	}
	return f.Printer.margin(p, max(m, frameEdge))
}

// Area returns the rectangle in page coordinates that is left for the drawing, in mm from the paper's lower left
// corner. On a paper too small for the frame it is geom.EmptyRect, and Fits says so.
func (f Frame) Area(p Paper) geom.Rect {
	if f.draws() {
		return f.layout(p).area
	}
	if f.Bare || f.Title == "" {
		return geom.Rect{Max: geom.Pt(p.Width, p.Height)}
	}
	return geom.Rect{}
}

// Fits returns ErrPaperTooSmall, with the paper's name, when the frame leaves no area on that paper: such a page cannot be
// written. A frame for full size needs about A6, one without bars about A9.
func (f Frame) Fits(p Paper) error {
	if f.draws() && f.layout(p).area.Empty() {
		return fmt.Errorf("%w: %s, %s x %s mm", ErrPaperTooSmall, p.Name, num(p.Width, 1), num(p.Height, 1))
	}
	return nil
}

// layout works out where the parts of the frame stand.
func (f Frame) layout(p Paper) block {
	mx, my := f.margins(p)
	ex, ey := f.Printer.margin(p, frameEdge)
	b := block{out: geom.Rect{Min: geom.Pt(ex, ey), Max: geom.Pt(p.Width-ex, p.Height-ey)}}
	b.left, b.area = mx, geom.Rect{Min: geom.Pt(mx, my), Max: geom.Pt(p.Width-mx, p.Height-my)}
	foot, stripEnd := ey, b.out.Max.X
	if f.FullSize {
		strip := 2*rulerHalf + blockGap
		b.across[0], b.across[1] = rulerFor(b.out.Width() - strip)
		b.up[0], b.up[1] = rulerFor(b.out.Height() - strip)
		b.bars.Min = b.out.Min.Add(geom.Pt(rulerHalf, rulerHalf))
		b.left = max(mx, ex+strip)
		foot += strip
		stripEnd = ex + strip + float64(b.across[0]) + 16
		if b.across[0] == 0 {
			stripEnd = ex + strip
		}
	}
	b.area.Min.X = b.left
	f.setBlock(&b, foot, stripEnd, f.Printer.Words(p))
	b.area.Min.Y = b.rule + blockGap
	if !(b.area.Min.Y < b.area.Max.Y) || !(b.area.Min.X < b.area.Max.X) {
		b.area = geom.EmptyRect()
	}
	return b
}

// setNotes sets the lines at the right and returns how many stand beside the title: the last may stand in the strip of
// the bars, right of stripEnd.
func (f Frame) setNotes(b *block, stripEnd float64, printer string) int {
	most := max(25, (b.area.Max.X-b.left)*0.42)
	number := f.number()
	if number == "" {
		number = " " // its room is kept, so that numbering moves nothing
	}
	for _, s := range []string{f.scaleWords(), number, f.Source, printer} {
		if s == " " {
			b.notes = append(b.notes, "")
		} else if s != "" {
			b.notes = append(b.notes, Wrap(s, noteSize, Regular, most)...)
		}
	}
	n := len(b.notes)
	if f.FullSize && n > 1 && stripEnd+TextWidth(b.notes[n-1], noteSize, Regular) < b.area.Max.X {
		b.noteInStrip = true
		n--
	}
	b.noteWidth = TextWidth("sheet 400 of 400", noteSize, Regular)
	for _, s := range b.notes[:n] {
		b.noteWidth = max(b.noteWidth, TextWidth(s, noteSize, Regular))
	}
	return n
}

// setBlock sets the title block over y = foot.
func (f Frame) setBlock(b *block, foot, stripEnd float64, printer string) {
	n := f.setNotes(b, stripEnd, printer)
	words := b.area.Max.X - b.left - b.noteWidth - 2*blockGap
	if f.tile != nil {
		words -= tileMarkWidth + blockGap
	}
	words = max(words, 20)
	b.titleSize = titleSize
	for b.titleSize > 11 && TextWidth(f.Title, b.titleSize, Bold) > words {
		b.titleSize--
	}
	b.title = Wrap(f.Title, b.titleSize, Bold, words)
	height := float64(len(b.title)-1)*LineHeight(b.titleSize) + CapHeight(b.titleSize)
	if f.Purpose != "" {
		b.purpose = Wrap(f.Purpose, purposeSize, Regular, words)
		height += float64(len(b.purpose)) * LineHeight(purposeSize)
	}
	height += descent * purposeSize * mmPerPoint
	if n > 0 {
		height = max(height, float64(n-1)*LineHeight(noteSize)+CapHeight(noteSize)+descent*noteSize*mmPerPoint)
	}
	if f.tile != nil {
		height = max(height, tileMarkHeight)
	}
	b.noteBase = foot + height
	b.rule = b.noteBase + blockGap
}

// draw returns the frame's marks on a page of that paper.
func (f Frame) draw(p Paper) Drawing {
	if !f.draws() {
		return nil
	}
	b := f.layout(p)
	right := b.area.Max.X
	if b.area.Empty() {
		right = b.out.Max.X
	}
	d := Drawing{Line(geom.Pt(b.left, b.rule), geom.Pt(right, b.rule), PenThin)}
	y := b.noteBase - CapHeight(b.titleSize)
	for i, s := range b.title {
		d = d.Add(Text{At: geom.Pt(b.left, y-float64(i)*LineHeight(b.titleSize)), S: s, Size: b.titleSize, Weight: Bold})
	}
	y -= float64(len(b.title)-1) * LineHeight(b.titleSize)
	for i, s := range b.purpose {
		d = d.Add(Text{At: geom.Pt(b.left, y-float64(i+1)*LineHeight(purposeSize)), S: s, Size: purposeSize})
	}
	notes := right
	for i, s := range b.notes {
		t := Text{At: geom.Pt(notes, b.noteBase-float64(i)*LineHeight(noteSize)), S: s, Size: noteSize, Anchor: TopRight}
		if b.noteInStrip && i == len(b.notes)-1 {
			t.At.Y, t.Anchor = b.bars.Min.Y, Right
		}
		d = d.Add(t)
	}
	d = d.Add(b.drawBars()...)
	if f.tile != nil {
		d = d.Add(f.tile.draw(geom.Pt(right-b.noteWidth-2*blockGap, b.noteBase))...)
	}
	return Drawing{Group{"frame", d}}
}

// drawBars returns the bars across and up.
func (b block) drawBars() Drawing {
	var d Drawing
	strip := rulerHalf + blockGap
	if b.across[0] > 0 {
		d = d.Place(Ruler(b.across[0], b.across[1]), geom.Translation(b.bars.Min.Add(geom.Pt(strip, 0))))
	}
	if b.up[0] > 0 {
		d = d.Place(Ruler(b.up[0], b.up[1]).Quarter(), geom.Translation(b.bars.Min.Add(geom.Pt(0, strip))))
	}
	return d
}
