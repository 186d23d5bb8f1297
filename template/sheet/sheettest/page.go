package sheettest

import (
	"errors"
	"fmt"
	"strings"

	"listel/profile/geom"
)

// A Page is what one page prints, in mm from its lower left corner.
type Page struct {
	Width, Height float64 // mm
	Paths         []Path
	Texts         []Text
	Pictures      int
}

// A Path is one path that was stroked or filled.
type Path struct {
	Runs    []Run
	Stroked bool
	Filled  bool
	EvenOdd bool
	Width   float64   // of the pen, mm
	Dashes  []float64 // mm
	Gray    float64   // of the stroke, or of the fill when it is filled only
}

// A Run is one connected part of a path.
type Run struct {
	Start  geom.Point
	Curves []Curve
	Closed bool
}

// A Curve is a line, or a cubic Bezier curve when Cubic is set.
type Curve struct {
	C1, C2, End geom.Point
	Cubic       bool
}

// Points returns points on the run, n to each curve, the start first.
func (r Run) Points(n int) []geom.Point {
	pts := []geom.Point{r.Start}
	at := r.Start
	add := func(c Curve) {
		for i := 1; i <= n; i++ {
			t := float64(i) / float64(n)
			if !c.Cubic {
				pts = append(pts, at.Lerp(c.End, t))
				continue
			}
			ab := c.C1.Lerp(c.C2, t)
			pts = append(pts, at.Lerp(c.C1, t).Lerp(ab, t).Lerp(ab.Lerp(c.C2.Lerp(c.End, t), t), t))
		}
		at = c.End
	}
	for _, c := range r.Curves {
		add(c)
	}
	if r.Closed && !at.Near(r.Start, 1e-9) {
		add(Curve{End: r.Start})
	}
	return pts
}

// Points returns points on all runs.
func (p Path) Points(n int) []geom.Point {
	var pts []geom.Point
	for _, r := range p.Runs {
		pts = append(pts, r.Points(n)...)
	}
	return pts
}

// Bounds returns the bounds of the ink: half the pen's width round a stroke.
func (p Path) Bounds() geom.Rect {
	b := geom.EmptyRect()
	for _, q := range p.Points(16) {
		b = b.Include(q)
	}
	if p.Stroked {
		b = b.Expand(p.Width / 2)
	}
	return b
}

// A Text is one piece of lettering.
type Text struct {
	S    string
	At   geom.Point // start of its baseline, mm
	Size float64    // points
}

// Words returns all text of the page, a line to each piece, in the order of printing.
func (p Page) Words() string {
	var b strings.Builder
	for _, t := range p.Texts {
		b.WriteString(t.S + "\n")
	}
	return b.String()
}

// readPage runs the content of a page.
func (f *File) readPage(ref any) (Page, error) {
	d, ok := f.dict(ref)
	if !ok {
		return Page{}, errors.New("no page object")
	}
	box, ok := f.get(d["MediaBox"]).([]any)
	if !ok || len(box) != 4 {
		return Page{}, errors.New("no MediaBox")
	}
	var v [4]float64
	for i := range v {
		if v[i], ok = box[i].(float64); !ok {
			return Page{}, errors.New("the MediaBox is no rectangle")
		}
	}
	if v[0] != 0 || v[1] != 0 {
		return Page{}, errors.New("the MediaBox does not start at 0 0")
	}
	content, err := f.Unpack(d["Contents"])
	if err != nil {
		return Page{}, err
	}
	resources, _ := f.dict(d["Resources"])
	m := &machine{file: f, resources: resources, page: Page{Width: v[2] / PointsPerMM, Height: v[3] / PointsPerMM}}
	m.now = state{matrix: geom.Scaling(1/PointsPerMM, 1/PointsPerMM), pen: 1}
	s := &scanner{b: content}
	for {
		o, err := s.next()
		if errors.Is(err, errEnd) {
			return m.page, nil
		}
		if err != nil {
			return Page{}, err
		}
		op, ok := o.(Operator)
		if !ok {
			m.stack = append(m.stack, o)
			continue
		}
		if err := m.run(string(op)); err != nil {
			return Page{}, fmt.Errorf("operator %s: %w", op, err)
		}
		m.stack = m.stack[:0]
	}
}
