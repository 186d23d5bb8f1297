package cutter

import (
	"math"

	"listel/profile/geom"
)

// A target is what a plan has to reach: points of waste that must go and parts of the face that should be cut clean.
type target struct {
	piece   Piece
	sides   []side
	poly    polygon // the section, flattened
	blank   polygon
	allow   float64
	hard    []geom.Point // waste further from the section than the allowance, and the band just beyond it
	facets  []facet
	samples []sample // of all facets, in their order
}

// A facet is one segment of the worked outline.
type facet struct {
	element int // index of its member, 0 when it is of the back
	kind    facetKind
	seg     geom.Segment
	length  float64
	first   int // its samples
	count   int
}

type facetKind string

const (
	lineFacet  facetKind = "line"
	arcFacet   facetKind = "arc"
	curveFacet facetKind = "curve" // elliptic
)

// A sample is a place on the face; n points out of the wood there.
type sample struct {
	p, n  geom.Point
	facet int
}

const (
	// Face counts as clean where no more than this stays on it, in mm. A fillet shows a ridge of a tenth when the light
	// is across it; common practice, no source.
	cleanLine = 0.06
	cleanArc  = 0.1
	// sampleStep is the distance between places looked at along the face, in mm.
	sampleStep = 0.3
	// hardStep is the least distance between the points of waste that a plan starts from; finer ones are added where it leaves something.
	hardStep = 0.9
	bandStep = 0.45
	// mostPoints is how many points the grid over a blank may have: big ones start from fewer to the square millimeter.
	mostPoints = 3000
)

// near is the least distance of a point of waste from the section for it to count as hard. A place over the allowance is no more than half the
// diagonal of fineStep, 0.057 mm, from a point that is looked at. That point is cut with the first margin, 0.2 mm, so the place is cut with
// 0.143 mm or more, and fence and height both off by 0.1 mm do not move the tool that far.
func (t *target) near() float64 { return t.allow - 0.058 }

func newTarget(p Piece, allowance float64) *target {
	t := &target{piece: p, sides: p.sides(), allow: allowance}
	t.poly = newPolygon(p.Outline.Flatten(0.002))
	t.blank = newPolygon(p.Blank[:])
	t.addFacets()
	t.addHard()
	return t
}

// addFacets takes the segments of the outline that do not lie on the blank, joined where they are one line.
func (t *target) addFacets() {
	for _, s := range t.piece.Outline.Simplify(1e-6) {
		if onBlank(s, t.sides) || s.Length() < 1e-3 {
			continue
		}
		f := facet{seg: s, length: s.Length(), element: t.elementOf(s), first: len(t.samples)}
		tol := cleanLine
		switch s.(type) {
		case geom.Line:
			f.kind = lineFacet
		case geom.Arc:
			f.kind, tol = arcFacet, cleanArc
		default:
			f.kind, tol = curveFacet, cleanArc
		}
		f.count = max(20, int(math.Ceil(f.length/sampleStep)))
		for i := range f.count {
			at := (float64(i) + 0.5) / float64(f.count)
			n := s.Tangent(at).Left().Mul(-1)
			t.samples = append(t.samples, sample{p: s.At(at), n: n.Mul(tol), facet: len(t.facets)})
		}
		t.facets = append(t.facets, f)
	}
}

// elementOf returns the member whose path passes the middle of s; a level step before a member counts as that member's.
func (t *target) elementOf(s geom.Segment) int {
	mid := s.At(0.5)
	for _, m := range t.piece.Members {
		if len(m.Path) == 0 {
			continue
		}
		if _, _, d := m.Path.Nearest(mid); d < 1e-4 {
			return m.Index
		}
	}
	for _, m := range t.piece.Members {
		if len(m.Path) > 0 && (m.Path.Start().Near(s.End(), 1e-4) || m.Path.Start().Near(s.Start(), 1e-4)) {
			return m.Index
		}
	}
	return 0
}

// addHard lays a grid over the waste and a band along the section just beyond the allowance's reach.
func (t *target) addHard() {
	b := t.blank.bounds
	step := math.Max(hardStep, math.Sqrt(b.Width()*b.Height()/mostPoints))
	nx, ny := int(b.Width()/step)+1, int(b.Height()/step)+1
	for i := range nx {
		for j := range ny {
			q := geom.Pt(b.Min.X+(float64(i)+0.5)*b.Width()/float64(nx), b.Min.Y+(float64(j)+0.5)*b.Height()/float64(ny))
			t.addPoint(q)
		}
	}
	for _, f := range t.facets {
		n := max(1, int(math.Ceil(f.length/bandStep)))
		for i := range n {
			at := (float64(i) + 0.5) / float64(n)
			out := f.seg.Tangent(at).Left().Mul(-1)
			t.addPoint(f.seg.At(at).Add(out.Mul(t.near() + 0.03)))
		}
	}
}

func (t *target) addPoint(q geom.Point) {
	if t.isHard(q) {
		t.hard = append(t.hard, q)
	}
}

// isHard reports whether q is waste that a plan must take away.
func (t *target) isHard(q geom.Point) bool {
	return t.blank.contains(q) && !t.poly.contains(q) && t.poly.dist(q) >= t.near()
}
