package template

import (
	"cmp"
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
	joints  []joint
	w, h    float64
	left    string // names of the faces that distances are measured from
	below   string
	strip   float64     // mm of a board that the molding takes, 0 for a stick
	board   cutter.Face // that the blank goes on behind, a board: distances are then from its molded edge; "" for a stick
}

// A joint is where two members, or two parts of one, meet: a line may be scribed through it across, and up. On a flat that runs in the line, of the length in mm given, it is
// worth more than on a curve.
type joint struct {
	at         geom.Point
	across, up float64
}

// Of scribed lines, mm: under what distance two joints share one, and how near two of them may come. Nobody scribes lines nearer: that with the longest flat is kept.
const (
	sameLine  = 0.3
	nearLines = 1.5
)

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
		l.board, l.strip = p.Plan.Setups[len(p.Plan.Setups)-1].AgainstFence, stripOf(p.Plan)
	}
	b := blank.Bounds()
	turn = turn.Then(geom.Translation(geom.Point{}.Sub(b.Min)))
	l.blank, l.section = blank.Translate(geom.Point{}.Sub(b.Min)), p.Section.Outline.Transform(turn)
	l.w, l.h = b.Width(), b.Height()
	l.gap = p.Section.Gap.Transform(turn)
	for _, f := range p.Plan.Faces {
		a, b := turn.Apply(geom.Pt(f.Points[0][0], f.Points[0][1])), turn.Apply(geom.Pt(f.Points[len(f.Points)-1][0], f.Points[len(f.Points)-1][1]))
		j := joint{}
		switch d := b.Sub(a); {
		case f.Kind != "line":
		case math.Abs(d.Y) < sameLine:
			j.across = d.Norm()
		case math.Abs(d.X) < sameLine:
			j.up = d.Norm()
		}
		for _, at := range []geom.Point{a, b} {
			j.at = at
			l.joints = append(l.joints, j)
		}
	}
	return l
}

// lines returns the distances of the scribed lines from the left face and from the lower one, each once, without the faces themselves.
func (l blankLayout) lines() (xs, ys []float64) {
	var up, across []scribed
	for _, j := range l.joints {
		up, across = append(up, scribed{j.at.X, j.up}), append(across, scribed{j.at.Y, j.across})
	}
	x, y := l.rip()
	return distinctLines(up, l.w, x), distinctLines(across, l.h, y)
}

// rip returns where the molding is ripped off a board, mm from the left face or from the lower one; NaN where it is not.
func (l blankLayout) rip() (x, y float64) {
	x, y = math.NaN(), math.NaN()
	switch l.board {
	case cutter.Back, cutter.Spring:
		x = l.w - l.strip
	case cutter.Foot:
		y = l.h - l.strip
	case cutter.Top:
		y = l.strip
	}
	return x, y
}

// nearest returns the least distance, mm, between two lines, or a line and the face that it runs beside.
func (l blankLayout) nearest() float64 {
	least := math.Inf(1)
	xs, ys := l.lines()
	for _, vs := range [][]float64{append(xs, l.w), append(ys, l.h)} {
		for i := 1; i < len(vs); i++ {
			least = min(least, vs[i]-vs[i-1])
		}
	}
	return least
}

// A scribed line is where one might be, mm, and the length of the flat that runs in it.
type scribed struct{ at, flat float64 }

// distinctLines returns the lines that are scribed, in their order; that of a rip is always one.
func distinctLines(all []scribed, most, rip float64) []float64 {
	if !math.IsNaN(rip) {
		all = append(all, scribed{rip, math.Inf(1)})
	}
	slices.SortStableFunc(all, func(a, b scribed) int { return cmp.Or(cmp.Compare(b.flat, a.flat), cmp.Compare(a.at, b.at)) })
	var out []float64
	for _, v := range all {
		near := func(w float64) bool { return math.Abs(v.at-w) < nearLines }
		if v.at > sameLine && v.at < most-sameLine && !slices.ContainsFunc(out, near) {
			out = append(out, v.at)
		}
	}
	slices.Sort(out)
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
	for _, j := range l.joints {
		if on(j.at) {
			left, high = min(left, j.at.X), max(high, j.at.Y)
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
	ripX, ripY := l.rip()
	pen := func(vs []float64, i int, rip float64) sheet.Pen {
		if math.Abs(vs[i]-rip) < sameLine {
			return sheet.PenCenter
		}
		return scribePen(vs, i, k)
	}
	for i, x := range xs {
		_, high := l.farthest(func(p geom.Point) bool { return math.Abs(p.X-x) <= sameLine })
		d = d.Add(sheet.Line(geom.Pt(x*k, -scribeOver), geom.Pt(x*k, min(h, high*k+scribePast)), pen(xs, i, ripX)))
	}
	for i, y := range ys {
		left, _ := l.farthest(func(p geom.Point) bool { return math.Abs(p.Y-y) <= sameLine })
		d = d.Add(sheet.Line(geom.Pt(max(0, left*k-scribePast), y*k), geom.Pt(w+scribeOver, y*k), pen(ys, i, ripY)))
	}
	if len(l.gap) > 0 {
		d = d.Add(sheet.Stroke{Path: l.gap.Transform(m), Pen: sheet.PenHidden})
	}
	d = d.Add(sheet.Stroke{Path: section, Pen: sheet.PenOutline}, sheet.Stroke{Path: blank, Pen: sheet.PenOutline})
	tell := func(v, rip float64) string {
		if math.Abs(v-rip) < sameLine {
			return "rip " + st.figure(l.strip)
		}
		return st.figure(v)
	}
	across, up := func(x float64) string { return tell(x, ripX) }, func(y float64) string { return tell(y, ripY) }
	switch l.board {
	case cutter.Back, cutter.Spring:
		across = func(x float64) string { return tell(l.w-x, l.w-ripX) }
	case cutter.Foot:
		up = func(y float64) string { return tell(l.h-y, l.h-ripY) }
	}
	if l.board != cutter.Back && l.board != cutter.Spring {
		xs = append(xs, l.w)
	}
	if l.board != cutter.Foot && l.board != cutter.Top {
		ys = append(ys, l.h)
	}
	d = d.Add(scribeLabels(xs, k, across, func(along, out float64) geom.Point { return geom.Pt(along, -out) }, true)...)
	d = d.Add(scribeLabels(ys, k, up, func(along, out float64) geom.Point { return geom.Pt(w+out, along) }, false)...)
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
func scribeLabels(vs []float64, k float64, tell func(v float64) string, at func(along, out float64) geom.Point, upright bool) sheet.Drawing {
	var d sheet.Drawing
	want, half := make([]float64, len(vs)), make([]float64, len(vs))
	for i, v := range vs {
		want[i], half[i] = v*k, sheet.CapHeight(figureSize)/2+0.9
	}
	for i, along := range sheet.Spread(want, half, 0) {
		t := sheet.Text{At: at(along, scribeFar), S: tell(vs[i]), Size: figureSize, Anchor: sheet.Left}
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
