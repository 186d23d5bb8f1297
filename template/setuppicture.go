package template

import (
	"math"
	"slices"

	"listel/profile/geom"
	"listel/template/cutter"
	"listel/template/sheet"
)

// Sizes in the picture of a set-up, mm on paper.
const (
	bedThick   = 4.0 // of table and fence
	bedBeyond  = 5.0 // of the table past the wood
	dimBelow   = 4.5 // from the table's lower side, or a tool that reaches lower, to the dimension of the fence
	dimBeside  = 2.5 // from the table, or a tool that stands out farther, to the dimension of the height
	woodRules  = 2.2 // between the lines of the wood that stays
	wasteRules = 0.7
	offRules   = 1.8 // of what falls off
)

// Pens of the picture.
var (
	woodPen  = sheet.PenHair.WithGray(0.45)
	wastePen = sheet.Pen{Width: 0.32}
	toolPen  = sheet.Pen{Width: 0.4}
	endPen   = sheet.Pen{Width: 0.25, Dash: [4]float64{1.2, 0.7}}
)

// A setupPicture is the picture of one set-up: the end of the stick as it lies on the machine, seen from where it is fed in, with the fence at
// the right.
type setupPicture struct {
	plan  SetupPlan
	stick *cutStick
	i     int     // of the set-up, from 0
	k     float64 // mm of paper for a mm of wood
	st    Style
}

func (v setupPicture) setup() cutter.Setup { return v.plan.Plan.Setups[v.i] }

// place returns the map from section to paper: the corner of table and fence is the origin, the wood lies left of it and above.
func (v setupPicture) place() geom.Affine {
	return machine(v.setup()).Then(geom.Translation(geom.Pt(-v.leftOut(), 0))).Then(geom.Scaling(-v.k, v.k))
}

// extent returns how far the wood that is shown reaches from fence and table, mm of wood.
func (v setupPicture) extent() (from, over float64) {
	m := machine(v.setup())
	for _, p := range v.stick.blank.pts {
		q := m.Apply(p)
		from, over = math.Max(from, q.X), math.Max(over, q.Y)
	}
	return from - v.leftOut(), over
}

// drawing returns the picture.
func (v setupPicture) drawing() sheet.Drawing {
	w, h := v.extent()
	w, h = w*v.k, h*v.k
	return v.bed(w).Add(v.toolMarks()...).Add(v.wood()...).Add(v.face(w, h)...).Add(v.axis()...).Add(v.dims(w)...)
}

// dims returns the two dimensions.
func (v setupPicture) dims(w float64) sheet.Drawing { return v.fenceDim(w).Add(v.heightDim(w)...) }

// bounds returns the bounds of the picture.
func (v setupPicture) bounds() geom.Rect {
	w, h := v.extent()
	w, h = w*v.k, h*v.k
	wood := geom.Rect{Min: geom.Pt(-w, 0), Max: geom.Pt(0, h)}.Expand(0.25)
	return v.bed(w).Add(v.toolMarks()...).Add(v.face(w, h)...).Add(v.axis()...).Add(v.dims(w)...).Bounds().Union(wood)
}

// reach returns the x on paper of the leftmost place of wood, table and tool.
func (v setupPicture) reach(w float64) float64 {
	table, _ := v.boxes(w)
	x := table.Min.X
	for _, p := range v.onPaper(v.stick.cuts[v.i].pts) {
		x = min(x, p.X)
	}
	return x
}

// bed returns table and fence.
func (v setupPicture) bed(w float64) sheet.Drawing {
	table, fence := v.boxes(w)
	d := v.packed(table).Add(sheet.FillBox(table, 0.8), sheet.Box(table, sheet.PenThin))
	if fence.Max.Y <= 0 { // no stop can stand there
		return d
	}
	return d.Add(sheet.FillBox(fence, 0.8), sheet.Box(fence, sheet.PenThin))
}

// face returns what is seen of the fence through a tool that stands in it: the fence lies on both sides of the cutter, and its one half before it. Where no stop can
// stand, it is the line that distances are measured from.
func (v setupPicture) face(w, h float64) sheet.Drawing {
	_, fence := v.boxes(w)
	if fence.Max.Y <= 0 {
		return sheet.Drawing{sheet.Line(geom.Pt(0, fence.Min.Y), geom.Pt(0, h+2), sheet.PenHidden)}
	}
	if v.inFence() == 0 {
		return nil
	}
	return sheet.Drawing{sheet.Box(fence, sheet.PenThin)}
}

// inFence returns how far, mm on paper, the tool comes in behind the fence's face under the height that the fence is drawn with, 0 where it does not.
func (v setupPicture) inFence() float64 {
	u, deep, high := v.setup(), 0.0, v.fenceDrawn()*v.k
	for _, pts := range [][]geom.Point{v.onPaper(v.stick.cuts[v.i].pts), v.onPaper(polygonOf(u.Body).pts)} {
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			for k := range 9 {
				if p := a.Lerp(b, float64(k)/8); p.Y > 0 && p.Y <= high {
					deep = max(deep, p.X)
				}
			}
		}
		if u.Work != cutter.Router {
			break
		}
	}
	return deep
}

// boxes returns where table and fence are drawn; w is how far the wood reaches from the fence on paper. The table goes on past a tool that comes up beside the wood, the fence
// is thicker than a tool goes into it.
func (v setupPicture) boxes(w float64) (table, fence geom.Rect) {
	high, thick := v.fenceDrawn()*v.k, bedThick
	if v.setup().Work != cutter.Plane {
		if deep := v.inFence(); deep > 0 {
			thick = max(thick, deep+2)
		}
	}
	left := -w
	if v.setup().Enters == "table" {
		for _, p := range v.onPaper(v.stick.cuts[v.i].pts) {
			left = min(left, p.X)
		}
	}
	down := packing(v.setup(), v.st.Lengths) * v.k
	table = geom.Rect{Min: geom.Pt(left-bedBeyond, -bedThick-down), Max: geom.Pt(thick, -down)}
	fence = geom.Rect{Min: geom.Pt(0, -down), Max: geom.Pt(thick, high)}
	return table, fence
}

// fenceDrawn returns the height, mm of wood, that fence or stop is drawn with: at least what must bear on it needs, and a stop no higher than the plane lets it be.
// It is 0 where no stop can stand.
func (v setupPicture) fenceDrawn() float64 {
	u := v.setup()
	_, h := v.extent()
	if u.Work != cutter.Plane {
		return max(8/v.k, h*0.75, u.FenceHigh)
	}
	if !stopHolds(u) {
		return 0
	}
	high := max(4/v.k, h*0.3, u.FenceHigh)
	if mm, over := stopHeight(u); over {
		high = min(high, mm)
	}
	return high
}

// packed returns the packing between bench and wood, where the plane comes lower than the face that lies down: under the wood, back from the cut.
func (v setupPicture) packed(table geom.Rect) sheet.Drawing {
	if table.Max.Y == 0 {
		return nil
	}
	w, _ := v.extent()
	box := geom.Rect{Min: geom.Pt(-w*v.k, table.Max.Y), Max: geom.Pt(0, 0)}
	for _, p := range v.onPaper(v.stick.cuts[v.i].pts) {
		if p.Y < 0 && p.X < box.Center().X {
			box.Min.X = max(box.Min.X, p.X+2)
		} else if p.Y < 0 {
			box.Max.X = min(box.Max.X, p.X-2)
		}
	}
	if box.Width() < 1 {
		return nil
	}
	return sheet.Drawing{sheet.FillBox(box, 0.9), sheet.Box(box, sheet.PenThin)}
}

// toolMarks returns the tool: what cuts, and the shank or body behind it.
func (v setupPicture) toolMarks() sheet.Drawing {
	u := v.setup()
	body, cut := v.onPaper(polygonOf(u.Body).pts), v.onPaper(polygonOf(u.Silhouette).pts)
	var d sheet.Drawing
	if u.Work == cutter.Router {
		d = d.Add(sheet.FillPolygon(0.93, body...), sheet.Stroke{Path: geom.Polygon(body...), Pen: sheet.PenHair})
	}
	return d.Add(sheet.FillPolygon(0.93, cut...), sheet.Stroke{Path: geom.Polygon(cut...), Pen: toolPen})
}

func (v setupPicture) onPaper(pts []geom.Point) []geom.Point {
	m := v.place()
	out := make([]geom.Point, len(pts))
	for i, p := range pts {
		out[i] = m.Apply(p)
	}
	return out
}

// wood returns the wood that stays, what is taken with its edge as it stood before, and the section that is to come.
func (v setupPicture) wood() sheet.Drawing {
	m, n, s := v.place(), v.i+1, v.stick
	rule := func(paper geom.Angle, gap float64, keep func(geom.Point) bool) geom.Path {
		dir := m.Inverse().ApplyVector(geom.Polar(1, paper*geom.Degree))
		return s.hatch(n, dir.Angle(), gap/v.k, keep).Transform(m)
	}
	cut := s.cuts[v.i]
	gone := func(p geom.Point) bool { return s.stands(v.i, p) && !s.stands(n, p) }
	taken := rule(-45, wasteRules, func(p geom.Point) bool { return cut.holds(p) && gone(p) })
	off := rule(-45, offRules, func(p geom.Point) bool { return !cut.holds(p) && gone(p) })
	stays := rule(45, woodRules, func(p geom.Point) bool { return s.stands(n, p) })
	return sheet.Drawing{
		sheet.Stroke{Path: stays, Pen: woodPen},
		sheet.Stroke{Path: off, Pen: sheet.PenHair},
		sheet.Stroke{Path: taken, Pen: wastePen},
		sheet.Stroke{Path: s.edges(v.i).Transform(m), Pen: sheet.PenHidden},
		sheet.Stroke{Path: s.section.Transform(m), Pen: endPen},
		sheet.Stroke{Path: s.edges(n).Transform(m), Pen: sheet.PenOutline},
		sheet.Stroke{Path: geom.Polygon(v.onPaper(cut.pts)...), Pen: toolPen},
	}
}

// axis returns the line that a router bit turns about.
func (v setupPicture) axis() sheet.Drawing {
	u := v.setup()
	if u.Work != cutter.Router {
		return nil
	}
	x := -u.Axis * v.k
	return sheet.Drawing{sheet.Line(geom.Pt(x, -bedThick-2), geom.Pt(x, u.Height*v.k+2), sheet.PenCenter)}
}

// edge returns the cutting edge that the fence is set by, mm from the fence: the nearest, or the farthest where the nearest stands behind the
// fence's face.
func edgeToFence(u cutter.Setup) (mm float64, far bool) {
	if u.Fence < -0.005 {
		return u.Far, true
	}
	return u.Fence, false
}

// setting returns a length that a machine is set to, as it stands on a drawing.
func (st Style) setting(mm float64) string {
	if st.inches() {
		return st.Lengths.Drawing(mm)
	}
	s := st.Lengths.SetDrawing(mm)
	return s[:len(s)-len(" mm")]
}

// figure returns what a dimension of the picture says: a setting, by hand to 1/64 in or 0.5 mm; of an edge behind the fence's face that it is inside.
func (v setupPicture) figure(mm float64) string {
	if mm < 0 {
		return v.figure(-mm) + " inside"
	}
	if v.setup().Work == cutter.Plane {
		return v.st.figure(byHandSize(mm, v.st.Lengths))
	}
	return v.st.setting(mm)
}

// fenceDim returns the dimension from the fence to the cutting edge, under the table; of a rip that from the molded edge to the blade.
func (v setupPicture) fenceDim(w float64) sheet.Drawing {
	mm, _ := edgeToFence(v.setup())
	x, to := -(mm-v.leftOut())*v.k, 0.0
	if v.setup().Rips {
		mm = stripOf(v.plan.Plan)
		x, to = -w, -w+mm*v.k
	}
	table, _ := v.boxes(w)
	low := table.Min.Y
	for _, p := range v.onPaper(v.stick.cuts[v.i].pts) {
		low = min(low, p.Y)
	}
	y := low - dimBelow
	d := sheet.Dim{A: geom.Pt(x, table.Min.Y), B: geom.Pt(to, table.Min.Y), At: y, Along: sheet.Across}.Drawing()
	t := sheet.Text{At: geom.Pt((x+to)/2, y-2.4), S: v.figure(mm), Size: nameSize, Weight: sheet.Bold, Anchor: sheet.Top}
	half := t.Width() / 2
	t.At.X = min(max(t.At.X, table.Min.X+half), table.Max.X-half)
	return d.Add(t)
}

// heightDim returns the dimension from the table to the highest cutting point, or from the bench to the lowest for a plane, beside the wood.
func (v setupPicture) heightDim(w float64) sheet.Drawing {
	u := v.setup()
	y, x := u.Height*v.k, v.reach(w)-dimBeside
	table, _ := v.boxes(w)
	tip := v.tip(y)
	d := sheet.Drawing{sheet.Line(geom.Pt(x-1.5, y), geom.Pt(min(tip-0.5, -w), y), sheet.PenHair)}
	if tip > -w+1 {
		d = d.Add(sheet.Line(geom.Pt(-w, y), geom.Pt(tip, y), sheet.Pen{Width: 0.18, Dash: [4]float64{0.8, 0.8}}))
	}
	d = d.Add(sheet.Line(geom.Pt(x-1.5, 0), geom.Pt(table.Min.X-0.5, 0), sheet.PenHair))
	d = d.Add(sheet.Dim{A: geom.Pt(x, 0), B: geom.Pt(x, y), At: x, Along: sheet.Up, Bare: true}.Drawing()...)
	t := sheet.Text{At: geom.Pt(x-2.4, y/2), S: v.figure(math.Abs(u.Height)), Size: nameSize, Weight: sheet.Bold, Angle: 90 * geom.Degree, Anchor: sheet.Bottom}
	if half := t.Width() / 2; y/2 < half-bedThick {
		t.At.Y = half - bedThick
	}
	return d.Add(t)
}

// tip returns the x of the leftmost point of the tool at the height y on paper.
func (v setupPicture) tip(y float64) float64 {
	var xs []float64
	for _, p := range v.onPaper(v.stick.cuts[v.i].pts) {
		if math.Abs(p.Y-y) < 0.05 {
			xs = append(xs, p.X)
		}
	}
	if len(xs) == 0 {
		return 0
	}
	return slices.Min(xs)
}
