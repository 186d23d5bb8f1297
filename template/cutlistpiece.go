package template

import (
	"fmt"
	"math"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Sizes on the drawing of a piece, mm and points.
const (
	lengthSize  = 13.0 // points, of the lengths that a piece is cut to
	markSize    = 17.0 // points, of its mark
	pieceHead   = 13.0 // height of the line over the drawing
	endRoom     = 21.0 // beside each end, for the number of its setting
	dimStep     = 7.3  // between dimension lines
	dimFirst    = 7.0  // from the wood to the first of them
	mostDeep    = 27.0 // of the wood on the sheet
	settingBox  = 8.5  // height of the box round the number of a setting
	settingStep = 10.5 // from one box to the next under it
	sameLength  = 1e-4 // lengths that differ by less are one
	breakHalf   = 1.6  // half of the gap that a break leaves
	breakReach  = 1.6  // of a break line past the wood
	breakSwing  = 1.1
	breakPoints = 16
)

// pieceScales are the scales that the ends of pieces are drawn at, the largest first.
var pieceScales = [...]float64{4, 3, 2, 1.5, 1, 2.0 / 3, 1.0 / 2, 1.0 / 3, 1.0 / 4, 1.0 / 5, 1.0 / 8, 1.0 / 10, 1.0 / 20, 1.0 / 50, 1.0 / 100, 1.0 / 200}

// A pieceDrawing draws one piece across the sheet, its ends true and the middle broken out.
type pieceDrawing struct {
	stick
	st       Style
	width    float64        // mm, of the room
	rough    float64        // mm, left on each end
	settings [2]*sawSetting // of its ends
	meets    string         // what the ends of a bead meet, "" for other pieces

	line   brokenLine
	lo, hi float64 // of the wood up the sheet, mm of wood
}

// drawing returns the piece with its mark at the left and its lengths round it; the top left corner is at the origin.
func (d pieceDrawing) drawing() sheet.Drawing {
	d.lo, d.hi = d.depth()
	d.setLine()
	body := d.body()
	body = body.Add(d.dims()...).Add(d.ends()...)
	b := body.Bounds()
	out := d.head()
	shift := geom.Translation(geom.Pt(0, min(-pieceHead, out.Bounds().Min.Y-2)-b.Max.Y))
	out = out.Add(body.Moved(shift)...)
	y := out.Bounds().Min.Y - 3
	for _, n := range d.notes() {
		words, h := sheet.Paragraph{Text: n, Width: d.width - 2*endRoom, Size: nameSize}.Set(geom.Pt(endRoom, y))
		out = out.Add(words...)
		y -= h + 1.2
	}
	return out
}

// setLine chooses the scale, and breaks out what does not fit.
func (d *pieceDrawing) setLine() {
	room := d.width - 2*endRoom
	var seen [][2]float64
	l0, l1 := d.span(0)
	r0, r1 := d.span(1)
	seen = append(seen, [2]float64{l0, l1})
	seen = append(seen, [2]float64{r0, r1})
	need := 0.0
	for _, s := range seen {
		need += s[1] - s[0]
	}
	for _, k := range pieceScales {
		gaps := float64(len(seen)-1) * (2*9 + 2*breakHalf + 2)
		if k*(d.hi-d.lo) <= mostDeep && (k*need+gaps <= room || k*(r1-l0) <= room) {
			d.line = breakLine(seen, k, room)
			return
		}
	}
	d.line = breakLine(seen, room/2/need, room)
}

// on returns the place on the sheet of the section point q at s along the piece.
func (d pieceDrawing) on(s float64, q geom.Point) geom.Point {
	return d.seenAt(geom.Pt(s, q.Dot(d.view.up)))
}

// seenAt returns the place on the sheet of a point seen in the view, mm of wood.
func (d pieceDrawing) seenAt(p geom.Point) geom.Point {
	return geom.Pt(endRoom+d.inset()+d.line.at(p.X), (p.Y-d.lo)*d.line.k)
}

// inset centers a piece that is shorter than its room.
func (d pieceDrawing) inset() float64 {
	return (d.width - 2*endRoom - d.line.to[len(d.line.to)-1]) / 2
}

// body returns the wood.
func (d pieceDrawing) body() sheet.Drawing {
	var out sheet.Drawing
	wood := make([]geom.Point, 0, 64)
	for _, p := range d.outline() {
		wood = append(wood, d.seenAt(p))
	}
	out = out.Add(sheet.FillPolygon(1, wood...))
	for _, l := range d.lines() {
		out = out.Add(sheet.Line(d.seenAt(l[0]), d.seenAt(l[1]), sheet.PenHair))
	}
	for _, c := range d.contours() {
		for i := range c {
			c[i] = d.seenAt(c[i])
		}
		out = out.Add(sheet.Polyline(sheet.PenThin, c...))
	}
	out = out.Add(sheet.Stroke{Path: geom.Polygon(wood...), Pen: sheet.PenOutline})
	out = out.Add(d.tenons()...)
	high := (d.hi - d.lo) * d.line.k
	for _, x := range d.line.breaks {
		out = out.Add(breakMark(geom.Pt(endRoom+d.inset()+x, 0), high)...)
	}
	return out.Add(d.edgeWords()...)
}

// breakMark returns the two waves of a break across wood that reaches from at up by high.
func breakMark(at geom.Point, high float64) sheet.Drawing {
	var left, right []geom.Point
	for i := range breakPoints + 1 {
		t := float64(i) / breakPoints
		y := at.Y - breakReach + t*(high+2*breakReach)
		x := at.X + breakSwing*math.Sin(2*math.Pi*t)
		left, right = append(left, geom.Pt(x-breakHalf, y)), append(right, geom.Pt(x+breakHalf, y))
	}
	white := append([]geom.Point(nil), left...)
	for i := len(right) - 1; i >= 0; i-- {
		white = append(white, right[i])
	}
	return sheet.Drawing{sheet.FillPolygon(1, white...), sheet.Polyline(sheet.PenThin, left...), sheet.Polyline(sheet.PenThin, right...)}
}

// edgeWords names the two long edges, on the wood where there is room.
func (d pieceDrawing) edgeWords() sheet.Drawing {
	l, l1 := d.span(0)
	r0, _ := d.span(1)
	a, b := d.on(l1, geom.Point{}).X, d.on(r0, geom.Point{}).X
	if len(d.line.breaks) > 0 {
		b = endRoom + d.inset() + d.line.breaks[0] - breakHalf - breakSwing
	}
	high := (d.hi - d.lo) * d.line.k
	need := 2*sheet.CapHeight(noteSize) + 5
	if b-a < 8.5 || high < need || l == r0 {
		return nil
	}
	x := (a + b) / 2
	return sheet.Drawing{
		sheet.Text{At: geom.Pt(x, high-1.6), S: d.view.over, Size: noteSize, Anchor: sheet.Top, Halo: true},
		sheet.Text{At: geom.Pt(x, 1.6), S: d.view.under, Size: noteSize, Anchor: sheet.Bottom, Halo: true},
	}
}

// tenons returns the tenons of a rail, which enter less deep at the haunch.
func (d pieceDrawing) tenons() sheet.Drawing {
	var out sheet.Drawing
	for i, e := range d.piece.Ends {
		if e.Tenon == 0 || d.frame == nil {
			continue
		}
		way := 1.0
		if i == 0 {
			way = -1
		}
		at := func(x, reach float64) geom.Point {
			q := geom.Pt(x, 0)
			return d.on(d.end(i, q)+way*reach, q)
		}
		f := d.frame
		pts := []geom.Point{at(0, 0), at(0, f.HaunchIn), at(f.Haunch, f.HaunchIn), at(f.Haunch, e.Tenon), at(f.RailWidth, e.Tenon), at(f.RailWidth, 0)}
		out = out.Add(sheet.FillPolygon(0.9, pts...), sheet.Stroke{Path: geom.Polygon(pts...), Pen: sheet.PenThin})
	}
	return out
}

// A measured is a length of a piece and the section point that it is measured at.
type measured struct {
	words string
	mm    float64
	at    geom.Point
}

// lengths returns the lengths that the piece is cut to, each at its place in the section.
func (s stick) lengths() []measured {
	p := s.piece
	long, short := s.extremes()
	names := [3]string{"back", "long point", "short point"}
	switch {
	case s.vee():
		names = [3]string{"notch to notch", "tip to tip", "short"}
	case p.Ends[0].Tenon > 0 || p.Ends[1].Tenon > 0:
		names = [3]string{"shoulder to shoulder", "long shoulder", "short shoulder"}
	case p.Long-p.Short < sameLength && p.Ends[0].Cut.Square() && p.Ends[1].Cut.Square():
		names[0] = "length"
	case p.Long-p.Short < sameLength: // its ends lean alike
		names[0] = "back and face"
	}
	var out []measured
	if p.Back > sameLength {
		out = append(out, measured{names[0], p.Back, geom.Point{}})
	}
	if p.Seat != nil && math.Abs(*p.Seat-p.Back) > sameLength && p.Section.Rabbet != nil {
		seat, _ := p.Section.RabbetSeat()
		out = append(out, measured{"at the seat", *p.Seat, seat})
	}
	if p.Long-p.Back > sameLength {
		out = append(out, measured{names[1], p.Long, long})
	}
	if p.Back-p.Short > sameLength && p.Short > sameLength {
		out = append(out, measured{names[2], p.Short, short})
	}
	return out
}

// dims returns the dimensions, each on the side of the wood that it is measured on, the shorter ones nearer to it.
func (d pieceDrawing) dims() sheet.Drawing {
	var above, below []measured
	for _, m := range d.lengths() {
		if m.at.Dot(d.view.up) >= (d.lo+d.hi)/2-1e-9 {
			above = append(above, m)
		} else {
			below = append(below, m)
		}
	}
	high := (d.hi - d.lo) * d.line.k
	var out sheet.Drawing
	for i, m := range sortedBy(above, func(m measured) float64 { return m.mm }) {
		out = out.Add(d.dim(m, high+dimFirst+float64(i)*dimStep)...)
	}
	for i, m := range sortedBy(below, func(m measured) float64 { return m.mm }) {
		out = out.Add(d.dim(m, -dimFirst-float64(i)*dimStep)...)
	}
	if t := d.piece.Ends[0].Tenon + d.piece.Ends[1].Tenon; t > 0 {
		lo, _ := d.span(0)
		_, hi := d.span(1)
		whole := measured{"over the tenons", hi - lo, geom.Pt(d.height, 0)}
		q := geom.Pt(d.frame.RailWidth, 0)
		out = out.Add(d.between(d.on(lo, q), d.on(hi, q), whole, -dimFirst-float64(len(below))*dimStep)...)
	}
	return out
}

func (d pieceDrawing) dim(m measured, at float64) sheet.Drawing {
	return d.between(d.on(d.end(0, m.at), m.at), d.on(d.end(1, m.at), m.at), m, at)
}

// between returns the dimension from a to b on the sheet. Its words are left out where they would stand off the paper.
func (d pieceDrawing) between(a, b geom.Point, m measured, at float64) sheet.Drawing {
	dim := sheet.Dim{A: a, B: b, At: at, Text: m.words + "  " + d.st.figure(m.mm), Size: lengthSize}
	if out := dim.Drawing(); out.Bounds().Max.X <= d.width {
		return out
	}
	dim.Text = d.st.figure(m.mm)
	return dim.Drawing()
}

// ends returns the numbers of the settings beside the ends, with what is cut there.
func (d pieceDrawing) ends() sheet.Drawing {
	var out sheet.Drawing
	l, _ := d.span(0)
	_, r := d.span(1)
	y := (d.hi - d.lo) * d.line.k / 2
	for i, s := range [2]float64{l, r} {
		x := d.on(s, geom.Point{}).X - 11
		if i == 1 {
			x += 22
		}
		names := d.settings[i].names()
		top := y + 2 + float64(len(names)-1)*settingStep/2
		for k, name := range names {
			out = out.Add(settingMark(geom.Pt(x, top-float64(k)*settingStep), name)...)
		}
		t := sheet.Text{At: geom.Pt(x, top-float64(len(names)-1)*settingStep-settingBox/2-1.2), S: d.piece.Ends[i].Words(), Size: nameSize, Anchor: sheet.Top, Halo: true}
		out = out.Add(t)
		if e := d.piece.Ends[i]; e.Kind == miter.CutSquare && t.S != string(e.Kind) { // its angle is easily overlooked
			t.At.Y -= sheet.LineHeight(nameSize)
			t.S = d.st.Lengths.Angle(max(e.Standing.Miter, e.Standing.Bevel))
			out = out.Add(t)
		}
	}
	return out
}

// settingMark returns the name of a setting of the saw in its box, round at.
func settingMark(at geom.Point, name string) sheet.Drawing {
	half := geom.Pt(settingWide(name)/2, settingBox/2)
	box := geom.Rect{Min: at.Sub(half), Max: at.Add(half)}
	t := settingText(name)
	t.At = at
	return sheet.Drawing{sheet.FillBox(box, 1), sheet.Box(box, sheet.Pen{Width: 0.6}), t}
}

func settingText(name string) sheet.Text {
	return sheet.Text{S: name, Size: 15, Anchor: sheet.Middle, Weight: sheet.Bold}
}

// settingWide returns how wide the box of a setting's name is, mm.
func settingWide(name string) float64 { return max(settingBox, settingText(name).Width()+2) }

// head returns the line over the drawing: mark, count, runs and hand, rough length, scale.
func (d pieceDrawing) head() sheet.Drawing {
	p := d.piece
	mark := bigMark(p.Mark)
	b := mark.Bounds()
	out := mark.At(geom.Pt(b.Width()/2, -b.Height()/2))
	mid := -b.Height() / 2
	x := b.Width() + 4
	count := sheet.Text{At: geom.Pt(x, mid), S: fmt.Sprintf("cut %d", p.Count), Size: 15, Weight: sheet.Bold, Anchor: sheet.Left}
	x += count.Width() + 5
	rough := sheet.Text{At: geom.Pt(d.width, mid), S: "rough  " + d.st.rough(p.Stick(d.rough)), Size: lengthSize, Anchor: sheet.Right}
	words := sheet.Paragraph{Text: runWords(p), Width: d.width - x - rough.Width() - 5, Size: lengthSize}
	set, _ := words.Set(geom.Pt(x, 0))
	box := set.Bounds()
	return out.Add(count, rough).Add(set.At(geom.Pt(0, mid-(box.Min.Y+box.Max.Y)/2-0.4))...)
}

// bigMark returns the mark of a piece in a ring that goes clear of its letters, round the origin.
func bigMark(mark string) sheet.Drawing {
	t := sheet.Text{S: mark, Size: markSize, Weight: sheet.Bold, Anchor: sheet.Middle}
	r := math.Hypot(t.Width()/2, sheet.CapHeight(markSize)/2) + 1.3
	return sheet.Drawing{sheet.Ring(geom.Point{}, r, sheet.PenThin), t}
}

// runWords says where a piece goes: "left, left hand".
func runWords(p miter.Piece) string {
	words := strings.Join(p.Runs, ", ")
	if p.Hand != miter.NoHand {
		words += "; " + string(p.Hand) + " hand"
	}
	return words
}
