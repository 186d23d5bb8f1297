package serve

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
)

// A caseView is one view of a case in mm, y up.
type caseView struct {
	View   template.ViewName `json:"view"`
	Title  string            `json:"title"`
	More   string            `json:"more"`   // of the title, where there is room
	Cut    float64           `json:"cut_mm"` // of a section: where along the front
	Box    [4]float64        `json:"box"`    // x, y, width, height
	Shapes []caseShape       `json:"shapes"`
	Dims   []caseDim         `json:"dims"`
	Names  []caseName        `json:"names"`
}

// A caseShape is one outline of a view; a later one lies over those before it.
type caseShape struct {
	Kind    template.SurfaceKind `json:"kind"`
	Molding string               `json:"molding,omitempty"`
	Run     string               `json:"run,omitempty"`
	Mark    string               `json:"mark,omitempty"`
	D       string               `json:"d"`
}

// A caseDim is a dimension of a view. Path is the key that gives it, "" for one that follows from others.
type caseDim struct {
	Side  string     `json:"side"`  // of the view that it stands on: foot, top, left or right
	Level int        `json:"level"` // how far out, from 0
	A     [2]float64 `json:"from"`  // what it measures, mm
	B     [2]float64 `json:"to"`
	Text  string     `json:"text"`
	Label string     `json:"label"`
	Path  string     `json:"path,omitempty"`
	Fine  bool       `json:"fine,omitempty"` // for a view that is looked at by itself
}

// A caseName is the name of a molding beside a view, with the place that a line leads to.
type caseName struct {
	Molding string     `json:"molding"`
	Side    string     `json:"side"`
	At      [2]float64 `json:"at"`
	Foot    string     `json:"foot"`
	Path    string     `json:"path"`
}

// newCaseView returns a view as the page draws it; top is how high the case is over all, mm.
func newCaseView(v template.CaseView, top float64, c job.Case, keys library.Keyed, f measure.Format) caseView {
	b := v.Bounds()
	out := caseView{View: v.Name, Title: viewTitles[v.Name], More: cutWords(v, c.Result, f), Cut: v.Cut, Dims: []caseDim{}, Names: []caseName{}, Shapes: []caseShape{}}
	if !b.Empty() {
		out.Box = [4]float64{b.Min.X, b.Min.Y, b.Width(), b.Height()}
	}
	for _, s := range v.Surfaces {
		out.Shapes = append(out.Shapes, caseShape{s.Kind, s.Molding, s.Run, s.Mark, closedData(s.Outline)})
	}
	if v.Name == template.SectionView {
		out.Shapes = append(out.Shapes, jointShapes(v, c.Result)...)
	}
	out.Dims = append(out.Dims, viewDims(v, top, c, keys, f)...)
	if v.Name == template.FrontView || v.Name == template.SectionView {
		out.Names = append(out.Names, viewNames(v, c, f)...)
	}
	return out
}

// viewTitles name the views.
var viewTitles = map[template.ViewName]string{
	template.FrontView: "Front", template.EndView: "Right end", template.PlanView: "Plan", template.SectionView: "Section",
}

// cutWords says where a section is cut, "" for other views.
func cutWords(v template.CaseView, r miter.Result, f measure.Format) string {
	if v.Name != template.SectionView {
		return ""
	}
	b := geom.EmptyRect()
	for _, s := range r.Stages {
		b = b.Union(s.Bounds())
	}
	off := v.Cut - b.Center().X
	switch {
	case b.Empty() || math.Abs(off) < 0.05:
		return "through the middle, seen from the left"
	case off < 0:
		return f.Length(-off) + " left of the middle, seen from the left"
	}
	return f.Length(off) + " right of the middle, seen from the left"
}

// closedData returns a closed outline as the data of an SVG path, in mm to a hundredth.
func closedData(pts []geom.Point) string {
	var b strings.Builder
	last := ""
	for _, p := range pts {
		at := hundredths(p.X) + " " + hundredths(p.Y)
		if at == last {
			continue
		}
		b.WriteByte("ML"[min(b.Len(), 1)])
		b.WriteString(at)
		last = at
	}
	return b.String() + "Z"
}

// hundredths returns a number with at most two decimals.
func hundredths(v float64) string {
	r := math.Round(v*100) / 100
	return strconv.FormatFloat(r+0, 'f', -1, 64) // + 0 makes -0 0
}

// viewDims returns the sizes of the stages and of the whole case where a view shows them.
func viewDims(v template.CaseView, top float64, c job.Case, keys library.Keyed, f measure.Format) []caseDim {
	d := dimming{view: v.Name, box: v.Bounds(), keys: keys, f: f}
	levels := 0
	for i, s := range c.Result.Stages {
		b := s.Bounds()
		if i > 0 && sameSize(b, c.Result.Stages[i-1].Bounds()) {
			continue
		}
		level := 0
		if i > 0 {
			level, levels = levels, levels+1
		}
		d.stageAcross(i, level, s)
		if i < len(c.Case.Stages) {
			d.corners(i, s, c.Case.Stages[i].Plan)
		}
	}
	if v.Name != template.PlanView {
		d.heights(c.Result, top)
	}
	return d.out
}

func sameSize(a, b geom.Rect) bool {
	return math.Abs(a.Width()-b.Width()) < 0.05 && math.Abs(a.Height()-b.Height()) < 0.05
}

// dimming gathers the dimensions of one view.
type dimming struct {
	view template.ViewName
	box  geom.Rect
	keys library.Keyed
	f    measure.Format
	out  []caseDim
}

// stageAcross adds the width and the depth of a stage, as the view shows them: those of the lowest stage under the view, those of others
// over it.
func (d *dimming) stageAcross(i, level int, s miter.StagePlan) {
	b := s.Bounds()
	side, z := "foot", s.Floor
	if i > 0 {
		side, z = "top", s.Top
	}
	add := func(side string, p, q geom.Point, mm float64, key, label string) {
		d.out = append(d.out, caseDim{Side: side, Level: level, A: [2]float64{p.X, p.Y}, B: [2]float64{q.X, q.Y}, Text: d.f.Length(mm), Label: label + " of " + s.Name,
			Path: d.given(i, key)})
	}
	switch d.view {
	case template.FrontView:
		add(side, geom.Pt(b.Min.X, z), geom.Pt(b.Max.X, z), b.Width(), "plan.width", "width")
	case template.EndView:
		add(side, geom.Pt(b.Min.Y, z), geom.Pt(b.Max.Y, z), b.Height(), "plan.depth", "depth")
	case template.SectionView:
		add(side, geom.Pt(-b.Max.Y, z), geom.Pt(-b.Min.Y, z), b.Height(), "plan.depth", "depth")
	case template.PlanView:
		add("right", geom.Pt(b.Max.X, b.Min.Y), geom.Pt(b.Max.X, b.Max.Y), b.Height(), "plan.depth", "depth")
	}
}

// given returns the path of a stage's key when the file gives it, "" when the size follows from others: that of a breakfront or an octagon.
func (d *dimming) given(i int, key string) string {
	path := stageKey(d.keys, i, key)
	if _, ok := d.keys.Text(path); !ok || d.keys.Has(stageKey(d.keys, i, "plan.breakfront")) && key == "plan.depth" {
		return ""
	}
	return path
}

// stageKey returns the path of a key of a stage: a single one may be written at the top level.
func stageKey(keys library.Keyed, i int, key string) string {
	if i == 0 && keys.Len("stages") == 0 {
		return key
	}
	return fmt.Sprintf("stages[%d].%s", i, key)
}

// heights adds the heights of the stages and of what lies between them, and the height over all.
func (d *dimming) heights(r miter.Result, top float64) {
	type mark struct {
		z    float64
		path string
		name string
	}
	var marks []mark
	for i, s := range r.Stages {
		marks = append(marks, mark{s.Floor, "", ""}, mark{s.Top, d.given(i, "height"), s.Name})
	}
	slices.SortStableFunc(marks, func(a, b mark) int { return cmp.Compare(a.z, b.z) })
	side, x := "right", d.box.Max.X
	if d.view == template.SectionView { // its right is where the moldings and their names are
		side, x = "left", d.box.Min.X
	}
	add := func(level int, a, b float64, label, path string) {
		d.out = append(d.out, caseDim{Side: side, Level: level, A: [2]float64{x, a}, B: [2]float64{x, b}, Text: d.f.Length(b - a), Label: label, Path: path})
	}
	from := 0.0
	for _, m := range marks {
		if m.z-from < 0.05 {
			continue
		}
		label := "height between stages"
		if m.name != "" {
			label = "height of " + m.name
		}
		add(0, from, m.z, label, m.path)
		from = m.z
	}
	if top-from > 0.05 || len(r.Stages) > 1 {
		add(1, 0, top, "height over all", "")
	}
}

// viewNames returns the names of the moldings beside a view: at its left, but at the right of a section, where the front is.
func viewNames(v template.CaseView, c job.Case, f measure.Format) []caseName {
	var out []caseName
	way, side := -1.0, "left"
	if v.Name == template.SectionView {
		way, side = 1, "right"
	}
	for i, m := range c.Result.Moldings {
		at, found := geom.Point{}, false
		for _, s := range v.Surfaces {
			if s.Molding != m.Name {
				continue
			}
			for _, p := range s.Outline {
				if !found || way*p.X > way*at.X || p.X == at.X && p.Y > at.Y {
					at, found = p, true
				}
			}
		}
		if found {
			out = append(out, caseName{m.Name, side, [2]float64{at.X, at.Y}, f.Length(m.Foot), fmt.Sprintf("moldings[%d].at", i)})
		}
	}
	return out
}
