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
}

// flush is under what distance, in mm, two things are said to lie in one: the half of 1/64 in.
const flush = measure.MMPerInch / 128

// An arrangement is where the parts of a cell go.
type arrangement struct {
	picture geom.Rect
	words   []geom.Rect // columns, filled in turn
	scale   float64     // of the words' lettering
}

// arrange returns how picture and words lie: beside each other, or the words in two columns under a wide picture; ok is false when neither
// way holds them.
func (c setupCell) arrange() (a arrangement, ok bool) {
	_, top := c.head()
	b := c.picture.bounds()
	beside := arrangement{
		picture: geom.Rect{Min: geom.Pt(cellMargin, cellMargin), Max: geom.Pt(c.w-cellMargin-cellWords-3, top)},
		words:   []geom.Rect{{Min: geom.Pt(c.w-cellMargin-cellWords, cellMargin), Max: geom.Pt(c.w-cellMargin, top)}},
	}
	foot := top - b.Height() - 3
	half := (c.w - 2*cellMargin - 3) / 2
	under := arrangement{
		picture: geom.Rect{Min: geom.Pt(cellMargin, foot), Max: geom.Pt(c.w-cellMargin, top)},
		words: []geom.Rect{
			{Min: geom.Pt(cellMargin, cellMargin), Max: geom.Pt(cellMargin+half, foot)},
			{Min: geom.Pt(c.w-cellMargin-half, cellMargin), Max: geom.Pt(c.w-cellMargin, foot)},
		},
	}
	for _, k := range []float64{1, 0.92, 0.85, 0.8} {
		for _, a := range []arrangement{beside, under} {
			a.scale = k
			if _, fits := c.setWords(a); fits && b.Width() <= a.picture.Width() && b.Height() <= a.picture.Height() {
				return a, true
			}
		}
	}
	beside.scale = 0.8
	return beside, false
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

// setWords sets the remarks in the columns, and reports whether they hold them.
func (c setupCell) setWords(a arrangement) (sheet.Drawing, bool) {
	var d sheet.Drawing
	col, y := 0, a.words[0].Max.Y
	for _, r := range c.remarks() {
		set, h := r.set(a.scale, a.words[col].Width())
		if y-h < a.words[col].Min.Y && col+1 < len(a.words) {
			col++
			y = a.words[col].Max.Y
			set, h = r.set(a.scale, a.words[col].Width())
		}
		d = d.Add(set.At(geom.Pt(a.words[col].Min.X, y))...)
		y -= h + 1.1
	}
	return d, y+1.1 >= a.words[col].Min.Y
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

// remarks returns what is said beside the picture.
func (c setupCell) remarks() []remark {
	u, st := c.picture.setup(), c.picture.st
	var out []remark
	big := func(text string, mm float64) {
		figure, decimal := st.settingShort(mm), st.decimal(mm)
		if u.Work == cutter.Plane {
			figure, decimal = st.Lengths.Drawing(byHandSize(mm, st.Lengths)), ""
		}
		out = append(out, remark{text, 12, sheet.Bold, 10, figure, decimal})
	}
	add := func(size, least float64, w sheet.Weight, format string, args ...any) {
		out = append(out, remark{text: fmt.Sprintf(format, args...), size: size, weight: w, least: least})
	}
	say := func(format string, args ...any) { add(9, 7, sheet.Regular, format, args...) }
	name := func(format string, args ...any) { add(10, 8, sheet.Bold, format, args...) }
	stop, over := "Fence", "Height"
	if u.Work == cutter.Plane {
		stop, over = "From the stop", "Over the bench"
		name("%s down, %s to the stop", upperFirst(string(u.OnTable)), u.AgainstFence)
	} else {
		name("%s on the table, %s to the fence", upperFirst(string(u.OnTable)), u.AgainstFence)
		name("%s", leading(u))
	}
	switch mm, far := edgeToFence(u); {
	case u.Rips:
		big("Blade to edge", stripOf(c.picture.plan.Plan))
		say("fence %s, on a board %s wide", st.settingBoth(mm), st.Lengths.Drawing(c.picture.plan.Plan.Blank.Width))
	case !far:
		big(stop, mm)
	case u.Work == cutter.Plane && mm < 0:
		say("the plane runs over the stop, its far edge %s behind the stop's face: the stop lower than that edge", st.Lengths.Drawing(byHandSize(-mm, st.Lengths)))
	case u.Work == cutter.Plane:
		big("Stop to FAR edge", mm)
	case mm > 0:
		big(stop+" to FAR edge", mm)
		if -u.Fence > flush {
			say("the near edge runs %s inside the fence", st.setting(-u.Fence))
		}
	default:
		say("at the table the blade stands inside the fence, its far side %s behind the fence's face", st.setting(-mm))
	}
	big(over, u.Height)
	switch {
	case u.Work != cutter.Router:
	case math.Abs(u.Axis) < flush:
		say("axis at the fence's face")
	case u.Axis < 0:
		say("axis %s inside the fence", st.settingBoth(-u.Axis))
	default:
		say("axis %s from the fence", st.settingBoth(u.Axis))
	}
	if angle := tiltOf(u, st.Lengths); angle != "" {
		about := map[bool]string{false: "Tilt", true: "Tilt about"}[u.Work == cutter.Plane]
		out = append(out, remark{about, 12, sheet.Bold, 10, angle, tiltWay(u)})
	}
	if u.Work == cutter.Plane && u.Tilt != 0 {
		name("Work to the scribed line")
	}
	switch {
	case u.Work == cutter.Plane && u.Passes > 1:
		name("%s", upperFirst(PassesByHand(u.Passes)))
	case u.Passes > 1:
		name("%d passes, the last at this setting", u.Passes)
	}
	if len(u.Cleans) > 0 {
		say("Clean now: %s.", memberWords(c.picture.plan.Section, u.Cleans))
	}
	if c.picture.plan.tool(u.Tool).Kind == cutter.Dovetail {
		say("From end to end at this height: never plunge, raise or lower it in the wood.")
	}
	switch {
	case u.Rips:
		say("The molding comes free. Joint the edge, mold the next.")
	case u.Frees:
		say("An offcut comes free.")
	}
	if u.Warning != "" {
		say("WATCH: %s.", u.Warning)
	}
	return out
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
	if st.Lengths.Units == measure.Inches {
		return st.Lengths.Drawing(mm)
	}
	return st.Lengths.SetDrawing(mm)
}

// decimal returns an inch setting in decimals, in parentheses; "" in millimeters.
func (st Style) decimal(mm float64) string {
	if st.Lengths.Units != measure.Inches {
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
				out = append(out, fmt.Sprintf("%d %s", i, strings.ReplaceAll(string(m.Kind), "-", " ")))
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
