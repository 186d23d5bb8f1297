package template

import (
	"math"
	"slices"

	"listel/profile/geom"
	"listel/template/cutter"
	"listel/template/sheet"
)

// A blankLayout is the end of the blank with the section on it and a line to scribe at every joint of its members, each with its
// distance from the face that a gauge runs on.
type blankLayout struct {
	blank   geom.Path // on paper, mm of wood, its lower left corner at the origin
	section geom.Path
	gap     geom.Path // the outline between dentils, nil without them
	joints  []geom.Point
	w, h    float64
	left    string // names of the faces that distances are measured from
	below   string
	board   cutter.Face // that the blank goes on behind, a board: distances are then from its molded edge; "" for a stick
}

// sameLine is the distance, in mm, under which two joints share a scribed line.
const sameLine = 0.3

// newBlankLayout returns the layout of a plan's blank: as it stands on the case, or lying on its back when it is sprung.
func newBlankLayout(p SetupPlan) blankLayout {
	turn := geom.Identity()
	l := blankLayout{left: "back", below: "foot"}
	if p.Section.Leans() {
		turn = geom.Rotation(90*geom.Degree + p.Section.Spring.Angle)
		l.left, l.below = "top edge", "back"
	}
	blank := geom.Polygon(p.shown().pts...).Transform(turn)
	if p.Plan.Blank.Board > 0 {
		l.board = p.Plan.Setups[len(p.Plan.Setups)-1].AgainstFence
	}
	b := blank.Bounds()
	turn = turn.Then(geom.Translation(geom.Point{}.Sub(b.Min)))
	l.blank, l.section = blank.Translate(geom.Point{}.Sub(b.Min)), p.Section.Outline.Transform(turn)
	l.w, l.h = b.Width(), b.Height()
	l.gap = p.Section.Gap.Transform(turn)
	for _, f := range p.Plan.Faces {
		for _, q := range [][2]float64{f.Points[0], f.Points[len(f.Points)-1]} {
			l.joints = append(l.joints, turn.Apply(geom.Pt(q[0], q[1])))
		}
	}
	return l
}

// lines returns the distances of the scribed lines from the left face and from the lower one, each once, without the faces themselves.
func (l blankLayout) lines() (xs, ys []float64) {
	for _, p := range l.joints {
		xs, ys = append(xs, p.X), append(ys, p.Y)
	}
	return distinctLines(xs, l.w), distinctLines(ys, l.h)
}

func distinctLines(vs []float64, most float64) []float64 {
	slices.Sort(vs)
	var out []float64
	for _, v := range vs {
		if v > sameLine && v < most-sameLine && (len(out) == 0 || v-out[len(out)-1] > sameLine) {
			out = append(out, v)
		}
	}
	return out
}

// Distances of the layout, mm on paper.
const (
	scribeOver = 3.0 // of a scribed line past the blank
	scribeFar  = 8.5 // to its label
	scribePast = 2.5 // of a scribed line past the farthest joint that it is for
	scribeNear = 1.2 // between lines that would run into one: every other is then broken
)

// farthest returns how far left, and how high, the joints go that a line is for.
func (l blankLayout) farthest(on func(p geom.Point) bool) (left, high float64) {
	left = l.w
	for _, p := range l.joints {
		if on(p) {
			left, high = min(left, p.X), max(high, p.Y)
		}
	}
	return left, high
}

// scribePen returns the pen of the i-th line: broken where the one before it is near and is not.
func scribePen(vs []float64, i int, k float64) sheet.Pen {
	n := 0
	for ; i > 0 && (vs[i]-vs[i-1])*k < scribeNear; i-- {
		n++
	}
	if n%2 == 1 {
		return sheet.PenHidden
	}
	return sheet.PenHair
}

// drawing returns the layout at k times the size, its lower left corner of the blank at the origin.
func (l blankLayout) drawing(k float64, st Style) sheet.Drawing {
	m := scaled(k)
	blank, section := l.blank.Transform(m), l.section.Transform(m)
	d := sheet.Drawing{
		sheet.Fill{Paths: []geom.Path{blank}, Rule: sheet.NonZero, Gray: 0.9},
		sheet.Fill{Paths: []geom.Path{section}, Rule: sheet.NonZero, Gray: 1},
	}
	w, h := l.w*k, l.h*k
	xs, ys := l.lines()
	for i, x := range xs {
		_, high := l.farthest(func(p geom.Point) bool { return math.Abs(p.X-x) <= sameLine })
		d = d.Add(sheet.Line(geom.Pt(x*k, -scribeOver), geom.Pt(x*k, min(h, high*k+scribePast)), scribePen(xs, i, k)))
	}
	for i, y := range ys {
		left, _ := l.farthest(func(p geom.Point) bool { return math.Abs(p.Y-y) <= sameLine })
		d = d.Add(sheet.Line(geom.Pt(max(0, left*k-scribePast), y*k), geom.Pt(w+scribeOver, y*k), scribePen(ys, i, k)))
	}
	if len(l.gap) > 0 {
		d = d.Add(sheet.Stroke{Path: l.gap.Transform(m), Pen: sheet.PenHidden})
	}
	d = d.Add(sheet.Stroke{Path: section, Pen: sheet.PenOutline}, sheet.Stroke{Path: blank, Pen: sheet.PenOutline})
	same := func(v float64) float64 { return v }
	across, up := same, same
	switch l.board {
	case cutter.Back, cutter.Spring:
		across = func(x float64) float64 { return l.w - x }
	case cutter.Foot:
		up = func(y float64) float64 { return l.h - y }
	}
	if l.board != cutter.Back && l.board != cutter.Spring {
		xs = append(xs, l.w)
	}
	if l.board != cutter.Foot && l.board != cutter.Top {
		ys = append(ys, l.h)
	}
	d = d.Add(scribeLabels(xs, k, st, across, func(along, out float64) geom.Point { return geom.Pt(along, -out) }, true)...)
	d = d.Add(scribeLabels(ys, k, st, up, func(along, out float64) geom.Point { return geom.Pt(w+out, along) }, false)...)
	over := d.Bounds().Max.Y + 2
	left, from, below := l.left, "from the "+l.left+" →", "from the "+l.below+" ↑"
	switch l.board {
	case cutter.Back, cutter.Spring:
		left, from = "board", "← from the board's edge"
	case cutter.Foot:
		below = "from the board's edge ↓"
	}
	return d.Add(
		sheet.Text{At: geom.Pt(-2, h/2), S: left, Size: nameSize, Angle: 90 * geom.Degree, Anchor: sheet.Bottom, Weight: sheet.Bold},
		sheet.Text{At: geom.Pt(0, over), S: from + "   " + below, Size: noteSize},
	)
}

// scribeLabels returns the distances at the ends of the scribed lines, moved apart where they would meet.
func scribeLabels(vs []float64, k float64, st Style, tell func(v float64) float64, at func(along, out float64) geom.Point, upright bool) sheet.Drawing {
	var d sheet.Drawing
	want, half := make([]float64, len(vs)), make([]float64, len(vs))
	for i, v := range vs {
		want[i], half[i] = v*k, sheet.CapHeight(figureSize)/2+0.9
	}
	for i, along := range sheet.Spread(want, half, 0) {
		t := sheet.Text{At: at(along, scribeFar), S: st.figure(tell(vs[i])), Size: figureSize, Anchor: sheet.Left}
		if upright {
			t.Angle, t.Anchor = 90*geom.Degree, sheet.Right
		}
		line := []geom.Point{at(want[i], scribeOver), at(along, scribeFar-1.7), at(along, scribeFar-0.9)}
		if i == len(vs)-1 { // the blank's own edge: its line starts at the blank
			line = append([]geom.Point{at(want[i], 0.8)}, line...)
		}
		d = d.Add(sheet.Polyline(sheet.PenHair, line...), t)
	}
	return d
}
