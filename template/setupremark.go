package template

import (
	"fmt"
	"math"
	"strings"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter"
	"listel/template/sheet"
)

// A remark is a paragraph beside a picture.
type remark struct {
	text   string
	size   float64
	weight sheet.Weight
	number string // a figure behind the text, or under it when both do not fit a line
	tail   string // lighter, behind the figure
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

// set returns the remark with its top left corner at the origin, and its height.
func (r remark) set(width float64) (sheet.Drawing, float64) {
	size := r.size
	if r.number == "" {
		return sheet.Paragraph{Text: r.text, Width: width, Size: size, Weight: r.weight}.Set(geom.Point{})
	}
	number := sheet.Text{S: r.text + " " + r.number, Size: size, Weight: r.weight, At: geom.Pt(0, -sheet.CapHeight(size))}
	tail := sheet.Text{S: r.tail, Size: noteSize}
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
	w.out = append(w.out, remark{text: text, size: 12, weight: sheet.Bold, number: figure, tail: decimal, place: w.place})
}

func (w *remarkWriter) add(size float64, weight sheet.Weight, format string, args ...any) {
	w.out = append(w.out, remark{text: fmt.Sprintf(format, args...), size: size, weight: weight, place: w.place})
}

// say adds a plain remark, name a bold one.
func (w *remarkWriter) say(format string, args ...any)  { w.add(9, sheet.Regular, format, args...) }
func (w *remarkWriter) name(format string, args ...any) { w.add(10, sheet.Bold, format, args...) }

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
	w.bearing()
}

// lowFence is the height, mm, that any fence has, and lowStop that any stop has: what bears no higher needs no words. Common practice, no source.
const (
	lowFence = measure.MMPerInch
	lowStop  = measure.MMPerInch / 2
)

// bearing says how high fence or stop must be, and may be.
func (w *remarkWriter) bearing() {
	u := w.cell.picture.setup()
	unit := inUnits(w.st.Lengths, 1./16, 1)
	least := w.st.figure(math.Ceil(u.FenceHigh/unit-0.01) * unit)
	mm, over := stopHeight(u)
	switch {
	case u.Rips:
	case u.Work != cutter.Plane && u.FenceHigh > lowFence:
		w.say("Fence at least %s high: the stick bears up there.", least)
	case u.Work != cutter.Plane:
	case !stopHolds(u):
		w.say("the plane runs where the stop would stand: hold the stick in the vise, or by dogs at its ends")
	case u.FenceHigh > lowStop:
		w.say("stop at least %s high: the stick bears up there", least)
	case over && byHandSize(mm-1, w.st.Lengths) < max(w.cell.picture.fenceDrawn(), lowStop):
		w.say("stop no higher than %s: the plane passes over it", w.st.figure(byHandSize(mm-1, w.st.Lengths)))
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
		w.out = append(w.out, remark{text: about, size: 12, weight: sheet.Bold, number: angle, tail: tiltWay(u), place: w.place})
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
		w.name("%s", upperFirst(PassesByHand(u)))
		if words := roughByHand(u, w.st); words != "" {
			w.say("%s", words)
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
	if words := u.Words(w.st.Lengths); words != "" {
		w.say("WATCH: %s.", words)
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
