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

// A setupCell is one set-up on its sheet: its number and tool, its picture, and beside that what to set and what to watch.
type setupCell struct {
	picture setupPicture
	w, h    float64 // room, mm
	way     cellWay
	tall    float64 // of the tallest picture of the plan, mm: the words under all of them begin on one line
}

// Parts of a cell, mm.
const (
	cellMargin = 2.5
	cellHead   = 9.0
	cellWords  = 41.0 // width of the words beside the picture
)

// A remark is a paragraph beside a picture.
type remark struct {
	text   string
	size   float64
	weight sheet.Weight
	least  float64 // the smallest size it may be set in
	number string  // a figure behind the text, or under it when both do not fit a line
	tail   string  // lighter, behind the figure
	place  remarkPlace
}

// A remarkPlace says where a remark stands in the words of a cell.
type remarkPlace int

const (
	anywhere remarkPlace = iota // after the settings
	atFence                     // of fence or stop: first
	atHeight                    // of height and tilt: second, or in a column of their own
	atLying                     // of the way the stick lies: after the settings, or under those of the fence
)

// flush is under what distance, in mm, two things are said to lie in one: the half of 1/64 in.
const flush = measure.MMPerInch / 128

// A cellWay is how picture and words lie in all those of a plan: beside each other, or the words in two columns under a wide picture.
type cellWay int

const (
	wordsBeside cellWay = iota
	wordsUnder
)

// An arrangement is where the parts of a cell go.
type arrangement struct {
	picture geom.Rect
	words   []geom.Rect // columns
	scale   float64     // of the words' lettering
}

// arrange returns how picture and words lie; ok is false when the cell does not hold them.
func (c setupCell) arrange() (a arrangement, ok bool) {
	_, top := c.head()
	b := c.picture.bounds()
	switch foot := top - max(b.Height(), c.tall) - 3; c.way {
	case wordsBeside:
		a.picture = geom.Rect{Min: geom.Pt(cellMargin, cellMargin), Max: geom.Pt(c.w-cellMargin-cellWords-3, top)}
		a.words = []geom.Rect{{Min: geom.Pt(c.w-cellMargin-cellWords, cellMargin), Max: geom.Pt(c.w-cellMargin, top)}}
	default:
		half := (c.w - 2*cellMargin - 3) / 2
		a.picture = geom.Rect{Min: geom.Pt(cellMargin, foot), Max: geom.Pt(c.w-cellMargin, top)}
		a.words = []geom.Rect{
			{Min: geom.Pt(cellMargin, cellMargin), Max: geom.Pt(cellMargin+half, foot)},
			{Min: geom.Pt(c.w-cellMargin-half, cellMargin), Max: geom.Pt(c.w-cellMargin, foot)},
		}
	}
	for _, k := range []float64{1, 0.92, 0.85, 0.8} {
		a.scale = k
		if _, fits := c.setWords(a); fits && b.Width() <= a.picture.Width() && b.Height() <= a.picture.Height() {
			return a, true
		}
	}
	return a, false
}

// head returns number and tool, and the y under them.
func (c setupCell) head() (sheet.Drawing, float64) {
	u := c.picture.setup()
	number := geom.Pt(cellMargin+3.2, c.h-cellMargin-3.2)
	d := sheet.Balloon(number, strconv.Itoa(u.N), 12)
	g := sheet.Paragraph{Text: upperFirst(u.Tool), Width: c.w - 2*cellMargin - 9, Size: 11, Weight: sheet.Bold}
	if len(sheet.Wrap(g.Text, g.Size, g.Weight, g.Width)) > 2 {
		g.Size = 9
	}
	head, high := g.Set(geom.Pt(number.X+5.8, c.h-cellMargin-1.8))
	return d.Add(head...), c.h - cellMargin - max(cellHead, high+3)
}

// drawing returns the cell with its lower left corner at the origin.
func (c setupCell) drawing() sheet.Drawing {
	d, _ := c.head()
	a, _ := c.arrange()
	words, _ := c.setWords(a)
	b := c.picture.bounds()
	at := geom.Pt(a.picture.Center().X-b.Center().X, a.picture.Max.Y-b.Max.Y)
	return d.Add(words...).Add(c.picture.drawing().At(at)...)
}

// setWords sets the remarks in the columns, and reports whether they hold them: what is set at the fence or stop heads the first, what is set in height
// heads the last, in every cell alike.
func (c setupCell) setWords(a arrangement) (sheet.Drawing, bool) {
	var d sheet.Drawing
	fits := true
	ys := make([]float64, len(a.words))
	for i := range ys {
		ys[i] = a.words[i].Max.Y
	}
	for _, r := range c.remarks() {
		col := 0
		switch r.place {
		case atHeight:
			col = len(ys) - 1
		case anywhere:
			if len(ys) > 1 && ys[1] > ys[0] {
				col = 1
			}
		}
		set, h := r.set(a.scale, a.words[col].Width())
		d = d.Add(set.At(geom.Pt(a.words[col].Min.X, ys[col]))...)
		ys[col] -= h + 1.1
		fits = fits && ys[col]+1.1 >= a.words[col].Min.Y
	}
	return d, fits
}

// set returns the remark with its top left corner at the origin, and its height.
func (r remark) set(k, width float64) (sheet.Drawing, float64) {
	size := max(r.least, r.size*k)
	if r.number == "" {
		return sheet.Paragraph{Text: r.text, Width: width, Size: size, Weight: r.weight}.Set(geom.Point{})
	}
	number := sheet.Text{S: r.text + " " + r.number, Size: size, Weight: r.weight, At: geom.Pt(0, -sheet.CapHeight(size))}
	tail := sheet.Text{S: r.tail, Size: max(7, noteSize*k)}
	var d sheet.Drawing
	if number.Width() > width {
		label, _ := sheet.Paragraph{Text: r.text, Width: width, Size: size, Weight: r.weight}.Set(geom.Point{})
		number.S = r.number
		number.At.Y -= float64(len(label)) * sheet.LineHeight(size)
		d = d.Add(label...)
	}
	d = d.Add(number)
	tail.At = geom.Pt(number.Width()+1.5, number.At.Y)
	if tail.S != "" && tail.At.X+tail.Width() > width {
		tail.At = geom.Pt(0, number.At.Y-sheet.LineHeight(tail.Size))
	}
	d = d.Add(tail)
	return d, -d.Bounds().Min.Y
}

// remarks returns what is said beside the picture: first what is set, in the same order in every cell.
func (c setupCell) remarks() []remark {
	w := &remarkWriter{cell: c, st: c.picture.st}
	w.place = atFence
	w.fence()
	w.place = atHeight
	w.height()
	w.place = atLying
	w.lying()
	w.place = anywhere
	w.work()
	return w.out
}

// A remarkWriter writes the remarks of a cell.
type remarkWriter struct {
	cell  setupCell
	st    Style
	place remarkPlace
	out   []remark
}

// big adds what is set.
func (w *remarkWriter) big(text string, mm float64) {
	figure, decimal := w.st.settingShort(mm), w.st.decimal(mm)
	if w.cell.picture.setup().Work == cutter.Plane {
		figure, decimal = w.st.Lengths.Drawing(byHandSize(mm, w.st.Lengths)), ""
	}
	w.out = append(w.out, remark{text: text, size: 12, weight: sheet.Bold, least: 10, number: figure, tail: decimal, place: w.place})
}

func (w *remarkWriter) add(size, least float64, weight sheet.Weight, format string, args ...any) {
	w.out = append(w.out, remark{text: fmt.Sprintf(format, args...), size: size, weight: weight, least: least, place: w.place})
}

// say adds a plain remark, name a bold one.
func (w *remarkWriter) say(format string, args ...any)  { w.add(9, 7, sheet.Regular, format, args...) }
func (w *remarkWriter) name(format string, args ...any) { w.add(10, 8, sheet.Bold, format, args...) }

// fence says how fence or stop is set.
func (w *remarkWriter) fence() {
	u, plan := w.cell.picture.setup(), w.cell.picture.plan.Plan
	stop := "Fence"
	if u.Work == cutter.Plane {
		stop = "From the stop"
	}
	switch mm, far := edgeToFence(u); {
	case u.Rips:
		w.big("Blade to edge", stripOf(plan))
		w.say("fence %s, on a board %s wide", w.st.settingBoth(mm), w.st.Lengths.Drawing(plan.Blank.Width))
	case !far:
		w.big(stop, mm)
	case u.Work == cutter.Plane && mm > flush:
		w.big("Stop to FAR edge", mm)
	case u.Work == cutter.Plane:
		w.big("FAR edge behind the stop's face by", max(0, -mm))
	case mm > 0:
		w.big(stop+" to FAR edge", mm)
		if -u.Fence > flush {
			w.say("the near edge runs %s inside the fence", w.st.setting(-u.Fence))
		}
	default:
		w.big("Far side INSIDE the fence by", -mm)
	}
	if mm, ok := stopHeight(u); u.Work == cutter.Plane && ok {
		if mm < leastStop {
			w.say("the plane runs where the stop would stand: hold the stick in the vise, or by dogs at its ends")
		} else if high := byHandSize(mm-1, w.st.Lengths); high < w.cell.picture.stopDrawn() {
			w.say("stop no higher than %s: the plane passes over it", w.st.figure(high))
		}
	}
}

// height says how high, and how tilted, the tool is set.
func (w *remarkWriter) height() {
	u := w.cell.picture.setup()
	switch under := underBed(u); {
	case under > 0:
		w.big("Under the face that lies down", under)
		w.say("lay the stick on a packing %s thick, held back from the cut", w.st.figure(packing(u, w.st.Lengths)))
	case u.Work == cutter.Plane:
		w.big("Over the bench", u.Height)
	default:
		w.big("Height", u.Height)
	}
	switch {
	case u.Work != cutter.Router:
	case math.Abs(u.Axis) < flush:
		w.say("axis at the fence's face")
	case u.Axis < 0:
		w.say("axis %s inside the fence", w.st.settingBoth(-u.Axis))
	default:
		w.say("axis %s from the fence", w.st.settingBoth(u.Axis))
	}
	if angle := tiltOf(u, w.st.Lengths); angle != "" {
		about := map[bool]string{false: "Tilt", true: "Tilt about"}[u.Work == cutter.Plane]
		w.out = append(w.out, remark{text: about, size: 12, weight: sheet.Bold, least: 10, number: angle, tail: tiltWay(u), place: w.place})
	}
}

// lying says how the stick lies and which end leads.
func (w *remarkWriter) lying() {
	u := w.cell.picture.setup()
	if u.Work == cutter.Plane {
		w.name("%s down, %s to the stop", upperFirst(u.OnTable.Words()), u.AgainstFence.Words())
	} else {
		w.name("%s on the table, %s to the fence", upperFirst(u.OnTable.Words()), u.AgainstFence.Words())
		w.name("%s", leading(u))
	}
}

// work says how often the stick goes through, what comes of it and what to watch.
func (w *remarkWriter) work() {
	u := w.cell.picture.setup()
	if u.Work == cutter.Plane && u.Tilt != 0 {
		w.name("Work to the scribed line")
	}
	switch {
	case u.Work == cutter.Plane:
		w.name("%s", upperFirst(PassesByHand(u.Passes)))
		if u.Passes > manyPasses {
			w.say("Rip saw or band saw, 1/16 in (1.5 mm) outside the scribed line; then the plane.")
		}
	case u.Passes > 1:
		w.name("%d passes, the last at this setting", u.Passes)
	}
	if len(u.Cleans) > 0 {
		w.say("Finished here: %s.", memberWords(w.cell.picture.plan.Section, u.Cleans))
	}
	if w.cell.picture.plan.tool(u.Tool).Kind == cutter.Dovetail {
		w.say("From end to end at this height: never plunge, raise or lower it in the wood.")
	}
	switch {
	case u.Rips:
		w.say("The molding comes free. Joint the edge, mold the next.")
	case u.Frees:
		w.say("An offcut comes free.")
	}
	if u.Warning != "" {
		w.say("WATCH: %s.", u.Warning)
	}
}

// tiltWay says to which side the top of a blade or plane leans.
func tiltWay(u cutter.Setup) string {
	to := "fence"
	if u.Work == cutter.Plane {
		to = "stop"
	}
	if u.Tilt < 0 {
		return "away from the " + to
	}
	return "to the " + to
}

// settingShort returns a setting in large figures: a fraction, or millimeters to a hundredth with their unit.
func (st Style) settingShort(mm float64) string {
	if st.inches() {
		return st.Lengths.Drawing(mm)
	}
	return st.Lengths.SetDrawing(mm)
}

// decimal returns an inch setting in decimals, in parentheses; "" in millimeters.
func (st Style) decimal(mm float64) string {
	if !st.inches() {
		return ""
	}
	return fmt.Sprintf("(%.3f)", mm/measure.MMPerInch)
}

// leading says which end goes in first.
func leading(u cutter.Setup) string {
	if u.EndForEnd {
		return "Left end first; you see the right end"
	}
	return "Right end first; you see the left end"
}

// settingBoth returns a setting as a tool is set to it: fraction and decimal, or millimeters to a hundredth.
func (st Style) settingBoth(mm float64) string { return st.Lengths.SetDrawing(mm) }

// memberWords names elements by their numbers: "2 cove, 3 fillet".
func memberWords(s profile.Section, indexes []int) string {
	var out []string
	for _, i := range indexes {
		for _, m := range s.Members {
			if m.Index == i {
				out = append(out, fmt.Sprintf("%d %s", i, m.Kind.Words()))
			}
		}
	}
	return strings.Join(out, ", ")
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
